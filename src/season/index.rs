//! Where to find things: the plan's lines that hold, and the positions of entries by place. One entry more costs a push, not a
//! new index.

use super::revisions;
use crate::record::{Bench, Entry, KindName, Line, Lot, LotHistory, Order, Place, Placement, Plan, Plot, Site, Trial};
use chrono::{DateTime, NaiveDate, Utc};
use foldhash::fast::RandomState;
use std::collections::{BTreeMap, HashMap};
use std::sync::{Arc, OnceLock};
use uuid::Uuid;

/// The lines of the plan that hold on a day.
#[derive(Debug, Clone, Default)]
pub(super) struct PlanView {
    pub(super) site: Option<Site>,
    pub(super) lots: BTreeMap<String, Lot>,
    pub(super) histories: BTreeMap<String, LotHistory>,
    /// By (order, code).
    pub(super) walk: Vec<Bench>,
    /// Where each bench stands in the walk.
    benches: HashMap<String, usize>,
    /// By (day, bench).
    pub(super) placements: Vec<Placement>,
    /// By (lot, date).
    pub(super) orders: Vec<Order>,
    pub(super) trials: BTreeMap<String, Trial>,
    /// By (trial, number).
    pub(super) plots: Vec<Plot>,
}

impl PlanView {
    /// Of the lines that hold.
    fn of(lines: impl Iterator<Item = Line>) -> Self {
        let mut view = Self::default();
        for line in lines {
            match line {
                Line::Site(l) => view.site = Some(l),
                Line::Lot(l) => {
                    view.lots.insert(l.lot.clone(), l);
                }
                Line::LotHistory(l) => {
                    view.histories.insert(l.lot.clone(), l);
                }
                Line::Bench(l) => view.walk.push(l),
                Line::Placement(l) => view.placements.push(l),
                Line::Order(l) => view.orders.push(l),
                Line::Trial(l) => {
                    view.trials.insert(l.trial.clone(), l);
                }
                Line::Plot(l) => view.plots.push(l),
                Line::Entry(_) => {}
            }
        }
        view.walk.sort_by(|a, b| (a.order, &a.bench).cmp(&(b.order, &b.bench)));
        view.benches = view.walk.iter().enumerate().map(|(n, b)| (b.bench.clone(), n)).collect();
        view.placements.sort_by(|a, b| (a.from, &a.bench).cmp(&(b.from, &b.bench)));
        view.orders.sort_by(|a, b| (&a.lot, a.date).cmp(&(&b.lot, b.date)));
        view.plots.sort_by(|a, b| (&a.trial, a.number()).cmp(&(&b.trial, b.number())));
        view
    }

    /// A bench by its code.
    pub(super) fn bench(&self, code: &str) -> Option<&Bench> {
        self.benches.get(code).and_then(|n| self.walk.get(*n))
    }
}

/// The plan as it stood from each day on which it changed; made when first asked for.
#[derive(Debug, Clone, Default)]
pub(super) struct PlanViews {
    /// Days on which a revision was written, ascending.
    pub(super) days: Vec<NaiveDate>,
    /// One before the first of these days, one from each of them on.
    views: Vec<OnceLock<PlanView>>,
}

impl PlanViews {
    /// Of a plan.
    pub(super) fn of(plan: &Plan) -> Self {
        let lines = plan.lines();
        let mut days: Vec<NaiveDate> =
            revisions::by_key(&lines).values().flat_map(|r| r.days().collect::<Vec<_>>()).collect();
        days.sort_unstable();
        days.dedup();
        let views = (0..=days.len()).map(|_| OnceLock::new()).collect();
        Self { days, views }
    }

    /// Which view holds at the end of a day; the last for `None`.
    pub(super) fn number(&self, on: Option<NaiveDate>) -> usize {
        on.map_or(self.days.len(), |on| self.days.partition_point(|day| *day <= on))
    }

    /// The plan as it stood at the end of a day.
    pub(super) fn view(&self, plan: &Plan, on: Option<NaiveDate>) -> &PlanView {
        static EMPTY: OnceLock<PlanView> = OnceLock::new();
        let number = self.number(on);
        let Some(slot) = self.views.get(number) else { return EMPTY.get_or_init(PlanView::default) };
        slot.get_or_init(|| {
            // The last view knows every line, also those of a clock that is ahead.
            let day = if number == self.days.len() { None } else { on };
            let lines = plan.lines();
            PlanView::of(revisions::by_key(&lines).values().filter_map(|r| r.holds(day)))
        })
    }
}

/// Where an entry is among the entries: half of a `usize`, as a season has as many of these as entries.
pub(super) type Position = u32;

/// Positions of entries, each list in the order of the entries.
#[derive(Debug, Clone, Default)]
pub(super) struct Index {
    by_place: HashMap<Place, Vec<Position>, RandomState>,
    /// Entries of one plot of a trial.
    by_plot: HashMap<Arc<str>, Vec<Position>>,
    /// Entries of each kind, by its place in the list of kinds, but the readings of water, which most entries are.
    by_kind: Vec<Vec<Position>>,
    /// Entries that close a place: growth regulators and sprays.
    closing: HashMap<Place, Vec<Position>>,
    /// Entries that change how many pots stand where.
    pots: Vec<Position>,
    ids: HashMap<Uuid, DateTime<Utc>, RandomState>,
}

impl Index {
    /// Of entries already in order. Of those with one id the first is kept.
    pub(super) fn of(entries: &mut Vec<Entry>) -> Self {
        let mut index =
            Self { ids: HashMap::with_capacity_and_hasher(entries.len(), RandomState::default()), ..Self::default() };
        let mut position = 0;
        entries.retain(|entry| {
            let is_first = !index.ids.contains_key(&entry.id);
            if is_first {
                index.add(entry, position, true);
                position += 1;
            }
            is_first
        });
        index
    }

    /// Adds an entry at a position; `last` when no entry is after it.
    pub(super) fn add(&mut self, entry: &Entry, position: usize, last: bool) {
        // More entries than this do not fit into memory either.
        let position = Position::try_from(position).unwrap_or(Position::MAX);
        if !last {
            let lists = self.by_place.values_mut().chain(self.closing.values_mut()).chain(&mut self.by_kind);
            for list in lists.chain(self.by_plot.values_mut()).chain(std::iter::once(&mut self.pots)) {
                let from = list.partition_point(|p| *p < position);
                list.iter_mut().skip(from).for_each(|p| *p += 1);
            }
        }
        let insert = |list: &mut Vec<Position>| {
            if last {
                list.push(position);
            } else {
                list.insert(list.partition_point(|p| *p < position), position);
            }
        };
        if entry.name() != KindName::Water {
            let kind = entry.name() as usize;
            if self.by_kind.len() <= kind {
                self.by_kind.resize_with(kind + 1, Vec::new);
            }
            if let Some(list) = self.by_kind.get_mut(kind) {
                insert(list);
            }
        }
        if let Some(plot) = &entry.plot {
            insert(self.by_plot.entry(Arc::clone(plot)).or_default());
        }
        if entry.is_of_whole_place() {
            match self.by_place.get_mut(&entry.place) {
                Some(list) => insert(list),
                None => insert(self.by_place.entry(entry.place.clone()).or_default()),
            }
            if entry.kind.re_entry_h().is_some() {
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
    pub(super) fn at(&self, place: &Place) -> &[Position] {
        self.by_place.get(place).map_or(&[], Vec::as_slice)
    }

    /// The entries of each place.
    pub(super) fn places(&self) -> impl Iterator<Item = (&Place, &[Position])> {
        self.by_place.iter().map(|(place, list)| (place, list.as_slice()))
    }

    /// The entries of each plot.
    pub(super) fn plots(&self) -> impl Iterator<Item = (&str, &[Position])> {
        self.by_plot.iter().map(|(plot, list)| (plot.as_ref(), list.as_slice()))
    }

    /// Entries of one kind; `None` where they are not listed.
    pub(super) fn of_kind(&self, kind: KindName) -> Option<&[Position]> {
        (kind != KindName::Water).then(|| self.by_kind.get(kind as usize).map_or(&[][..], Vec::as_slice))
    }

    /// Entries of one plot.
    pub(super) fn of_plot(&self, plot: &str) -> &[Position] {
        self.by_plot.get(plot).map_or(&[], Vec::as_slice)
    }

    /// Entries that closed one place.
    pub(super) fn closing(&self, place: &Place) -> &[Position] {
        self.closing.get(place).map_or(&[], Vec::as_slice)
    }

    /// Entries that closed any place.
    pub(super) fn closing_any(&self) -> impl Iterator<Item = Position> {
        self.closing.values().flatten().copied()
    }

    /// Entries that change how many pots stand where.
    pub(super) fn pots(&self) -> &[Position] {
        &self.pots
    }
}
