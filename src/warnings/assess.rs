//! Running the rules, and the post-processing shared by all warnings.
//!
//! Every warning's next look is moved to the end of a keep-out on its benches (the latest day any of them opens, where there
//! are several). Warnings come in the order of their names, then by place.
#![deny(clippy::wildcard_enum_match_arm)]

use super::before::{self, NotKnown, not_known};
use super::bench_day::{BenchDay, DayContext};
use super::drying::{self, Slower};
use super::rules::last_walk;
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

    /// The same, taken out of it.
    pub fn into_all(self) -> Vec<Warning> {
        self.by_bench.into_values().flatten().chain(self.groups).collect()
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

/// The lots and houses with pots on a day, lots first, each in the order the walk comes to it.
pub fn groups_on(season: &Season, day: NaiveDate) -> Vec<Place> {
    let season = &season.on(day);
    let (mut lots, mut houses): (Vec<Place>, Vec<Place>) = (Vec::new(), Vec::new());
    let add = |to: &mut Vec<Place>, place: Place| {
        if !to.contains(&place) {
            to.push(place);
        }
    };
    for bench in season.benches() {
        if let Some(standing) = season.standing(&bench.bench, day) {
            add(&mut lots, Place::Lot(standing.lot.into()));
            add(&mut houses, Place::House(bench.house.as_str().into()));
        }
    }
    lots.append(&mut houses);
    lots
}

/// The warnings of one lot or house on a day, given those of each of its benches; none for a bench.
pub fn assess_group(
    season: &Season,
    (place, day): (&Place, NaiveDate),
    limits: &Limits,
    per_bench: &BTreeMap<String, Vec<Warning>>,
) -> Vec<Warning> {
    let season = &season.on(day);
    let context = DayContext::new(season, day, limits);
    let benches = benches_of(&context, place);
    groups(&context, &[group(place, &benches, per_bench)])
}

/// All warnings of a day.
pub fn assess_all(season: &Season, day: NaiveDate, limits: &Limits) -> Assessment {
    let season = &season.on(day);
    let context = DayContext::new(season, day, limits);
    all_of(&context, &benches(&context))
}

/// All that the evening says of a day beside its work.
#[derive(Debug, Clone, PartialEq)]
pub struct AssessedDay {
    /// All warnings.
    pub assessment: Assessment,
    /// How many benches were walked: a finding of their own was written, other than a note.
    pub walked: usize,
    /// As [`not_known`](super::not_known).
    pub not_known: Vec<NotKnown>,
    /// As [`slower_on`](super::slower_on).
    pub slower: Vec<Slower>,
}

/// All of a day at once: the record of each bench is read once for it.
pub fn assess_day(season: &Season, day: NaiveDate, limits: &Limits) -> AssessedDay {
    let season = &season.on(day);
    let context = DayContext::new(season, day, limits);
    let benches = benches(&context);
    let slower = drying::slower_of(&benches, day);
    let not_known = not_known(benches.iter().filter_map(before::of_bench));
    let walked = benches.iter().filter(|bench| last_walk(bench) == Some(day)).count();
    AssessedDay { assessment: all_of(&context, &benches), walked, not_known, slower }
}

fn all_of(context: &DayContext<'_>, benches: &[BenchDay<'_>]) -> Assessment {
    let by_bench: BTreeMap<String, Vec<Warning>> = benches.iter().map(|b| (b.code().to_owned(), of_bench(b))).collect();
    let groups = groups(context, &lots_and_houses(benches, &by_bench));
    Assessment { by_bench, groups }
}

/// Every bench with pots, in walking order.
pub(super) fn benches<'a>(context: &'a DayContext<'a>) -> Vec<BenchDay<'a>> {
    context.season.benches().iter().filter_map(|b| BenchDay::new(context, &b.bench)).collect()
}

/// Those of a lot or house, in walking order.
fn benches_of<'a>(context: &'a DayContext<'a>, place: &Place) -> Vec<BenchDay<'a>> {
    let codes = context.season.benches_at(place, context.day);
    codes.into_iter().filter_map(|code| BenchDay::new(context, code)).collect()
}

pub(super) fn of_bench(bench: &BenchDay<'_>) -> Vec<Warning> {
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
fn groups(context: &DayContext<'_>, groups: &[Group<'_, '_>]) -> Vec<Warning> {
    let mut warnings: Vec<Warning> = Vec::new();
    for group in groups {
        let mut found = raw_group(group);
        put_off::of_group(group, context.day, &mut found, |warning, entry| {
            group_level_on(context, entry.day(), warning)
        });
        warnings.extend(found);
    }
    warnings.sort_by_key(|w| w.name);
    warnings
}

/// The warnings of a lot or house before put-offs.
fn raw_group(group: &Group<'_, '_>) -> Vec<Warning> {
    let mut warnings: Vec<Warning> = Vec::new();
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
    if let Some(first) = group.first() {
        for warning in &mut warnings {
            let open = |day: NaiveDate, bench: &String| first.context.open_again(bench, day);
            warning.look_again = warning.benches.iter().fold(warning.look_again, open);
        }
    }
    warnings
}

/// Severity of a lot's or house's warning on a day; `None` when it was not there.
fn group_level_on(now: &DayContext<'_>, day: NaiveDate, of: &Warning) -> Option<Severity> {
    let context = DayContext::new(now.season, day, now.limits);
    let benches = benches_of(&context, &of.place);
    let per_bench = benches.iter().map(|b| (b.code().to_owned(), raw(b))).collect();
    let then = raw_group(&group(&of.place, &benches, &per_bench));
    then.iter().filter(|w| w.name == of.name).map(|w| w.level).max()
}

fn group<'g, 'a>(
    place: &Place,
    benches: &'g [BenchDay<'a>],
    of_bench: &'g BTreeMap<String, Vec<Warning>>,
) -> Group<'g, 'a> {
    Group { place: place.clone(), benches: benches.iter().collect(), of_bench }
}

/// The lots, then the houses of benches.
fn lots_and_houses<'g, 'a>(
    benches: &'g [BenchDay<'a>],
    of_bench: &'g BTreeMap<String, Vec<Warning>>,
) -> Vec<Group<'g, 'a>> {
    let mut all = grouped(benches, of_bench, |b| Place::Lot(b.lot.lot.as_str().into()));
    all.extend(grouped(benches, of_bench, |b| Place::House(b.bench.house.as_str().into())));
    all
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
