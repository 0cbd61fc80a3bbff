//! Days and times as they are read.

use chrono::{DateTime, Datelike, NaiveDate, TimeZone};
use std::fmt::Display;

/// `Oct 8`.
pub fn short(day: NaiveDate) -> String {
    format!("{} {}", day.format("%b"), day.day())
}

/// `Mon Oct 12`.
pub fn weekday(day: NaiveDate) -> String {
    format!("{} {}", day.format("%a"), short(day))
}

/// `Mon Oct 12, 2026`.
pub fn long(day: NaiveDate) -> String {
    format!("{}, {}", weekday(day), day.year())
}

/// `19:00`.
pub fn time<Z: TimeZone>(at: &DateTime<Z>) -> String
where
    Z::Offset: Display,
{
    at.format("%H:%M").to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_form_of_a_day_can_be_shown() {
        let day = NaiveDate::from_ymd_opt(2026, 10, 8).unwrap();
        assert_eq!(
            (short(day), weekday(day), long(day)),
            ("Oct 8".into(), "Thu Oct 8".into(), "Thu Oct 8, 2026".into())
        );
        let at = DateTime::parse_from_rfc3339("2026-10-08T07:05:00-04:00").unwrap();
        assert_eq!(time(&at), "07:05");
    }
}
