//! `ph-low` and `ph-high`: the pH of the root zone.
//!
//! **Sees** the latest root zone test with a pH, until the next; after 14 days it says since when nobody tested. The methods
//! differ little in pH.
//! **Numbers** act under 5.4 (Owen, Whipker and Henry, university newsletter) or over 6.5 (Whipker and others 2002); watch from
//! 5.4 to 5.5 and from 6.3 to 6.5, both ends included (iron deficiency already at 6.3-6.4: university newsletter case). For a
//! test of the first 21 days act is under
//! 5.2 and there is no watch: a starting mix stands at 5.2 to 5.5 (a supplier's poinsettia program).
//! **Why** low pH holds back magnesium and molybdenum, high pH iron.
//! A watch is act with leaves that show it (house rule): `ph-low` with yellow or brown edges or yellow between the veins, `ph-high`
//! with yellow between the veins, yellow edges or pale young leaves.
//! **Ends** with a newer test in range, and with nothing else: lime, acid and iron are no entries.
//! **Class** state: it stands until a newer look of its kind.

use crate::limits::{Feed, Key};
use crate::record::{Entry, KindName, LeafSign};
use crate::warnings::builder::of_bench;
use crate::warnings::root_zone::{ph_test, raised_by};
use crate::warnings::root_zone_steps;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `ph-low`.
pub(super) static LOW: Rule = Rule {
    name: N::PhLow,
    code: "ph-low",
    find: Find::Bench(low),
    cause: Cause::RootZone,
    class: Class::State,
    title: "pH low",
    why: "Low pH holds back calcium, magnesium and molybdenum.",
    next: &[Step::todo("Test again in a week.")],
    answers: &[Answer { title: "root zone tested", remedy: Remedy::Entry(KindName::RootZone) }],
    basis: LOW_BASIS,
    signs: Some(Signs { leaves: &LOW_RAISES, roots: false, but: &[] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// Everything about `ph-high`.
pub(super) static HIGH: Rule = Rule {
    name: N::PhHigh,
    code: "ph-high",
    find: Find::Bench(high),
    cause: Cause::RootZone,
    class: Class::State,
    title: "pH high",
    why: "High pH locks up iron: new leaves yellow between the veins.",
    next: &[Step::todo("Test again in a week.")],
    answers: &[Answer { title: "root zone tested", remedy: Remedy::Entry(KindName::RootZone) }],
    basis: HIGH_BASIS,
    signs: Some(Signs { leaves: &HIGH_RAISES, roots: false, but: &[] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const LOW_BASIS: Basis = Basis::Published(
    "Owen, Whipker and Henry, university newsletter: act under 5.4; a supplier's program: starting mix 5.2 to 5.5",
);

const HIGH_BASIS: Basis = Basis::Published(
    "Whipker and others 2002: act over 6.5; university newsletter case: iron deficiency at 6.3 to 6.4",
);

/// The leaf signs of low pH: they raise a watch of it to act.
const LOW_RAISES: [LeafSign; 3] = [LeafSign::EdgeYellow, LeafSign::EdgeBrown, LeafSign::BetweenVeins];

/// The leaf signs of high pH: they raise a watch of it to act.
const HIGH_RAISES: [LeafSign; 3] = [LeafSign::BetweenVeins, LeafSign::EdgeYellow, LeafSign::PaleNew];

fn low(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let test = ph_test(bench)?;
    let (entry, ph, _) = test;
    let young = bench.crop_day_of(entry.day()) <= limits.ph_young_until;
    let (bound, key) = if young { (limits.ph_low_young, Feed::ph_low_young) } else { (limits.ph_low, Feed::ph_low) };
    let (level, key) = if ph < bound {
        (Severity::Act, key)
    } else if !young && ph <= limits.ph_watch_low {
        (Severity::Watch, Feed::ph_watch_low)
    } else {
        return None;
    };
    Some(warning(bench, (N::PhLow, level, key), &LOW_RAISES, test))
}

fn high(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let test = ph_test(bench)?;
    let (_, ph, _) = test;
    let (level, key) = if ph > limits.ph_high {
        (Severity::Act, Feed::ph_high)
    } else if ph >= limits.ph_watch_high {
        (Severity::Watch, Feed::ph_watch_high)
    } else {
        return None;
    };
    Some(warning(bench, (N::PhHigh, level, key), &HIGH_RAISES, test))
}

fn warning(
    bench: &BenchDay<'_>,
    (name, level, key): (N, Severity, Key<f64>),
    raises: &[LeafSign],
    (entry, ph, pots): (&Entry, f64, Option<u32>),
) -> Warning {
    let limits = &bench.limits().feed;
    let raised = raised_by(bench, level, raises);
    let level = if raised.is_some() { Severity::Act } else { level };
    let young = bench.crop_day_of(entry.day()) <= limits.ph_young_until;
    let warning = of_bench(bench, name, level, entry.day()).saw(entry).saw_all(raised);
    let warning = warning.carried(bench, entry, limits.root_zone_days).figure(Figure::Ph, ph, bench.context.limit(key));
    root_zone_steps::of_ph(warning, bench, (ph, young), pots).again(bench.in_days(7))
}
