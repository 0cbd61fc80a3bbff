//! What is to be scored on a bench on a day, in the order of the walk.
//!
//! - Water: every day.
//! - Roots, and the water of the base with them: weekly, first on day 10. Until a lot that is to be pinched has been, how far
//!   the roots reach is asked with them.
//! - Bracts: weekly from the start of short days.
//! - Whitefly: weekly; at once where it was never looked for. Other pests are written when seen.
//! - Heights: weekly from the start (the pinch; day 14 where none is wanted), for lots with a window to hold them against.
//! - Leaves are never due; they are written when they show something.
//!
//! After the sale only the water is asked for: pots that still stand are watered, and no more.
//!
//! A check that was due this morning and has been done today is listed as done, so that a walk can be counted.

use super::bench_day::{BenchDay, DayContext};
use crate::dates::add_days;
use crate::limits::Limits;
use crate::record::{Entry, Kind, KindName, PestCount, PestName, Pinch};
use crate::season::Season;
use chrono::NaiveDate;

/// Something to score.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CheckName {
    /// Water by lift and surface, 1-5.
    Water,
    /// Water at the base of a pot knocked out, 1-5.
    Base,
    /// Roots of the worst pot, 0-5.
    Roots,
    /// How far the roots reach.
    Reach,
    /// Bract stage, 1-7.
    Bracts,
    /// Plants with whitefly among those looked at.
    Whitefly,
    /// Heights of the tagged plants, cm.
    Height,
}

/// A check due today.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Check {
    /// What.
    pub what: CheckName,
    /// Already written today.
    pub done: bool,
    /// The first day it was due; `None` where that is today.
    pub since: Option<NaiveDate>,
}

/// The checks due on a bench on a day, in walking order. Nothing for an empty bench.
pub fn due(season: &Season, bench: &str, day: NaiveDate, limits: &Limits) -> Vec<Check> {
    let context = DayContext::new(season, day, limits);
    BenchDay::new(&context, bench).map(|bench| of_sight(&bench)).unwrap_or_default()
}

fn of_sight(bench: &BenchDay<'_>) -> Vec<Check> {
    let limits = bench.limits();
    let planted = bench.lot.planted;
    let first_roots = add_days(planted, limits.water.roots_first);
    let mut checks = Vec::new();
    let mut ask = |what, from: Option<NaiveDate>, every: i64, is: &dyn Fn(&Entry) -> bool| -> bool {
        let Some(since) = from.and_then(|from| due_since(bench, from, every, is)) else { return false };
        let done = bench.entries.iter().rev().take_while(|e| e.day() >= bench.day()).any(|e| is(e));
        checks.push(Check { what, done, since: Some(since).filter(|d| *d < bench.day()) });
        true
    };
    ask(CheckName::Water, Some(bench.standing.since), 1, &|e| e.name() == KindName::Water);
    if bench.past_sale() {
        return checks;
    }
    // The base goes by the roots' own rhythm: it is asked for on the day a pot is knocked out.
    let is_roots = |e: &Entry| e.name() == KindName::Roots;
    let roots_since = due_since(bench, first_roots, limits.water.roots_every, &is_roots);
    if let Some(since) = roots_since {
        let base = |e: &Entry| e.day() == bench.day() && matches!(e.kind, Kind::Water { base: Some(_), .. });
        ask(CheckName::Base, Some(since), 1, &base);
        ask(CheckName::Roots, Some(first_roots), limits.water.roots_every, &is_roots);
        if wants_reach(bench) {
            let reach = |e: &Entry| e.day() == bench.day() && matches!(e.kind, Kind::Roots { reach: Some(_), .. });
            ask(CheckName::Reach, Some(since), 1, &reach);
        }
    }
    ask(CheckName::Bracts, bench.short_days(), limits.round.bracts_every, &|e| e.name() == KindName::Bracts);
    ask(CheckName::Whitefly, Some(bench.standing.since), limits.round.pests_every, &is_whitefly);
    ask(CheckName::Height, height_start(bench), limits.round.height_every, &|e| e.name() == KindName::Height);
    checks
}

/// Since when a check is due this morning: from its first day, then so many days after the last before today.
fn due_since(bench: &BenchDay<'_>, from: NaiveDate, every: i64, is: &dyn Fn(&Entry) -> bool) -> Option<NaiveDate> {
    let earlier = bench.entries.iter().rev().skip_while(|e| e.day() >= bench.day());
    let last = earlier.copied().find(|e| is(e)).map(Entry::day);
    let due = last.map_or_else(|| bench.counted_from(from), |last| add_days(last, every).max(from));
    (due <= bench.day()).then_some(due)
}

/// The reach is asked until a lot that is to be pinched has been (a pinch of today does not take the question back).
fn wants_reach(bench: &BenchDay<'_>) -> bool {
    let today = bench.pinched().is_some_and(|e| e.day() >= bench.day());
    bench.lot.pinch != Pinch::None && (today || bench.awaits_pinch())
}

/// A look at plants for whitefly.
const fn is_whitefly(entry: &Entry) -> bool {
    matches!(entry.kind, Kind::Pests { pest: PestName::Whitefly, count: PestCount::Plants { .. } })
}

/// The first day of a bench's height curve; `None` where no height is wanted or the pinch is still to come.
pub(super) fn height_start(bench: &BenchDay<'_>) -> Option<NaiveDate> {
    bench.lot.height_low_cm.or(bench.lot.height_high_cm)?;
    match bench.lot.pinch {
        Pinch::None => Some(add_days(bench.lot.planted, bench.limits().round.height_first)),
        Pinch::Soft | Pinch::Hard => bench.pinch_day(),
    }
}
