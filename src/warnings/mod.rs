//! What the rules say of a bench, a lot or a house.
//!
//! - `rules` holds one file a warning: everything about it, the rule and the words. [`RULES`] is their list.
//! - [`assess`] looks at one bench on one day, [`assess_group`] at what concerns a whole lot or house, [`assess_all`] at
//!   everything. All are pure: the same season, day and limits give the same warnings, whenever they are asked.
//! - [`due`] lists what is to be scored on a bench on a day, what a warning asks for again first (`recheck`).
//! - [`bench_view`] is what the rules see of a bench, for charts and reports: the same readings, windows and forecasts; [`seen`] is
//!   the same for the key of symptoms; [`LikelyCause`] is what that key adds to a warning.
//! - `bench_day` is how the rules look at a bench: what counts of its record on that day, already sorted. `root_zone`, `heights`,
//!   `doses` and their like are what several rules share.

mod assess;
mod before;
mod bench_day;
mod builder;
mod carried;
mod climate_days;
mod color_forecast;
mod damp;
mod day_context;
mod doses;
mod drying;
mod due;
mod fading;
mod follow_up;
mod heights;
mod house_light;
mod likely_causes;
mod nights;
mod pest_counts;
mod put_off;
mod recheck;
mod remedy;
mod root_zone;
mod root_zone_steps;
mod rule;
mod rules;
mod shared;
mod sign_looks;
mod step;
mod symptoms;
mod temperatures;
mod treatments;
mod view;
mod warning;
mod whitefly_cards;

pub use crate::limits::{Basis, Limit};
pub use assess::{AssessedDay, Assessment, assess, assess_all, assess_day, assess_group, groups_on};
pub use before::{EarlierWork, NotKnown, not_known};
pub use climate_days::logger_days;
pub use drying::{Slower, slower, slower_on};
pub use due::{Check, CheckName, due};
pub use house_light::{LightDiffers, light_differs};
pub use remedy::{Answer, Remedy};
pub use rule::{Cause, Class, Rule, Scope};
pub use rules::{RULES, WarningName, is_walk};
pub use shared::{Flagged, Shared, Whose};
pub use step::{Act, Dry, Step, StepKind};
pub use symptoms::seen;
pub use view::{
    BenchNow, BenchView, Heights, Outlook, bench_view, bench_views, benches_now, heights_of, last_safe_rules,
    last_spray, salt_bounds, short_days,
};
pub use warning::{Evidence, Figure, LikelyCause, Severity, Warning};

use bench_day::BenchDay;
use rule::{Find, FollowUp, Group, Recheck, Signs};
