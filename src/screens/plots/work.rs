//! What is to be read: the plots of the card in walking order, with what was read of each.

use super::{Asked, State};
use crate::model::{Model, walk_order};
use crate::record::{Entry, Plot, TrialReading};
use crate::trials;

/// The plots of the card.
pub(super) struct Work<'m> {
    /// What is read of each plot, in the trial's order.
    pub(super) readings: &'m [TrialReading],
    /// By bench in walking order, then by number.
    pub(super) plots: Vec<One<'m>>,
}

/// A plot of the card.
pub(super) struct One<'m> {
    pub(super) plot: &'m Plot,
    /// All its pots are lost.
    pub(super) lost: bool,
    /// Its bench is closed or empty.
    shut: bool,
    /// The entry of each reading since the day that counts.
    pub(super) read: Vec<Option<&'m Entry>>,
}

impl One<'_> {
    /// True where nothing is missing.
    pub(super) fn is_done(&self) -> bool {
        self.read.iter().all(Option::is_some)
    }
}

impl<'m> Work<'m> {
    /// What the card has to read.
    pub(super) fn of(state: &State, model: &'m Model) -> Self {
        let season = &model.season;
        let readings = season.trial(&state.trial).map(|trial| trial.reads.as_slice()).unwrap_or_default();
        let plots = season.plots(&state.trial);
        let benches = season.benches().iter().filter(|b| state.bench.as_ref().is_none_or(|only| *only == b.bench));
        let on_bench = benches.flat_map(|bench| {
            let shut = walk_order::shut(model, &bench.bench).is_some();
            plots.iter().filter(move |plot| plot.bench == bench.bench).map(move |plot| (*plot, shut))
        });
        let one = |(plot, shut): (&'m Plot, bool)| {
            let read = |reading: &TrialReading| {
                let of = season.plot_entries(&plot.plot, model.day).filter(|e| trials::is_of(&e.kind, *reading));
                of.filter(|e| e.day() >= state.since).last()
            };
            let lost = trials::is_lost(season, plot, model.day);
            One { plot, lost, shut, read: readings.iter().map(read).collect() }
        };
        Self { readings, plots: on_bench.map(one).collect() }
    }

    /// The plot of this code.
    pub(super) fn one(&self, plot: &str) -> Option<&One<'m>> {
        self.plots.iter().find(|one| one.plot.plot == plot)
    }

    /// Plots read and living ones.
    pub(super) fn count(&self) -> (usize, usize) {
        let living = || self.plots.iter().filter(|one| !one.lost);
        (living().filter(|one| one.is_done()).count(), living().count())
    }

    /// The reading that comes next after one and is missing, going round at the end; the first one where none is given.
    pub(super) fn next(&self, after: Option<&Asked>) -> Option<Asked> {
        let all = self.all();
        let start =
            after.and_then(|after| all.iter().position(|asked| asked == after)).map_or(0, |at| at.saturating_add(1));
        let (before, behind) = all.split_at(start.min(all.len()));
        behind.iter().chain(before).find(|asked| self.is_missing(asked)).cloned()
    }

    /// The reading that can be made before one, made or not.
    pub(super) fn before(&self, asked: Option<&Asked>) -> Option<Asked> {
        let all = self.all();
        let at = asked.and_then(|asked| all.iter().position(|one| one == asked)).unwrap_or(all.len());
        all.get(..at)?.last().cloned()
    }

    /// The plot before or after one that can be read: its first missing reading, or its first.
    pub(super) fn beside(&self, asked: Option<&Asked>, onward: bool) -> Option<Asked> {
        let open: Vec<&One<'_>> = self.plots.iter().filter(|one| !one.lost && !one.shut).collect();
        let at = asked.and_then(|asked| open.iter().position(|one| one.plot.plot == asked.plot));
        let next: &One<'_> = match at {
            Some(at) if onward => open.get(at.saturating_add(1)),
            Some(at) => at.checked_sub(1).and_then(|at| open.get(at)),
            None if onward => open.first(),
            None => open.last(),
        }?;
        self.first_of(next)
    }

    /// The first missing reading of a plot, or its first.
    pub(super) fn first_of(&self, one: &One<'_>) -> Option<Asked> {
        let missing = one.read.iter().position(Option::is_none).unwrap_or(0);
        Some(Asked { plot: one.plot.plot.clone(), reading: *self.readings.get(missing)? })
    }

    /// Every reading that can be made, in order: of a lost plot and of one on a closed bench none.
    fn all(&self) -> Vec<Asked> {
        let open = self.plots.iter().filter(|one| !one.lost && !one.shut);
        let of = |one: &One<'_>| {
            let plot = one.plot.plot.clone();
            self.readings.iter().map(move |reading| Asked { plot: plot.clone(), reading: *reading })
        };
        open.flat_map(of).collect()
    }

    fn is_missing(&self, asked: &Asked) -> bool {
        let at = self.readings.iter().position(|reading| *reading == asked.reading);
        let read = self.one(&asked.plot).zip(at).and_then(|(one, at)| one.read.get(at));
        read.is_some_and(Option::is_none)
    }
}
