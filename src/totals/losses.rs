//! Pots lost by cause, as the causes were written.

use crate::record::{Kind, KindName};
use crate::season::Season;
use chrono::NaiveDate;
use serde::Serialize;
use std::collections::BTreeMap;

/// Pots lost for one cause.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Cause {
    /// The cause as it was written first; `None` where none was.
    pub cause: Option<String>,
    /// Pots lost.
    pub pots: u64,
    /// How often it was logged.
    pub times: u64,
    /// Pots by lot; an empty name stands for pots of no known lot.
    pub lots: BTreeMap<String, u64>,
    /// The first day.
    pub first: NaiveDate,
    /// The last day.
    pub last: NaiveDate,
}

/// Pots lost by cause up to the end of a day, most first. Causes that differ only in capitals or blanks are one.
pub fn losses(season: &Season, on: NaiveDate) -> Vec<Cause> {
    let mut causes: BTreeMap<Option<String>, Cause> = BTreeMap::new();
    for entry in season.counting_of(KindName::Losses, on) {
        let Kind::Losses { pots, cause } = &*entry.kind else { continue };
        let (day, lot) = (entry.day(), season.lot_of(entry).unwrap_or_default());
        let key = cause.as_deref().map(|cause| cause.to_lowercase().split_whitespace().collect::<Vec<_>>().join(" "));
        let new = || Cause { cause: cause.clone(), pots: 0, times: 0, lots: BTreeMap::new(), first: day, last: day };
        let found = causes.entry(key).or_insert_with(new);
        found.pots += u64::from(*pots);
        found.times += 1;
        *found.lots.entry(lot).or_default() += u64::from(*pots);
        found.last = found.last.max(day);
    }
    let mut all: Vec<Cause> = causes.into_values().collect();
    all.sort_by(|a, b| b.pots.cmp(&a.pots).then_with(|| a.cause.cmp(&b.cause)));
    all
}
