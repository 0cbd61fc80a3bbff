//! `roots-unchecked`: roots that nobody checked.
//!
//! **Sees** the days since the last roots check; a bench never checked counts from planting, or from the
//! beginning of a later record.
//! **Why** tops lag the roots by weeks. **Numbers** house rules: first due on day 10; 14 days without is watch, 21 act; from
//! stage 4 on 14 and 28. **Ends** with the next check, or the sale.
//! **Class** date: it stands until done or moot.

use crate::dates::{add_days, days_between};
use crate::limits::Water;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `roots-unchecked`.
pub(super) static RULE: Rule = Rule {
    name: N::RootsUnchecked,
    code: "roots-unchecked",
    find: Find::Bench(rule),
    cause: Cause::Unchecked,
    class: Class::Date,
    title: "roots not checked",
    why: "Tops lag roots by weeks; you have to knock out a pot to know.",
    next: &[Step::check("Knock out three pots and score the worst.")],
    answers: &[Answer { title: "roots checked", remedy: Remedy::Entry(KindName::Roots) }],
    basis: Basis::HouseRule,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// From this bract stage on roots are looked at less often.
const COLORED: u8 = 4;

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    if bench.past_sale() {
        return None;
    }
    let limits = &bench.limits().water;
    let last = bench.last(KindName::Roots).map(Entry::day);
    let from = last.unwrap_or_else(|| bench.counted_from(bench.lot.planted));
    let colored = bench.stage_reached().is_some_and(|(_, s)| s >= COLORED);
    let (watch, act) = if colored {
        ((limits.roots_late_watch, Water::roots_late_watch), (limits.roots_late_act, Water::roots_late_act))
    } else {
        (
            (limits.roots_unchecked_watch, Water::roots_unchecked_watch),
            (limits.roots_unchecked_act, Water::roots_unchecked_act),
        )
    };
    let without = days_between(from, bench.day());
    let (level, key) = match without {
        n if n >= act.0 => (Severity::Act, act.1),
        n if n >= watch.0 => (Severity::Watch, watch.1),
        _ => return None,
    };
    let warning = of_bench(bench, N::RootsUnchecked, level, add_days(from, watch.0));
    Some(warning.missing(KindName::Roots, last).figure(Figure::Days, without as f64, bench.context.limit(key)))
}
