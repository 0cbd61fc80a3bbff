//! The strengths products are sold at, only to compare with the one a person typed.

use super::{Ingredient, Strength};
use crate::limits::Basis;

/// A strength an ingredient is commonly sold at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pack {
    /// The ingredient.
    pub ingredient: Ingredient,
    /// Solid: g of ingredient in a g. Liquid: g in a liter.
    pub strength: f64,
    /// Whether it is a solid.
    pub solid: bool,
    /// As the pack says it.
    pub words: &'static str,
    /// The strength the usual mixing tables are made for; the others of the same ingredient must not be mistaken for it.
    pub usual: bool,
    /// Where the strength comes from.
    pub basis: Basis,
}

const fn liquid(ingredient: Ingredient, strength: f64, words: &'static str, usual: bool, basis: Basis) -> Pack {
    Pack { ingredient, strength, solid: false, words, usual, basis }
}

const LABEL: Basis = Basis::Published("product label");

static PACKS: [Pack; 10] = [
    Pack {
        ingredient: Ingredient::Daminozide,
        strength: 0.85,
        solid: true,
        words: "85 % granule",
        usual: true,
        basis: Basis::Published("Michigan State growth-regulator dilution guide, reproduced with 0.85"),
    },
    liquid(
        Ingredient::Chlormequat,
        118.0,
        "11.8 % liquid",
        true,
        Basis::Published("New York State Flower Industries, Poinsettia production, 1970"),
    ),
    liquid(Ingredient::Paclobutrazol, 4.0, "0.4 % liquid", true, LABEL),
    liquid(
        Ingredient::Paclobutrazol,
        40.0,
        "4 % liquid",
        false,
        Basis::Published("North Carolina State growth-regulator guide for annuals, 2017 to 2020"),
    ),
    liquid(Ingredient::Uniconazole, 0.55, "0.055 % liquid (labels say 0.5 or 0.55 g/L)", true, LABEL),
    liquid(Ingredient::Ethephon, 39.0, "3.9 % liquid", true, LABEL),
    liquid(
        Ingredient::Ethephon,
        217.0,
        "21.7 % liquid",
        false,
        Basis::Published("New England Greenhouse Floriculture Guide"),
    ),
    liquid(
        Ingredient::BaGa47,
        18.0,
        "1.8 % of each, liquid",
        true,
        Basis::Published("North Carolina State growth-regulator guide for annuals, 2017 to 2020"),
    ),
    liquid(Ingredient::Flurprimidol, 3.8, "0.38 % liquid", true, Basis::FromMemory),
    liquid(Ingredient::Ancymidol, 0.264, "0.0264 % liquid", true, Basis::FromMemory),
];

/// The strengths an ingredient is commonly sold at. Never a default for a mix: the strength is typed from the pack.
pub fn packs(ingredient: Ingredient) -> impl Iterator<Item = &'static Pack> {
    PACKS.iter().filter(move |p| p.ingredient == ingredient)
}

/// How a typed strength compares with the usual one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PackCheck {
    /// About the usual strength.
    Usual,
    /// Much stronger or weaker: read the pack again. Measured out as if it were the usual pack, the solution would be `times`
    /// as strong as meant.
    Unusual {
        /// Typed strength over the usual one (10 for ten times stronger, 0.1 for ten times weaker).
        times: f64,
        /// The usual pack.
        usual: &'static Pack,
    },
    /// A solid where the usual pack is a liquid, or the other way round.
    OtherForm {
        /// The usual pack.
        usual: &'static Pack,
    },
    /// No usual strength is known.
    NoFigure,
}

/// Compares a typed strength with the usual one. Twice as strong or half as strong is accepted, more is not (house rule; the
/// pairs that are sold lie 5.6 and 10 times apart).
pub fn check_pack(ingredient: Ingredient, strength: Strength) -> PackCheck {
    let Some(usual) = packs(ingredient).find(|p| p.usual) else { return PackCheck::NoFigure };
    if usual.solid != strength.is_solid() {
        return PackCheck::OtherForm { usual };
    }
    let Some(typed) = strength.g_per_g().or(strength.g_per_l()) else { return PackCheck::NoFigure };
    let times = typed / usual.strength;
    if (0.5..=2.0).contains(&times) { PackCheck::Usual } else { PackCheck::Unusual { times, usual } }
}

#[cfg(test)]
mod tests {
    use super::{Ingredient, PackCheck, Strength, check_pack, packs};

    fn times(ingredient: Ingredient, typed: &str) -> Option<f64> {
        match check_pack(ingredient, Strength::parse(typed).unwrap()) {
            PackCheck::Unusual { times, .. } => Some(times),
            _ => None,
        }
    }

    #[test]
    fn a_pack_far_from_the_usual_is_told() {
        assert!((times(Ingredient::Paclobutrazol, "4% liquid").unwrap() - 10.0).abs() < 1e-9);
        assert!((times(Ingredient::Paclobutrazol, "0.4 g/L").unwrap() - 0.1).abs() < 1e-9);
        assert!((times(Ingredient::Ethephon, "21.7% liquid").unwrap() - 5.56).abs() < 0.01);
        assert_eq!(times(Ingredient::Paclobutrazol, "0.4% liquid"), None);
        assert_eq!(times(Ingredient::Uniconazole, "0.5 g/L"), None);
        assert_eq!(times(Ingredient::Chlormequat, "1 lb/gal"), None);
        let powder = check_pack(Ingredient::Daminozide, Strength::parse("85 g/L").unwrap());
        assert!(matches!(powder, PackCheck::OtherForm { .. }));
        assert_eq!(check_pack(Ingredient::Ga3, Strength::parse("40 g/L").unwrap()), PackCheck::NoFigure);
    }

    #[test]
    fn one_pack_at_most_is_the_usual() {
        for ingredient in Ingredient::ALL {
            assert!(packs(ingredient).filter(|p| p.usual).count() <= 1);
            for pack in packs(ingredient) {
                let typed = if pack.solid {
                    Strength::solid_percent(pack.strength * 100.0)
                } else {
                    Strength::liquid_g_per_l(pack.strength)
                };
                assert!(typed.is_ok());
            }
        }
    }
}
