//! `too-dry`: a mix left at 1.
//!
//! **Sees** water 1 on two days of three with no watering between, the later of them in force; or leaves wilted on a day
//! whose water in force is 1, while the sign counts.
//! **Why** under long drought lower leaves yellow and drop, middle leaves curl and scorch (Purdue, production problems, 2008;
//! Iowa State).
//! **Level** act; urgent when wilted.
//! **Ends** with a watering logged after it, or a later reading over 1: what was asked for has then been done. Past the days of
//! the reading it stands, and says since when nobody read it, while the bench is walked; else `not-walked` says it.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::dates::days_between;
use crate::record::{Entry, KindName, LeafSign};
use crate::warnings::bench_day::Reading;
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `too-dry`.
pub(super) static RULE: Rule = Rule {
    name: N::TooDry,
    code: "too-dry",
    find: Find::Bench(rule),
    cause: Cause::Dry,
    class: Class::State,
    title: "too dry",
    why: "Drying out burns roots and drops lower leaves.",
    next: &[
        Step::water("Water first thing; use tepid water if the mix is bone dry."),
        Step::check("Look for a blocked emitter or a bench end the water misses."),
    ],
    answers: &[Answer { title: "watered", remedy: Remedy::Entry(KindName::Watered) }],
    basis: PURDUE,
    signs: Some(Signs {
        leaves: &[LeafSign::Wilted, LeafSign::Rolled, LeafSign::LowerYellow],
        roots: false,
        but: &[Possible::UnderWatering],
    }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: true,
};

const PURDUE: Basis =
    Basis::Published("Purdue, poinsettia production problems 2008, and Iowa State: drought drops leaves");

/// Two days of three lie at most so many days apart.
const APART: i64 = 2;

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let dry_at = bench.limits().water.dry_at;
    let last = bench.standing_water().filter(|r| r.level <= dry_at && !bench.watered_after(r.entry.instant()));
    if let Some((wilted, reading)) = wilted_dry(bench) {
        let since = bench.sign_since(LeafSign::Wilted, wilted).max(reading.day);
        let warning = of_bench(bench, N::TooDry, Severity::Urgent, since).saw(reading.entry).saw(wilted);
        return Some(warning.carried(bench, wilted, bench.limits().water.leaves_days));
    }
    let last = last?;
    let first = bench.readings.iter().rev().filter(|r| r.day < last.day && r.level <= dry_at).find(|r| {
        let (from, to) = (r.entry.instant(), last.entry.instant());
        let watered = bench.waterings.iter().any(|w| w.instant() >= from && w.instant() <= to);
        days_between(r.day, last.day) <= APART && !watered
    })?;
    let warning = of_bench(bench, N::TooDry, Severity::Act, last.day);
    let warning = warning.saw(first.entry).saw(last.entry);
    Some(warning.carried(bench, last.entry, bench.limits().water.reading_days))
}

/// Wilting that still speaks, on a day that read 1, not answered since.
fn wilted_dry<'a>(bench: &BenchDay<'a>) -> Option<(&'a Entry, Reading<'a>)> {
    let dry_at = bench.limits().water.dry_at;
    let carried = || bench.standing_sign(LeafSign::Wilted).filter(|_| bench.carries_water());
    let wilted = bench.sign(LeafSign::Wilted).or_else(carried)?;
    let reading = bench.water_on(wilted.day()).filter(|r| r.level <= dry_at)?;
    let at = wilted.instant().max(reading.entry.instant());
    let later = bench.readings.last().is_some_and(|r| r.day > reading.day && r.level > dry_at);
    (!later && !bench.watered_after(at)).then_some((wilted, reading))
}
