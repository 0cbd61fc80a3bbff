//! `color-behind`: the color against the sale.
//!
//! **Sees** the color forecast (see `color_forecast`): the range for full color (from which the crop can be sold) ends after the
//! sale: act; watch while nothing was seen yet, no temperature is logged and the middle of the range is in time. Or the next
//! stage, still missing at a look of the last 14 days, is 10 days late against the forecast as it was before any look: watch.
//! **Why** at this pace the lot is ready after its sale date. **Numbers** the forecast's; days: house rule.
//! **Ends** when full color is seen.
//! **Class** date: it stands until done or moot.

use crate::crop::color::{Forecast, Look, Milestone, forecast};
use crate::dates::days_between;
use crate::limits::Light;
use crate::record::{Entry, KindName};
use crate::warnings::bench_day::stage;
use crate::warnings::builder::of_bench;
use crate::warnings::color_forecast::{looks, mean_since};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Evidence, Figure, Find, Remedy, Rule, Severity, Step, Warning,
    WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `color-behind`.
pub(super) static RULE: Rule = Rule {
    name: N::ColorBehind,
    code: "color-behind",
    find: Find::Bench(rule),
    cause: Cause::Color,
    class: Class::Date,
    title: "color running late",
    why: "At this pace the lot will be ready after its sale date.",
    next: &[
        Step::todo("Keep nights long, dark and at temperature; tell the buyer early."),
        Step::check("Check for stray light and warm nights."),
    ],
    answers: &[Answer { title: "bracts scored", remedy: Remedy::Entry(KindName::Bracts) }],
    basis: FORECAST,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const FORECAST: Basis = Basis::Published(
    "J. Barrett, University of Florida, about 2008 (scaled, low confidence); UNH temperature table; days: Benchwalk's rule of thumb",
);

/// Bracts fully colored.
const FULL: u8 = 4;

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
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
        let level = if known { Severity::Act } else { Severity::Watch };
        let warning = of_bench(bench, N::ColorBehind, level, since).saw_all(last);
        let warning = warning.also(Evidence::Forecast { from: full.low, to: full.high });
        let late = days_between(bench.lot.ready_by, full.high) as f64;
        return Some(warning.figure(Figure::DelayDays, late, None).again(bench.in_days(7)));
    }
    let unmoved = forecast(short_days, weeks, temperature, &[]).ok()?;
    let (seen, late) = late_stage(bench, &unmoved, last?)?;
    (late >= limits.stage_late).then(|| {
        let warning = of_bench(bench, N::ColorBehind, Severity::Watch, seen.day()).saw(seen);
        let warning = warning.figure(Figure::DelayDays, late as f64, bench.context.limit(Light::stage_late));
        warning.also(Evidence::Forecast { from: full.low, to: full.high }).again(bench.in_days(7))
    })
}

/// How late the next stage is at the last look, while that speaks.
fn late_stage<'a>(bench: &BenchDay<'a>, unmoved: &Forecast, last: &'a Entry) -> Option<(&'a Entry, i64)> {
    if bench.age(last) > bench.limits().light.reading_days {
        return None;
    }
    let reached = stage(last)?;
    let next = Milestone::ALL.into_iter().find(|m| m.stage() > reached)?;
    Some((last, days_between(unmoved.of(next).likely, last.day())))
}

/// The day of the first look from which a condition has held at every look since; the lot's planting where it held before any.
fn began(bench: &BenchDay<'_>, holds: impl Fn(&[Look]) -> bool, looks: &[Look]) -> NaiveDate {
    let held = (0..=looks.len()).rev().take_while(|n| looks.get(..*n).is_some_and(&holds)).last();
    let first = held.and_then(|n| n.checked_sub(1)).and_then(|n| looks.get(n));
    first.map_or_else(|| bench.counted_from(bench.lot.planted), |l| l.day)
}
