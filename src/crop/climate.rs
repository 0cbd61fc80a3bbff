//! Air, heat and light: vapor pressure, dew point, mean temperatures, daily light.
//!
//! Vapor pressure follows Allen, Pereira, Raes and Smith 1998 (FAO Irrigation and Drainage Paper 56), equations 11, 12
//! and 14. The light conversions are instrument factors that differ a little between sources; where they do the answer is
//! a range.

pub mod day;

use super::{CropError, Estimate, within};
use crate::units::{Illuminance, Irradiance, Temperature};

/// Air temperatures a greenhouse thermometer can read, °C (house rule: beyond these the reading or its unit is wrong).
pub const AIR_C: (f64, f64) = (-40.0, 60.0);
/// Brightest daylight accepted, µmol/m2/s (house rule; full sun is about 2,000).
pub const MOST_PPFD: f64 = 5_000.0;

/// Where light comes from: lux and photons are related differently in each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LightSource {
    /// Sunlight, direct and sky together.
    Sun,
    /// Blue sky without the sun.
    BlueSky,
    /// High-pressure sodium lamps.
    HighPressureSodium,
    /// Metal-halide lamps.
    MetalHalide,
    /// Cool-white fluorescent lamps.
    CoolWhite,
    /// Incandescent bulbs.
    Incandescent,
}

impl LightSource {
    /// Every source, in the order shown.
    pub const ALL: [Self; 6] =
        [Self::Sun, Self::BlueSky, Self::HighPressureSodium, Self::MetalHalide, Self::CoolWhite, Self::Incandescent];

    /// Lux for each µmol/m2/s.
    ///
    /// Thimijan and Heins 1983 (HortScience 18:818-822): sun 54, blue sky 52, high-pressure sodium 82, metal halide 71,
    /// cool white 74, incandescent 50. For the sun the range takes in an instrument maker's 0.20 µmol a foot-candle
    /// (5.01 fc, 53.9 lux) and a photobiologist's 0.195 (5.13 fc, 55.2 lux).
    pub const fn lux_per_umol(self) -> Estimate<f64> {
        match self {
            Self::Sun => Estimate::new(53.9, 54.0, 55.2),
            Self::BlueSky => Estimate::new(52.0, 52.0, 52.0),
            Self::HighPressureSodium => Estimate::new(82.0, 82.0, 82.0),
            Self::MetalHalide => Estimate::new(71.0, 71.0, 71.0),
            Self::CoolWhite => Estimate::new(74.0, 74.0, 74.0),
            Self::Incandescent => Estimate::new(50.0, 50.0, 50.0),
        }
    }
}

fn air(what: &'static str, temperature: Temperature) -> Result<f64, CropError> {
    within(what, temperature.c(), AIR_C.0, AIR_C.1, "°C")
}

fn humidity(percent: f64) -> Result<f64, CropError> {
    within("relative humidity", percent, 0.0, 100.0, "%")
}

/// FAO-56 equation 11, kPa from °C.
fn saturation(c: f64) -> f64 {
    0.6108 * (17.27 * c / (c + 237.3)).exp()
}

/// Saturation vapor pressure of air, kPa: FAO-56 equation 11.
///
/// # Errors
/// [`CropError::Impossible`] outside [`AIR_C`].
pub fn saturation_vapor_pressure(temperature: Temperature) -> Result<f64, CropError> {
    air("air temperature", temperature).map(saturation)
}

/// What the air still takes up, kPa (vapor pressure deficit): saturation less what it holds (FAO-56 equations 11 and 14).
///
/// # Errors
/// [`CropError::Impossible`] outside [`AIR_C`] or for a humidity outside 0 to 100%.
pub fn vapor_pressure_deficit(temperature: Temperature, humidity_percent: f64) -> Result<f64, CropError> {
    let (c, rh) = (air("air temperature", temperature)?, humidity(humidity_percent)?);
    Ok(saturation(c) * (1.0 - rh / 100.0))
}

/// The deficit a leaf feels, kPa: saturation at the leaf's temperature less what the air holds (from FAO-56 equation 11).
///
/// Negative when the leaf is colder than the dew point: it gets wet.
///
/// # Errors
/// As [`vapor_pressure_deficit`].
pub fn leaf_vapor_pressure_deficit(
    leaf: Temperature,
    air_temperature: Temperature,
    humidity_percent: f64,
) -> Result<f64, CropError> {
    let (leaf, c) = (air("leaf temperature", leaf)?, air("air temperature", air_temperature)?);
    Ok(saturation(leaf) - saturation(c) * humidity(humidity_percent)? / 100.0)
}

/// The temperature at which this air makes dew: FAO-56 equation 11 solved for temperature.
///
/// # Errors
/// [`CropError::Impossible`] outside [`AIR_C`], or for a humidity outside 1 to 100% (drier air has no dew point to speak
/// of).
pub fn dew_point(temperature: Temperature, humidity_percent: f64) -> Result<Temperature, CropError> {
    let c = air("air temperature", temperature)?;
    let rh = within("relative humidity", humidity_percent, 1.0, 100.0, "%")?;
    let gamma = (rh / 100.0).ln() + 17.27 * c / (c + 237.3);
    Ok(Temperature::from_c(237.3 * gamma / (17.27 - gamma)))
}

fn hours(what: &'static str, hours: f64) -> Result<f64, CropError> {
    within(what, hours, 0.0, 24.0, "h")
}

fn ppfd(light: Irradiance) -> Result<f64, CropError> {
    within("photon flux", light.umol(), 0.0, MOST_PPFD, "µmol/m2/s")
}

/// Daily light integral, mol/m2/d, of a steady light for some hours: PPFD × 3,600 × hours / 1,000,000 (by definition).
///
/// # Errors
/// [`CropError::Impossible`] for a light outside 0 to [`MOST_PPFD`] or hours outside 0 to 24.
pub fn daily_light(light: Irradiance, lit_hours: f64) -> Result<f64, CropError> {
    Ok(ppfd(light)? * 3_600.0 * hours("hours of light", lit_hours)? / 1e6)
}

/// Daily light integral, mol/m2/d, from a day's global radiation outside, MJ/m2, and the share the roof lets through (0-1).
///
/// Sources differ, so it is a range: 1.961 mol a MJ (7.058 mol a kWh; Logan, Sams and Faust 2016), 2.06 and 2.29 (45 and
/// 50% of the energy as plant light, × 4.57; Thimijan and Heins 1983). The middle one is the one to plan by (house rule).
///
/// # Errors
/// [`CropError::Impossible`] for radiation outside 0 to 50 MJ/m2 (house rule; no place on earth gets more in a day) or a
/// share outside 0 to 1.
pub fn daily_light_from_radiation(mj_per_m2: f64, let_through: f64) -> Result<Estimate<f64>, CropError> {
    let mj = within("a day's radiation", mj_per_m2, 0.0, 50.0, "MJ/m2")?;
    let share = within("the share the roof lets through", let_through, 0.0, 1.0, "")?;
    let Estimate { low, likely, high } = MOL_PER_MJ;
    Ok(Estimate::new(low * mj * share, likely * mj * share, high * mj * share))
}

/// Mol of plant light in a MJ of global radiation, which is µmol/m2/s in a W/m2: see [`daily_light_from_radiation`].
const MOL_PER_MJ: Estimate<f64> = Estimate::new(1.961, 2.06, 2.29);

/// Photons from a pyranometer's reading of global radiation, W/m2, as a range: the factors of [`daily_light_from_radiation`].
///
/// # Errors
/// [`CropError::Impossible`] for a reading outside 0 to 1,600 W/m2 (house rule: the sun outside the air gives 1,361, and bright
/// clouds add to it for minutes).
pub fn photons_from_radiation(watts_per_m2: f64) -> Result<Estimate<Irradiance>, CropError> {
    let watts = within("radiation", watts_per_m2, 0.0, 1_600.0, "W/m2")?;
    MOL_PER_MJ.try_map(|factor| Ok(Irradiance::from_umol(watts * factor)))
}

/// Photons from a reading in lux or foot-candles, as a range where the factors differ ([`LightSource::lux_per_umol`]).
///
/// # Errors
/// [`CropError::Impossible`] for a light below 0 or beyond 250,000 lux (house rule; full sun is about 110,000).
pub fn photons_from_lux(reading: Illuminance, source: LightSource) -> Result<Estimate<Irradiance>, CropError> {
    let lux = within("light", reading.lux(), 0.0, 250_000.0, "lux")?;
    let factor = source.lux_per_umol();
    let umol = |f: f64| Irradiance::from_umol(lux / f);
    Ok(Estimate::new(umol(factor.high), umol(factor.likely), umol(factor.low)))
}

/// The lux a meter would read for so many photons, as a range ([`LightSource::lux_per_umol`]).
///
/// # Errors
/// [`CropError::Impossible`] for a light outside 0 to [`MOST_PPFD`].
pub fn lux_from_photons(light: Irradiance, source: LightSource) -> Result<Estimate<Illuminance>, CropError> {
    let umol = ppfd(light)?;
    source.lux_per_umol().try_map(|f| Ok(Illuminance::from_lux(umol * f)))
}

/// Average daily temperature: (day × its hours + night × its hours) / 24, the night having the rest of the 24 hours
/// (extension teaching text on average temperature).
///
/// # Errors
/// [`CropError::Impossible`] for temperatures outside [`AIR_C`] or day hours outside 0 to 24.
pub fn average_daily_temperature(
    day: Temperature,
    day_hours: f64,
    night: Temperature,
) -> Result<Temperature, CropError> {
    let (d, n) = (air("day temperature", day)?, air("night temperature", night)?);
    let h = hours("hours of day", day_hours)?;
    Ok(Temperature::from_c((d * h + n * (24.0 - h)) / 24.0))
}

/// DIF, in °C of difference: day less night. Positive stretches the stems (Erwin and Heins' DIF; trade texts 2020, 2025).
///
/// # Errors
/// [`CropError::Impossible`] for temperatures outside [`AIR_C`].
pub fn dif_c(day: Temperature, night: Temperature) -> Result<f64, CropError> {
    Ok(air("day temperature", day)? - air("night temperature", night)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const C: fn(f64) -> Temperature = Temperature::from_c;

    #[test]
    fn impossible_values_are_refused_with_the_reason() {
        let say = |r: Result<f64, CropError>| r.unwrap_err().to_string();
        assert_eq!(say(vapor_pressure_deficit(C(20.0), 120.0)), "relative humidity is 120%; it must be 0 to 100%");
        assert_eq!(say(saturation_vapor_pressure(C(200.0))), "air temperature is 200 °C; it must be -40 to 60 °C");
        assert!(dew_point(C(20.0), 0.0).is_err());
        assert!(daily_light(Irradiance::from_umol(100.0), 25.0).is_err());
    }

    #[test]
    fn a_leaf_colder_than_the_dew_point_gets_wet() {
        let dew = dew_point(C(18.0), 85.0).unwrap();
        assert!(leaf_vapor_pressure_deficit(C(dew.c() - 0.5), C(18.0), 85.0).unwrap() < 0.0);
        assert!(leaf_vapor_pressure_deficit(C(dew.c() + 0.5), C(18.0), 85.0).unwrap() > 0.0);
    }

    fn finite(answer: Result<f64, CropError>) -> bool {
        answer.is_ok_and(f64::is_finite)
    }

    fn finite_or_refused(answer: Result<f64, CropError>) -> bool {
        answer.is_err() || finite(answer)
    }

    proptest! {
        #[test]
        fn any_number_gives_a_finite_answer_or_a_reason(a in proptest::num::f64::ANY, b in proptest::num::f64::ANY, c in proptest::num::f64::ANY) {
            prop_assert!(finite_or_refused(saturation_vapor_pressure(C(a))));
            prop_assert!(finite_or_refused(vapor_pressure_deficit(C(a), b)));
            prop_assert!(finite_or_refused(leaf_vapor_pressure_deficit(C(a), C(b), c)));
            prop_assert!(finite_or_refused(dew_point(C(a), b).map(Temperature::c)));
            prop_assert!(finite_or_refused(daily_light(Irradiance::from_umol(a), b)));
            prop_assert!(finite_or_refused(daily_light_from_radiation(a, b).map(|s| s.high)));
            prop_assert!(finite_or_refused(average_daily_temperature(C(a), b, C(c)).map(Temperature::c)));
            prop_assert!(finite_or_refused(dif_c(C(a), C(b))));
            for source in LightSource::ALL {
                prop_assert!(finite_or_refused(photons_from_lux(Illuminance::from_lux(a), source).map(|s| s.high.umol())));
                prop_assert!(finite_or_refused(lux_from_photons(Irradiance::from_umol(a), source).map(|s| s.high.lux())));
            }
        }

        #[test]
        fn every_possible_value_is_answered(t in -40.0f64..=60.0, u in -40.0f64..=60.0, rh in 1.0f64..=100.0, h in 0.0f64..=24.0) {
            prop_assert!(finite(vapor_pressure_deficit(C(t), rh)));
            prop_assert!(finite(leaf_vapor_pressure_deficit(C(u), C(t), rh)));
            let dew = dew_point(C(t), rh).unwrap();
            prop_assert!(dew.c().is_finite() && dew.c() <= t + 1e-9);
            let mean = average_daily_temperature(C(t), h, C(u)).unwrap().c();
            prop_assert!(mean >= t.min(u) - 1e-9 && mean <= t.max(u) + 1e-9);
        }

        #[test]
        fn dew_point_undoes_vapor_pressure(t in 0.0f64..40.0, rh in 5.0f64..100.0) {
            let held = saturation(dew_point(C(t), rh).unwrap().c());
            prop_assert!((held - saturation(t) * rh / 100.0).abs() < 1e-9);
        }

        #[test]
        fn lux_and_photons_undo_each_other(umol in 0.1f64..2_000.0) {
            for source in LightSource::ALL {
                let lux = lux_from_photons(Irradiance::from_umol(umol), source).unwrap().likely;
                let back = photons_from_lux(lux, source).unwrap().likely.umol();
                prop_assert!((back - umol).abs() < 1e-9 * umol);
            }
        }
    }
}
