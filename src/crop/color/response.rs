//! How the temperatures of a house count towards color, day by day.
//!
//! A day of the usual mean counts as one; a cooler or a hotter day as less, by slopes drawn from one mid-season red (J. Barrett,
//! University of Florida, about 2008: 70, 75 and 80 °F; the cool slope from the University of New Hampshire's table). Where the days
//! stand for more than is written, the mean of the last week is carried on. Not modeled: nights apart from days, light, the
//! length of the night.

use super::Milestone;
use crate::crop::Estimate;

/// The lot's response is taken to hold at this mean where nothing else is known: 70 °F.
pub const USUAL_C: f64 = 38.0 / 1.8;
/// The mean above which a day counts for less: 75 °F ("much alike" 70 °F, J. Barrett, about 2008).
const WARM_C: f64 = 43.0 / 1.8;
/// No progress at this mean: the cool slope drawn out (University of New Hampshire, 63 to 70 °F).
const BASE_C: f64 = 3.0;
/// Nothing is published beyond these means; the value there is held.
pub const KNOWN_C: (f64, f64) = (12.0, 30.0);
/// From here a day counts as a usual one at most, whatever mean the response holds at.
const HOT_C: f64 = 26.0;
/// What a day loses for each °C above [`WARM_C`], before and after initiation (drawn from the delays at 80 °F: 6, 8, 11 days).
const HEAT_LOSS: (f64, f64) = (0.11, 0.04);
/// The share of the way at which flowers are initiated: 14 of 54 days.
pub const INITIATION_SHARE: f64 = 14.0 / 54.0;
/// No day counts less than this.
const LEAST: f64 = 0.05;
/// A forecast ends here, days.
const MOST: usize = 400;

/// A start this hot holds first color back (house rule): the mean of the first [`HOT_START_DAYS`] days.
const HOT_START_C: f64 = 26.0;
const HOT_START_DAYS: usize = 28;
/// After a hot start first color comes so many days after the cyathia (house rule) ...
const AFTER_CYATHIA: f64 = 3.0;
/// ... and stands at this share of the way once it is seen (house rule).
const LATE_COLOR_SHARE: f64 = 0.70;

/// The days of which the mean is carried on, and how many of them have to be written.
const LAST: (usize, usize) = (7, 4);
/// A week warmer than usual is carried on for so many days; a cooler one to the end (house rule).
const CARRIED: usize = 14;
/// How far the mean to come may be off, °C: with a week written, with none (house rule, set by the coverage test).
const OFF_C: (f64, f64) = (1.6, 2.0);
/// The range of the response itself: this part of the days from the last stage seen, and days at least.
const OWN: (f64, f64) = (0.05, 2.0);
/// How much of the heat loss a cultivar may show, of the one the slopes are from.
const HEAT_RANGE: (f64, f64) = (0.0, 1.5);

/// What a lot needs, and what its house has been.
#[derive(Debug, Clone, Copy)]
pub struct House<'a> {
    /// Days from the start of short days to first pollen at the usual mean.
    pub response_days: f64,
    /// The mean over 24 hours, °C, at which these hold.
    pub usual_c: f64,
    /// The mean over 24 hours of each day since the start of short days, °C; `None` where it is not written.
    pub days_c: &'a [Option<f64>],
}

/// A stage that was seen: days since the start of short days, and how far on the way the crop is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    /// Days since the start of short days.
    pub day: usize,
    /// Of the way to first pollen.
    pub share: f64,
}

impl Seen {
    /// Nothing was seen: the count begins at the start of short days.
    pub const NOTHING: Self = Self { day: 0, share: 0.0 };
}

/// How the days are counted in one run.
#[derive(Debug, Clone, Copy)]
struct Run {
    /// Added to every mean to come, °C.
    shift: f64,
    /// Of the heat loss.
    heat: f64,
}

/// What a day of this mean counts against a day of 70 to 75 °F.
fn rate(mean: f64, before: bool, heat: f64) -> f64 {
    let mean = mean.clamp(KNOWN_C.0, KNOWN_C.1);
    if mean < USUAL_C {
        (mean - BASE_C) / (USUAL_C - BASE_C)
    } else if mean <= WARM_C {
        1.0
    } else {
        let loss = if before { HEAT_LOSS.0 } else { HEAT_LOSS.1 };
        (heat * loss).mul_add(WARM_C - mean, 1.0).max(LEAST)
    }
}

impl House<'_> {
    /// The milestone as days since the start of short days: first, likely and last.
    pub fn milestone(&self, milestone: Milestone, seen: Seen) -> Estimate<f64> {
        if milestone == Milestone::FirstColor && self.is_hot_start() {
            return add(self.reaches(Milestone::Cyathia.share(), seen), AFTER_CYATHIA);
        }
        self.reaches(milestone.share(), seen)
    }

    /// How far on the way the crop is on the day a milestone is first seen.
    pub fn share_seen(&self, milestone: Milestone) -> f64 {
        let late = milestone == Milestone::FirstColor && self.is_hot_start();
        if late { LATE_COLOR_SHARE } else { milestone.share() }
    }

    /// True where the first four weeks were hot.
    pub fn is_hot_start(&self) -> bool {
        let first: Vec<f64> = self.days_c.iter().take(HOT_START_DAYS).flatten().copied().collect();
        mean(&first).is_some_and(|mean| mean >= HOT_START_C) && first.len() >= LAST.1
    }

    /// The mean of the days to come, °C, and whether it is that of a week written.
    fn outlook(&self) -> (f64, bool) {
        let last: Vec<f64> = self.days_c.iter().rev().take(LAST.0).flatten().copied().collect();
        match mean(&last).filter(|_| last.len() >= LAST.1) {
            Some(mean) => (mean, true),
            None => (self.usual_c, false),
        }
    }

    /// The mean of a day, written or to come.
    fn on(&self, day: usize, shift: f64) -> f64 {
        if let Some(written) = self.days_c.get(day) {
            return written.unwrap_or(self.usual_c);
        }
        let (to_come, _) = self.outlook();
        let over = to_come > self.usual_c && day >= self.days_c.len().saturating_add(CARRIED);
        shift + if over { self.usual_c } else { to_come }
    }

    /// What a day of this mean counts against a usual one.
    fn worth(&self, mean: f64, before: bool, heat: f64) -> f64 {
        let worth = rate(mean, before, heat) / rate(self.usual_c, false, 1.0);
        if mean >= HOT_C { worth.min(1.0) } else { worth }
    }

    /// A share of the way, such as that of a milestone, as days since the start of short days: first, likely and last.
    pub fn reaches(&self, share: f64, seen: Seen) -> Estimate<f64> {
        let run = |shift, heat| self.count(share, seen, Run { shift, heat });
        let likely = run(0.0, 1.0);
        let off = if self.outlook().1 { OFF_C.0 } else { OFF_C.1 };
        let own = ((share - seen.share) * self.response_days * OWN.0).max(OWN.1);
        let square = |parts: [f64; 3]| parts.iter().map(|part| part.max(0.0).powi(2)).sum::<f64>().sqrt();
        let early = square([own, likely - run(off, 1.0), likely - run(0.0, HEAT_RANGE.0)]);
        let late = square([own, run(-off, 1.0) - likely, run(0.0, HEAT_RANGE.1) - likely]);
        Estimate::new(likely - early, likely, likely + late)
    }

    /// Counts the days until the share is reached.
    fn count(&self, share: f64, seen: Seen, run: Run) -> f64 {
        let (goal, initiated) = (share * self.response_days, INITIATION_SHARE * self.response_days);
        let mut at = seen.share * self.response_days;
        for day in seen.day..MOST {
            let mean = self.on(day, run.shift);
            let (before, after) = (self.worth(mean, true, run.heat), self.worth(mean, false, run.heat));
            // The day in which flowers are initiated counts in two parts.
            let first = if at < initiated - 1e-9 { ((initiated - at) / before).min(1.0) } else { 0.0 };
            let half = first.mul_add(before, at);
            if half >= goal - 1e-9 {
                let part = if first > 0.0 { (goal - at) / before } else { 0.0 };
                return day as f64 + part.max(0.0);
            }
            let whole = (1.0 - first).mul_add(after, half);
            if whole >= goal - 1e-9 {
                return day as f64 + first + (goal - half) / after;
            }
            at = whole;
        }
        MOST as f64
    }
}

fn mean(values: &[f64]) -> Option<f64> {
    (!values.is_empty()).then(|| values.iter().sum::<f64>() / values.len() as f64)
}

fn add(days: Estimate<f64>, more: f64) -> Estimate<f64> {
    Estimate::new(days.low + more, days.likely + more, days.high + more)
}

#[cfg(test)]
mod tests;
