//! Cuttings to order and bench room.

use crate::crop::{CropError, Estimate, within};
use crate::units::{Area, Length};

/// Arrangement of pots on a bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Layout {
    /// In rows and files: each pot has its centers squared.
    #[default]
    Square,
    /// Each row shifted by half a pot: the same centers in 0.866 of the room.
    Staggered,
}

/// Largest number of pots or cuttings accepted (house rule).
const MOST_POTS: u32 = 10_000_000;

/// Cuttings to order: pots × cuttings per pot, with a spare share on top, rounded up.
///
/// The spare share is the grower's own; no published figure was found.
///
/// # Errors
/// [`CropError::Impossible`] for no pots or more than 10 million, for 0 cuttings per pot or more than 20, or for a spare
/// share outside 0 to 1.
pub fn cuttings_to_order(pots: u32, cuttings_per_pot: u32, spare_share: f64) -> Result<u64, CropError> {
    let pots = within("pots", f64::from(pots), 1.0, f64::from(MOST_POTS), "")?;
    let each = within("cuttings per pot", f64::from(cuttings_per_pot), 1.0, 20.0, "")?;
    let share = within("the spare share", spare_share, 0.0, 1.0, "")?;
    // A hair less, so that 1,000 pots and 5% are 1,050 and not 1,051 from a rounding in the machine.
    let cuttings = (pots * each * (1.0 + share) - 1e-6).ceil();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held between 1 and 400 million above")]
    Ok(cuttings as u64)
}

/// Bench room for so many pots at a spacing from center to center.
///
/// # Errors
/// [`CropError::Impossible`] for no pots or more than 10 million, or for centers outside 2 to 200 cm (house rule).
pub fn bench_area(pots: u32, centers: Length, layout: Layout) -> Result<Area, CropError> {
    let pots = within("pots", f64::from(pots), 1.0, f64::from(MOST_POTS), "")?;
    let cm = within("the spacing from center to center", centers.cm(), 2.0, 200.0, "cm")?;
    let share = match layout {
        Layout::Square => 1.0,
        Layout::Staggered => 0.75_f64.sqrt(),
    };
    Ok(Area::from_m2(pots * (cm / 100.0).powi(2) * share))
}

/// The usual final centers for a pot by its rim: 12, 18 and 24 in for 6, 8 and 10 in pots (University of Georgia list,
/// 2012; medium confidence). For 6 in others give 13 by 14 in (UMass) to 18 in (Texas A&M), and 9 in
/// crowds the pots. `None` for other rims: no figure was found.
pub fn usual_centers(rim: Length) -> Option<Estimate<Length>> {
    let inches = rim.cm() / 2.54;
    let span = |low: f64, likely: f64, high: f64| {
        Some(Estimate::new(Length::from_cm(low * 2.54), Length::from_cm(likely * 2.54), Length::from_cm(high * 2.54)))
    };
    if (5.75..=6.75).contains(&inches) {
        span(12.0, 12.0, 18.0)
    } else if (7.75..=8.25).contains(&inches) {
        span(18.0, 18.0, 18.0)
    } else if (9.75..=10.25).contains(&inches) {
        span(24.0, 24.0, 24.0)
    } else {
        None
    }
}

/// The usual cuttings in a pot by its rim, least and most: 4 to 7 in pinched 1, 5 to 8 in unpinched 3-4 (Texas A&M), 8 in
/// pinched 2-3, 10 in 3-4 (Ontario consultant and a grower's list, who disagree). `None` for others.
pub fn usual_cuttings(rim: Length, pinched: bool) -> Option<(u32, u32)> {
    let inches = rim.cm() / 2.54;
    if !inches.is_finite() {
        return None;
    }
    match (pinched, inches) {
        (true, 3.75..7.25) | (false, 3.75..4.25) => Some((1, 1)),
        (true, 7.75..8.25) => Some((2, 3)),
        (_, 9.75..10.25) | (false, 4.75..8.25) => Some((3, 4)),
        _ => None,
    }
}
