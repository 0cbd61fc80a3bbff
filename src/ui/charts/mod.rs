//! Charts in text cells: curves in Braille dots (or ASCII), readings as signs or digits, work on the axis.
//!
//! The terminal library's own chart loops forever on NaN or inverted bounds (seen in 0.30.2), so charts are drawn here:
//! values that are not finite are dropped, bounds are sorted, a flat range is widened, and every loop has a bound that does
//! not depend on the data.

mod axes;
mod grid;
mod plot;
mod scale;
mod spark;
mod stack;
mod strip;

#[cfg(test)]
mod tests;

pub use plot::plot;
pub use spark::spark;
pub use stack::stack;

use crate::ui::Role;

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dash {
    /// Without a break.
    Solid,
    /// In dashes.
    Dashed,
    /// In dots.
    Dotted,
    /// In dashes and dots by turns.
    DashDot,
}

/// A reading: place, value, low and high where known.
pub type Reading = (f64, f64, Option<(f64, f64)>);

/// One thing drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Ink {
    /// Between two curves: place, low, high.
    Band(String, Vec<(f64, f64, f64)>),
    /// A curve.
    Line(String, Vec<(f64, f64)>, Dash),
    /// Readings, with low and high where known. True: the value is a digit, and the first readings are shown as digits.
    Dots(String, Vec<Reading>, bool),
    /// Water readings: the first ones are digits whose weight tells soaked and dry from the others.
    Water(String, Vec<Reading>),
    /// Something done: on the axis.
    Marks(String, Vec<f64>),
    /// A row below the picture, shaded by place: place and value, and the value that is shaded in full.
    Strip(String, Vec<(f64, f64)>, f64),
}

/// A chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Plot {
    /// The horizontal range.
    pub across: (f64, f64),
    /// The vertical range.
    pub upright: (f64, f64),
    /// Ticks of the vertical axis.
    pub ticks: Vec<(f64, String)>,
    /// Ticks of the horizontal axis.
    pub days: Vec<(f64, String)>,
    /// Today, drawn as a vertical line.
    pub here: Option<f64>,
    /// The layers, bottom first.
    pub inks: Vec<Ink>,
}

/// Signs of readings and marks, in the order of their layers.
const READINGS: [char; 3] = ['o', 'x', '+'];
const MARKS: [char; 3] = ['^', '*', 'v'];
/// Signs of bands in ASCII, in the order of their layers.
const BANDS: [char; 2] = [':', ','];

/// How a line of a dash is styled.
const fn role(dash: Dash) -> Role {
    match dash {
        Dash::Solid => Role::Good,
        Dash::Dashed => Role::Label,
        Dash::Dotted => Role::Watch,
        Dash::DashDot => Role::Plain,
    }
}

/// The sign of a line in ASCII, and in the legend there.
const fn stroke(dash: Dash) -> char {
    match dash {
        Dash::Solid => '*',
        Dash::Dashed => '-',
        Dash::Dotted => '.',
        Dash::DashDot => '~',
    }
}
