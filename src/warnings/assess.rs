//! Running the rules, and the post-processing shared by all warnings.
//!
//! Every warning's next look is moved to the end of a keep-out on its benches (the latest day any of them opens, where there
//! are several). Warnings come in the order of their names, then by place.
#![deny(clippy::wildcard_enum_match_arm)]

use super::bench_day::{BenchDay, DayContext};
use super::{Find, Group, RULES, Severity, Warning, WarningName, follow_up, likely_causes, put_off};
use crate::limits::Limits;
use crate::record::Place;
use crate::season::Season;
use chrono::{DateTime, NaiveDate, Utc};
use std::collections::BTreeMap;

/// All warnings of a day.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Assessment {
    /// Those of single benches, by bench code; every bench with pots has its list, which may be empty.
    pub by_bench: BTreeMap<String, Vec<Warning>>,
    /// Those of whole lots and houses.
    pub groups: Vec<Warning>,
}

impl Assessment {
    /// All of them, those of benches by bench code first.
    pub fn all(&self) -> impl Iterator<Item = &Warning> {
        self.by_bench.values().flatten().chain(&self.groups)
    }

    /// True when a bench has a warning of its own at act or urgent that is not put off.
    pub fn is_flagged(&self, bench: &str) -> bool {
        let flags = |w: &Warning| w.level >= Severity::Act && w.put_off_until.is_none();
        self.by_bench.get(bench).is_some_and(|all| all.iter().any(flags))
    }
}

/// The warnings of one bench on a day; none for an empty bench.
pub fn assess(season: &Season, bench: &str, day: NaiveDate, limits: &Limits) -> Vec<Warning> {
    let season = &season.on(day);
    let context = DayContext::new(season, day, limits);
    BenchDay::new(&context, bench).map(|bench| of_bench(&bench)).unwrap_or_default()
}

/// The warnings of whole lots and houses on a day, given those of each bench.
pub fn assess_groups(
    season: &Season,
    day: NaiveDate,
    limits: &Limits,
    per_bench: &BTreeMap<String, Vec<Warning>>,
) -> Vec<Warning> {
    let season = &season.on(day);
    let context = DayContext::new(season, day, limits);
    let benches = benches(&context);
    groups(&context, &benches, per_bench)
}

/// All warnings of a day.
pub fn assess_all(season: &Season, day: NaiveDate, limits: &Limits) -> Assessment {
    let season = &season.on(day);
    let context = DayContext::new(season, day, limits);
    let benches = benches(&context);
    let by_bench: BTreeMap<String, Vec<Warning>> = benches.iter().map(|b| (b.code().to_owned(), of_bench(b))).collect();
    let groups = groups(&context, &benches, &by_bench);
    Assessment { by_bench, groups }
}

/// Every bench with pots, in walking order.
fn benches<'a>(context: &'a DayContext<'a>) -> Vec<BenchDay<'a>> {
    context.season.benches().iter().filter_map(|b| BenchDay::new(context, &b.bench)).collect()
}

fn of_bench(bench: &BenchDay<'_>) -> Vec<Warning> {
    let mut warnings = raw(bench);
    put_off_of(bench, &mut warnings);
    likely_causes::fill(bench, &mut warnings);
    warnings
}

/// Marks the warnings of a bench that are put off.
pub(super) fn put_off_of(bench: &BenchDay<'_>, warnings: &mut [Warning]) {
    put_off::of_bench(bench, warnings, |warning, entry| level_at(bench, warning.name, entry.day(), entry.instant()));
}

/// The warnings before put-offs.
fn raw(bench: &BenchDay<'_>) -> Vec<Warning> {
    let rules = RULES.iter().filter_map(|rule| if let Find::Bench(find) = rule.find { find(bench) } else { None });
    let mut warnings: Vec<Warning> = rules.collect();
    let last = RULES
        .iter()
        .filter_map(|rule| if let Find::BenchLast(find) = rule.find { find(bench, &warnings) } else { None });
    let last: Vec<Warning> = last.collect();
    warnings.extend(last);
    warnings.sort_by_key(|w| w.name);
    follow_up::of_bench(bench, &mut warnings);
    for warning in &mut warnings {
        warning.look_again = bench.context.open_again(bench.code(), warning.look_again);
    }
    warnings
}

/// Severity of a bench's warning at an instant, by the record of that time; `None` when it was not there.
fn level_at(bench: &BenchDay<'_>, name: WarningName, day: NaiveDate, at: DateTime<Utc>) -> Option<Severity> {
    let context = DayContext::new(bench.context.season, day, bench.limits());
    let then = BenchDay::until(&context, bench.code(), at)?;
    raw(&then).iter().filter(|w| w.name == name).map(|w| w.level).max()
}

/// Lots and houses, put-offs applied.
fn groups(
    context: &DayContext<'_>,
    benches: &[BenchDay<'_>],
    per_bench: &BTreeMap<String, Vec<Warning>>,
) -> Vec<Warning> {
    let mut warnings = raw_groups(context, benches, per_bench);
    put_off::of_groups(benches, context.day, &mut warnings, |warning, entry| {
        group_level_on(context, entry.day(), warning)
    });
    warnings
}

fn raw_groups(
    context: &DayContext<'_>,
    benches: &[BenchDay<'_>],
    per_bench: &BTreeMap<String, Vec<Warning>>,
) -> Vec<Warning> {
    let lots = grouped(benches, per_bench, |b| Place::Lot(b.lot.lot.clone()));
    let houses = grouped(benches, per_bench, |b| Place::House(b.bench.house.clone()));
    let mut warnings: Vec<Warning> = Vec::new();
    for group in lots.iter().chain(&houses) {
        for rule in RULES {
            match (&rule.find, &group.place) {
                (Find::Lot(find) | Find::LotAndHouse(find, _), Place::Lot(_))
                | (Find::House(find) | Find::LotAndHouse(_, find), Place::House(_)) => {
                    warnings.extend(find(group).map(|warning| follow_up::of_group(group, warning)));
                }
                (Find::HouseEach(find), Place::House(_)) => warnings.extend(find(group)),
                (
                    Find::Bench(_)
                    | Find::BenchLast(_)
                    | Find::Lot(_)
                    | Find::LotAndHouse(..)
                    | Find::House(_)
                    | Find::HouseEach(_)
                    | Find::Twin(_),
                    _,
                ) => {}
            }
        }
    }
    warnings.sort_by_key(|w| w.name);
    for warning in &mut warnings {
        let open = |day: NaiveDate, bench: &String| context.open_again(bench, day);
        warning.look_again = warning.benches.iter().fold(warning.look_again, open);
    }
    warnings
}

/// Severity of a lot's or house's warning on a day; `None` when it was not there.
fn group_level_on(now: &DayContext<'_>, day: NaiveDate, of: &Warning) -> Option<Severity> {
    let context = DayContext::new(now.season, day, now.limits);
    let benches = benches(&context);
    let per_bench = benches.iter().map(|b| (b.code().to_owned(), raw(b))).collect();
    let same = |w: &&Warning| w.name == of.name && w.place == of.place;
    raw_groups(&context, &benches, &per_bench).iter().filter(same).map(|w| w.level).max()
}

/// Benches by house or lot, each group in walking order, the groups in the order the walk comes to them.
fn grouped<'g, 'a>(
    benches: &'g [BenchDay<'a>],
    of_bench: &'g BTreeMap<String, Vec<Warning>>,
    place: impl Fn(&BenchDay<'a>) -> Place,
) -> Vec<Group<'g, 'a>> {
    let mut groups: Vec<Group<'g, 'a>> = Vec::new();
    for bench in benches {
        let place = place(bench);
        match groups.iter_mut().find(|group| group.place == place) {
            Some(group) => group.benches.push(bench),
            None => groups.push(Group { place, benches: vec![bench], of_bench }),
        }
    }
    groups
}
