//! The feed program of a lot: which days are feeding days, and which of them get clear water. The grower decides both; nothing here is
//! a default.

use crate::dates::{add_days, days_between};
use chrono::NaiveDate;

/// A program of feeding every so many days.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rhythm {
    /// The first feeding day.
    pub from: NaiveDate,
    /// Days from one feeding to the next, 1 or more.
    pub days: i64,
    /// Every so manieth feeding is clear water, 2 or more; none without it.
    pub clear: Option<u32>,
}

/// A feeding day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FeedingDay {
    /// The day.
    pub day: NaiveDate,
    /// The last day on which it can still be done: the day before the next one.
    pub last: NaiveDate,
    /// Clear water instead of feed.
    pub clear: bool,
}

/// True where the feeding of this number, counted from 1, is clear water.
pub const fn is_clear(number: u32, clear: Option<u32>) -> bool {
    matches!(clear, Some(every) if every > 0 && number.is_multiple_of(every))
}

impl Rhythm {
    /// The feeding days up to a day, oldest first.
    pub fn up_to(&self, until: NaiveDate) -> Vec<FeedingDay> {
        let step = self.days.max(1);
        let count = days_between(self.from, until).div_euclid(step);
        let day = |n: i64| add_days(self.from, n.saturating_mul(step));
        let of = |n: i64| {
            let number = u32::try_from(n).unwrap_or(u32::MAX).saturating_add(1);
            FeedingDay {
                day: day(n),
                last: add_days(day(n), step.saturating_sub(1)),
                clear: is_clear(number, self.clear),
            }
        };
        (0..=count).map(of).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(n: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 10, n).unwrap()
    }

    #[test]
    fn every_third_feeding_of_a_program_is_clear() {
        let rhythm = Rhythm { from: day(1), days: 2, clear: Some(3) };
        let all: Vec<(NaiveDate, bool)> = rhythm.up_to(day(8)).iter().map(|f| (f.day, f.clear)).collect();
        assert_eq!(all, [(day(1), false), (day(3), false), (day(5), true), (day(7), false)]);
        assert_eq!(rhythm.up_to(day(8))[1].last, day(4));
    }

    #[test]
    fn nothing_is_planned_before_the_first_day() {
        assert!(Rhythm { from: day(5), days: 7, clear: None }.up_to(day(4)).is_empty());
        assert_eq!(Rhythm { from: day(5), days: 7, clear: None }.up_to(day(5)).len(), 1);
    }
}
