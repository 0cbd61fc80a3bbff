//! The share of plants infested, and its confidence interval.

use crate::crop::{CropError, within};

/// Plants looked at and plants with the pest on them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sample {
    /// Plants inspected.
    pub inspected: u32,
    /// Of these, with any stage of the pest.
    pub infested: u32,
}

/// A share of plants infested with its 95% interval; all are shares from 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Infested {
    /// Plants inspected.
    pub inspected: u32,
    /// Infested / inspected.
    pub share: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval. When none was found this is what the bench may still hold: none of 20 allows up to
    /// 16%, so "none found" is never "clean".
    pub high: f64,
}

/// 97.5% point of the normal distribution, as tables print it.
const Z: f64 = 1.96;

/// The share infested with its Wilson score interval at 95% (E. B. Wilson 1927, "Probable inference, the law of
/// succession, and statistical inference"; z = 1.96).
///
/// # Errors
/// [`CropError::Missing`] when no plant was inspected: that is no data, never 0%. [`CropError::Contradiction`] when
/// more are infested than were inspected.
pub fn infested(sample: Sample) -> Result<Infested, CropError> {
    if sample.inspected == 0 {
        return Err(CropError::Missing {
            what: "the number of plants inspected",
            why: "none inspected is no data, not a clean bench",
        });
    }
    if sample.infested > sample.inspected {
        return Err(CropError::Contradiction {
            first: format!("{} infested", sample.infested).into(),
            second: format!("{} inspected", sample.inspected).into(),
            why: "no more plants can be infested than were inspected",
        });
    }
    let n = f64::from(sample.inspected);
    let share = f64::from(sample.infested) / n;
    let z2 = Z * Z;
    let middle = (share + z2 / (2.0 * n)) / (1.0 + z2 / n);
    let half = Z / (1.0 + z2 / n) * (share * (1.0 - share) / n + z2 / (4.0 * n * n)).sqrt();
    // At none and at all the exact ends are 0 and 1; rounding must not move them.
    let low = if sample.infested == 0 { 0.0 } else { (middle - half).max(0.0) };
    let high = if sample.infested == sample.inspected { 1.0 } else { (middle + half).min(1.0) };
    Ok(Infested { inspected: sample.inspected, share, low, high })
}

/// Several benches pooled.
#[derive(Debug, Clone, PartialEq)]
pub struct Pooled {
    /// All plants of all benches as one sample.
    pub all: Infested,
    /// Places (in the list given) of benches whose own share is at or over the line, independent of the pool.
    pub standing_out: Vec<usize>,
}

/// Pools benches, and names those at or over `line` (a share, 0 to 1) by themselves, so that one bad bench
/// is not averaged away. Benches where nothing was inspected count for nothing.
///
/// # Errors
/// As [`infested`]; [`CropError::Impossible`] for a line outside 0 to 1.
pub fn pooled(benches: &[Sample], line: f64) -> Result<Pooled, CropError> {
    let line = within("share", line, 0.0, 1.0, "")?;
    let mut sum = Sample { inspected: 0, infested: 0 };
    let mut standing_out = Vec::new();
    for (place, bench) in benches.iter().enumerate() {
        if bench.inspected == 0 && bench.infested == 0 {
            continue;
        }
        if infested(*bench)?.share >= line {
            standing_out.push(place);
        }
        sum.inspected = sum.inspected.saturating_add(bench.inspected);
        sum.infested = sum.infested.saturating_add(bench.infested);
    }
    Ok(Pooled { all: infested(sum)?, standing_out })
}

/// What the share of cuttings with whitefly on arrival bodes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StartBand {
    /// Under 5%: crops that began so mostly finished under 20%.
    Good,
    /// 5 to 7%: borderline.
    Borderline,
    /// Over 7%: crops that began so finished over 20%.
    Bad,
}

/// The band of a share (0 to 1) at the start (New England Greenhouse Update, "Poinsettia biocontrol update", 2013).
///
/// # Errors
/// [`CropError::Impossible`] outside 0 to 1.
pub fn start_band(share: f64) -> Result<StartBand, CropError> {
    let share = within("share", share, 0.0, 1.0, "")?;
    Ok(if share < 0.05 {
        StartBand::Good
    } else if share <= 0.07 {
        StartBand::Borderline
    } else {
        StartBand::Bad
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn nothing_inspected_is_no_data() {
        let none = Sample { inspected: 0, infested: 0 };
        assert!(infested(none).unwrap_err().to_string().contains("no data"));
        assert!(pooled(&[none, none], 0.2).is_err());
        assert!(infested(Sample { inspected: 3, infested: 4 }).is_err());
        assert_eq!(pooled(&[none, Sample { inspected: 10, infested: 1 }], 0.2).unwrap().all.inspected, 10);
    }

    #[test]
    fn a_huge_pool_does_not_overflow() {
        let bench = Sample { inspected: u32::MAX, infested: u32::MAX };
        assert_eq!(pooled(&[bench, bench], 1.0).unwrap().all.share.to_bits(), 1.0_f64.to_bits());
    }

    proptest! {
        #[test]
        fn the_interval_holds_the_share_and_narrows(n in 1..5000u32, k in 0..5000u32) {
            prop_assume!(k <= n);
            let one = infested(Sample { inspected: n, infested: k }).unwrap();
            prop_assert!(0.0 <= one.low && one.low <= one.share && one.share <= one.high && one.high <= 1.0);
            let more = infested(Sample { inspected: n * 4, infested: k * 4 }).unwrap();
            prop_assert!(more.high - more.low < one.high - one.low);
            // What is infested and what is not are mirror images.
            let rest = infested(Sample { inspected: n, infested: n - k }).unwrap();
            prop_assert!((rest.low - (1.0 - one.high)).abs() < 1e-12);
        }
    }
}
