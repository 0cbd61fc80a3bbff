//! `magnesium-due` and `magnesium-missed`: the extra magnesium of the sixth week.
//!
//! **Sees** the crop's age and what was given. First due on day 42 (common practice: six weeks), shown as due from day 35 and
//! missed from day 46 (grace: house rule); then due 28 days after the last and missed at 42 (Purdue: every 4 to 6 weeks), until
//! 21 days before the sale. Met by a magnesium drench of 100 ppm Mg or more, by the lot's constant feed and water of 30 ppm Mg
//! or more (Michigan State: 30-40), or by three of the last four `fed` at 30 or more; such feeding counts as given on the day of
//! the last of them. A dose before day 35 counts from its own day.
//! Where the record began after the first was due and nobody said whether it was given, both keep quiet until one is logged.
//! **Why** leaves once marked stay marked; giving it late mends only the new ones.
//! In those last 21 days what was missed before them is still watched while leaves yellow between the veins are seen.
//! **Level** due watch, missed act, missed with yellowing between the veins on old or middle leaves urgent.
//! **Ends** with what meets it, or 21 days before the sale (with leaves that show it: at the sale). On a wet bench the next step
//! is to give it as the next watering.
//! **Class** date: it stands until done or moot.

use crate::crop::feed::Given;
use crate::dates::add_days;
use crate::limits::Feed;
use crate::record::{Entry, Kind, KindName, LeafSign, Material, Method, PlantPart};
use crate::warnings::before::{Earlier, EarlierWork};
use crate::warnings::doses::{Dates, dose_warning, first_dates};
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Find, Remedy, Rule, Severity, Signs, Step, Warning, WarningName as N,
};

/// Everything about `magnesium-due`.
pub(super) static DUE: Rule = Rule {
    name: N::MagnesiumDue,
    code: "magnesium-due",
    find: Find::Bench(rule),
    cause: Cause::Extras,
    class: Class::Date,
    title: "magnesium due",
    why: "Magnesium-deficient leaves do not recover; apply before symptoms show.",
    next: &[Step::nutrient("Apply magnesium sulfate as a separate drench, never mixed with calcium.")],
    answers: ANSWERS,
    basis: SIX_WEEKS,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// Everything about `magnesium-missed`.
pub(super) static MISSED: Rule = Rule {
    name: N::MagnesiumMissed,
    code: "magnesium-missed",
    find: Find::Twin(N::MagnesiumDue),
    cause: Cause::Extras,
    class: Class::Date,
    title: "magnesium missed",
    why: "Magnesium-deficient leaves do not recover; this application is overdue.",
    next: &[Step::nutrient("Apply magnesium sulfate as a separate drench, never mixed with calcium.")],
    answers: ANSWERS,
    basis: SIX_WEEKS,
    signs: Some(Signs { leaves: &[LeafSign::BetweenVeins], roots: false, but: &[] }),
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// What is given: a drench, or magnesium in the feed.
const ANSWERS: &[Answer] = &[
    Answer {
        title: "magnesium sulfate as a drench",
        remedy: Remedy::Nutrient { material: Material::MagnesiumSulfate, given: Given::Apart(Method::Drench) },
    },
    Answer {
        title: "magnesium in the feed (three of four feeds)",
        remedy: Remedy::Nutrient { material: Material::MagnesiumSulfate, given: Given::InFeed },
    },
];

const SIX_WEEKS: Basis = Basis::Published(
    "week 6 is common practice; every 4 to 6 weeks: Purdue Extension; 30 ppm: Michigan State Extension",
);

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    if bench.lot.feed_mg_ppm.is_some_and(|ppm| ppm >= limits.magnesium_feed_ppm) {
        return None;
    }
    let last = last_given(bench);
    let earlier = bench.done_earlier(EarlierWork::Magnesium);
    let mut dates = first_dates(bench);
    if last.is_none() && bench.earlier(EarlierWork::Magnesium) == Earlier::NotKnown {
        return None;
    }
    if let Some(last) = last.map(Entry::day).or(earlier) {
        let (due, missed) = (add_days(last, limits.magnesium_every), add_days(last, limits.magnesium_again_missed));
        if due > dates.due {
            dates = Dates { due, missed, due_key: Feed::magnesium_every, missed_key: Feed::magnesium_again_missed };
        }
    }
    let (missed, late) = match dates.missed_on(bench) {
        Some(missed) => (missed, false),
        None => (is_missed_late(bench, &dates), true),
    };
    let yellow = yellow(bench, late).filter(|_| missed);
    let level = match (missed, yellow) {
        (false, _) | (true, None) if late => return None,
        (true, Some(_)) if late => Severity::Watch,
        (true, Some(_)) => Severity::Urgent,
        (true, None) => Severity::Act,
        (false, _) => Severity::Watch,
    };
    let name = if missed { N::MagnesiumMissed } else { N::MagnesiumDue };
    let warning = dose_warning(bench, (name, level), (&dates, missed), (last, earlier)).saw_all(yellow);
    Some(warning)
}

/// Leaves yellow between the veins, where old or middle leaves show it; in the last days also where nobody said which leaves.
fn yellow<'a>(bench: &BenchDay<'a>, late: bool) -> Option<&'a Entry> {
    const OLD: [PlantPart; 2] = [PlantPart::Old, PlantPart::Middle];
    let shows = |e: &&Entry| match &*e.kind {
        Kind::Leaves { plant_part, .. } => plant_part.as_ref().map_or(late, |part| OLD.contains(part)),
        _ => false,
    };
    bench.sign(LeafSign::BetweenVeins).filter(shows)
}

/// True where it was missed before the last days to the sale, in which no more is called for.
fn is_missed_late(bench: &BenchDay<'_>, dates: &Dates) -> bool {
    let last = add_days(bench.lot.ready_by, -bench.limits().feed.magnesium_until);
    !bench.past_sale() && bench.day() >= dates.missed && dates.missed <= last
}

/// The latest entry that met the need for magnesium.
pub(in crate::warnings) fn last_given<'a>(bench: &BenchDay<'a>) -> Option<&'a Entry> {
    let limits = &bench.limits().feed;
    let is_dose = |e: &&&Entry| {
        matches!(*e.kind, Kind::Nutrient { material: Material::MagnesiumSulfate, ppm, how: Method::Drench, .. }
            if ppm >= limits.magnesium_drench_ppm)
    };
    let drench = bench.of(KindName::Nutrient).iter().rev().find(is_dose).copied();
    drench.into_iter().chain(fed_with_magnesium(bench)).max_by_key(|e| e.order())
}

/// The latest `fed` at which three of the last four carried enough magnesium.
fn fed_with_magnesium<'a>(bench: &BenchDay<'a>) -> Option<&'a Entry> {
    const OF_LAST: usize = 4;
    const ENOUGH: usize = 3;
    let least = bench.limits().feed.magnesium_feed_ppm;
    let carries = |e: &Entry| matches!(*e.kind, Kind::Fed { mg_ppm: Some(ppm), .. } if ppm >= least);
    let feeds = bench.of(KindName::Fed);
    (ENOUGH..=feeds.len()).rev().find_map(|n| {
        let upto = feeds.get(..n)?;
        let with = upto.iter().rev().take(OF_LAST).filter(|e| carries(e)).count();
        if with >= ENOUGH { upto.last().copied() } else { None }
    })
}
