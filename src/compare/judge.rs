//! The warnings of a whole season, day by day: what stood at act or urgent, on which benches, from when to when.

use crate::dates::{add_days, days_between};
use crate::limits::Limits;
use crate::record::Place;
use crate::season::Season;
use crate::warnings::{Severity, Warning, WarningName, assess, assess_all, assess_group, groups_on};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// The most days that are assessed.
const LONGEST: i64 = 400;

/// A warning that stood at act or urgent in a lot or a house.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stood {
    /// Which warning.
    pub name: WarningName,
    /// The lot, or the house.
    pub of: Place,
    /// The benches it stood on, by day. Never empty.
    pub days: BTreeMap<NaiveDate, BTreeSet<String>>,
    /// The highest level it reached.
    pub worst: Severity,
}

impl Stood {
    /// The first day of it.
    pub fn began(&self) -> Option<NaiveDate> {
        self.days.keys().next().copied()
    }

    /// The first day of it and how many days it stood, up to the end of a day; `None` where it stood on none of them.
    pub fn until(&self, day: NaiveDate) -> Option<(NaiveDate, usize)> {
        let days = self.days.range(..=day);
        Some((*days.clone().next()?.0, days.count()))
    }

    /// The benches it stood on.
    pub fn benches(&self) -> BTreeSet<&str> {
        self.days.values().flatten().map(String::as_str).collect()
    }
}

/// Everything that stood at act or urgent through a season.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Judged {
    /// What stood, by warning and place.
    pub stood: Vec<Stood>,
}

impl Judged {
    /// Adds a day's warning.
    fn add(&mut self, day: NaiveDate, warning: &Warning) {
        if warning.level < Severity::Act {
            return;
        }
        let of = warning.lot.as_ref().map_or_else(|| warning.place.clone(), |lot| Place::Lot(lot.as_str().into()));
        let found = self.stood.iter_mut().find(|stood| stood.name == warning.name && stood.of == of);
        let benches = warning.benches.iter().cloned();
        if let Some(stood) = found {
            stood.days.entry(day).or_default().extend(benches);
            stood.worst = stood.worst.max(warning.level);
        } else {
            let days = BTreeMap::from([(day, benches.collect())]);
            self.stood.push(Stood { name: warning.name, of, days, worst: warning.level });
        }
    }
}

/// Assesses a season day by day, in small steps.
#[derive(Debug, Clone)]
pub struct Judge {
    season: Season,
    limits: Limits,
    days: (NaiveDate, NaiveDate),
    day: NaiveDate,
    /// The next bench of the day.
    bench: usize,
    /// The lots and houses of the day still to come; `None` before its last bench.
    groups: Option<VecDeque<Place>>,
    per_bench: BTreeMap<String, Vec<Warning>>,
    judged: Judged,
}

impl Judge {
    /// Begins with the first planting; ends with a day, or with the last entry where that is earlier.
    pub fn new(season: &Season, until: NaiveDate, limits: &Limits) -> Self {
        let first = season.lots().iter().map(|lot| lot.planted).min().unwrap_or(until);
        let written = season.entries().iter().map(crate::record::Entry::day).max().unwrap_or(first);
        let last = until.min(written).min(add_days(first, LONGEST));
        Self {
            season: season.clone(),
            limits: limits.clone(),
            days: (first, last),
            day: first,
            bench: 0,
            groups: None,
            per_bench: BTreeMap::new(),
            judged: Judged::default(),
        }
    }

    /// Assesses a whole day; false when there is none left.
    pub fn step_day(&mut self) -> bool {
        if self.day > self.days.1 {
            return false;
        }
        let assessed = assess_all(&self.season, self.day, &self.limits);
        for warning in assessed.all() {
            self.judged.add(self.day, warning);
        }
        self.day = add_days(self.day, 1);
        self.day <= self.days.1
    }

    /// Assesses one bench, or after the last bench of a day one of its lots or houses; false when no day is left.
    pub fn step(&mut self) -> bool {
        if self.day > self.days.1 {
            return false;
        }
        let benches = self.season.benches();
        if let Some(bench) = benches.get(self.bench) {
            let found = assess(&self.season, &bench.bench, self.day, &self.limits);
            for warning in &found {
                self.judged.add(self.day, warning);
            }
            if self.season.standing(&bench.bench, self.day).is_some() {
                self.per_bench.insert(bench.bench.clone(), found);
            }
            self.bench = self.bench.saturating_add(1);
            return true;
        }
        let groups = self.groups.get_or_insert_with(|| groups_on(&self.season, self.day).into());
        if let Some(place) = groups.pop_front() {
            let found = assess_group(&self.season, (&place, self.day), &self.limits, &self.per_bench);
            for warning in &found {
                self.judged.add(self.day, warning);
            }
            return true;
        }
        (self.bench, self.groups, self.day) = (0, None, add_days(self.day, 1));
        self.per_bench.clear();
        self.day <= self.days.1
    }

    /// How far it got: days assessed, of so many.
    pub fn far(&self) -> (usize, usize) {
        let days = |to: NaiveDate| usize::try_from(days_between(self.days.0, to)).unwrap_or(0);
        (days(self.day), days(self.days.1).saturating_add(1))
    }

    /// What was found; whole once a step has answered false.
    pub fn judged(&self) -> &Judged {
        &self.judged
    }

    /// The same, without the rest.
    pub fn into_judged(self) -> Judged {
        self.judged
    }
}
