//! `thrips`, `fungus-gnats`, `mites` and `mealybugs`.
//!
//! - **thrips** (act): 40 a card and week at the latest reading of cards, for 14 days (Rutgers; a card left longer is reckoned
//!   down to a week).
//! - **fungus-gnats** (act): 15 larvae a wedge at the latest wedge, for 14 days (Rutgers 2009: 15 to 20 in 6-inch pots), 3 up to
//!   day 21 (3 to 5 in propagation).
//! - **mites, mealybugs** (act): any. They stand until two clean looks 6 days or more apart after the last that found some,
//!   however long that takes: one clean look overlooks them (trade notes by university entomologists: act on any find).

use super::bench_day::BenchDay;
use super::builder::{days, of_bench};
use super::{Basis, Figure, Level, Warning, WarningName};
use crate::crop::pests::CardCatch;
use crate::limits::Pests;
use crate::record::{Entry, Kind, KindName, PestCount, PestName};

const RUTGERS: Basis = Basis::Published("Rutgers, pest counts and action thresholds; fungus gnats 2009");
const ANY: Basis =
    Basis::Published("Cornell and trade notes by university entomologists: act on any find; days: house rule");

/// The latest finding of a pest counted in one way, while it speaks, with its number.
fn latest<'a>(
    bench: &BenchDay<'a>,
    pest: PestName,
    number: impl Fn(&PestCount) -> Option<f64>,
) -> Option<(&'a Entry, f64)> {
    let found = bench.of(KindName::Pests).iter().rev().copied().find_map(|e| match &e.kind {
        Kind::Pests { pest: p, count } if *p == pest => number(count).map(|n| (e, n)),
        _ => None,
    });
    found.filter(|(e, _)| bench.age(e) <= bench.limits().pests.finding_days)
}

pub(super) fn thrips(bench: &BenchDay<'_>) -> Option<Warning> {
    let limit = bench.limits().pests.thrips;
    let (entry, catch) = latest(bench, PestName::Thrips, |count| match count {
        PestCount::Cards { cards, count, days } => {
            CardCatch { cards: *cards, count: *count, days: f64::from(*days) }.per_card_week().ok()
        }
        _ => None,
    })?;
    (catch >= limit).then(|| {
        let warning = of_bench(bench, WarningName::Thrips, Level::Act, entry.day()).saw(entry);
        let warning = warning.figure(Figure::CardWeek, catch, bench.context.limit(Pests::thrips));
        warning.again(bench.in_days(7)).on(RUTGERS)
    })
}

pub(super) fn gnats(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().pests;
    let (entry, larvae) = latest(bench, PestName::FungusGnat, |count| match count {
        PestCount::Wedge { larvae } => Some(*larvae),
        _ => None,
    })?;
    let young = bench.crop_day_of(entry.day()) <= limits.whitefly_young_until;
    let (limit, key) = if young {
        (limits.gnat_larvae_young, Pests::gnat_larvae_young)
    } else {
        (limits.gnat_larvae, Pests::gnat_larvae)
    };
    (larvae >= limit).then(|| {
        let warning = of_bench(bench, WarningName::FungusGnats, Level::Act, entry.day()).saw(entry);
        warning.figure(Figure::Larvae, larvae, bench.context.limit(key)).again(bench.in_days(7)).on(RUTGERS)
    })
}

pub(super) fn mites(bench: &BenchDay<'_>) -> Option<Warning> {
    any(bench, PestName::Mite, WarningName::Mites)
}

pub(super) fn mealybugs(bench: &BenchDay<'_>) -> Option<Warning> {
    any(bench, PestName::Mealybug, WarningName::Mealybugs)
}

/// How many were found, in whatever way they were counted.
pub(super) fn found(entry: &Entry, pest: PestName) -> Option<f64> {
    match &entry.kind {
        Kind::Pests { pest: p, count } if *p == pest => Some(match count {
            PestCount::Plants { infested, .. } => f64::from(*infested),
            PestCount::Cards { count, .. } => f64::from(*count),
            PestCount::Wedge { larvae } => *larvae,
        }),
        _ => None,
    }
}

fn any(bench: &BenchDay<'_>, pest: PestName, name: WarningName) -> Option<Warning> {
    let apart = bench.limits().pests.clean_apart;
    let looks: Vec<(&Entry, f64)> =
        bench.of(KindName::Pests).iter().filter_map(|e| found(e, pest).map(|n| (*e, n))).collect();
    let position = looks.iter().rposition(|(_, n)| *n > 0.0)?;
    let (entry, _) = looks.get(position)?;
    let clean = looks.get(position + 1..).unwrap_or_default();
    let ended = clean.first().zip(clean.last()).is_some_and(|(a, b)| days(a.0.day(), b.0.day()) >= apart);
    let began = looks.get(..=position).unwrap_or_default().iter().rev().take_while(|(_, n)| *n > 0.0).last();
    (!ended).then(|| {
        let since = began.map_or_else(|| entry.day(), |(e, _)| e.day());
        let warning = of_bench(bench, name, Level::Act, since).saw(entry).saw_all(clean.iter().map(|(e, _)| *e));
        warning.again(bench.in_days(apart)).on(ANY)
    })
}
