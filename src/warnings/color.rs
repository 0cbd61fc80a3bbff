//! `color-behind` and `color-ahead`: the color against the sale.
//!
//! **Sees** the forecast (response weeks from the start of short days; first color at 56 % and cyathia at 65 % of them: J. Barrett,
//! Florida, about 2008, scaled, low confidence; full color at 86 %: house rule), its range from the temperature table, moved by
//! every stage seen. Temperatures written on 7 days or more since the start of short days place the lot in the table.
//! - **behind**: the range for full color (from which the crop can be sold) ends after the sale: act; watch while nothing
//!   was seen yet, no temperature is written and the middle of the range is in time. Or the next stage, still
//!   missing at a look of the last 14 days, is 10 days late against the forecast as it was before any look: watch.
//! - **ahead** (watch): stage 4 or more, seen within 14 days, with more than 21 days to the sale.
//!
//! **Ends** when full color is seen (behind), or as the sale comes near (ahead).

use super::bench_day::{BenchDay, stage};
use super::builder::{days, of_bench};
use super::{Basis, Evidence, Figure, Level, Warning, WarningName};
use crate::crop::color::{Forecast, Look, Milestone, forecast};
use crate::limits::Light;
use crate::record::{Entry, KindName};
use crate::units::Temperature;
use chrono::NaiveDate;

const FORECAST: Basis = Basis::Published(
    "J. Barrett, University of Florida, about 2008 (scaled, low confidence); UNH temperature table; days: house rule",
);
/// Bracts fully colored.
const FULL: u8 = 4;

/// The forecast as the looks and temperatures written up to the day have moved it.
pub(super) fn expected(bench: &BenchDay<'_>) -> Option<Forecast> {
    let short_days = bench.short_days()?;
    forecast(short_days, bench.lot.response_weeks, mean_since(bench, short_days), &looks(bench)).ok()
}

/// Every look at the bracts, oldest first.
fn looks(bench: &BenchDay<'_>) -> Vec<Look> {
    bench.of(KindName::Bracts).iter().filter_map(|e| stage(e).map(|stage| Look { day: e.day(), stage })).collect()
}

pub(super) fn behind(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let short_days = bench.short_days()?;
    if bench.stage_reached().is_some_and(|(_, s)| s >= FULL) {
        return None;
    }
    let looks = looks(bench);
    let temperature = mean_since(bench, short_days);
    let weeks = bench.lot.response_weeks;
    let moved = forecast(short_days, weeks, temperature, &looks).ok()?;
    let full = moved.of(Milestone::FullColor);
    let last = bench.last(KindName::Bracts);
    if full.high > bench.lot.ready_by {
        let since = began(
            bench,
            |looks| {
                forecast(short_days, weeks, temperature, looks)
                    .ok()
                    .is_some_and(|f| f.full_color.high > bench.lot.ready_by)
            },
            &looks,
        );
        // With nothing seen and no temperature written the range is the table's whole width: that alone is no reason to act.
        let known = !looks.is_empty() || temperature.is_some() || full.likely > bench.lot.ready_by;
        let level = if known { Level::Act } else { Level::Watch };
        let warning = of_bench(bench, WarningName::ColorBehind, level, since).saw_all(last);
        let warning = warning.also(Evidence::Forecast { from: full.low, to: full.high });
        let late = days(bench.lot.ready_by, full.high) as f64;
        return Some(warning.figure(Figure::DelayDays, late, None).again(bench.in_days(7)).on(FORECAST));
    }
    let unmoved = forecast(short_days, weeks, temperature, &[]).ok()?;
    let (seen, late) = late_stage(bench, &unmoved, last?)?;
    (late >= limits.stage_late).then(|| {
        let warning = of_bench(bench, WarningName::ColorBehind, Level::Watch, seen.day()).saw(seen);
        let warning = warning.figure(Figure::DelayDays, late as f64, bench.context.limit(Light::stage_late));
        warning.also(Evidence::Forecast { from: full.low, to: full.high }).again(bench.in_days(7)).on(FORECAST)
    })
}

/// How late the next stage is at the last look, while that speaks.
fn late_stage<'a>(bench: &BenchDay<'a>, unmoved: &Forecast, last: &'a Entry) -> Option<(&'a Entry, i64)> {
    if bench.age(last) > bench.limits().light.reading_days {
        return None;
    }
    let reached = stage(last)?;
    let next = Milestone::ALL.into_iter().find(|m| m.stage() > reached)?;
    Some((last, days(unmoved.of(next).likely, last.day())))
}

/// The day of the first look from which a condition has held at every look since; the lot's planting where it held before any.
fn began(bench: &BenchDay<'_>, holds: impl Fn(&[Look]) -> bool, looks: &[Look]) -> NaiveDate {
    let held = (0..=looks.len()).rev().take_while(|n| looks.get(..*n).is_some_and(&holds)).last();
    let first = held.and_then(|n| n.checked_sub(1)).and_then(|n| looks.get(n));
    first.map_or(bench.lot.planted, |l| l.day)
}

/// The mean over 24 hours since a day, where enough days have both temperatures.
fn mean_since(bench: &BenchDay<'_>, from: NaiveDate) -> Option<Temperature> {
    let means: Vec<f64> = super::climate::means(bench).filter(|(e, _)| e.day() >= from).map(|(_, c)| c).collect();
    let enough = usize::try_from(bench.limits().light.forecast_days).ok()?;
    (means.len() >= enough.max(1)).then(|| Temperature::from_c(means.iter().sum::<f64>() / means.len() as f64))
}

pub(super) fn ahead(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let (look, _) = bench.stage_within(limits.reading_days).filter(|(_, s)| *s >= FULL)?;
    let left = bench.days_to_sale();
    (left > limits.ahead_days).then(|| {
        let since = bench.first_stage(FULL).map_or_else(|| look.day(), Entry::day);
        let warning = of_bench(bench, WarningName::ColorAhead, Level::Watch, since).saw(look);
        let warning = warning.figure(Figure::DaysToSale, left as f64, bench.context.limit(Light::ahead_days));
        warning.again(bench.in_days(7)).on(Basis::HouseRule)
    })
}
