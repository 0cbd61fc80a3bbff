//! The crop's dates: back from the sale to the cuttings, and forward from planting to the color.
//!
//! Backward, the response weeks give the start of short days, and fixed leads give pinch and planting. Forward, each due
//! day is a range where growers or sources differ. Both only count days: whether the nights are long enough by then is
//! [`super::night`]'s, and [`Darkness`] says what to do about the difference.

mod backward;
mod forward;
mod room;

pub use backward::{Backward, BackwardPlan, Darkness, Leads, PinchPlan, backward_from_sale, darkness, usual_leads};
pub use forward::{Forward, ForwardPlan, forward_from_planting};
pub use room::{Layout, bench_area, cuttings_to_order, usual_centers, usual_cuttings};

/// Days after planting at which magnesium and molybdenum are shown as due (house rule: a week's notice of
/// [`NUTRIENTS_DUE_DAY`]).
pub const NUTRIENTS_SHOWN_DAY: u16 = 35;
/// Days after planting at which extra magnesium and molybdenum are due: week 6 (common practice, no source; extra
/// magnesium every four to six weeks is Purdue's advice, Floriculture Indiana 3(4)).
pub const NUTRIENTS_DUE_DAY: u16 = 42;
/// Days after planting from which they count as missed (house rule: four days of grace).
pub const NUTRIENTS_MISSED_DAY: u16 = 46;

#[cfg(test)]
mod tests;
