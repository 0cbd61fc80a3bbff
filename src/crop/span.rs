//! Ranges, and day arithmetic that cannot leave the calendar.

use super::CropError;
use chrono::{Datelike, NaiveDate, TimeDelta};

/// The least, the usual and the most a number may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span<T> {
    /// The least (or first).
    pub low: T,
    /// The one to plan by.
    pub mid: T,
    /// The most (or last).
    pub high: T,
}

/// A range of days, first and last, with the one to plan by.
pub type Days = Span<NaiveDate>;

impl<T> Span<T> {
    /// From its three numbers; the caller brings them in order.
    pub const fn new(low: T, mid: T, high: T) -> Self {
        Self { low, mid, high }
    }

    /// The same range with each of its numbers made into something else.
    ///
    /// # Errors
    /// The first that `make` gives.
    pub fn try_map<U>(self, mut make: impl FnMut(T) -> Result<U, CropError>) -> Result<Span<U>, CropError> {
        Ok(Span { low: make(self.low)?, mid: make(self.mid)?, high: make(self.high)? })
    }
}

/// `days` after (before, when negative) a day, to the nearest whole day, a half rounding up.
///
/// # Errors
/// [`CropError::NoSuchDay`] when that is not in the years 1900 to 2199 or `days` is not finite.
pub fn add_days(what: &'static str, from: NaiveDate, days: f64) -> Result<NaiveDate, CropError> {
    const LONGEST: f64 = 200_000.0;
    let refused = CropError::NoSuchDay { what };
    if !days.is_finite() || days.abs() > LONGEST {
        return Err(refused);
    }
    #[expect(clippy::cast_possible_truncation, reason = "held within 200,000 just above")]
    let whole = (days + 0.5).floor() as i64;
    from.checked_add_signed(TimeDelta::days(whole)).filter(|d| (1900..2200).contains(&d.year())).ok_or(refused)
}

#[cfg(test)]
mod tests {
    use super::add_days;
    use chrono::NaiveDate;
    use proptest::prelude::*;

    #[test]
    fn a_half_day_rounds_up() {
        let day = NaiveDate::from_ymd_opt(2026, 10, 3).unwrap();
        let next = |n: f64| add_days("x", day, n).unwrap().to_string();
        assert_eq!(next(0.5), "2026-10-04");
        assert_eq!(next(-0.5), "2026-10-03");
        assert_eq!(next(-3.0), "2026-09-30");
    }

    proptest! {
        #[test]
        fn any_number_is_answered(days in proptest::num::f64::ANY, year in -260_000i32..260_000) {
            if let Some(from) = NaiveDate::from_ymd_opt(year, 2, 3) {
                let _answered = add_days("x", from, days).is_ok();
            }
        }
    }
}
