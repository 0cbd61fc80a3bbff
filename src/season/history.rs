//! What was written of the pots on a bench: for the rules up to a day without what is struck out, for the bench's page with it.

use super::index::Position;
use super::moment::Moment;
use super::{Season, Standing};
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
        let ledger = self.ledger(day);
        let standing = ledger.standing(bench, day);
        let stay = self.bench_code(bench).zip(ledger.stint_at(bench, day));
        let found = stay.map(|(bench, stint)| self.follow(ledger, bench, stint, Moment::end_of(day)));
        let entries = found.unwrap_or_default().into_iter().filter_map(|p| self.at(p));
        let entries = entries.filter(|e| e.name() != KindName::Strike && !self.strikes.struck(e, day)).collect();
        History { standing, day, entries }
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
