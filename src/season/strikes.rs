//! Struck-out entries. A strike counts from its own day on: asked about an earlier day, the entry still stands, so that a
//! review of that day reads as it did then. An entry struck more than once is struck from the first strike on. A strike of
//! another place's entry or of a strike counts for nothing (`check` refuses both).

use super::Season;
use super::pots::touches;
use crate::record::{Entry, Kind, Place};
use chrono::{DateTime, NaiveDate, Utc};
use std::collections::HashMap;
use uuid::Uuid;

/// One strike.
#[derive(Debug, Clone)]
pub(super) struct Strike {
    pub(super) day: NaiveDate,
    pub(super) at: DateTime<Utc>,
    pub(super) id: Uuid,
    place: Place,
    /// A struck treatment opens its place again, where all of its strikes say so.
    pub(super) reopen: bool,
}

/// All strikes by the entry they name, earliest first.
#[derive(Debug, Clone, Default)]
pub(super) struct Strikes {
    by_target: HashMap<Uuid, Vec<Strike>>,
}

impl Strikes {
    /// Of all entries.
    pub(super) fn of(entries: &[Entry]) -> Self {
        let mut strikes = Self::default();
        for entry in entries {
            strikes.add(entry);
        }
        strikes
    }

    /// Takes up an entry; the id it strikes when it is a strike.
    pub(super) fn add(&mut self, entry: &Entry) -> Option<Uuid> {
        let Kind::Strike { entry: target, reopen, .. } = *entry.kind else { return None };
        let strike = Strike { day: entry.day(), at: entry.instant(), id: entry.id, place: entry.place.clone(), reopen };
        let list = self.by_target.entry(target).or_default();
        list.insert(list.partition_point(|s| (s.day, s.at, s.id) < (strike.day, strike.at, strike.id)), strike);
        Some(target)
    }

    /// The strikes that hold for an entry, earliest first.
    pub(super) fn on<'a>(&'a self, entry: &'a Entry) -> impl Iterator<Item = &'a Strike> {
        let list = if matches!(*entry.kind, Kind::Strike { .. }) { None } else { self.by_target.get(&entry.id) };
        list.map_or(&[][..], Vec::as_slice).iter().filter(|s| s.place == entry.place)
    }

    /// The entries that strikes name, each with its earliest strike.
    pub(super) fn named(&self) -> impl Iterator<Item = (Uuid, &Strike)> {
        self.by_target.iter().filter_map(|(target, strikes)| Some((*target, strikes.first()?)))
    }

    /// True when the entry is struck out as of a day.
    pub(super) fn struck(&self, entry: &Entry, day: NaiveDate) -> bool {
        !self.by_target.is_empty() && self.on(entry).any(|s| s.day <= day)
    }
}

impl Season {
    /// The days from which on a strike changes how many pots stand, ascending.
    pub(super) fn pot_strike_days(&self) -> Vec<NaiveDate> {
        let struck = self.strikes.by_target.keys().filter_map(|id| self.entry(*id)).filter(|e| touches(e));
        let mut days: Vec<NaiveDate> = struck.filter_map(|e| self.strikes.on(e).next()).map(|s| s.day).collect();
        days.sort_unstable();
        days.dedup();
        days
    }
}
