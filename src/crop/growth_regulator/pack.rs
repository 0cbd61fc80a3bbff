//! The strengths products are sold at, only to compare with the one a person typed: no figure of this table is ever shown.

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
    /// The strength the usual mixing tables are made for; the others of the same ingredient must not be mistaken for it.
    pub usual: bool,
    /// Where the strength comes from.
    pub basis: Basis,
}

const fn pack(ingredient: Ingredient, strength: f64, solid: bool, usual: bool, basis: &'static str) -> Pack {
    Pack { ingredient, strength, solid, usual, basis: Basis::Published(basis) }
}

/// Only strengths that a source gives: a figure from memory is no ground to question a label.
static PACKS: [Pack; 8] = [
    pack(
        Ingredient::Daminozide,
        0.85,
        true,
        true,
        "Michigan State growth-regulator dilution guide, reproduced with 0.85",
    ),
    pack(Ingredient::Chlormequat, 118.0, false, true, "New York State Flower Industries, Poinsettia production, 1970"),
    pack(Ingredient::Paclobutrazol, 4.0, false, true, "product label"),
    pack(
        Ingredient::Paclobutrazol,
        40.0,
        false,
        false,
        "North Carolina State growth-regulator guide for annuals, 2017 to 2020",
    ),
    // Labels say 0.5 or 0.55 g/L.
    pack(Ingredient::Uniconazole, 0.55, false, true, "product label"),
    pack(Ingredient::Ethephon, 39.0, false, true, "product label"),
    pack(Ingredient::Ethephon, 217.0, false, false, "New England Greenhouse Floriculture Guide"),
    // Of each of the two.
    pack(
        Ingredient::BaGa47,
        18.0,
        false,
        true,
        "North Carolina State growth-regulator guide for annuals, 2017 to 2020",
    ),
];

/// The strengths an ingredient is commonly sold at. Never a default for a mix: the strength is typed from the label.
pub fn packs(ingredient: Ingredient) -> impl Iterator<Item = &'static Pack> {
    PACKS.iter().filter(move |p| p.ingredient == ingredient)
}

/// How a typed strength compares with the usual one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PackCheck {
    /// About the usual strength.
    Usual,
    /// Much stronger or weaker: the label should be read again.
    Unusual {
        /// Typed strength over the usual one (10 for ten times stronger, 0.1 for ten times weaker).
        times: f64,
    },
    /// A solid where the usual product is a liquid, or the other way round.
    OtherForm {
        /// Whether the usual product is a solid.
        solid: bool,
    },
    /// No usual strength is known.
    NoFigure,
}

/// Compares a typed strength with the usual one. Twice as strong or half as strong is accepted, more is not (house rule; the
/// pairs that are sold lie 5.6 and 10 times apart).
pub fn check_pack(ingredient: Ingredient, strength: Strength) -> PackCheck {
    let Some(usual) = packs(ingredient).find(|p| p.usual) else { return PackCheck::NoFigure };
    if usual.solid != strength.is_solid() {
        return PackCheck::OtherForm { solid: usual.solid };
    }
    let Some(typed) = strength.g_per_g().or(strength.g_per_l()) else { return PackCheck::NoFigure };
    let times = typed / usual.strength;
    if (0.5..=2.0).contains(&times) { PackCheck::Usual } else { PackCheck::Unusual { times } }
}

#[cfg(test)]
mod tests {
    use super::{Ingredient, PackCheck, Strength, check_pack, packs};

    fn times(ingredient: Ingredient, typed: &str) -> Option<f64> {
        match check_pack(ingredient, Strength::parse(typed).unwrap()) {
            PackCheck::Unusual { times } => Some(times),
            _ => None,
        }
    }

    #[test]
    fn a_strength_far_from_the_usual_is_flagged() {
        assert!((times(Ingredient::Paclobutrazol, "4% liquid").unwrap() - 10.0).abs() < 1e-9);
        assert!((times(Ingredient::Paclobutrazol, "0.4 g/L").unwrap() - 0.1).abs() < 1e-9);
        assert!((times(Ingredient::Ethephon, "21.7% liquid").unwrap() - 5.56).abs() < 0.01);
        assert_eq!(times(Ingredient::Paclobutrazol, "0.4% liquid"), None);
        assert_eq!(times(Ingredient::Uniconazole, "0.5 g/L"), None);
        assert_eq!(times(Ingredient::Chlormequat, "1 lb/gal"), None);
        let powder = check_pack(Ingredient::Daminozide, Strength::parse("85 g/L").unwrap());
        assert!(matches!(powder, PackCheck::OtherForm { .. }));
        for unknown in [Ingredient::Ga3, Ingredient::Flurprimidol, Ingredient::Ancymidol] {
            assert_eq!(check_pack(unknown, Strength::parse("40 g/L").unwrap()), PackCheck::NoFigure);
        }
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
