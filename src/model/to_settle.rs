//! What the laptops of a season leave to settle, worked out at rest.

use super::{Effect, Model};
use crate::mix::cautions::KEEP_OUT;
use crate::record::{Entry, FieldFault, Kind};
use crate::report::words;
use crate::season::{Unsettled, both_right};
use chrono::Timelike;
use std::sync::Arc;
use uuid::Uuid;

impl Model {
    /// The season changed: what is to settle is worked out again at the next rest, and its last entry when it is asked for.
    pub(super) fn settle_again(&mut self) {
        self.settled_as_of = None;
        self.last_entry.take();
    }

    /// With the hours lines have waited for a day, with the minutes a clock that was ahead is not any more.
    pub(super) fn age_to_settle(&mut self) {
        let Some(known) = self.settled_as_of else { return };
        let ahead = self.to_settle.iter().any(|of| matches!(of, Unsettled::Clock(_)));
        let (then, now) = (known.naive_utc(), self.now.at.naive_utc());
        let same_hour = (then.date(), then.hour()) == (now.date(), now.hour());
        if !same_hour || (ahead && then.minute() != now.minute()) {
            self.settle_again();
        }
    }

    /// Works out what is to settle, where that is not known; true where it was not.
    pub(super) fn step_to_settle(&mut self) -> bool {
        if self.settled_as_of.is_some() {
            return false;
        }
        self.facts.to_settle = Arc::new(self.unsettled());
        self.settled_as_of = Some(self.now.at);
        true
    }

    /// What is to settle now. On another day no clock is judged.
    pub fn unsettled(&self) -> Vec<Unsettled> {
        let by_clock = Some(self.now.at.to_utc()).filter(|_| !self.replayed);
        self.season.to_settle_at(by_clock)
    }

    /// Voids entries of whichever laptop, for a reason: the form that asks for it names who logged them, and where.
    ///
    /// # Errors
    /// Every fault, by field; nothing is voided then.
    pub fn settle_void(&mut self, ids: &[Uuid], why: &str) -> Result<Effect, Vec<FieldFault>> {
        let old: Vec<Entry> = ids.iter().filter_map(|id| self.season.entry(*id)).cloned().collect();
        let strikes = self.strikes(&old, why);
        self.record(strikes)
    }

    /// Notes of entries that look like one logged twice that all of them are right: of each place its own.
    ///
    /// # Errors
    /// Every fault, by field; nothing is noted then.
    pub fn settle_right(&mut self, places: &[Vec<Uuid>]) -> Result<Effect, Vec<FieldFault>> {
        let mut notes = Vec::new();
        for ids in places {
            let first = ids.first().and_then(|id| self.season.entry(*id));
            if let Some((place, plot)) = first.map(|entry| (entry.place.clone(), entry.plot.clone())) {
                let note = self.entry(place, Kind::Note {}, Some(both_right(ids)));
                notes.push(Entry { plot, ..note });
            }
        }
        self.record(notes)
    }

    /// By what closed benches are known, and how old that is where the season is shared.
    pub fn known_here(&self) -> String {
        let now = self.local(self.present());
        words::known_here(self.sharing.as_deref(), &now).unwrap_or_else(|| KEEP_OUT.to_owned())
    }

    /// How many things are to settle, as worked out at the last rest.
    pub fn to_settle_count(&self) -> usize {
        self.to_settle.len()
    }
}
