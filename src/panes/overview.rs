//! All benches at one look: what the map of the walk, the counts and the day are made of. A frame reads them once.

use crate::model::{Model, Summary};
use crate::record::Bench;
use crate::warnings::{Severity, Warning, Whose};
use chrono::{DateTime, FixedOffset};
use std::collections::BTreeSet;

/// One bench.
#[derive(Debug, Clone, Copy)]
pub struct Seen<'m> {
    /// Of the plan.
    pub bench: &'m Bench,
    /// As it was worked out last; `None` until then.
    pub summary: Option<&'m Summary>,
    /// Until when it is closed, in the site's time.
    pub closed: Option<DateTime<FixedOffset>>,
    /// How severe the trouble of the bench itself is, without what is postponed.
    pub level: Option<Severity>,
}

/// A trouble of a lot or a house as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Trouble<'m> {
    /// Whose it is.
    pub whose: Whose<'m>,
    /// How severe it is.
    pub level: Severity,
    /// What it is.
    pub title: &'static str,
}

/// All benches in walking order, and what concerns whole lots and houses, the most severe first.
#[derive(Debug, Clone)]
pub struct Overview<'m> {
    /// The benches.
    pub benches: Vec<Seen<'m>>,
    /// Each trouble once.
    pub troubles: Vec<Trouble<'m>>,
}

/// A house and its benches in walking order.
pub(super) type OfHouse<'o> = (&'o str, Vec<&'o Seen<'o>>);

impl<'m> Overview<'m> {
    /// Reads them.
    pub fn of(model: &'m Model) -> Self {
        Self { benches: benches(model), troubles: troubles(model) }
    }

    /// The benches of each house, the houses in walking order.
    pub(super) fn by_house(&self) -> Vec<OfHouse<'_>> {
        let mut houses: Vec<OfHouse<'_>> = Vec::new();
        for seen in &self.benches {
            // Most often the house of the bench before.
            match houses.iter_mut().rfind(|(house, _)| *house == seen.bench.house) {
                Some((_, benches)) => benches.push(seen),
                None => houses.push((&seen.bench.house, vec![seen])),
            }
        }
        houses
    }

    /// How many lots and houses have trouble at act or above.
    pub fn flagged(&self) -> (usize, usize) {
        let flagged: BTreeSet<Whose<'_>> =
            self.troubles.iter().filter(|t| t.level >= Severity::Act).map(|t| t.whose).collect();
        let lots = flagged.iter().filter(|whose| matches!(whose, Whose::Lot(_))).count();
        (lots, flagged.len().saturating_sub(lots))
    }
}

/// The benches in walking order.
fn benches<'m>(model: &'m Model) -> Vec<Seen<'m>> {
    let closed_until = model.closings();
    let seen = |bench: &'m Bench| {
        let code = bench.bench.as_str();
        Seen { bench, summary: model.cache.bench(code), closed: closed_until(code), level: model.cache.own_worst(code) }
    };
    model.season.benches().iter().map(seen).collect()
}

fn troubles<'m>(model: &'m Model) -> Vec<Trouble<'m>> {
    let trouble = |w: &'m Warning| Trouble { whose: model.cache.whose(w), level: w.level, title: w.name.title() };
    model.cache.troubles().iter().map(trouble).collect()
}
