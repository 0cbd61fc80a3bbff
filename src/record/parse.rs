//! Days, instants and ids in their one accepted spelling.

use chrono::{DateTime, Datelike, FixedOffset, NaiveDate};
use uuid::Uuid;

/// The years a record may be of.
const YEARS: std::ops::RangeInclusive<i32> = 2000..=2100;

/// A day written exactly `YYYY-MM-DD`, 2000 to 2100.
pub fn day(text: &str) -> Option<NaiveDate> {
    // chrono alone would take "2026-8-7" and years of any length.
    let shaped = text.len() == 10
        && text.bytes().enumerate().all(|(i, b)| if i == 4 || i == 7 { b == b'-' } else { b.is_ascii_digit() });
    let day = shaped.then(|| NaiveDate::parse_from_str(text, "%Y-%m-%d").ok()).flatten()?;
    YEARS.contains(&day.year()).then_some(day)
}

/// An instant by RFC 3339 in whole seconds with an offset, its own local day in 2000 to 2100.
pub fn instant(text: &str) -> Option<DateTime<FixedOffset>> {
    let bytes = text.as_bytes();
    let shaped = matches!(
        (bytes.len(), bytes.get(10), bytes.get(19)),
        (20, Some(b'T'), Some(b'Z')) | (25, Some(b'T'), Some(b'+' | b'-'))
    );
    let at = shaped.then(|| DateTime::parse_from_rfc3339(text).ok()).flatten()?;
    let whole = at.timestamp_subsec_nanos() == 0;
    (whole && YEARS.contains(&at.year())).then_some(at)
}

/// An id with its hyphens.
pub fn id(text: &str) -> Option<Uuid> {
    (text.len() == 36).then(|| Uuid::try_parse(text).ok()).flatten()
}

/// As [`day`] reads it.
pub fn show_day(day: NaiveDate) -> String {
    day.format("%Y-%m-%d").to_string()
}

/// As [`instant`] reads it.
pub fn show_instant(at: &DateTime<FixedOffset>) -> String {
    at.format("%Y-%m-%dT%H:%M:%S%:z").to_string()
}

#[cfg(test)]
mod tests {
    use super::{day, id, instant, show_instant};

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
