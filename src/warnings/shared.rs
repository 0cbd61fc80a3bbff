//! Whose trouble a warning is: the bench's own, its lot's or its house's.
//!
//! What was given to a lot, its pinch, its heights and its color are matters of the lot ([`Cause::is_of_lot`](super::Cause::is_of_lot)),
//! though most of their rules look at one bench at a time. Such a warning is the lot's where it stands on at least half of the lot's
//! benches, two or more (house rule); on fewer it is the benches' own. A lot with a forgotten drench is one trouble, not forty.

use super::{Warning, WarningName};
use crate::record::Place;
use crate::season::Season;
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};

/// Fewest benches that share a warning of their lot (house rule).
const FEWEST: usize = 2;

/// Whose trouble a warning is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whose<'w> {
    /// The bench's own.
    Bench(&'w str),
    /// Its lot's.
    Lot(&'w str),
    /// Its house's.
    House(&'w str),
}

/// The warnings that lots share on a day.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Shared {
    of_lots: BTreeMap<String, BTreeSet<WarningName>>,
}

impl Shared {
    /// Of all warnings of a day. One that is postponed on a bench does not count for the others.
    pub fn of<'w>(season: &Season, day: NaiveDate, warnings: impl Iterator<Item = &'w Warning>) -> Self {
        let mut benches: BTreeMap<(&str, WarningName), usize> = BTreeMap::new();
        for warning in warnings.filter(|w| w.put_off_until.is_none() && w.name.rule().cause.is_of_lot()) {
            if let (Place::Bench(_), Some(lot)) = (&warning.place, &warning.lot) {
                let count = benches.entry((lot, warning.name)).or_default();
                *count = count.saturating_add(1);
            }
        }
        let lots: BTreeSet<&str> = benches.keys().map(|(lot, _)| *lot).collect();
        let size: BTreeMap<&str, usize> =
            lots.into_iter().map(|lot| (lot, season.benches_of_lot(lot, day).len())).collect();
        let mut of_lots: BTreeMap<String, BTreeSet<WarningName>> = BTreeMap::new();
        for ((lot, name), count) in benches {
            let half = size.get(lot).is_some_and(|all| count.saturating_mul(2) >= *all);
            if count >= FEWEST && half {
                of_lots.entry(lot.to_owned()).or_default().insert(name);
            }
        }
        Self { of_lots }
    }

    /// Whose trouble a warning is.
    pub fn whose<'w>(&self, warning: &'w Warning) -> Whose<'w> {
        match &warning.place {
            Place::Lot(lot) => Whose::Lot(lot),
            Place::House(house) => Whose::House(house),
            Place::Bench(bench) => {
                let lot = warning.lot.as_deref();
                let shared = |lot: &&str| self.of_lots.get(*lot).is_some_and(|names| names.contains(&warning.name));
                lot.filter(shared).map_or(Whose::Bench(bench), Whose::Lot)
            }
        }
    }

    /// True where it is the bench's own.
    pub fn is_own(&self, warning: &Warning) -> bool {
        matches!(self.whose(warning), Whose::Bench(_))
    }
}

/// How many benches, lots and houses are flagged.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Flagged {
    benches: BTreeSet<String>,
    lots: BTreeSet<String>,
    houses: BTreeSet<String>,
}

impl Flagged {
    /// Adds one.
    pub fn add(&mut self, whose: Whose<'_>) {
        match whose {
            Whose::Bench(bench) => self.benches.insert(bench.to_owned()),
            Whose::Lot(lot) => self.lots.insert(lot.to_owned()),
            Whose::House(house) => self.houses.insert(house.to_owned()),
        };
    }

    /// Benches, lots and houses.
    pub fn counts(&self) -> (usize, usize, usize) {
        (self.benches.len(), self.lots.len(), self.houses.len())
    }
}
