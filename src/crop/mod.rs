//! The agronomy under every screen and warning: one file a subject.
//!
//! Everything here is arithmetic on plain typed values. There is no clock, no file and no record: the caller passes the
//! day, so that any day can be asked for. Each public function says its units, what it refuses, and where its numbers come
//! from: a published source, common practice without one, a house rule (ours), or memory. Where sources disagree the
//! answer is a range or a choice. Nothing panics, and nothing returns a number that is not finite.
//!
//! ```
//! use benchwalk::crop::calendar::{BackwardPlan, PinchPlan, backward_from_sale};
//! use chrono::NaiveDate;
//!
//! let day = |month, day| NaiveDate::from_ymd_opt(2026, month, day).unwrap();
//! // Sold on November 27 at 9.5 weeks of response; pinched 4 weeks before short days, 14 days after planting.
//! let pinch = PinchPlan::Pinched { weeks_before_sd: 4.0, days_after_planting: 14.0 };
//! let dates = backward_from_sale(&BackwardPlan { ready_by: day(11, 27), response_weeks: 9.5, pinch })?;
//! assert_eq!((dates.planting, dates.pinch, dates.short_days), (day(8, 10), Some(day(8, 24)), day(9, 21)));
//! # Ok::<(), benchwalk::crop::CropError>(())
//! ```
//!
//! `tests/outside` holds these functions against numbers from outside the project, each with its source beside it.

mod error;
mod estimate;

pub mod calendar;
pub mod climate;
pub mod color;
pub mod dry_down;
pub mod feed;
pub mod growth_regulator;
pub mod height;
pub mod night;
pub mod pests;
pub mod root_zone;
pub mod symptoms;
pub mod water;

use error::day_after;
pub use error::{CropError, Named, within};
pub use estimate::{Days, Estimate};
