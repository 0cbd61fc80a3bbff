//! `salts-low`: the EC of the root zone under its range, by the way it was taken.
//!
//! **Sees** the latest root zone test with an EC, until the next; after 14 days it says since when nobody tested.
//! **Numbers** under 1.0 / 0.75 / 0.25 mS/cm by pour-through / saturated extract / 1:2 (Whipker and others 2002); by pour-through
//! under 2.0 is watch, but not for a test of the first 14 days or while 21 or fewer are left (young roots want little, and a
//! finish is lean). A reading on a bound is still inside.
//! A watch is act with lower leaves yellow or young leaves pale (house rule). A feed or a topdress after the test lowers it to
//! watch until the next test.
//! **Ends** with a newer test in range.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::root_zone::SaltState;
use crate::limits::Feed;
use crate::record::{Entry, Kind, KindName, LeafSign};
use crate::warnings::builder::of_bench;
use crate::warnings::root_zone::{judged_salts, raised_by};
use crate::warnings::root_zone_steps;
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
    next: &[Step::todo("Test again in a week.")],
    answers: &[
        Answer { title: "root zone tested", remedy: Remedy::Entry(KindName::RootZone) },
        Answer { title: "fed", remedy: Remedy::Feed },
    ],
    basis: LOW,
    signs: Some(Signs { leaves: &RAISES, roots: false, but: &[] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const LOW: Basis =
    Basis::Published("Whipker and others, Avoiding top problems of poinsettias, 2002; university newsletter range");

/// Its leaf signs: they raise a watch to act.
const RAISES: [LeafSign; 2] = [LeafSign::LowerYellow, LeafSign::PaleNew];

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
    let raised = raised_by(bench, level, &RAISES);
    let fed = fed_since(bench, test.entry);
    let level = match (fed, raised) {
        (Some(_), _) => Severity::Watch,
        (None, Some(_)) => Severity::Act,
        (None, None) => level,
    };
    let warning = of_bench(bench, N::SaltsLow, level, test.entry.day()).saw(test.entry).saw_all(raised).saw_all(fed);
    let warning = warning.carried(bench, test.entry, limits.root_zone_days);
    let warning = warning.figure(Figure::Ec, test.ec, bench.context.limit(key)).again(bench.in_days(7));
    // What was fed since is what the steps would ask for.
    Some(if fed.is_some() { warning } else { root_zone_steps::of_salts(warning, bench, state, test.pots) })
}

/// The latest feed or topdress after a test: what was asked for has been done, and the next test tells.
fn fed_since<'a>(bench: &BenchDay<'a>, test: &Entry) -> Option<&'a Entry> {
    let feeds = |e: &Entry| match *e.kind {
        Kind::Fed { n_ppm, .. } => n_ppm > 0.0,
        Kind::Topdressed { .. } => true,
        _ => false,
    };
    bench.entries.iter().rev().take_while(|e| e.instant() > test.instant()).copied().find(|e| feeds(e))
}
