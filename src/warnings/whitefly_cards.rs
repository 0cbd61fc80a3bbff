//! Whitefly on sticky cards: what the rule `whitefly` watches of a house without counting plants.
//!
//! **Sees** the counts of cards, per card and week: three of one place, each higher than the one before (the cards that were
//! last read on one day are taken together); and any adult at the latest reading where no plants were looked at in 8 days.
//! **Why** adults on a card come from plants, and a card says nothing of the undersides of leaves. **Numbers** house rules.
//! **Level** watch.
//! **Ends** with a reading that is not higher, or without adults, or with a look at plants; catches that rose stand past 14 days
//! until the next reading, and say since when nobody read.

use super::builder::of_group;
use super::rules::last_look;
use super::{Basis, BenchDay, Figure, Group, Severity, Step, Warning, WarningName as N};
use crate::crop::pests::CardCatch;
use crate::limits::Pests;
use crate::record::{Entry, Kind, KindName, PestCount, PestName, Place};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// The readings of the cards of one place, oldest first, each with its catch per card and week.
type Series<'a> = Vec<(&'a Entry, f64)>;

/// The cards of a house.
pub(super) fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let first = group.first().filter(|bench| !bench.past_sale())?;
    let all = series(group);
    let rising = rising(first, &all);
    let unlooked = unlooked(group, &all);
    let mut seen: Vec<&Entry> = rising.iter().flat_map(|r| r.entries.iter().copied()).collect();
    seen.extend(unlooked.iter().copied());
    seen.sort_by_key(|e| e.order());
    seen.dedup_by_key(|e| e.id);
    let last = *seen.last()?;
    let benches: Vec<String> = group
        .benches
        .iter()
        .filter(|b| seen.iter().any(|e| b.entries.iter().any(|own| own.id == e.id)))
        .map(|b| b.code().to_owned())
        .collect();
    let since = rising.as_ref().map_or(last.day(), |r| r.since);
    let warning = of_group(group, (N::Whitefly, Severity::Watch), since, benches).on(Basis::HouseRule);
    let warning = warning.saw_all(seen).step_if(!unlooked.is_empty(), Step::LOOK_UNDER);
    let warning = match &rising {
        Some(rising) => warning.figure(Figure::CardWeek, rising.catch, None),
        None => warning,
    };
    let limits = &first.limits().pests;
    Some(warning.carried(first, last, limits.finding_days).again(first.in_days(limits.scouted_days)))
}

/// The readings of whitefly on cards, by the place they were written on.
fn series<'a>(group: &Group<'_, 'a>) -> BTreeMap<Place, Series<'a>> {
    let mut all: BTreeMap<Place, Series<'a>> = BTreeMap::new();
    for entry in group.benches.iter().flat_map(|b| b.of(KindName::Pests)) {
        let Kind::Pests { pest: PestName::Whitefly, count: PestCount::Cards { cards, count, days } } = &*entry.kind
        else {
            continue;
        };
        let catch = CardCatch { cards: *cards, count: *count, days: f64::from(*days) }.per_card_week();
        all.entry(entry.place.clone()).or_default().extend(catch.ok().map(|catch| (*entry, catch)));
    }
    for series in all.values_mut() {
        // What was written on a house stands in the record of each of its benches.
        series.sort_by_key(|(e, _)| e.order());
        series.dedup_by_key(|(e, _)| e.id);
    }
    all
}

/// Catches that rose from reading to reading.
struct Rising<'a> {
    entries: Vec<&'a Entry>,
    /// The latest catch per card and week.
    catch: f64,
    since: NaiveDate,
}

/// The cards that were last read on one day, taken together, where their last catches rose from reading to reading.
fn rising<'a>(bench: &BenchDay<'_>, all: &BTreeMap<Place, Series<'a>>) -> Option<Rising<'a>> {
    let readings = usize::try_from(Pests::cards_rising.of(bench.limits())).unwrap_or(usize::MAX);
    let mut by_day: BTreeMap<NaiveDate, Vec<&[(&'a Entry, f64)]>> = BTreeMap::new();
    for series in all.values() {
        let from = series.len().checked_sub(readings).and_then(|from| series.get(from..));
        if let Some((last, latest)) = from.and_then(|latest| Some((latest.last()?, latest))) {
            by_day.entry(last.0.day()).or_default().push(latest);
        }
    }
    by_day.into_iter().rev().find_map(|(since, places)| {
        let mean = |at: usize| {
            let each: Vec<f64> = places.iter().filter_map(|of| of.get(at)).map(|(_, catch)| *catch).collect();
            (!each.is_empty()).then(|| each.iter().sum::<f64>() / each.len() as f64)
        };
        let means: Vec<f64> = (0..readings).filter_map(mean).collect();
        let rose = means.windows(2).all(|pair| matches!(pair, [before, after] if after > before));
        let catch = *means.last().filter(|_| rose && means.len() > 1)?;
        Some(Rising { entries: places.iter().flat_map(|of| of.iter().map(|(e, _)| *e)).collect(), catch, since })
    })
}

/// The latest readings with adults where no plants were looked at since the limit's days.
fn unlooked<'a>(group: &Group<'_, 'a>, all: &BTreeMap<Place, Series<'a>>) -> Vec<&'a Entry> {
    let mut found = Vec::new();
    for (entry, catch) in all.values().filter_map(|series| series.last()) {
        let holds = |b: &&&BenchDay<'_>| b.entries.iter().any(|own| own.id == entry.id);
        let looked = |b: &&BenchDay<'_>| {
            last_look(b).is_some_and(|day| crate::dates::days_between(day, b.day()) <= b.limits().pests.scouted_days)
        };
        let fresh = group.first().is_some_and(|b| b.age(entry) <= b.limits().pests.finding_days);
        if *catch > 0.0 && fresh && !group.benches.iter().filter(holds).any(looked) {
            found.push(*entry);
        }
    }
    found
}

impl Step {
    /// Adults on a card, and nobody looked at plants.
    pub const LOOK_UNDER: Self =
        Self::check("Look under the leaves: adults were on a card, and no plants were looked at in eight days.");
}
