//! When the color comes: response weeks from the start of short days, every day counted by its temperature, moved by every stage
//! seen.
//!
//! Temperatures are the 24-hour means of the bench's house, by day and night hours; of several on a day their mean. A day gone by
//! without one counts as a usual day of the lot.

use super::BenchDay;
use super::bench_day::stage;
use super::temperatures::means;
use crate::crop::color::{Forecast, Look, MOST_DAYS, Response, forecast};
use crate::dates::days_between;
use crate::record::{KindName, Lot};
use crate::units::Temperature;
use chrono::NaiveDate;

/// What the forecast of a bench goes by.
#[derive(Debug, Clone)]
pub(super) struct ColorRecord {
    /// The start of short days.
    pub(super) short_days: NaiveDate,
    response: Response,
    /// The mean over 24 hours of each day gone by since then, °C.
    days_c: Vec<Option<f64>>,
    /// Every look at the bracts, oldest first.
    pub(super) looks: Vec<Look>,
}

impl ColorRecord {
    /// Of a bench on its day; `None` where its nights never get long enough.
    pub(super) fn of(bench: &BenchDay<'_>) -> Option<Self> {
        let short_days = bench.short_days()?;
        let bracts = bench.of(KindName::Bracts).iter();
        let looks = bracts.filter_map(|e| stage(e).map(|stage| Look { day: e.day(), stage })).collect();
        Some(Self { short_days, response: response(bench.lot), days_c: daily_means(bench, short_days), looks })
    }

    /// The forecast as everything written has moved it.
    pub(super) fn expected(&self) -> Option<Forecast> {
        forecast(self.short_days, self.response, &self.days_c, &self.looks).ok()
    }

    /// The same as it was at the end of a day.
    pub(super) fn expected_on(&self, day: NaiveDate) -> Option<Forecast> {
        let gone = usize::try_from(days_between(self.short_days, day).saturating_add(1)).unwrap_or(0);
        let looked = self.looks.partition_point(|look| look.day <= day);
        let days_c = self.days_c.get(..gone).unwrap_or(&self.days_c);
        forecast(self.short_days, self.response, days_c, self.looks.get(..looked).unwrap_or(&self.looks)).ok()
    }
}

/// The plan's days: usual ones all along, nothing seen.
pub(super) fn planned(bench: &BenchDay<'_>) -> Option<Forecast> {
    forecast(bench.short_days()?, response(bench.lot), &[], &[]).ok()
}

/// The forecast as the looks and temperatures written up to the day have moved it.
pub(super) fn expected(bench: &BenchDay<'_>) -> Option<Forecast> {
    ColorRecord::of(bench)?.expected()
}

/// How long a lot takes, by its plan.
fn response(lot: &Lot) -> Response {
    Response { weeks: lot.response_weeks, mean: lot.response_c.map(Temperature::from_c) }
}

/// The mean of each day from a day to yesterday, and to today where it is written.
fn daily_means(bench: &BenchDay<'_>, from: NaiveDate) -> Vec<Option<f64>> {
    let gone = usize::try_from(days_between(from, bench.day())).unwrap_or(0).min(MOST_DAYS);
    let mut days: Vec<Option<(f64, u32)>> = vec![None; gone];
    for (entry, mean) in means(bench) {
        let Ok(at) = usize::try_from(days_between(from, entry.day())) else { continue };
        if at == days.len() && entry.day() == bench.day() {
            days.push(None);
        }
        if let Some(day) = days.get_mut(at) {
            let (sum, count) = day.unwrap_or_default();
            *day = Some((sum + mean, count.saturating_add(1)));
        }
    }
    days.into_iter().map(|day| day.map(|(sum, count)| sum / f64::from(count))).collect()
}
