//! One thing written down, never changed.

use super::{Kind, KindName};
use chrono::{DateTime, FixedOffset, NaiveDate, Utc};
use uuid::Uuid;

/// What an entry is about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// One bench, by code.
    Bench(String),
    /// Every bench of a house that stands with pots.
    House(String),
    /// Every bench that stands with pots of a lot.
    Lot(String),
}

impl Place {
    /// The code or name.
    pub fn code(&self) -> &str {
        match self {
            Self::Bench(c) | Self::House(c) | Self::Lot(c) => c,
        }
    }

    /// The journal's field for it: `bench`, `house` or `lot`.
    pub const fn field(&self) -> &'static str {
        match self {
            Self::Bench(_) => "bench",
            Self::House(_) => "house",
            Self::Lot(_) => "lot",
        }
    }
}

/// A finding (seen) or work (done).
#[derive(Debug, Clone, PartialEq)]
pub struct Entry {
    /// Unique; UUIDv7 when made here, UUIDv8 when made from a line without one.
    pub id: Uuid,
    /// When; whole seconds, with the writer's own offset. For growth regulators and sprays the **end** of the application.
    pub at: DateTime<FixedOffset>,
    /// Who wrote it, 1-8 characters.
    pub by: String,
    /// What it is about.
    pub place: Place,
    /// The plot of a trial on that bench, where it is about one plot alone.
    pub plot: Option<String>,
    /// What was seen or done.
    pub kind: Kind,
    /// Free text beside it. For a `note` the note itself.
    pub note: Option<String>,
}

impl Entry {
    /// Its local day in its own offset.
    pub fn day(&self) -> NaiveDate {
        self.at.date_naive()
    }

    /// Its instant.
    pub fn instant(&self) -> DateTime<Utc> {
        self.at.to_utc()
    }

    /// Entries are ordered by instant, then id.
    pub fn order(&self) -> (DateTime<Utc>, Uuid) {
        (self.instant(), self.id)
    }

    /// The name of its kind.
    pub const fn name(&self) -> KindName {
        self.kind.name()
    }

    /// True for a day of climate that a logger gave: it says how many readings it is made of.
    pub fn is_from_logger(&self) -> bool {
        matches!(&self.kind, Kind::Climate { log, .. } if log.readings.is_some())
    }

    /// False for a finding or work on one plot of a trial: it says nothing of the rest of the bench. Losses leave the bench's
    /// count all the same, and an application closes the bench.
    pub fn is_of_whole_place(&self) -> bool {
        self.plot.is_none() || self.kind.re_entry_h().is_some() || matches!(self.kind, Kind::Losses { .. })
    }
}
