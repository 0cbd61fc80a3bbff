//! How much solution: by area for a spray, by pots for a drench.

use crate::crop::{CropError, within};
use crate::units::{Area, Length, Volume};

/// mL/m2 in one US quart on 100 square feet (946.352 946 mL on 9.290 304 m2).
const QUART_PER_100_FT2: f64 = 946.352_946 / 9.290_304;

/// How much solution a spray puts on an area.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SprayRate(f64);

impl SprayRate {
    /// 2 quarts on 100 square feet (0.204 L/m2): the rate several university and trade guides agree on.
    pub const USUAL: Self = Self(2.0 * QUART_PER_100_FT2);

    /// From mL on a square meter.
    ///
    /// # Errors
    /// [`CropError::Impossible`] unless 20 to 2000 mL/m2.
    pub fn ml_per_m2(ml: f64) -> Result<Self, CropError> {
        within("the spray volume", ml, 20.0, 2000.0, "mL/m2").map(Self)
    }

    /// In mL on a square meter.
    pub const fn in_ml_per_m2(self) -> f64 {
        self.0
    }

    /// In US quarts on 100 square feet.
    pub fn in_quarts_per_100_ft2(self) -> f64 {
        quarts_per_100_sq_ft(self.0)
    }
}

/// mL on a square meter in US quarts on 100 square feet.
pub fn quarts_per_100_sq_ft(ml_per_m2: f64) -> f64 {
    ml_per_m2 / QUART_PER_100_FT2
}

/// Solution to spray an area once.
///
/// # Errors
/// [`CropError::Impossible`] for an area not in 0.01 to 100,000 m2.
pub fn spray_volume(area: Area, rate: SprayRate) -> Result<Volume, CropError> {
    Ok(Volume::from_ml(within("the area", area.m2(), 0.01, 1e5, "m2")? * rate.0))
}

/// Solution to drench pots once. `reserve` is the share made over and above (0.05 for 5%).
///
/// # Errors
/// [`CropError::Impossible`] for no pots or over a million, a volume per pot not in 1 mL to 10 L, a reserve not in 0 to 1.
pub fn drench_volume(pots: u32, per_pot: Volume, reserve: f64) -> Result<Volume, CropError> {
    let pots = within("the number of pots", f64::from(pots), 1.0, 1e6, "")?;
    let per_pot = within("the volume per pot", per_pot.ml(), 1.0, 10_000.0, "mL")?;
    Ok(Volume::from_ml(pots * per_pot * (1.0 + within("the reserve", reserve, 0.0, 1.0, "")?)))
}

/// How many whole pots a volume drenches.
///
/// # Errors
/// [`CropError::Impossible`] for a volume not in 0 to 10,000 L or a volume per pot not in 1 mL to 10 L.
pub fn pots_from(volume: Volume, per_pot: Volume) -> Result<u32, CropError> {
    let volume = within("the volume", volume.ml(), 0.0, 1e7, "mL")?;
    let per_pot = within("the volume per pot", per_pot.ml(), 1.0, 10_000.0, "mL")?;
    // A hair over, so that 640 pots of 2 fl oz from 10 gallons are not 639 by rounding.
    let pots = (volume / per_pot * (1.0 + 1e-12)).floor();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 to 10 million, from the bounds above"
    )]
    Ok(pots as u32)
}

/// The usual drench for a pot of this rim: 2 fl oz for 4-inch pots, 3 for 5-inch, 4 for 6-inch (Michigan State drench
/// guidelines) and 6.5-inch (Purdue, 2010). `None` for other pots: no figure was seen for 8- and 10-inch pots.
pub fn usual_drench(rim: Length) -> Option<Volume> {
    const OUNCE: f64 = 29.573_529_562_5;
    let inches = rim.cm() / 2.54;
    let ounces = match inches {
        i if (3.75..4.5).contains(&i) => 2.0,
        i if (4.5..5.5).contains(&i) => 3.0,
        i if (5.5..=6.75).contains(&i) => 4.0,
        _ => return None,
    };
    Some(Volume::from_ml(ounces * OUNCE))
}

#[cfg(test)]
mod tests {
    use super::{SprayRate, drench_volume, pots_from, spray_volume, usual_drench};
    use crate::units::{Area, Length, Volume};
    use proptest::prelude::*;

    #[test]
    fn the_usual_spray_rate_is_two_quarts() {
        assert!((SprayRate::USUAL.in_ml_per_m2() - 203.730).abs() < 0.001);
        assert!(SprayRate::ml_per_m2(0.2).unwrap_err().to_string().contains("20 to 2000 mL/m2"));
        assert_eq!(usual_drench(Length::from_cm(20.3)), None);
    }

    proptest! {
        #[test]
        fn volumes_scale(m2 in 0.1f64..1000.0, pots in 1u32..5000, ml in 10.0f64..500.0, reserve in 0.0f64..0.5) {
            let one = spray_volume(Area::from_m2(m2), SprayRate::USUAL).unwrap().ml();
            let two = spray_volume(Area::from_m2(m2 * 2.0), SprayRate::USUAL).unwrap().ml();
            prop_assert!((two - one * 2.0).abs() < 1e-9 * two);
            let whole = drench_volume(pots, Volume::from_ml(ml), reserve).unwrap();
            prop_assert!(pots_from(whole, Volume::from_ml(ml)).unwrap() >= pots);
        }

        #[test]
        fn any_number_is_answered(a: f64, b: f64, pots: u32) {
            if let Ok(v) = spray_volume(Area::from_m2(a), SprayRate::USUAL) { prop_assert!(v.ml().is_finite()); }
            if let Ok(v) = drench_volume(pots, Volume::from_ml(a), b) { prop_assert!(v.ml().is_finite()); }
            let _answered = pots_from(Volume::from_ml(a), Volume::from_ml(b)).is_ok();
            prop_assert!(usual_drench(Length::from_cm(a)).is_none_or(|v| v.ml().is_finite()));
        }
    }
}
