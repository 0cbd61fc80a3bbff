//! One day of a house from the readings of a climate logger: means by day and by night, extremes, humid hours, vapor pressure deficit
//! and daily light.
//!
//! A day is its night, from sunset of the evening before to sunrise, and its light, from sunrise to sunset; or fixed hours. Each
//! reading stands for the time to the middle of its neighbors, so that uneven steps weigh by time. A figure is given only where
//! readings cover enough of its time. What a day comes to depends on the readings of that day and an hour around it alone:
//! files that overlap give the same figures.

mod weigh;

use super::vapor_pressure_deficit;
use crate::crop::CropError;
use crate::crop::night::{Place, Sky, sun_times};
use crate::dates::{Tz, at_local};
use crate::units::{Irradiance, Temperature};
use chrono::{DateTime, FixedOffset, NaiveDate, NaiveTime, TimeDelta, Utc};
use weigh::Weighed;

/// The part of night and daylight that readings must cover, percent (house rule).
pub const COVERED_PERCENT: f64 = 90.0;
/// The part of the daylight that light readings must cover, percent (house rule: an hour of noon is a tenth of the day's light).
pub const LIGHT_COVERED_PERCENT: f64 = 95.0;

/// One reading of a logger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// When.
    pub at: DateTime<Utc>,
    /// Air temperature.
    pub air: Option<Temperature>,
    /// Relative humidity, percent.
    pub humidity_percent: Option<f64>,
    /// Light over the plants.
    pub light: Option<Irradiance>,
}

/// What a logger reads first of all: without it there is no entry of a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lead {
    /// Air temperature.
    Air,
    /// Humidity, where it reads no temperature.
    Humidity,
    /// Light alone.
    Light,
}

/// The night and the light of a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Parts {
    /// The evening before: the night begins.
    pub begins: DateTime<Utc>,
    /// The night ends, the light begins.
    pub dawn: DateTime<Utc>,
    /// The light ends, and the day with it.
    pub ends: DateTime<Utc>,
}

/// How a day is divided.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Division {
    /// By sunset and sunrise at the site.
    Sun(Place),
    /// By fixed hours of the site's clock, such as 06:00 to 18:00.
    Hours(NaiveTime, NaiveTime, Tz),
}

impl Division {
    /// The parts of a day, to the whole second.
    ///
    /// # Errors
    /// [`CropError::NoSuchDay`] outside the years 1900 to 2199; [`CropError::Missing`] where the sun does not rise and set.
    pub fn parts(&self, day: NaiveDate) -> Result<Parts, CropError> {
        const LEFT: CropError = CropError::NoSuchDay { what: "the day of a reading" };
        let eve = day.pred_opt().ok_or(LEFT)?;
        let (begins, dawn, ends) = match self {
            Self::Sun(place) => {
                if let (Sky::Crosses(before), Sky::Crosses(sun)) =
                    (sun_times(place, eve)?.sun, sun_times(place, day)?.sun)
                {
                    (before.ends, sun.begins, sun.ends)
                } else {
                    let why = "the sun does not rise and set here on that day; give the hours of the day instead";
                    return Err(CropError::Missing { what: "sunset", why });
                }
            }
            Self::Hours(from, to, zone) => {
                let at = |day: NaiveDate, time: &NaiveTime| at_local(*zone, day.and_time(*time)).ok_or(LEFT);
                (at(eve, to)?.to_utc(), at(day, from)?.to_utc(), at(day, to)?.to_utc())
            }
        };
        Ok(Parts { begins: whole(begins), dawn: whole(dawn), ends: whole(ends) })
    }
}

fn whole(at: DateTime<Utc>) -> DateTime<Utc> {
    DateTime::from_timestamp(at.timestamp(), 0).unwrap_or(at)
}

/// What is counted, and from when.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counting {
    /// Hours over this humidity are humid ones, percent.
    pub humid_over: f64,
    /// The humidity of the day is read from this hour of the site's clock on.
    pub damp_hour: u32,
    /// Degree-hours of the night are counted over this, °C.
    pub warm_night_c: f64,
    /// The site's clock.
    pub zone: Tz,
}

impl Counting {
    /// The instant from which the humidity of a day is read.
    fn damp_from(&self, day: NaiveDate) -> Option<DateTime<Utc>> {
        let local = day.and_hms_opt(self.damp_hour, 0, 0)?;
        at_local(self.zone, local).map(|at: DateTime<FixedOffset>| at.to_utc())
    }
}

/// What a day came to, rounded as it is kept: 0.1 °C, 1 %, 0.1 h, 0.01 kPa, 0.1 mol/m2. What too few readings cover is `None`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Figures {
    /// Mean of the light, °C.
    pub day_c: Option<f64>,
    /// Mean of the night, °C.
    pub night_c: Option<f64>,
    /// Mean humidity from [`Counting::damp_hour`] to the end of the light, percent.
    pub humidity_percent: Option<f64>,
    /// Least of the day, °C.
    pub low_c: Option<f64>,
    /// Most of the day, °C.
    pub high_c: Option<f64>,
    /// Hours over [`Counting::humid_over`].
    pub humid_hours: Option<f64>,
    /// Mean of each reading's own vapor pressure deficit in the light, kPa: the deficit at the mean air would be too low.
    pub vpd_kpa: Option<f64>,
    /// Daily light integral, mol/m2.
    pub light_mol: Option<f64>,
    /// Degree-hours of the night over [`Counting::warm_night_c`].
    pub warm_h: Option<f64>,
    /// Readings of the day.
    pub readings: u32,
}

/// One of the two parts of a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Sunset to sunrise.
    Night,
    /// Sunrise to sunset.
    Light,
}

/// Why a day is not whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Short {
    /// The readings begin after it, or less than an hour before it.
    Begins,
    /// The readings end before it, or less than an hour after it.
    Ends {
        /// The part that they do not cover.
        part: Part,
        /// How much of that part they cover, whole percent.
        percent: u32,
    },
    /// Readings are missing within it.
    Gaps {
        /// The part with too few.
        part: Part,
        /// How much of that part they cover, whole percent.
        percent: u32,
    },
}

/// What the readings, in order of time, come to on a day.
///
/// # Errors
/// [`Short`]: too few readings to say.
pub fn figures(
    readings: &[Reading],
    day: NaiveDate,
    parts: &Parts,
    counting: &Counting,
    lead: Lead,
) -> Result<Figures, Short> {
    let (night, light) = ((parts.begins, parts.dawn), (parts.dawn, parts.ends));
    let around = weigh::around(readings, parts);
    let step = weigh::usual_step(around, parts);
    let weighed = |value: &dyn Fn(&Reading) -> Option<f64>| Weighed::of(around, step, value);
    let air = weighed(&|r| r.air.map(Temperature::c));
    let humid = weighed(&|r| r.humidity_percent);
    let lit = weighed(&|r| r.light.map(Irradiance::umol));
    whole_day(
        readings,
        parts,
        match lead {
            Lead::Air => (&air, COVERED_PERCENT),
            Lead::Humidity => (&humid, COVERED_PERCENT),
            Lead::Light => (&lit, LIGHT_COVERED_PERCENT),
        },
    )?;
    let deficit = weighed(&|r| vapor_pressure_deficit(r.air?, r.humidity_percent?).ok());
    let mut found = Figures { readings: weigh::count(around, parts), ..Figures::default() };
    if let (Some(dark), Some(day)) = (air.enough(night, COVERED_PERCENT), air.enough(light, COVERED_PERCENT)) {
        (found.night_c, found.day_c) = (Some(rounded(dark.mean(), 0.1)), Some(rounded(day.mean(), 0.1)));
        (found.low_c, found.high_c) = air.extremes(parts);
        let over = weighed(&|r| r.air.map(|air| (air.c() - counting.warm_night_c).max(0.0)));
        found.warm_h = Some(rounded(over.over(night).hours(), 0.1));
    }
    let read_from =
        counting.damp_from(day).map(|from| (from.max(parts.dawn), parts.ends)).filter(|(from, to)| from < to);
    let late = read_from.and_then(|late| humid.enough(late, COVERED_PERCENT));
    found.humidity_percent = late.map(|late| rounded(late.mean(), 1.0));
    if humid.enough(night, COVERED_PERCENT).is_some() && humid.enough(light, COVERED_PERCENT).is_some() {
        let over = weighed(&|r| r.humidity_percent.map(|percent| f64::from(u8::from(percent > counting.humid_over))));
        found.humid_hours = Some(rounded(over.over((parts.begins, parts.ends)).hours().min(24.0), 0.1));
    }
    found.vpd_kpa = deficit.enough(light, COVERED_PERCENT).map(|mean| rounded(mean.mean(), 0.01));
    let sum = lit.enough(light, LIGHT_COVERED_PERCENT).map(|_| lit.over((parts.begins, parts.ends)));
    found.light_mol = sum.map(|sum| rounded(sum.hours() * 3_600.0 / 1e6, 0.1));
    Ok(found)
}

/// Whether the readings that matter most cover the day, and reach an hour beyond it on both sides.
fn whole_day(readings: &[Reading], parts: &Parts, (lead, least): (&Weighed, f64)) -> Result<(), Short> {
    let reaches = TimeDelta::seconds(weigh::MOST_SIDE);
    if readings.first().is_none_or(|first| first.at > parts.begins - reaches) {
        return Err(Short::Begins);
    }
    let ended = readings.last().is_some_and(|last| last.at >= parts.ends + reaches);
    let night = (Part::Night, lead.over((parts.begins, parts.dawn)).percent());
    let light = (Part::Light, lead.over((parts.dawn, parts.ends)).percent());
    let is_light = least > COVERED_PERCENT;
    let short = [night, light].into_iter().find(|(part, n)| *n < least && !(is_light && *part == Part::Night));
    let whole = |percent: f64| {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 100")]
        let percent = percent.clamp(0.0, 100.0) as u32;
        percent
    };
    match (short, ended) {
        (None, true) => Ok(()),
        (Some((part, percent)), true) => Err(Short::Gaps { part, percent: whole(percent) }),
        (short, false) => {
            let (part, percent) = short.unwrap_or(light);
            Err(Short::Ends { part, percent: whole(percent) })
        }
    }
}

/// To a multiple of a step; never a negative nothing.
fn rounded(value: f64, step: f64) -> f64 {
    let steps = (value / step).round();
    // Divided by the whole number of steps in one, so that 17.9 is the nearest there is to 17.9.
    steps / (1.0 / step).round() + 0.0
}

#[cfg(test)]
mod tests;
