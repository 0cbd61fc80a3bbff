//! `benchwalk calendar --ics`: the season's due work, forecasts and orders for phones and office calendars.

use crate::commands::arg_values::refused;
use crate::commands::{CommandError, Context};
use crate::dates;
use crate::files;
use crate::limits::Limits;
use crate::progress::Work;
use crate::report::ics::{calendar, events};
use crate::season::Season;
use crate::session::atomic_write;
use crate::store::Store;
use chrono::NaiveDate;
use std::path::Path;

/// The largest file that is taken for a calendar of an earlier day, bytes.
const MOST: u64 = 16 * 1024 * 1024;
/// How a calendar written here begins.
const OWN: &[u8] = b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Benchwalk//";

/// Writes it to a file, or with `-` to standard output.
pub(super) fn run(file: &Path, limits: &Limits, context: &mut Context<'_>) -> Result<(), CommandError> {
    let whole = Work::whole();
    let store = Store::open_read_only(&context.settings.season)?;
    let ((plan, entries), id) = (store.load()?, store.season_id()?);
    store.close()?;
    let season = Season::new(plan, entries);
    let on = context.day(&season);
    let season = season.on(on);
    let (Some(site), Some(id)) = (season.site(), id) else {
        return Err(CommandError::NoSite { path: context.settings.season.clone() });
    };
    let events = events(&season, on, limits);
    if events.is_empty() {
        let day = dates::long(on);
        return Err(refused("--ics")(format!(
            "nothing is due or expected as of {day}, so there is no calendar to write"
        )));
    }
    let name = format!("Benchwalk {}", site.name);
    let text = calendar(&name, id, &events, (context.clock.now(), sequence(&season, on)));
    if file == Path::new("-") {
        return context.print(whole, &text);
    }
    Context::go_on()?;
    drop(whole);
    // Only a calendar of this program is replaced by a newer one.
    let own = files::read(file, MOST, files::FILE_OR_STDOUT).is_ok_and(|there| there.starts_with(OWN));
    let write = if own { atomic_write::write_over } else { atomic_write::write_new };
    write(file, text.as_bytes())?;
    Ok(())
}

/// A number that is higher in every later file of the season in which anything may have moved: days and lines of the record only
/// ever come to be more.
fn sequence(season: &Season, on: NaiveDate) -> u64 {
    let days = u64::try_from(dates::days_between(NaiveDate::default(), on)).unwrap_or(0);
    let entries = season.entries().iter().filter(|entry| entry.day() <= on).count();
    let lines = u64::try_from(entries + season.plan().lines().len()).unwrap_or(0);
    days.saturating_add(lines)
}
