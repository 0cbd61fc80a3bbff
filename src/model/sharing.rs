//! What the screens know of a season that several laptops keep.

use super::Model;
use crate::exchange::Sharing;
use crate::record::{Entry, LineKey, Plan};
use crate::report::share;
use crate::season::Origins;
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::{BTreeSet, HashSet};
use std::sync::Arc;
use uuid::Uuid;

impl Model {
    /// Sets what is known of laptops and carriers at this instant, by the clock.
    pub fn set_sharing(&mut self, sharing: Sharing, now: DateTime<Utc>) {
        self.shared_at = (now, self.now.ms);
        self.facts.sharing = Some(Arc::new(sharing));
    }

    /// The season is not shared.
    pub fn unshare(&mut self) {
        (self.facts.sharing, self.facts.exchanging) = (None, false);
    }

    /// The present instant, also where the program is on another day.
    pub fn present(&self) -> DateTime<Utc> {
        if !self.given {
            return self.own.to_utc();
        }
        let (at, ms) = self.shared_at;
        let since = i64::try_from(self.now.ms.saturating_sub(ms)).unwrap_or(i64::MAX);
        TimeDelta::try_milliseconds(since).and_then(|since| at.checked_add_signed(since)).unwrap_or(at)
    }

    /// True where lines are exchanged without being asked for: not on a given day (`--on`).
    pub const fn exchanges_by_itself(&self) -> bool {
        !self.given
    }

    /// Says whether lines are exchanged because that was asked for.
    pub fn set_exchanging(&mut self, exchanging: bool) {
        self.facts.exchanging = exchanging;
    }

    /// Counts lines that were saved here and that no carrier has yet.
    pub fn add_unsent(&mut self, lines: usize) {
        if let Some(sharing) = &mut self.facts.sharing {
            Arc::make_mut(sharing).add_written(lines);
        }
    }

    /// Adds what is known of the laptops that wrote the lines of the season.
    pub fn add_origins(&mut self, origins: &Origins) {
        let known = self.season.origins();
        let held = (origins.held(), true) != (known.held(), known.is_shared());
        if !origins.is_empty() || (origins.is_shared() && held) {
            self.facts.season.add_origins(origins);
            self.settle_again();
        }
    }

    /// The other laptops that wrote what of these lines is new here, by name; none where some of it was written by another program on
    /// this one.
    pub fn laptops_of_new(&self, plan: &Plan, entries: &[Entry]) -> Vec<String> {
        let known: HashSet<(LineKey, Uuid)> =
            self.season.plan().lines().iter().map(|line| (line.key(), line.id())).collect();
        let lines = plan.lines().into_iter().map(|line| (line.key(), line.id()));
        let lines = lines.filter(|line| !known.contains(line)).map(|(_, id)| id);
        let entries = entries.iter().map(|entry| entry.id).filter(|id| self.season.entry(*id).is_none());
        let of: Option<BTreeSet<&str>> = entries.chain(lines).map(|id| self.season.origin(id)).collect();
        of.unwrap_or_default().into_iter().map(str::to_owned).collect()
    }

    /// What the frame says of it: how old what is shared is, what is to be sent and what is to settle; empty where nothing is shared.
    pub fn shared(&self) -> String {
        let Some(sharing) = &self.sharing else { return String::new() };
        let settle = Some(self.to_settle.len()).filter(|n| *n > 0).map(|n| format!("{n} to settle"));
        let said = Some(share::frame(sharing, self.present())).filter(|said| !said.is_empty());
        said.into_iter().chain(settle).collect::<Vec<_>>().join(", ")
    }

    /// True where a carrier fails.
    pub fn share_fails(&self) -> bool {
        self.sharing.as_ref().is_some_and(|sharing| sharing.carriers.iter().any(share::fails))
    }
}
