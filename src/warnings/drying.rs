//! How fast benches dry down, from their record, and which dry slower than their lot. An observation, not a warning: it has no
//! level and nothing ends it but the next dry-down.

use super::assess::benches;
use super::bench_day::{BenchDay, DayContext};
use crate::crop::dry_down::{self, Drying, OfLot, Slow};
use crate::limits::Limits;
use crate::season::Season;
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// A bench that dries slower than its lot.
#[derive(Debug, Clone, PartialEq)]
pub struct Slower {
    /// Its code.
    pub bench: String,
    /// Its lot.
    pub lot: String,
    /// How long it takes, and its lot.
    pub slow: Slow,
}

/// The dry-downs of the pots on a bench.
pub(super) fn of_bench(bench: &BenchDay<'_>) -> Drying {
    let readings: Vec<(NaiveDate, u8)> = bench.readings.iter().map(|r| (r.day, r.level)).collect();
    let waterings: Vec<NaiveDate> = bench.waterings.iter().map(|e| e.day()).collect();
    dry_down::drying(&readings, &waterings)
}

/// The benches that dry slower than the others of their lot, of (bench, lot, dry-downs); in the order given.
pub fn slower<'d>(benches: impl Iterator<Item = (&'d str, &'d str, &'d Drying)>, on: NaiveDate) -> Vec<Slower> {
    let all: Vec<(&str, &str, &Drying)> = benches.collect();
    let mut lots: BTreeMap<&str, OfLot<'_>> = BTreeMap::new();
    for (_, lot, drying) in &all {
        lots.entry(*lot).or_default().add(drying);
    }
    let mut found = Vec::new();
    for (bench, lot, own) in all {
        if let Some(slow) = lots.get_mut(lot).and_then(|lot| dry_down::slower(own, lot, on)) {
            found.push(Slower { bench: bench.to_owned(), lot: lot.to_owned(), slow });
        }
    }
    found
}

/// The benches of a season that dry slower than their lot on a day, in walking order.
pub fn slower_on(season: &Season, day: NaiveDate, limits: &Limits) -> Vec<Slower> {
    let season = &season.on(day);
    let context = DayContext::new(season, day, limits);
    slower_of(&benches(&context), day)
}

/// The same of benches that are read already.
pub(super) fn slower_of(benches: &[BenchDay<'_>], day: NaiveDate) -> Vec<Slower> {
    let all: Vec<(&str, &str, Drying)> =
        benches.iter().map(|bench| (bench.code(), bench.lot.lot.as_str(), of_bench(bench))).collect();
    slower(all.iter().map(|(bench, lot, drying)| (*bench, *lot, drying)), day)
}
