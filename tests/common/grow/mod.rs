//! A crop that grows, dries down and is looked after, as a model for tests: the demo season and the season simulator are
//! made with it. It is a model of ours ("from memory, to look like a season"), not a source of any number of the product; the
//! published water use it starts from is named where it stands. Its plan is made by `tests/common/season`, its draws by
//! `tests/common/rng.rs`; both stand beside it as `crate::season` and `crate::rng`.
//!
//! Only additions, multiplications and tables: no function whose last digit depends on the machine, so that a season made
//! twice is the same to the byte.

pub(crate) mod bench;
pub(crate) mod book;
pub(crate) mod color;
pub(crate) mod grower;
pub(crate) mod plant;
pub(crate) mod weather;

pub(crate) use crate::season::date;

use chrono::{Days, NaiveDate};

/// Some days later.
pub(crate) fn after(day: NaiveDate, days: u64) -> NaiveDate {
    day.checked_add_days(Days::new(days)).unwrap()
}

/// Days from one to the other.
pub(crate) fn days(from: NaiveDate, to: NaiveDate) -> i64 {
    (to - from).num_days()
}

/// The straight line between the points of a table; its first and last values outside.
pub(crate) fn between(table: &[(f64, f64)], x: f64) -> f64 {
    let (first, last) = (table[0], table[table.len() - 1]);
    if x <= first.0 {
        return first.1;
    }
    for pair in table.windows(2) {
        let ((x0, y0), (x1, y1)) = (pair[0], pair[1]);
        if x <= x1 {
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
        }
    }
    last.1
}
