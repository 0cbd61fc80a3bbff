//! Slow-release topdress by lot, and the nitrogen in it against what the plant takes up.
//!
//! No published low, medium and high label rate in g a pot was read for poinsettia: the rate is the grower's, from the
//! bag. What can be said is how much nitrogen it carries.

use super::Fraction;
use crate::crop::{CropError, within};
use crate::units::Mass;

/// A topdress request.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Topdress {
    /// Fertilizer per pot.
    pub per_pot: Mass,
    /// Pots.
    pub pots: u32,
    /// Share of N in the fertilizer.
    pub nitrogen: Fraction,
}

/// The calculated topdress.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TopdressAnswer {
    /// Fertilizer for all pots.
    pub total: Mass,
    /// Nitrogen per pot.
    pub nitrogen_per_pot: Mass,
    /// Nitrogen per pot over what a plant takes up in 15 weeks (0.60 g): 1 is just that much.
    pub times_uptake: f64,
}

/// Weeks the uptake is calculated for in [`TopdressAnswer::times_uptake`].
const CROP_WEEKS: f64 = 15.0;

/// Fertilizer for a lot and the nitrogen it brings.
///
/// # Errors
/// [`CropError::Impossible`] for a weight per pot outside 0 to 1,000 g or more than 10,000,000 pots.
pub fn topdress(ask: Topdress) -> Result<TopdressAnswer, CropError> {
    let per_pot = within("fertilizer per pot", ask.per_pot.g(), 0.0, 1000.0, "g")?;
    let pots = within("pots", f64::from(ask.pots), 0.0, 10_000_000.0, "")?;
    let nitrogen = per_pot * ask.nitrogen.share();
    Ok(TopdressAnswer {
        total: Mass::from_g(per_pot * pots),
        nitrogen_per_pot: Mass::from_g(nitrogen),
        times_uptake: nitrogen * 1000.0 / uptake_mg(Nutrient::N, CROP_WEEKS)?,
    })
}

/// A nutrient whose uptake was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Nutrient {
    /// Nitrogen.
    N,
    /// Phosphorus.
    P,
    /// Potassium.
    K,
    /// Calcium.
    Ca,
    /// Magnesium.
    Mg,
}

/// What a plant takes up in so many weeks from potting to anthesis, mg: the mean of the first and last weekly uptake
/// times the weeks.
///
/// Weekly uptake from potting to anthesis, no leaching: "Nutrient uptake in poinsettia during different stages of
/// physiological development" (authors from memory: Whipker and Hammer 1997). The mean is ours.
///
/// # Errors
/// [`CropError::NotCovered`] for weeks outside 1 to 20.
pub fn uptake_mg(nutrient: Nutrient, weeks: f64) -> Result<f64, CropError> {
    if !(1.0..=20.0).contains(&weeks) {
        return Err(CropError::NotCovered {
            what: "weeks from potting",
            got: format!("{weeks}"),
            covered: "a crop from potting to anthesis, 1 to 20 weeks".to_owned(),
        });
    }
    let (first, last) = match nutrient {
        Nutrient::N => (23.0, 57.0),
        Nutrient::P => (9.0, 18.5),
        Nutrient::K => (19.0, 57.0),
        Nutrient::Ca => (6.0, 15.0),
        Nutrient::Mg => (3.0, 8.0),
    };
    Ok(f64::midpoint(first, last) * weeks)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn topdress_scales(g in 0.0..100.0f64, pots in 0..100_000u32, percent in 1.0..50.0f64) {
            let nitrogen = Fraction::from_percent(percent).unwrap();
            let one = topdress(Topdress { per_pot: Mass::from_g(g), pots, nitrogen }).unwrap();
            let two = topdress(Topdress { per_pot: Mass::from_g(g * 2.0), pots, nitrogen }).unwrap();
            prop_assert!((two.total.g() - 2.0 * one.total.g()).abs() <= one.total.g() * 1e-12);
            prop_assert!((two.times_uptake - 2.0 * one.times_uptake).abs() <= one.times_uptake * 1e-12);
        }

        #[test]
        fn nothing_is_not_finite(a in ANY, b in ANY, pots in any::<u32>()) {
            let nitrogen = Fraction::from_percent(15.0).unwrap();
            if let Ok(answer) = topdress(Topdress { per_pot: Mass::from_g(a), pots, nitrogen }) {
                prop_assert!(answer.total.g().is_finite() && answer.times_uptake.is_finite());
            }
            prop_assert!(uptake_mg(Nutrient::Mg, b).map_or(true, f64::is_finite));
        }
    }
}
