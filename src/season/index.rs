//! Where to find things: the plan's lines that hold, and the positions of entries by place. One entry more costs a push, not a
//! new index.

use crate::record::{Entry, Kind, Place, Plan};
use chrono::{DateTime, NaiveDate, Utc};
use std::collections::{BTreeMap, HashMap};
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

/// Positions in the plan of the lines that hold: of each key the highest revision.
#[derive(Debug, Clone, Default)]
pub(super) struct PlanView {
    pub(super) site: Option<usize>,
    pub(super) lots: BTreeMap<String, usize>,
    pub(super) benches: HashMap<String, usize>,
    /// Benches by (order, code).
    pub(super) walk: Vec<usize>,
    /// By (day, bench).
    pub(super) placements: Vec<usize>,
    /// By (lot, date).
    pub(super) orders: Vec<usize>,
}

/// Of each key the position of its highest revision; of equal ones the first.
fn highest<T, K: Ord>(lines: &[T], key: impl Fn(&T) -> K, rev: impl Fn(&T) -> u32) -> BTreeMap<K, usize> {
    let mut best: BTreeMap<K, (u32, usize)> = BTreeMap::new();
    for (i, line) in lines.iter().enumerate() {
        let slot = best.entry(key(line)).or_insert((rev(line), i));
        if rev(line) > slot.0 {
            *slot = (rev(line), i);
        }
    }
    best.into_iter().map(|(k, (_, i))| (k, i)).collect()
}

impl PlanView {
    /// Of a plan.
    pub(super) fn of(plan: &Plan) -> Self {
        let site = highest(&plan.sites, |_| (), |s| s.revision.rev).into_values().next();
        let lots = highest(&plan.lots, |l| l.lot.clone(), |l| l.revision.rev);
        let benches: HashMap<String, usize> =
            highest(&plan.benches, |b| b.bench.clone(), |b| b.revision.rev).into_iter().collect();
        let mut walk: Vec<usize> = benches.values().copied().collect();
        walk.sort_by_key(|i| plan.benches.get(*i).map(|b| (b.order, b.bench.as_str())));
        let placements =
            highest(&plan.placements, |p| (p.from, p.bench.clone()), |p| p.revision.rev).into_values().collect();
        let orders = highest(&plan.orders, |o| (o.lot.clone(), o.date), |o| o.revision.rev).into_values().collect();
        Self { site, lots, benches, walk, placements, orders }
    }
}

/// Positions of entries, each list in the order of the entries.
#[derive(Debug, Clone, Default)]
pub(super) struct Index {
    by_place: HashMap<Place, Vec<usize>>,
    /// Entries that close a place: growth regulators and sprays.
    closing: HashMap<Place, Vec<usize>>,
    /// Entries that change how many pots stand where.
    pots: Vec<usize>,
    ids: HashMap<Uuid, DateTime<Utc>>,
}

impl Index {
    /// Of entries already in order.
    pub(super) fn of(entries: &[Entry]) -> Self {
        let mut index = Self::default();
        for (position, entry) in entries.iter().enumerate() {
            index.add(entry, position, true);
        }
        index
    }

    /// Adds an entry that comes to stand at a position; `last` when nothing stands behind it.
    pub(super) fn add(&mut self, entry: &Entry, position: usize, last: bool) {
        if !last {
            let lists = self.by_place.values_mut().chain(self.closing.values_mut());
            for list in lists.chain(std::iter::once(&mut self.pots)) {
                let from = list.partition_point(|p| *p < position);
                list.iter_mut().skip(from).for_each(|p| *p += 1);
            }
        }
        let insert = |list: &mut Vec<usize>| list.insert(list.partition_point(|p| *p < position), position);
        let closes = matches!(entry.kind, Kind::GrowthRegulator { .. } | Kind::Sprayed { .. });
        // What is written of one plot of a trial says nothing of the rest of the bench, but for what leaves or closes it.
        if entry.plot.is_none() || closes || matches!(entry.kind, Kind::Losses { .. }) {
            insert(self.by_place.entry(entry.place.clone()).or_default());
            if closes {
                insert(self.closing.entry(entry.place.clone()).or_default());
            }
            if super::pots::touches(entry) {
                insert(&mut self.pots);
            }
        }
        self.ids.insert(entry.id, entry.instant());
    }

    /// The instant of the entry with this id.
    pub(super) fn instant(&self, id: Uuid) -> Option<DateTime<Utc>> {
        self.ids.get(&id).copied()
    }

    /// Entries of one place.
    pub(super) fn at(&self, place: &Place) -> &[usize] {
        self.by_place.get(place).map_or(&[], Vec::as_slice)
    }

    /// Entries that closed one place.
    pub(super) fn closing(&self, place: &Place) -> &[usize] {
        self.closing.get(place).map_or(&[], Vec::as_slice)
    }

    /// Entries that change how many pots stand where.
    pub(super) fn pots(&self) -> &[usize] {
        &self.pots
    }
}
