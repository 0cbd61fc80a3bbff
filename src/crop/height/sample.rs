//! What a set of readings says about the whole bench: mean, spread, interval, and sample size.

use crate::crop::{CropError, within};
use crate::stats::t_two_sided;

/// The readings of one day in numbers, in the unit of the readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// How many readings.
    pub n: usize,
    /// Their mean.
    pub mean: f64,
    /// Standard deviation between plants (n - 1 below); `None` with one reading.
    pub sd: Option<f64>,
}

/// A range with its two ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
}

impl Sample {
    /// Of the readings that are finite numbers; `None` when there is none, or when their sum or spread overflows.
    pub fn of(readings: &[f64]) -> Option<Self> {
        let finite = || readings.iter().copied().filter(|r| r.is_finite());
        let n = finite().count();
        if n == 0 {
            return None;
        }
        let mean = finite().sum::<f64>() / n as f64;
        let squares: f64 = finite().map(|r| (r - mean).powi(2)).sum();
        let sd = (n > 1).then(|| (squares / (n - 1) as f64).sqrt());
        (mean.is_finite() && sd.is_none_or(f64::is_finite)).then_some(Self { n, mean, sd })
    }

    /// Standard error of the mean; `None` with one reading.
    pub fn standard_error(&self) -> Option<f64> {
        self.sd.map(|sd| sd / (self.n as f64).sqrt())
    }

    /// Half the width of the interval of the mean at this confidence (0.90 for 90%), by Student's t.
    pub fn half_width(&self, confidence: f64) -> Option<f64> {
        Some(t_two_sided(confidence, self.n.checked_sub(1)? as f64)? * self.standard_error()?).filter(|w| w.is_finite())
    }

    /// The interval in which the mean of all the plants lies, at this confidence. `None` with one reading.
    pub fn interval(&self, confidence: f64) -> Option<Interval> {
        self.half_width(confidence).map(|half| Interval { low: self.mean - half, high: self.mean + half })
    }
}

/// How many plants to measure so that the interval of the mean is no wider than `± half_width`.
///
/// `spread` is the standard deviation between plants, in the unit of `half_width` (or both as shares of the height, the
/// spread then being the coefficient of variation). Between plants the published teaching data (NMBU Norway, 2024) spread by
/// 0.11 to 0.19 of the height, low confidence; no published rule for plants a bench was found. Tagging the same plants
/// fixes the weekly gain much more closely than the height.
///
/// # Errors
/// [`CropError::Impossible`] for a width or spread that is not above 0 or a confidence outside 0.5 to 0.99;
/// [`CropError::NotCovered`] when even 10,000 plants would not do.
pub fn plants_for(half_width: f64, spread: f64, confidence: f64) -> Result<usize, CropError> {
    const MOST: usize = 10_000;
    within("the half width wanted", half_width, 1e-6, 1e6, "")?;
    within("the spread between plants", spread, 1e-6, 1e6, "")?;
    within("the confidence", confidence, 0.5, 0.99, "")?;
    let enough = |n: usize| {
        t_two_sided(confidence, (n - 1) as f64).is_some_and(|t| t * spread / (n as f64).sqrt() <= half_width)
    };
    // The width falls with every plant added, so the least number can be halved in on.
    let (mut short, mut most) = (1, MOST);
    if !enough(most) {
        return Err(CropError::NotCovered {
            what: "the number of plants to measure",
            got: format!("over {MOST}"),
            covered: "a wider interval, or a smaller spread".to_owned(),
        });
    }
    while most - short > 1 {
        let middle = usize::midpoint(short, most);
        if enough(middle) {
            most = middle;
        } else {
            short = middle;
        }
    }
    Ok(most)
}

#[cfg(test)]
mod tests {
    use super::{Sample, plants_for};
    use proptest::prelude::*;

    #[test]
    fn three_readings_in_numbers() {
        let sample = Sample::of(&[30.0, 32.0, 34.0]).unwrap();
        assert!((sample.mean - 32.0).abs() < 1e-12);
        assert!((sample.sd.unwrap() - 2.0).abs() < 1e-12);
        // t for two degrees at 90% is 2.920 (NIST table), the standard error 2/√3.
        assert!((sample.half_width(0.90).unwrap() - 2.920 * 2.0 / 3f64.sqrt()).abs() < 1e-3);
    }

    #[test]
    fn one_reading_has_a_mean_and_no_interval() {
        let sample = Sample::of(&[30.0]).unwrap();
        assert_eq!((sample.sd, sample.interval(0.90)), (None, None));
        assert_eq!(Sample::of(&[]), None);
        assert_eq!(Sample::of(&[f64::NAN]), None);
        assert_eq!(Sample::of(&[f64::MAX, f64::MAX]), None);
    }

    proptest! {
        #[test]
        fn the_number_of_plants_is_just_enough(width in 0.4f64..10.0, spread in 0.1f64..10.0) {
            let n = plants_for(width, spread, 0.90).unwrap();
            let half = |n| Sample { n, mean: 0.0, sd: Some(spread) }.half_width(0.90).unwrap();
            prop_assert!(half(n) <= width);
            prop_assert!(n == 2 || half(n - 1) > width);
        }

        #[test]
        fn any_readings_are_answered(readings in proptest::collection::vec(any::<f64>(), 0..9), c: f64, w: f64, s: f64) {
            if let Some(sample) = Sample::of(&readings) {
                prop_assert!(sample.mean.is_finite());
                prop_assert!(sample.half_width(c).is_none_or(f64::is_finite));
            }
            prop_assert!(plants_for(w, s, c).is_ok_and(|n| n >= 2) || plants_for(w, s, c).is_err());
        }
    }
}
