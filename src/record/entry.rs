//! One thing written down, never changed.

use super::{Kind, KindName};
use chrono::{DateTime, FixedOffset, NaiveDate, Utc};
use std::sync::Arc;
use uuid::Uuid;

/// What an entry is about. The codes are shared: most of a season's entries name the same few places.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// One bench, by code.
    Bench(Arc<str>),
    /// Every bench of a house that stands with pots.
    House(Arc<str>),
    /// Every bench that stands with pots of a lot.
    Lot(Arc<str>),
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
    pub by: Arc<str>,
    /// What it is about.
    pub place: Place,
    /// The plot of a trial on that bench, where it is about one plot alone.
    pub plot: Option<Arc<str>>,
    /// What was seen or done; entries that say the same share it when they are read from a file, for a season has few different ones.
    pub kind: Arc<Kind>,
    /// Free text beside it. For a `note` the note itself.
    pub note: Option<Arc<str>>,
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

    /// Sorts entries by [`Entry::order`]; those that are equal stay in their order.
    ///
    /// Each is moved once or twice, to its place, and no second copy of them is made: a season has hundreds of thousands.
    pub fn sort(entries: &mut [Self]) {
        if entries.is_sorted_by_key(Self::order) {
            return;
        }
        // Few are of one second: the rest of an entry is looked at for those alone.
        let mut order: Vec<(i64, usize)> = entries.iter().map(|e| e.at.timestamp()).zip(0..).collect();
        let rest = |at: usize| entries.get(at).map(|entry| (entry.at.timestamp_subsec_nanos(), entry.id));
        order.sort_unstable_by(|(a, at), (b, other)| {
            a.cmp(b).then_with(|| rest(*at).cmp(&rest(*other))).then_with(|| at.cmp(other))
        });
        let mut from: Vec<usize> = order.into_iter().map(|(_, at)| at).collect();
        // Around each cycle of the permutation; a place that has its entry points to itself.
        for start in 0..from.len() {
            let mut to = start;
            while let Some(next) = from.get(to).copied().filter(|next| *next != to) {
                if let Some(place) = from.get_mut(to) {
                    *place = to;
                }
                if next == start {
                    break;
                }
                entries.swap(to, next);
                to = next;
            }
        }
    }

    /// The name of its kind.
    pub fn name(&self) -> KindName {
        self.kind.name()
    }

    /// True for a day of climate that a logger gave: it says how many readings it is made of.
    pub fn is_from_logger(&self) -> bool {
        matches!(&*self.kind, Kind::Climate { log, .. } if log.readings.is_some())
    }

    /// False for a finding or work on one plot of a trial: it says nothing of the rest of the bench. Losses leave the bench's
    /// count all the same, and an application closes the bench.
    pub fn is_of_whole_place(&self) -> bool {
        self.plot.is_none() || self.kind.re_entry_h().is_some() || matches!(*self.kind, Kind::Losses { .. })
    }
}

#[cfg(test)]
mod tests {
    use super::{Entry, Place};
    use crate::record::Kind;
    use chrono::{DateTime, FixedOffset};
    use proptest::prelude::*;
    use uuid::Uuid;

    proptest! {
        #[test]
        fn sorting_in_place_is_sorting(keys in prop::collection::vec((0_i64..6, 0_u128..4), 0..40)) {
            let entry = |(number, (seconds, id)): (usize, (i64, u128))| Entry {
                id: Uuid::from_u128(id),
                at: DateTime::from_timestamp(seconds, 0).unwrap().with_timezone(&FixedOffset::east_opt(3_600).unwrap()),
                by: number.to_string().into(),
                place: Place::Bench("A1".into()),
                plot: None,
                kind: Kind::Note {}.into(),
                note: None,
            };
            let mut entries: Vec<Entry> = keys.into_iter().enumerate().map(entry).collect();
            let mut wanted = entries.clone();
            wanted.sort_by_key(Entry::order);
            Entry::sort(&mut entries);
            prop_assert_eq!(entries, wanted);
        }
    }
}
