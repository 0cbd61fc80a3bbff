//! What cost most of a season: the warnings that stood longest, or on whose benches most pots were lost.

use super::{Course, Judged, Stood};
use crate::record::Place;
use crate::warnings::{Cause, Severity, WarningName};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};

/// How many are named.
pub const MOST: usize = 5;

/// A warning of a lot or a house, and what it cost, with the others of its cause that came of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cost {
    /// The warning that came first.
    pub name: WarningName,
    /// Others of the same cause in the same place, with the day each began, in the order they came.
    pub then: Vec<(WarningName, NaiveDate)>,
    /// The lot, or the house.
    pub of: Place,
    /// The day it began.
    pub began: NaiveDate,
    /// Days on which any of them stood at act or urgent, on whichever of the benches.
    pub days: usize,
    /// Pots lost on the benches on days on which any of them stood there. A pot counts for each cause that stood on its bench.
    pub pots: u64,
    /// The benches.
    pub benches: Vec<String>,
    /// The highest level reached.
    pub worst: Severity,
}

/// The warnings that cost the most days or the most pots, those of one cause in one place together. Each takes the better of its
/// two ranks; of two with one rank the one with more pots, then with more days, comes first.
pub fn costliest(judged: &Judged, courses: &[Course]) -> Vec<Cost> {
    let mut together: BTreeMap<(Cause, &Place), Vec<&Stood>> = BTreeMap::new();
    for stood in &judged.stood {
        together.entry((stood.name.rule().cause, &stood.of)).or_default().push(stood);
    }
    let all: Vec<Cost> = together.into_values().filter_map(|stood| cost(stood, courses)).collect();
    let rank = |count: fn(&Cost) -> u64, one: &Cost| -> usize {
        if count(one) == 0 { usize::MAX } else { all.iter().filter(|other| count(other) > count(one)).count() }
    };
    let mut ranked: Vec<(usize, &Cost)> = all
        .iter()
        .map(|one| {
            (rank(|cost| u64::try_from(cost.days).unwrap_or(u64::MAX), one).min(rank(|cost| cost.pots, one)), one)
        })
        .collect();
    ranked.sort_by_key(|(rank, cost)| (*rank, std::cmp::Reverse((cost.pots, cost.days)), cost.began, cost.name));
    ranked.into_iter().take(MOST).map(|(_, cost)| cost.clone()).collect()
}

/// Warnings of one cause in one place put together.
fn cost(mut stood: Vec<&Stood>, courses: &[Course]) -> Option<Cost> {
    stood.sort_by_key(|stood| (stood.began(), stood.name));
    let mut days: BTreeMap<NaiveDate, BTreeSet<&str>> = BTreeMap::new();
    for (day, benches) in stood.iter().flat_map(|stood| &stood.days) {
        days.entry(*day).or_default().extend(benches.iter().map(String::as_str));
    }
    let on = |day: NaiveDate, bench: &str| days.get(&day).is_some_and(|benches| benches.contains(bench));
    let lost = courses.iter().flat_map(|course| &course.lost).filter(|lost| on(lost.day, &lost.bench));
    let benches: BTreeSet<&str> = days.values().flatten().copied().collect();
    let (first, rest) = stood.split_first()?;
    Some(Cost {
        name: first.name,
        then: rest.iter().filter_map(|stood| Some((stood.name, stood.began()?))).collect(),
        of: first.of.clone(),
        began: first.began()?,
        days: days.len(),
        pots: lost.map(|lost| u64::from(lost.pots)).sum(),
        benches: benches.into_iter().map(str::to_owned).collect(),
        worst: stood.iter().map(|stood| stood.worst).max()?,
    })
}
