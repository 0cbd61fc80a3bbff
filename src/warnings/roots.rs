//! `roots-browning`, `roots-failing`, `roots-diseased` and `roots-unchecked`: what the knocked-out pots show.
//!
//! **Sees** the latest roots check (the worst pot, our classes 0-5), which speaks until the next, 21 days at most.
//! - browning: score 2 (act); or worse at two checks running (watch): each of the last two is worse than the check before it,
//!   by score or, at one score, by the share of bad pots, or both scored higher than the check before them.
//! - failing: score 3 or more (urgent). Sound tops prove nothing: in university trials some cultivars carried much root death
//!   with little to see above. Under 21 days before the sale it says that recovery is unlikely (UMass, 13 Nov 2015: roots need
//!   time to regrow).
//! - diseased: a sign that points at an organism, at any score (act); many cannot be told apart by eye, a laboratory decides.
//! - unchecked: first due on day 10; 14 days without is watch, 21 act; from stage 4 on 14 and 28. A bench never checked counts
//!   from planting, so it is told on day 14.
//!
//! **Numbers** house rules, but for the sources named. **Ends** with the next check; unchecked with the sale.

use super::bench_day::{BenchDay, score};
use super::builder::{of_bench, plus};
use super::{Basis, Figure, Level, Step, Warning, WarningName};
use crate::limits::Water;
use crate::record::{Entry, Kind, KindName, RootSign};

const TOPS: Basis =
    Basis::Published("NC State trials: root death with little showing above context; the score is our class");
const SIGNS: Basis =
    Basis::Published("Pacific Northwest and UMass disease guides: sleeve-off, black firm roots, canker");
/// From this bract stage on roots are looked at less often.
const COLORED: u8 = 4;

pub(super) fn browning(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().water;
    let (last, found) = bench.roots()?;
    if found >= limits.roots_failing {
        return None;
    }
    if found >= limits.roots_watch {
        let since = since(bench, last, limits.roots_watch);
        return Some(of_bench(bench, WarningName::RootsBrowning, Level::Act, since).saw(last));
    }
    let looks = bench.root_looks();
    let [third, second, first, ..] = looks.as_slice() else { return None };
    let risen = found_in(third) > found_in(first) && found_in(second) > found_in(first);
    let worse = is_worse(second, first) && is_worse(third, second);
    (risen || worse).then(|| {
        let since = third.first().map_or(last.day(), |e| e.day());
        let warning = of_bench(bench, WarningName::RootsBrowning, Level::Watch, since);
        warning
            .saw_all([first, second, third].into_iter().filter_map(|l| l.first().copied()))
            .again(bench.in_days(limits.roots_every))
    })
}

/// The score of a look.
fn found_in(look: &[&Entry]) -> Option<u8> {
    look.first().and_then(|e| score(e))
}

/// Worse by score or, at one score, by the share of bad pots.
fn is_worse(later: &[&Entry], earlier: &[&Entry]) -> bool {
    let share = |look: &[&Entry]| {
        look.iter().find_map(|e| match &e.kind {
            Kind::Roots { pots: Some(pots), bad: Some(bad), .. } if *pots > 0 => {
                Some(f64::from(*bad) / f64::from(*pots))
            }
            _ => None,
        })
    };
    let more_bad = matches!((share(later), share(earlier)), (Some(l), Some(e)) if l > e);
    found_in(later) > found_in(earlier) || (found_in(later) == found_in(earlier) && more_bad)
}

/// The first of the checks without a break at or over a score.
fn since(bench: &BenchDay<'_>, last: &Entry, least: u8) -> chrono::NaiveDate {
    let looks = bench.root_looks();
    let bad = looks.iter().filter_map(|look| look.first()).take_while(|e| score(e).is_some_and(|s| s >= least));
    bad.last().map_or_else(|| last.day(), |e| e.day())
}

pub(super) fn failing(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().water;
    let (last, _) = bench.roots().filter(|(_, s)| *s >= limits.roots_failing)?;
    let left = bench.days_to_sale();
    let late = left < limits.regrow_days;
    let since = since(bench, last, limits.roots_failing);
    let warning = of_bench(bench, WarningName::RootsFailing, Level::Urgent, since).saw(last);
    let warning = warning.figure(Figure::DaysToSale, left as f64, bench.context.limit(Water::regrow_days));
    Some(warning.step_if(late, Step::RecoveryUnlikely).on(TOPS))
}

pub(super) fn diseased(bench: &BenchDay<'_>) -> Option<Warning> {
    const POINTING: [RootSign; 3] = [RootSign::SleeveOff, RootSign::BlackFirm, RootSign::Canker];
    let (last, _) = bench.roots()?;
    if !bench.root_signs().iter().any(|s| POINTING.contains(s)) {
        return None;
    }
    // What is shown is the entry that names the sign.
    let names =
        |e: &&&Entry| matches!(&e.kind, Kind::Roots { signs, .. } if signs.iter().any(|s| POINTING.contains(s)));
    let named = bench.of(KindName::Roots).iter().rev().find(names).copied().unwrap_or(last);
    Some(of_bench(bench, WarningName::RootsDiseased, Level::Act, last.day()).saw(named).on(SIGNS))
}

pub(super) fn unchecked(bench: &BenchDay<'_>) -> Option<Warning> {
    if bench.past_sale() {
        return None;
    }
    let limits = &bench.limits().water;
    let last = bench.last(KindName::Roots).map(Entry::day);
    let from = last.unwrap_or(bench.lot.planted);
    let colored = bench.stage_reached().is_some_and(|(_, s)| s >= COLORED);
    let (watch, act) = if colored {
        ((limits.roots_late_watch, Water::roots_late_watch), (limits.roots_late_act, Water::roots_late_act))
    } else {
        (
            (limits.roots_unchecked_watch, Water::roots_unchecked_watch),
            (limits.roots_unchecked_act, Water::roots_unchecked_act),
        )
    };
    let without = super::builder::days(from, bench.day());
    let (level, key) = match without {
        n if n >= act.0 => (Level::Act, act.1),
        n if n >= watch.0 => (Level::Watch, watch.1),
        _ => return None,
    };
    let warning = of_bench(bench, WarningName::RootsUnchecked, level, plus(from, watch.0));
    Some(warning.missing(KindName::Roots, last).figure(Figure::Days, without as f64, bench.context.limit(key)))
}
