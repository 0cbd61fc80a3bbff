//! Ticks: what became of listed jobs, as the record has it.
//!
//! A job is known by its step and its bench (or its house, where it is about the house), not by its line: the lines of an evening
//! are put together again whenever they are read, so a bench that joins a line is still to be done and one that leaves takes its
//! tick along. A tick stands in the history of the pots, so it moves with them, and a bench filled again starts without.
//!
//! A tick counts for the day its job was listed for. Beyond that day a check or other work that was done is not listed again
//! while its warning stands, nor is anything that was not needed; but orders about water are given again for each day.

use crate::record::{JobOutcome, Kind, KindName, Place};
use crate::season::Season;
use crate::warnings::{Act, Step};
use chrono::NaiveDate;
use std::collections::{BTreeMap, HashSet};
use uuid::Uuid;

/// A tick of one bench or house.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tick<'s> {
    /// The entry.
    pub(super) id: Uuid,
    /// The step in words.
    pub(super) step: &'s str,
    /// The day its job was listed for.
    pub(super) listed_for: NaiveDate,
    /// What became of it.
    pub(super) outcome: JobOutcome,
    /// The reason.
    pub(super) why: Option<&'s str>,
    /// The day it was written.
    day: NaiveDate,
    /// The house it was written of as a whole.
    pub(super) house: Option<&'s str>,
}

/// The ticks of all benches with pots, by their place in the walk, oldest first.
#[derive(Debug, Default)]
pub(super) struct Ticks<'s>(BTreeMap<usize, Vec<Tick<'s>>>);

impl<'s> Ticks<'s> {
    /// All that count up to a day.
    pub(super) fn of(season: &'s Season, walk: &[&str], on: NaiveDate) -> Self {
        let ticked: HashSet<&Place> = season.entries_of(KindName::Job).map(|entry| &entry.place).collect();
        if ticked.is_empty() {
            return Self::default();
        }
        // A bench that is named nowhere among them, and whose pots came from no other, is not read.
        let is_named = |bench: &str| {
            let house = season.bench(bench).map(|b| Place::House(b.house.as_str().into()));
            let lot = season.standing(bench, on).map(|standing| Place::Lot(standing.lot.into()));
            let mut places = [Some(Place::Bench(bench.into())), house, lot].into_iter().flatten();
            places.any(|place| ticked.contains(&place)) || !season.joined(bench, on).is_empty()
        };
        let of_bench = |bench: &&str| -> Vec<Tick<'s>> {
            if !is_named(bench) {
                return Vec::new();
            }
            season.history_of(bench, on, KindName::Job).into_iter().filter_map(tick).collect()
        };
        let all = walk.iter().map(of_bench).enumerate();
        Self(all.filter(|(_, ticks)| !ticks.is_empty()).collect())
    }

    fn at(&self, bench: usize) -> &[Tick<'s>] {
        self.0.get(&bench).map_or(&[], Vec::as_slice)
    }

    /// The latest tick of a step on a bench for a day.
    pub(super) fn find(&self, bench: usize, step: &str, listed_for: NaiveDate) -> Option<&Tick<'s>> {
        self.at(bench).iter().rev().find(|tick| tick.step == step && tick.listed_for == listed_for)
    }

    /// True where a step of a warning that began on a day was settled before the day of a list, and is not to be listed again.
    pub(super) fn is_settled(&self, bench: usize, step: &Step, since: NaiveDate, listed_for: NaiveDate) -> bool {
        let settles = |outcome: JobOutcome| match (outcome, step.act) {
            (JobOutcome::Postponed, _) | (_, Act::Hold(_) | Act::Water) => false,
            (JobOutcome::NotNeeded, _) => true,
            (JobOutcome::Done | JobOutcome::Otherwise, act) => matches!(act, Act::Check | Act::Work),
        };
        let of_step = |tick: &&Tick<'_>| tick.step == step.text && tick.listed_for < listed_for && tick.day >= since;
        self.at(bench).iter().rev().find(of_step).is_some_and(|tick| settles(tick.outcome))
    }

    /// The latest tick of each bench and step for a day: bench by bench.
    pub(super) fn all_for(&self, listed_for: NaiveDate) -> Vec<(usize, &Tick<'s>)> {
        let mut all: Vec<(usize, &Tick<'s>)> = Vec::new();
        for (bench, ticks) in &self.0 {
            let mut steps: Vec<&str> = Vec::new();
            for tick in ticks.iter().rev().filter(|tick| tick.listed_for == listed_for) {
                if !steps.contains(&tick.step) {
                    steps.push(tick.step);
                    all.push((*bench, tick));
                }
            }
        }
        all
    }
}

fn tick(entry: &crate::record::Entry) -> Option<Tick<'_>> {
    let Kind::Job { step, listed_for, outcome, why } = &*entry.kind else { return None };
    let house = match &entry.place {
        Place::House(house) => Some(house.as_ref()),
        Place::Bench(_) | Place::Lot(_) => None,
    };
    let (listed_for, outcome, why) = (*listed_for, *outcome, why.as_deref());
    Some(Tick { id: entry.id, step, listed_for, outcome, why, day: entry.day(), house })
}
