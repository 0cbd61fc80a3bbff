//! The slow work of the page, done in slices while no key is pressed: the analysis of a reading, then its reshuffling. What was found stays
//! until anything of the trial changes.

use super::State;
use crate::model::Model;
use crate::record::TrialReading;
use crate::report::trial::Found;
use crate::trials::{Over, Readings, Reshuffle, Rules};

/// Deals in one slice: a few milliseconds for a hundred plots.
const SLICE: u32 = 50;
/// Results that are kept, the newest ones.
const MOST: usize = 16;

/// What is analyzed: the reading, its day or its growth, and whether what was read before the treatment is taken into account.
pub(super) type Key = (TrialReading, Over, bool);

/// What was found of a reading.
#[derive(Debug, Clone)]
pub(super) struct Kept {
    of: Key,
    pub(super) found: Found,
    /// The reshuffling on its way.
    deal: Option<Reshuffle>,
}

impl Kept {
    /// True while it is reshuffled.
    pub(super) const fn waits(&self) -> bool {
        self.deal.is_some()
    }
}

impl State {
    fn key(&self) -> Option<Key> {
        Some((self.reading, self.over()?, self.before))
    }

    /// What was found of the reading shown.
    pub(super) fn kept(&self) -> Option<&Kept> {
        let key = self.key()?;
        self.kept.iter().find(|kept| kept.of == key)
    }

    /// Does a slice of what waits.
    pub(super) fn work(&mut self, model: &Model) {
        let Some(key) = self.key() else { return };
        let rules = Rules::of(&model.limits);
        if let Some(kept) = self.kept.iter_mut().find(|kept| kept.of == key) {
            kept.step(rules.shuffles);
            return;
        }
        let Some(readings) = &self.readings else { return };
        let (reading, over, before) = key;
        let found = Found::with_before(readings, (reading, over), rules, before);
        let deal = found.reshuffle();
        let over = self.kept.len().saturating_sub(MOST.saturating_sub(1));
        self.kept.drain(..over);
        self.kept.push(Kept { of: key, found, deal });
    }

    /// Reads the plots again; what was found before is dropped where anything of the trial changed.
    pub(super) fn refresh(&mut self, model: &Model) {
        let now = Readings::of(&model.season, &self.trial, model.day);
        if now != self.readings {
            self.readings = now;
            self.kept.clear();
        }
    }
}

impl Kept {
    /// Deals a slice more.
    fn step(&mut self, times: u32) {
        let Some(deal) = &mut self.deal else { return };
        deal.step(times.saturating_sub(deal.done()).min(SLICE));
        if deal.done() >= times {
            self.found.reshuffled = Some(deal.found());
            self.deal = None;
        }
    }
}
