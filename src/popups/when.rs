//! Parsing of times: a time of today, or a day and a time, at the site.

use crate::model::Model;
use crate::record::parse;
use chrono::{DateTime, Days, FixedOffset, MappedLocalTime, NaiveDate, NaiveTime, TimeZone};

/// The hint next to the field.
pub(super) const HINT: &str = "blank: now; or 14:30, or a date and time such as 2026-10-05 14:30";

/// The hint for the end of an application, which never defaults to now.
pub(super) const ENDED: &str =
    "When the application ended; the REI runs from then: 14:30, a date and time such as 2026-10-05 14:30, or now";

/// The error where the end of an application is missing.
pub(super) const NOT_ENDED: &str = "is missing; type when it ended, such as 14:30, or now";

/// True for the word for "now".
pub(super) fn is_now(text: &str) -> bool {
    text.trim().eq_ignore_ascii_case("now")
}

/// Parses a time; `None` for an empty field or "now". `late`: of a time that comes twice, when clocks are put back, the second.
///
/// # Errors
/// What is wrong with it, and what would be right.
pub(super) fn read(text: &str, model: &Model, late: bool) -> Result<Option<DateTime<FixedOffset>>, String> {
    let text = text.trim();
    if text.is_empty() || is_now(text) {
        return Ok(None);
    }
    let (day, time) = match text.split_once([' ', 'T']) {
        Some((day, time)) => (day_of(day, model.day).ok_or_else(|| wrong(text))?, time.trim()),
        None => (model.day, text),
    };
    let Ok(time) = NaiveTime::parse_from_str(time, "%H:%M") else { return Err(wrong(text)) };
    let local = day.and_time(time);
    let found = match model.season.site() {
        Some(site) => one(site.time_zone.from_local_datetime(&local), late).map(|t| t.fixed_offset()),
        None => model.now.at.offset().from_local_datetime(&local).single(),
    };
    let Some(at) = found else {
        return Err(format!("is {text}, which does not exist (clocks went forward); give a later time"));
    };
    if at > model.now.at {
        return Err(format!("is {text}, in the future; for an earlier day type the date, too"));
    }
    Ok(Some(at))
}

fn one<T: TimeZone>(found: MappedLocalTime<DateTime<T>>, late: bool) -> Option<DateTime<T>> {
    match found {
        MappedLocalTime::None => None,
        MappedLocalTime::Single(at) => Some(at),
        MappedLocalTime::Ambiguous(a, b) => Some(if late == (a > b) { a } else { b }),
    }
}

fn wrong(text: &str) -> String {
    format!("is \"{text}\"; give a time such as 14:30, or a date and time such as 2026-10-05 14:30")
}

/// A day: as the journal writes it, or so many days on (`+7`) or back (`-1`).
pub(super) fn day_of(text: &str, today: NaiveDate) -> Option<NaiveDate> {
    let text = text.trim();
    let (sign, number) = match text.split_at_checked(1)? {
        ("+", rest) => (true, rest),
        ("-", rest) => (false, rest),
        _ => return parse::day(text),
    };
    let days = Days::new(number.trim().trim_end_matches(['d', ' ']).parse().ok()?);
    if sign { today.checked_add_days(days) } else { today.checked_sub_days(days) }
}
