//! `unmeasured`: a lot whose heights were not measured.
//!
//! **Sees** 9 days without a height on any of its benches, from the start of the curve on (Florida: weekly; two days' grace). Only
//! for lots with a window to hold heights against.
//! **Level** watch. **Ends** with a reading, or the sale.
//! **Class** date: it stands until done or moot.

use crate::dates::{add_days, days_between};
use crate::limits::Growth;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_group;
use crate::warnings::due::height_start;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Group, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `unmeasured`.
pub(super) static RULE: Rule = Rule {
    name: N::Unmeasured,
    code: "unmeasured",
    find: Find::Lot(rule),
    cause: Cause::Unchecked,
    class: Class::Date,
    title: "heights not measured",
    why: "Plants can grow out of the window in a week.",
    next: &[Step::check("Measure the tagged plants, bench to growing tip.")],
    answers: &[Answer { title: "heights measured", remedy: Remedy::Entry(KindName::Height) }],
    basis: WEEKLY,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const WEEKLY: Basis =
    Basis::Published("UF/IFAS height-control pages 2011: weekly; two days' grace: Benchwalk's rule of thumb");

fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let first = group.benches.first().filter(|s| !s.past_sale())?;
    let limit = first.limits().growth.unmeasured_days;
    let started: Vec<(&BenchDay<'_>, NaiveDate)> =
        group.benches.iter().filter_map(|s| height_start(s).map(|start| (*s, start))).collect();
    let start = started.iter().map(|(_, start)| *start).min()?;
    let last = started.iter().filter_map(|(s, _)| s.last(KindName::Height)).map(Entry::day).max();
    let from = last.filter(|l| *l >= start).unwrap_or_else(|| first.counted_from(start));
    let without = days_between(from, first.day());
    (without >= limit).then(|| {
        let benches = started.iter().map(|(s, _)| s.code().to_owned()).collect();
        let name = (N::Unmeasured, Severity::Watch);
        of_group(group, name, add_days(from, limit), benches).missing(KindName::Height, last).figure(
            Figure::Days,
            without as f64,
            first.context.limit(Growth::unmeasured_days),
        )
    })
}
