//! The shape of a crop's growth between its start and its finish.

use super::Points;
use crate::crop::{CropError, within};
use crate::limits::CurveChoice;

/// The three-phase form: a lag in which growth gathers pace, a straight middle, and a plateau.
///
/// With x the share of the time gone, `u` is `e^(K x)` up to `x1`, then a straight line, and from `x2` on it levels off at
/// the pace `Kp`; height and slope join at both. The form is that of Fisher, Heins and Lieth (1996, three-phase stem
/// elongation of poinsettia); their coefficients are not in the published abstracts, so the presets are ours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThreePhase {
    k: f64,
    x1: f64,
    x2: f64,
    kp: f64,
}

impl ThreePhase {
    /// K 10, x1 0.25, x2 0.80, Kp 8. House rule: bent late so as to lie nearer the two University of Florida readings
    /// (0.70 to 0.76 of the gain with a fifth of the time left) than `EARLY` does.
    pub const LATE: Self = Self { k: 10.0, x1: 0.25, x2: 0.80, kp: 8.0 };

    /// K 12.74, x1 0.2293, x2 0.4515, Kp 4.79. Fitted to a published teaching data set of 30 plants measured weekly
    /// (NMBU Norway, 2024); it behaves like simulated data, so take it as a shape, not as a finding.
    pub const EARLY: Self = Self { k: 12.74, x1: 0.2293, x2: 0.4515, kp: 4.79 };

    /// A form with other numbers: `k` and `kp` from 0.1 to 60, and 0 <= `x1` <= `x2` <= 1.
    ///
    /// # Errors
    /// [`CropError::Impossible`] names the number that is outside.
    pub fn new(k: f64, x1: f64, x2: f64, kp: f64) -> Result<Self, CropError> {
        Ok(Self {
            k: within("the curve's K", k, 0.1, 60.0, "")?,
            x1: within("the end of the lag (x1)", x1, 0.0, 1.0, "")?,
            x2: within("the start of the plateau (x2)", x2, x1, 1.0, "")?,
            kp: within("the curve's Kp", kp, 0.1, 60.0, "")?,
        })
    }

    /// Height on the curve's own scale, over that at the end of the lag (which keeps the numbers small).
    fn raw(self, x: f64) -> f64 {
        if x < self.x1 {
            return (self.k * (x - self.x1)).exp();
        }
        let straight = self.k.mul_add(x.min(self.x2) - self.x1, 1.0);
        if x < self.x2 {
            return straight;
        }
        straight + self.k / self.kp * -(-self.kp * (x - self.x2)).exp_m1()
    }

    fn raw_slope(self, x: f64) -> f64 {
        if x < self.x1 {
            self.k * (self.k * (x - self.x1)).exp()
        } else if x < self.x2 {
            self.k
        } else {
            self.k * (-self.kp * (x - self.x2)).exp()
        }
    }

    fn fraction(self, x: f64) -> f64 {
        let (start, end) = (self.raw(0.0), self.raw(1.0));
        ((self.raw(x) - start) / (end - start)).clamp(0.0, 1.0)
    }

    fn slope(self, x: f64) -> f64 {
        self.raw_slope(x) / (self.raw(1.0) - self.raw(0.0))
    }
}

/// The target curve a crop is held against.
#[derive(Debug, Clone, PartialEq)]
pub enum Curve {
    /// The three-phase form.
    Phases(ThreePhase),
    /// A grower's own points.
    Points(Points),
}

impl Default for Curve {
    fn default() -> Self {
        Self::late()
    }
}

impl Curve {
    /// The default: [`ThreePhase::LATE`].
    pub const fn late() -> Self {
        Self::Phases(ThreePhase::LATE)
    }

    /// The early curve: [`ThreePhase::EARLY`].
    pub const fn early() -> Self {
        Self::Phases(ThreePhase::EARLY)
    }

    /// A grower's own points; see [`Points::new`].
    ///
    /// # Errors
    /// As [`Points::new`].
    pub fn through(points: &[(f64, f64)]) -> Result<Self, CropError> {
        Points::new(points).map(Self::Points)
    }

    /// The curve the limits file picks.
    ///
    /// # Errors
    /// As [`Points::new`], for the grower's own points.
    pub fn chosen(choice: &CurveChoice) -> Result<Self, CropError> {
        match choice {
            CurveChoice::Late => Ok(Self::late()),
            CurveChoice::Early => Ok(Self::early()),
            CurveChoice::Own(points) => Self::through(points),
        }
    }

    /// Share of the whole gain made when the share `x` of the time has gone. Before the start 0, after the finish 1.
    pub fn fraction(&self, x: f64) -> f64 {
        if x >= 1.0 {
            return 1.0;
        }
        // Not a number counts as the start.
        if x.is_nan() || x <= 0.0 {
            return 0.0;
        }
        match self {
            Self::Phases(phases) => phases.fraction(x),
            Self::Points(points) => points.fraction(x),
        }
    }

    /// How fast the share of the gain rises at `x`: gain per whole time, so 1 is the mean pace. Outside 0 to 1 it is 0.
    pub fn slope(&self, x: f64) -> f64 {
        if !(0.0..=1.0).contains(&x) {
            return 0.0;
        }
        match self {
            Self::Phases(phases) => phases.slope(x),
            Self::Points(points) => points.slope(x),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Curve, ThreePhase};
    use proptest::prelude::*;

    fn any_phases() -> impl Strategy<Value = Curve> {
        (0.1f64..60.0, 0.0f64..=1.0, 0.0f64..=1.0, 0.1f64..60.0)
            .prop_map(|(k, a, b, kp)| Curve::Phases(ThreePhase::new(k, a.min(b), a.max(b), kp).unwrap()))
    }

    fn any_points() -> impl Strategy<Value = Curve> {
        proptest::collection::vec((1u32..999, 0.0f64..=1.0), 1..8).prop_map(|pairs| {
            let (mut xs, mut fs): (Vec<_>, Vec<_>) = pairs.into_iter().unzip();
            xs.sort_unstable();
            xs.dedup();
            fs.sort_by(f64::total_cmp);
            let points: Vec<_> = xs.into_iter().map(|x| f64::from(x) / 1000.0).zip(fs).collect();
            Curve::through(&points).unwrap()
        })
    }

    fn any_curve() -> impl Strategy<Value = Curve> {
        prop_oneof![any_phases(), any_points(), Just(Curve::late()), Just(Curve::early())]
    }

    proptest! {
        #[test]
        fn a_curve_runs_from_nothing_to_all_and_never_falls(curve in any_curve(), a in 0.0f64..=1.0, b in 0.0f64..=1.0) {
            prop_assert!(curve.fraction(0.0).abs() < 1e-12);
            prop_assert!((curve.fraction(1.0) - 1.0).abs() < 1e-12);
            prop_assert!((curve.fraction(1.0 - 1e-9) - 1.0).abs() < 1e-5);
            prop_assert!(curve.fraction(1e-9) < 1e-5);
            let (low, high) = (a.min(b), a.max(b));
            prop_assert!(curve.fraction(low) <= curve.fraction(high) + 1e-12);
            prop_assert!(curve.slope(a) >= 0.0);
        }

        #[test]
        fn the_phases_join_in_height_and_slope(curve in any_phases()) {
            let Curve::Phases(phases) = &curve else { unreachable!() };
            for joint in [phases.x1, phases.x2] {
                let (before, after) = (joint - 1e-9, joint + 1e-9);
                prop_assert!((phases.raw(before) - phases.raw(after)).abs() < 1e-6);
                prop_assert!((phases.raw_slope(before) - phases.raw_slope(after)).abs() < 1e-5);
            }
        }

        #[test]
        fn slope_is_the_pace_of_the_fraction(curve in any_curve(), x in 0.01f64..0.99) {
            let rise = (curve.fraction(x + 1e-7) - curve.fraction(x - 1e-7)) / 2e-7;
            prop_assert!((rise - curve.slope(x)).abs() < 1e-2 * (1.0 + rise.abs()), "{} {}", rise, curve.slope(x));
        }

        #[test]
        fn any_number_is_answered(
            x in any::<f64>(), k in any::<f64>(), x1 in any::<f64>(), x2 in any::<f64>(), kp in any::<f64>(),
        ) {
            for curve in [Curve::late(), Curve::early()] {
                prop_assert!((0.0..=1.0).contains(&curve.fraction(x)));
                prop_assert!(curve.slope(x).is_finite());
            }
            if let Ok(phases) = ThreePhase::new(k, x1, x2, kp) {
                prop_assert!(Curve::Phases(phases).fraction(0.5).is_finite());
            }
            if let Ok(curve) = Curve::through(&[(k, x1), (x2, kp)]) {
                prop_assert!(curve.fraction(x).is_finite());
            }
        }
    }
}
