//! A clock that is wrong, known by the record: entries would go to the wrong day, and closed benches would read as open.

use super::Model;
use crate::dates;
use crate::record::{Entry, Kind};
use crate::season::Season;
use chrono::{DateTime, FixedOffset, NaiveDate, TimeDelta};

/// Clocks of two laptops differ by less than this, minutes.
const APART: i64 = 15;
/// From so many days after the last entry on, a clock is taken to be ahead.
const AHEAD: i64 = 365;

/// What is wrong with the clock; the last entry in the site's time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WrongClock {
    /// It stands before the last entry.
    Behind(DateTime<FixedOffset>),
    /// It stands a year or more after it.
    Ahead(DateTime<FixedOffset>),
}

impl WrongClock {
    /// Compares the clock with the last entry that is not voided; `None` where it may be right, where the day is a given
    /// one, and while the entries are not read.
    pub fn of(model: &Model) -> Option<Self> {
        if model.replayed || !model.loaded {
            return None;
        }
        let last = model.local(last_entry(model)?);
        let ahead = model.now.at.signed_duration_since(last);
        if ahead < TimeDelta::minutes(-APART) {
            Some(Self::Behind(last))
        } else if ahead >= TimeDelta::days(AHEAD) {
            Some(Self::Ahead(last))
        } else {
            None
        }
    }

    /// In words, with the years.
    pub fn text(self, model: &Model) -> String {
        let now = stamp(model.now.at);
        match self {
            Self::Behind(last) => format!(
                "This laptop's clock says {now}, before the last entry ({}). Set the clock, or entries get the wrong day.",
                stamp(last)
            ),
            Self::Ahead(last) => format!(
                "This laptop's clock says {now}, a year or more after the last entry ({}). If it is wrong, set it: entries get that day.",
                stamp(last)
            ),
        }
    }
}

/// The year that days of this season are in: that of the last entry; `None` before there is one.
pub(super) fn last_day(model: &Model) -> Option<NaiveDate> {
    last_entry(model).map(|at| model.local(at).date_naive())
}

/// The instant of the last entry that is not voided. Strikes themselves do not count: one voids a wrong entry. What another
/// laptop wrote says nothing of this one's clock, where this one wrote anything: that is to be settled.
fn last_entry(model: &Model) -> Option<DateTime<chrono::Utc>> {
    *model.last_entry.get_or_init(|| found(&model.season))
}

fn found(season: &Season) -> Option<DateTime<chrono::Utc>> {
    let counts = |e: &&Entry| !matches!(*e.kind, Kind::Strike { .. }) && !season.is_struck(e, NaiveDate::MAX);
    let own = season.entries().iter().rev().filter(|e| season.origin(e.id).is_none()).find(counts);
    own.or_else(|| season.entries().iter().rev().find(counts)).map(Entry::instant)
}

fn stamp(at: DateTime<FixedOffset>) -> String {
    format!("{} {}", dates::long(at.date_naive()), dates::time(&at))
}
