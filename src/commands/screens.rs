//! `benchwalk` alone: the screens.

use super::settings::Settings;
use super::{CommandError, Context};
use crate::app::App;
use crate::input::Look;
use crate::model::{About, Model, Now, Rescued};
use crate::progress::unwatched;
use crate::record::Plan;
use crate::report::share;
use crate::run::{Ended, run};
use crate::season::Season;
use crate::session::rescue::text_of;
use crate::session::{Beside, SeasonFile};

/// Opens the screens on the season file of the settings, which may not exist yet.
pub(super) fn open(context: &mut Context<'_>) -> Result<(), CommandError> {
    let limits = context.settings.limits()?;
    let settings = &context.settings;
    let mut file = SeasonFile::new(
        settings.season.clone(),
        Beside {
            data: context.folders.data.clone(),
            state: context.folders.state.clone(),
            config_file: settings.config_file.clone(),
            last_year: settings.last_year.clone(),
            sharer: settings.sharer.clone(),
        },
        settings.on,
        context.clock.now(),
    );
    // A file of an older version is brought to the present one here, which may take a while.
    let opened = file.open()?;
    context.line.leave();
    let season = Season::new(opened.as_ref().map_or_else(Plan::default, |o| o.plan.clone()), Vec::new());
    let by = context.settings.by.clone().unwrap_or_default();
    let on = context.settings.on;
    let zone = season.site().map(|site| site.time_zone);
    // A replayed day is not the day of a copy.
    file.keep_copies(context.settings.backups.clone(), crate::clock::day(context.clock, zone, None));
    file.watch_loggers(&context.settings.loggers);
    let now = crate::clock::stamp(context.clock, zone, on);
    let stamp = Now { at: now, ms: 0, id: context.clock.id() };
    let mut model = Model::new(&season, limits, by, stamp, look(&context.settings));
    let limits_file = context.settings.limits_file.as_ref().map(|path| crate::files::shown(path));
    model.set_files(crate::files::shown(&context.settings.season), limits_file);
    if opened.is_some() {
        model.wait_for_entries();
    }
    model.notice(About::File, file.notice());
    let mut app = App::new(model);
    match opened {
        Some(opened) => app.offer(opened.rescued),
        None => tell_left_behind(&mut app, &file.left_behind()),
    }
    let ended = unwatched(|| run(&mut app, &mut file, context.clock, on)).map_err(CommandError::Terminal);
    let id = file.season_id();
    let closed = file.close();
    let Ended { signal, unsaved, journals, terminal } = ended?;
    if !unsaved.is_empty() {
        tracing::error!(records = unsaved.len(), "left unsaved");
        let (count, journal) = (unsaved.len(), text_of(id, &unsaved));
        let season = app.model.path.clone();
        return Err(CommandError::Unsaved { count, season, journals, journal, signal });
    }
    closed?;
    match (signal, terminal) {
        (Some(signal), _) => Err(CommandError::Signal(signal)),
        (None, Some(error)) => Err(CommandError::Terminal(error)),
        (None, None) => {
            if let Some(text) = app.model.sharing.as_deref().and_then(share::leaving) {
                writeln!(context.out, "{text}")?;
            }
            Ok(())
        }
    }
}

/// Where there is no season file, says that there are journals of what could not be saved into it.
fn tell_left_behind(app: &mut App, rescued: &[Rescued]) {
    if let Some(first) = rescued.first() {
        let count: usize = rescued.iter().map(|rescued| rescued.lines.len()).sum();
        let text = format!(
            "The season file is missing, and {count} lines could not be saved into it. Put it back, or a backup of it: \
             then they are offered. They are in {}",
            first.path
        );
        app.model.notice(About::File, Some(text));
    }
}

/// What the terminal is to be trusted with. `NO_COLOR`, set to anything, takes the colors away; a locale of another character set
/// than UTF-8 the signs outside ASCII.
fn look(settings: &Settings) -> Look {
    let plain = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    let dumb = std::env::var_os("TERM").is_some_and(|value| value == "dumb");
    Look { color: !(plain || dumb), ascii: is_ascii(settings.ascii), palette: settings.palette }
}

/// True where only the signs of ASCII are to be used.
pub(super) fn is_ascii(asked: bool) -> bool {
    let dumb = std::env::var_os("TERM").is_some_and(|value| value == "dumb");
    asked || dumb || (!cfg!(windows) && not_utf8(|name| std::env::var(name).ok()))
}

/// True where the locale names a character set that is not UTF-8. The first of the three that is set decides, as for every program;
/// where none is set, or none names a set, nothing is known.
fn not_utf8(variable: impl Fn(&str) -> Option<String>) -> bool {
    let set = ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().filter_map(variable).find(|value| !value.is_empty());
    let Some(locale) = set else { return false };
    if matches!(locale.as_str(), "C" | "POSIX") {
        return true;
    }
    let named = locale.split_once('.').map(|(_, set)| set.split('@').next().unwrap_or(set).to_ascii_lowercase());
    named.is_some_and(|set| set != "utf-8" && set != "utf8")
}

#[cfg(test)]
mod tests {
    use super::not_utf8;

    #[test]
    fn another_character_set_takes_the_signs_away() {
        for (all, ctype, lang, wanted) in [
            (None, None, None, false),
            (None, None, Some("en_US.UTF-8"), false),
            (None, None, Some("de_DE.utf8@euro"), false),
            (None, None, Some("en_US"), false),
            (None, None, Some("C"), true),
            (None, None, Some("POSIX"), true),
            (None, Some("en_US.ISO-8859-1"), Some("en_US.UTF-8"), true),
            (Some("C.UTF-8"), Some("C"), Some("C"), false),
            (Some(""), Some("ja_JP.eucJP"), None, true),
        ] {
            let variable = |name: &str| match name {
                "LC_ALL" => all.map(str::to_owned),
                "LC_CTYPE" => ctype.map(str::to_owned),
                _ => lang.map(str::to_owned),
            };
            assert_eq!(not_utf8(variable), wanted, "{all:?} {ctype:?} {lang:?}");
        }
    }
}
