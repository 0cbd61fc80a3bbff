//! ppm, share of the element, volume and weight: any one from the others.

use crate::crop::{CropError, within};
use crate::units::{Concentration, Mass, Volume};

/// Largest volume of solution accepted, mL (a million liters).
pub(super) const MOST_ML: f64 = 1e9;
/// Largest strength accepted, ppm.
pub(super) const MOST_PPM: f64 = 1e6;
/// Largest weight accepted, g (a thousand tonnes).
pub(super) const MOST_G: f64 = 1e9;

/// The share of a material's weight that is the element counted: 20% N is 0.20.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Fraction(f64);

impl Fraction {
    /// From the percentage on the bag.
    ///
    /// # Errors
    /// [`CropError::Impossible`] outside 0.001 to 100% (a strength of 0 has no weight).
    pub fn from_percent(percent: f64) -> Result<Self, CropError> {
        within("strength of the material", percent, 0.001, 100.0, "%").map(|percent| Self(percent / 100.0))
    }

    /// As a share, 0 to 1.
    pub const fn share(self) -> f64 {
        self.0
    }

    /// For shares worked out from atomic weights, which lie inside the bounds.
    pub(super) const fn known(share: f64) -> Self {
        Self(share)
    }
}

pub(super) fn checked_ppm(ppm: Concentration) -> Result<f64, CropError> {
    within("strength of the solution", ppm.ppm(), 0.0, MOST_PPM, "ppm")
}

pub(super) fn checked_ml(volume: Volume) -> Result<f64, CropError> {
    within("volume", volume.ml(), 0.001, MOST_ML, "mL")
}

/// The weight of a material that brings `volume` of water to `target` of the element.
///
/// g = ppm x L / (1000 x share). 1 mg/L is 1 ppm; the volume is that of the finished solution.
///
/// # Errors
/// [`CropError::Impossible`] for a strength outside 0 to 1,000,000 ppm or a volume outside 0.001 mL to 1,000,000 L.
pub fn material_for(target: Concentration, share: Fraction, volume: Volume) -> Result<Mass, CropError> {
    let grams = checked_ppm(target)? * checked_ml(volume)? / (1e6 * share.share());
    Ok(Mass::from_g(grams))
}

/// Grams per liter as ounces per US gallon (NIST Handbook 44: 1 oz 28.349523125 g, 1 gal 3.785411784 L).
///
/// # Errors
/// [`CropError::Impossible`] outside 0 to 1,000,000 g/L.
pub fn oz_per_gal(g_per_l: f64) -> Result<f64, CropError> {
    Ok(within("grams per liter", g_per_l, 0.0, 1e6, "g/L")? * 3.785_411_784 / 28.349_523_125)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn weights_scale(ppm in 0.01..5000.0f64, percent in 0.01..100.0f64, liters in 0.1..10_000.0f64, times in 0.1..10.0f64) {
            let share = Fraction::from_percent(percent).unwrap();
            let weight = |ppm: f64, l: f64| material_for(Concentration::from_ppm(ppm), share, Volume::from_ml(l * 1000.0)).unwrap().g();
            let one = weight(ppm, liters);
            prop_assert!((weight(ppm * times, liters) - one * times).abs() <= one * times * 1e-12);
            prop_assert!((weight(ppm, liters * times) - one * times).abs() <= one * times * 1e-12);
        }

        #[test]
        fn nothing_is_not_finite(a in ANY, b in ANY, c in ANY) {
            if let Ok(share) = Fraction::from_percent(b)
                && let Ok(answer) = material_for(Concentration::from_ppm(a), share, Volume::from_ml(c))
            {
                prop_assert!(answer.g().is_finite());
            }
        }
    }

    #[test]
    fn a_strength_of_nothing_is_refused() {
        let text = Fraction::from_percent(0.0).unwrap_err().to_string();
        assert_eq!(text, "strength of the material is 0%; it must be 0.001 to 100%");
    }
}
