//! Counts of pests as the rules read them.

use super::builder::of_bench;
use super::{Basis, BenchDay, Severity, Warning, WarningName};
use crate::dates::days_between;
use crate::record::{Entry, Kind, KindName, PestCount, PestName};

/// What warnings of any find rest on.
pub(super) const ANY_FIND: Basis = Basis::Published(
    "Cornell and trade notes by university entomologists: act on any find; days: Benchwalk's rule of thumb",
);

/// The latest finding of a pest counted in one way, while it stands, with its number.
pub(super) fn latest<'a>(
    bench: &BenchDay<'a>,
    pest: PestName,
    number: impl Fn(&PestCount) -> Option<f64>,
) -> Option<(&'a Entry, f64)> {
    let found = bench.of(KindName::Pests).iter().rev().copied().find_map(|e| match &*e.kind {
        Kind::Pests { pest: p, count } if *p == pest => number(count).map(|n| (e, n)),
        _ => None,
    });
    found.filter(|(e, _)| bench.stands(e, bench.limits().pests.finding_days))
}

/// How many were found, in whatever way they were counted.
pub(super) fn found(entry: &Entry, pest: PestName) -> Option<f64> {
    match &*entry.kind {
        Kind::Pests { pest: p, count } if *p == pest => Some(match count {
            PestCount::Plants { infested, .. } => f64::from(*infested),
            PestCount::Cards { count, .. } => f64::from(*count),
            PestCount::Wedge { larvae } => *larvae,
        }),
        _ => None,
    }
}

/// Warns of a pest of which any is too many. It stands until two clean looks, the limit's days or more apart, after the last that
/// found some, however long that takes: one clean look overlooks them.
pub(super) fn any(bench: &BenchDay<'_>, pest: PestName, name: WarningName) -> Option<Warning> {
    let apart = bench.limits().pests.clean_apart;
    let looks: Vec<(&Entry, f64)> =
        bench.of(KindName::Pests).iter().filter_map(|e| found(e, pest).map(|n| (*e, n))).collect();
    let position = looks.iter().rposition(|(_, n)| *n > 0.0)?;
    let (entry, _) = looks.get(position)?;
    let clean = looks.get(position + 1..).unwrap_or_default();
    let ended = clean.first().zip(clean.last()).is_some_and(|(a, b)| days_between(a.0.day(), b.0.day()) >= apart);
    let began = looks.get(..=position).unwrap_or_default().iter().rev().take_while(|(_, n)| *n > 0.0).last();
    (!ended).then(|| {
        let since = began.map_or_else(|| entry.day(), |(e, _)| e.day());
        let warning = of_bench(bench, name, Severity::Act, since).saw(entry).saw_all(clean.iter().map(|(e, _)| *e));
        let last = clean.last().map_or(*entry, |(e, _)| *e);
        warning.carried(bench, last, bench.limits().pests.finding_days).again(bench.in_days(apart))
    })
}
