//! `color-ahead`: full color long before the sale.
//!
//! **Sees** stage 4 or more, seen within 14 days, with more than 21 days to the sale. **Numbers** house rule.
//! **Level** watch. **Ends** as the sale comes near.

use crate::limits::Light;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `color-ahead`.
pub(super) static RULE: Rule = Rule {
    name: N::ColorAhead,
    code: "color-ahead",
    find: Find::Bench(rule),
    cause: Cause::Color,
    title: "color early",
    why: "Mature bracts fade and bruise while they wait.",
    next: &[Step::todo("Run cooler and leaner within limits; offer an earlier ship date.")],
    answers: &[Answer { title: "bracts scored", remedy: Remedy::Entry(KindName::Bracts) }],
    basis: Basis::HouseRule,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// Bracts fully colored.
const FULL: u8 = 4;

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let (look, _) = bench.stage_within(limits.reading_days).filter(|(_, s)| *s >= FULL)?;
    let left = bench.days_to_sale();
    (left > limits.ahead_days).then(|| {
        let since = bench.first_stage(FULL).map_or_else(|| look.day(), Entry::day);
        let warning = of_bench(bench, N::ColorAhead, Severity::Watch, since).saw(look);
        let warning = warning.figure(Figure::DaysToSale, left as f64, bench.context.limit(Light::ahead_days));
        warning.again(bench.in_days(7))
    })
}
