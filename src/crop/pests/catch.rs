//! What sticky cards caught, by card and week.

use crate::crop::{CropError, within};

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

    fn per_week(self) -> Result<f64, CropError> {
        let days = within("days the cards hung", self.days, 0.5, 60.0, "days")?;
        Ok(f64::from(self.count) * 7.0 / days)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn catches_scale_and_stay_finite(cards in 0..1000u32, count in any::<u32>(), days in ANY) {
            let one = CardCatch { cards, count, days };
            match one.per_card_week() {
                Ok(rate) => {
                    prop_assert!(rate.is_finite() && rate >= 0.0);
                    let spread = CardCatch { cards: cards * 2, ..one };
                    prop_assert!((spread.per_card_week().unwrap() * 2.0 - rate).abs() <= rate * 1e-12);
                }
                Err(_) => prop_assert!(cards == 0 || !(0.5..=60.0).contains(&days)),
            }
        }
    }
}
