//! What `calendar` answers, as it is printed as JSON.

use chrono::NaiveDate;
use serde::Serialize;

/// The whole answer; what was not asked for is left out.
#[derive(Debug, Serialize)]
pub(super) struct Answer {
    pub(super) response_weeks: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) back: Option<Backward>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) order: Option<Order>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) room: Option<Room>,
    pub(super) forward: Forward,
    /// Where the usual numbers come from.
    pub(super) basis: Vec<&'static str>,
}

/// Back from the sale.
#[derive(Debug, Serialize)]
pub(super) struct Backward {
    pub(super) ready_by: NaiveDate,
    pub(super) short_days: NaiveDate,
    pub(super) pinch: Option<NaiveDate>,
    pub(super) planting: NaiveDate,
    /// None for an unpinched lot.
    pub(super) pinch_weeks: Option<f64>,
    pub(super) pinch_days: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) nights: Option<Nights>,
}

/// What must be done about the nights.
#[derive(Debug, Serialize)]
pub(super) struct Nights {
    /// None when the nights never get long enough.
    pub(super) natural: Option<NaiveDate>,
    /// `nothing`, `light-until`, `cover-from`.
    pub(super) to_do: &'static str,
    pub(super) day: Option<NaiveDate>,
    /// Days between the natural start and the one wanted.
    pub(super) days: Option<i64>,
}

/// Cuttings to order.
#[derive(Debug, Serialize)]
pub(super) struct Order {
    pub(super) pots: u32,
    pub(super) cuttings_per_pot: u32,
    /// The usual least and most for the rim, where they differ from one another.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) usual: Option<[u32; 2]>,
    pub(super) spare_percent: f64,
    /// `typed` or `rule of thumb`.
    pub(super) spare_basis: &'static str,
    pub(super) cuttings: u64,
}

/// Bench room.
#[derive(Debug, Serialize)]
pub(super) struct Room {
    pub(super) centers_cm: f64,
    pub(super) staggered: bool,
    pub(super) area_m2: f64,
}

/// First, likely and last day.
pub(super) type Range = [NaiveDate; 3];

/// Forward from planting.
#[derive(Debug, Serialize)]
pub(super) struct Forward {
    pub(super) planted: NaiveDate,
    pub(super) pinch: Option<Range>,
    pub(super) growth_regulator_decision: Option<Range>,
    /// Reminder, due, late from.
    pub(super) magnesium_and_molybdenum: Range,
    pub(super) short_days: Option<NaiveDate>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) color: Option<Bracts>,
}

/// The color forecast.
#[derive(Debug, Serialize)]
pub(super) struct Bracts {
    pub(super) first_color: Range,
    pub(super) cyathia: Range,
    pub(super) full_color: Range,
    pub(super) first_pollen: Range,
    /// The mean that every day is counted at, °C; none typed: the usual mean of the crop.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) mean_c: Option<f64>,
    /// The mean at which the response weeks are taken to hold, °C.
    pub(super) response_c: f64,
    /// True where nobody gave that mean.
    pub(super) response_c_assumed: bool,
    /// True where the mean is outside what anything is published of: it may be later than this.
    pub(super) beyond: bool,
}
