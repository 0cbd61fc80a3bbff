//! `unscouted`: benches of a house that nobody searched for pests.
//!
//! **Sees** fewer than half of the house's benches with plants looked at (for any pest) in 8 days, or one bench without for 15
//! (Ontario 2018: half the benches, weekly; the days are house rules). A bench filled less long ago is not held to it. It names
//! the benches without: all that lack a check when half do, else those that lack it 15 days.
//! **Level** watch. **Ends** with the check, or the sale.
//! **Class** date: it stands until done or moot.

use crate::dates::{add_days, days_between};
use crate::limits::Pests;
use crate::record::{Entry, Kind, KindName, PestCount, PestName};
use crate::warnings::builder::of_group;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Group, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `unscouted`.
pub(super) static RULE: Rule = Rule {
    name: N::Unscouted,
    code: "unscouted",
    find: Find::House(rule),
    cause: Cause::Unchecked,
    class: Class::Date,
    title: "not scouted",
    why: "If you do not scout, the customer finds them.",
    next: &[Step::check("Turn over leaves on the benches that were missed.")],
    answers: &[Answer { title: "checked for whitefly", remedy: Remedy::Count(PestName::Whitefly) }],
    basis: ONTARIO,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const ONTARIO: Basis =
    Basis::Published("Ontario floriculture IPM 2018: half the benches, weekly; the days: Benchwalk's rule of thumb");

/// The day plants of a bench were last looked at. A sticky card or a wedge says nothing of the undersides of leaves.
pub(in crate::warnings) fn last_look(bench: &BenchDay<'_>) -> Option<NaiveDate> {
    let plants = |e: &&&Entry| matches!(*e.kind, Kind::Pests { count: PestCount::Plants { .. }, .. });
    bench.of(KindName::Pests).iter().rev().find(plants).map(|e| e.day())
}

/// Days since a bench was last scouted; since it was filled, or since the record began, where there was none.
fn unseen(bench: &BenchDay<'_>) -> i64 {
    let from = last_look(bench).unwrap_or_else(|| bench.counted_from(bench.standing.since));
    days_between(from, bench.day())
}

fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let open: Vec<&BenchDay<'_>> = group.benches.iter().copied().filter(|s| !s.past_sale()).collect();
    let first = *open.first()?;
    let limits = &first.limits().pests;
    let without = |least: i64| -> Vec<&BenchDay<'_>> { open.iter().copied().filter(|s| unseen(s) >= least).collect() };
    let lacking = without(limits.scouted_days + 1);
    let seen = open.len() - lacking.len();
    let (missed, key, grace) = if seen * 2 < open.len() {
        (lacking, Pests::scouted_days, limits.scouted_days + 1)
    } else {
        (without(limits.unscouted_days), Pests::unscouted_days, limits.unscouted_days)
    };
    let longest = missed.iter().max_by_key(|s| unseen(s))?;
    let most = unseen(longest);
    let last = last_look(longest);
    let since = add_days(first.day(), grace - most);
    let benches = missed.iter().map(|s| s.code().to_owned()).collect();
    let name = (N::Unscouted, Severity::Watch);
    let warning = of_group(group, name, since, benches);
    let warning = warning.missing(KindName::Pests, last);
    Some(warning.figure(Figure::Days, most as f64, first.context.limit(key)))
}
