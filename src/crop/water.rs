//! Water in the pot: what a poinsettia usually uses.

use super::CropError;
use crate::units::Volume;

/// Measured use, (weeks after planting, mL per pot per day).
///
/// Source: Pacheco-Hernandez and others 2014, weighed 15-cm pots, August to November, central Mexico. Straight lines
/// between are ours.
const MEASURED_USE: [(f64, f64); 4] = [(1.0, 40.0), (4.0, 70.0), (10.0, 150.0), (13.0, 122.0)];

/// What a 15-cm (6-inch) pot usually uses in a day, by weeks after planting (source: see the module's table,
/// Pacheco-Hernandez and others 2014). Other pots, climates and houses differ; a guide only.
///
/// # Errors
/// [`CropError::NotCovered`] before week 1 and after week 13: nothing was measured there.
pub fn typical_use(week: f64) -> Result<Volume, CropError> {
    let lines = MEASURED_USE.into_iter().zip(MEASURED_USE.into_iter().skip(1));
    for ((from, use_from), (to, use_to)) in lines {
        if (from..=to).contains(&week) {
            return Ok(Volume::from_ml(use_from + (week - from) / (to - from) * (use_to - use_from)));
        }
    }
    let got = if week.is_finite() { format!("{week:.1}") } else { "not a number".to_owned() };
    Err(CropError::NotCovered {
        what: "weeks after planting",
        got,
        covered: "weeks 1 to 13 in a 6-inch (15-cm) pot".to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use super::typical_use;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn any_week_is_answered_or_refused(week in ANY) {
            match typical_use(week) {
                Ok(volume) => prop_assert!((40.0..=150.0).contains(&volume.ml())),
                Err(_) => prop_assert!(!(1.0..=13.0).contains(&week)),
            }
        }
    }
}
