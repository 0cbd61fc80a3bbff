//! Why a question to the crop's arithmetic is refused.
//!
//! One variant for each thing a person can do about it. The texts name what was wrong and what would be right; they are
//! shown as they stand.

use crate::dates::add_part_days;
use chrono::NaiveDate;
use thiserror::Error;

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CropError {
    /// A number that cannot be: mend the number.
    #[error("{what} is {got}; it must be {wanted}")]
    Impossible {
        /// The quantity, as a person would call it.
        what: &'static str,
        /// What was given, with its unit.
        got: String,
        /// What would be right, with its unit.
        wanted: String,
    },
    /// A number outside what the source covers: the answer would be a guess, so there is none.
    #[error("{what} is {got}; the source covers {covered} and no more is read into it")]
    NotCovered {
        /// The quantity.
        what: &'static str,
        /// What was given, with its unit.
        got: String,
        /// What the source covers.
        covered: String,
    },
    /// Something needed was not given: give it.
    #[error("{what} is missing: {why}")]
    Missing {
        /// What is missing.
        what: &'static str,
        /// What it is needed for, or what to do.
        why: &'static str,
    },
    /// Two values that cannot both be: mend one of them.
    #[error("{first} and {second} do not go together: {why}")]
    Contradiction {
        /// One value, named.
        first: String,
        /// The other, named.
        second: String,
        /// Why not.
        why: &'static str,
    },
    /// A day that leaves the calendar.
    #[error("{what} lies outside the years 1900 to 2199")]
    NoSuchDay {
        /// Which day was being calculated.
        what: &'static str,
    },
}

/// A number that must lie within bounds (both included): the number again, or the refusal.
///
/// # Errors
/// [`CropError::Impossible`] when it is not finite or outside.
pub fn within(what: &'static str, value: f64, least: f64, most: f64, unit: &str) -> Result<f64, CropError> {
    if value.is_finite() && value >= least && value <= most {
        return Ok(value);
    }
    let space = if ["", "%", "°"].contains(&unit) { "" } else { " " };
    let got = if value.is_finite() { format!("{value}{space}{unit}") } else { "not a number".to_owned() };
    Err(CropError::Impossible { what, got, wanted: format!("{least} to {most}{space}{unit}") })
}

/// `days` after a day (before it when negative), to the nearest whole day; `what` names it in the refusal.
///
/// # Errors
/// [`CropError::NoSuchDay`] when that is not in the years 1900 to 2199 or `days` is not finite.
pub(super) fn day_after(what: &'static str, from: NaiveDate, days: f64) -> Result<NaiveDate, CropError> {
    add_part_days(from, days).ok_or(CropError::NoSuchDay { what })
}

#[cfg(test)]
mod tests {
    use super::within;

    #[test]
    fn refusals_say_what_would_be_right() {
        let text = |v: f64| within("relative humidity", v, 0.0, 100.0, "%").unwrap_err().to_string();
        assert_eq!(text(120.0), "relative humidity is 120%; it must be 0 to 100%");
        assert_eq!(text(f64::NAN), "relative humidity is not a number; it must be 0 to 100%");
        assert_eq!(within("pH", 6.0, 0.0, 14.0, ""), Ok(6.0));
    }
}
