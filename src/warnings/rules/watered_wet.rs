//! `watered-wet`: watering a mix that is wet already.
//!
//! **Sees** twice in 14 days: a watering (`watered`, `fed`, or a drench of 150 mL or more) on a day whose last reading before
//! it, that day or the day before, was 4-5; or a 5 read the day after a 4 with no watering logged between (a watering nobody
//! logged, a leak, a drip). A watering on a 4 and the 5 it makes the next day are one time, not two.
//! **Level** act where a watering is logged among them, or with three; two times known by readings alone are watched, for a reading
//! one class off looks the same.
//! **Why** one such watering is a slip, two are a habit, and habits rot roots.
//! **Numbers** all house rules.
//! **Ends** when the last 14 days hold fewer than two.
//! **Class** event: it fades by days.

use crate::dates::days_between;
use crate::record::{Entry, Kind, KindName, Place};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `watered-wet`.
pub(super) static RULE: Rule = Rule {
    name: N::WateredWet,
    code: "watered-wet",
    find: Find::Bench(rule),
    cause: Cause::Wet,
    class: Class::Event,
    title: "watered while wet",
    why: "Water on wet mix starts the rot that shows weeks later.",
    next: &[
        Step::todo("Lift a pot before you water: water only at 2 or less."),
        Step::todo("Tell everyone who waters which benches to skip."),
    ],
    answers: &[Answer { title: "roots checked", remedy: Remedy::Entry(KindName::Roots) }],
    basis: Basis::HouseRule,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: true,
};

/// One time: its day, the reading and the watering (or second reading) that shows it.
type Time<'a> = (NaiveDate, &'a Entry, &'a Entry);

/// Times that make a habit.
const TIMES: usize = 2;

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let window = bench.limits().water.watered_wet_days;
    let mut times: Vec<Time<'_>> = watered(bench, window);
    times.extend(unwritten(bench, window));
    times.sort_by_key(|t| (t.0, t.2.order()));
    times.dedup_by_key(|t| t.0);
    let (since, ..) = times.get(TIMES - 1).copied()?;
    let is_logged = times.iter().any(|(.., then)| then.name() != KindName::Water);
    let level = if is_logged || times.len() > TIMES { Severity::Act } else { Severity::Watch };
    let evidence = times.iter().rev().take(3).rev().flat_map(|(_, reading, then)| [*reading, *then]);
    Some(of_bench(bench, N::WateredWet, level, since).saw_all(evidence))
}

/// Waterings on a wet reading, one a day.
fn watered<'a>(bench: &BenchDay<'a>, window: i64) -> Vec<Time<'a>> {
    let wet_from = bench.limits().water.wet_from;
    let recent = bench.waterings.iter().rev().take_while(|w| bench.age(w) <= window);
    let time = |watering: &&'a Entry| {
        let readings = bench.of(KindName::Water).iter().rev();
        let before = readings.copied().find(|e| e.instant() <= watering.instant() && is_near(e, watering))?;
        let near = (0..=1).contains(&days_between(before.day(), watering.day()));
        let wet = matches!(*before.kind, Kind::Water { level, .. } if level >= wet_from);
        (near && wet).then_some((watering.day(), before, *watering))
    };
    recent.filter_map(time).collect()
}

/// False for what was written of two benches whose pots were later put together: the one's water says nothing of the other's.
fn is_near(reading: &Entry, watering: &Entry) -> bool {
    let both = matches!((&reading.place, &watering.place), (Place::Bench(_), Place::Bench(_)));
    !both || reading.place == watering.place
}

/// A 5 the day after a 4 that no written watering explains.
fn unwritten<'a>(bench: &BenchDay<'a>, window: i64) -> impl Iterator<Item = Time<'a>> {
    let wet_from = bench.limits().water.wet_from;
    let pairs = bench.readings.windows(2).filter_map(|pair| Some((pair.first()?, pair.last()?)));
    pairs.filter_map(move |(before, after)| {
        let next_day = days_between(before.day, after.day) == 1;
        let wetter = before.level >= wet_from && after.level > before.level;
        let (from, to) = (before.entry.instant(), after.entry.instant());
        let written = bench.waterings.iter().any(|w| w.instant() >= from && w.instant() <= to);
        (next_day && wetter && !written && days_between(after.day, bench.day()) <= window).then_some((
            after.day,
            before.entry,
            after.entry,
        ))
    })
}
