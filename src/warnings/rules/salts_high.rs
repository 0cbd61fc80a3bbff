//! `salts-high`: the EC of the root zone above its range, by the way it was taken.
//!
//! **Sees** the latest root zone test with an EC, until the next; after 14 days it says since when nobody tested.
//! **Numbers** over 4.6 / 3.5 / 1.3 mS/cm by pour-through / saturated extract / 1:2 (UMass classes); by pour-through over 4.3 is
//! watch (university newsletter range); urgent over 7.8 / 6.0 / 2.3, or when the bench also reads 1-2 and has not been watered
//! since (Penn State
//! 2012: dry roots in strong salts). A reading on a bound is still inside. Of fewer than 3 pots it says one level less, and to
//! test again. A watch is act with brown or yellow leaf edges or wilted leaves (house rule).
//! **Never** advises leaching a wet bench, nor one with slow-release in the mix, where water frees more salt.
//! **Ends** with a newer test in range: a watering proves no leaching.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::root_zone::SaltState;
use crate::limits::Feed;
use crate::record::{KindName, LeafSign};
use crate::warnings::builder::of_bench;
use crate::warnings::root_zone::{judged_salts, raised_by};
use crate::warnings::root_zone_steps;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `salts-high`.
pub(super) static RULE: Rule = Rule {
    name: N::SaltsHigh,
    code: "salts-high",
    find: Find::Bench(rule),
    cause: Cause::RootZone,
    class: Class::State,
    title: "salts high",
    why: "High salts burn roots and open the way for rot.",
    next: &[Step::todo("Test again in a week.")],
    answers: &[
        Answer { title: "root zone tested", remedy: Remedy::Entry(KindName::RootZone) },
        Answer { title: "watered to drainage", remedy: Remedy::Entry(KindName::Watered) },
    ],
    basis: HIGH,
    signs: Some(Signs {
        leaves: &[LeafSign::Wilted, LeafSign::LowerYellow, LeafSign::EdgeYellow, LeafSign::EdgeBrown],
        roots: false,
        but: &[],
    }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const HIGH: Basis = Basis::Published("UMass Extension soil test classes; university newsletter range; Penn State 2012");

/// Leaf signs that raise a watch to act.
const RAISES: [LeafSign; 3] = [LeafSign::EdgeBrown, LeafSign::EdgeYellow, LeafSign::Wilted];

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let (test, state, [_, high_key, extreme_key]) = judged_salts(bench)?;
    let dry = bench.water().filter(|r| r.level <= limits.salts_dry_at && !bench.watered_after(r.entry.instant()));
    let (level, key) = match state {
        SaltState::FarTooHigh => (Severity::Urgent, extreme_key),
        SaltState::TooHigh if dry.is_some() => (Severity::Urgent, high_key),
        SaltState::TooHigh => (Severity::Act, high_key),
        SaltState::HighSide => (Severity::Watch, Feed::salts_watch_high_pour_through),
        SaltState::TooLow | SaltState::LowSide | SaltState::InRange => return None,
    };
    let few = test.pots.is_some_and(|pots| pots < limits.fewest_pots);
    let level = match level {
        Severity::Urgent if few => Severity::Act,
        Severity::Act if few => Severity::Watch,
        other => other,
    };
    let raised = raised_by(bench, level, &RAISES);
    let level = if raised.is_some() { Severity::Act } else { level };
    let wet = bench.water().filter(|_| bench.is_wet());
    let warning = of_bench(bench, N::SaltsHigh, level, test.entry.day()).saw(test.entry);
    let warning = warning.saw_all(wet.or(dry).map(|r| r.entry)).saw_all(raised);
    let warning = warning.carried(bench, test.entry, limits.root_zone_days);
    let warning = warning.figure(Figure::Ec, test.ec, bench.context.limit(key));
    Some(root_zone_steps::of_salts(warning, bench, state, test.pots))
}
