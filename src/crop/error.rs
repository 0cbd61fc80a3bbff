//! Why a question to the crop's arithmetic is refused.
//!
//! One variant for each thing a person can do about it. The texts name what was wrong and what would be right, in the units
//! that a site reads ([`CropError::text`]).

use crate::dates::add_part_days;
use crate::units::{Area, Illuminance, Length, Mass, Quantity, System, Temperature, Volume, plain};
use chrono::NaiveDate;
use std::fmt;

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum CropError {
    /// A number that cannot be: correct the number.
    Impossible {
        /// The quantity, as a person would call it.
        what: &'static str,
        /// What was given.
        got: f64,
        /// Least and most that would be right.
        wanted: (f64, f64),
        /// The metric unit of these numbers; empty for a plain number.
        unit: &'static str,
    },
    /// A text that names no value of this kind: type it as shown.
    Unreadable {
        /// The quantity.
        what: &'static str,
        /// What was typed.
        got: String,
        /// How it is typed.
        wanted: &'static str,
    },
    /// A number outside what the source covers: the answer would be a guess, so there is none.
    NotCovered {
        /// The quantity.
        what: &'static str,
        /// What was given, with its unit.
        got: String,
        /// What the source covers.
        covered: String,
    },
    /// Something needed was not given: give it.
    Missing {
        /// What is missing.
        what: &'static str,
        /// What it is needed for, or what to do.
        why: &'static str,
    },
    /// Two values that cannot both be: correct one of them.
    Contradiction {
        /// One value, named.
        first: Named,
        /// The other, named.
        second: Named,
        /// Why not.
        why: &'static str,
    },
    /// A day that leaves the calendar.
    NoSuchDay {
        /// Which day was being calculated.
        what: &'static str,
    },
}

impl std::error::Error for CropError {}

impl fmt::Display for CropError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text(System::Metric))
    }
}

impl CropError {
    /// What was wrong and what would be right, in the units of a system.
    pub fn text(&self, system: System) -> String {
        match self {
            Self::Impossible { what, got, wanted: (least, most), unit } => {
                let read = Read::of(unit, most.max(*got), system);
                let wanted = read.join(format!("{} to {}", read.number(*least), read.number(*most)));
                let got = if got.is_finite() { read.join(read.number(*got)) } else { "not a number".to_owned() };
                format!("{what} is {got}; it must be {wanted}")
            }
            Self::Unreadable { what, got, wanted } => format!("{what} is '{got}'; it must be {wanted}"),
            Self::NotCovered { what, got, covered } => {
                format!("{what} is {got}; the source covers {covered} and no more is read into it")
            }
            Self::Missing { what, why } => format!("{what} is missing: {why}"),
            Self::Contradiction { first, second, why } => {
                format!("{} and {} do not go together: {why}", first.text(system), second.text(system))
            }
            Self::NoSuchDay { what } => format!("{what} lies outside the years 1900 to 2199"),
        }
    }
}

/// A value named in words; a quantity is shown in the units of a site.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    words: String,
    quantity: Option<(f64, &'static str)>,
}

impl Named {
    /// A quantity after its name: its number, in a metric unit.
    pub fn quantity(words: impl Into<String>, value: f64, unit: &'static str) -> Self {
        Self { words: words.into(), quantity: Some((value, unit)) }
    }

    fn text(&self, system: System) -> String {
        let Some((value, unit)) = self.quantity else { return self.words.clone() };
        let read = Read::of(unit, value, system);
        let shown = read.join(read.number(value));
        if self.words.is_empty() { shown } else { format!("{} {shown}", self.words) }
    }
}

impl<T: Into<String>> From<T> for Named {
    fn from(words: T) -> Self {
        Self { words: words.into(), quantity: None }
    }
}

/// How the numbers of a metric unit are read at a site.
struct Read {
    /// The number in the unit of the site; `None` where both systems share the unit.
    change: Option<fn(f64) -> f64>,
    unit: &'static str,
}

impl Read {
    /// For numbers up to `most` of a metric unit.
    fn of(unit: &'static str, most: f64, system: System) -> Self {
        const SMALL_ML: f64 = 20_000.0;
        let as_is = Self { change: None, unit };
        if system == System::Metric {
            return as_is;
        }
        let (change, unit): (fn(f64) -> f64, _) = match unit {
            "cm" => (|v| Length::from_cm(v).in_system(System::Us), "in"),
            "m2" => (|v| Area::from_m2(v).in_system(System::Us), "sq ft"),
            "mL" if most <= SMALL_ML => (|v| Volume::from_ml(v).in_unit("fl oz").unwrap_or(v), "fl oz"),
            "mL" => (|v| Volume::from_ml(v).in_system(System::Us), "gal"),
            "mL/m2" => (super::growth_regulator::quarts_per_100_sq_ft, "qt per 100 sq ft"),
            "g" => (|v| Mass::from_g(v).in_system(System::Us), "oz"),
            "°C" => (|v| Temperature::from_c(v).in_system(System::Us), "°F"),
            "lux" => (|v| Illuminance::from_lux(v).in_system(System::Us), "fc"),
            _ => return as_is,
        };
        Self { change: Some(change), unit }
    }

    fn number(&self, value: f64) -> String {
        self.change.map_or_else(|| value.to_string(), |change| plain(change(value)))
    }

    /// A number with the unit after it.
    fn join(&self, number: String) -> String {
        let space = if ["", "%", "°"].contains(&self.unit) { "" } else { " " };
        number + space + self.unit
    }
}

/// A number that must lie within bounds (both included): the number again, or the refusal.
///
/// # Errors
/// [`CropError::Impossible`] when it is not finite or outside.
pub fn within(what: &'static str, value: f64, least: f64, most: f64, unit: &'static str) -> Result<f64, CropError> {
    if value.is_finite() && value >= least && value <= most {
        return Ok(value);
    }
    Err(CropError::Impossible { what, got: value, wanted: (least, most), unit })
}

/// `days` after a day (before it when negative), to the nearest whole day; `what` names it in the refusal.
///
/// # Errors
/// [`CropError::NoSuchDay`] when that is not in the years 1900 to 2199 or `days` is not finite.
pub(super) fn day_after(what: &'static str, from: NaiveDate, days: f64) -> Result<NaiveDate, CropError> {
    add_part_days(from, days).ok_or(CropError::NoSuchDay { what })
}

#[cfg(test)]
mod tests {
    use super::{CropError, Named, within};
    use crate::units::System;

    #[test]
    fn refusals_say_what_would_be_right() {
        let text = |v: f64| within("relative humidity", v, 0.0, 100.0, "%").unwrap_err().to_string();
        assert_eq!(text(120.0), "relative humidity is 120%; it must be 0 to 100%");
        assert_eq!(text(f64::NAN), "relative humidity is not a number; it must be 0 to 100%");
        assert_eq!(within("pH", 6.0, 0.0, 14.0, ""), Ok(6.0));
    }

    #[test]
    fn a_site_reads_its_own_units() {
        let us = |value, least, most, unit| within("it", value, least, most, unit).unwrap_err().text(System::Us);
        assert_eq!(us(1000.0, 2.54, 254.0, "cm"), "it is 394 in; it must be 1 to 100 in");
        assert_eq!(us(200.0, -40.0, 60.0, "°C"), "it is 392 °F; it must be -40 to 140 °F");
        assert_eq!(us(0.0, 0.092_903_04, 92.903_04, "m2"), "it is 0 sq ft; it must be 1 to 1000 sq ft");
        assert_eq!(
            us(1.0, 20.0, 2000.0, "mL/m2"),
            "it is 0.0098 qt per 100 sq ft; it must be 0.196 to 19.6 qt per 100 sq ft"
        );
        assert_eq!(us(0.0, 29.573_529_562_5, 295.735_295_625, "mL"), "it is 0 fl oz; it must be 1 to 10 fl oz");
        assert_eq!(us(0.0, 3_785.411_784, 3_785_411.784, "mL"), "it is 0 gal; it must be 1 to 1000 gal");
        assert_eq!(us(9.0, 0.0, 5.0, "ppm"), "it is 9 ppm; it must be 0 to 5 ppm");
        let clash = CropError::Contradiction {
            first: Named::quantity("the start", 25.4, "cm"),
            second: "the finish".into(),
            why: "it starts above it",
        };
        assert_eq!(clash.text(System::Us), "the start 10 in and the finish do not go together: it starts above it");
        assert_eq!(clash.to_string(), "the start 25.4 cm and the finish do not go together: it starts above it");
    }
}
