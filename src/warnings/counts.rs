//! `thrips`, `fungus-gnats`, `mites` and `mealybugs`.
//!
//! - **thrips** (act): 40 a card and week at the latest reading of cards, for 14 days (Rutgers; a card left longer is reckoned
//!   down to a week).
//! - **fungus-gnats** (act): 15 larvae a wedge at the latest wedge, for 14 days (Rutgers 2009: 15 to 20 in 6-inch pots), 3 up to
//!   day 21 (3 to 5 in propagation).
//! - **mites, mealybugs** (act): any. They stand until two clean looks 6 days or more apart after the last that found some,
//!   however long that takes: one clean look overlooks them (trade notes by university entomologists: act on any find).

use super::made::{days, of_bench};
use super::sight::Sight;
use super::{Basis, Figure, Level, Warning, WarningName};
use crate::crop::pests::CardCatch;
use crate::record::{Entry, Kind, KindName, PestCount, PestName};

const RUTGERS: Basis = Basis::Published("Rutgers, pest counts and action thresholds; fungus gnats 2009");
const ANY: Basis =
    Basis::Published("Cornell and trade notes by university entomologists: act on any find; days: house rule");

/// The latest finding of a pest counted in one way, while it speaks, with its number.
fn latest<'a>(
    sight: &Sight<'a>,
    pest: PestName,
    number: impl Fn(&PestCount) -> Option<f64>,
) -> Option<(&'a Entry, f64)> {
    let found = sight.of(KindName::Pests).iter().rev().copied().find_map(|e| match &e.kind {
        Kind::Pests { pest: p, count } if *p == pest => number(count).map(|n| (e, n)),
        _ => None,
    });
    found.filter(|(e, _)| sight.age(e) <= sight.limits().pests.finding_days)
}

pub(super) fn thrips(sight: &Sight<'_>) -> Option<Warning> {
    let limit = sight.limits().pests.thrips;
    let (entry, catch) = latest(sight, PestName::Thrips, |count| match count {
        PestCount::Cards { cards, count, days } => {
            CardCatch { cards: *cards, count: *count, days: f64::from(*days) }.per_card_week().ok()
        }
        _ => None,
    })?;
    (catch >= limit).then(|| {
        let warning = of_bench(sight, WarningName::Thrips, Level::Act, entry.day()).saw(entry);
        let warning = warning.figure(Figure::CardWeek, catch, sight.ground.limit("pests.thrips"));
        warning.again(sight.in_days(7)).on(RUTGERS)
    })
}

pub(super) fn gnats(sight: &Sight<'_>) -> Option<Warning> {
    let limits = &sight.limits().pests;
    let (entry, larvae) = latest(sight, PestName::FungusGnat, |count| match count {
        PestCount::Wedge { larvae } => Some(*larvae),
        _ => None,
    })?;
    let young = sight.crop_day_of(entry.day()) <= limits.whitefly_young_until;
    let (limit, key) = if young {
        (limits.gnat_larvae_young, "pests.gnat_larvae_young")
    } else {
        (limits.gnat_larvae, "pests.gnat_larvae")
    };
    (larvae >= limit).then(|| {
        let warning = of_bench(sight, WarningName::FungusGnats, Level::Act, entry.day()).saw(entry);
        warning.figure(Figure::Larvae, larvae, sight.ground.limit(key)).again(sight.in_days(7)).on(RUTGERS)
    })
}

pub(super) fn mites(sight: &Sight<'_>) -> Option<Warning> {
    any(sight, PestName::Mite, WarningName::Mites)
}

pub(super) fn mealybugs(sight: &Sight<'_>) -> Option<Warning> {
    any(sight, PestName::Mealybug, WarningName::Mealybugs)
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

fn any(sight: &Sight<'_>, pest: PestName, name: WarningName) -> Option<Warning> {
    let apart = sight.limits().pests.clean_apart;
    let looks: Vec<(&Entry, f64)> =
        sight.of(KindName::Pests).iter().filter_map(|e| found(e, pest).map(|n| (*e, n))).collect();
    let position = looks.iter().rposition(|(_, n)| *n > 0.0)?;
    let (entry, _) = looks.get(position)?;
    let clean = looks.get(position + 1..).unwrap_or_default();
    let ended = clean.first().zip(clean.last()).is_some_and(|(a, b)| days(a.0.day(), b.0.day()) >= apart);
    let began = looks.get(..=position).unwrap_or_default().iter().rev().take_while(|(_, n)| *n > 0.0).last();
    (!ended).then(|| {
        let since = began.map_or_else(|| entry.day(), |(e, _)| e.day());
        let warning = of_bench(sight, name, Level::Act, since).saw(entry).saw_all(clean.iter().map(|(e, _)| *e));
        warning.again(sight.in_days(apart)).on(ANY)
    })
}
