//! Counting plants until it is enough: Wald's sequential test for a share.
//!
//! Two shares are chosen, one that is fine and one that is not, and the risks of calling one the other. After each
//! plant the count is held against two straight lines: at or under the lower the bench is called fine, at or over the
//! upper it is not, between them scouting continues. The shares are a house choice: no stop lines for poinsettia were
//! found in print.

use crate::crop::{CropError, within};

/// The two lines: `stop low when k <= slope n - low`, `stop high when k >= slope n + high`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StopLines {
    /// Infested plants per plant inspected along the lines.
    pub slope: f64,
    /// Distance of the lower line.
    pub low: f64,
    /// Distance of the upper line.
    pub high: f64,
}

/// The decision so far.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Stop {
    /// Enough seen: at the fine share or under it.
    Low,
    /// Not enough seen: go on.
    GoOn,
    /// Enough seen: at the bad share or over it.
    High,
}

impl StopLines {
    /// Lines for a fine share, a bad share, the risk of calling fine bad and the risk of calling bad fine (A. Wald
    /// 1945, "Sequential tests of statistical hypotheses", the binomial case).
    ///
    /// # Errors
    /// [`CropError::Impossible`] for shares outside 0.001 to 0.999 or risks outside 0.001 to 0.49;
    /// [`CropError::Contradiction`] when the bad share is not at least 0.001 above the fine one.
    pub fn new(fine: f64, bad: f64, false_alarm: f64, miss: f64) -> Result<Self, CropError> {
        let p0 = within("share that is fine", fine, 0.001, 0.999, "")?;
        let p1 = within("share that is not", bad, 0.001, 0.999, "")?;
        let alpha = within("risk of a false alarm", false_alarm, 0.001, 0.49, "")?;
        let beta = within("risk of a miss", miss, 0.001, 0.49, "")?;
        if p1 - p0 < 0.001 {
            return Err(CropError::Contradiction {
                first: format!("fine {p0}").into(),
                second: format!("not fine {p1}").into(),
                why: "the second share must be the larger",
            });
        }
        let d = (p1 * (1.0 - p0) / (p0 * (1.0 - p1))).ln();
        Ok(Self {
            slope: ((1.0 - p0) / (1.0 - p1)).ln() / d,
            low: ((1.0 - alpha) / beta).ln() / d,
            high: ((1.0 - beta) / alpha).ln() / d,
        })
    }

    /// The decision after a number of plants.
    pub fn judge(&self, inspected: u32, infested: u32) -> Stop {
        let (along, k) = (self.slope * f64::from(inspected), f64::from(infested));
        if inspected == 0 {
            Stop::GoOn
        } else if k <= along - self.low {
            Stop::Low
        } else if k >= along + self.high {
            Stop::High
        } else {
            Stop::GoOn
        }
    }

    /// The fewest plants of which so many infested are few enough to stop.
    pub fn fewest_low(&self, infested: u32) -> u32 {
        let mut plants = infested.max(1);
        // The slope is at least about 0.001 and the distance under 1e5 for every pair of shares accepted.
        while plants < 1_000_000 && self.judge(plants, infested) != Stop::Low {
            plants += 1;
        }
        plants
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn more_infested_never_looks_better(p0 in 0.01..0.4f64, gap in 0.05..0.5f64, n in 1..500u32, k in 0..50u32) {
            let lines = StopLines::new(p0, p0 + gap, 0.1, 0.1).unwrap();
            prop_assert!(lines.slope > p0 && lines.slope < p0 + gap);
            let rank = |stop| match stop { Stop::Low => 0, Stop::GoOn => 1, Stop::High => 2 };
            prop_assert!(rank(lines.judge(n, k)) <= rank(lines.judge(n, k + 1)));
            prop_assert_eq!(lines.judge(lines.fewest_low(k), k), Stop::Low);
        }

        #[test]
        fn any_numbers_are_answered_or_refused(a in ANY, b in ANY, c in ANY) {
            if let Ok(lines) = StopLines::new(a, b, c, c) {
                prop_assert!(lines.slope.is_finite() && lines.low.is_finite() && lines.high.is_finite());
            }
        }
    }

    #[test]
    fn lines_want_two_shares() {
        assert!(StopLines::new(0.2, 0.2, 0.1, 0.1).is_err());
        assert!(StopLines::new(0.2, 0.1, 0.1, 0.1).unwrap_err().to_string().contains("the larger"));
    }
}
