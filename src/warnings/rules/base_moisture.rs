//! `wet-base` and `dry-base`: the state of the bottom of the pot. Top and bottom are two readings, never averaged.
//!
//! **Sees** the last reading of the base, however old: wet-base when it is 5 and 18 hours or more had gone since the last
//! watering logged before it, or none is logged; dry-base when it is 1. The base is asked for again on the card every day.
//! **Why** a base held soaked for more than "several hours" grows smooth water roots; one held dry grows none, and salts
//! gather (interview with a grower educator, 2019). Eighteen hours is a house rule for "several".
//! **Ends** with a newer reading of the base and with nothing else: what nobody felt again has not changed for sure.
//! **Class** state: it stands until a newer look of its kind.

use crate::limits::Water;
use crate::record::KindName;
use crate::warnings::bench_day::Reading;
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, CheckName, Class, Dry, Figure, Find, Recheck, Remedy, Rule, Severity, Step,
    Warning, WarningName as N,
};

/// Everything about `wet-base`.
pub(super) static WET: Rule = Rule {
    name: N::WetBase,
    code: "wet-base",
    find: Find::Bench(wet),
    cause: Cause::Wet,
    class: Class::State,
    title: "base soaked",
    why: "The top can feel right while the base stands in water and grows smooth water roots.",
    next: &[
        Step::hold("Do not water until the base reads 2.", Dry::Base),
        Step::check("Check that the pots drain and do not stand in a puddle."),
    ],
    answers: &[Answer { title: "water scored again", remedy: Remedy::Entry(KindName::Water) }],
    basis: INTERVIEW,
    signs: None,
    follow_up: None,
    recheck: DAILY,
    is_sick: false,
    house_wide: true,
};

/// Everything about `dry-base`.
pub(super) static DRY: Rule = Rule {
    name: N::DryBase,
    code: "dry-base",
    find: Find::Bench(dry),
    cause: Cause::Dry,
    class: Class::State,
    title: "base dry",
    why: "Roots do not grow into a dry base, and salts gather there.",
    next: &[Step::water("At the next watering, water until it drains.")],
    answers: &[Answer { title: "water scored again", remedy: Remedy::Entry(KindName::Water) }],
    basis: INTERVIEW,
    signs: None,
    follow_up: None,
    recheck: DAILY,
    is_sick: false,
    house_wide: true,
};

/// The base is felt every day until it has been.
const DAILY: &[Recheck] = &[Recheck { check: CheckName::Base, after: 1 }];

const INTERVIEW: Basis =
    Basis::Published("interview with a grower educator, trade press, 2019: read top and bottom separately");

const SATURATED: u8 = 5;

const PARCHED: u8 = 1;

fn base<'a>(bench: &BenchDay<'a>) -> Option<Reading<'a>> {
    bench.bases.last().copied()
}

fn wet(bench: &BenchDay<'_>) -> Option<Warning> {
    let base = base(bench).filter(|b| b.level >= SATURATED)?;
    let at = base.entry.instant();
    let before = bench.waterings.iter().rev().find(|w| w.instant() <= at);
    let hours = before.map(|w| (at - w.instant()).num_seconds() as f64 / 3600.0);
    if hours.is_some_and(|h| h < bench.limits().water.base_soaked_h) {
        return None;
    }
    let warning = of_bench(bench, N::WetBase, Severity::Act, base.day);
    let warning = warning.saw_all(before.copied()).saw(base.entry);
    let warning = warning.carried(bench, base.entry, bench.limits().water.reading_days);
    Some(match hours {
        Some(h) => warning.figure(Figure::HoursSinceWatering, h, bench.context.limit(Water::base_soaked_h)),
        None => warning.missing(crate::record::KindName::Watered, None),
    })
}

fn dry(bench: &BenchDay<'_>) -> Option<Warning> {
    let base = base(bench).filter(|b| b.level <= PARCHED)?;
    let warning = of_bench(bench, N::DryBase, Severity::Watch, base.day).saw(base.entry);
    Some(warning.carried(bench, base.entry, bench.limits().water.reading_days))
}
