//! `staying-wet`: a mix that does not dry down.
//!
//! **Sees** a run of water readings of 4-5 up to now: the last reading in force is wet, and so are all before it back to the
//! first; it takes 3 readings. A run is not carried over a gap in which no reading counted (more than 3 days between two).
//! **Why** roots in a mix that stays wet stop and rot; dry down between waterings is common practice. No source gives the days,
//! so they are a house rule drawn from published water use by week (young plants in a full pot use little): watch / act at
//! 8 / 10 days up to day 14, 5 / 7 up to day 35, 3 / 5 after; a day more for rims of 19 cm or more, two more in a low-light
//! house or in the last 35 days before the sale (short, cool days), three at most together.
//! Days are calendar days, the first and the last wet reading included, so a day not walked adds none at the end.
//! **Stronger** with 3 wet readings and a second sign within 7 days (lower leaves yellow or leaves rolled, seen within the run,
//! fungus gnats or larvae in the mix, roots 2 or more): act at any age; roots 3 or more: urgent.
//! **Ends** with a reading of 3 or less. When the last wet reading is more than 2 days old it stands, and says since when nobody
//! read it, while the bench is walked; else `not-walked` says it.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::dates::days_between;
use crate::limits::{Key, Water};
use crate::record::{Entry, KindName, LeafSign, PestName, RootSign};
use crate::warnings::bench_day::Reading;
use crate::warnings::builder::of_bench;
use crate::warnings::pest_counts::found;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, CheckName, Class, Dry, Figure, Find, Recheck, Remedy, Rule, Severity, Signs, Step,
    Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `staying-wet`.
pub(super) static RULE: Rule = Rule {
    name: N::StayingWet,
    code: "staying-wet",
    find: Find::Bench(rule),
    cause: Cause::Wet,
    class: Class::State,
    title: "staying wet",
    why: "Roots in wet mix get no air: roots brown first; lower leaves yellow only later.",
    next: &[
        Step::hold("Do not water until it reads 2.", Dry::Top),
        Step::KNOCK_OUT,
        Step::check("Look for a drip, a blocked drain or a cold spot (corners, bench ends)."),
    ],
    answers: &[Answer { title: "roots checked", remedy: Remedy::Entry(KindName::Roots) }],
    basis: Basis::HouseRule,
    signs: Some(Signs {
        leaves: &[LeafSign::LowerYellow, LeafSign::Rolled, LeafSign::Wilted],
        roots: true,
        but: &[Possible::OverWet],
    }),
    follow_up: None,
    recheck: &[Recheck { check: CheckName::Roots, after: 7 }],
    is_sick: false,
    house_wide: true,
};

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().water;
    let run = run(bench);
    let (first, last) = (run.first()?, run.last()?);
    if run.len() < usize::try_from(limits.readings).unwrap_or(usize::MAX) {
        return None;
    }
    let lasted = days_between(first.day, last.day) + 1;
    let ((watch, watch_key), (act, act_key)) = allowed(bench);
    let second = second_signs(bench, first.day);
    let failing = bench.roots().is_some_and(|(e, s)| s >= limits.roots_failing && is_near(bench, e));
    let by_days = if lasted >= act {
        Some((Severity::Act, act_key))
    } else if lasted >= watch {
        Some((Severity::Watch, watch_key))
    } else {
        None
    };
    let level = match by_days {
        _ if failing => Severity::Urgent,
        _ if !second.is_empty() => Severity::Act,
        Some((level, _)) => level,
        None => return None,
    };
    let limit = by_days.map(|(_, key)| bench.context.limit(key));
    let warning = of_bench(bench, N::StayingWet, level, first.day)
        .saw_all(run.iter().map(|r| r.entry))
        .saw_all(second)
        .figure(Figure::Days, lasted as f64, limit);
    Some(warning.carried(bench, last.entry, limits.reading_days))
}

/// The wet run up to now, oldest first; empty when the last reading in force is not wet.
fn run<'a>(bench: &BenchDay<'a>) -> Vec<Reading<'a>> {
    let limits = &bench.limits().water;
    let Some(last) = bench.standing_water() else { return Vec::new() };
    let mut run: Vec<Reading<'a>> = Vec::new();
    for reading in bench.readings.iter().rev().skip_while(|r| r.day > last.day) {
        let unbroken = run.last().is_none_or(|later| days_between(reading.day, later.day) <= limits.reading_days + 1);
        if reading.level < limits.wet_from || !unbroken {
            break;
        }
        run.push(*reading);
    }
    run.reverse();
    run
}

/// A number of days and the limit it comes from.
type Allowed = (i64, Key<i64>);

/// Days allowed before watch and before act.
fn allowed(bench: &BenchDay<'_>) -> (Allowed, Allowed) {
    let limits = &bench.limits().water;
    let age = bench.crop_day();
    let (watch, act) = if age <= limits.young_until {
        ((limits.young_watch, Water::young_watch), (limits.young_act, Water::young_act))
    } else if age <= limits.rooting_until {
        ((limits.rooting_watch, Water::rooting_watch), (limits.rooting_act, Water::rooting_act))
    } else {
        ((limits.grown_watch, Water::grown_watch), (limits.grown_act, Water::grown_act))
    };
    let wide = bench.lot.rim_cm.is_some_and(|rim| rim >= limits.wide_rim_cm);
    let late = bench.days_to_sale() <= limits.late_from;
    let slow = (if bench.is_low_light() { limits.dull_extra } else { 0 }).max(if late { limits.late_extra } else { 0 });
    let extra = (slow + if wide { limits.wide_rim_extra } else { 0 }).min(limits.extra_most);
    ((watch.0 + extra, watch.1), (act.0 + extra, act.1))
}

fn is_near(bench: &BenchDay<'_>, entry: &Entry) -> bool {
    bench.age(entry) <= bench.limits().water.second_sign_days
}

/// What else says that the roots are too wet, within the limit's days.
fn second_signs<'a>(bench: &BenchDay<'a>, run_from: NaiveDate) -> Vec<&'a Entry> {
    let mut found: Vec<&'a Entry> = Vec::new();
    // Leaves that were yellow before it was wet say nothing of the wet, nor does an odd plant.
    let leaves = [LeafSign::LowerYellow, LeafSign::Rolled].into_iter().filter_map(|s| bench.sign(s));
    let leaves = leaves.filter(|e| e.day() >= run_from && !bench.is_on_few(e));
    let roots = bench.roots().filter(|(_, s)| *s >= bench.limits().water.roots_watch).map(|(e, _)| e);
    for entry in leaves.chain(gnats(bench)).chain(roots) {
        if is_near(bench, entry) && found.iter().all(|e| e.id != entry.id) {
            found.push(entry);
        }
    }
    found.sort_by_key(|e| e.order());
    found
}

/// The latest look for fungus gnats, when it found some, or a roots check that found larvae.
fn gnats<'a>(bench: &BenchDay<'a>) -> impl Iterator<Item = &'a Entry> {
    let mut looks = bench.of(KindName::Pests).iter().rev().copied();
    let last = looks.find_map(|e| found(e, PestName::FungusGnat).map(|n| (e, n)));
    let seen = bench.root_signs().contains(&RootSign::Larvae);
    let larvae = bench.roots().filter(|_| seen).map(|(e, _)| e);
    last.filter(|(_, n)| *n > 0.0).map(|(e, _)| e).into_iter().chain(larvae)
}
