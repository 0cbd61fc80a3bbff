//! `heat-delay`, `cold-nights` and `mold-weather`: what the climate readings say.
//!
//! - **heat-delay**: in the first 28 days of short days nights of 24 °C or more on 3 days, or one 24-hour mean of 26 °C or more
//!   (R. Kobayashi: over 79 °F): act. A night over 22 °C there: watch (classic texts put the limit at 65-70 °F, chamber work
//!   near 79-82: caution first). A bud seen before the color is the sign of heat at any time (Florida, about 2008): act. Heat
//!   warnings keep their level 7 days after the last such day, then stand 7 more as watch.
//! - **cold-nights**: a night under 10 °C (UMass, Purdue 2012, Delaware: harm, worse with time), while a reading speaks (3 days):
//!   urgent. 24-hour means under 16 °C on 3 days between first color and stage 4, the last of them 3 days ago at most: watch
//!   (Clemson 2011: 15.5 °C left bracts under market size).
//! - **mold-weather**: from stage 2 on, humidity over 85 % read after 10:00 on 2 of 3 days (Georgia 2023; the hours are ours),
//!   the last of them speaking, or wet bracts seen: act; urgent with gray fuzz.
//!
//! A 24-hour mean weighs day and night by the hours of that day's sun; where those are unknown, evenly.

use super::bench_day::BenchDay;
use super::builder::{days, of_bench};
use super::pinch::fading;
use super::{Basis, Figure, Level, Warning, WarningName};
use crate::crop::climate::average_daily_temperature;
use crate::limits::{Key, Light};
use crate::record::{Entry, Kind, KindName, LeafSign};
use crate::units::Temperature;
use chrono::{NaiveDate, Timelike};

const HEAT: Basis =
    Basis::Published("R. Kobayashi (79 °F), Clemson chamber work, J. Barrett about 2008; days: house rule");
const COLD: Basis =
    Basis::Published("UMass, Purdue 2012, Delaware: harm under 50 °F; Clemson 2011: 15.5 °C from first color");
const GRAY: Basis = Basis::Published("University of Georgia 2023: over 85 % humidity; the hours are a house rule");

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

const fn night_c(entry: &Entry) -> Option<f64> {
    if let Kind::Climate { night_c, .. } = &entry.kind { *night_c } else { None }
}

pub(super) fn heat(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let told = hot_days(bench).into_iter().chain(warm_night(bench)).chain(bud_first(bench));
    let strongest = told.filter_map(|(level, seen, figure)| {
        let began = seen.last()?.day();
        Some((fading(bench, level, began)?, seen, figure))
    });
    let (level, seen, figure) = strongest.max_by_key(|(level, seen, _)| (*level, seen.last().map(|e| e.day())))?;
    let since = seen.first()?.day();
    let warning = of_bench(bench, WarningName::HeatDelay, level, since).saw_all(seen);
    let warning = match figure {
        Some((value, key)) => warning.figure(Figure::Celsius, value, bench.context.limit(key)),
        None => warning,
    };
    Some(warning.again(bench.in_days(limits.climate_days)).on(HEAT))
}

/// A level, what was seen, and the number it is held against.
type Heat<'a> = (Level, Vec<&'a Entry>, Option<(f64, Key<f64>)>);

/// Climate entries of the first days of short days.
fn in_window(bench: &BenchDay<'_>, day: NaiveDate) -> bool {
    bench.short_days().is_some_and(|sd| (0..bench.limits().light.heat_days).contains(&days(sd, day)))
}

/// Hot nights on enough days, or a hot mean.
fn hot_days<'a>(bench: &BenchDay<'a>) -> Vec<Heat<'a>> {
    let limits = &bench.limits().light;
    let mut found: Vec<Heat<'a>> = Vec::new();
    let mut nights: Vec<&'a Entry> = Vec::new();
    for entry in bench.of(KindName::Climate).iter().copied().filter(|e| in_window(bench, e.day())) {
        let hot = night_c(entry).is_some_and(|c| c >= limits.heat_night_c);
        if hot && nights.last().is_none_or(|n| n.day() != entry.day()) {
            nights.push(entry);
        }
    }
    if nights.len() >= usize::try_from(limits.heat_nights).unwrap_or(usize::MAX) {
        let last = nights.last().and_then(|e| night_c(e)).unwrap_or_default();
        found.push((Level::Act, nights, Some((last, Light::heat_night_c))));
    }
    let mean = means(bench).filter(|(e, c)| in_window(bench, e.day()) && *c >= limits.heat_mean_c).last();
    found.extend(mean.map(|(e, c)| (Level::Act, vec![e], Some((c, Light::heat_mean_c)))));
    found
}

fn warm_night<'a>(bench: &BenchDay<'a>) -> Option<Heat<'a>> {
    let limits = &bench.limits().light;
    let nights = bench.of(KindName::Climate).iter().rev().copied().filter(|e| in_window(bench, e.day()));
    let mut warm = nights.filter_map(|e| night_c(e).filter(|c| *c > limits.warm_night_c).map(|c| (e, c)));
    warm.next().map(|(e, c)| (Level::Watch, vec![e], Some((c, Light::warm_night_c))))
}

/// A bud before the color: the latest look that saw it.
fn bud_first<'a>(bench: &BenchDay<'a>) -> Option<Heat<'a>> {
    let looks = bench.of(KindName::Leaves).iter().rev().copied();
    let seen = looks.into_iter().find(|e| super::bench_day::has_sign(e, LeafSign::BudBeforeColor))?;
    Some((Level::Act, vec![seen], None))
}

pub(super) fn cold(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let recent = |e: &Entry| bench.age(e) <= limits.climate_days;
    let nights = bench.of(KindName::Climate).iter().copied().filter(|e| recent(e));
    let frost: Vec<(&Entry, f64)> =
        nights.filter_map(|e| night_c(e).filter(|c| *c < limits.cold_night_c).map(|c| (e, c))).collect();
    if let (Some((first, _)), Some((_, coldest))) = (frost.first(), frost.iter().min_by(|a, b| a.1.total_cmp(&b.1))) {
        let warning = of_bench(bench, WarningName::ColdNights, Level::Urgent, first.day());
        let warning = warning.saw_all(frost.iter().map(|(e, _)| *e));
        return Some(warning.figure(Figure::Celsius, *coldest, bench.context.limit(Light::cold_night_c)).on(COLD));
    }
    let (from, to) = (bench.first_stage(2)?.day(), bench.first_stage(4).map(Entry::day));
    let mut cool: Vec<(&Entry, f64)> = means(bench)
        .filter(|(e, c)| *c < limits.cool_mean_c && e.day() >= from && to.is_none_or(|to| e.day() < to))
        .collect();
    cool.dedup_by_key(|(e, _)| e.day());
    let enough = cool.len() >= usize::try_from(limits.cool_means).unwrap_or(usize::MAX);
    let (last, mean) = *cool.last().filter(|(e, _)| enough && recent(e))?;
    let since = cool.get(cool.len().saturating_sub(3)).map_or_else(|| last.day(), |(e, _)| e.day());
    let warning = of_bench(bench, WarningName::ColdNights, Level::Watch, since);
    let warning = warning.saw_all(cool.iter().rev().take(3).rev().map(|(e, _)| *e));
    Some(warning.figure(Figure::Celsius, mean, bench.context.limit(Light::cool_mean_c)).on(COLD))
}

pub(super) fn mold(bench: &BenchDay<'_>) -> Option<Warning> {
    bench.stage_reached().filter(|(_, s)| *s > 1)?;
    let wet = bench.sign(LeafSign::WetBracts);
    let damp = damp_days(bench);
    if wet.is_none() && damp.is_empty() {
        return None;
    }
    let fuzz = bench.sign(LeafSign::GrayFuzz);
    let level = if fuzz.is_some() { Level::Urgent } else { Level::Act };
    let mut seen: Vec<&Entry> = damp.iter().map(|(e, _)| *e).chain(wet).chain(fuzz).collect();
    seen.sort_by_key(|e| e.order());
    seen.dedup_by_key(|e| e.id);
    let since = seen.first()?.day();
    let warning = of_bench(bench, WarningName::MoldWeather, level, since).saw_all(seen);
    let worst = damp.iter().map(|(_, p)| *p).max_by(f64::total_cmp);
    Some(
        match worst {
            Some(percent) => warning.figure(Figure::Humidity, percent, bench.context.limit(Light::damp_percent)),
            None => warning,
        }
        .on(GRAY),
    )
}

/// Damp readings on enough of three days running, the last of them speaking; else none.
fn damp_days<'a>(bench: &BenchDay<'a>) -> Vec<(&'a Entry, f64)> {
    let limits = &bench.limits().light;
    let is_damp = |e: &&'a Entry| match e.kind {
        Kind::Climate { humidity_percent: Some(percent), .. } => {
            let time = e.at.time();
            let after = time.num_seconds_from_midnight() > limits.damp_hour.saturating_mul(3600);
            (after && percent > limits.damp_percent).then_some((*e, percent))
        }
        _ => None,
    };
    let mut damp: Vec<(&Entry, f64)> = bench.of(KindName::Climate).iter().filter_map(is_damp).collect();
    damp.dedup_by_key(|(e, _)| e.day());
    let Some((last, _)) = damp.last().copied().filter(|(e, _)| bench.age(e) <= limits.climate_days) else {
        return Vec::new();
    };
    damp.retain(|(e, _)| days(e.day(), last.day()) <= 2);
    if damp.len() >= usize::try_from(limits.damp_days).unwrap_or(usize::MAX) { damp } else { Vec::new() }
}
