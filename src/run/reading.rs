//! Reading the season a slice at a time, at the start and again when another program wrote into the file.

use super::{Loop, Storage};
use crate::model::Outcome;
use crate::record::Entry;
use std::time::Duration;

/// Without a key, what another program wrote is looked for this often.
pub(super) const LOOK: Duration = Duration::from_secs(2);

/// What is read so far.
#[derive(Debug, Default)]
pub(super) struct Reading {
    entries: Vec<Entry>,
    /// Entries in the file, to say how far it got; `None` until asked.
    all: Option<usize>,
    /// They are joined with a season that is open already.
    joins: bool,
}

impl Reading {
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
        let entries = std::mem::take(self).entries;
        Ok(Some(match plan {
            Some(plan) => Outcome::Joined { plan, entries },
            None => Outcome::Loaded(entries),
        }))
    }
}

impl Loop<'_> {
    /// Looks whether another program wrote into the file. If so, what it wrote is read before the next key is taken.
    pub(super) fn look(&mut self) -> bool {
        let changed = self.app.model.loaded && self.storage.changed();
        if changed {
            self.reading = Reading { joins: true, ..Reading::default() };
            self.app.model.wait_for_entries();
        }
        changed
    }

    /// Reads a slice of the season.
    pub(super) fn read(&mut self) {
        match self.reading.step(self.storage) {
            Ok(None) if self.reading.joins => {}
            Ok(None) => self.app.model.reading(self.reading.entries.len(), self.reading.all.unwrap_or(0)),
            Ok(Some(outcome)) => {
                // Nothing that follows from it concerns the world outside.
                self.app.answer(outcome);
            }
            Err(why) => {
                self.reading = Reading::default();
                self.app.model.could_not_read(why);
            }
        }
    }
}
