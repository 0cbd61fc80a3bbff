//! The frame: which rules look at what, and what is done to every warning before it is told.
//!
//! Every warning's next look is moved to the end of a keep-out on its benches (the latest day any of them opens, where there
//! are several). Warnings come in the order of their names, then by place.

use super::bench_day::{BenchDay, DayContext};
use super::{
    Level, Warning, WarningName, base_moisture, climate, color, disease, follow_up, growth_regulator, height, house,
    likely_causes, losses, lot_feed, night_light, night_work, not_walked, pest_counts, ph, pinch, put_off, roots,
    salts, scouting, short_count, staying_wet, supplements, too_dry, unfed, watered_wet, whitefly, wilting_wet,
};
use crate::limits::Limits;
use crate::season::Season;
use chrono::{DateTime, NaiveDate, Utc};
use std::collections::BTreeMap;

/// A rule that looks at one bench.
type BenchRule = fn(&BenchDay<'_>) -> Option<Warning>;

/// Every rule of one bench.
const BENCH_RULES: &[BenchRule] = &[
    staying_wet::rule,
    watered_wet::rule,
    wilting_wet::rule,
    base_moisture::wet,
    base_moisture::dry,
    too_dry::rule,
    roots::browning,
    roots::failing,
    roots::diseased,
    roots::unchecked,
    losses::rule,
    supplements::magnesium,
    supplements::molybdenum,
    unfed::rule,
    salts::high,
    salts::low,
    ph::low,
    ph::high,
    pinch::due,
    pinch::in_error,
    height::outside,
    height::finishing,
    growth_regulator::late,
    growth_regulator::too_strong,
    night_light::rule,
    night_work::blackout,
    night_work::lights,
    color::behind,
    color::ahead,
    climate::heat,
    climate::cold,
    climate::mold,
    pest_counts::thrips,
    pest_counts::gnats,
    pest_counts::mites,
    pest_counts::mealybugs,
    disease::mildew,
    disease::gray_mold,
    disease::scab,
];

/// A rule that looks at all benches of one lot or house.
type GroupRule = fn(&str, &[&BenchDay<'_>]) -> Option<Warning>;

/// Every rule of one lot that needs no more than its benches.
const LOT_RULES: &[GroupRule] =
    &[lot_feed::untested, lot_feed::taper, lot_feed::calcium, scouting::unmeasured, whitefly::rule];

/// Every rule of one house that needs no more than its benches.
const HOUSE_RULES: &[GroupRule] = &[scouting::unscouted, not_walked::rule];

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
        let flags = |w: &Warning| w.level >= Level::Act && w.put_off_until.is_none();
        self.by_bench.get(bench).is_some_and(|all| all.iter().any(flags))
    }
}

/// What the rules say of one bench on a day. Nothing for an empty bench.
pub fn assess(season: &Season, bench: &str, day: NaiveDate, limits: &Limits) -> Vec<Warning> {
    let context = DayContext::new(season, day, limits);
    BenchDay::new(&context, bench).map(|bench| of_bench(&bench)).unwrap_or_default()
}

/// What the rules say of whole lots and houses on a day, given what they say of each bench.
pub fn assess_groups(
    season: &Season,
    day: NaiveDate,
    limits: &Limits,
    per_bench: &BTreeMap<String, Vec<Warning>>,
) -> Vec<Warning> {
    let context = DayContext::new(season, day, limits);
    let sights = sights(&context);
    groups(&context, &sights, per_bench)
}

/// What the rules say of everything on a day.
pub fn assess_all(season: &Season, day: NaiveDate, limits: &Limits) -> Assessment {
    let context = DayContext::new(season, day, limits);
    let sights = sights(&context);
    let by_bench: BTreeMap<String, Vec<Warning>> = sights.iter().map(|s| (s.code().to_owned(), of_bench(s))).collect();
    let groups = groups(&context, &sights, &by_bench);
    Assessment { by_bench, groups }
}

/// Every bench with pots, in walking order.
fn sights<'a>(context: &'a DayContext<'a>) -> Vec<BenchDay<'a>> {
    context.season.benches().into_iter().filter_map(|b| BenchDay::new(context, &b.bench)).collect()
}

fn of_bench(bench: &BenchDay<'_>) -> Vec<Warning> {
    let mut told = raw(bench);
    put_off::of_bench(bench, &mut told);
    likely_causes::fill(bench, &mut told);
    told
}

/// What the rules say before put-offs.
fn raw(bench: &BenchDay<'_>) -> Vec<Warning> {
    let mut told: Vec<Warning> = BENCH_RULES.iter().filter_map(|rule| rule(bench)).collect();
    follow_up::of_bench(bench, &mut told);
    for warning in &mut told {
        warning.look_again = bench.context.open_again(&bench.code(), warning.look_again);
    }
    told
}

/// How strong a bench's warning was at an instant, as the record then stood; `None` when it was not there.
pub(super) fn level_at(
    season: &Season,
    limits: &Limits,
    bench: &str,
    (name, day, at): (WarningName, NaiveDate, DateTime<Utc>),
) -> Option<Level> {
    let context = DayContext::new(season, day, limits);
    let bench = BenchDay::until(&context, bench, at)?;
    raw(&bench).iter().filter(|w| w.name == name).map(|w| w.level).max()
}

/// Lots and houses, put-offs applied.
fn groups(
    context: &DayContext<'_>,
    sights: &[BenchDay<'_>],
    per_bench: &BTreeMap<String, Vec<Warning>>,
) -> Vec<Warning> {
    let mut told = raw_groups(context, sights, per_bench);
    put_off::groups(context, sights, &mut told);
    told
}

fn raw_groups(
    context: &DayContext<'_>,
    sights: &[BenchDay<'_>],
    per_bench: &BTreeMap<String, Vec<Warning>>,
) -> Vec<Warning> {
    let mut told = Vec::new();
    for (code, members) in grouped(sights, |s| &s.lot.lot) {
        for mut warning in LOT_RULES.iter().filter_map(|rule| rule(code, &members)) {
            follow_up::of_lot(&members, &mut warning);
            told.push(warning);
        }
        told.extend(short_count::rule(context, code, &members));
    }
    for (name, members) in grouped(sights, |s| &s.bench.house) {
        told.extend(HOUSE_RULES.iter().filter_map(|rule| rule(name, &members)));
        told.extend(house::rule(name, &members, per_bench));
    }
    told.sort_by_key(|w| w.name);
    for warning in &mut told {
        let open = |day: NaiveDate, bench: &String| context.open_again(bench, day);
        warning.look_again = warning.benches.iter().fold(warning.look_again, open);
    }
    told
}

/// How strong a lot's or house's warning was on a day; `None` when it was not there.
pub(super) fn group_level_on(season: &Season, limits: &Limits, day: NaiveDate, of: &Warning) -> Option<Level> {
    let context = DayContext::new(season, day, limits);
    let sights = sights(&context);
    let per_bench = sights.iter().map(|s| (s.code().to_owned(), raw(s))).collect();
    let same = |w: &&Warning| w.name == of.name && w.place == of.place;
    raw_groups(&context, &sights, &per_bench).iter().filter(same).map(|w| w.level).max()
}

/// Benches by house or lot, each group in walking order, the groups in the order the walk comes to them.
fn grouped<'s, 'a>(
    sights: &'s [BenchDay<'a>],
    key: impl Fn(&'s BenchDay<'a>) -> &'s String,
) -> Vec<(&'s str, Vec<&'s BenchDay<'a>>)> {
    let mut groups: Vec<(&str, Vec<&BenchDay<'a>>)> = Vec::new();
    for bench in sights {
        let name = key(bench).as_str();
        match groups.iter_mut().find(|(n, _)| *n == name) {
            Some((_, members)) => members.push(bench),
            None => groups.push((name, vec![bench])),
        }
    }
    groups
}
