//! Water in the pot: how much is left by weight, how long it lasts, and what a poinsettia usually uses.
//!
//! "Percent of container capacity" is calculated in two ways that give very different numbers for the same pot
//! (Dumroese, Montville and Pinto 2015): as a share of the available water and as a share of the whole pot's full
//! weight. Both are given, by name.

use super::{CropError, Named, within};
use crate::units::{Mass, Volume};

/// Heaviest pot accepted, g.
const MOST_G: f64 = 200_000.0;

/// What three weights of a pot show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterLeft {
    /// Share of the available water (full less wilted) still there: 1 full, 0 at first wilt. Below the wilt weight it
    /// is 0.
    pub of_available: f64,
    /// Weight now as a share of the full weight.
    pub of_full_weight: f64,
    /// Available water still there (1 g of water taken as 1 mL).
    pub available: Volume,
    /// The pot is lighter than at first wilt.
    pub past_wilt: bool,
}

/// What is left in a pot, from three weights: drained after a soak, at first wilt, and now.
///
/// Method: UC ANR, "When to irrigate containers" (available water = drained-full less first wilt; several
/// representative plants); Dumroese and others 2015. No trigger weight for poinsettia was found in print: the grower
/// picks one.
///
/// # Errors
/// [`CropError::Impossible`] for weights of 0 or less; [`CropError::Contradiction`] when the pot is now heavier than
/// full (weigh it full again: the plant has grown or the pot is not the same), or wilted heavier than full.
pub fn water_left(full: Mass, wilt: Mass, now: Mass) -> Result<WaterLeft, CropError> {
    let full_g = within("full weight", full.g(), 0.1, MOST_G, "g")?;
    let wilt_g = within("weight at first wilt", wilt.g(), 0.1, MOST_G, "g")?;
    let now_g = within("weight now", now.g(), 0.1, MOST_G, "g")?;
    let clash = |first: &str, a: f64, second: &str, b: f64, why| CropError::Contradiction {
        first: Named::quantity(first, a.round(), "g"),
        second: Named::quantity(second, b.round(), "g"),
        why,
    };
    if wilt_g >= full_g {
        return Err(clash("first wilt", wilt_g, "full", full_g, "the full pot must be the heavier; weigh both again"));
    }
    if now_g > full_g {
        return Err(clash("now", now_g, "full", full_g, "soak the pot, let it drain and weigh it full again"));
    }
    let left = (now_g - wilt_g).max(0.0);
    Ok(WaterLeft {
        of_available: left / (full_g - wilt_g),
        of_full_weight: now_g / full_g,
        available: Volume::from_ml(left),
        past_wilt: now_g < wilt_g,
    })
}

/// The weight at which to water, for a chosen share (0 to 1) of the available water.
///
/// # Errors
/// [`CropError::Impossible`] for a share outside 0 to 1; as [`water_left`] for the weights.
pub fn trigger_weight(full: Mass, wilt: Mass, share: f64) -> Result<Mass, CropError> {
    let share = within("share of available water", share, 0.0, 1.0, "")?;
    water_left(full, wilt, full)?;
    Ok(Mass::from_g(wilt.g() + share * (full.g() - wilt.g())))
}

/// Days until the pot has used `above` (what it holds over the trigger) at `per_day`. 0 when the trigger is passed.
///
/// # Errors
/// [`CropError::Impossible`] for a use under 1 mL a day or numbers that cannot be.
pub fn days_to_trigger(above: Volume, per_day: Volume) -> Result<f64, CropError> {
    let above = within("water above the trigger", above.ml(), -MOST_G, MOST_G, "mL")?;
    let per_day = within("water use", per_day.ml(), 1.0, MOST_G, "mL per day")?;
    Ok(above.max(0.0) / per_day)
}

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

/// Water a 15-cm pot uses between two weeks after planting, by the lines of [`typical_use`].
///
/// # Errors
/// [`CropError::NotCovered`] outside weeks 1 to 13; [`CropError::Contradiction`] when the weeks are the wrong way
/// round.
pub fn typical_use_between(from: f64, to: f64) -> Result<Volume, CropError> {
    typical_use(from)?;
    typical_use(to)?;
    if from > to {
        return Err(CropError::Contradiction {
            first: format!("from week {from:.1}").into(),
            second: format!("to week {to:.1}").into(),
            why: "the first must be the earlier",
        });
    }
    let mut total = 0.0;
    let inner = MEASURED_USE.into_iter().map(|(week, _)| week).filter(|week| (from..to).contains(week) && *week > from);
    let mut start = from;
    for end in inner.chain([to]) {
        total += 7.0 * (end - start) * (typical_use(start)?.ml() + typical_use(end)?.ml()) / 2.0;
        start = end;
    }
    Ok(Volume::from_ml(total))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    fn g(grams: f64) -> Mass {
        Mass::from_g(grams)
    }

    #[test]
    fn a_pot_heavier_than_full_is_weighed_again() {
        let text = water_left(g(1900.0), g(1000.0), g(1950.0)).unwrap_err().to_string();
        assert_eq!(
            text,
            "now 1950 g and full 1900 g do not go together: soak the pot, let it drain and weigh it full again"
        );
        assert!(water_left(g(1000.0), g(1900.0), g(950.0)).unwrap_err().to_string().contains("weigh both again"));
        assert!(water_left(g(1900.0), g(1000.0), g(900.0)).unwrap().past_wilt);
    }

    #[test]
    fn a_passed_trigger_is_due_now() {
        assert_eq!(days_to_trigger(Volume::from_ml(-20.0), Volume::from_ml(100.0)), Ok(0.0));
        assert!(days_to_trigger(Volume::from_ml(10.0), Volume::from_ml(0.0)).is_err());
    }

    proptest! {
        #[test]
        fn the_trigger_inverts_the_share(full in 100.0..5000.0f64, part in 0.05..0.95f64, share in 0.0..1.0f64) {
            let (full, wilt) = (g(full), g(full * part));
            let at = trigger_weight(full, wilt, share).unwrap();
            prop_assert!((water_left(full, wilt, at).unwrap().of_available - share).abs() < 1e-9);
        }

        #[test]
        fn nothing_is_not_finite(a in ANY, b in ANY, c in ANY) {
            if let Ok(left) = water_left(g(a), g(b), g(c)) {
                prop_assert!((0.0..=1.0).contains(&left.of_available) && (0.0..=1.0).contains(&left.of_full_weight));
            }
            for answer in [typical_use(a), typical_use_between(a, b)].into_iter().flatten() {
                prop_assert!(answer.ml().is_finite());
            }
            if let Ok(days) = days_to_trigger(Volume::from_ml(a), Volume::from_ml(b)) {
                prop_assert!(days.is_finite() && days >= 0.0);
            }
            if let Ok(at) = trigger_weight(g(a), g(b), c) {
                prop_assert!(at.g().is_finite());
            }
        }

        #[test]
        fn use_adds_up(a in 1.0..13.0f64, b in 1.0..13.0f64, c in 1.0..13.0f64) {
            let mut weeks = [a, b, c];
            weeks.sort_by(f64::total_cmp);
            let part = |x, y| typical_use_between(x, y).unwrap().ml();
            let whole = part(weeks[0], weeks[2]);
            prop_assert!((part(weeks[0], weeks[1]) + part(weeks[1], weeks[2]) - whole).abs() < 1e-6);
        }
    }
}
