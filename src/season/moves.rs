//! Following pots back through their moves: what was written where they stood, while they stood there.

use super::Season;
use super::index::Position;
use super::moment::Moment;
use super::pots::Ledger;
use crate::dates::add_days;
use crate::record::Place;
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
            // The local day is at most a day from that of UTC: what lies well inside counts, what lies well outside does not, and
            // only the entries between are looked at.
            let (first, last) = (before.map_or(stint.first, |b| b.max(stint.first)).day, until.day);
            let mut take = |place: &Place| {
                let list = self.index.at(place);
                let day = |p: &Position| self.at(*p).map(|e| e.instant().date_naive());
                let (list, _) = list.split_at(end_of(list, |p| day(p) <= Some(add_days(last, 1))));
                let (_, list) = list.split_at(begin_of(list, |p| day(p) < Some(add_days(first, -1))));
                let open = list.iter().take_while(|p| day(p) < Some(add_days(first, 2))).count();
                let (head, list) = list.split_at(open);
                let close = list.iter().rev().take_while(|p| day(p) > Some(add_days(last, -2))).count();
                let (inside, tail) = list.split_at(list.len().saturating_sub(close));
                let at = |p: &&Position| self.at(**p).is_some_and(|e| counts(Moment::of(e)));
                found.extend(head.iter().filter(at));
                found.extend(inside);
                found.extend(tail.iter().filter(at));
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

/// How many at the beginning of an ascending list are before something: none of them, for the most part.
fn begin_of(list: &[Position], is_before: impl Fn(&Position) -> bool) -> usize {
    if list.first().is_some_and(&is_before) { list.partition_point(is_before) } else { 0 }
}

/// How many of an ascending list are up to something: all of them, for the most part.
fn end_of(list: &[Position], is_up_to: impl Fn(&Position) -> bool) -> usize {
    if list.last().is_none_or(&is_up_to) { list.len() } else { list.partition_point(is_up_to) }
}
