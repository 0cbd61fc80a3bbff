//! What can really be weighed and measured, and what that makes of the ppm.

use super::dose::{MOST_G, checked_ml};
use crate::crop::{CropError, within};
use crate::units::{Concentration, Mass, Volume};

/// A scale, by its smallest step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale(f64);

/// Fewest steps of a scale or a measure that count as weighed: half a step is then 2.5% at most (house rule).
const FEWEST_STEPS: f64 = 20.0;

impl Scale {
    /// A scale that shows steps of this weight.
    ///
    /// # Errors
    /// [`CropError::Impossible`] outside 0.001 g to 1,000 g.
    pub fn steps_of(step: Mass) -> Result<Self, CropError> {
        within("step of the scale", step.g(), 0.001, 1000.0, "g").map(Self)
    }

    /// The smallest weight to weigh on it: twenty steps (house rule).
    pub fn least(self) -> Mass {
        Mass::from_g(self.0 * FEWEST_STEPS)
    }
}

/// A weight rounded to a scale's step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighed {
    /// What to weigh.
    pub weigh: Mass,
    /// The rounded weight over the exact one, less 1 (0.01 is 1% too much). 0 for a weight of 0.
    pub off: f64,
    /// The weight is under twenty steps: use [`two_step`].
    pub too_small: bool,
}

impl Weighed {
    /// The resulting strength.
    pub fn gives(self, wanted: Concentration) -> Concentration {
        Concentration::from_ppm(wanted.ppm() * (1.0 + self.off))
    }
}

/// Rounds a weight to what the scale shows.
///
/// # Errors
/// [`CropError::Impossible`] outside 0 to a thousand tonnes.
pub fn weigh(exact: Mass, scale: Scale) -> Result<Weighed, CropError> {
    let grams = within("weight", exact.g(), 0.0, MOST_G, "g")?;
    let shown = (grams / scale.0).round() * scale.0;
    // Dividing by next to nothing would leave the finite numbers.
    let off = if grams > 1e-9 { shown / grams - 1.0 } else { 0.0 };
    Ok(Weighed { weigh: Mass::from_g(shown), off, too_small: grams > 0.0 && grams < scale.least().g() })
}

/// A weight given by way of a first solution: weigh, dissolve, take a measured part of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoStep {
    /// Weigh this much (the least the scale weighs well, or more).
    pub weigh: Mass,
    /// Dissolve it and fill up with water to this volume.
    pub dissolve_in: Volume,
    /// Take this much of the solution into the tank.
    pub take: Volume,
    /// What is taken over what was wanted, less 1.
    pub off: f64,
}

/// The two steps for a weight too small to weigh.
///
/// `first` is the volume of the first solution, `measure` the step of the cylinder or syringe it is taken with.
///
/// # Errors
/// [`CropError::Impossible`] for numbers that cannot be; [`CropError::Contradiction`] when the part to take is under
/// twenty steps of the measure (take a larger first volume or a finer measure) or more than the first solution holds
/// (weigh it straight).
pub fn two_step(needed: Mass, scale: Scale, first: Volume, measure: Volume) -> Result<TwoStep, CropError> {
    let needed_g = within("weight needed", needed.g(), 1e-6, MOST_G, "g")?;
    let first_ml = checked_ml(first)?;
    let step = within("step of the measure", measure.ml(), 0.01, 1000.0, "mL")?;
    let weigh = scale.least().g();
    let exact = needed_g / weigh * first_ml;
    let refuse = |why| CropError::Contradiction {
        first: format!("{needed_g:.3} g of the material").into(),
        second: format!("{weigh:.3} g in the first solution").into(),
        why,
    };
    if exact < step * FEWEST_STEPS {
        return Err(refuse("too little to measure: use more water for the first solution, or a finer measure"));
    }
    let take = (exact / step).round() * step;
    if take > first_ml {
        return Err(refuse("the first solution would not be enough: weigh it straight"));
    }
    Ok(TwoStep { weigh: Mass::from_g(weigh), dissolve_in: first, take: Volume::from_ml(take), off: take / exact - 1.0 })
}

#[cfg(test)]
mod tests {
    use super::super::material_for;
    use super::*;
    use crate::terms::Material;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    #[test]
    fn a_tenth_of_a_ppm_of_molybdenum_by_two_steps() {
        // 20 L of stock at 1:100, 0.1 ppm Mo: half a gram on a scale of 1 g.
        let share = Material::SodiumMolybdate.fraction();
        let needed = material_for(Concentration::from_ppm(10.0), share, Volume::from_ml(20_000.0)).unwrap();
        let scale = Scale::steps_of(Mass::from_g(1.0)).unwrap();
        assert!(weigh(needed, scale).unwrap().too_small);
        let plan = two_step(needed, scale, Volume::from_ml(1000.0), Volume::from_ml(1.0)).unwrap();
        assert_eq!((plan.weigh.g(), plan.take.ml()), (20.0, 25.0));
        let taken = plan.weigh.g() * (plan.take.ml() / plan.dissolve_in.ml());
        assert!(
            (taken - needed.g() * (1.0 + plan.off)).abs() < 1e-9 && (taken / needed.g() - 0.991).abs() < 1e-3,
            "{taken}"
        );
    }

    #[test]
    fn two_steps_say_when_they_do_not_fit() {
        let scale = Scale::steps_of(Mass::from_g(1.0)).unwrap();
        let plan = |g: f64| two_step(Mass::from_g(g), scale, Volume::from_ml(1000.0), Volume::from_ml(1.0));
        assert!(plan(0.1).unwrap_err().to_string().contains("finer measure"));
        assert!(plan(21.0).unwrap_err().to_string().contains("weigh it straight"));
    }

    proptest! {
        #[test]
        fn rounding_is_never_more_than_half_a_step(g in 0.0..10_000.0f64, step in 0.001..1000.0f64) {
            let weighed = weigh(Mass::from_g(g), Scale::steps_of(Mass::from_g(step)).unwrap()).unwrap();
            prop_assert!((weighed.weigh.g() - g).abs() <= step / 2.0 + 1e-9);
            prop_assert!(weighed.too_small || weighed.off.abs() <= 0.025 + 1e-9);
        }

        #[test]
        fn two_steps_are_within_a_fortieth(g in 0.02..20.0f64, first in 100.0..20_000.0f64) {
            let scale = Scale::steps_of(Mass::from_g(1.0)).unwrap();
            if let Ok(plan) = two_step(Mass::from_g(g), scale, Volume::from_ml(first), Volume::from_ml(1.0)) {
                prop_assert!(plan.off.abs() <= 0.025 + 1e-9 && plan.take.ml() <= first);
            }
        }

        #[test]
        fn nothing_is_not_finite(a in ANY, b in ANY, c in ANY, d in ANY) {
            if let Ok(scale) = Scale::steps_of(Mass::from_g(b)) {
                if let Ok(weighed) = weigh(Mass::from_g(a), scale) {
                    prop_assert!(weighed.weigh.g().is_finite() && weighed.off.is_finite());
                }
                if let Ok(plan) = two_step(Mass::from_g(a), scale, Volume::from_ml(c), Volume::from_ml(d)) {
                    prop_assert!(plan.take.ml().is_finite() && plan.off.is_finite());
                }
            }
        }
    }
}
