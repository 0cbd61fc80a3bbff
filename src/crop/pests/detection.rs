//! The chance of seeing a pest at all, and the plants it takes.

use crate::crop::{CropError, within};

/// The chance (0 to 1) that at least one of `plants` picked at random is infested when `share` of all are: 1 - (1 -
/// share)^n.
///
/// "20 whole plants detect more than 20% in over 95% of cases" (Spinner and others 2011) is one of its points.
///
/// # Errors
/// [`CropError::Impossible`] for a share outside 0 to 1.
pub fn detection_chance(plants: u32, share: f64) -> Result<f64, CropError> {
    let share = within("share", share, 0.0, 1.0, "")?;
    Ok(1.0 - (1.0 - share).powf(f64::from(plants)))
}

/// The fewest plants that show a pest on `share` of them with at least `chance` (both 0 to 1).
///
/// # Errors
/// [`CropError::Impossible`] for a share outside 0.0001 to 1 or a chance outside 0 to 0.9999 (certainty takes every
/// plant).
pub fn plants_to_detect(share: f64, chance: f64) -> Result<u32, CropError> {
    let share = within("share", share, 0.0001, 1.0, "")?;
    let chance = within("chance", chance, 0.0, 0.9999, "")?;
    // The bounds above keep the true answer under 93,000; the search runs from just below the formula's answer so that
    // rounding in the logarithms cannot move it.
    let formula = if share >= 1.0 { 1.0 } else { (1.0 - chance).ln() / (1.0 - share).ln() };
    let mut plants = count(formula - 1.0).max(1);
    while detection_chance(plants, share)? < chance {
        plants = plants.saturating_add(1);
    }
    Ok(plants)
}

/// The whole number at or below, for small non-negative numbers.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a u32's range on this line")]
fn count(value: f64) -> u32 {
    value.clamp(0.0, f64::from(u32::MAX)).floor() as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_plants_asked_for_are_enough_and_no_more(share in 0.0001..1.0f64, chance in 0.0..0.9999f64) {
            let n = plants_to_detect(share, chance).unwrap();
            prop_assert!(detection_chance(n, share).unwrap() >= chance);
            prop_assert!(n == 1 || detection_chance(n - 1, share).unwrap() < chance);
        }

        #[test]
        fn nothing_is_not_finite(n in any::<u32>(), a in ANY, b in ANY) {
            if let Ok(chance) = detection_chance(n, a) {
                prop_assert!((0.0..=1.0).contains(&chance));
            }
            prop_assert!(plants_to_detect(a, b).map_or(true, |plants| plants >= 1));
        }
    }
}
