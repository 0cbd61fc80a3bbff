//! `growth-regulator-late`: a treatment after its last safe day.
//!
//! **Sees** every `growth-regulator` entry of the last 14 days, each ingredient of its tank by itself: applied after its last safe
//! day. Sprays of daminozide, paclobutrazol or uniconazole from the start of short days (Florida about 2009, 1998); chlormequat
//! sprays from 14 days after it, and from October 15 where the region is cool (the days a house rule, from Florida about 2009;
//! UMass 1999), whichever comes first; ethephon within 6 weeks of the sale (growth regulator chapter, Virginia Tech and NC State).
//! Late drenches of paclobutrazol have no cut-off (Florida). An ingredient not known here is not judged: its label is all there
//! is to go by.
//! **Why** a late spray makes small bracts and late color.
//! **Level** act for 7 days, then 7 more as watch. **Ends** then.
//! **Class** event: it fades by days.

use crate::crop::growth_regulator::{Cutoff, Ingredient, cutoff};
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::fading::fading;
use crate::warnings::treatments::{last_safe_rules, region, tank, treatments};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Evidence, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `growth-regulator-late`.
pub(super) static RULE: Rule = Rule {
    name: N::GrowthRegulatorLate,
    code: "growth-regulator-late",
    find: Find::Bench(rule),
    cause: Cause::Height,
    class: Class::Event,
    title: "growth regulator late",
    why: "After this day it causes small bracts and delays color.",
    next: &[Step::todo("Do not repeat it; watch bract size and color.")],
    answers: &[Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) }],
    basis: LATE,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const LATE: Basis = Basis::Published(
    "UF/IFAS 1998 and about 2009; UMass 1999; Virginia Tech and NC State; 14 days: Benchwalk's rule of thumb",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    treatments(bench).find_map(|entry| {
        let day = first_late(bench, entry)?;
        let level = fading(bench, Severity::Act, entry.day())?;
        let last = day.pred_opt().unwrap_or(day);
        let warning = of_bench(bench, N::GrowthRegulatorLate, level, entry.day());
        let warning = warning.saw(entry).also(Evidence::Forecast { from: last, to: last });
        Some(warning.again(bench.in_days(7)))
    })
}

/// The first day on which a treatment would have been late, where it was.
fn first_late(bench: &BenchDay<'_>, entry: &Entry) -> Option<NaiveDate> {
    let (rules, region) = (last_safe_rules(bench.context), region(bench.context));
    let (parts, method, _) = tank(entry)?;
    let found = parts.iter().filter_map(|p| Ingredient::parse(&p.ai)).filter_map(|ingredient| {
        // Without a start of short days only what goes by the sale can be judged.
        let short_days = match (ingredient, bench.short_days()) {
            (_, Some(day)) => day,
            (Ingredient::Ethephon, None) => bench.lot.ready_by,
            (_, None) => return None,
        };
        match cutoff(ingredient, method, region, short_days, bench.lot.ready_by, rules) {
            Cutoff::Day { day, .. } if entry.day() > day => day.succ_opt(),
            Cutoff::Day { .. } | Cutoff::None { .. } | Cutoff::NoFigure => None,
        }
    });
    found.min()
}
