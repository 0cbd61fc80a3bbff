//! Cards, growth over time, and how much scouting a house wants.

use crate::crop::{CropError, within};
use crate::units::Area;

/// 1,000 square feet in m2, the area the trade's thresholds are written for.
const THOUSAND_SQ_FT_M2: f64 = 92.903_04;

/// What a house's sticky cards caught.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CardCatch {
    /// Cards read.
    pub cards: u32,
    /// Insects of one kind on all of them.
    pub count: u32,
    /// Days the cards hung.
    pub days: f64,
}

impl CardCatch {
    /// Insects per card per week. A card left 14 days counts half.
    ///
    /// # Errors
    /// [`CropError::Impossible`] without a card or for days outside 0.5 to 60.
    pub fn per_card_week(self) -> Result<f64, CropError> {
        let cards = within("cards", f64::from(self.cards), 1.0, 1_000_000.0, "")?;
        Ok(self.per_week()? / cards)
    }

    /// Insects a week and 1,000 square feet, for the area these cards represent.
    ///
    /// # Errors
    /// As [`CardCatch::per_card_week`]; [`CropError::Impossible`] for an area outside 0.1 to 1,000,000 m2.
    pub fn per_week_and_1000_sq_ft(self, area: Area) -> Result<f64, CropError> {
        within("cards", f64::from(self.cards), 1.0, 1_000_000.0, "")?;
        Ok(self.per_week()? / checked_area(area)? * THOUSAND_SQ_FT_M2)
    }

    fn per_week(self) -> Result<f64, CropError> {
        let days = within("days the cards hung", self.days, 0.5, 60.0, "days")?;
        Ok(f64::from(self.count) * 7.0 / days)
    }
}

/// What fungus gnat larvae are counted in, after 48 hours on the mix.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LarvaeTrap {
    /// A potato disc, 1-2 in wide and half an inch deep, in propagation; one per 100 sq ft.
    Disc,
    /// A potato wedge in 6-inch pots; one per 1,000 sq ft.
    Wedge,
}

/// How a count of larvae compares with the published damaging range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LarvaeState {
    /// Under it.
    Below,
    /// In it: 3-5 per disc, 15-20 per wedge.
    Damaging,
    /// Over it.
    Beyond,
}

/// The mean count of some pieces against the damaging range ("Monitoring for fungus gnats", Rutgers, 2009).
///
/// # Errors
/// [`CropError::Missing`] without a piece: no data.
pub fn larvae_state(trap: LarvaeTrap, counts: &[u32]) -> Result<(f64, LarvaeState), CropError> {
    if counts.is_empty() {
        return Err(CropError::Missing { what: "a potato piece", why: "no piece read is no data, not no larvae" });
    }
    let mean = counts.iter().map(|count| f64::from(*count)).sum::<f64>() / counts.len() as f64;
    let (low, high) = match trap {
        LarvaeTrap::Disc => (3.0, 5.0),
        LarvaeTrap::Wedge => (15.0, 20.0),
    };
    let state = if mean < low {
        LarvaeState::Below
    } else if mean <= high {
        LarvaeState::Damaging
    } else {
        LarvaeState::Beyond
    };
    Ok((mean, state))
}

fn checked_area(area: Area) -> Result<f64, CropError> {
    within("area", area.m2(), 0.1, 1_000_000.0, "m2")
}

/// Growth by a steady factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Growth {
    /// What a number becomes, times the number now.
    pub factor: f64,
    /// The same for one week.
    pub per_week: f64,
    /// Days in which the number doubles.
    pub doubling_days: f64,
}

/// How whitefly may multiply in some days: tenfold in 28 ("Scouting poinsettias for whiteflies", Kent County
/// extension, 2008). Numbers of insects, not shares of plants, and only while nothing is done and it is warm.
///
/// # Errors
/// [`CropError::Impossible`] for days outside 0 to 180.
pub fn whitefly_growth(days: f64) -> Result<Growth, CropError> {
    let days = within("days", days, 0.0, 180.0, "days")?;
    Ok(Growth {
        factor: 10_f64.powf(days / 28.0),
        per_week: 10_f64.powf(7.0 / 28.0),
        doubling_days: 28.0 * std::f64::consts::LOG10_2,
    })
}

/// Cards for an area at one card per `area_a_card`, rounded up.
///
/// Published: 1 per 10,000 to 1 per 250 sq ft; most say 1 per 1,000 (Bethke; Texas A&M; New England Vegetable guide).
///
/// # Errors
/// [`CropError::Impossible`] for areas outside 0.1 to 1,000,000 m2.
pub fn cards_needed(area: Area, area_a_card: Area) -> Result<u32, CropError> {
    let cards = checked_area(area)? / checked_area(area_a_card)?;
    // A rounding error in the conversion must not add a card.
    Ok(whole((cards - 1e-9).ceil()).max(1))
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a u32's range on this line")]
fn whole(value: f64) -> u32 {
    value.clamp(0.0, f64::from(u32::MAX)) as u32
}

/// How much scouting is in print for an area; the sources disagree, so both ends are given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScoutingEffort {
    /// Plants: 10 per 1,000 sq ft ("Scouting poinsettias for whiteflies", 2008).
    pub plants_least: u32,
    /// Plants: 20 or more per 1,000 sq ft (New England Greenhouse Update, "Scouting guidelines", 2016).
    pub plants_most: u32,
    /// Minutes: 5 to 10 per 1,000 sq ft (the same update); the lower.
    pub minutes_least: f64,
    /// The upper of these.
    pub minutes_usual: f64,
    /// Minutes a week: 20 per 1,000 sq ft (a supplier of beneficials).
    pub minutes_most: f64,
}

/// Plants and minutes for one scouting of an area.
///
/// # Errors
/// [`CropError::Impossible`] for an area outside 0.1 to 1,000,000 m2.
pub fn scouting_effort(area: Area) -> Result<ScoutingEffort, CropError> {
    let thousands = checked_area(area)? / THOUSAND_SQ_FT_M2;
    let plants = |rate: f64| whole((thousands * rate - 1e-9).ceil()).max(1);
    Ok(ScoutingEffort {
        plants_least: plants(10.0),
        plants_most: plants(20.0),
        minutes_least: thousands * 5.0,
        minutes_usual: thousands * 10.0,
        minutes_most: thousands * 20.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn catches_scale_and_stay_finite(cards in 0..1000u32, count in any::<u32>(), days in ANY, m2 in ANY) {
            let one = CardCatch { cards, count, days };
            match one.per_card_week() {
                Ok(rate) => {
                    prop_assert!(rate.is_finite() && rate >= 0.0);
                    let spread = CardCatch { cards: cards * 2, ..one };
                    prop_assert!((spread.per_card_week().unwrap() * 2.0 - rate).abs() <= rate * 1e-12);
                }
                Err(_) => prop_assert!(cards == 0 || !(0.5..=60.0).contains(&days)),
            }
            if let Ok(rate) = one.per_week_and_1000_sq_ft(Area::from_m2(m2)) {
                prop_assert!(rate.is_finite());
            }
            if let Ok(growth) = whitefly_growth(days) {
                prop_assert!(growth.factor.is_finite() && growth.factor >= 1.0);
            }
            prop_assert!(cards_needed(Area::from_m2(m2), Area::from_m2(days)).map_or(true, |cards| cards >= 1));
            prop_assert!(scouting_effort(Area::from_m2(m2)).map_or(true, |effort| effort.minutes_most.is_finite()));
        }
    }
}
