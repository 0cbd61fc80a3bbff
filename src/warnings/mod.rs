//! What the rules say of a bench, a lot or a house: typed evidence, no words (those are `report`'s).

mod name;
mod warning;

pub use name::WarningName;
pub use warning::{Figure, Level, Saw, Step, Warning};
