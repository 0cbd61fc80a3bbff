//! Which benches a list shows, and in which order: shared by the pages, kept until it is changed.

use super::{Model, Summary, Walked};
use crate::record::Bench;
use crate::warnings::{CheckName, Severity};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// Which benches are shown.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum View {
    /// All.
    #[default]
    All,
    /// Those still to be walked today: open, with pots and a check not done.
    NotWalked,
    /// Those with a warning at act or above.
    Flagged,
    /// Those where this check is due and not done today.
    Due(CheckName),
    /// Those of a house.
    House(String),
    /// Those with pots of a lot.
    Lot(String),
    /// Those under restricted entry.
    Closed,
}

/// In which order.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Order {
    /// As they are walked.
    #[default]
    Walking,
    /// The most severe warnings first.
    Severity,
    /// The wettest first, by the last reading of the week, then by the sum of the week.
    Wettest,
    /// Longest not seen first.
    Unseen,
}

/// The view and the order.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Listing {
    /// Which benches.
    pub view: View,
    /// In which order.
    pub order: Order,
}

impl View {
    /// In words: `flagged`, `house East`, `roots due`.
    pub fn text(&self) -> String {
        match self {
            Self::All => "all benches".to_owned(),
            Self::NotWalked => "not walked".to_owned(),
            Self::Flagged => "flagged".to_owned(),
            Self::Due(check) => format!("{} due today", check.text()),
            Self::House(house) => format!("house {house}"),
            Self::Lot(lot) => format!("lot {lot}"),
            Self::Closed => "closed".to_owned(),
        }
    }

    /// Whether it shows a bench; `level` is the highest severity of what is its own. Until a bench is assessed only the views that
    /// need no assessment show it.
    fn shows(&self, model: &Model, bench: &Bench, level: Option<Severity>) -> bool {
        let code = bench.bench.as_str();
        let summary = || model.cache.bench(code);
        let closed = || model.closed_until(code).is_some();
        match self {
            Self::All => true,
            Self::House(house) => bench.house == *house,
            Self::Lot(lot) => model.season.standing(code, model.day).is_some_and(|s| s.lot == *lot),
            Self::Closed => closed(),
            Self::Flagged => level >= Some(Severity::Act),
            Self::NotWalked => summary().is_some_and(to_walk) && !closed(),
            Self::Due(check) => summary().is_some_and(|s| s.due.iter().any(|c| c.what == *check && !c.done)),
        }
    }
}

/// True for a bench with pots where the round is not done.
fn to_walk(summary: &Summary) -> bool {
    summary.standing.is_some() && summary.walked() != Walked::Yes
}

impl Order {
    /// Every order, as they are offered.
    pub const ALL: [Self; 4] = [Self::Walking, Self::Severity, Self::Wettest, Self::Unseen];

    /// In words.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Walking => "in walking order",
            Self::Severity => "most severe first",
            Self::Wettest => "wettest first",
            Self::Unseen => "longest not seen first",
        }
    }
}

impl Model {
    /// The benches that the active view shows, in the active order.
    pub fn listed(&self) -> Vec<&Bench> {
        self.listed_as(&self.listing)
    }

    /// The benches of a view in an order; what is equal stands in walking order.
    pub fn listed_as(&self, listing: &Listing) -> Vec<&Bench> {
        if *listing == Listing::default() {
            return self.season.benches().iter().collect();
        }
        // Those of 500 benches take longer than a frame may: asked for several times in each, they are made only where they count.
        let by_level = listing.view == View::Flagged || listing.order == Order::Severity;
        let levels = if by_level { self.levels() } else { BTreeMap::new() };
        let level = |bench: &Bench| levels.get(bench.bench.as_str()).copied();
        let shown = self.season.benches().iter().filter(|bench| listing.view.shows(self, bench, level(bench)));
        let mut benches: Vec<&Bench> = shown.collect();
        let summary = |bench: &Bench| self.cache.bench(&bench.bench);
        match listing.order {
            Order::Walking => {}
            Order::Severity => {
                benches.sort_by_cached_key(|b| Reverse((level(b), summary(b).map_or(0, |s| s.warnings.len()))));
            }
            Order::Wettest => benches.sort_by_cached_key(|b| Reverse(summary(b).map(wetness))),
            Order::Unseen => benches.sort_by_cached_key(|b| match summary(b) {
                // A bench without pots is not missed.
                Some(s) if s.standing.is_some() => (false, s.last_seen),
                _ => (true, None),
            }),
        }
        benches
    }

    /// The highest severity of what is each bench's own, without what is postponed: a trouble of its lot or house flags no bench.
    pub fn levels(&self) -> BTreeMap<&str, Severity> {
        let benches = self.season.benches().iter().map(|b| b.bench.as_str());
        benches.filter_map(|bench| Some((bench, self.cache.own_worst(bench)?))).collect()
    }
}

/// The last water reading of the week, then the sum of the week.
fn wetness(summary: &Summary) -> (u8, u32) {
    let last = summary.week.iter().flatten().next().copied().unwrap_or(0);
    (last, summary.week.iter().flatten().map(|level| u32::from(*level)).sum())
}
