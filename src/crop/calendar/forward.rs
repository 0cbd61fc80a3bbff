//! Forward from planting: what falls due when.

use super::{NUTRIENTS_DUE_DAY, NUTRIENTS_MISSED_DAY, NUTRIENTS_SHOWN_DAY};
use crate::crop::color::{Forecast, Look, Response, forecast};
use crate::crop::{CropError, Days, Estimate, day_after};
use crate::dates;
use chrono::NaiveDate;

/// What the forward calendar needs.
#[derive(Debug, Clone, PartialEq)]
pub struct ForwardPlan<'a> {
    /// The day the lot was planted.
    pub planted: NaiveDate,
    /// Whether it is to be pinched.
    pub pinched: bool,
    /// The day it was pinched, once it was.
    pub pinched_on: Option<NaiveDate>,
    /// The start of short days; none when the nights never get long enough.
    pub short_days: Option<NaiveDate>,
    /// How long the cultivar takes at the site.
    pub response: Response,
    /// The mean over 24 hours of each day since the start of short days, °C; `None` where it is not written.
    pub days_c: &'a [Option<f64>],
    /// Bract stages seen.
    pub looks: &'a [Look],
}

/// What falls due, forward from planting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Forward {
    /// The pinch: 12, 14 and 21 days after planting (UF/IFAS 2004: 12-14; an Indiana trial: 2-3 weeks), but only once the
    /// roots are at the wall. The day itself once it is done; none for an unpinched lot.
    pub pinch: Option<Days>,
    /// The first decision on a growth regulator: one, two and four weeks after the pinch (trade text on height control
    /// strategies: one to four weeks after the pinch; Purdue, Currey and Lopez 2010: early drench at two weeks). None for
    /// an unpinched lot: no figure was found.
    pub first_growth_regulator: Option<Days>,
    /// Extra magnesium and molybdenum: shown as due, due, and missed from (see [`NUTRIENTS_DUE_DAY`]).
    pub nutrients: Days,
    /// The color, when short days start at all.
    pub color: Option<Forecast>,
}

/// Calculates the due dates.
///
/// # Errors
/// [`CropError::Contradiction`] for a pinch before planting, or on a lot that is not to be pinched;
/// [`CropError::NoSuchDay`] outside the years 1900 to 2199; and those of [`forecast`].
pub fn forward_from_planting(plan: &ForwardPlan<'_>) -> Result<Forward, CropError> {
    let after = |what, from: NaiveDate, days: [u16; 3]| -> Result<Days, CropError> {
        let [low, likely, high] = days;
        Estimate::new(low, likely, high).try_map(|n| day_after(what, from, f64::from(n)))
    };
    let pinch = match (plan.pinched, plan.pinched_on) {
        (true, Some(day)) if day < plan.planted => return Err(contradiction(day, plan.planted)),
        (true, Some(day)) => Some(Estimate::new(day, day, day)),
        (true, None) => Some(after("the pinch", plan.planted, [12, 14, 21])?),
        (false, None) => None,
        (false, Some(day)) => {
            return Err(CropError::Contradiction {
                first: format!("a pinch on {}", dates::long(day)).into(),
                second: "a lot that is not pinched".into(),
                why: "mark it pinched, or omit the day",
            });
        }
    };
    let first_growth_regulator = match pinch {
        Some(days) => Some(Estimate::new(
            day_after("the first growth regulator", days.low, 7.0)?,
            day_after("the first growth regulator", days.likely, 14.0)?,
            day_after("the first growth regulator", days.high, 28.0)?,
        )),
        None => None,
    };
    let nutrients = after("magnesium", plan.planted, [NUTRIENTS_SHOWN_DAY, NUTRIENTS_DUE_DAY, NUTRIENTS_MISSED_DAY])?;
    let color = match plan.short_days {
        Some(sd) => Some(forecast(sd, plan.response, plan.days_c, plan.looks)?),
        None => None,
    };
    Ok(Forward { pinch, first_growth_regulator, nutrients, color })
}

fn contradiction(pinch: NaiveDate, planted: NaiveDate) -> CropError {
    CropError::Contradiction {
        first: format!("a pinch on {}", dates::long(pinch)).into(),
        second: format!("planting on {}", dates::long(planted)).into(),
        why: "the pinch comes after planting",
    }
}
