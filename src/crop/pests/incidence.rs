//! The share of plants infested, and its confidence interval.

use crate::crop::CropError;

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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn nothing_inspected_is_no_data() {
        let none = Sample { inspected: 0, infested: 0 };
        assert!(infested(none).unwrap_err().to_string().contains("no data"));
        assert!(infested(Sample { inspected: 3, infested: 4 }).is_err());
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
