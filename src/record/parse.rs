//! Days, instants and ids in their one accepted spelling.

use chrono::{DateTime, Datelike, FixedOffset, NaiveDate, NaiveDateTime, NaiveTime, Timelike};
use uuid::Uuid;

/// The years a record may be of.
const YEARS: std::ops::RangeInclusive<i32> = 2000..=2100;

/// The number that so many digits are from a place on; `None` where others stand there.
fn digits(bytes: &[u8], from: usize, many: usize) -> Option<u32> {
    let digits = bytes.get(from..from.checked_add(many)?)?;
    digits.iter().try_fold(0, |number: u32, byte| byte.is_ascii_digit().then(|| number * 10 + u32::from(byte - b'0')))
}

/// The day of the ten bytes `YYYY-MM-DD`.
fn day_of(bytes: &[u8]) -> Option<NaiveDate> {
    if (bytes.get(4), bytes.get(7)) != (Some(&b'-'), Some(&b'-')) {
        return None;
    }
    let year = i32::try_from(digits(bytes, 0, 4)?).ok()?;
    NaiveDate::from_ymd_opt(year, digits(bytes, 5, 2)?, digits(bytes, 8, 2)?)
}

/// A day written exactly `YYYY-MM-DD`, 2000 to 2100.
pub fn day(text: &str) -> Option<NaiveDate> {
    // chrono alone would take "2026-8-7" and years of any length.
    day_of(text.as_bytes()).filter(|day| text.len() == 10 && is_day(*day))
}

/// True of a day that [`day`] reads.
pub fn is_day(day: NaiveDate) -> bool {
    YEARS.contains(&day.year())
}

/// An instant by RFC 3339 in whole seconds with an offset, its own local day in 2000 to 2100.
pub fn instant(text: &str) -> Option<DateTime<FixedOffset>> {
    let bytes = text.as_bytes();
    let at = |place: usize| bytes.get(place).copied();
    let marks = [(10, b'T'), (13, b':'), (16, b':')];
    if !marks.into_iter().all(|(place, mark)| at(place) == Some(mark)) {
        return None;
    }
    let east = match (bytes.len(), at(19), at(22)) {
        (20, Some(b'Z'), _) => 0,
        (25, Some(sign @ (b'+' | b'-')), Some(b':')) => {
            let minutes = digits(bytes, 23, 2).filter(|minutes| *minutes < 60)?;
            let seconds = i32::try_from(digits(bytes, 20, 2)? * 3_600 + minutes * 60).ok()?;
            if sign == b'-' { -seconds } else { seconds }
        }
        _ => return None,
    };
    let time = NaiveTime::from_hms_opt(digits(bytes, 11, 2)?, digits(bytes, 14, 2)?, digits(bytes, 17, 2)?)?;
    let local = NaiveDateTime::new(day_of(bytes)?, time);
    let at = local.and_local_timezone(FixedOffset::east_opt(east)?).single()?;
    is_instant(&at).then_some(at)
}

/// True of an instant that [`instant`] reads, but for parts of a second.
pub fn is_instant(at: &DateTime<FixedOffset>) -> bool {
    // A second inserted into a day has more than a thousand million parts.
    YEARS.contains(&at.year()) && at.nanosecond() < 1_000_000_000
}

/// An id with its hyphens.
pub fn id(text: &str) -> Option<Uuid> {
    (text.len() == 36).then(|| Uuid::try_parse(text).ok()).flatten()
}

/// As [`day`] reads it.
pub fn show_day(day: NaiveDate) -> String {
    let mut text = String::with_capacity(10);
    put_day(&mut text, day);
    text
}

/// [`show_day`] at the end of a text.
pub fn put_day(text: &mut String, day: NaiveDate) {
    match u32::try_from(day.year()) {
        Ok(year @ 0..=9_999) => {
            put_two(text, year / 100);
            put_two(text, year % 100);
            text.push('-');
            put_two(text, day.month());
            text.push('-');
            put_two(text, day.day());
        }
        _ => text.push_str(&day.format("%Y-%m-%d").to_string()),
    }
}

/// As [`instant`] reads it.
pub fn show_instant(at: &DateTime<FixedOffset>) -> String {
    let mut text = String::with_capacity(25);
    put_instant(&mut text, at);
    text
}

/// [`show_instant`] at the end of a text.
pub fn put_instant(text: &mut String, at: &DateTime<FixedOffset>) {
    let east = at.offset().local_minus_utc();
    if at.nanosecond() >= 1_000_000_000 || east % 60 != 0 {
        text.push_str(&at.format("%Y-%m-%dT%H:%M:%S%:z").to_string());
        return;
    }
    put_day(text, at.date_naive());
    for (mark, number) in [('T', at.hour()), (':', at.minute()), (':', at.second())] {
        text.push(mark);
        put_two(text, number);
    }
    let minutes = east.unsigned_abs() / 60;
    text.push(if east < 0 { '-' } else { '+' });
    put_two(text, minutes / 60);
    text.push(':');
    put_two(text, minutes % 60);
}

/// Two digits.
fn put_two(text: &mut String, number: u32) {
    let digit = |number: u32| char::from_digit(number % 10, 10).unwrap_or('0');
    text.push(digit(number / 10));
    text.push(digit(number));
}

#[cfg(test)]
mod tests {
    use super::{day, id, instant, show_day, show_instant};
    use chrono::{DateTime, FixedOffset, NaiveDate};
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn days_and_instants_are_written_and_read_as_chrono_does(
            seconds in -70_000_000_000_i64..10_000_000_000, east in -86_399..86_400_i32, whole in any::<bool>(),
        ) {
            let east = if whole { east / 60 * 60 } else { east };
            let offset = FixedOffset::east_opt(east).unwrap();
            let at = DateTime::from_timestamp(seconds, 0).unwrap().with_timezone(&offset);
            let text = show_instant(&at);
            prop_assert_eq!(&text, &at.format("%Y-%m-%dT%H:%M:%S%:z").to_string());
            prop_assert_eq!(show_day(at.date_naive()), at.format("%Y-%m-%d").to_string());
            let read = DateTime::parse_from_rfc3339(&text).ok().filter(super::is_instant);
            prop_assert_eq!(instant(&text), read);
            let read = NaiveDate::parse_from_str(text.get(..10).unwrap(), "%Y-%m-%d").ok().filter(|day| super::is_day(*day));
            prop_assert_eq!(day(text.get(..10).unwrap()), read);
        }

        #[test]
        fn what_is_no_instant_is_none_for_chrono_too(text in "20[0-9]{2}-[0-2][0-9]-[0-4][0-9]T[0-3][0-9]:[0-7][0-9]:[0-7][0-9](Z|[+-][0-3][0-9]:[0-7][0-9])") {
            let read = DateTime::parse_from_rfc3339(&text).ok().filter(super::is_instant);
            prop_assert_eq!(instant(&text), read);
        }
    }

    #[test]
    fn one_spelling_of_a_day() {
        assert!(day("2026-08-17").is_some() && day("2000-02-29").is_some() && day("2100-12-31").is_some());
        for bad in ["2026-8-17", "26-08-17", "2026-02-30", "1999-12-31", "2101-01-01", "+2026-08-1", "2026/08/17", ""] {
            assert_eq!(day(bad), None, "{bad}");
        }
    }

    #[test]
    fn one_spelling_of_an_instant() {
        let at = instant("2026-10-05T07:10:00-04:00").unwrap();
        assert_eq!(show_instant(&at), "2026-10-05T07:10:00-04:00");
        assert_eq!(show_instant(&instant("2026-10-05T11:10:00Z").unwrap()), "2026-10-05T11:10:00+00:00");
        for bad in [
            "2026-10-05T07:10:00",
            "2026-10-05 07:10:00-04:00",
            "2026-10-05T07:10-04:00",
            "2026-10-05T07:10:00.5-04:00",
            "2026-10-05T07:10:60-04:00",
            "2026-10-05T24:00:00-04:00",
            "1999-12-31T23:59:59+00:00",
            "2026-10-05T07:10:00-0400",
        ] {
            assert_eq!(instant(bad), None, "{bad}");
        }
    }

    #[test]
    fn ids_have_their_hyphens() {
        assert!(id("01890a5d-ac96-774b-bcce-b302099a8057").is_some());
        assert!(id("01890a5dac96774bbcceb302099a8057").is_none());
        assert!(id("{01890a5d-ac96-774b-bcce-b302099a805}").is_none());
    }
}
