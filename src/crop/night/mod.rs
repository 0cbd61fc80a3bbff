//! The night: sunset and sunrise, the length of the night, and the start of short days.
//!
//! The sun's place comes from the crate `sunrise` (sun's upper limb 50 minutes of arc under the horizon, sea level), mended
//! in `sun`. The nights lie within a minute of an independent astronomy library's from 55° S to 65° N (`tests/outside/night.rs`).
//!
//! Two ways of counting a night differ by three to four weeks in the start of short days, so both are here and every
//! answer says which it used. Sunset to sunrise with 11 h 40 min is the one that fits the trade's modern dates (R.
//! Kobayashi, Poinsettia Flower Initiation); civil twilight fits old New York dates.

mod season;
mod sun;

pub use season::{Nights, delay_of_missed_nights, first_night_reaching, start_of_short_days};

use super::{CropError, within};
use crate::terms::NightConvention;
use chrono::{DateTime, Datelike, NaiveDate, Utc};
use sun::event_time;
use sunrise::{DawnType, SolarEvent};

/// The night that starts flowers in most cultivars, minutes: 11 h 40 min (R. Kobayashi, Poinsettia Flower Initiation).
pub const CRITICAL_NIGHT_MINUTES: f64 = 700.0;

/// A place on earth; always a possible one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    latitude: f64,
    longitude: f64,
}

impl Place {
    /// From degrees: north and east positive.
    ///
    /// # Errors
    /// [`CropError::Impossible`] for a latitude outside -90 to 90 or a longitude outside -180 to 180.
    pub fn new(latitude: f64, longitude: f64) -> Result<Self, CropError> {
        let latitude = within("latitude", latitude, -90.0, 90.0, "°")?;
        let longitude = within("longitude", longitude, -180.0, 180.0, "°")?;
        Ok(Self { latitude, longitude })
    }

    /// Degrees, north positive.
    pub const fn latitude(&self) -> f64 {
        self.latitude
    }

    /// Degrees, east positive.
    pub const fn longitude(&self) -> f64 {
        self.longitude
    }

    /// North of the equator, or on it.
    pub fn is_northern(&self) -> bool {
        self.latitude >= 0.0
    }
}

/// What the sun does between two depths under the horizon on one day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sky<T> {
    /// It crosses.
    Crosses(T),
    /// It stays above all day: no night (polar day; for civil twilight, a night that never gets dark).
    StaysUp,
    /// It stays below all day: no day (polar night).
    StaysDown,
}

/// The beginning and end of one day's light.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Light {
    /// Sunrise, or civil dawn.
    pub begins: DateTime<Utc>,
    /// Sunset, or civil dusk.
    pub ends: DateTime<Utc>,
}

/// One day's sun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SunTimes {
    /// Sunrise and sunset.
    pub sun: Sky<Light>,
    /// Civil dawn and civil dusk.
    pub civil: Sky<Light>,
}

/// The length of one night, minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Night {
    /// So many minutes.
    Minutes(f64),
    /// There is none: the sun stays up, or it does not get dark.
    None,
    /// It lasts through the next day: the sun stays down.
    Unbroken,
}

impl Night {
    /// In minutes, to draw or to compare: no night is 0, an unbroken one 1,440.
    pub const fn minutes(self) -> f64 {
        match self {
            Self::Minutes(m) => m,
            Self::None => 0.0,
            Self::Unbroken => 1_440.0,
        }
    }
}

fn known_year(day: NaiveDate) -> Result<NaiveDate, CropError> {
    // The sun's formulas are good for a few centuries around 2000, and a day's neighbors must exist.
    if (1900..2200).contains(&day.year()) { Ok(day) } else { Err(CropError::NoSuchDay { what: "the day asked for" }) }
}

fn events(convention: NightConvention) -> (SolarEvent, SolarEvent) {
    match convention {
        NightConvention::SunsetToSunrise => (SolarEvent::Sunrise, SolarEvent::Sunset),
        NightConvention::CivilTwilight => (SolarEvent::Dawn(DawnType::Civil), SolarEvent::Dusk(DawnType::Civil)),
    }
}

fn light(place: &Place, day: NaiveDate, convention: NightConvention) -> Sky<Light> {
    let (dawn, dusk) = events(convention);
    match (event_time(place, day, dawn, true), event_time(place, day, dusk, false)) {
        (Some(begins), Some(ends)) => Sky::Crosses(Light { begins, ends }),
        _ if is_summer_half(place, day) => Sky::StaysUp,
        _ => Sky::StaysDown,
    }
}

/// Whether the sun stays up, where it does not cross: it is the side of the year on which the same day at 60° (same
/// hemisphere), where the sun always crosses, is longer than its night. Both turn within a day of each other.
fn is_summer_half(place: &Place, day: NaiveDate) -> bool {
    let latitude = if place.is_northern() { 60.0 } else { -60.0 };
    let there = Place { latitude, longitude: place.longitude };
    let up = event_time(&there, day, SolarEvent::Sunrise, true);
    let down = event_time(&there, day, SolarEvent::Sunset, false);
    up.zip(down).is_some_and(|(up, down)| (down - up).num_minutes() >= 720)
}

/// Sunrise, sunset, civil dawn and civil dusk of a day, as instants in UTC.
///
/// The day is the one of the sun at the place: its noon is the sun's. Instants of one place and one clock day can carry the
/// UTC date before or after.
///
/// # Errors
/// [`CropError::NoSuchDay`] outside the years 1900 to 2199.
pub fn sun_times(place: &Place, day: NaiveDate) -> Result<SunTimes, CropError> {
    let day = known_year(day)?;
    Ok(SunTimes {
        sun: light(place, day, NightConvention::SunsetToSunrise),
        civil: light(place, day, NightConvention::CivilTwilight),
    })
}

/// The night that begins on the evening of a day: from its sunset (or civil dusk) to the next sunrise (or civil dawn).
///
/// # Errors
/// [`CropError::NoSuchDay`] outside the years 1900 to 2199.
pub fn night(place: &Place, day: NaiveDate, convention: NightConvention) -> Result<Night, CropError> {
    let day = known_year(day)?;
    let next = day.succ_opt().ok_or(CropError::NoSuchDay { what: "the next morning" })?;
    Ok(match (light(place, day, convention), light(place, next, convention)) {
        (Sky::Crosses(evening), Sky::Crosses(morning)) => {
            let seconds = (morning.begins - evening.ends).num_seconds();
            Night::Minutes((seconds as f64 / 60.0).clamp(0.0, 1_440.0))
        }
        (Sky::StaysUp, _) | (Sky::Crosses(_), Sky::StaysUp) => Night::None,
        (Sky::StaysDown, _) | (Sky::Crosses(_), Sky::StaysDown) => Night::Unbroken,
    })
}

#[cfg(test)]
mod tests;
