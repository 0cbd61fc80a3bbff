//! The agronomy under every screen and warning: one file a subject.
//!
//! Everything here is arithmetic on plain typed values. There is no clock, no file and no record: the caller passes the
//! day, so that any day can be asked for. Each public function says its units, what it refuses, and where its numbers come
//! from: a published source, common practice without one, a house rule (ours), or memory. Where sources disagree the
//! answer is a range or a choice. Nothing panics, and nothing returns a number that is not finite.
//!
//! `tests/outside` holds these functions against numbers from outside the project, each with its source beside it.

mod error;
mod estimate;

pub mod calendar;
pub mod climate;
pub mod color;
pub mod feed;
pub mod growth_regulator;
pub mod height;
pub mod night;
pub mod pests;
pub mod root_zone;
pub mod symptoms;
pub mod water;

use error::day_after;
pub use error::{CropError, within};
pub use estimate::{Days, Estimate};
