//! `pinch-due`, `pinch-overdue` and `pinched-in-error`.
//!
//! **Sees** a lot to be pinched on whose bench no pinch is written. Due (watch) from day 10 once roots are at the wall or base
//! (pinch only when roots reach the pot edge: a grower's guide), else from day 14 (University of Florida 2004: 12 to 14 days in
//! 14 crops). Where the roots were last seen in the center it says that they are slow, and to look again in 3 days.
//! Overdue (act) from day 21 (common practice), which replaces due. With under 7 days to the start of short days, or after it,
//! it says that it is late and what the choices are.
//! Pinched in error (act): pinched on a lot whose pinch is `none`; counted from the latest such pinch.
//! **Ends** with the pinch (or its strike); pinch warnings keep their level 7 days, then stand 7 more as watch: by then the
//! choice has been made, whether or not it was written.

use super::bench_day::BenchDay;
use super::builder::{days, of_bench, plus};
use super::{Basis, Figure, Level, Step, Warning, WarningName};
use crate::limits::Growth;
use crate::record::{Entry, Kind, KindName, Pinch, Reach};
use chrono::NaiveDate;

const SCHEDULES: Basis =
    Basis::Published("UF/IFAS 2004 schedules: 12 to 14 days; a grower's guide: once roots reach the edge");

/// The level of a warning that began on a day: its own, then watch, then nothing.
pub(super) fn fading(bench: &BenchDay<'_>, level: Level, began: NaiveDate) -> Option<Level> {
    let limits = &bench.limits().growth;
    match days(began, bench.day()) {
        n if n < 0 => None,
        n if n <= limits.stands => Some(level),
        n if n <= limits.stands + limits.lingers => Some(level.min(Level::Watch)),
        _ => None,
    }
}

pub(super) fn due(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().growth;
    if bench.lot.pinch == Pinch::None || bench.pinched().is_some() {
        return None;
    }
    let age = bench.crop_day();
    let seen = reach(bench);
    let rooted = seen.filter(|(_, r)| *r != Reach::Center);
    let day_of = |n: i64| plus(bench.lot.planted, n);
    let (name, level, since, key) = if age >= limits.pinch_overdue {
        let since = day_of(limits.pinch_overdue);
        (WarningName::PinchOverdue, fading(bench, Level::Act, since)?, since, Growth::pinch_overdue)
    } else if let Some((entry, _)) = rooted.filter(|_| age >= limits.pinch_rooted) {
        let since = entry.day().clamp(day_of(limits.pinch_rooted), day_of(limits.pinch_due.max(limits.pinch_rooted)));
        (WarningName::PinchDue, Level::Watch, since, Growth::pinch_rooted)
    } else if age >= limits.pinch_due {
        (WarningName::PinchDue, Level::Watch, day_of(limits.pinch_due), Growth::pinch_due)
    } else {
        return None;
    };
    let slow = seen.is_some_and(|(_, r)| r == Reach::Center);
    let left = bench.short_days().map(|sd| days(bench.day(), sd));
    let late = left.is_some_and(|n| n < limits.pinch_late);
    let warning = of_bench(bench, name, level, since)
        .saw_all(seen.map(|(e, _)| e))
        .figure(Figure::CropDay, age as f64, bench.context.limit(key))
        .step_if(slow, Step::SlowRoots)
        .step_if(late, Step::LatePinch);
    let warning = match left.filter(|_| late) {
        Some(n) => warning.figure(Figure::DaysToShortDays, n as f64, bench.context.limit(Growth::pinch_late)),
        None => warning,
    };
    let again = if slow { bench.in_days(limits.slow_roots) } else { bench.in_days(1) };
    Some(warning.again(again).on(SCHEDULES))
}

/// The latest roots check that says how far they reach.
fn reach<'a>(bench: &BenchDay<'a>) -> Option<(&'a Entry, Reach)> {
    bench.of(KindName::Roots).iter().rev().copied().find_map(|e| match &e.kind {
        Kind::Roots { reach: Some(reach), .. } => Some((e, *reach)),
        _ => None,
    })
}

pub(super) fn in_error(bench: &BenchDay<'_>) -> Option<Warning> {
    let pinched = bench.last(KindName::Pinched).filter(|_| bench.lot.pinch == Pinch::None)?;
    let level = fading(bench, Level::Act, pinched.day())?;
    let warning = of_bench(bench, WarningName::PinchedInError, level, pinched.day()).saw(pinched);
    Some(warning.on(Basis::CommonPractice))
}
