//! Cells of rows: days as numbers, words of closed lists, and what to say of one that fits nothing.

use super::error::Fault;
use crate::record::Term;
use chrono::{Datelike, NaiveDate};
use rusqlite::Row;
use rusqlite::types::FromSql;

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

/// The same for one that may be absent.
pub(super) fn finite_if(value: Option<f64>) -> Result<Option<f64>, Fault> {
    value.map(finite).transpose()
}

/// The cells of a row, by column name.
pub(super) struct Cells<'r, 's>(pub(super) &'r Row<'s>);

impl Cells<'_, '_> {
    /// A cell as it is.
    pub(super) fn get<T: FromSql>(&self, column: &'static str) -> Result<T, Fault> {
        Ok(self.0.get(column)?)
    }

    /// A word of a closed list.
    pub(super) fn word<W: Term>(&self, column: &'static str) -> Result<W, Fault> {
        let code: String = self.get(column)?;
        W::from_code(&code).ok_or_else(|| Fault::Odd(format!("{column} '{code}' is none of {}", W::known())))
    }

    /// A day.
    pub(super) fn day(&self, column: &'static str) -> Result<NaiveDate, Fault> {
        self.day_if(column)?.ok_or_else(|| Fault::Odd(format!("{column} is missing")))
    }

    /// A day that may be absent.
    pub(super) fn day_if(&self, column: &'static str) -> Result<Option<NaiveDate>, Fault> {
        let Some(number) = self.get::<Option<i32>>(column)? else { return Ok(None) };
        number
            .checked_add(EPOCH)
            .and_then(NaiveDate::from_num_days_from_ce_opt)
            .map(Some)
            .ok_or_else(|| Fault::Odd(format!("{column} {number} is no day")))
    }
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
