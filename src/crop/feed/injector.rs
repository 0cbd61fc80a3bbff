//! Injectors: the stock's strength and how much of it to make.
//!
//! 1:100 means one part of stock in a hundred parts of feed, as the trade's tables count it (Cornell, "Fertilizer
//! calculations": 200 ppm at 1:100 is 20,000 ppm in the tank). Makers who count one part in 101 differ by 1% at 1:100
//! and 6.7% at 1:15: the bucket test decides.

use super::dose::{MOST_ML, checked_ml, checked_ppm};
use super::{Fraction, material_for};
use crate::crop::{CropError, within};
use crate::units::{Concentration, Mass, Volume};

/// An injector, by the feed it makes of one part of stock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Injector(f64);

impl Injector {
    /// The 100 of 1:100.
    ///
    /// # Errors
    /// [`CropError::Impossible`] outside 15 to 200.
    pub fn one_to(ratio: f64) -> Result<Self, CropError> {
        within("injector ratio 1 to", ratio, 15.0, 200.0, "").map(Self)
    }

    /// Parts of feed from one part of stock.
    pub const fn ratio(self) -> f64 {
        self.0
    }
}

/// Grams of material in each liter of stock.
///
/// # Errors
/// [`CropError::Impossible`] for a strength that cannot be, or one that wants more than 1,000 g in a liter of stock:
/// no such stock dissolves (house rule; the bag gives the true solubility).
pub fn stock_g_per_l(target: Concentration, share: Fraction, injector: Injector) -> Result<f64, CropError> {
    let grams = checked_ppm(target)? * injector.ratio() / (1000.0 * share.share());
    within("material in the stock", grams, 0.0, 1000.0, "g per liter")
}

/// One tank of stock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Batch {
    /// The element in the stock, ppm.
    pub stock_strength: Concentration,
    /// Material in each liter of stock, g.
    pub g_per_l: f64,
    /// Stock to make.
    pub stock: Volume,
    /// Material to weigh for it.
    pub material: Mass,
    /// Feed the stock makes.
    pub feed: Volume,
}

/// A batch that fills a stock tank.
///
/// # Errors
/// As [`stock_g_per_l`]; [`CropError::Impossible`] for a volume outside 0.001 mL to 1,000,000 L.
pub fn batch_of_stock(
    target: Concentration,
    share: Fraction,
    injector: Injector,
    stock: Volume,
) -> Result<Batch, CropError> {
    let g_per_l = stock_g_per_l(target, share, injector)?;
    let stock_ml = checked_ml(stock)?;
    let feed_ml = within("volume of feed", stock_ml * injector.ratio(), 0.0, MOST_ML, "mL")?;
    let strength = Concentration::from_ppm(target.ppm() * injector.ratio());
    let material = material_for(strength, share, stock)?;
    Ok(Batch { stock_strength: strength, g_per_l, stock, material, feed: Volume::from_ml(feed_ml) })
}

/// A batch that makes a volume of feed.
///
/// # Errors
/// As [`batch_of_stock`].
pub fn batch_of_feed(
    target: Concentration,
    share: Fraction,
    injector: Injector,
    feed: Volume,
) -> Result<Batch, CropError> {
    let stock = Volume::from_ml(checked_ml(feed)? / injector.ratio());
    batch_of_stock(target, share, injector, stock)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::num::f64::ANY;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn stock_diluted_gives_the_feed(ppm in 1.0..400.0f64, percent in 10.0..40.0f64, ratio in 15.0..200.0f64, liters in 10.0..5000.0f64) {
            let share = Fraction::from_percent(percent).unwrap();
            let injector = Injector::one_to(ratio).unwrap();
            let (target, feed) = (Concentration::from_ppm(ppm), Volume::from_ml(liters * 1000.0));
            let batch = batch_of_feed(target, share, injector, feed).unwrap();
            let direct = material_for(target, share, feed).unwrap();
            prop_assert!((batch.material.g() - direct.g()).abs() <= direct.g() * 1e-9);
            prop_assert!((batch.material.g() - batch.g_per_l * batch.stock.ml() / 1000.0).abs() <= direct.g() * 1e-9);
            prop_assert!((batch.stock_strength.ppm() / ratio - ppm).abs() < 1e-9 * ppm);
        }

        #[test]
        fn nothing_is_not_finite(a in ANY, b in ANY, c in ANY) {
            let share = Fraction::from_percent(20.0).unwrap();
            if let (Ok(injector), target) = (Injector::one_to(b), Concentration::from_ppm(a)) {
                for batch in [batch_of_feed(target, share, injector, Volume::from_ml(c)), batch_of_stock(target, share, injector, Volume::from_ml(c))].into_iter().flatten() {
                    prop_assert!(batch.material.g().is_finite() && batch.feed.ml().is_finite() && batch.g_per_l.is_finite());
                }
            }
        }
    }

    #[test]
    fn injectors_outside_the_trade_are_refused() {
        assert!(Injector::one_to(14.0).is_err() && Injector::one_to(201.0).is_err() && Injector::one_to(128.0).is_ok());
        let share = Fraction::from_percent(15.0).unwrap();
        let text = stock_g_per_l(Concentration::from_ppm(1000.0), share, Injector(200.0)).unwrap_err().to_string();
        assert!(text.contains("it must be 0 to 1000 g per liter"), "{text}");
    }
}
