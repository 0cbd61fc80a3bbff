//! What the charts show: of a bench its height, water, roots, bracts, root zone and climate; of the season every lot's
//! calendar, the nights and the pots. Drawn by the screens and, as SVG, by the reports.
//!
//! Windows, forecasts and ranges are those the warnings go by (`warnings::bench_view`); nothing is reckoned a second time.

mod bench;
mod calendar;
mod height;
mod nights;
mod pots;
mod root_zone;
mod steps;

pub use bench::{Reach, Topic, bench, days};
pub use calendar::{LotCalendar, State, Step, calendar, season_days};
pub use nights::{Nights, nights};
pub use pots::{LotPots, pots};
