//! Seasons for tests, the one place that makes them: lines of a plan and entries (`lines`), a crop grown line by line
//! (`Crop`), and the season that the screens are tried on (`hollow`).
//!
//! Taken in by `#[path = "../common/season/mod.rs"] mod season;`. Everything in it is invented; the year is 2026, the place
//! keeps New York's time.
#![allow(dead_code, unused_imports, reason = "each test takes what it needs")]

mod crop;
mod hollow;
mod lines;

pub(crate) use crop::{ABSENT, ACT, Crop, URGENT, WATCH, holds};
pub(crate) use hollow::{NOW, hollow, journal};
pub(crate) use lines::{
    at, bench, bench_line, date, day, entry, house, ids, instant, lot, lot_place, moved, order, placement, plan,
    planted, season, site, sprayed, strike, water,
};

use chrono::NaiveDate;

/// A day as a test names it: so many days after planting (`33`), a month and a day (`(9, 19)`), or a date.
pub(crate) trait Day: Copy {
    /// The date.
    fn date(self) -> NaiveDate;
}

impl Day for i64 {
    fn date(self) -> NaiveDate {
        day(self)
    }
}

impl Day for (u32, u32) {
    fn date(self) -> NaiveDate {
        date(self.0, self.1)
    }
}

impl Day for NaiveDate {
    fn date(self) -> NaiveDate {
        self
    }
}
