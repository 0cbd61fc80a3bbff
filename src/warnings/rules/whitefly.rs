//! `whitefly`: the share of plants with it, by lot.
//!
//! **Sees** checks of the last 7 days, taken together over the lot's benches, of 20 plants or more together. Of one
//! bench only what lies within 7 days of its own latest check counts, so that a weekly check replaces the one before.
//! **Numbers** act from 20% of plants (Ontario 2018: under 20% of pots by mid-September is on track), from 7% up to day 21
//! and watch from 5% (New England 2013: a start over 5 to 7% ends over 20%). Says the 95% interval (Wilson); where that
//! still reaches the line for act, to check more plants. From the last week of September on it says that the time to change
//! from beneficials to sprays is ending (Ontario 2020).
//! **Ends** with checks under the line, or when the last 7 days hold fewer than 20 plants.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::pests::{Sample, infested};
use crate::dates::days_between;
use crate::limits::Pests;
use crate::record::{Entry, Kind, KindName, PestCount, PestName};
use crate::warnings::builder::of_group;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, FollowUp, Group, Remedy, Rule, Severity, Step, Warning,
    WarningName as N,
};
use chrono::Datelike;
use std::collections::BTreeMap;

/// Everything about `whitefly`.
pub(super) static RULE: Rule = Rule {
    name: N::Whitefly,
    code: "whitefly",
    find: Find::Lot(rule),
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
    signs: None,
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

/// A bench's looks that count, with plants and infested plants.
fn looks<'a>(bench: &BenchDay<'a>) -> Vec<(&'a Entry, Sample)> {
    let window = bench.limits().pests.whitefly_days;
    let all = bench.of(KindName::Pests).iter().rev().filter_map(|e| match &e.kind {
        Kind::Pests { pest: PestName::Whitefly, count: PestCount::Plants { inspected, infested } } => {
            Some((*e, Sample { inspected: *inspected, infested: *infested }))
        }
        _ => None,
    });
    let mut all = all.peekable();
    let Some(latest) = all.peek().map(|(e, _)| e.day()).filter(|d| days_between(*d, bench.day()) <= window) else {
        return Vec::new();
    };
    all.take_while(|(e, _)| days_between(e.day(), latest) < window).collect()
}

fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let first = group.benches.first()?;
    let limits = &first.limits().pests;
    let mut seen = BTreeMap::new();
    let mut benches = Vec::new();
    for bench in &group.benches {
        let found = looks(bench);
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
    let young = first.crop_day() <= limits.whitefly_young_until;
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
    let with: Vec<&Entry> = seen.values().filter(|(_, s)| s.infested > 0).map(|(e, _)| *e).collect();
    let since = with.first().map_or(first.day(), |e| e.day());
    let range = Some((share.low * 100.0, share.high * 100.0));
    let warning = of_group(group, (N::Whitefly, level), since, benches).saw_all(with);
    let warning = warning.ranged(Figure::Infested, percent, range, first.context.limit(key));
    let warning = warning.figure(Figure::Plants, f64::from(all.inspected), None);
    let unsure = level == Severity::Watch && share.high * 100.0 >= line;
    let warning = warning.step_if(unsure, Step::LOOK_AT_MORE).step_if(is_last_call(first), Step::LAST_SPRAYS);
    Some(warning.again(first.in_days(7)))
}

/// True from the last week of September to the first of October (the north).
fn is_last_call(bench: &BenchDay<'_>) -> bool {
    let (month, day) = (bench.day().month(), bench.day().day());
    (month == 9 && day >= 24) || (month == 10 && day <= 7)
}
