//! Backward from the day of sale: short days, pinch, planting, and what the nights still need.

use crate::crop::color::RESPONSE_WEEKS;
use crate::crop::{CropError, Estimate, day_after, within};
use chrono::NaiveDate;

/// Whether a lot is pinched, with what has to be known for each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PinchPlan {
    /// Pinched this many weeks before the start of short days, and this many days after planting.
    Pinched {
        /// Weeks from the pinch to the start of short days.
        weeks_before_sd: f64,
        /// Days from planting to the pinch.
        days_after_planting: f64,
    },
    /// Left unpinched, planted this many weeks before the start of short days. No published figure of any weight was
    /// found, so there is no usual value.
    Unpinched {
        /// Weeks from planting to the start of short days.
        plant_weeks_before_sd: f64,
    },
}

/// The usual weeks from pinch to short days and days from planting to pinch, with their ranges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leads {
    /// Weeks from the pinch to the start of short days.
    pub pinch_weeks: Estimate<f64>,
    /// Days from planting to the pinch.
    pub plant_days: Estimate<f64>,
}

/// The usual leads of a pinched lot.
///
/// - Pinch to SD: 4 weeks for a 6 or 6.5 in pot (UF/IFAS 2011; Iowa State, Youds and Currey 2023), 3 for smaller plants (UF/IFAS
///   2011: 3-3.5). Sources run from 1 to 5 weeks with vigor, region and the height wanted, so the range is wide.
/// - Planting to pinch: 14 days (UF/IFAS 2004: 12-14 days over 14 crops; Iowa State 2 weeks; an Indiana trial up to 3
///   weeks). Pinch only once the roots are at the pot's wall.
///
/// `small_or_vigorous`: a pot under 6 in (15 cm), or a cultivar that grows tall.
pub const fn usual_leads(small_or_vigorous: bool) -> Leads {
    let pinch = if small_or_vigorous { 3.0 } else { 4.0 };
    Leads { pinch_weeks: Estimate::new(1.0, pinch, 5.0), plant_days: Estimate::new(12.0, 14.0, 21.0) }
}

/// What the backward calendar needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BackwardPlan {
    /// The day of sale.
    pub ready_by: NaiveDate,
    /// Weeks from the start of short days to sale, as known for the cultivar at the site.
    pub response_weeks: f64,
    /// Pinched or not, and when.
    pub pinch: PinchPlan,
}

/// The dates back from a sale.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Backward {
    /// Short days must start here.
    pub short_days: NaiveDate,
    /// The pinch; none for an unpinched lot.
    pub pinch: Option<NaiveDate>,
    /// Planting.
    pub planting: NaiveDate,
}

/// Counts back from the day of sale: SD is the response weeks before it, the pinch its weeks before SD, planting its days
/// before the pinch. A part of a day counts whole for the response, so that the sale is met.
///
/// Counting weeks back from the sale is the trade's rule (extension teaching text: sale 1 December at 8 weeks is SD 6
/// October); see [`usual_leads`] for the leads.
///
/// # Errors
/// [`CropError::Impossible`] for a response outside 4 to 20 weeks or a lead outside 0 to 30 weeks (house rules);
/// [`CropError::NoSuchDay`] outside the years 1900 to 2199.
pub fn backward_from_sale(plan: &BackwardPlan) -> Result<Backward, CropError> {
    let weeks = within("the response", plan.response_weeks, RESPONSE_WEEKS.0, RESPONSE_WEEKS.1, "weeks")?;
    // A hair less, so that 71 days typed as 10.142857143 weeks stay 71.
    let short_days = day_after("the start of short days", plan.ready_by, -(weeks * 7.0 - 1e-6).ceil())?;
    match plan.pinch {
        PinchPlan::Pinched { weeks_before_sd, days_after_planting } => {
            let lead = within("weeks from pinch to short days", weeks_before_sd, 0.0, 30.0, "weeks")?;
            let days = within("days from planting to pinch", days_after_planting, 0.0, 210.0, "days")?;
            let pinch = day_after("the pinch", short_days, -lead * 7.0)?;
            Ok(Backward { short_days, pinch: Some(pinch), planting: day_after("planting", pinch, -days)? })
        }
        PinchPlan::Unpinched { plant_weeks_before_sd } => {
            let lead = within("weeks from planting to short days", plant_weeks_before_sd, 0.0, 30.0, "weeks")?;
            Ok(Backward { short_days, pinch: None, planting: day_after("planting", short_days, -lead * 7.0)? })
        }
    }
}

/// What must be done about the nights so that short days start on the day wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Darkness {
    /// The season does it: nights get long enough on that very day.
    Natural,
    /// Nights get long enough so many days sooner: light the crop until (and including) this night, or be ready sooner.
    LightUntil {
        /// The last lit night.
        last: NaiveDate,
        /// How many days sooner the season would start it.
        days: i64,
    },
    /// Nights get long enough only so many days later: black cloth from this evening.
    CoverFrom {
        /// The first covered evening.
        first: NaiveDate,
        /// How many days later the season would start it.
        days: i64,
    },
    /// Nights never get long enough by themselves: black cloth from this evening.
    CoverAlways {
        /// The first covered evening.
        first: NaiveDate,
    },
}

/// Compares the start of short days wanted with the one the season gives ([`super::super::night::first_night_reaching`]).
///
/// # Errors
/// [`CropError::NoSuchDay`] at the very start of the calendar.
pub fn darkness(wanted: NaiveDate, natural: Option<NaiveDate>) -> Result<Darkness, CropError> {
    let Some(natural) = natural else { return Ok(Darkness::CoverAlways { first: wanted }) };
    let days = (wanted - natural).num_days();
    Ok(match days {
        0 => Darkness::Natural,
        1.. => Darkness::LightUntil { last: day_after("the last lit night", wanted, -1.0)?, days },
        _ => Darkness::CoverFrom { first: wanted, days: days.saturating_neg() },
    })
}
