//! When the color comes: response weeks from the start of short days, moved by every stage and temperature written.
//!
//! First color at 56% and cyathia at 65% of the response (J. Barrett, Florida, about 2008, scaled, low confidence); full color
//! at 86% (house rule). Temperatures written on enough days since the start of short days place the lot in the table.

use super::BenchDay;
use super::bench_day::stage;
use super::temperatures::means;
use crate::crop::color::{Forecast, Look, forecast};
use crate::record::KindName;
use crate::units::Temperature;
use chrono::NaiveDate;

/// The forecast as the looks and temperatures written up to the day have moved it.
pub(super) fn expected(bench: &BenchDay<'_>) -> Option<Forecast> {
    let short_days = bench.short_days()?;
    forecast(short_days, bench.lot.response_weeks, mean_since(bench, short_days), &looks(bench)).ok()
}

/// Every look at the bracts, oldest first.
pub(super) fn looks(bench: &BenchDay<'_>) -> Vec<Look> {
    bench.of(KindName::Bracts).iter().filter_map(|e| stage(e).map(|stage| Look { day: e.day(), stage })).collect()
}

/// The mean over 24 hours since a day, where enough days have both temperatures.
pub(super) fn mean_since(bench: &BenchDay<'_>, from: NaiveDate) -> Option<Temperature> {
    let means: Vec<f64> = means(bench).filter(|(e, _)| e.day() >= from).map(|(_, c)| c).collect();
    let enough = usize::try_from(bench.limits().light.forecast_days).ok()?;
    (means.len() >= enough.max(1)).then(|| Temperature::from_c(means.iter().sum::<f64>() / means.len() as f64))
}
