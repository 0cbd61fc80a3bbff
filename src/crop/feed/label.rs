//! What the bag's label says, in elements; ammonium; calcium against magnesium; what must not share a tank.

use crate::crop::{CropError, within};
use crate::units::Concentration;

/// The three numbers of a bag: N, P2O5, K2O, percent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Analysis {
    n: f64,
    p2o5: f64,
    k2o: f64,
}

/// Nitrogen, phosphorus and potassium as elements, percent (or ppm).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elements {
    /// Nitrogen.
    pub n: f64,
    /// Phosphorus.
    pub p: f64,
    /// Potassium.
    pub k: f64,
}

/// P in P2O5, by atomic weights (IUPAC 2021): 2 x 30.974 / (2 x 30.974 + 5 x 15.999).
const P_IN_P2O5: f64 = 61.948 / 141.943;
/// K in K2O, by atomic weights (IUPAC 2021): 2 x 39.098 / (2 x 39.098 + 15.999).
const K_IN_K2O: f64 = 78.196 / 94.195;

impl Analysis {
    /// The three numbers as printed, such as 20, 10, 20.
    ///
    /// # Errors
    /// [`CropError::Impossible`] when one lies outside 0 to 100%, or all three together do.
    pub fn new(n: f64, p2o5: f64, k2o: f64) -> Result<Self, CropError> {
        let analysis = Self {
            n: within("N", n, 0.0, 100.0, "%")?,
            p2o5: within("P2O5", p2o5, 0.0, 100.0, "%")?,
            k2o: within("K2O", k2o, 0.0, 100.0, "%")?,
        };
        within("N, P2O5 and K2O together", n + p2o5 + k2o, 0.0, 100.0, "%")?;
        Ok(analysis)
    }

    /// Percent of the elements.
    pub fn elements(self) -> Elements {
        Elements { n: self.n, p: self.p2o5 * P_IN_P2O5, k: self.k2o * K_IN_K2O }
    }

    /// ppm of P and K that come with so many ppm of N.
    ///
    /// # Errors
    /// [`CropError::Missing`] when the bag has no N to go by; [`CropError::Impossible`] for N outside 0 to 100,000 ppm.
    pub fn at_n(self, n: Concentration) -> Result<Elements, CropError> {
        let ppm = within("N", n.ppm(), 0.0, 100_000.0, "ppm")?;
        if self.n < 0.01 {
            return Err(CropError::Missing { what: "N on the label", why: "a bag without N cannot be measured by it" });
        }
        let (parts, times) = (self.elements(), ppm / self.n);
        Ok(Elements { n: ppm, p: parts.p * times, k: parts.k * times })
    }
}

/// The nitrogen forms on the label, percent of the bag.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NitrogenForms {
    /// Ammoniacal nitrogen.
    pub ammonium: f64,
    /// Urea nitrogen; it turns into ammonium.
    pub urea: f64,
    /// Nitrate nitrogen.
    pub nitrate: f64,
}

/// How an ammonium share is classed for a poinsettia.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum AmmoniumState {
    /// No objection in print.
    Fine,
    /// Over the ceiling for the growth stage: 40% (a supplier's newsletter, 2012), or 25% from first color (house rule).
    High,
    /// Over 50%, the ceiling of Texas A&M and of the UMass laboratory.
    TooHigh,
}

impl NitrogenForms {
    /// Ammonium and urea as a share (0 to 1) of all nitrogen.
    ///
    /// # Errors
    /// [`CropError::Impossible`] for a form outside 0 to 100%; [`CropError::Missing`] when there is no nitrogen at
    /// all.
    pub fn ammonium_share(self) -> Result<f64, CropError> {
        let ammonium = within("ammonium N", self.ammonium, 0.0, 100.0, "%")?;
        let urea = within("urea N", self.urea, 0.0, 100.0, "%")?;
        let nitrate = within("nitrate N", self.nitrate, 0.0, 100.0, "%")?;
        let total = ammonium + urea + nitrate;
        if total < 0.01 {
            return Err(CropError::Missing { what: "N on the label", why: "there is no share of no nitrogen" });
        }
        Ok((ammonium + urea) / total)
    }

    /// The class of a share. Trials found some ammonium to help growth and edge burn to double with it, and the
    /// ceilings in print are 40 and 50%; the 25% from first color is a house rule drawn from the advice to go over
    /// to nitrate.
    ///
    /// # Errors
    /// As [`NitrogenForms::ammonium_share`].
    pub fn state(self, colored: bool) -> Result<AmmoniumState, CropError> {
        let share = self.ammonium_share()?;
        let ceiling = if colored { 0.25 } else { 0.40 };
        Ok(if share > 0.50 {
            AmmoniumState::TooHigh
        } else if share > ceiling {
            AmmoniumState::High
        } else {
            AmmoniumState::Fine
        })
    }
}

/// Calcium to magnesium, by ppm.
///
/// # Errors
/// [`CropError::Impossible`] for calcium outside 0 to 10,000 ppm or magnesium outside 0.1 to 10,000 ppm.
pub fn ca_to_mg(calcium: Concentration, magnesium: Concentration) -> Result<f64, CropError> {
    let ca = within("calcium", calcium.ppm(), 0.0, 10_000.0, "ppm")?;
    Ok(ca / within("magnesium", magnesium.ppm(), 0.1, 10_000.0, "ppm")?)
}

/// How a Ca:Mg ratio compares with 3:1 to 5:1 (MSU Extension, Owen, magnesium deficiency in poinsettia).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CaMgState {
    /// Under 3:1: calcium may run short.
    LittleCalcium,
    /// 3:1 to 5:1.
    Balanced,
    /// Over 5:1: magnesium may run short.
    LittleMagnesium,
}

/// The state of a ratio from [`ca_to_mg`]; both ends belong to the balanced range.
///
/// # Errors
/// [`CropError::Impossible`] outside 0 to 100,000.
pub fn ca_mg_state(ratio: f64) -> Result<CaMgState, CropError> {
    let ratio = within("Ca:Mg", ratio, 0.0, 100_000.0, "to 1")?;
    Ok(if ratio < 3.0 {
        CaMgState::LittleCalcium
    } else if ratio <= 5.0 {
        CaMgState::Balanced
    } else {
        CaMgState::LittleMagnesium
    })
}

/// The calcium that goes with so much magnesium at 3:1 and at 5:1.
///
/// # Errors
/// [`CropError::Impossible`] for magnesium outside 0 to 10,000 ppm.
pub fn calcium_for_magnesium(magnesium: Concentration) -> Result<(Concentration, Concentration), CropError> {
    let mg = within("magnesium", magnesium.ppm(), 0.0, 10_000.0, "ppm")?;
    Ok((Concentration::from_ppm(mg * 3.0), Concentration::from_ppm(mg * 5.0)))
}

/// What a material brings into a stock tank, of the ions that fall out together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Carries {
    /// Calcium (calcium nitrate, calcium chloride, 15-5-15 kinds).
    pub calcium: bool,
    /// Sulfate (magnesium, potassium, iron or ammonium sulfate; sulfuric acid).
    pub sulfate: bool,
    /// Phosphate (any bag whose second number is not 0; phosphoric acid).
    pub phosphate: bool,
}

impl Carries {
    /// Calcium nitrate or chloride.
    pub const CALCIUM: Self = Self { calcium: true, sulfate: false, phosphate: false };
    /// A sulfate, such as magnesium sulfate.
    pub const SULFATE: Self = Self { calcium: false, sulfate: true, phosphate: false };
    /// A phosphate, or a bag with P2O5.
    pub const PHOSPHATE: Self = Self { calcium: false, sulfate: false, phosphate: true };
}

/// Why two materials must not share a stock tank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Clash {
    /// Calcium and sulfate precipitate as gypsum and clog lines (North Carolina Agronomic Division).
    CalciumSulfate,
    /// Calcium and phosphate fall out (common practice, no source).
    CalciumPhosphate,
}

/// The clashes between materials in one concentrated stock, by their places in the list. A single bag is its maker's
/// affair: nothing clashes with itself.
pub fn clashes(materials: &[Carries]) -> Vec<(usize, usize, Clash)> {
    let mut found = Vec::new();
    for (first, a) in materials.iter().enumerate() {
        for (second, b) in materials.iter().enumerate().skip(first + 1) {
            if a.calcium && b.sulfate || a.sulfate && b.calcium {
                found.push((first, second, Clash::CalciumSulfate));
            }
            if a.calcium && b.phosphate || a.phosphate && b.calcium {
                found.push((first, second, Clash::CalciumPhosphate));
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    #[test]
    fn calcium_nitrate_and_magnesium_sulfate_never_share_a_tank() {
        let tank = [Carries::CALCIUM, Carries::SULFATE, Carries::PHOSPHATE, Carries::default()];
        assert_eq!(clashes(&tank), [(0, 1, Clash::CalciumSulfate), (0, 2, Clash::CalciumPhosphate)]);
        let blend = Carries { calcium: true, phosphate: true, sulfate: false };
        assert!(clashes(&[blend]).is_empty());
        assert_eq!(clashes(&[blend, blend]).len(), 1);
    }

    #[test]
    fn ammonium_is_held_lower_from_first_color() {
        let forms = |ammonium: f64| NitrogenForms { ammonium, urea: 0.0, nitrate: 100.0 - ammonium };
        assert_eq!(forms(26.0).state(false), Ok(AmmoniumState::Fine));
        assert_eq!(forms(26.0).state(true), Ok(AmmoniumState::High));
        assert_eq!(forms(25.0).state(true), Ok(AmmoniumState::Fine));
    }

    #[test]
    fn labels_that_cannot_be_are_refused() {
        assert!(Analysis::new(60.0, 30.0, 20.0).is_err());
        assert!(Analysis::new(0.0, 52.0, 34.0).unwrap().at_n(Concentration::from_ppm(100.0)).is_err());
        assert!(NitrogenForms { ammonium: 0.0, urea: 0.0, nitrate: 0.0 }.ammonium_share().is_err());
    }

    proptest! {
        #[test]
        fn nothing_is_not_finite(a in ANY, b in ANY, c in ANY) {
            if let Ok(share) = (NitrogenForms { ammonium: a, urea: b, nitrate: c }).ammonium_share() {
                prop_assert!((0.0..=1.0).contains(&share));
            }
            if let Ok(ratio) = ca_to_mg(Concentration::from_ppm(a), Concentration::from_ppm(b)) {
                prop_assert!(ratio.is_finite() && ca_mg_state(ratio).is_ok());
            }
            if let Ok(at) = Analysis::new(a, b, c).and_then(|label| label.at_n(Concentration::from_ppm(200.0))) {
                prop_assert!(at.p.is_finite() && at.k.is_finite());
            }
        }
    }
}
