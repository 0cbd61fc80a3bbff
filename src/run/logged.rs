//! The folders of climate loggers, looked into while nothing happens.

use super::{Asked, Logged, Loop};
use crate::clock::stamp;
use crate::model::Outcome;

impl Loop<'_> {
    /// Takes in what loggers left in their folders; true where something is to be shown. Never asked with a key in hand: only
    /// where none came for a while. A replayed day is not the day of a logger.
    pub(super) fn look_at_loggers(&mut self) -> bool {
        let replayed = self.on.is_some() || self.app.model.other_day.is_some();
        if replayed || !self.app.model.loaded || self.saving.waits() {
            return false;
        }
        let model = &self.app.model;
        let Some(site) = model.season.site() else { return false };
        let at = stamp(self.clock, Some(site.time_zone), None);
        let asked = Asked { season: &model.season, limits: &model.limits, at, now: self.clock.now() };
        let save = self.saving.gate().save();
        let logged = self.storage.loggers(&asked);
        drop(save);
        let Some(Logged { entries, said }) = logged else { return false };
        if !entries.is_empty() {
            self.sharing.saved(entries.len(), self.start.elapsed());
            self.app.model.add_unsent(entries.len());
            let plan = self.app.model.season.plan().clone();
            // Nothing that follows from it concerns the world outside.
            self.app.answer(Outcome::Joined { plan, entries });
            self.app.model.unsay_info();
        }
        self.app.model.add_word(said);
        true
    }
}
