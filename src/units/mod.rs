//! Quantities as types, and how they are typed and shown in both unit systems.
//!
//! Inside the program everything is SI (cm, m2, mL, g, °C, mg/L, mS/cm). A quantity meets other units only here: when a
//! person types one (`14in`, `36cm`, `2qt`, `68F`) and when one is shown. A number typed without a unit is taken in the
//! unit system of the site.
//!
//! ```
//! use benchwalk::units::{Length, Quantity, System, parse};
//!
//! let pot: Length = parse("6in", System::Metric)?;
//! assert_eq!(pot.show(System::Metric), "15.2 cm");
//! assert_eq!(pot.show(System::Us), "6 in");
//! # Ok::<(), benchwalk::units::UnitError>(())
//! ```

mod kinds;
mod parse;

pub use kinds::{
    Area, Concentration, Conductivity, Illuminance, Irradiance, Length, Mass, Quantity, Temperature, Unit, Volume,
};
pub use parse::{UnitError, parse, parse_in};

use serde::{Deserialize, Serialize};

/// Which units a site reads and types.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum System {
    /// Inches, ounces, US gallons, °F.
    Us,
    /// Centimeters, grams, liters, °C.
    Metric,
}

/// Shows a number with as many decimals as carry meaning: three significant digits, no trailing zeros.
pub fn plain(value: f64) -> String {
    if !value.is_finite() {
        return "—".to_owned();
    }
    let size = value.abs();
    let decimals = if size >= 100.0 || size == 0.0 {
        0
    } else if size >= 10.0 {
        1
    } else if size >= 1.0 {
        2
    } else if size >= 0.1 {
        3
    } else {
        4
    };
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}
