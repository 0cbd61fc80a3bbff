//! `salts-low`: the EC of the root zone under its range, by the way it was taken.
//!
//! **Sees** the latest root zone test with an EC, for 14 days or until the next.
//! **Numbers** under 1.0 / 0.75 / 0.25 mS/cm by pour-through / saturated extract / 1:2 (Whipker and others 2002); by pour-through
//! under 2.0 is watch, but not for a test of the first 14 days or while 21 or fewer are left (young roots want little, and a
//! finish is lean). A reading on a bound is still inside.
//! **Ends** with a test in range, or after 14 days.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::root_zone::SaltState;
use crate::limits::Feed;
use crate::record::{KindName, LeafSign};
use crate::warnings::builder::of_bench;
use crate::warnings::root_zone::judged_salts;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `salts-low`.
pub(super) static RULE: Rule = Rule {
    name: N::SaltsLow,
    code: "salts-low",
    find: Find::Bench(rule),
    cause: Cause::RootZone,
    class: Class::State,
    title: "salts low",
    why: "Nutrients are low.",
    next: &[Step::todo("Raise the feed rate and test again in a week.")],
    answers: &[
        Answer { title: "root zone tested", remedy: Remedy::Entry(KindName::RootZone) },
        Answer { title: "fed", remedy: Remedy::Feed },
    ],
    basis: LOW,
    signs: Some(Signs { leaves: &[LeafSign::LowerYellow], roots: false, but: &[] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const LOW: Basis =
    Basis::Published("Whipker and others, Avoiding top problems of poinsettias, 2002; university newsletter range");

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let (test, state, [low_key, ..]) = judged_salts(bench)?;
    let lean =
        bench.crop_day_of(test.entry.day()) <= limits.salts_lean_start || bench.days_to_sale() <= limits.salts_lean_end;
    let (level, key) = match state {
        SaltState::TooLow => (Severity::Act, low_key),
        SaltState::LowSide if !lean => (Severity::Watch, Feed::salts_watch_low_pour_through),
        SaltState::LowSide | SaltState::InRange | SaltState::HighSide | SaltState::TooHigh | SaltState::FarTooHigh => {
            return None;
        }
    };
    let warning = of_bench(bench, N::SaltsLow, level, test.entry.day()).saw(test.entry);
    Some(warning.figure(Figure::Ec, test.ec, bench.context.limit(key)).again(bench.in_days(7)))
}
