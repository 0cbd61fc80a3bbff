//! What was written of the pots on a bench: for the rules up to a day without what is struck out, for the bench's page with it.

use super::index::Position;
use super::moment::Moment;
use super::{Season, Standing};
use crate::dates::add_days;
use crate::record::{Entry, KindName, Place};
use chrono::NaiveDate;

/// Everything that counts for the pots on a bench up to the end of a day, oldest first. Empty for an empty bench.
#[derive(Debug, Clone)]
pub struct History<'a> {
    /// The pots on it at the end of the day; `None` when the bench is empty.
    pub standing: Option<Standing>,
    /// The day.
    pub day: NaiveDate,
    entries: Vec<&'a Entry>,
}

impl<'a> History<'a> {
    /// All entries that count, by (instant, id). Strikes themselves are not among them.
    pub fn all(&self) -> &[&'a Entry] {
        &self.entries
    }

    /// Those of one kind, oldest first.
    pub fn of(&self, kind: KindName) -> impl DoubleEndedIterator<Item = &'a Entry> + '_ {
        self.entries.iter().copied().filter(move |e| e.name() == kind)
    }

    /// The latest of one kind.
    pub fn last(&self, kind: KindName) -> Option<&'a Entry> {
        self.of(kind).next_back()
    }

    /// Those written on one day.
    pub fn on(&self, day: NaiveDate) -> impl DoubleEndedIterator<Item = &'a Entry> + '_ {
        self.entries.iter().copied().filter(move |e| e.day() == day)
    }
}

/// One entry as the bench's page shows it.
#[derive(Debug, Clone, Copy)]
pub struct Written<'a> {
    /// The entry.
    pub entry: &'a Entry,
    /// The strike that took it out.
    pub struck_by: Option<&'a Entry>,
}

impl Season {
    /// Everything that counts for the pots on a bench up to the end of a day, minus entries struck out as of that day.
    pub fn history(&self, bench: &str, day: NaiveDate) -> History<'_> {
        let standing = self.ledger(day).standing(bench, day);
        let entries = self.positions(bench, day).into_iter().filter_map(|p| self.counting_at(p, day)).collect();
        History { standing, day, entries }
    }

    /// Of a history the entries of one kind, oldest first; the others are not read.
    pub fn history_of(&self, bench: &str, day: NaiveDate, kind: KindName) -> Vec<&Entry> {
        let positions = self.positions(bench, day);
        let listed = self.index.of_kind(kind);
        let is_of = |p: &Position| listed.is_none_or(|all| all.binary_search(p).is_ok());
        let entries = positions.into_iter().filter(is_of).filter_map(|p| self.counting_at(p, day));
        entries.filter(|e| e.name() == kind).collect()
    }

    /// Of a history the latest entry of one kind.
    pub fn last_of(&self, bench: &str, day: NaiveDate, kind: KindName) -> Option<&Entry> {
        let mut back = self.positions(bench, day).into_iter().rev().filter_map(|p| self.counting_at(p, day));
        back.find(|e| e.name() == kind)
    }

    /// Of a history what was written on its last day, the latest first.
    pub fn written_on(&self, bench: &str, day: NaiveDate) -> impl Iterator<Item = &Entry> {
        let back = self.positions(bench, day).into_iter().rev().filter_map(|p| self.at(p));
        // The local day is at most a day from that of UTC.
        let near = back.take_while(move |e| e.instant().date_naive() >= add_days(day, -1));
        near.filter(move |e| e.day() == day && self.is_in_history(e, day))
    }

    /// What was written of the pots on a bench up to the end of a day, in the order of the record.
    fn positions(&self, bench: &str, day: NaiveDate) -> Vec<Position> {
        let ledger = self.ledger(day);
        let stay = self.bench_code(bench).zip(ledger.stint_at(bench, day));
        stay.map(|(bench, stint)| self.follow(ledger, bench, stint, Moment::end_of(day))).unwrap_or_default()
    }

    fn counting_at(&self, position: Position, day: NaiveDate) -> Option<&Entry> {
        self.at(position).filter(|e| self.is_in_history(e, day))
    }

    /// True where an entry is no strike, and not struck out as of a day.
    fn is_in_history(&self, entry: &Entry, day: NaiveDate) -> bool {
        entry.name() != KindName::Strike && !self.strikes.struck(entry, day)
    }

    /// Everything ever written that concerns a bench, struck-out entries and strikes among it, oldest first: its own entries,
    /// and what came along with its pots. Of an entry and the one that completes it only the latter is given.
    pub fn written(&self, bench: &str) -> Vec<Written<'_>> {
        let Some(bench) = self.bench_code(bench) else { return Vec::new() };
        let ledger = self.ledger(NaiveDate::MAX);
        let stints = ledger.bench(bench).map_or(0, |b| b.stints.len());
        let mut found: Vec<Position> = self.index.at(&Place::Bench(bench.into())).to_vec();
        for stint in 0..stints {
            found.extend(self.follow(ledger, bench, stint, ledger.end_of(bench, stint)));
        }
        found.sort_unstable();
        found.dedup();
        self.written_of(&found)
    }

    /// The same of one plot of a trial.
    pub fn written_of_plot(&self, plot: &str) -> Vec<Written<'_>> {
        self.written_of(self.index.of_plot(plot))
    }

    fn written_of(&self, found: &[Position]) -> Vec<Written<'_>> {
        let struck_by = |e| self.strikes.on(e).next().and_then(|s| self.entry(s.id));
        found
            .iter()
            .filter_map(|p| self.at(*p))
            .map(|entry| Written { entry, struck_by: struck_by(entry) })
            .filter(|one| one.struck_by.is_some() || !self.is_completed(one.entry))
            .collect()
    }

    /// From where the pots on a bench came by a move, with the day: their history before that day is that of the other bench.
    /// Oldest first.
    pub fn joined(&self, bench: &str, day: NaiveDate) -> Vec<(NaiveDate, &str)> {
        let ledger = self.ledger(day);
        let stint = ledger.bench(bench).zip(ledger.stint_at(bench, day)).and_then(|(b, stint)| b.stints.get(stint));
        let arrived = stint.into_iter().flat_map(|stint| &stint.arrivals).filter(|a| a.moment.day <= day);
        let mut all: Vec<(NaiveDate, &str)> = arrived.map(|a| (a.moment.day, a.from.as_str())).collect();
        all.dedup();
        all
    }

    /// The plan's own copy of a bench's code.
    fn bench_code(&self, bench: &str) -> Option<&str> {
        self.bench(bench).map(|b| b.bench.as_str())
    }
}
