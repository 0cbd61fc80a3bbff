//! `root-zone-untested`: a lot whose root zone was not tested, raised once for the lot.
//!
//! **Sees** 15 days without a root zone test on any bench of the lot, counted from planting, or the beginning of a later record,
//! where there was none (Ontario: every
//! two weeks). A test on one bench speaks for the lot, as growers sample it.
//! **Level** watch. **Ends** with a test, or the sale.
//! **Class** date: it stands until done or moot.

use crate::dates::{add_days, days_between};
use crate::limits::Feed;
use crate::record::{Entry, KindName};
use crate::warnings::builder::of_group;
use crate::warnings::{
    Answer, Basis, Cause, Class, Figure, Find, Group, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `root-zone-untested`.
pub(super) static RULE: Rule = Rule {
    name: N::RootZoneUntested,
    code: "root-zone-untested",
    find: Find::Lot(rule),
    cause: Cause::Unchecked,
    class: Class::Date,
    title: "root zone untested",
    why: "pH and EC drift for weeks before a leaf shows it.",
    next: &[Step::check("Test pH and EC of at least three pots.")],
    answers: &[Answer { title: "root zone tested", remedy: Remedy::Entry(KindName::RootZone) }],
    basis: ONTARIO,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const ONTARIO: Basis = Basis::Published("Ontario floriculture: pH and EC every two weeks");

fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let first = group.benches.first().filter(|s| !s.past_sale())?;
    let last = group.benches.iter().filter_map(|s| s.last(KindName::RootZone)).map(Entry::day).max();
    let from = last.unwrap_or_else(|| first.counted_from(first.lot.planted));
    let limit = first.limits().feed.untested_days;
    let without = days_between(from, first.day());
    (without >= limit).then(|| {
        let name = (N::RootZoneUntested, Severity::Watch);
        of_group(group, name, add_days(from, limit), group.codes()).missing(KindName::RootZone, last).figure(
            Figure::Days,
            without as f64,
            first.context.limit(Feed::untested_days),
        )
    })
}
