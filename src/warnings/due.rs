//! What is to be scored on a bench on a day, in the order of the walk.
//!
//! - First what a warning of the evening before asks to be looked at again (`recheck`), such as the base until it was felt again.
//! - Water: every day.
//! - Roots, and the water of the base with them: weekly, first on day 10. Until a lot that is to be pinched has been, how far
//!   the roots reach is asked with them.
//! - Bracts: weekly from the start of short days.
//! - Whitefly: weekly; at once where it was never looked for. Other pests are written when seen.
//! - Heights: weekly from the start (the pinch; day 14 where none is wanted), for lots with a window to hold them against.
//! - Leaves are never due; they are written when they show something. Nor is the temperature of a house, which the card of the first
//!   bench walked there asks for: it belongs to no bench.
//!
//! After the sale only the water is asked for: pots that still stand are watered, and no more.
//!
//! A check that was due this morning and has been done today is listed as done, so that a walk can be counted.

use super::bench_day::{BenchDay, DayContext};
use super::{WarningName, recheck};
use crate::dates::add_days;
use crate::limits::Limits;
use crate::record::{Entry, Kind, PestCount, PestName, Pinch};
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
    /// The temperature of the house: asked on one bench, due on none.
    Climate,
}

impl CheckName {
    /// One word for it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::Base => "base",
            Self::Roots => "roots",
            Self::Reach => "reach",
            Self::Bracts => "bracts",
            Self::Whitefly => "whitefly",
            Self::Height => "heights",
            Self::Climate => "house temperature",
        }
    }
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
    /// The warning that asks for it to be looked at again; `None` for a routine check.
    pub again: Option<WarningName>,
}

/// The checks due on a bench on a day, in walking order, those that a warning asks for first. Nothing for an empty bench.
pub fn due(season: &Season, bench: &str, day: NaiveDate, limits: &Limits) -> Vec<Check> {
    let context = DayContext::new(season, day, limits);
    BenchDay::new(&context, bench).map(|bench| of_bench(&bench)).unwrap_or_default()
}

/// The same of a bench that is read already.
pub(super) fn of_bench(bench: &BenchDay<'_>) -> Vec<Check> {
    let mut checks = Vec::new();
    for (what, name) in recheck::asked(bench, is_look) {
        // The base is felt with the water: top and base are read at one look.
        let top = (what == CheckName::Base).then_some(CheckName::Water);
        for (what, again) in top.map(|top| (top, None)).into_iter().chain([(what, Some(name))]) {
            let done = bench.entries.iter().rev().take_while(|e| e.day() >= bench.day()).any(|e| is_look(e, what));
            checks.push(Check { what, done, since: None, again });
        }
    }
    for check in routine(bench) {
        match checks.iter_mut().find(|asked| asked.what == check.what) {
            Some(asked) => asked.since = check.since,
            None => checks.push(check),
        }
    }
    checks
}

/// True for an entry that is a look of a check, whenever it was taken.
fn is_look(entry: &Entry, check: CheckName) -> bool {
    match check {
        CheckName::Water => matches!(*entry.kind, Kind::Water { .. }),
        CheckName::Base => matches!(*entry.kind, Kind::Water { base: Some(_), .. }),
        CheckName::Roots => matches!(*entry.kind, Kind::Roots { .. }),
        CheckName::Reach => matches!(*entry.kind, Kind::Roots { reach: Some(_), .. }),
        CheckName::Bracts => matches!(*entry.kind, Kind::Bracts { .. }),
        CheckName::Whitefly => {
            matches!(*entry.kind, Kind::Pests { pest: PestName::Whitefly, count: PestCount::Plants { .. } })
        }
        CheckName::Height => matches!(*entry.kind, Kind::Height { .. }),
        CheckName::Climate => matches!(*entry.kind, Kind::Climate { .. }),
    }
}

/// The checks that come round by the calendar.
fn routine(bench: &BenchDay<'_>) -> Vec<Check> {
    let limits = bench.limits();
    let planted = bench.lot.planted;
    let first_roots = add_days(planted, limits.water.roots_first);
    let mut checks = Vec::new();
    let mut ask = |what, from: Option<NaiveDate>, every: i64, is: &dyn Fn(&Entry) -> bool| {
        let Some(since) = from.and_then(|from| due_since(bench, from, every, is)) else { return };
        let done = bench.entries.iter().rev().take_while(|e| e.day() >= bench.day()).any(|e| is(e));
        checks.push(Check { what, done, since: Some(since).filter(|d| *d < bench.day()), again: None });
    };
    let look = |check: CheckName| move |e: &Entry| is_look(e, check);
    ask(CheckName::Water, Some(bench.standing.since), 1, &look(CheckName::Water));
    if bench.past_sale() {
        return checks;
    }
    // The base goes by the roots' own rhythm: it is asked for on the day a pot is knocked out.
    let roots_since = due_since(bench, first_roots, limits.water.roots_every, &look(CheckName::Roots));
    if let Some(since) = roots_since {
        let today = |check: CheckName| move |e: &Entry| e.day() == bench.day() && is_look(e, check);
        ask(CheckName::Base, Some(since), 1, &today(CheckName::Base));
        ask(CheckName::Roots, Some(first_roots), limits.water.roots_every, &look(CheckName::Roots));
        if wants_reach(bench) {
            ask(CheckName::Reach, Some(since), 1, &today(CheckName::Reach));
        }
    }
    ask(CheckName::Bracts, bench.short_days(), limits.round.bracts_every, &look(CheckName::Bracts));
    ask(CheckName::Whitefly, Some(bench.standing.since), limits.round.pests_every, &look(CheckName::Whitefly));
    ask(CheckName::Height, height_start(bench), limits.round.height_every, &look(CheckName::Height));
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

/// The first day of a bench's height curve; `None` where no height is wanted or the pinch is still to come.
pub(super) fn height_start(bench: &BenchDay<'_>) -> Option<NaiveDate> {
    bench.lot.height_low_cm.or(bench.lot.height_high_cm)?;
    match bench.lot.pinch {
        Pinch::None => Some(add_days(bench.lot.planted, bench.limits().round.height_first)),
        Pinch::Soft | Pinch::Hard => bench.pinch_day(),
    }
}
