//! From ppm to what is measured out, and back.
//!
//! ppm is mg of active ingredient in a liter of finished solution. g of a solid = ppm × liters / (1000 × share);
//! mL of a liquid = ppm × liters / (g a liter). These reproduce the worked examples of the Michigan State growth-regulator
//! dilution guide.

use super::Strength;
use crate::crop::{CropError, Named, within};
use crate::units::{Concentration, Mass, Quantity, System, Volume, plain};

/// Strongest solution accepted, in ppm. House rule, far above any for this crop; it catches a wrong unit.
const MOST_PPM: f64 = 100_000.0;
/// The most solution at once, in mL (100 m3).
const MOST_ML: f64 = 1e8;

/// What is measured out of a product.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// Of a solid.
    Weight(Mass),
    /// Of a liquid.
    Volume(Volume),
}

impl Amount {
    /// The number in g or mL.
    pub const fn base(self) -> f64 {
        match self {
            Self::Weight(mass) => mass.g(),
            Self::Volume(volume) => volume.ml(),
        }
    }

    const fn with_base(self, base: f64) -> Self {
        match self {
            Self::Weight(_) => Self::Weight(Mass::from_g(base)),
            Self::Volume(_) => Self::Volume(Volume::from_ml(base)),
        }
    }

    /// As it is measured out in a unit system: ounces or fluid ounces, g or mL (L from one on).
    pub fn show(self, system: System) -> String {
        const FLUID_OUNCE: f64 = 29.573_529_562_5;
        match (self, system) {
            (Self::Weight(mass), _) => mass.show(system),
            (Self::Volume(volume), System::Us) => format!("{} fl oz", plain(volume.ml() / FLUID_OUNCE)),
            (Self::Volume(volume), System::Metric) if volume.ml() < 1000.0 => format!("{} mL", plain(volume.ml())),
            (Self::Volume(volume), System::Metric) => volume.show(system),
        }
    }
}

fn checked_ppm(ppm: Concentration) -> Result<f64, CropError> {
    within("the concentration", ppm.ppm(), 1e-6, MOST_PPM, "ppm")
}

fn checked_ml(what: &'static str, volume: Volume) -> Result<f64, CropError> {
    within(what, volume.ml(), 1e-3, MOST_ML, "mL")
}

/// How much product makes `volume` of solution at `ppm`.
///
/// # Errors
/// [`CropError::Impossible`] for a concentration not in 0.000001 to 100,000 ppm or a volume not in 0.001 mL to 100,000 L;
/// [`CropError::Contradiction`] when the solution is to be stronger than the product.
pub fn product_for(ppm: Concentration, volume: Volume, strength: Strength) -> Result<Amount, CropError> {
    let grams = checked_ppm(ppm)? / 1e6 * checked_ml("the volume", volume)?;
    let amount = grams / strength.g_per_measure();
    if amount > volume.ml() {
        return Err(CropError::Contradiction {
            first: format!("{} ppm", ppm.ppm()).into(),
            second: format!("a product of {}", strength.show()).into(),
            why: "no solution is stronger than the product it is made of",
        });
    }
    Ok(if strength.is_solid() { Amount::Weight(Mass::from_g(amount)) } else { Amount::Volume(Volume::from_ml(amount)) })
}

/// The inverse: what an amount of product makes of `volume` of solution.
///
/// # Errors
/// [`CropError::Impossible`] for an amount below 0 or a volume out of bounds, [`CropError::Contradiction`] for a weight of a
/// liquid, a volume of a solid, or more product than solution.
pub fn ppm_made(amount: Amount, volume: Volume, strength: Strength) -> Result<Concentration, CropError> {
    let ml = checked_ml("the volume", volume)?;
    let weighed = matches!(amount, Amount::Weight(_));
    let clash = |first: Named, second: Named, why| Err(CropError::Contradiction { first, second, why });
    if weighed != strength.is_solid() {
        let product = format!("a product of {}", strength.show());
        let given = Named::quantity("", amount.base(), if weighed { "g" } else { "mL" });
        return clash(given, product.into(), "a solid is weighed, a liquid measured by volume");
    }
    let amount = within("the amount of product", amount.base(), 0.0, MOST_ML, if weighed { "g" } else { "mL" })?;
    if amount > ml {
        let why = "there is more product than solution";
        return clash("the amount of product".into(), "the volume".into(), why);
    }
    Ok(Concentration::from_ppm(amount * strength.g_per_measure() * 1e6 / ml))
}

/// Active ingredient per pot: ppm × mL per pot / 1000 gives mg.
///
/// # Errors
/// [`CropError::Impossible`] for a concentration or volume out of bounds.
pub fn dose_per_pot(ppm: Concentration, per_pot: Volume) -> Result<Mass, CropError> {
    Ok(Mass::from_g(checked_ppm(ppm)? * checked_ml("the volume per pot", per_pot)? / 1e6))
}

/// The inverse: the concentration that brings a dose with this volume per pot.
///
/// # Errors
/// [`CropError::Impossible`] for a dose not above 0 or over 10 g, or when the volume or the concentration is out of bounds.
pub fn ppm_for_dose(dose: Mass, per_pot: Volume) -> Result<Concentration, CropError> {
    let mg = within("the dose per pot", dose.g() * 1000.0, 1e-9, 10_000.0, "mg")?;
    let ppm = Concentration::from_ppm(mg * 1000.0 / checked_ml("the volume per pot", per_pot)?);
    checked_ppm(ppm).map(|_| ppm)
}

/// Fewest steps of a measure that count as measured: half a step is then 2.5% at most (house rule).
const FEWEST_STEPS: f64 = 20.0;

/// The step in which an amount of this size can be measured out, in g or mL. House rule: the finest syringe or cylinder that
/// is no trouble at that size (0.01 mL up to 2 mL, 0.1 up to 20, 1 up to 200, 5 up to 1 L, 10 above), and a scale that reads
/// 0.1 g (1 g from 100 g on).
pub fn usual_step(amount: Amount) -> f64 {
    let size = amount.base();
    match amount {
        Amount::Weight(_) if size < 100.0 => 0.1,
        Amount::Weight(_) => 1.0,
        Amount::Volume(_) if size < 2.0 => 0.01,
        Amount::Volume(_) if size < 20.0 => 0.1,
        Amount::Volume(_) if size < 200.0 => 1.0,
        Amount::Volume(_) if size < 1000.0 => 5.0,
        Amount::Volume(_) => 10.0,
    }
}

/// Whether an amount is under twenty steps, so that it cannot be measured out well: under 0.2 mL, or under 2 g.
pub fn too_little(amount: Amount) -> bool {
    amount.base() < usual_step(amount) * FEWEST_STEPS
}

/// The amount to the nearest whole number of steps (g or mL), one step at least.
///
/// # Errors
/// [`CropError::Impossible`] for a step not in 0.0001 to 1000, or an amount that is no number.
pub fn measured_out(amount: Amount, step: f64) -> Result<Amount, CropError> {
    within("the measuring step", step, 1e-4, 1000.0, "")?;
    let base = within("the amount of product", amount.base(), 0.0, MOST_ML, "")?;
    Ok(amount.with_base((base / step).round().max(1.0) * step))
}

#[cfg(test)]
mod tests {
    use super::{
        Amount, Strength, dose_per_pot, measured_out, ppm_for_dose, ppm_made, product_for, too_little, usual_step,
    };
    use crate::units::{Concentration, Mass, Volume};
    use proptest::prelude::*;

    fn any_strength() -> impl Strategy<Value = Strength> {
        prop_oneof![
            (5.0f64..100.0).prop_map(|p| Strength::solid_percent(p).unwrap()),
            (1.0f64..600.0).prop_map(|g| Strength::liquid_g_per_l(g).unwrap()),
        ]
    }

    fn near(a: f64, b: f64) -> bool {
        (a - b).abs() <= 1e-9 * (a.abs() + b.abs())
    }

    proptest! {
        #[test]
        fn amounts_scale_with_ppm_and_volume_and_invert(
            ppm in 0.05f64..900.0, ml in 500.0f64..1e6, times in 1.0f64..9.0, strength in any_strength(),
        ) {
            let amount = |ppm, ml| product_for(Concentration::from_ppm(ppm), Volume::from_ml(ml), strength);
            let one = amount(ppm, ml).unwrap();
            prop_assert!(near(amount(ppm, ml * times).unwrap().base(), one.base() * times));
            if let Ok(more) = amount(ppm * times, ml) { prop_assert!(near(more.base(), one.base() * times)); }
            prop_assert!(near(ppm_made(one, Volume::from_ml(ml), strength).unwrap().ppm(), ppm));
        }

        #[test]
        fn doses_invert(ppm in 0.01f64..5000.0, ml in 1.0f64..1000.0) {
            let per_pot = Volume::from_ml(ml);
            let dose = dose_per_pot(Concentration::from_ppm(ppm), per_pot).unwrap();
            prop_assert!(near(ppm_for_dose(dose, per_pot).unwrap().ppm(), ppm));
        }

        #[test]
        fn what_is_measured_out_is_within_half_a_step(ml in 0.1f64..5000.0) {
            let amount = Amount::Volume(Volume::from_ml(ml));
            let step = usual_step(amount);
            let measured = measured_out(amount, step).unwrap().base();
            prop_assert!((measured - ml).abs() <= step * 0.5 + 1e-9 && measured >= step * 0.999);
            prop_assert!(too_little(amount) || (measured / ml - 1.0).abs() <= 0.025 + 1e-9);
        }

        #[test]
        fn any_number_is_answered(ppm: f64, ml: f64, base: f64, step: f64, percent: f64) {
            let (ppm, volume) = (Concentration::from_ppm(ppm), Volume::from_ml(ml));
            for strength in [Strength::solid_percent(percent), Strength::liquid_g_per_l(percent)].into_iter().flatten() {
                if let Ok(amount) = product_for(ppm, volume, strength) { prop_assert!(amount.base().is_finite()); }
                for amount in [Amount::Weight(Mass::from_g(base)), Amount::Volume(Volume::from_ml(base))] {
                    if let Ok(made) = ppm_made(amount, volume, strength) { prop_assert!(made.ppm().is_finite()); }
                    if let Ok(out) = measured_out(amount, step) { prop_assert!(out.base().is_finite()); }
                }
            }
            if let Ok(dose) = dose_per_pot(ppm, volume) { prop_assert!(dose.g().is_finite()); }
            if let Ok(made) = ppm_for_dose(Mass::from_g(base), volume) { prop_assert!(made.ppm().is_finite()); }
        }
    }

    #[test]
    fn what_cannot_be_is_refused_with_the_reason() {
        let liquid = Strength::liquid_g_per_l(4.0).unwrap();
        let gallon = Volume::from_ml(3785.0);
        let text = |ppm: f64| product_for(Concentration::from_ppm(ppm), gallon, liquid).unwrap_err().to_string();
        assert!(text(5000.0).contains("no solution is stronger than the product"), "{}", text(5000.0));
        assert!(text(0.0).contains("the concentration is 0 ppm"));
        let weighed = ppm_made(Amount::Weight(Mass::from_g(1.0)), gallon, liquid).unwrap_err().to_string();
        assert!(weighed.contains("a solid is weighed, a liquid measured by volume"), "{weighed}");
    }
}
