//! Temperatures as the rules read them, of each day those that decide (`climate_days`). A 24-hour mean weighs day and night by the
//! hours of that day's sun; where those are unknown, evenly.

use super::BenchDay;
use super::climate_days::deciding;
use crate::crop::climate::average_daily_temperature;
use crate::record::{Entry, Kind};
use crate::units::Temperature;

/// Climate readings with their 24-hour means, °C, where both temperatures are written.
pub(super) fn means<'a>(bench: &BenchDay<'a>) -> Vec<(&'a Entry, f64)> {
    deciding(bench, |e| match *e.kind {
        Kind::Climate { day_c: Some(day_c), night_c: Some(night_c), .. } => {
            let hours = bench.context.sun_hours(e.day());
            let (day, night) = (Temperature::from_c(day_c), Temperature::from_c(night_c));
            average_daily_temperature(day, hours, night).ok().map(Temperature::c)
        }
        _ => None,
    })
}

/// Climate readings with their night temperatures, °C.
pub(super) fn nights<'a>(bench: &BenchDay<'a>) -> Vec<(&'a Entry, f64)> {
    deciding(bench, night_c)
}

/// Climate readings with their day temperatures, °C.
pub(super) fn days<'a>(bench: &BenchDay<'a>) -> Vec<(&'a Entry, f64)> {
    deciding(bench, |e| if let Kind::Climate { day_c, .. } = &*e.kind { *day_c } else { None })
}

/// Climate readings with how cold it got, °C: of a logger the lowest of its day, else the night.
pub(super) fn coldest<'a>(bench: &BenchDay<'a>) -> Vec<(&'a Entry, f64)> {
    deciding(bench, |e| match &*e.kind {
        Kind::Climate { log, .. } if e.is_from_logger() => log.low_c.or_else(|| night_c(e)),
        _ => night_c(e),
    })
}

/// The night temperature of a climate reading, °C.
fn night_c(entry: &Entry) -> Option<f64> {
    if let Kind::Climate { night_c, .. } = &*entry.kind { *night_c } else { None }
}
