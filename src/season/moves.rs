//! Following pots back through their moves: what was written where they stood, while they stood there.

use super::Season;
use super::index::Position;
use super::moment::Moment;
use super::pots::Ledger;
use crate::dates::add_days;
use crate::record::{Entry, Place};
use std::collections::HashMap;

impl Season {
    /// Positions of all entries that count for one stay on a bench up to a moment, ascending, each once.
    ///
    /// Each stay is read once up to the latest moment pots left it, so that pots moved to and fro cost no more than their
    /// entries.
    pub(super) fn follow<'a>(
        &'a self,
        ledger: &'a Ledger,
        bench: &'a str,
        stint: usize,
        until: Moment,
    ) -> Vec<Position> {
        let mut found = Vec::new();
        let mut read: HashMap<(&str, usize), Moment> = HashMap::new();
        let mut work = vec![(bench, stint, until)];
        while let Some((bench, number, until)) = work.pop() {
            let Some(stint) = ledger.bench(bench).and_then(|b| b.stints.get(number)) else { continue };
            let before = read.get(&(bench, number)).copied();
            if before.is_some_and(|b| b >= until) {
                continue;
            }
            read.insert((bench, number), until);
            let counts = |m: Moment| m >= stint.first && m <= until && before.is_none_or(|b| m > b);
            // Well inside it is certain without the local day, which is at most a day from that of UTC.
            let (first, last) = (before.map_or(stint.first, |b| b.max(stint.first)).day, until.day);
            let inside = add_days(first, 2)..=add_days(last, -2);
            let mut take = |place: &Place| {
                let is_inside = |e: &Entry| inside.contains(&e.instant().date_naive());
                let at = |p: &Position| self.at(*p).is_some_and(|e| is_inside(e) || counts(Moment::of(e)));
                found.extend(self.index.at(place).iter().filter(|p| at(p)));
            };
            take(&Place::Bench(bench.into()));
            take(&Place::Lot(stint.lot.as_str().into()));
            if let Some(b) = self.bench(bench) {
                take(&Place::House(b.house.as_str().into()));
            }
            let arrived = stint.arrivals.iter().filter(|a| counts(a.moment));
            work.extend(arrived.map(|a| (a.from.as_str(), a.from_stint, a.moment)));
        }
        found.sort_unstable();
        found.dedup();
        found
    }
}
