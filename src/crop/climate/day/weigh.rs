//! Readings weighed by time: each stands for the time to the middle of its neighbors.

use super::{Parts, Reading};
use chrono::{DateTime, TimeDelta, Utc};

/// A reading counts for half an hour to either side at most, seconds (house rule: a gap of over an hour is seen) …
const LEAST_SIDE: i64 = 30 * 60;
/// … or for the logger's own step where that is longer, up to an hour.
pub(super) const MOST_SIDE: i64 = 60 * 60;

/// From one instant to another.
pub(super) type Span = (DateTime<Utc>, DateTime<Utc>);

/// The readings that can count on a day: those of the day and an hour before and after it.
pub(super) fn around<'a>(readings: &'a [Reading], parts: &Parts) -> &'a [Reading] {
    let reach = TimeDelta::seconds(MOST_SIDE);
    let from = readings.partition_point(|r| r.at < parts.begins - reach);
    let to = readings.partition_point(|r| r.at <= parts.ends + reach);
    readings.get(from..to).unwrap_or_default()
}

/// The middle one of the steps within the day, seconds.
pub(super) fn usual_step(around: &[Reading], parts: &Parts) -> i64 {
    let within = around.iter().filter(|r| is_within(r.at, parts));
    let times: Vec<i64> = within.map(|r| r.at.timestamp()).collect();
    let mut steps: Vec<i64> = times.iter().zip(times.iter().skip(1)).map(|(a, b)| b - a).collect();
    steps.sort_unstable();
    steps.get(steps.len() / 2).copied().unwrap_or(0)
}

/// How many readings a day has.
pub(super) fn count(around: &[Reading], parts: &Parts) -> u32 {
    u32::try_from(around.iter().filter(|r| is_within(r.at, parts)).count()).unwrap_or(u32::MAX)
}

fn is_within(at: DateTime<Utc>, parts: &Parts) -> bool {
    parts.begins <= at && at < parts.ends
}

/// A value with the time it stands for, seconds since 1970.
#[derive(Debug, Clone, Copy)]
struct Piece {
    at: DateTime<Utc>,
    from: i64,
    to: i64,
    value: f64,
}

/// One quantity of the readings around a day.
#[derive(Debug, Clone)]
pub(super) struct Weighed(Vec<Piece>);

impl Weighed {
    /// The readings that have the quantity, each with its time.
    pub(super) fn of(around: &[Reading], step: i64, value: &dyn Fn(&Reading) -> Option<f64>) -> Self {
        let side = step.clamp(LEAST_SIDE, MOST_SIDE);
        let piece = |(at, value): (DateTime<Utc>, f64)| {
            let middle = at.timestamp();
            Piece { at, from: middle - side, to: middle + side, value }
        };
        let mut pieces: Vec<Piece> = around.iter().filter_map(|r| Some((r.at, value(r)?))).map(piece).collect();
        let times: Vec<i64> = pieces.iter().map(|p| p.at.timestamp()).collect();
        let middles = times.iter().zip(times.iter().skip(1)).map(|(a, b)| i64::midpoint(*a, *b));
        let middles: Vec<i64> = middles.collect();
        for (piece, middle) in pieces.iter_mut().zip(&middles) {
            piece.to = piece.to.min(*middle);
        }
        for (piece, middle) in pieces.iter_mut().skip(1).zip(&middles) {
            piece.from = piece.from.max(*middle);
        }
        Self(pieces)
    }

    /// The sum of value and time within a span.
    pub(super) fn over(&self, (from, to): Span) -> Sum {
        let (from, to) = (from.timestamp(), to.timestamp());
        let mut sum = Sum { covered: 0.0, value: 0.0, of: (to - from).max(0) as f64 };
        for piece in &self.0 {
            let seconds = (piece.to.min(to) - piece.from.max(from)).max(0) as f64;
            sum.covered += seconds;
            sum.value += piece.value * seconds;
        }
        sum
    }

    /// The same, where readings cover enough of the span.
    pub(super) fn enough(&self, span: Span, least_percent: f64) -> Option<Sum> {
        Some(self.over(span)).filter(|sum| sum.percent() >= least_percent && sum.covered > 0.0)
    }

    /// The least and the most read within the day, rounded to 0.1.
    pub(super) fn extremes(&self, parts: &Parts) -> (Option<f64>, Option<f64>) {
        let within = self.0.iter().filter(|p| is_within(p.at, parts)).map(|p| p.value);
        let least = within.clone().min_by(f64::total_cmp);
        (least.map(|c| super::rounded(c, 0.1)), within.max_by(f64::total_cmp).map(|c| super::rounded(c, 0.1)))
    }
}

/// Value times time over a span.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sum {
    /// Seconds covered.
    covered: f64,
    /// Value times seconds.
    value: f64,
    /// Seconds in all.
    of: f64,
}

impl Sum {
    /// The mean over the time that is covered.
    pub(super) fn mean(&self) -> f64 {
        self.value / self.covered
    }

    /// Value times hours.
    pub(super) fn hours(&self) -> f64 {
        self.value / 3_600.0
    }

    /// The part that is covered, percent.
    pub(super) fn percent(&self) -> f64 {
        if self.of > 0.0 { self.covered / self.of * 100.0 } else { 0.0 }
    }
}
