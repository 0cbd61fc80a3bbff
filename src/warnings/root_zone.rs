//! The latest root zone test as the rules read it: EC by the method it was taken with, and pH.
//!
//! A test speaks for the limit's days or until the next; what it found of pH and salts holds until the next. The methods differ
//! little in pH, much in EC: each method has its own bounds of salts.

use super::{BenchDay, Severity};
use crate::crop::feed::Alkalinity;
use crate::crop::root_zone::{SaltBounds, SaltState, judge_salts};
use crate::limits::{Feed, Key, Limits};
use crate::record::{Entry, Kind, KindName, LeafSign, TestMethod};
use crate::units::Conductivity;

/// The latest test with an EC, while it stands.
pub(super) struct SaltTest<'a> {
    pub(super) entry: &'a Entry,
    method: TestMethod,
    pub(super) ec: f64,
    pub(super) pots: Option<u32>,
}

fn salt_test<'a>(bench: &BenchDay<'a>) -> Option<SaltTest<'a>> {
    let tests = bench.of(KindName::RootZone).iter().rev();
    let found = tests.copied().find_map(|entry| match &*entry.kind {
        Kind::RootZone { method, ec_ms_cm: Some(ec), pots, .. } => {
            Some(SaltTest { entry, method: *method, ec: *ec, pots: *pots })
        }
        _ => None,
    })?;
    bench.stands(found.entry, bench.limits().feed.root_zone_days).then_some(found)
}

/// The bounds of a method, and the keys of its low, high and extreme.
pub(super) fn salt_bounds(limits: &Limits, method: TestMethod) -> (SaltBounds, [Key<f64>; 3]) {
    let limits = &limits.feed;
    match method {
        TestMethod::PourThrough => (
            SaltBounds {
                low: limits.salts_low_pour_through,
                watch_low: Some(limits.salts_watch_low_pour_through),
                watch_high: Some(limits.salts_watch_high_pour_through),
                high: limits.salts_high_pour_through,
                extreme: limits.salts_extreme_pour_through,
            },
            [Feed::salts_low_pour_through, Feed::salts_high_pour_through, Feed::salts_extreme_pour_through],
        ),
        TestMethod::Sme => (
            SaltBounds {
                low: limits.salts_low_sme,
                watch_low: None,
                watch_high: None,
                high: limits.salts_high_sme,
                extreme: limits.salts_extreme_sme,
            },
            [Feed::salts_low_sme, Feed::salts_high_sme, Feed::salts_extreme_sme],
        ),
        TestMethod::OneToTwo => (
            SaltBounds {
                low: limits.salts_low_one_to_two,
                watch_low: None,
                watch_high: None,
                high: limits.salts_high_one_to_two,
                extreme: limits.salts_extreme_one_to_two,
            },
            [Feed::salts_low_one_to_two, Feed::salts_high_one_to_two, Feed::salts_extreme_one_to_two],
        ),
    }
}

/// The latest test, and where its salts stand.
pub(super) fn judged_salts<'a>(bench: &BenchDay<'a>) -> Option<(SaltTest<'a>, SaltState, [Key<f64>; 3])> {
    let test = salt_test(bench)?;
    let (bounds, keys) = salt_bounds(bench.limits(), test.method);
    let state = judge_salts(Conductivity::from_ms_cm(test.ec), &bounds).ok()?;
    Some((test, state, keys))
}

/// Where the salts stand at the latest test that speaks.
pub(super) fn salt_state(bench: &BenchDay<'_>) -> Option<SaltState> {
    let (test, state, _) = judged_salts(bench)?;
    (bench.age(test.entry) <= bench.limits().feed.root_zone_days).then_some(state)
}

/// The latest test with a pH, while it stands: the entry, its pH and the pots sampled.
pub(super) fn ph_test<'a>(bench: &BenchDay<'a>) -> Option<(&'a Entry, f64, Option<u32>)> {
    let tests = bench.of(KindName::RootZone).iter().rev();
    let found = tests.copied().find_map(|entry| match &*entry.kind {
        Kind::RootZone { ph: Some(ph), pots, .. } => Some((entry, *ph, *pots)),
        _ => None,
    });
    found.filter(|(e, ..)| bench.stands(e, bench.limits().feed.root_zone_days))
}

/// The root zone's pH at the latest test that speaks.
pub(super) fn ph(bench: &BenchDay<'_>) -> Option<f64> {
    let (entry, ph, _) = ph_test(bench)?;
    (bench.age(entry) <= bench.limits().feed.root_zone_days).then_some(ph)
}

/// The leaves entry with a sign that raises a watch of the root zone to act.
pub(super) fn raised_by<'a>(bench: &BenchDay<'a>, level: Severity, signs: &[LeafSign]) -> Option<&'a Entry> {
    let seen = signs.iter().filter_map(|sign| bench.sign(*sign)).max_by_key(|e| e.order());
    seen.filter(|_| level == Severity::Watch)
}

/// The alkalinity of the water, as it was last tested at the hose, and the entry.
pub(super) fn alkalinity<'a>(bench: &BenchDay<'a>) -> Option<(&'a Entry, Alkalinity)> {
    let tests = bench.of(KindName::FeedCheck).iter().rev();
    tests.copied().find_map(|entry| match &*entry.kind {
        Kind::FeedCheck { alkalinity_ppm: Some(ppm), .. } => Some((entry, Alkalinity::from_caco3_ppm(*ppm).ok()?)),
        _ => None,
    })
}
