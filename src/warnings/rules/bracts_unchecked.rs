//! `bracts-unchecked`: bracts nobody looked at when they should color.
//!
//! **Sees** no bracts check since seven days before first color is expected by the plan (response weeks from the start of short
//! days):
//! 7 days after that day watch, 14 days after it act. A check of stage 1 long before does not count. Where the record began
//! later it counts from there. Without short days or a response it says nothing.
//! **Why** color that comes late, or burns at the edges, is seen by looking only; there is no time left to mend it at the sale.
//! **Numbers** house rules. **Ends** with a bracts check, or the sale.
//! **Class** date: it stands until done or moot.

use crate::dates::{add_days, days_between};
use crate::limits::Light;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::color_forecast::planned;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `bracts-unchecked`.
pub(super) static RULE: Rule = Rule {
    name: N::BractsUnchecked,
    code: "bracts-unchecked",
    find: Find::Bench(rule),
    cause: Cause::Unchecked,
    class: Class::Date,
    title: "bracts not checked",
    why: "Late color and burned edges are seen only by looking.",
    next: &[Step::check("Check the bracts and log their stage.")],
    answers: &[Answer { title: "bracts checked", remedy: Remedy::Entry(KindName::Bracts) }],
    basis: Basis::HouseRule,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    if bench.past_sale() {
        return None;
    }
    let limits = &bench.limits().light;
    let color = planned(bench)?.first_color.likely;
    let last = bench.last(KindName::Bracts).map(Entry::day);
    if last.is_some_and(|day| day >= add_days(color, -limits.bracts_before)) {
        return None;
    }
    let from = bench.counted_from(color);
    let without = days_between(from, bench.day());
    let (level, key) = match without {
        n if n >= limits.bracts_act => (Severity::Act, Light::bracts_act),
        n if n >= limits.bracts_watch => (Severity::Watch, Light::bracts_watch),
        _ => return None,
    };
    let warning = of_bench(bench, N::BractsUnchecked, level, add_days(from, limits.bracts_watch));
    let warning = warning.missing(KindName::Bracts, last);
    let past = days_between(color, bench.day());
    Some(warning.figure(Figure::DaysPastColor, past as f64, bench.context.limit(key)))
}
