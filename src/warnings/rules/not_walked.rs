//! `not-walked`: benches nobody checked, by house.
//!
//! **Sees** for each bench with pots the days since its last finding other than a note, or since it was filled (or its
//! record began): 2 days is watch,
//! 4 act. Days on which the bench was closed by a keep-out do not count, nor does the day of the finding itself. What is
//! logged for a whole house or lot counts for its benches, but for climate, light and hose readings: those are taken without
//! walking a bench.
//! **Why** every other rule is blind where nobody looks: a check never made is unchecked, never fine.
//! **Numbers** house rules. **Ends** for a bench with its next finding.
//! **Class** date: it stands until done or moot.

use crate::dates::add_days;
use crate::limits::Round;
use crate::record::{Entry, KindName, Place};
use crate::warnings::builder::of_group;
use crate::warnings::{
    Basis, BenchDay, Cause, Class, Figure, Find, Group, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `not-walked`.
pub(super) static RULE: Rule = Rule {
    name: N::NotWalked,
    code: "not-walked",
    find: Find::House(rule),
    cause: Cause::Unchecked,
    class: Class::Date,
    title: "not walked",
    why: "Not checked does not mean fine.",
    next: &[Step::check("Walk these benches first tomorrow.")],
    answers: &[],
    basis: Basis::HouseRule,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

/// A house's benches that were not walked, as one warning.
fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let missed: Vec<(&BenchDay<'_>, i64)> = group
        .benches
        .iter()
        .map(|s| (*s, unwalked(s)))
        .filter(|(s, n)| *n >= s.limits().round.not_walked_watch)
        .collect();
    let (longest, most) = missed.iter().max_by_key(|(_, n)| *n)?;
    let limits = &longest.limits().round;
    let (level, key) = if *most >= limits.not_walked_act {
        (Severity::Act, Round::not_walked_act)
    } else {
        (Severity::Watch, Round::not_walked_watch)
    };
    let last = last_walk(longest);
    let day = longest.day();
    let benches = missed.iter().map(|(s, _)| s.code().to_owned()).collect();
    let since = add_days(last.unwrap_or_else(|| unwalked_from(longest)), limits.not_walked_watch).min(day);
    let warning = of_group(group, (N::NotWalked, level), since, benches);
    let warning = warning.missing(KindName::Water, last);
    Some(warning.figure(Figure::Days, *most as f64, longest.context.limit(key)))
}

/// True for a finding made by walking up to a bench: no note, no day of a climate logger wherever it hangs, and no reading of
/// climate, light or the hose for a whole house or lot.
pub fn is_walk(entry: &Entry) -> bool {
    if entry.is_from_logger() {
        return false;
    }
    let from_afar = matches!(entry.name(), KindName::Climate | KindName::NightLight | KindName::FeedCheck);
    let whole = !matches!(entry.place, Place::Bench(_));
    entry.name().is_finding() && entry.name() != KindName::Note && !(whole && from_afar)
}

/// The last day it was walked.
pub(in crate::warnings) fn last_walk(bench: &BenchDay<'_>) -> Option<NaiveDate> {
    bench.entries.iter().rev().find(|e| is_walk(e)).map(|e| e.day())
}

/// Where the count begins for a bench that nobody walked: when it was filled, or when the record began.
fn unwalked_from(bench: &BenchDay<'_>) -> NaiveDate {
    bench.counted_from(bench.standing.since)
}

/// Most days counted back; a bench left alone for longer counts as this many.
const COUNTED: i64 = 60;

/// Open days since the bench was last walked, up to today.
pub(in crate::warnings) fn unwalked(bench: &BenchDay<'_>) -> i64 {
    let from = last_walk(bench).unwrap_or_else(|| unwalked_from(bench)).max(bench.standing.since);
    let mut open = 0;
    let mut day = bench.day();
    while day > from && open < COUNTED {
        if bench.context.season.closed_on(bench.code(), day).is_none() {
            open += 1;
        }
        let Some(before) = day.pred_opt() else { break };
        day = before;
    }
    open
}
