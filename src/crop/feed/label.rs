//! What the bag's label says, in elements, and what must not share a tank.

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
    fn labels_that_cannot_be_are_refused() {
        assert!(Analysis::new(60.0, 30.0, 20.0).is_err());
        assert!(Analysis::new(0.0, 52.0, 34.0).unwrap().at_n(Concentration::from_ppm(100.0)).is_err());
    }

    proptest! {
        #[test]
        fn nothing_is_not_finite(a in ANY, b in ANY, c in ANY) {
            if let Ok(at) = Analysis::new(a, b, c).and_then(|label| label.at_n(Concentration::from_ppm(200.0))) {
                prop_assert!(at.p.is_finite() && at.k.is_finite());
            }
        }
    }
}
