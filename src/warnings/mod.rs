//! What the rules say of a bench, a lot or a house: typed evidence, no words (those are `report`'s).
//!
//! - [`assess`] looks at one bench on one day, [`assess_wide`] at what concerns a whole lot or house, [`assess_all`] at
//!   everything. All are pure: the same season, day and limits give the same warnings, whenever they are asked.
//! - [`due`] lists what is to be scored on a bench on a day.
//! - One file holds one rule or a family of them; its module doc says what it sees, why that matters, its numbers with their
//!   bases, and what ends it.
//! - [`shown`] is what the rules see of a bench, for charts and reports: the same readings, windows and forecasts; [`seen`] is
//!   the same for the key of symptoms; [`Suspect`] is what that key adds to a warning.
//! - `sight` is how the rules look at a bench: what counts of its record on that day, already sorted.

mod answered;
mod assess;
mod due;
mod ground;
mod made;
mod name;
mod put_off;
mod shown;
mod sight;
mod suspects;
mod symptoms;
mod warning;

mod base;
mod losses;
mod roots;
mod staying_wet;
mod too_dry;
mod watered_wet;
mod wilting_wet;

mod lot_feed;
mod ph;
mod salts;
mod supplements;
mod unfed;

mod growth_regulator;
mod height;
mod pinch;

mod climate;
mod color;
mod night_light;
mod night_work;

mod counts;
mod disease;
mod whitefly;

mod house;
mod scouting;
mod short_count;
mod walked;

pub use crate::limits::{Basis, Limit};
pub use assess::{Assessment, assess, assess_all, assess_wide};
pub use due::{Check, CheckName, due};
pub use name::WarningName;
pub use shown::{Heights, Shown, height_target, last_safe_rules, last_spray, salt_bounds, short_days, shown};
pub use suspects::Suspect;
pub use symptoms::seen;
pub use warning::{Figure, Level, Saw, Step, Warning};
