//! `color-behind`: the color against the sale.
//!
//! **Sees** the color forecast (see `color_forecast`): the likely day of full color (from which the crop can be sold) is after the
//! sale: act; only the end of its range is: watch. Or a stage is 10 days late against the plan's day (the response at its usual
//! temperature, without looks): the next one still missing at a look of the last 14 days, or the one reached seen that late,
//! after a look that missed it: watch.
//! **Why** at this pace the lot is ready after its sale date. **Numbers** the forecast's; days: house rule.
//! **Ends** when full color is seen.
//! **Class** date: it stands until done or moot.

use crate::crop::color::{Forecast, Look, Milestone};
use crate::dates::days_between;
use crate::limits::Light;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::color_forecast::{ColorRecord, planned};
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
        Step::check("Check the temperatures written against the plan: cool days and hot ones both hold color back."),
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
    "J. Barrett, University of Florida, about 2008 (one cultivar, low confidence); UNH temperature table; days: Benchwalk's rule of thumb",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    if bench.stage_reached().is_some_and(|(_, s)| s >= Milestone::FullColor.stage()) {
        return None;
    }
    let record = ColorRecord::of(bench)?;
    let moved = record.expected()?;
    let full = moved.of(Milestone::FullColor);
    let last = bench.last(KindName::Bracts);
    let expected = Evidence::Color { milestone: Milestone::FullColor, days: full, temperatures: moved.temperatures };
    if full.high > bench.lot.ready_by {
        let after = full.likely > bench.lot.ready_by;
        let (level, day) = if after { (Severity::Act, full.likely) } else { (Severity::Watch, full.high) };
        let warning = of_bench(bench, N::ColorBehind, level, began(bench, &record)).saw_all(last).also(expected);
        let late = days_between(bench.lot.ready_by, day) as f64;
        return Some(warning.figure(Figure::DelayDays, late, None).again(bench.in_days(7)));
    }
    let (seen, late) = late_stage(bench, &record, last?)?;
    (late >= limits.stage_late).then(|| {
        let warning = of_bench(bench, N::ColorBehind, Severity::Watch, seen.day()).saw(seen);
        let warning = warning.figure(Figure::DelayDays, late as f64, bench.context.limit(Light::stage_late));
        warning.also(expected).again(bench.in_days(7))
    })
}

/// The look that shows a stage late against the plan, and how late, while the last look speaks: the next stage still missing, or
/// the one reached seen late.
fn late_stage<'a>(bench: &BenchDay<'a>, record: &ColorRecord, last: &'a Entry) -> Option<(&'a Entry, i64)> {
    if bench.age(last) > bench.limits().light.reading_days {
        return None;
    }
    let planned = planned(bench)?;
    let late = |milestone, day| days_between(planned.of(milestone).likely, day);
    let reached = record.looks.last()?.stage;
    let missing = Milestone::ALL.into_iter().find(|m| m.stage() > reached).map(|m| (last, late(m, last.day())));
    let seen = Milestone::ALL.into_iter().rev().find(|m| m.stage() <= reached);
    let seen = seen
        .and_then(|m| Some((bench.first_stage(m.stage())?, m)))
        .filter(|(e, m)| was_missed(record, &planned, *m, e));
    missing.into_iter().chain(seen.map(|(e, m)| (e, late(m, e.day())))).max_by_key(|(_, late)| *late)
}

/// True where a look from the plan's day on did not show a stage yet: a first look that comes late says nothing of when it came.
fn was_missed(record: &ColorRecord, planned: &Forecast, milestone: Milestone, first: &Entry) -> bool {
    let before = |look: &&Look| look.day >= planned.of(milestone).likely && look.day < first.day();
    record.looks.iter().any(|look| before(&look) && look.stage < milestone.stage())
}

/// The day from which the range has ended after the sale on every day since; the lot's planting where it did before anything was
/// written.
fn began(bench: &BenchDay<'_>, record: &ColorRecord) -> NaiveDate {
    let late = |day: &NaiveDate| record.expected_on(*day).is_some_and(|f| f.full_color.high > bench.lot.ready_by);
    let days =
        std::iter::successors(Some(bench.day()), NaiveDate::pred_opt).take_while(|day| *day >= record.short_days);
    match days.take_while(late).last() {
        Some(first) if first > record.short_days => first,
        _ if planned(bench).is_some_and(|f| f.full_color.high > bench.lot.ready_by) => {
            bench.counted_from(bench.lot.planted)
        }
        first => first.unwrap_or_else(|| bench.day()),
    }
}
