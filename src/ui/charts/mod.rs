//! Charts made of cells: curves in fine dots (or plain ASCII), readings as signs or digits, what was done on the axis.
//!
//! The terminal library's own chart hangs on a number that is none with bounds out of order (seen in 0.30.2), so charts are
//! drawn here: what is not finite is dropped, bounds are put in order, a flat range is widened, and every loop has an end that
//! does not depend on the numbers.

mod around;
mod grid;
mod plot;
mod scale;

#[cfg(test)]
mod tests;

pub use plot::{Dash, Ink, Plot, Reading, plot};
