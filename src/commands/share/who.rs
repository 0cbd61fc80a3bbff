//! `benchwalk share who`: which laptop wrote an entry, and how it came to a hub.

use super::not_shared;
use crate::commands::{CommandError, Context};
use crate::record::Entry;
use crate::report::{entry, share::lines};
use crate::season::Season;
use crate::session::share::SharedSeason;
use clap::Args;

/// The fewest digits that name an entry.
const DIGITS: usize = 4;

/// Options of `share who`.
#[derive(Debug, Args)]
pub struct WhoArgs {
    /// The id of the entry, as `benchwalk export` writes it, or the first digits of it.
    entry: String,
}

/// Prints it.
pub(super) fn run(args: &WhoArgs, context: &mut Context<'_>) -> Result<(), CommandError> {
    let opened = SharedSeason::reading(&context.settings.season, &context.settings.sharer)?;
    let Some(mut season) = opened else { return Err(not_shared(context)) };
    let (plan, entries) = season.store().load()?;
    let kept = Season::new(plan, Vec::new());
    let found = find(&entries, &args.entry).map_err(|reason| CommandError::Typed { option: "share who", reason })?;
    let seen = kept.site().map_or_else(String::new, |site| entry::line(found, site.units));
    let at = lines::moment(&found.at);
    writeln!(context.out, "{}\n  {}: {seen}, {at}, by {}", found.id, entry::named(found), found.by)?;
    let Some(wrote) = season.store().who(found.id)? else {
        writeln!(context.out, "  written here, in no stream yet")?;
        season.close()?;
        return Ok(());
    };
    let laptop = wrote.laptop.clone().unwrap_or_else(|| "a laptop without a name".to_owned());
    let this = if wrote.own { " (this one)" } else { "" };
    writeln!(context.out, "  written on {laptop}{this}: line {} of stream {}", wrote.number, wrote.stream)?;
    let zone = kept.site().map(|site| site.time_zone);
    for (hub, arrival) in season.arrivals((wrote.stream, wrote.number), context.clock.now()) {
        match arrival {
            Ok(arrival) => {
                let at = zone
                    .map_or_else(|| lines::moment(&arrival.at), |zone| lines::moment(&arrival.at.with_timezone(&zone)));
                writeln!(context.out, "  {hub}: brought by login {}, arrived {at}", arrival.login)?;
            }
            Err(error) => writeln!(context.out, "  {hub}: {error}")?,
        }
    }
    season.close()?;
    Ok(())
}

fn find<'e>(entries: &'e [Entry], text: &str) -> Result<&'e Entry, String> {
    let digits: String = text.trim().to_lowercase().chars().filter(|c| *c != '-').collect();
    let shown = crate::characters::in_one_line(text);
    if digits.len() < DIGITS || !digits.bytes().all(|b| b.is_ascii_hexdigit()) {
        return Err(format!(
            "'{shown}' is not the id of an entry; give it as 'benchwalk export' writes it, or its first digits"
        ));
    }
    let found: Vec<&Entry> =
        entries.iter().filter(|entry| entry.id.simple().to_string().starts_with(&digits)).collect();
    match found.as_slice() {
        [one] => Ok(one),
        [] => Err(format!("no entry of this season begins with '{shown}'")),
        several => Err(format!("{} entries begin with '{shown}'; give more digits", several.len())),
    }
}
