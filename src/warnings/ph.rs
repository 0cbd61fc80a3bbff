//! `ph-low` and `ph-high`: the pH of the root zone.
//!
//! **Sees** the latest root zone test with a pH, for 14 days or until the next. The methods differ little in pH.
//! **Numbers** act under 5.4 (e-GRO notes on low pH) or over 6.5 (Whipker and others 2002); watch from 5.4 to 5.5 and from 6.3
//! to 6.5, both ends included (short of iron already at 6.3-6.4: e-GRO case). For a test of the first 21 days act is under
//! 5.2 and there is no watch: a starting mix stands at 5.2 to 5.5 (a supplier's poinsettia program).
//! **Why** low pH holds back magnesium and molybdenum, high pH iron.
//! **Ends** with a test in range, or after 14 days.

use super::bench_day::BenchDay;
use super::builder::of_bench;
use super::{Basis, Figure, Level, Step, Warning, WarningName};
use crate::limits::{Feed, Key};
use crate::record::{Entry, Kind, KindName};

const LOW: Basis =
    Basis::Published("e-GRO notes on low pH: act under 5.4; a supplier's program: starting mix 5.2 to 5.5");
const HIGH: Basis = Basis::Published("Whipker and others 2002: act over 6.5; e-GRO case: short of iron at 6.3 to 6.4");

fn test<'a>(bench: &BenchDay<'a>) -> Option<(&'a Entry, f64, Option<u32>)> {
    let tests = bench.of(KindName::RootZone).iter().rev();
    let found = tests.copied().find_map(|entry| match &entry.kind {
        Kind::RootZone { ph: Some(ph), pots, .. } => Some((entry, *ph, *pots)),
        _ => None,
    });
    found.filter(|(e, ..)| bench.age(e) <= bench.limits().feed.root_zone_days)
}

/// The root zone's pH at the latest test that speaks.
pub(super) fn value(bench: &BenchDay<'_>) -> Option<f64> {
    test(bench).map(|(_, ph, _)| ph)
}

pub(super) fn low(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let test = test(bench)?;
    let (entry, ph, _) = test;
    let young = bench.crop_day_of(entry.day()) <= limits.ph_young_until;
    let (bound, key) = if young { (limits.ph_low_young, Feed::ph_low_young) } else { (limits.ph_low, Feed::ph_low) };
    let (level, key) = if ph < bound {
        (Level::Act, key)
    } else if !young && ph <= limits.ph_watch_low {
        (Level::Watch, Feed::ph_watch_low)
    } else {
        return None;
    };
    Some(told(bench, (WarningName::PhLow, level, key), test).on(LOW))
}

pub(super) fn high(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let test = test(bench)?;
    let (_, ph, _) = test;
    let (level, key) = if ph > limits.ph_high {
        (Level::Act, Feed::ph_high)
    } else if ph >= limits.ph_watch_high {
        (Level::Watch, Feed::ph_watch_high)
    } else {
        return None;
    };
    Some(told(bench, (WarningName::PhHigh, level, key), test).on(HIGH))
}

fn told(
    bench: &BenchDay<'_>,
    (name, level, key): (WarningName, Level, Key<f64>),
    (entry, ph, pots): (&Entry, f64, Option<u32>),
) -> Warning {
    let few = pots.is_some_and(|n| n < bench.limits().feed.fewest_pots);
    let warning = of_bench(bench, name, level, entry.day()).saw(entry).figure(Figure::Ph, ph, bench.context.limit(key));
    warning.step_if(few, Step::TestAgain).again(bench.in_days(7))
}
