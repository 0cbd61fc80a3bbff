//! What the rules say of a bench, a lot or a house: typed evidence, no words (those are `report`'s).
//!
//! - [`assess`] looks at one bench on one day, [`assess_groups`] at what concerns a whole lot or house, [`assess_all`] at
//!   everything. All are pure: the same season, day and limits give the same warnings, whenever they are asked.
//! - [`due`] lists what is to be scored on a bench on a day.
//! - One file holds one rule or a family of them; its module doc says what it sees, why that matters, its numbers with their
//!   bases, and what ends it.
//! - [`bench_view`] is what the rules see of a bench, for charts and reports: the same readings, windows and forecasts; [`seen`] is
//!   the same for the key of symptoms; [`LikelyCause`] is what that key adds to a warning.
//! - `bench` is how the rules look at a bench: what counts of its record on that day, already sorted.

mod assess;
mod bench_day;
mod builder;
mod day_context;
mod due;
mod follow_up;
mod likely_causes;
mod name;
mod put_off;
mod symptoms;
mod view;
mod warning;

mod base_moisture;
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

mod disease;
mod pest_counts;
mod whitefly;

mod house;
mod not_walked;
mod scouting;
mod short_count;

pub use crate::limits::{Basis, Limit};
pub use assess::{Assessment, assess, assess_all, assess_groups};
pub use due::{Check, CheckName, due};
pub use likely_causes::LikelyCause;
pub use name::WarningName;
pub use symptoms::seen;
pub use view::{BenchView, Heights, bench_view, height_target, last_safe_rules, last_spray, salt_bounds, short_days};
pub use warning::{Evidence, Figure, Level, Step, Warning};
