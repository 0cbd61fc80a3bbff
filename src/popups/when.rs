//! Days and times of fields: read as people type them, and how they were read, shown next to the field.

use crate::dates;
use crate::model::Model;
use crate::record::typed::Facing;
use chrono::{DateTime, FixedOffset, MappedLocalTime, NaiveTime, TimeZone, Timelike};

/// The error where the end of an application is missing.
pub(super) const NOT_ENDED: &str = "is missing; type when it ended, such as 14:30, or now";

/// True for the word for "now".
pub(super) fn is_now(text: &str) -> bool {
    text.trim().eq_ignore_ascii_case("now")
}

/// Which way a field of a day looks: what is to come, or what was done.
pub(super) fn facing(field: &str) -> Facing {
    match field {
        "until" | "ready_by" | "date" | "blackout_from" | "lights_until" => Facing::Ahead,
        _ => Facing::Back,
    }
}

/// Examples next to the field of a time: what is typed most.
pub(super) const fn beside(ended: bool) -> &'static str {
    if ended { "2:30p, 14:30, or now" } else { "blank: now; or 2:30p" }
}

/// What the field of a time takes, in full.
pub(super) fn takes(model: &Model, ended: bool) -> String {
    let examples = model.day_reader().moments();
    if ended {
        format!("When the application ended; the REI runs from then. Such as {examples}, or now.")
    } else {
        format!("Blank: now. Or such as {examples}.")
    }
}

/// Reads a time; `None` for an empty field or "now". `ended`: the end of an application, for which a time must be typed, and of a
/// time that comes twice, when clocks are put back, the second is taken. Elsewhere a day alone is noon of that day.
///
/// # Errors
/// What is wrong with it, and what would be right.
pub(super) fn read(text: &str, model: &Model, ended: bool) -> Result<Option<DateTime<FixedOffset>>, String> {
    let text = text.trim();
    if text.is_empty() || is_now(text) {
        return Ok(None);
    }
    let (day, time) = model.day_reader().moment(text, Facing::Back)?;
    let time = match time {
        Some(time) => time,
        None if ended => return Err(format!("is {text}; give the time too, such as {text} 2:30p")),
        None if day == model.day => return Ok(None),
        None => NaiveTime::from_hms_opt(12, 0, 0).unwrap_or_default(),
    };
    let local = day.and_time(time);
    let found = match model.season.site() {
        Some(site) => one(site.time_zone.from_local_datetime(&local), ended).map(|t| t.fixed_offset()),
        None => model.now.at.offset().from_local_datetime(&local).single(),
    };
    let Some(at) = found else {
        return Err(format!("is {text}, which does not exist (clocks went forward); give a later time"));
    };
    if at > model.now.at {
        let read = format!("{} {}", dates::long(at.date_naive()), dates::time(&at));
        return Err(format!("is {text}, read as {read}: in the future; for an earlier day type the date, too"));
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

/// How the text of a day was read: `= Wed Nov 25, 2026`; a weekday says whether it is the last or the next. `None` while nothing
/// is understood.
pub(super) fn echo_day(text: &str, model: &Model, facing: Facing) -> Option<String> {
    let day = model.day_reader().day(text, facing).ok()?;
    let by_weekday = day.format("%A").to_string().to_lowercase().starts_with(&text.trim().to_lowercase());
    let which = match facing {
        _ if !by_weekday || day == model.day => "",
        Facing::Back => "last ",
        Facing::Ahead => "next ",
    };
    Some(format!("= {which}{}", dates::long(day)))
}

/// How the text of a time was read: `= Wed Nov 25, 2026 14:30`. `None` while nothing is understood.
pub(super) fn echo(text: &str, model: &Model, ended: bool) -> Option<String> {
    let at = read(text, model, ended).ok()?;
    match at {
        Some(at) => Some(format!("= {} {}", dates::long(at.date_naive()), dates::time(&at))),
        None if text.trim().is_empty() => None,
        None => Some(format!("= now, {}", dates::time(&model.now.at))),
    }
}

/// A kept instant as it is typed, at the site's clock to the minute.
pub(super) fn shown(at: DateTime<FixedOffset>, model: &Model) -> String {
    model.local(at.to_utc()).format("%Y-%m-%d %H:%M").to_string()
}

/// Said of a time that may have been meant for the afternoon: typed without a or p, before six.
pub(super) fn early(text: &str, model: &Model, ended: bool) -> Option<String> {
    let at = read(text, model, ended).ok()??;
    let half = text.trim().to_lowercase().ends_with(['a', 'm', '.']);
    let padded = text.contains(" 0") || text.starts_with('0');
    let hour = at.hour();
    (!half && !padded && (1..6).contains(&hour)).then(|| {
        let minute = at.minute();
        format!("That is {hour}:{minute:02} in the morning; for the afternoon type {hour}:{minute:02}p.")
    })
}
