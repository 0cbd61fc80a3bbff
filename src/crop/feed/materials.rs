//! The salts given as extras, and the rates in print.
//!
//! Shares are worked out from standard atomic weights (IUPAC Commission on Isotopic Abundances and Atomic Weights, 2021
//! table, abridged values), for the pure salt with its water of crystallization. A bag of another grade says its own.

use super::Fraction;
use crate::crop::{CropError, within};
use crate::terms::{Material, Method};
use crate::units::Concentration;

// Standard atomic weights, abridged (IUPAC 2021).
const H: f64 = 1.008;
const N: f64 = 14.007;
const O: f64 = 15.999;
const NA: f64 = 22.990;
const MG: f64 = 24.305;
const S: f64 = 32.06;
const CL: f64 = 35.45;
const CA: f64 = 40.078;
const MO: f64 = 95.95;
const WATER: f64 = 2.0 * H + O;

impl Material {
    /// g per mole.
    pub const fn molar_mass(self) -> f64 {
        match self {
            Self::MagnesiumSulfate => MG + S + 4.0 * O + 7.0 * WATER,
            Self::SodiumMolybdate => 2.0 * NA + MO + 4.0 * O + 2.0 * WATER,
            Self::AmmoniumMolybdate => 6.0 * (N + 4.0 * H) + 7.0 * MO + 24.0 * O + 4.0 * WATER,
            Self::CalciumChloride => CA + 2.0 * CL + 2.0 * WATER,
        }
    }

    /// The share of the element the salt is given for (Mg, Mo or Ca).
    pub const fn fraction(self) -> Fraction {
        let element = match self {
            Self::MagnesiumSulfate => MG,
            Self::SodiumMolybdate => MO,
            Self::AmmoniumMolybdate => 7.0 * MO,
            Self::CalciumChloride => CA,
        };
        Fraction::known(element / self.molar_mass())
    }

    /// The element's symbol.
    pub const fn element(self) -> &'static str {
        match self {
            Self::MagnesiumSulfate => "Mg",
            Self::SodiumMolybdate | Self::AmmoniumMolybdate => "Mo",
            Self::CalciumChloride => "Ca",
        }
    }

    /// g per liter of a solution of so many mmol per liter.
    ///
    /// # Errors
    /// [`CropError::Impossible`] outside 0 to 10,000 mmol/L.
    pub fn g_per_l(self, mmol_per_l: f64) -> Result<f64, CropError> {
        Ok(within("strength of the solution", mmol_per_l, 0.0, 10_000.0, "mmol/L")? * self.molar_mass() / 1000.0)
    }
}

/// How an extra nutrient is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Given {
    /// In every feed.
    InFeed,
    /// As a solution of its own.
    Apart(Method),
}

/// A rate in print, in ppm of the element.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UsualRate {
    /// The salts it may be made of.
    pub salts: &'static [Material],
    /// How it is given.
    pub how: Given,
    /// Lower end, ppm of the element.
    pub low_ppm: f64,
    /// Upper end, ppm of the element.
    pub high_ppm: f64,
    /// Who prints it.
    pub source: &'static str,
}

const MOLYBDATES: &[Material] = &[Material::SodiumMolybdate, Material::AmmoniumMolybdate];

/// The rates in print. Drench rates printed by weight (1 lb and 24 oz of magnesium sulfate, 2 oz of a molybdate, 1 lb
/// of calcium chloride per 100 gal) are given as the ppm they make.
pub static USUAL_RATES: [UsualRate; 7] = [
    UsualRate {
        salts: &[Material::MagnesiumSulfate],
        how: Given::InFeed,
        low_ppm: 30.0,
        high_ppm: 40.0,
        source: "Owen (Michigan State Extension), magnesium deficiency in poinsettia; feed and water together",
    },
    UsualRate {
        salts: &[Material::MagnesiumSulfate],
        how: Given::Apart(Method::Drench),
        low_ppm: 118.2,
        high_ppm: 177.2,
        source: "Purdue, Poinsettia Tips (1 lb per 100 gal every 4-6 weeks); Texas A&M (24 oz)",
    },
    UsualRate {
        salts: MOLYBDATES,
        how: Given::InFeed,
        low_ppm: 0.1,
        high_ppm: 0.1,
        source: "Owen (Michigan State) on molybdenum; Purdue, Poinsettia Tips; one supplier's feed carries 1 ppm",
    },
    UsualRate {
        salts: MOLYBDATES,
        how: Given::Apart(Method::Drench),
        low_ppm: 50.0,
        high_ppm: 81.4,
        source: "one-off correction: a supplier's program (50 ppm); Owen (Michigan State), 2 oz per 100 gal",
    },
    UsualRate {
        salts: MOLYBDATES,
        how: Given::Apart(Method::Spray),
        low_ppm: 59.4,
        high_ppm: 81.4,
        source: "one-off correction: Owen (Michigan State), 2 oz per 100 gal; may injure leaves",
    },
    UsualRate {
        salts: &[Material::CalciumChloride],
        how: Given::Apart(Method::Spray),
        low_ppm: 200.0,
        high_ppm: 400.0,
        source: "a supplier's program and the trade press, weekly from first color until pollen is shed; one source gives ppm of the salt, not of Ca",
    },
    UsualRate {
        salts: &[Material::CalciumChloride],
        how: Given::Apart(Method::Spray),
        low_ppm: 326.7,
        high_ppm: 326.7,
        source: "a breeder's shipping tips, 2012 (1 lb per 100 gal weekly from first color)",
    },
];

/// The rates in print for one salt given one way.
pub fn usual_rates(salt: Material, how: Given) -> impl Iterator<Item = &'static UsualRate> {
    USUAL_RATES.iter().filter(move |rate| rate.how == how && rate.salts.contains(&salt))
}

/// The lowest and the highest published rate for one salt given one way, ppm of the element. None where no rate is published.
pub fn published_range(salt: Material, how: Given) -> Option<(f64, f64)> {
    let ends = usual_rates(salt, how).map(|rate| (rate.low_ppm, rate.high_ppm));
    ends.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

/// True when a strength is more than `times` over every rate in print for this salt given this way: ask before mixing. None where no
/// rate is in print.
pub fn beyond_usual(salt: Material, how: Given, strength: Concentration, times: f64) -> Option<bool> {
    let top = usual_rates(salt, how).map(|rate| rate.high_ppm).reduce(f64::max)?;
    Some(strength.ppm() > top * times)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::terms::Term;

    #[test]
    fn every_rate_has_a_range_and_a_source() {
        for rate in &USUAL_RATES {
            assert!(rate.low_ppm > 0.0 && rate.low_ppm <= rate.high_ppm && !rate.source.is_empty());
            assert!(!rate.salts.is_empty());
        }
        let beyond = |ppm| {
            beyond_usual(Material::CalciumChloride, Given::Apart(Method::Spray), Concentration::from_ppm(ppm), 1.5)
        };
        assert_eq!((beyond(600.0), beyond(601.0)), (Some(false), Some(true)));
        assert_eq!(
            beyond_usual(Material::CalciumChloride, Given::Apart(Method::Drench), Concentration::from_ppm(1.0), 1.5),
            None
        );
        assert!(Material::ALL.iter().all(|salt| (0.05..0.6).contains(&salt.fraction().share())));
        assert!(Material::CalciumChloride.g_per_l(f64::NAN).is_err());
    }
}
