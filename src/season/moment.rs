//! The order of the record: by day, instant and id.

use crate::record::Entry;
use chrono::{DateTime, NaiveDate, Utc};
use uuid::Uuid;

/// A moment of the record: by local day, then instant, then id, so that everything up to a day is a prefix.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Moment {
    /// Local day in the entry's own offset.
    pub(super) day: NaiveDate,
    /// Instant.
    pub(super) at: DateTime<Utc>,
    /// Id.
    pub(super) id: Uuid,
}

impl Moment {
    /// An entry's.
    pub(super) fn of(entry: &Entry) -> Self {
        Self { day: entry.day(), at: entry.instant(), id: entry.id }
    }

    /// Before any entry of a day.
    pub(super) const fn start_of(day: NaiveDate) -> Self {
        Self { day, at: DateTime::<Utc>::MIN_UTC, id: Uuid::nil() }
    }

    /// After every entry of a day.
    pub(super) const fn end_of(day: NaiveDate) -> Self {
        Self { day, at: DateTime::<Utc>::MAX_UTC, id: Uuid::max() }
    }
}
