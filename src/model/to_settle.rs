//! What the laptops of a season leave to settle, worked out at rest.

use super::Model;
use crate::season::Unsettled;
use chrono::Timelike;
use std::sync::Arc;

impl Model {
    /// What is to settle is worked out again at the next rest.
    pub(super) const fn settle_again(&mut self) {
        self.settled_as_of = None;
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
        let now = self.now.at;
        // On another day no clock is judged by it.
        let by_clock = Some(now.to_utc()).filter(|_| !self.replayed);
        self.facts.to_settle = Arc::new(self.season.to_settle_at(by_clock));
        self.settled_as_of = Some(now);
        true
    }

    /// How many things are to settle, as worked out at the last rest.
    pub fn to_settle_count(&self) -> usize {
        self.to_settle.len()
    }
}
