//! `stem-broken`: broken branches on several benches of a lot.
//!
//! **Sees** a branch written as broken or hanging on 2 benches of a lot or more within 14 days (house rule). **Why** one broken
//! branch is an accident; several are weak joints (UMass photo note on lateral stem breakage): calcium, nodes left at the pinch,
//! a late pinch, low light, careless hand watering.
//! **Level** watch. **Ends** when fewer than 2 of its benches have a look that young.
//! **Class** event: it fades by days.

use crate::crop::symptoms::Cause as Possible;
use crate::limits::Leaves;
use crate::record::{Entry, KindName, LeafSign};
use crate::warnings::bench_day::has_sign;
use crate::warnings::builder::of_group;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Group, Remedy, Rule, Severity, Signs, Step, Warning,
    WarningName as N,
};

/// Everything about `stem-broken`.
pub(super) static RULE: Rule = Rule {
    name: N::StemBroken,
    code: "stem-broken",
    find: Find::Lot(rule),
    cause: Cause::Leaves,
    class: Class::Event,
    title: "branches breaking",
    why: "Branches that break on several benches have weak joints; a cracked one wilts over sound roots.",
    next: &[
        Step::check("Feel branches where they join the stem: loose like a tooth is cracked. Take it off."),
        Step::todo("Look back at calcium in the feed, nodes left, a late pinch and low light."),
        Step::todo("Water by hand with care: a heavy stream cracks branches."),
    ],
    answers: &[Answer { title: "leaves checked", remedy: Remedy::Entry(KindName::Leaves) }],
    basis: UMASS,
    signs: Some(Signs { leaves: &[LeafSign::Broken], roots: false, but: &[Possible::StemBreak] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const UMASS: Basis = Basis::Published(
    "UMass Extension, photo note Lateral stem breakage on poinsettia; benches and days: Benchwalk's rule of thumb",
);

fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let first = group.first()?;
    let limits = &first.limits().leaves;
    let seen: Vec<(&BenchDay<'_>, &Entry)> = group
        .benches
        .iter()
        .filter_map(|bench| {
            let looks = bench.of(KindName::Leaves).iter().rev().copied();
            let look = looks.take_while(|e| bench.age(e) <= limits.broken_days).find(|e| has_sign(e, LeafSign::Broken));
            Some((*bench, look?))
        })
        .collect();
    if seen.len() < usize::try_from(limits.broken_benches).unwrap_or(usize::MAX) {
        return None;
    }
    let since = seen.iter().map(|(_, e)| e.day()).min()?;
    let benches: Vec<String> = seen.iter().map(|(bench, _)| bench.code().to_owned()).collect();
    let count = benches.len();
    let mut looks: Vec<&Entry> = seen.iter().map(|(_, e)| *e).collect();
    looks.sort_by_key(|e| e.order());
    looks.dedup_by_key(|e| e.id);
    let warning = of_group(group, (N::StemBroken, Severity::Watch), since, benches).saw_all(looks);
    let warning = warning.figure(Figure::Benches, count as f64, first.context.limit(Leaves::broken_benches));
    Some(warning.again(first.in_days(7)))
}
