//! The strength of a product, as typed from its label.

use crate::crop::{CropError, within};

/// Grams per liter in one pound per US gallon (453.592 37 g in 3.785 411 784 L).
const G_PER_L_IN_LB_PER_GAL: f64 = 453.592_37 / 3.785_411_784;

/// How much active ingredient a product holds. It is never looked up: a person types it from the label.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength(Form);

#[derive(Debug, Clone, Copy, PartialEq)]
enum Form {
    /// g of ingredient in a g of product.
    Solid(f64),
    /// g of ingredient in a liter of product.
    Liquid(f64),
}

impl Strength {
    /// Of a solid, in percent of its weight (85 for 85%).
    ///
    /// # Errors
    /// [`CropError::Impossible`] unless above 0 and at most 100%.
    pub fn solid_percent(percent: f64) -> Result<Self, CropError> {
        within("the strength of the solid", percent, 1e-4, 100.0, "%").map(|p| Self(Form::Solid(p / 100.0)))
    }

    /// Of a liquid, in g of ingredient per liter.
    ///
    /// # Errors
    /// [`CropError::Impossible`] unless above 0 and at most 1500 g/L.
    pub fn liquid_g_per_l(grams: f64) -> Result<Self, CropError> {
        within("the strength of the liquid", grams, 1e-3, 1500.0, "g/L").map(|g| Self(Form::Liquid(g)))
    }

    /// Of a liquid, in percent: g of ingredient in 100 mL. Where a label gives percent by weight, that is the same only for
    /// a product as heavy as water; where it gives g/L or lb/gal as well, those are better.
    ///
    /// # Errors
    /// [`CropError::Impossible`] unless above 0 and at most 100%.
    pub fn liquid_percent(percent: f64) -> Result<Self, CropError> {
        within("the strength of the liquid", percent, 1e-4, 100.0, "%").map(|p| Self(Form::Liquid(p * 10.0)))
    }

    /// From what a person typed: `60% solid` (or `w/w`), `0.6 g/g`, `7% liquid` (or `w/v`), `12 g/L`, `3 lb/gal`.
    ///
    /// # Errors
    /// [`CropError::Missing`] for a percentage that does not say of what; [`CropError::Unreadable`] for a unit or number
    /// that is not known.
    pub fn parse(text: &str) -> Result<Self, CropError> {
        let text = text.trim();
        let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(text.len());
        let (number, unit) = text.split_at(end);
        let unknown = || CropError::Unreadable {
            what: "the strength",
            got: text.to_owned(),
            wanted: "typed like '60% solid', '0.6 g/g', '7% liquid', '12 g/L' or '3 lb/gal' (made-up strengths)",
        };
        let value: f64 = number.parse().ok().filter(|v: &f64| v.is_finite()).ok_or_else(unknown)?;
        let unit: String = unit.chars().filter(|c| !c.is_whitespace()).map(|c| c.to_ascii_lowercase()).collect();
        match unit.as_str() {
            "%solid" | "%w/w" => Self::solid_percent(value),
            "g/g" => Self::solid_percent(value * 100.0),
            "g/kg" => Self::solid_percent(value / 10.0),
            "%liquid" | "%w/v" => Self::liquid_percent(value),
            "g/l" => Self::liquid_g_per_l(value),
            "lb/gal" => Self::liquid_g_per_l(value * G_PER_L_IN_LB_PER_GAL),
            "%" => Err(CropError::Missing {
                what: "what the percentage is of",
                why: "type '% solid' for a powder or granule (g in 100 g), '% liquid' for a liquid (g in 100 mL)",
            }),
            _ => Err(unknown()),
        }
    }

    /// Whether it is a solid (weighed) and not a liquid (measured by volume).
    pub const fn is_solid(self) -> bool {
        matches!(self.0, Form::Solid(_))
    }

    /// Of a solid, the share of its weight that is ingredient; `None` for a liquid.
    pub const fn g_per_g(self) -> Option<f64> {
        match self.0 {
            Form::Solid(share) => Some(share),
            Form::Liquid(_) => None,
        }
    }

    /// Of a liquid, g of ingredient per liter; `None` for a solid.
    pub const fn g_per_l(self) -> Option<f64> {
        match self.0 {
            Form::Solid(_) => None,
            Form::Liquid(grams) => Some(grams),
        }
    }

    /// As it is shown: `85% solid`, `4 g/L`.
    pub fn show(self) -> String {
        match self.0 {
            Form::Solid(share) => format!("{}% solid", crate::units::plain(share * 100.0)),
            Form::Liquid(grams) => format!("{} g/L", crate::units::plain(grams)),
        }
    }

    /// g of ingredient in a g (solid) or mL (liquid) of product.
    pub(super) fn g_per_measure(self) -> f64 {
        match self.0 {
            Form::Solid(share) => share,
            Form::Liquid(grams) => grams / 1000.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Strength;
    use proptest::prelude::*;

    #[test]
    fn strengths_are_taken_as_packs_print_them() {
        let shown = |text: &str| Strength::parse(text).unwrap().show();
        assert_eq!(shown("85% solid"), "85% solid");
        assert_eq!(shown("0.85 g/g"), "85% solid");
        assert_eq!(shown("850g/kg"), "85% solid");
        assert_eq!(shown("0.4% liquid"), "4 g/L");
        assert_eq!(shown("11.9 % w/v"), "119 g/L");
        assert_eq!(shown("4g/L"), "4 g/L");
        assert_eq!(shown("1 lb/gal"), "120 g/L");
    }

    #[test]
    fn a_strength_that_cannot_be_is_refused_with_the_reason() {
        let text = |typed: &str| Strength::parse(typed).unwrap_err().to_string();
        assert!(text("85%").contains("'% solid' for a powder"), "{}", text("85%"));
        assert_eq!(text("0% solid"), "the strength of the solid is 0%; it must be 0.0001 to 100%");
        assert_eq!(text("0 g/L"), "the strength of the liquid is 0 g/L; it must be 0.001 to 1500 g/L");
        assert!(text("120% solid").contains("it must be 0.0001 to 100%"));
        assert!(text("4").contains("typed like"));
        assert!(text("-4 g/L").contains("typed like"));
        assert!(text("4 g/furlong").contains("typed like"));
    }

    proptest! {
        #[test]
        fn any_text_is_answered(text in ".*") {
            if let Ok(strength) = Strength::parse(&text) { prop_assert!(strength.g_per_measure() > 0.0); }
        }
    }
}
