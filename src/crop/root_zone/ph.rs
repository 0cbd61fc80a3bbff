//! pH of the root zone: the bands, and the band of a reading.

use crate::crop::{CropError, within};

/// The bounds a poinsettia's root-zone pH is judged by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhBounds {
    /// Below: act.
    pub low: f64,
    /// From `low` up to this, it included: look again.
    pub watch_low: f64,
    /// The target band's lower end.
    pub target_low: f64,
    /// The target band's upper end.
    pub target_high: f64,
    /// From this, it included, up to `high`: look again.
    pub watch_high: f64,
    /// Above: act.
    pub high: f64,
}

impl PhBounds {
    /// The bounds of an established crop.
    ///
    /// Act under 5.4: university newsletter notes on hydrated lime (Owen, Whipker, Henry). Magnesium and molybdenum at risk under
    /// 5.5: MSU Extension (Owen). Target 5.8-6.2: Ontario floriculture 2016 and others. Shortage of iron and
    /// manganese already seen at 6.3-6.4: university newsletter case. Act over 6.5: "Avoiding top problems of poinsettias", 2002.
    /// Ceilings of 6.2, 6.5 and 6.8 are all in print.
    pub const ESTABLISHED: Self =
        Self { low: 5.4, watch_low: 5.5, target_low: 5.8, target_high: 6.2, watch_high: 6.3, high: 6.5 };

    /// The bounds of the first 21 days: a starting mix may be at 5.2-5.5 (a supplier's poinsettia program); the
    /// rest as in [`PhBounds::ESTABLISHED`].
    pub const YOUNG: Self = Self { low: 5.2, ..Self::ESTABLISHED };
}

/// The band of a pH reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PhState {
    /// Under the low bound.
    TooLow,
    /// At the low edge: look again.
    LowEdge,
    /// Under the target band, but no cause for alarm.
    UnderTarget,
    /// In the target band.
    OnTarget,
    /// Over the target band, but no cause for alarm.
    OverTarget,
    /// At the high edge: look again.
    HighEdge,
    /// Over the high bound.
    TooHigh,
}

/// Classifies a root-zone pH by the given bounds.
///
/// # Errors
/// [`CropError::Impossible`] outside 0 to 14.
pub fn judge_ph(ph: f64, bounds: &PhBounds) -> Result<PhState, CropError> {
    let ph = within("pH", ph, 0.0, 14.0, "")?;
    Ok(if ph < bounds.low {
        PhState::TooLow
    } else if ph > bounds.high {
        PhState::TooHigh
    } else if ph <= bounds.watch_low {
        PhState::LowEdge
    } else if ph >= bounds.watch_high {
        PhState::HighEdge
    } else if ph < bounds.target_low {
        PhState::UnderTarget
    } else if ph > bounds.target_high {
        PhState::OverTarget
    } else {
        PhState::OnTarget
    })
}

#[cfg(test)]
mod tests {
    use super::PhState::*;
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    #[test]
    fn every_band_on_both_sides() {
        let judge = |ph: f64| judge_ph(ph, &PhBounds::ESTABLISHED).expect("a pH");
        let seen: Vec<_> = [5.39, 5.4, 5.5, 5.6, 5.79, 5.8, 6.2, 6.25, 6.3, 6.5, 6.51].into_iter().map(judge).collect();
        assert_eq!(
            seen,
            [
                TooLow,
                LowEdge,
                LowEdge,
                UnderTarget,
                UnderTarget,
                OnTarget,
                OnTarget,
                OverTarget,
                HighEdge,
                HighEdge,
                TooHigh
            ]
        );
        assert_eq!(judge_ph(5.3, &PhBounds::YOUNG), Ok(LowEdge));
        assert_eq!(judge_ph(5.19, &PhBounds::YOUNG), Ok(TooLow));
    }

    proptest! {
        #[test]
        fn a_higher_ph_never_stands_lower(a in ANY, b in 0.0..14.0f64) {
            let at_b = judge_ph(b, &PhBounds::ESTABLISHED).unwrap();
            match judge_ph(a, &PhBounds::ESTABLISHED) {
                Ok(at_a) => prop_assert_eq!(a <= b && at_a > at_b || a > b && at_a < at_b, false),
                Err(_) => prop_assert!(!(0.0..=14.0).contains(&a)),
            }
        }
    }
}
