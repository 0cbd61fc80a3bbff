//! `pinch-due` and `pinch-overdue`: a pinch that the plan wants and nobody logged.
//!
//! **Sees** a lot to be pinched on whose bench no pinch is logged. Due (watch) from day 10 once roots are at the wall or base
//! (a grower's guide: no pinch before roots show at the pot wall), else from day 14 (University of Florida 2004: 12 to 14 days in
//! 14 crops). Where the roots were last seen in the center it says that they are slow, and to check again in 3 days.
//! Overdue (act) from day 15 with roots at the wall or base (Purdue 2008: 14 days from planting is the most recommended), else from
//! day 21 (common practice), which replaces due. With under 7 days to the start of short days, or after it,
//! it says that it is late and what the choices are.
//! Where the record began after the pinch was due it speaks only if the plan says that it was not made, and no more once short
//! days began.
//! **Ends** with the pinch. Overdue keeps its level until 7 days after day 21, then it is watched for 7 more and up to the start of
//! short days: by then the choice has been made, whether or not it was logged.
//! **Class** date: it stands until done or moot.

use crate::dates::{add_days, days_between};
use crate::limits::Growth;
use crate::record::{Entry, Kind, KindName, Reach};
use crate::warnings::builder::of_bench;
use crate::warnings::fading::fading;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `pinch-due`.
pub(super) static DUE: Rule = Rule {
    name: N::PinchDue,
    code: "pinch-due",
    find: Find::Bench(rule),
    cause: Cause::Pinch,
    class: Class::Date,
    title: "pinch due",
    why: "Roots at the pot wall support the breaks; every week of delay costs height and heads.",
    next: &[Step::todo("Pinch, and log the nodes left.")],
    answers: ANSWERS,
    basis: SCHEDULES,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// Everything about `pinch-overdue`.
pub(super) static OVERDUE: Rule = Rule {
    name: N::PinchOverdue,
    code: "pinch-overdue",
    find: Find::Twin(N::PinchDue),
    cause: Cause::Pinch,
    class: Class::Date,
    title: "pinch overdue",
    why: "Every week of delay costs height and heads before short days begin.",
    next: &[Step::todo("Pinch now, and log the nodes left.")],
    answers: ANSWERS,
    basis: SCHEDULES,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

impl Step {
    /// Roots slow: check again before the pinch.
    pub const SLOW_ROOTS: Self =
        Self::todo("Roots are slow: wait until they reach the pot wall; check again in three days.");
    /// Short days are near: pinching now costs height and heads.
    pub const LATE_PINCH: Self = Self::todo(
        "Short days are near: pinch now for fewer, shorter breaks, or leave it unpinched and sell it as a single.",
    );
}

/// The pinch, filled in as the plan has it.
const ANSWERS: &[Answer] = &[Answer { title: "pinched", remedy: Remedy::Pinch }];

const SCHEDULES: Basis = Basis::Published(
    "UF/IFAS 2004 schedules: 12 to 14 days; a grower's guide: no pinch before roots show at the pot wall",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().growth;
    if !bench.awaits_pinch() {
        return None;
    }
    let age = bench.crop_day();
    let seen = reach(bench);
    let rooted = seen.filter(|(_, r)| *r != Reach::Center);
    let day_of = |n: i64| add_days(bench.lot.planted, n);
    let (name, level, since, key) = if age >= limits.pinch_overdue {
        let since = overdue_rooted(bench).unwrap_or(day_of(limits.pinch_overdue));
        (N::PinchOverdue, overdue_level(bench)?, since, Growth::pinch_overdue)
    } else if let Some(since) = overdue_rooted(bench) {
        (N::PinchOverdue, Severity::Act, since, Growth::pinch_rooted_overdue)
    } else if let Some((entry, _)) = rooted.filter(|_| age >= limits.pinch_rooted) {
        let since = entry.day().clamp(day_of(limits.pinch_rooted), day_of(limits.pinch_due.max(limits.pinch_rooted)));
        (N::PinchDue, Severity::Watch, since, Growth::pinch_rooted)
    } else if age >= limits.pinch_due {
        (N::PinchDue, Severity::Watch, day_of(limits.pinch_due), Growth::pinch_due)
    } else {
        return None;
    };
    let slow = seen.is_some_and(|(_, r)| r == Reach::Center);
    let left = bench.short_days().map(|sd| days_between(bench.day(), sd));
    let late = left.is_some_and(|n| n < limits.pinch_late);
    let warning = of_bench(bench, name, level, since)
        .saw_all(seen.map(|(e, _)| e))
        .figure(Figure::CropDay, age as f64, bench.context.limit(key))
        .step_if(slow, Step::SLOW_ROOTS)
        .step_if(late, Step::LATE_PINCH);
    let warning = match left.filter(|_| late) {
        Some(n) => warning.figure(Figure::DaysToShortDays, n as f64, bench.context.limit(Growth::pinch_late)),
        None => warning,
    };
    let again = if slow { bench.in_days(limits.slow_roots) } else { bench.in_days(1) };
    Some(warning.again(again))
}

/// The first day on which roots at the wall or base made the pinch overdue, where the latest reach still is there.
fn overdue_rooted(bench: &BenchDay<'_>) -> Option<NaiveDate> {
    reach(bench).filter(|(_, reach)| *reach != Reach::Center)?;
    let rooted = |e: &&&Entry| matches!(*e.kind, Kind::Roots { reach: Some(Reach::Wall | Reach::Base), .. });
    let first = bench.of(KindName::Roots).iter().find(rooted)?;
    let limits = &bench.limits().growth;
    let from = limits.pinch_rooted_overdue.min(limits.pinch_overdue);
    let since = first.day().max(add_days(bench.lot.planted, from));
    (since <= bench.day() && since <= add_days(bench.lot.planted, limits.pinch_overdue)).then_some(since)
}

/// The level of an overdue pinch from the day on which it is overdue whatever the roots: its own, then watch, up to the start of
/// short days at least.
fn overdue_level(bench: &BenchDay<'_>) -> Option<Severity> {
    let from = add_days(bench.lot.planted, bench.limits().growth.pinch_overdue);
    let open = || bench.short_days().is_some_and(|start| bench.day() < start).then_some(Severity::Watch);
    fading(bench, Severity::Act, from).or_else(open)
}

/// The latest roots check that says how far they reach.
fn reach<'a>(bench: &BenchDay<'a>) -> Option<(&'a Entry, Reach)> {
    bench.of(KindName::Roots).iter().rev().copied().find_map(|e| match &*e.kind {
        Kind::Roots { reach: Some(reach), .. } => Some((e, *reach)),
        _ => None,
    })
}
