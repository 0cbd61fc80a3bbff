//! `whitefly`: the share of plants with it, by lot, and the catches of sticky cards, by house.
//!
//! **Sees** checks of the last 7 days, taken together over the lot's benches, of 20 plants or more together. Of one
//! bench only what lies within 7 days of its own latest check counts, so that a weekly check replaces the one before.
//! **Numbers** act from 20% of plants (Ontario 2018: under 20% of pots by mid-September is on track), from 7% up to day 21
//! and watch from 5% (New England 2013: a start over 5 to 7% ends over 20%). Says the 95% interval (Wilson); where that
//! still reaches the line for act, to check more plants. From the last week of September on it says that the time to change
//! from beneficials to sprays is ending (Ontario 2020).
//! Sticky cards of a house (`whitefly_cards`) are watched beside it: three catches, each higher than the one before, or any adult
//! where no plants were looked at in 8 days.
//! **Ends** with checks under the line. What was found on a bench more than 7 days ago stands until plants of that bench are
//! looked at again, and says since when nobody looked.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::pests::{Infested, Sample, infested};
use crate::crop::symptoms::Cause as Possible;
use crate::dates::days_between;
use crate::limits::{Key, Pests};
use crate::record::{Entry, Kind, KindName, LeafSign, PestCount, PestName};
use crate::warnings::builder::of_group;
use crate::warnings::whitefly_cards;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, FollowUp, Group, Remedy, Rule, Severity, Signs, Step, Warning,
    WarningName as N,
};
use chrono::{Datelike, NaiveDate};
use std::collections::{BTreeMap, BTreeSet};

/// Everything about `whitefly`.
pub(super) static RULE: Rule = Rule {
    name: N::Whitefly,
    code: "whitefly",
    find: Find::LotAndHouse(rule, whitefly_cards::rule),
    cause: Cause::Pest(N::Whitefly),
    class: Class::State,
    title: "whitefly",
    why: "More than a few percent of plants infested now means more than buyers accept at sale.",
    next: &[
        Step::todo("Ask your extension or crop advisor: more beneficials, or a spray before colored bracts."),
        Step::check("Check under the leaves of the worst plants."),
    ],
    answers: &[
        Answer { title: "sprayed", remedy: Remedy::Spray { against: "whitefly" } },
        Answer { title: "beneficials released", remedy: Remedy::Entry(KindName::Released) },
        Answer { title: "counted again", remedy: Remedy::Count(PestName::Whitefly) },
    ],
    basis: SOURCES,
    signs: Some(Signs { leaves: &[LeafSign::Sticky], roots: false, but: &[Possible::Whitefly] }),
    follow_up: Some(FollowUp { kinds: &[KindName::Sprayed, KindName::Released], against: &["whitefl"] }),
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

impl Step {
    /// The interval of the share still reaches the line for act.
    pub const LOOK_AT_MORE: Self = Self::todo("Check more plants: the true percentage could still be over the limit.");
    /// The time to change from beneficials to sprays is ending.
    pub const LAST_SPRAYS: Self = Self::todo("Late September is the last chance to switch from beneficials to sprays.");
}

const SOURCES: Basis = Basis::Published("Ontario floriculture IPM 2018 and 2020; New England biocontrol update 2013");

/// A bench's looks that count on a day, with plants and infested plants: those near its latest look up to then.
fn looks<'a>(bench: &BenchDay<'a>, on: NaiveDate) -> Vec<(&'a Entry, Sample)> {
    let window = bench.limits().pests.whitefly_days;
    let mut all = plant_looks(bench).skip_while(|(e, _)| e.day() > on).peekable();
    let Some(latest) = all.peek().map(|(e, _)| e.day()).filter(|d| days_between(*d, on) <= window) else {
        return Vec::new();
    };
    all.take_while(|(e, _)| days_between(e.day(), latest) < window).collect()
}

/// Every look at plants of a bench, the latest first.
fn plant_looks<'s, 'a>(bench: &'s BenchDay<'a>) -> impl Iterator<Item = (&'a Entry, Sample)> + use<'s, 'a> {
    bench.of(KindName::Pests).iter().rev().filter_map(|e| match &*e.kind {
        Kind::Pests { pest: PestName::Whitefly, count: PestCount::Plants { inspected, infested } } => {
            Some((*e, Sample { inspected: *inspected, infested: *infested }))
        }
        _ => None,
    })
}

/// What the looks of a day say of a lot, taken together.
struct Found<'a> {
    on: NaiveDate,
    level: Severity,
    line: f64,
    key: Key<f64>,
    share: Infested,
    plants: u32,
    with: Vec<&'a Entry>,
    benches: Vec<String>,
}

fn found<'a>(group: &Group<'_, 'a>, on: NaiveDate) -> Option<Found<'a>> {
    let first = group.first()?;
    let limits = &first.limits().pests;
    let mut seen = BTreeMap::new();
    let mut benches = Vec::new();
    for bench in &group.benches {
        let found = looks(bench, on);
        if found.iter().any(|(_, s)| s.infested > 0) {
            benches.push(bench.code().to_owned());
        }
        // Looks that came along with moved pots, and looks at a whole house or lot, stand in several benches' histories.
        seen.extend(found.into_iter().map(|(e, s)| (e.order(), (e, s))));
    }
    let sum = |of: fn(&Sample) -> u32| seen.values().fold(0_u32, |n, (_, s)| n.saturating_add(of(s)));
    let all = Sample { inspected: sum(|s| s.inspected), infested: sum(|s| s.infested) };
    if all.inspected < limits.whitefly_plants {
        return None;
    }
    let share = infested(all).ok()?;
    let young = first.crop_day_of(on) <= limits.whitefly_young_until;
    let (line, line_key) =
        if young { (limits.whitefly_young, Pests::whitefly_young) } else { (limits.whitefly_act, Pests::whitefly_act) };
    let percent = share.share * 100.0;
    let (level, key) = if percent >= line {
        (Severity::Act, line_key)
    } else if percent >= limits.whitefly_watch {
        (Severity::Watch, Pests::whitefly_watch)
    } else {
        return None;
    };
    let with = seen.values().filter(|(_, s)| s.infested > 0).map(|(e, _)| *e).collect();
    Some(Found { on, level, line, key, share, plants: all.inspected, with, benches })
}

/// What looks past their days said, of the benches on which nobody looked since.
fn carried<'a>(group: &Group<'_, 'a>) -> Option<Found<'a>> {
    let first = group.first().filter(|bench| !bench.past_sale())?;
    let window = first.limits().pests.whitefly_days;
    let last_with = |bench: &BenchDay<'_>| {
        plant_looks(bench).next().filter(|(e, s)| s.infested > 0 && bench.age(e) > window).map(|(e, _)| e.day())
    };
    let open: BTreeMap<&str, NaiveDate> =
        group.benches.iter().filter_map(|b| Some((b.code(), last_with(b)?))).collect();
    let days: BTreeSet<NaiveDate> = open.values().copied().collect();
    let each = days.into_iter().filter_map(|on| {
        let mut found = found(group, on)?;
        found.benches.retain(|bench| open.get(bench.as_str()).is_some_and(|last| *last <= on));
        (!found.benches.is_empty()).then_some(found)
    });
    each.max_by_key(|found| (found.level, found.on))
}

fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let first = group.first()?;
    let (now, before) = (found(group, first.day()), carried(group));
    let level = |found: &Option<Found<'_>>| found.as_ref().map(|f| f.level);
    let found = if level(&before) > level(&now) { before? } else { now? };
    let percent = found.share.share * 100.0;
    let last = found.with.last().copied();
    let since = found.with.first().map_or(first.day(), |e| e.day());
    let range = Some((found.share.low * 100.0, found.share.high * 100.0));
    let warning = of_group(group, (N::Whitefly, found.level), since, found.benches).saw_all(found.with);
    let warning = warning.ranged(Figure::Infested, percent, range, first.context.limit(found.key));
    let warning = warning.figure(Figure::Plants, f64::from(found.plants), None);
    let unsure = found.level == Severity::Watch && found.share.high * 100.0 >= found.line;
    let warning = warning.step_if(unsure, Step::LOOK_AT_MORE).step_if(is_last_call(first), Step::LAST_SPRAYS);
    let warning = match last.filter(|_| found.on < first.day()) {
        Some(last) => warning.carried(first, last, first.limits().pests.whitefly_days),
        None => warning,
    };
    Some(warning.again(first.in_days(7)))
}

/// True from the last week of September to the first of October (the north).
fn is_last_call(bench: &BenchDay<'_>) -> bool {
    let (month, day) = (bench.day().month(), bench.day().day());
    (month == 9 && day >= 24) || (month == 10 && day <= 7)
}
