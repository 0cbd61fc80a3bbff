//! `salts-high` and `salts-low`: the EC of the root zone, by the way it was taken.
//!
//! **Sees** the latest root zone test with an EC, for 14 days or until the next.
//! **Numbers** low under 1.0 / 0.75 / 0.25 mS/cm by pour-through / saturated extract / 1:2 (Whipker and others 2002); by
//! pour-through under 2.0 is watch, but not for a test of the first 14 days or while 21 or fewer are left (young roots want
//! little, and a finish is lean). High over 4.6 / 3.5 / 1.3 (UMass classes), pour-through over 4.3 is watch (e-GRO range);
//! urgent over 7.8 / 6.0 / 2.3, or when the bench also reads 1-2 and has not been watered since (Penn State 2012: dry roots in
//! strong salts). A reading on a bound is still inside. Of fewer than 3 pots a high test says one level less, and to test again.
//! **Never** advises leaching a wet bench, nor one with slow-release in the mix, where water frees more salt.
//! **Ends** with a test in range, or after 14 days.

use super::bench_day::BenchDay;
use super::builder::of_bench;
use super::{Basis, Figure, Level, Step, Warning, WarningName};
use crate::crop::root_zone::{SaltBounds, SaltState, judge_salts};
use crate::limits::Limits;
use crate::limits::{Feed, Key};
use crate::record::{Entry, Kind, KindName, TestMethod};
use crate::units::Conductivity;

const LOW: Basis = Basis::Published("Whipker and others, Avoiding top problems of poinsettias, 2002; e-GRO range");
const HIGH: Basis = Basis::Published("UMass Extension soil test classes; e-GRO range; Penn State 2012");

/// The latest test with an EC, while it speaks.
struct Test<'a> {
    entry: &'a Entry,
    method: TestMethod,
    ec: f64,
    pots: Option<u32>,
}

fn test<'a>(bench: &BenchDay<'a>) -> Option<Test<'a>> {
    let tests = bench.of(KindName::RootZone).iter().rev();
    let found = tests.copied().find_map(|entry| match &entry.kind {
        Kind::RootZone { method, ec_ms_cm: Some(ec), pots, .. } => {
            Some(Test { entry, method: *method, ec: *ec, pots: *pots })
        }
        _ => None,
    })?;
    (bench.age(found.entry) <= bench.limits().feed.root_zone_days).then_some(found)
}

/// The bounds of a method, and the keys of its low, high and extreme.
pub(super) fn bounds(limits: &Limits, method: TestMethod) -> (SaltBounds, [Key<f64>; 3]) {
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

/// The latest test that speaks, and where it stands.
fn judged<'a>(bench: &BenchDay<'a>) -> Option<(Test<'a>, SaltState, [Key<f64>; 3])> {
    let test = test(bench)?;
    let (bounds, keys) = bounds(bench.limits(), test.method);
    let state = judge_salts(Conductivity::from_ms_cm(test.ec), &bounds).ok()?;
    Some((test, state, keys))
}

/// PlantPart the salts stand at the latest test that speaks.
pub(super) fn state(bench: &BenchDay<'_>) -> Option<SaltState> {
    judged(bench).map(|(_, state, _)| state)
}

pub(super) fn low(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let (test, state, [low_key, ..]) = judged(bench)?;
    let lean =
        bench.crop_day_of(test.entry.day()) <= limits.salts_lean_start || bench.days_to_sale() <= limits.salts_lean_end;
    let (level, key) = match state {
        SaltState::TooLow => (Level::Act, low_key),
        SaltState::LowSide if !lean => (Level::Watch, Feed::salts_watch_low_pour_through),
        _ => return None,
    };
    let warning = of_bench(bench, WarningName::SaltsLow, level, test.entry.day()).saw(test.entry);
    Some(warning.figure(Figure::Ec, test.ec, bench.context.limit(key)).again(bench.in_days(7)).on(LOW))
}

pub(super) fn high(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let (test, state, [_, high_key, extreme_key]) = judged(bench)?;
    let dry = bench.water().filter(|r| r.level <= limits.salts_dry_at && !bench.watered_after(r.entry.instant()));
    let (level, key) = match state {
        SaltState::FarTooHigh => (Level::Urgent, extreme_key),
        SaltState::TooHigh if dry.is_some() => (Level::Urgent, high_key),
        SaltState::TooHigh => (Level::Act, high_key),
        SaltState::HighSide => (Level::Watch, Feed::salts_watch_high_pour_through),
        _ => return None,
    };
    let few = test.pots.is_some_and(|pots| pots < limits.fewest_pots);
    let level = match level {
        Level::Urgent if few => Level::Act,
        Level::Act if few => Level::Watch,
        other => other,
    };
    let wet = bench.water().filter(|_| bench.is_wet());
    Some(
        of_bench(bench, WarningName::SaltsHigh, level, test.entry.day())
            .saw(test.entry)
            .saw_all(wet.or(dry).map(|r| r.entry))
            .figure(Figure::Ec, test.ec, bench.context.limit(key))
            .step_if(few, Step::TestAgain)
            .step_if(wet.is_some(), Step::NoLeachingWet)
            .step_if(bench.has_slow_release(), Step::NoLeachingSlowRelease)
            .on(HIGH),
    )
}
