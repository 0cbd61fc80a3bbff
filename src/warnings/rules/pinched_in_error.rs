//! `pinched-in-error`: pinched on a lot that the plan leaves unpinched.
//!
//! **Sees** the latest pinch logged on a lot whose pinch is `none`.
//! **Level** act for 7 days, then 7 more as watch. **Ends** then, or with the strike of the entry or a revised plan.
//! **Class** event: it fades by days.

use crate::record::{KindName, Pinch};
use crate::warnings::builder::of_bench;
use crate::warnings::fading::fading;
use crate::warnings::{Basis, BenchDay, Cause, Class, Find, Rule, Severity, Step, Warning, WarningName as N};

/// Everything about `pinched-in-error`.
pub(super) static RULE: Rule = Rule {
    name: N::PinchedInError,
    code: "pinched-in-error",
    find: Find::Bench(rule),
    cause: Cause::Pinch,
    class: Class::Event,
    title: "pinched in error",
    why: "The plan leaves this lot unpinched: one large head per cutting.",
    next: &[Step::todo("Stop pinching; move the pinched pots together and revise the plan, or void the entry.")],
    answers: &[],
    basis: Basis::CommonPractice,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let pinched = bench.last(KindName::Pinched).filter(|_| bench.lot.pinch == Pinch::None)?;
    let level = fading(bench, Severity::Act, pinched.day())?;
    let warning = of_bench(bench, N::PinchedInError, level, pinched.day()).saw(pinched);
    Some(warning)
}
