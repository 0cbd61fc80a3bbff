//! How the temperatures of a house count towards color, day by day.
//!
//! A day of the usual mean counts as one; a cooler or a hotter day as less, by slopes drawn from one mid-season red (J. Barrett,
//! University of Florida, about 2008: 70, 75 and 80 °F; the cool slope from the University of New Hampshire's table). Where the
//! days stand for more than is written, the mean of the last week is carried on. Not modeled: nights apart from days, light, the
//! length of the night.
//!
//! A day of 26 °C or more counts for one usual day at most, in the count and in the mean that is carried on: heat that is written
//! never makes a milestone earlier than a usual day would.

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
/// A forecast ends here, days after the start of short days.
pub const MOST_DAYS: usize = 400;

/// A start this hot holds first color back (house rule): the mean of the first [`HOT_START_DAYS`] days, those not written taken as
/// usual ones.
const HOT_START_C: f64 = 26.0;
const HOT_START_DAYS: usize = 28;
/// After a hot start first color comes so many days after the cyathia (house rule) ...
const AFTER_CYATHIA: f64 = 3.0;
/// ... and stands at this share of the way once it is seen (house rule).
const LATE_COLOR_SHARE: f64 = 0.70;

/// The last days written of which the mean is carried on, and how many of them there have to be.
const LAST: (usize, usize) = (7, 4);
/// None of them is older, days.
const LAST_AGE: usize = 10;
/// A week warmer than usual is carried on for so many days; a cooler one to the end (house rule).
const CARRIED: usize = 14;
/// How far a mean that is not written may be off, °C: with a week written, with none (house rule, set by the coverage test).
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
    /// The mean over 24 hours of each day since the start of short days, °C; `None` where it is not written. The days to come
    /// follow its end.
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
    /// Added to every mean that is not written, to come or gone by, °C.
    shift: f64,
    /// Of the heat loss.
    heat: f64,
}

/// The mean of the days to come, °C.
#[derive(Debug, Clone, Copy, PartialEq)]
struct ToCome {
    /// Of the last days written.
    mean: f64,
    /// The same with hot days taken as usual ones; the later of the two counts.
    without_heat: f64,
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

impl<'a> House<'a> {
    /// A share of the way, such as that of a milestone, as days since the start of short days: first, likely and last.
    pub fn reaches(&self, share: f64, seen: Seen) -> Estimate<f64> {
        let [days] = self.counter().reach([share], seen, seen.share);
        days
    }

    /// Prepares the count: what does not change from milestone to milestone.
    pub fn counter(&self) -> Counter<'a> {
        let to_come = self.last_days();
        let hot_start = self.is_hot_start(to_come);
        let of_usual = 1.0 / rate(self.usual_c, false, 1.0);
        Counter { house: *self, to_come, hot_start, of_usual }
    }

    /// The mean of the last days written, where there are enough of them.
    fn last_days(&self) -> Option<ToCome> {
        let last = || self.days_c.iter().rev().take(LAST_AGE + 1).flatten().copied().take(LAST.0);
        let days = last().count();
        let mean = |sum: f64| sum / days as f64;
        (days >= LAST.1).then(|| ToCome {
            mean: mean(last().sum()),
            without_heat: mean(last().map(|c| if c >= HOT_C { self.usual_c } else { c }).sum()),
        })
    }

    /// True where the first four weeks are hot by what is written and what is carried on.
    fn is_hot_start(&self, to_come: Option<ToCome>) -> bool {
        let (mean, to_come) = (|c: Option<f64>| c.unwrap_or(self.usual_c), to_come.map(|week| week.mean));
        let days = (0..HOT_START_DAYS).map(|day| match self.days_c.get(day) {
            Some(written) => mean(*written),
            None => self.later(mean(to_come), day),
        });
        days.sum::<f64>() >= HOT_START_C * HOT_START_DAYS as f64
    }

    /// The mean of a day to come, where this one is carried on.
    fn later(&self, carried: f64, day: usize) -> f64 {
        let over = carried > self.usual_c && day >= self.days_c.len().saturating_add(CARRIED);
        if over { self.usual_c } else { carried }
    }
}

/// The count of the days of a house, prepared.
#[derive(Debug, Clone, Copy)]
pub struct Counter<'a> {
    house: House<'a>,
    to_come: Option<ToCome>,
    hot_start: bool,
    /// 1 by the rate of the usual mean.
    of_usual: f64,
}

impl Counter<'_> {
    /// True where the first four weeks are hot: first color then comes after the cyathia.
    pub const fn is_hot_start(&self) -> bool {
        self.hot_start
    }

    /// The mean carried on, °C; `None` where the days to come are taken as usual ones.
    pub fn carried_c(&self) -> Option<f64> {
        self.to_come.map(|week| week.mean)
    }

    /// How far on the way the crop is on the day a milestone is first seen.
    pub fn share_seen(&self, milestone: Milestone) -> f64 {
        let late = milestone == Milestone::FirstColor && self.hot_start;
        if late { LATE_COLOR_SHARE } else { milestone.share() }
    }

    /// The four milestones as days since the start of short days: first, likely and last. They are counted from a point, with the
    /// range that is due from the share at which a stage was last seen.
    pub fn milestones(&self, from: Seen, seen_share: f64) -> [Estimate<f64>; 4] {
        let [color, cyathia, full, pollen] = self.reach(Milestone::ALL.map(Milestone::share), from, seen_share);
        let color = if self.hot_start { add(cyathia, AFTER_CYATHIA) } else { color };
        [color, cyathia, full, pollen]
    }

    /// Shares of the way, ascending, as days since the start of short days.
    fn reach<const N: usize>(&self, shares: [f64; N], from: Seen, seen_share: f64) -> [Estimate<f64>; N] {
        let response = self.house.response_days;
        let goals = shares.map(|share| share * response);
        let run = |shift, heat| self.count(goals, from, Run { shift, heat });
        let off = if self.to_come.is_some() { OFF_C.0 } else { OFF_C.1 };
        let likely = run(0.0, 1.0);
        let earlier = [run(off, 1.0), run(0.0, HEAT_RANGE.0)];
        let later = [run(-off, 1.0), run(0.0, HEAT_RANGE.1)];
        let mut found = likely.map(|day| Estimate::new(day, day, day));
        for (n, range) in found.iter_mut().enumerate() {
            let at = |run: &[f64; N]| run.get(n).copied().unwrap_or(range.likely);
            let share = shares.get(n).copied().unwrap_or(seen_share);
            let own = ((share - seen_share) * response * OWN.0).max(OWN.1);
            let square =
                |parts: [f64; 2]| (own.powi(2) + parts.iter().map(|part| part.max(0.0).powi(2)).sum::<f64>()).sqrt();
            let (early, late) =
                (square(earlier.map(|run| range.likely - at(&run))), square(later.map(|run| at(&run) - range.likely)));
            *range = Estimate::new(range.likely - early, range.likely, range.likely + late);
        }
        found
    }

    /// The days until the goals are reached; of two means to come the one that makes it later.
    fn count<const N: usize>(&self, goals: [f64; N], from: Seen, run: Run) -> [f64; N] {
        let usual = self.house.usual_c;
        let week = self.to_come.unwrap_or(ToCome { mean: usual, without_heat: usual });
        let mut days = self.counted(goals, from, run, week.mean);
        if week.mean > week.without_heat {
            let other = self.counted(goals, from, run, week.without_heat);
            for (day, other) in days.iter_mut().zip(other) {
                *day = day.max(other);
            }
        }
        days
    }

    /// The days until the goals are reached, ascending, with this mean carried on.
    fn counted<const N: usize>(&self, goals: [f64; N], from: Seen, run: Run, carried: f64) -> [f64; N] {
        let initiated = INITIATION_SHARE * self.house.response_days;
        let mut at = from.share * self.house.response_days;
        let mut found = [MOST_DAYS as f64; N];
        let mut open = goals.into_iter().zip(&mut found).peekable();
        for day in from.day..MOST_DAYS {
            if open.peek().is_none() {
                break;
            }
            let mean = match self.house.days_c.get(day) {
                Some(Some(written)) => *written,
                Some(None) => self.house.usual_c + run.shift,
                None => self.house.later(carried, day) + run.shift,
            };
            // The day in which flowers are initiated counts in two parts.
            let before = if at < initiated - 1e-9 { self.worth(mean, true, run.heat) } else { 0.0 };
            let first = if before > 0.0 { ((initiated - at) / before).min(1.0) } else { 0.0 };
            let after = if first < 1.0 { self.worth(mean, false, run.heat) } else { 0.0 };
            let half = first.mul_add(before, at);
            let whole = (1.0 - first).mul_add(after, half);
            while let Some((goal, slot)) = open.next_if(|(goal, _)| whole >= goal - 1e-9) {
                let part = if half < goal - 1e-9 {
                    first + (goal - half) / after
                } else if before > 0.0 {
                    (goal - at) / before
                } else {
                    0.0
                };
                *slot = day as f64 + part.max(0.0);
            }
            at = whole;
        }
        found
    }

    /// What a day of this mean counts against a usual one.
    fn worth(&self, mean: f64, before: bool, heat: f64) -> f64 {
        let worth = rate(mean, before, heat) * self.of_usual;
        if mean >= HOT_C { worth.min(1.0) } else { worth }
    }
}

fn add(days: Estimate<f64>, more: f64) -> Estimate<f64> {
    Estimate::new(days.low + more, days.likely + more, days.high + more)
}

#[cfg(test)]
mod tests;
