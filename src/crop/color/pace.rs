//! How temperature stretches or shortens the response: a published table of three rows.

use super::RESPONSE_WEEKS;
use crate::crop::{CropError, within};
use crate::units::{Quantity, System, Temperature};

/// Mean of 24 hours in °F, and the least and most weeks from the start of short days to flower.
///
/// University of New Hampshire trial (P. Fisher), as summarized in the trade press; medium confidence. The summary prints
/// "days" where weeks must be meant. Cool rows first.
pub const TABLE_F: [(f64, f64, f64); 3] = [(63.0, 9.0, 13.0), (66.0, 8.0, 11.0), (70.0, 7.0, 10.0)];
/// The row at which the response weeks are assumed to hold (house rule: the middle one).
const MIDDLE: (f64, f64, f64) = TABLE_F[1];
/// The rows are printed in whole weeks, so no figure from them is better than this.
const ROUNDING_WEEKS: f64 = 0.5;

/// What a lot's response is multiplied by: least, likely and most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// Fastest.
    pub low: f64,
    /// Likely.
    pub likely: f64,
    /// Slowest.
    pub high: f64,
    /// What the range is based on.
    pub basis: PaceBasis,
}

/// What a [`Pace`] is based on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PaceBasis {
    /// No temperature is known: the whole table, relative to its middle row.
    Unknown,
    /// The temperature lies in the table: its place in it, half a week (the table's rounding) either way.
    Known,
    /// Warmer than the warmest row (70 °F): that row is used; heat may delay, and the table does not say by how much.
    Warmer,
    /// Cooler than the coolest row (63 °F): that row is used; the crop will be later than it says.
    Cooler,
}

/// The factors on a lot's response weeks at a mean temperature.
///
/// The response weeks are assumed to hold at the middle row (66 °F). Their position between that row's least and most weeks
/// gives the lot's position in the other rows; between rows the weeks are interpolated in a straight line, and never beyond
/// the table.
///
/// # Errors
/// [`CropError::Impossible`] for response weeks outside [`RESPONSE_WEEKS`] or a temperature outside -40 to 60 °C.
pub fn pace(response_weeks: f64, temperature: Option<Temperature>) -> Result<Pace, CropError> {
    let weeks = within("the response", response_weeks, RESPONSE_WEEKS.0, RESPONSE_WEEKS.1, "weeks")?;
    let [cool, _, warm] = TABLE_F;
    let Some(temperature) = temperature else {
        return Ok(Pace { low: at(weeks, warm.0), likely: 1.0, high: at(weeks, cool.0), basis: PaceBasis::Unknown });
    };
    within("mean temperature", temperature.c(), -40.0, 60.0, "°C")?;
    let f = temperature.in_system(System::Us);
    // A hair of slack, so that a row's own temperature typed in °C still lies in the table.
    let basis = if f > warm.0 + 1e-6 {
        PaceBasis::Warmer
    } else if f < cool.0 - 1e-6 {
        PaceBasis::Cooler
    } else {
        PaceBasis::Known
    };
    let likely = at(weeks, f.clamp(cool.0, warm.0));
    let either_way = ROUNDING_WEEKS / weeks;
    Ok(Pace { low: likely - either_way, likely, high: likely + either_way, basis })
}

/// The factor at a temperature inside the table.
fn at(weeks: f64, f: f64) -> f64 {
    let (_, least, most) = MIDDLE;
    let place = ((weeks - least) / (most - least)).clamp(0.0, 1.0);
    let in_row = |row: (f64, f64, f64)| place.mul_add(row.2 - row.1, row.1);
    let [cool, middle, warm] = TABLE_F;
    let (below, above) = if f <= middle.0 { (cool, middle) } else { (middle, warm) };
    let along = ((f - below.0) / (above.0 - below.0)).clamp(0.0, 1.0);
    along.mul_add(in_row(above) - in_row(below), in_row(below)) / in_row(middle)
}
