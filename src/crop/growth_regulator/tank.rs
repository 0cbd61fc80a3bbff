//! A tank: one volume, one or more ingredients.

use super::{Amount, Ingredient, Strength, measured_out, ppm_made, product_for, usual_step};
use crate::crop::CropError;
use crate::units::{Concentration, Volume};

/// One ingredient of a tank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// The ingredient.
    pub ingredient: Ingredient,
    /// How strong it is to be in the finished solution.
    pub ppm: Concentration,
    /// The strength of the product, from its pack.
    pub strength: Strength,
}

/// What to measure out for one ingredient.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// What was asked for.
    pub part: Part,
    /// The exact amount of product.
    pub exact: Amount,
    /// The nearest amount that can be measured out.
    pub measured: Amount,
    /// What that amount makes.
    pub makes: Concentration,
}

impl Measured {
    /// How far rounding takes it from what was asked for, as a share (0.02 for 2% stronger).
    pub fn off_by(&self) -> f64 {
        self.makes.ppm() / self.part.ppm.ppm() - 1.0
    }
}

/// The amounts for a tank.
///
/// # Errors
/// [`CropError::Missing`] without a part, [`CropError::Contradiction`] with the same ingredient twice, and what
/// [`product_for`] refuses.
pub fn tank(parts: &[Part], volume: Volume) -> Result<Vec<Measured>, CropError> {
    if parts.is_empty() {
        return Err(CropError::Missing { what: "an ingredient", why: "a tank needs one at least" });
    }
    let mut seen: Vec<Ingredient> = Vec::new();
    let mut amounts = Vec::new();
    for part in parts {
        if seen.contains(&part.ingredient) {
            let name = part.ingredient.name();
            let why = "each ingredient is given once, with its whole ppm";
            return Err(CropError::Contradiction { first: name.into(), second: name.into(), why });
        }
        seen.push(part.ingredient);
        let exact = product_for(part.ppm, volume, part.strength)?;
        let measured = measured_out(exact, usual_step(exact))?;
        let makes = ppm_made(measured, volume, part.strength)?;
        amounts.push(Measured { part: *part, exact, measured, makes });
    }
    Ok(amounts)
}

#[cfg(test)]
mod tests {
    use super::{Ingredient, Part, Strength, tank};
    use crate::units::{Concentration, Volume};

    fn part(ingredient: Ingredient) -> Part {
        let strength = Strength::liquid_g_per_l(4.0).unwrap();
        Part { ingredient, ppm: Concentration::from_ppm(0.1), strength }
    }

    #[test]
    fn rounding_says_what_it_makes() {
        // 118.3 L at 0.1 ppm from 4 g/L is 2.957 mL; a syringe gives 3.0 mL, 1.4% more.
        let parts = [part(Ingredient::Paclobutrazol)];
        let one = tank(&parts, Volume::from_ml(118_294.0)).unwrap()[0];
        assert!((one.exact.base() - 2.957).abs() < 1e-3 && (one.measured.base() - 3.0).abs() < 1e-9);
        assert!((one.off_by() - 0.0144).abs() < 1e-3);
    }

    #[test]
    fn a_tank_needs_each_ingredient_once() {
        let twice = [part(Ingredient::Paclobutrazol), part(Ingredient::Paclobutrazol)];
        assert!(tank(&twice, Volume::from_ml(1e5)).unwrap_err().to_string().contains("given once"));
        assert!(tank(&[], Volume::from_ml(1e5)).unwrap_err().to_string().contains("one at least"));
    }
}
