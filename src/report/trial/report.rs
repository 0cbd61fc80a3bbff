//! A trial as it is printed: the reading asked for, growth, the days, and the other readings.

use super::days::{DayLine, lines};
use super::{Found, Words, last};
use crate::record::TrialReading;
use crate::trials::{Over, Readings, Rules};
use crate::units::System;
use chrono::NaiveDate;

/// A trial as it is printed.
#[derive(Debug, Clone)]
pub struct Report {
    /// The site.
    pub site: String,
    /// Its units.
    pub system: System,
    /// The day as of which it is read.
    pub on: NaiveDate,
    /// The reading asked for, on the last day read in full.
    pub found: Found,
    /// The same as growth; `None` with fewer than three days.
    pub growth: Option<Found>,
    /// All days of that reading.
    pub days: Vec<DayLine>,
    /// The other readings of the trial of which there is any.
    pub others: Vec<Found>,
    /// Why a later day is not the one shown.
    pub later: Option<String>,
}

impl Report {
    /// Analyzes and reshuffles one reading of a trial, its main one where none is named, and the others beside it. With `before` what was
    /// read before the treatment is taken into account.
    pub fn of(
        readings: &Readings,
        (reading, before): (Option<TrialReading>, bool),
        rules: Rules,
        (site, system): (&str, System),
    ) -> Self {
        let main = readings.trial.reads.first().copied().unwrap_or(TrialReading::Height);
        let reading = reading.unwrap_or(main);
        let plain = |reading, over| Found::with_before(readings, (reading, over), rules, before);
        let of = |reading, over| {
            let found = plain(reading, over);
            if found.goes_by_reshuffling() { found.reshuffled(rules.shuffles) } else { found }
        };
        let shown = last(readings, reading);
        let is_growth = |found: &Found| found.data.is_some();
        let others = readings.trial.reads.iter().copied().filter(|other| *other != reading);
        let others = others.filter(|other| !readings.days(*other).is_empty());
        let later = readings.days(reading).last().map(|day| day.day).filter(|day| *day > shown);
        let later = later.map(|day| Found::of(readings, reading, Over::Day(day), rules));
        Self {
            site: site.to_owned(),
            system,
            on: readings.day,
            found: plain(reading, Over::Day(shown)).reshuffled(rules.shuffles),
            growth: Some(of(reading, Over::Growth)).filter(is_growth),
            days: lines(readings, reading, rules),
            others: others.map(|other| of(other, Over::Day(last(readings, other)))).collect(),
            later: later.and_then(|later| Words::of(&later, system).refused()),
        }
    }

    /// The words for the reading asked for.
    pub fn words(&self) -> Words<'_> {
        Words::of(&self.found, self.system)
    }

    /// What is said beside the result: cautions, and why a later day is not shown.
    pub fn cautions(&self) -> Vec<String> {
        self.later.iter().cloned().chain(self.words().cautions()).collect()
    }
}
