//! `benchwalk` alone: the screens.

use super::{CommandError, Context};
use crate::app::App;
use crate::input::Look;
use crate::journal;
use crate::model::{Model, Now};
use crate::record::{Line, Plan};
use crate::run::{Ended, run};
use crate::season::Season;
use crate::session::SeasonFile;

/// Opens the screens on the season file of the settings, which may not exist yet.
pub(super) fn open(context: &mut Context<'_>) -> Result<(), CommandError> {
    let limits = context.settings.limits()?;
    let settings = &context.settings;
    let mut file = SeasonFile::new(
        settings.season.clone(),
        context.folders.data.clone(),
        settings.config_file.clone(),
        settings.on,
    );
    let opened = file.open()?;
    let season = Season::new(opened.as_ref().map_or_else(Plan::default, |o| o.plan.clone()), Vec::new());
    let by = context.settings.by.clone().unwrap_or_default();
    let on = context.settings.on;
    let zone = season.site().map(|site| site.time_zone);
    // A replayed day is not the day of a copy.
    file.keep_copies(context.settings.backups.clone(), crate::clock::day(context.clock, zone, None));
    let now = crate::clock::stamp(context.clock, zone, on);
    let stamp = Now { at: now, ms: 0, id: context.clock.id() };
    let mut model = Model::new(&season, limits, by, stamp, look(context.settings.ascii));
    let limits_file = context.settings.limits_file.as_ref().map(|path| path.display().to_string());
    model.set_files(context.settings.season.display().to_string(), limits_file);
    if opened.is_some() {
        model.wait_for_entries();
    }
    if let Some(notice) = file.notice() {
        model.trouble(notice);
    }
    let mut app = App::new(model);
    let ended = run(&mut app, &mut file, context.clock, on).map_err(CommandError::Terminal);
    let closed = file.close();
    let Ended { signal, unsaved } = ended?;
    tell_unsaved(&unsaved)?;
    closed?;
    match signal {
        Some(signal) => Err(CommandError::Signal(signal)),
        None => Ok(()),
    }
}

/// What the terminal is to be trusted with. `NO_COLOR`, set to anything, takes the colors away.
fn look(ascii: bool) -> Look {
    let plain = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    let dumb = std::env::var_os("TERM").is_some_and(|value| value == "dumb");
    Look { color: !(plain || dumb), ascii: ascii || dumb }
}

/// What could not be saved is printed as a journal, so that it can be imported later.
fn tell_unsaved(unsaved: &[Line]) -> Result<(), CommandError> {
    if unsaved.is_empty() {
        return Ok(());
    }
    let entries: Vec<_> = unsaved
        .iter()
        .filter_map(|line| match line {
            Line::Entry(entry) => Some(entry.clone()),
            _ => None,
        })
        .collect();
    let text = journal::write(None, &Plan::default(), &entries);
    tracing::error!(records = unsaved.len(), "left unsaved");
    Err(CommandError::Unsaved { count: unsaved.len(), journal: text })
}
