//! One line a day: the means of the treatments, and how often chance alone separates them as much. Days are never replicates.

use super::{Found, means};
use crate::record::TrialReading;
use crate::trials::{Over, Readings, Rules};
use chrono::NaiveDate;

/// How often the treatments are dealt again for the line of a day (house rule: a thousand deals with the real one).
const SHUFFLES: u32 = 999;

/// A day of one reading.
#[derive(Debug, Clone, PartialEq)]
pub struct DayLine {
    /// The day.
    pub day: NaiveDate,
    /// Plots read, and plots that lived.
    pub read: (usize, usize),
    /// The mean of each treatment, in the journal's unit.
    pub means: Vec<Option<f64>>,
    /// How often chance alone separates the treatments as much; `None` where nothing is separated.
    pub p: Option<f64>,
}

/// All days of a reading.
pub(super) fn lines(readings: &Readings, reading: TrialReading, rules: Rules) -> Vec<DayLine> {
    let line = |of: crate::trials::DayRead| {
        let found = Found::of(readings, reading, Over::Day(of.day), rules);
        let found = if found.goes_by_reshuffling() { found.reshuffled(SHUFFLES) } else { found };
        DayLine { day: of.day, read: (of.read, of.living), means: means::means(&found), p: found.chance() }
    };
    readings.days(reading).into_iter().map(line).collect()
}
