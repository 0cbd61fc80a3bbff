//! What was worked out bench by bench, and which benches are to be worked out anew.
//!
//! After a start or a new day all are; each idle slice works out a few. After an entry was saved only the benches it
//! touches are.

use super::Summary;
use crate::limits::Limits;
use crate::record::Place;
use crate::season::Season;
use crate::warnings::{Level, Warning, assess_groups};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// What was worked out of the season.
#[derive(Debug, Clone, Default)]
pub struct Cache {
    benches: BTreeMap<String, Summary>,
    wide: Vec<Warning>,
    stale: VecDeque<String>,
    queued: BTreeSet<String>,
    wide_stale: bool,
}

impl Cache {
    /// Nothing worked out yet.
    pub fn of(season: &Season) -> Self {
        let mut cache = Self::default();
        cache.all_stale(season);
        cache
    }

    /// A bench as worked out last; `None` until its turn comes.
    pub fn bench(&self, code: &str) -> Option<&Summary> {
        self.benches.get(code)
    }

    /// A bench as worked out last, if nothing was written to it since.
    pub fn fresh(&self, code: &str) -> Option<&Summary> {
        if self.queued.contains(code) { None } else { self.bench(code) }
    }

    /// What the rules say of lots and houses.
    pub fn wide(&self) -> &[Warning] {
        &self.wide
    }

    /// True when nothing waits to be worked out.
    pub fn is_fresh(&self) -> bool {
        self.stale.is_empty() && !self.wide_stale
    }

    /// True when something was worked out since all of it was to be.
    pub fn is_begun(&self) -> bool {
        !self.benches.is_empty()
    }

    /// Every warning, those of benches in walking order first.
    pub fn warnings<'a>(&'a self, season: &'a Season) -> impl Iterator<Item = &'a Warning> {
        let benches = season.benches().into_iter().filter_map(|b| self.bench(&b.bench));
        benches.flat_map(|s| s.warnings.iter()).chain(&self.wide)
    }

    /// The strongest level that concerns a bench, those of its lot and house among it, put-off ones left out.
    pub fn worst(&self, bench: &str) -> Option<Level> {
        let wide = self.wide.iter().filter(|w| w.put_off_until.is_none() && w.benches.iter().any(|b| b == bench));
        self.bench(bench).and_then(Summary::worst).max(wide.map(|w| w.level).max())
    }

    /// Everything is to be worked out anew; what was shown is forgotten.
    pub fn all_stale(&mut self, season: &Season) {
        self.benches.clear();
        self.wide.clear();
        self.stale = season.benches().iter().map(|b| b.bench.clone()).collect();
        self.queued = self.stale.iter().cloned().collect();
        self.wide_stale = true;
    }

    /// The benches an entry touches are to be worked out anew.
    pub fn touched(&mut self, season: &Season, place: &Place) {
        let codes: Vec<String> = match place {
            Place::Bench(code) => vec![code.clone()],
            Place::House(house) => {
                season.benches().iter().filter(|b| b.house == *house).map(|b| b.bench.clone()).collect()
            }
            Place::Lot(_) => season.benches().iter().map(|b| b.bench.clone()).collect(),
        };
        for code in codes {
            if self.queued.insert(code.clone()) {
                self.stale.push_back(code);
            }
        }
        self.wide_stale = true;
    }

    /// Works a bench out at once: for the one a page is about to show.
    pub fn now(&mut self, season: &Season, bench: &str, day: NaiveDate, limits: &Limits) {
        if season.bench(bench).is_none() {
            return;
        }
        if self.queued.remove(bench) {
            self.stale.retain(|b| b != bench);
        } else if self.benches.contains_key(bench) {
            return;
        }
        self.benches.insert(bench.to_owned(), Summary::of(season, bench, day, limits));
    }

    /// Works out one bench, or after the last what concerns lots and houses. False when nothing is left.
    pub fn step(&mut self, season: &Season, day: NaiveDate, limits: &Limits) -> bool {
        self.step_bench(season, day, limits) || self.step_wide(season, day, limits)
    }

    /// Works out one bench. False when none waits.
    pub fn step_bench(&mut self, season: &Season, day: NaiveDate, limits: &Limits) -> bool {
        if let Some(code) = self.stale.pop_front() {
            self.queued.remove(&code);
            let summary = Summary::of(season, &code, day, limits);
            self.benches.insert(code, summary);
            return true;
        }
        false
    }

    /// Works out what concerns lots and houses. False when that does not wait.
    fn step_wide(&mut self, season: &Season, day: NaiveDate, limits: &Limits) -> bool {
        if std::mem::take(&mut self.wide_stale) {
            let per_bench = self.benches.iter().map(|(code, s)| (code.clone(), s.warnings.clone())).collect();
            self.wide = assess_groups(season, day, limits, &per_bench);
            return true;
        }
        false
    }
}
