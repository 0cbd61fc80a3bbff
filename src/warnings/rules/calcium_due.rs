//! `calcium-due`: a calcium spray that the plan wants, raised once for the lot.
//!
//! **Sees** where the plan wants calcium sprays, a first one was given, or burned bract edges were seen on a bench of the site:
//! bract stage 2-4 (a check of the last 14 days) and no calcium spray for 15 days, or none at all (suppliers' programs: weekly;
//! Maryland practice: every two weeks). Names the benches that want one.
//! **Level** watch. **Ends** with a spray, with stage 5, or the sale.
//! **Class** date: it stands until done or moot.

use crate::crop::feed::Given;
use crate::dates::{add_days, days_between};
use crate::limits::Feed;
use crate::record::{Entry, Kind, KindName, Material, Method};
use crate::warnings::builder::of_group;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Group, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `calcium-due`.
pub(super) static RULE: Rule = Rule {
    name: N::CalciumDue,
    code: "calcium-due",
    find: Find::Lot(rule),
    cause: Cause::Damp,
    class: Class::Date,
    title: "calcium spray due",
    why: "Low calcium at the bract margin causes edge burn.",
    next: &[Step::spray(
        "Spray calcium chloride by the label, early in the day, on dry bracts; never with sulfates or phosphates.",
    )],
    answers: &[Answer {
        title: "calcium chloride spray",
        remedy: Remedy::Nutrient { material: Material::CalciumChloride, given: Given::Apart(Method::Spray) },
    }],
    basis: CALCIUM,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const CALCIUM: Basis =
    Basis::Published("suppliers' programs: weekly from first color; Maryland practice: every two weeks");

fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    const STAGES: std::ops::RangeInclusive<u8> = 2..=4;
    let first = group.benches.first().filter(|s| !s.past_sale())?;
    let spray = |s: &&BenchDay<'_>| last_calcium(s).map(Entry::day);
    // Before a record that came later there may have been one.
    let late = first.begins() > first.lot.planted;
    let last_known = |s: &&BenchDay<'_>| spray(s).or_else(|| late.then(|| s.begins()));
    let limit = first.limits().feed.calcium_days;
    let due: Vec<(&BenchDay<'_>, &Entry)> = group
        .benches
        .iter()
        .filter(|s| last_known(s).is_none_or(|last| days_between(last, s.day()) >= limit))
        .filter_map(|s| Some((*s, s.stage_within(s.limits().light.reading_days)?)))
        .filter(|(_, (_, stage))| STAGES.contains(stage))
        .map(|(s, (entry, _))| (s, entry))
        .collect();
    let (_, stage) = due.first()?;
    let wanted = first.lot.calcium
        || group.benches.iter().any(|s| spray(s).is_some())
        || super::bract_burn::was_seen(first.context.season, first.day());
    if !wanted {
        return None;
    }
    let last = due.iter().filter_map(|(s, _)| spray(s)).min();
    let since = last.map_or_else(|| stage.day(), |last| add_days(last, limit));
    let benches = due.iter().map(|(s, _)| s.code().to_owned()).collect();
    let name = (N::CalciumDue, Severity::Watch);
    let warning = of_group(group, name, since, benches);
    let warning = warning.saw(stage).missing(KindName::Nutrient, last);
    let without = last.map(|l| days_between(l, first.day()) as f64);
    let warning = match without {
        Some(n) => warning.figure(Figure::Days, n, first.context.limit(Feed::calcium_days)),
        None => warning,
    };
    Some(warning)
}

/// The latest calcium spray.
fn last_calcium<'a>(bench: &BenchDay<'a>) -> Option<&'a Entry> {
    let is_spray =
        |e: &&&Entry| matches!(*e.kind, Kind::Nutrient { material: Material::CalciumChloride, how: Method::Spray, .. });
    bench.of(KindName::Nutrient).iter().rev().find(is_spray).copied()
}
