//! `growth-regulator-strong`: a treatment above its usual top, or on a bench under stress.
//!
//! **Sees** every `growth-regulator` entry of the last 14 days, each ingredient of its tank by itself: a spray, or a dose per pot,
//! above its usual top (chlormequat spray 1,500 ppm: Purdue 2010; the others stand in the limits, each with its source), or
//! applied on a bench that was wilted, dry (1) or at roots 2 or more at that moment. An ingredient not known here is not judged.
//! **Why** a strong one burns leaves and stops growth.
//! **Level** act for 7 days, then 7 more as watch. **Ends** then.
//! **Class** event: it fades by days.

use crate::crop::growth_regulator::{DoseUnit, Ingredient, Strong, strong};
use crate::dates::days_between;
use crate::record::{Entry, KindName, LeafSign};
use crate::units::{Concentration, Length, Volume};
use crate::warnings::bench_day::score;
use crate::warnings::builder::of_bench;
use crate::warnings::fading::fading;
use crate::warnings::treatments::{tank, treatments};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Limit, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `growth-regulator-strong`.
pub(super) static RULE: Rule = Rule {
    name: N::GrowthRegulatorStrong,
    code: "growth-regulator-strong",
    find: Find::Bench(rule),
    cause: Cause::Height,
    class: Class::Event,
    title: "growth regulator rate high",
    why: "Stronger than usual, or on plants under stress: leaves may burn and growth stop.",
    next: &[
        Step::check("Check the entry against what was mixed; look for burn in three to five days."),
        Step::todo("The label decides the rate."),
    ],
    answers: &[Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) }],
    basis: STRESS,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const STRESS: Basis =
    Basis::Published("Purdue 2010: yellow spots above 1,500 ppm; not on plants under stress: NC State trial");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    treatments(bench).find_map(|entry| {
        let level = fading(bench, Severity::Act, entry.day())?;
        let strong = strong_part(bench, entry);
        let stress = stress(bench, entry);
        if strong.is_none() && stress.is_empty() {
            return None;
        }
        let warning = of_bench(bench, N::GrowthRegulatorStrong, level, entry.day());
        let warning = warning.saw_all(stress).saw(entry).again(bench.in_days(3));
        Some(match strong {
            Some(s) => {
                let figure = if s.unit == DoseUnit::Ppm { Figure::Ppm } else { Figure::MgPerPot };
                let limit = Limit { value: s.top, ..s.limit };
                warning.figure(figure, s.given, Some(limit)).on(s.basis)
            }
            None => warning,
        })
    })
}

/// The ingredient of a tank that is furthest above its usual top.
fn strong_part(bench: &BenchDay<'_>, entry: &Entry) -> Option<Strong> {
    let (parts, method, ml) = tank(entry)?;
    let rim = bench.lot.rim_cm.map(Length::from_cm);
    let judged = parts.iter().filter_map(|part| {
        let ingredient = Ingredient::parse(&part.ai)?;
        strong((ingredient, method), bench.limits(), Concentration::from_ppm(part.ppm), ml.map(Volume::from_ml), rim)
    });
    judged.max_by(|a, b| (a.given / a.top).total_cmp(&(b.given / b.top)))
}

/// What says that the bench was under stress when it was treated.
fn stress<'a>(bench: &BenchDay<'a>, treated: &Entry) -> Vec<&'a Entry> {
    let limits = &bench.limits().water;
    let at = treated.instant();
    let before = |e: &Entry| e.instant() <= at;
    let wilted = bench.sign_on(LeafSign::Wilted, treated.day()).filter(|e| before(e));
    let dry = bench.readings.iter().rev().find(|r| before(r.entry)).filter(|r| {
        let watered = bench.waterings.iter().any(|w| w.instant() >= r.entry.instant() && w.instant() <= at);
        let fresh = days_between(r.day, treated.day()) <= limits.reading_days;
        fresh && r.level <= limits.dry_at && !watered
    });
    let roots = bench.of(KindName::Roots).iter().rev().copied().find(|e| before(e)).filter(|e| {
        let fresh = days_between(e.day(), treated.day()) <= limits.roots_days;
        fresh && score(e).is_some_and(|s| s >= limits.roots_watch)
    });
    wilted.into_iter().chain(dry.map(|r| r.entry)).chain(roots).collect()
}
