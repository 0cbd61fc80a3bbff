//! Salts (EC) of the root zone: general classes, the poinsettia's own bounds, and one method's reading in another's
//! terms.

use crate::crop::{CropError, within};
use crate::terms::TestMethod;
use crate::units::Conductivity;

/// The general class of an EC reading, for greenhouse crops in peat mixes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EcClass {
    /// Next to nothing left.
    VeryLow,
    /// Enough for seedlings and salt-shy crops.
    Low,
    /// What most established crops want.
    Normal,
    /// More than most crops want.
    High,
    /// Roots may be hurt.
    VeryHigh,
    /// Roots are likely hurt.
    Extreme,
}

/// Upper ends of the five classes below `Extreme`, mS/cm, upper bound inclusive.
///
/// Source: UMass Extension, "Soil tests: sampling and interpreting results of greenhouse soil tests", read through a
/// copy at one decimal. That 2.6 is normal by SME, low by pour-through and extreme by 1:2 is also in "Testing media
/// for nutrients" (UConn and UMass material, 2008), which fixes the upper bounds as inclusive. The copy prints
/// 4.6-6.5 and 6.6-7.8 for pour-through; what lies between is counted as very high.
const fn class_tops(method: TestMethod) -> [f64; 5] {
    match method {
        TestMethod::PourThrough => [1.0, 2.6, 4.6, 6.5, 7.8],
        TestMethod::Sme => [0.8, 2.0, 3.5, 5.0, 6.0],
        TestMethod::OneToTwo => [0.3, 0.8, 1.3, 1.8, 2.3],
    }
}

const CLASSES: [EcClass; 5] = [EcClass::VeryLow, EcClass::Low, EcClass::Normal, EcClass::High, EcClass::VeryHigh];

fn checked(ec: Conductivity) -> Result<f64, CropError> {
    within("EC of the root zone", ec.ms_cm(), 0.0, 50.0, "mS/cm")
}

/// The general class of a reading taken one way (source: see [`EcClass`]; UMass Extension greenhouse soil tests).
///
/// # Errors
/// [`CropError::Impossible`] below 0 or above 50 mS/cm.
pub fn class_of(method: TestMethod, ec: Conductivity) -> Result<EcClass, CropError> {
    let value = checked(ec)?;
    let class = CLASSES.into_iter().zip(class_tops(method)).find(|(_, top)| value <= *top);
    Ok(class.map_or(EcClass::Extreme, |(class, _)| class))
}

/// What a reading by one method would be by another, in mS/cm: the same place within the same class.
///
/// No published regression was found; this mapping is ours (house rule) on the class table of [`class_of`]. Above
/// the table it is extrapolated in the ratio of the last bounds. A guide to compare readings with, never a substitute for one.
///
/// # Errors
/// [`CropError::Impossible`] below 0 or above 50 mS/cm.
pub fn convert(ec: Conductivity, from: TestMethod, to: TestMethod) -> Result<Conductivity, CropError> {
    let value = checked(ec)?;
    if from == to {
        return Ok(ec);
    }
    let (mut low_from, mut low_to) = (0.0, 0.0);
    for (top_from, top_to) in class_tops(from).into_iter().zip(class_tops(to)) {
        if value <= top_from {
            let place = (value - low_from) / (top_from - low_from);
            return Ok(Conductivity::from_ms_cm(low_to + place * (top_to - low_to)));
        }
        (low_from, low_to) = (top_from, top_to);
    }
    Ok(Conductivity::from_ms_cm(value * low_to / low_from))
}

/// The bounds a poinsettia's root zone is judged by, mS/cm, for one method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaltBounds {
    /// Below: too low, shortage shows.
    pub low: f64,
    /// Below, but not under `low`: look again. None where no figure was found.
    pub watch_low: Option<f64>,
    /// Above, but not over `high`: look again. None where no figure was found.
    pub watch_high: Option<f64>,
    /// Above: too high.
    pub high: f64,
    /// Above: far too high, roots are likely hurt.
    pub extreme: f64,
}

impl SaltBounds {
    /// The published bounds.
    ///
    /// `low`: Whipker and others, "Avoiding top problems of poinsettias", 2002 (0.25 / 0.75 / 1.0). `high` and
    /// `extreme`: tops of the normal and very high classes, UMass Extension. The watch bounds 2.0 and 4.3 by
    /// pour-through: the university newsletter poinsettia range as quoted; none was found for the other methods.
    pub const fn published(method: TestMethod) -> Self {
        match method {
            TestMethod::PourThrough => {
                Self { low: 1.0, watch_low: Some(2.0), watch_high: Some(4.3), high: 4.6, extreme: 7.8 }
            }
            TestMethod::Sme => Self { low: 0.75, watch_low: None, watch_high: None, high: 3.5, extreme: 6.0 },
            TestMethod::OneToTwo => Self { low: 0.25, watch_low: None, watch_high: None, high: 1.3, extreme: 2.3 },
        }
    }
}

/// The band of a poinsettia's reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SaltState {
    /// Under the low bound.
    TooLow,
    /// Under the usual range.
    LowSide,
    /// In the usual range.
    InRange,
    /// Over the usual range.
    HighSide,
    /// Over the high bound.
    TooHigh,
    /// Over the extreme bound.
    FarTooHigh,
}

/// Classifies a poinsettia's reading by the given bounds (the grower's, or [`SaltBounds::published`]). A reading on a
/// bound is still inside.
///
/// # Errors
/// [`CropError::Impossible`] below 0 or above 50 mS/cm.
pub fn judge_salts(ec: Conductivity, bounds: &SaltBounds) -> Result<SaltState, CropError> {
    let value = checked(ec)?;
    Ok(if value < bounds.low {
        SaltState::TooLow
    } else if value > bounds.extreme {
        SaltState::FarTooHigh
    } else if value > bounds.high {
        SaltState::TooHigh
    } else if bounds.watch_low.is_some_and(|low| value < low) {
        SaltState::LowSide
    } else if bounds.watch_high.is_some_and(|high| value > high) {
        SaltState::HighSide
    } else {
        SaltState::InRange
    })
}

#[cfg(test)]
mod tests {
    use super::SaltState::*;
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    const METHODS: [TestMethod; 3] = [TestMethod::PourThrough, TestMethod::Sme, TestMethod::OneToTwo];

    #[test]
    fn bounds_belong_to_the_inside() {
        let judge = |ec: f64| {
            judge_salts(Conductivity::from_ms_cm(ec), &SaltBounds::published(TestMethod::PourThrough))
                .expect("a reading")
        };
        let seen: Vec<_> = [0.99, 1.0, 1.99, 2.0, 4.3, 4.31, 4.6, 4.61, 7.8, 7.81].into_iter().map(judge).collect();
        assert_eq!(
            seen,
            [TooLow, LowSide, LowSide, InRange, InRange, HighSide, HighSide, TooHigh, TooHigh, FarTooHigh]
        );
    }

    proptest! {
        #[test]
        fn a_conversion_keeps_the_class_and_goes_back(ec in 0.0..50.0f64, a in 0..3usize, b in 0..3usize) {
            let there = convert(Conductivity::from_ms_cm(ec), METHODS[a], METHODS[b]).unwrap();
            prop_assume!(there.ms_cm() <= 50.0);
            let back = convert(there, METHODS[b], METHODS[a]).unwrap();
            prop_assert!((back.ms_cm() - ec).abs() < 1e-9);
        }

        #[test]
        fn any_number_is_answered_or_refused(ec in ANY, a in 0..3usize, b in 0..3usize) {
            let ec = Conductivity::from_ms_cm(ec);
            if let Ok(out) = convert(ec, METHODS[a], METHODS[b]) {
                prop_assert!(out.ms_cm().is_finite());
            }
            prop_assert_eq!(class_of(METHODS[a], ec).is_ok(), judge_salts(ec, &SaltBounds::published(METHODS[b])).is_ok());
        }
    }
}
