//! Charts made of cells: curves in fine dots (or plain ASCII), readings as signs or digits, what was done on the axis.
//!
//! The terminal library's own chart hangs on a number that is none with bounds out of order (seen in 0.30.2), so charts are
//! drawn here: what is not finite is dropped, bounds are put in order, a flat range is widened, and every loop has an end that
//! does not depend on the numbers.

mod axes;
mod grid;
mod plot;
mod scale;

#[cfg(test)]
mod tests;

pub use plot::plot;

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
    /// Readings, with low and high where known. True: the value is a digit, and shown as one.
    Dots(String, Vec<Reading>, bool),
    /// Something done: on the axis.
    Marks(String, Vec<f64>),
}

/// A chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Plot {
    /// The range across.
    pub across: (f64, f64),
    /// The range upright.
    pub upright: (f64, f64),
    /// Where the upright axis is labeled.
    pub ticks: Vec<(f64, String)>,
    /// Where the level axis is labeled.
    pub days: Vec<(f64, String)>,
    /// The present, drawn as an upright line.
    pub here: Option<f64>,
    /// What is drawn, the undermost first.
    pub inks: Vec<Ink>,
}

/// Signs of readings and marks, in the order of their layers.
const READINGS: [char; 3] = ['o', 'x', '+'];
const MARKS: [char; 3] = ['^', '*', 'v'];
/// How a line of a dash is styled.
const fn role(dash: Dash) -> Role {
    match dash {
        Dash::Solid => Role::Good,
        Dash::Dashed => Role::Label,
        Dash::Dotted => Role::Watch,
    }
}

/// The sign of a line in ASCII, and in the legend there.
const fn stroke(dash: Dash) -> char {
    match dash {
        Dash::Solid => '*',
        Dash::Dashed => '-',
        Dash::Dotted => '.',
    }
}
