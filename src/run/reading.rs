//! Reading the season a slice at a time, at the start and again when another program wrote into the file.

use super::{Loop, Storage};
use crate::model::Outcome;
use crate::record::Entry;
use crate::season::Season;
use std::thread::{Builder, JoinHandle};
use std::time::{Duration, Instant};

/// Without a key, what another program wrote is looked for this often.
pub(super) const LOOK: Duration = Duration::from_secs(2);

/// A reading that is over sooner shows no count.
const PATIENCE: Duration = Duration::from_millis(500);

/// While lines arrive by the thousand, what arrived is taken in so much more seldom than it takes, and at most this long after the
/// last time: else every key would wait for it.
const SELDOM: u32 = 9;
const LONGEST: Duration = Duration::from_secs(2);

/// Entries up to which the season is indexed at once: that takes no longer than a slice.
const AT_ONCE: usize = 4_000;

/// What is read so far.
#[derive(Debug, Default)]
pub(super) struct Reading {
    entries: Vec<Entry>,
    /// Entries in the file, to say how far it got; `None` until asked.
    all: Option<usize>,
    /// When it began, since the start of the program.
    begun: Option<Duration>,
    /// They are joined with a season that is open already.
    joins: bool,
    /// The work that the present reading cost.
    cost: Duration,
    /// Until when what arrives from other laptops waits.
    rests_until: Duration,
    /// The thread that indexes what was read.
    indexing: Option<JoinHandle<Season>>,
}

impl Reading {
    /// Begins to read what is new. What was read before a failure is kept: the storage goes on after it.
    fn again(&mut self) {
        (self.joins, self.all, self.begun) = (true, None, None);
        self.cost = Duration::ZERO;
    }

    /// Counts the work of a piece; `done` with the last one.
    fn costs(&mut self, cost: Duration, now: Duration, done: bool) {
        self.cost = self.cost.saturating_add(cost);
        if done {
            self.rests_until = now.saturating_add(self.cost.saturating_mul(SELDOM).min(LONGEST));
        }
    }

    /// Entries read, of so many, where that is to be shown.
    fn far(&mut self, now: Duration) -> Option<(usize, usize)> {
        let begun = *self.begun.get_or_insert(now);
        let shows = !self.joins && now.saturating_sub(begun) >= PATIENCE;
        shows.then(|| (self.entries.len(), self.all.unwrap_or(0)))
    }

    /// The next piece; gives the outcome when all is read.
    fn step(&mut self, storage: &mut dyn Storage) -> Result<Option<Outcome>, String> {
        if self.all.is_none() {
            self.all = Some(storage.count());
        }
        if let Some(entries) = storage.next_entries()? {
            self.entries.extend(entries);
            return Ok(None);
        }
        // The plan is read after the entries, so that it holds every bench that they name.
        let plan = if self.joins { Some(storage.plan()?) } else { None };
        let entries = std::mem::take(&mut self.entries);
        (self.joins, self.all, self.begun) = (false, None, None);
        Ok(Some(match plan {
            Some(plan) => Outcome::Joined { plan, entries },
            None => Outcome::Loaded(entries),
        }))
    }
}

impl Loop<'_> {
    /// Looks whether another program wrote into the file. If so, what it wrote is read before the next key is taken.
    pub(super) fn look(&mut self) -> bool {
        let now = self.start.elapsed();
        let rests = self.saving.rests(now) || (self.sharing.is_running() && now < self.reading.rests_until);
        let changed = self.app.model.loaded && !rests && self.storage.changed();
        if changed {
            self.reading.again();
            self.app.model.wait_for_entries();
        }
        changed
    }

    /// Reads a slice of the season.
    pub(super) fn read(&mut self) {
        let start = Instant::now();
        let read = self.reading.step(self.storage);
        let done = !matches!(read, Ok(None));
        match read {
            Ok(None) => {
                if let Some((read, all)) = self.reading.far(self.start.elapsed()) {
                    self.app.model.reading(read, all);
                }
            }
            Ok(Some(outcome)) => {
                match self.storage.origins() {
                    Ok(origins) => self.app.model.add_origins(&origins),
                    // Without it, what other laptops wrote reads as if it were of this one.
                    Err(why) => tracing::error!(%why, "not known which laptop wrote which line"),
                }
                match outcome {
                    Outcome::Loaded(entries) if entries.len() > AT_ONCE => self.index(entries),
                    // Nothing that follows from it concerns the world outside.
                    outcome => drop(self.app.answer(outcome)),
                }
            }
            Err(why) => self.app.model.could_not_read(why),
        }
        self.reading.costs(start.elapsed(), self.start.elapsed(), done);
    }

    /// Indexes what was read on a thread of its own: of many entries it takes longer than a key may wait.
    fn index(&mut self, entries: Vec<Entry>) {
        let indexing = self.app.model.indexing(entries);
        match Builder::new().spawn(indexing) {
            Ok(thread) => self.reading.indexing = Some(thread),
            // The entries are gone with the thread that could not be begun; they are in the file.
            Err(error) => self.app.model.could_not_read(error.to_string()),
        }
    }

    /// True while what was read is being indexed.
    pub(super) const fn is_indexing(&self) -> bool {
        self.reading.indexing.is_some()
    }

    /// Takes the season once it is indexed; false where there is nothing to take yet.
    pub(super) fn take_indexed(&mut self) -> bool {
        let Some(thread) = self.reading.indexing.take_if(|thread| thread.is_finished()) else { return false };
        let season = thread.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic));
        self.app.take_indexed(&season);
        self.dirty = true;
        true
    }
}

#[cfg(test)]
mod tests {
    use super::super::double::{Shaky, line};
    use super::*;
    use crate::record::Line;

    fn entry(n: u128) -> Entry {
        let Line::Entry(entry) = line(n) else { unreachable!() };
        entry
    }

    #[test]
    fn how_far_it_got_is_shown_after_half_a_second() {
        let mut reading = Reading { entries: vec![entry(1)], all: Some(4), ..Reading::default() };
        let at = Duration::from_millis;
        assert_eq!(
            [reading.far(at(7_000)), reading.far(at(7_499)), reading.far(at(7_500))],
            [None, None, Some((1, 4))]
        );
        // What another program wrote meanwhile is read without a word.
        reading.again();
        assert_eq!([reading.far(at(8_000)), reading.far(at(9_000))], [None, None]);
    }

    #[test]
    fn what_cost_much_to_take_in_is_taken_in_more_seldom() {
        let mut reading = Reading::default();
        let at = Duration::from_millis;
        reading.costs(at(10), at(1_000), false);
        assert_eq!(reading.rests_until, Duration::ZERO);
        reading.costs(at(20), at(1_050), true);
        assert_eq!(reading.rests_until, at(1_050 + 9 * 30));
        reading.again();
        reading.costs(at(400), at(5_000), true);
        assert_eq!(reading.rests_until, at(7_000));
    }

    #[test]
    fn what_was_read_before_a_failure_is_joined_with_what_is_read_after_it() {
        let reads = [Ok(vec![entry(1)]), Err("the disk fails".to_owned()), Ok(vec![entry(2)])];
        let mut storage = Shaky { reads: reads.into(), ..Shaky::default() };
        let mut reading = Reading::default();
        assert_eq!(reading.step(&mut storage), Ok(None));
        assert_eq!(reading.step(&mut storage), Err("the disk fails".to_owned()));
        reading.again();
        assert_eq!(reading.step(&mut storage), Ok(None));
        match reading.step(&mut storage) {
            Ok(Some(Outcome::Joined { entries, .. })) => assert_eq!(entries, [entry(1), entry(2)]),
            other => panic!("{other:?}"),
        }
    }
}
