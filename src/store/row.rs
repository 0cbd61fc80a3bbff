//! Cells of rows: days and instants as numbers.

use super::error::Fault;
use crate::record::{marked, marked_code};
use chrono::{DateTime, Datelike, FixedOffset, NaiveDate};
use std::borrow::Cow;

/// 1970-01-01 counted from the first day of year 1.
const EPOCH: i32 = 719_163;

/// A day as days since 1970-01-01.
pub(super) fn number(day: NaiveDate) -> i64 {
    i64::from(day.num_days_from_ce() - EPOCH)
}

/// A number that may be stored: the database turns what is not a number into nothing.
pub(super) fn finite(value: f64) -> Result<f64, Fault> {
    // Minus zero comes back as zero; it is made so now, that it reads the same before and after.
    if value.is_finite() { Ok(value + 0.0) } else { Err(Fault::Refused(format!("{value} is not a number"))) }
}

/// A text as it may be shown.
pub(super) fn text(text: String) -> String {
    match marked(&text) {
        Cow::Borrowed(_) => text,
        Cow::Owned(safe) => safe,
    }
}

/// The same of a code.
pub(super) fn code(code: String) -> String {
    match marked_code(&code) {
        Cow::Borrowed(_) => code,
        Cow::Owned(safe) => safe,
    }
}

/// The same of who wrote something, which has no spaces.
pub(super) fn author(by: String) -> String {
    let by = text(by);
    let fits = by.chars().count() <= 8 && !by.contains(char::is_whitespace);
    if fits { by } else { by.chars().take(8).map(|c| if c.is_whitespace() { '-' } else { c }).collect() }
}

/// Makes sure that an INSERT wrote its row: a trigger may pass over it without an error.
pub(super) fn one(rows: usize) -> Result<(), Fault> {
    if rows == 1 { Ok(()) } else { Err(Fault::NotTaken) }
}

/// An instant of seconds from 1970-01-01 UTC and minutes east.
pub(super) fn instant(seconds: i64, offset: i32) -> Result<DateTime<FixedOffset>, Fault> {
    let offset = offset.checked_mul(60).and_then(FixedOffset::east_opt);
    let at = offset.zip(DateTime::from_timestamp(seconds, 0));
    at.map(|(offset, at)| at.with_timezone(&offset)).ok_or_else(|| Fault::Malformed(format!("{seconds} is not a time")))
}

/// A day of days since 1970-01-01.
pub(super) fn day(number: i64) -> Result<NaiveDate, Fault> {
    let days = i32::try_from(number).ok().and_then(|n| n.checked_add(EPOCH));
    let day = days.and_then(NaiveDate::from_num_days_from_ce_opt);
    day.ok_or_else(|| Fault::Malformed(format!("{number} is not a date")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_count_from_1970() {
        assert_eq!(number(NaiveDate::from_ymd_opt(1970, 1, 1).unwrap()), 0);
        // `date '+%s'` of 2026-10-12 UTC is 1791763200.
        assert_eq!(number(NaiveDate::from_ymd_opt(2026, 10, 12).unwrap()), 1_791_763_200 / 86_400);
    }
}
