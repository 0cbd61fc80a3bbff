//! Temperatures as the rules read them. A 24-hour mean weighs day and night by the hours of that day's sun; where those are
//! unknown, evenly.

use super::BenchDay;
use crate::crop::climate::average_daily_temperature;
use crate::record::{Entry, Kind, KindName};
use crate::units::Temperature;

/// Climate readings with their 24-hour means, °C, where both temperatures are written.
pub(super) fn means<'s, 'a>(bench: &'s BenchDay<'a>) -> impl Iterator<Item = (&'a Entry, f64)> + use<'s, 'a> {
    bench.of(KindName::Climate).iter().copied().filter_map(move |e| match e.kind {
        Kind::Climate { day_c: Some(day_c), night_c: Some(night_c), .. } => {
            let hours = bench.context.sun_hours(e.day());
            let (day, night) = (Temperature::from_c(day_c), Temperature::from_c(night_c));
            average_daily_temperature(day, hours, night).ok().map(|t| (e, t.c()))
        }
        _ => None,
    })
}

/// The night temperature of a climate reading, °C.
pub(super) const fn night_c(entry: &Entry) -> Option<f64> {
    if let Kind::Climate { night_c, .. } = &entry.kind { *night_c } else { None }
}
