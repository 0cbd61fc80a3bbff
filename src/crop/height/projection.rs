//! Projected height at the finish: the curve's remaining gain, adjusted by the crop's own recent pace.

use super::{Interval, Sample, Target};
use crate::stats::t_two_sided;
use chrono::NaiveDate;

/// The readings of one day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading<'a> {
    /// The day.
    pub day: NaiveDate,
    /// Heights from the bench to the growing tip, in cm, the tagged plants in their order.
    pub cm: &'a [f64],
}

/// How the projection weighs the curve against the crop's recent pace. All house rules: no published figure was found for
/// how far a crop's pace leaves its curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// How far a crop's remaining gain lies from the curve's, as a share of it (one standard deviation), before its own
    /// pace is looked at.
    pub from_curve: f64,
    /// How far the pace of the remaining time lies from the recent pace, likewise.
    pub from_recent: f64,
    /// The least days between the two readings that give the recent pace.
    pub least_days: i64,
    /// The most days between them.
    pub most_days: i64,
    /// The confidence of the projection's interval (0.90 for 90%).
    pub confidence: f64,
}

impl Default for Pace {
    /// 0.30, 0.20, 5 to 21 days, 90%: house rules.
    fn default() -> Self {
        Self { from_curve: 0.30, from_recent: 0.20, least_days: 5, most_days: 21, confidence: 0.90 }
    }
}

/// A crop's height at its finish, as it looks from the last reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Projection {
    /// The day of the last reading.
    pub from: NaiveDate,
    /// The mean that day, in cm.
    pub now_cm: f64,
    /// The day projected to.
    pub finish: NaiveDate,
    /// The height to be expected that day, in cm.
    pub height_cm: f64,
    /// The interval at the requested confidence, in cm.
    pub interval: Interval,
    /// How fast the crop grew lately against its curve (1 is as fast as the curve); `None` without two readings that give
    /// a pace.
    pub pace: Option<f64>,
    /// How much the recent pace counts in the projection: 0 the curve alone, 1 the pace alone.
    pub pace_weight: f64,
}

/// How a projection lies against the finished window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Outlook {
    /// The whole interval is above the window.
    SurelyTall,
    /// The expected height is above, the interval reaches in.
    LikelyTall,
    /// The expected height is inside.
    Inside,
    /// The expected height is below, the interval reaches in.
    LikelyShort,
    /// The whole interval is below.
    SurelyShort,
}

impl Projection {
    /// How it lies against the window of the finish.
    pub fn outlook(&self, finished: super::Window) -> Outlook {
        if self.interval.low > finished.high_cm {
            Outlook::SurelyTall
        } else if self.height_cm > finished.high_cm {
            Outlook::LikelyTall
        } else if self.interval.high < finished.low_cm {
            Outlook::SurelyShort
        } else if self.height_cm < finished.low_cm {
            Outlook::LikelyShort
        } else {
            Outlook::Inside
        }
    }
}

/// The recent pace against the curve's, and its variance from the readings alone.
struct Recent {
    pace: f64,
    variance: f64,
}

/// Projects from the last reading on or before `day` to the target's finish. `readings` come in order of days.
///
/// The remaining gain is the curve's own (from the middle of its window) times a pace: 1 as the curve has it, give or take
/// `from_curve`, weighed against the pace between the last reading and the newest one 5 to 21 days before it, each by the
/// inverse of its variance. The idea of judging both the gap and the pace is Fisher and Heins (1995); the weights are ours.
///
/// `None` when there is no reading from the start of the curve up to `day`, the last has fewer than two plants, or the
/// height is beyond all bounds.
pub fn project(target: &Target, readings: &[Reading<'_>], day: NaiveDate, rules: Pace) -> Option<Projection> {
    let seen = || readings.iter().filter(|r| r.day <= day && r.day >= target.start());
    let last = seen().next_back()?;
    let sample = Sample::of(last.cm)?;
    let error = sample.standard_error()?;
    let ours = t_two_sided(rules.confidence, (sample.n - 1) as f64)? * error;

    let recent = seen()
        .rev()
        .filter(|r| (rules.least_days..=rules.most_days).contains(&(last.day - r.day).num_days()))
        .find_map(|before| recent_pace(target, *before, *last));
    let prior = rules.from_curve.powi(2);
    let (pace, weight, variance) = match &recent {
        Some(seen) => {
            let theirs = seen.variance + rules.from_recent.powi(2);
            let weight = prior / (prior + theirs);
            (1.0 + weight * (seen.pace - 1.0), weight, prior * theirs / (prior + theirs))
        }
        None => (1.0, 0.0, prior),
    };
    let remaining = target.gain_cm() * (1.0 - target.fraction(last.day));
    let grown = remaining * pace.max(0.0);
    // Many degrees of freedom: the spread of paces is a rule, not an estimate from these few plants.
    let unsure = t_two_sided(rules.confidence, f64::INFINITY)? * remaining * variance.sqrt();
    let half = ours.hypot(unsure);
    let height_cm = sample.mean + grown;
    // A plant does not shrink: below what is measured only the doubt about the mean remains.
    let low = (height_cm - half).max(sample.mean - ours);
    let interval = Interval { low: low.min(height_cm), high: height_cm + half };
    let sane = height_cm.is_finite() && interval.low.is_finite() && interval.high.is_finite() && weight.is_finite();
    sane.then_some(Projection {
        from: last.day,
        now_cm: sample.mean,
        finish: target.finish(),
        height_cm,
        interval,
        pace: recent.map(|r| r.pace),
        pace_weight: weight,
    })
}

/// The pace between two readings, against the curve's. With as many plants in both they are assumed to be the same tagged plants,
/// and the spread is that of their gains; else the two means are compared.
fn recent_pace(target: &Target, before: Reading<'_>, after: Reading<'_>) -> Option<Recent> {
    let curve_gain = target.gain_cm() * (target.fraction(after.day) - target.fraction(before.day));
    // Where the curve is flat there is no pace to compare with.
    if curve_gain < 1e-3 {
        return None;
    }
    let tagged = before.cm.len() == after.cm.len() && before.cm.iter().chain(after.cm).all(|r| r.is_finite());
    let (gain, error) = if tagged {
        let gains: Vec<f64> = before.cm.iter().zip(after.cm).map(|(a, b)| b - a).collect();
        let gains = Sample::of(&gains)?;
        (gains.mean, gains.standard_error()?)
    } else {
        let (a, b) = (Sample::of(before.cm)?, Sample::of(after.cm)?);
        (b.mean - a.mean, a.standard_error()?.hypot(b.standard_error()?))
    };
    let recent = Recent { pace: gain / curve_gain, variance: (error / curve_gain).powi(2) };
    (recent.pace.is_finite() && recent.variance.is_finite()).then_some(recent)
}

#[cfg(test)]
mod tests {
    use super::super::{Curve, Window};
    use super::{Outlook, Pace, Reading, Target, project};
    use chrono::{NaiveDate, TimeDelta};
    use proptest::prelude::*;

    const FINISHED: Window = Window { low_cm: 35.0, high_cm: 40.0 };

    fn day(n: i64) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 9, 7).unwrap() + TimeDelta::days(n)
    }

    fn target() -> Target {
        Target::new(Curve::late(), (day(0), 20.0), day(77), FINISHED).unwrap()
    }

    /// Ten plants that follow the curve at a pace, with a spread between plants.
    fn plants(on: i64, pace: f64) -> Vec<f64> {
        let target = target();
        let mean = 20.0 + pace * target.gain_cm() * target.fraction(day(on));
        (-5i32..=5).map(|i| mean + f64::from(i) * 0.3).collect()
    }

    fn outlook(pace: f64, on: i64) -> (super::Projection, Outlook) {
        let (before, last) = (plants(on - 7, pace), plants(on, pace));
        let readings = [Reading { day: day(on - 7), cm: &before }, Reading { day: day(on), cm: &last }];
        let projection = project(&target(), &readings, day(on), Pace::default()).unwrap();
        (projection, projection.outlook(FINISHED))
    }

    #[test]
    fn a_crop_on_its_curve_is_projected_to_the_middle() {
        let (projection, outlook) = outlook(1.0, 42);
        assert!((projection.height_cm - 37.5).abs() < 1e-6, "{projection:?}");
        assert!((projection.pace.unwrap() - 1.0).abs() < 1e-6);
        assert_eq!(outlook, Outlook::Inside);
    }

    #[test]
    fn a_fast_crop_is_projected_tall_and_a_slow_one_short() {
        assert_eq!(outlook(1.6, 56).1, Outlook::SurelyTall);
        assert_eq!(outlook(1.2, 42).1, Outlook::LikelyTall);
        assert_eq!(outlook(0.8, 42).1, Outlook::LikelyShort);
        assert_eq!(outlook(0.5, 63).1, Outlook::SurelyShort);
    }

    #[test]
    fn the_nearer_the_finish_the_narrower() {
        let width = |on| {
            let interval = outlook(1.0, on).0.interval;
            interval.high - interval.low
        };
        assert!(width(28) > width(42) && width(42) > width(63) && width(63) > width(77));
    }

    #[test]
    fn one_reading_leaves_the_curve_alone() {
        let last = plants(42, 1.2);
        let projection = project(&target(), &[Reading { day: day(42), cm: &last }], day(44), Pace::default()).unwrap();
        assert_eq!((projection.pace, projection.pace_weight), (None, 0.0));
        assert!(project(&target(), &[Reading { day: day(42), cm: &[30.0] }], day(44), Pace::default()).is_none());
        assert!(project(&target(), &[], day(44), Pace::default()).is_none());
    }

    proptest! {
        #[test]
        fn any_readings_are_answered(
            a in proptest::collection::vec(any::<f64>(), 0..5), b in proptest::collection::vec(any::<f64>(), 0..5),
            gap in -30i64..60, from_curve: f64, from_recent: f64,
        ) {
            let readings = [Reading { day: day(20), cm: &a }, Reading { day: day(20 + gap), cm: &b }];
            let rules = Pace { from_curve, from_recent, ..Pace::default() };
            if let Some(p) = project(&target(), &readings, day(60), rules) {
                prop_assert!(p.height_cm.is_finite() && p.interval.low.is_finite() && p.interval.high.is_finite());
                prop_assert!(p.interval.low <= p.height_cm && p.height_cm <= p.interval.high);
                prop_assert!(p.pace.is_none_or(f64::is_finite));
            }
        }
    }
}
