//! `roots-browning`: what the knocked-out pots show before the roots fail.
//!
//! **Sees** the latest roots check (the worst pot, our classes 0-5), which holds until the next (after 21 days it says since
//! when nobody looked): score 2 (act); or worse at two checks running (watch): each of the last two is worse than the check
//! before it, by score or, at one score, by the share of bad pots, or both scored higher than the check before them.
//! **Why** brown roots come before yellow leaves; dried down in time, they grow back.
//! **Numbers** house rules. **Ends** with the next check.
//! **Class** state: it stands until a newer look of its kind.

use crate::crop::symptoms::Cause as Possible;
use crate::record::{Entry, Kind, KindName, LeafSign};
use crate::warnings::bench_day::score;
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, CheckName, Class, Find, Recheck, Remedy, Rule, Severity, Signs, Step, Warning,
    WarningName as N,
};

/// Everything about `roots-browning`.
pub(super) static RULE: Rule = Rule {
    name: N::RootsBrowning,
    code: "roots-browning",
    find: Find::Bench(rule),
    cause: Cause::Wet,
    class: Class::State,
    title: "roots browning",
    why: "Brown roots come before yellow leaves; let the mix dry down now and new roots can grow.",
    next: &[
        Step::todo("Let it dry down to 2 between waterings."),
        Step::check("Check the EC of the root zone; score the roots again in a week."),
    ],
    answers: &[Answer { title: "roots checked", remedy: Remedy::Entry(KindName::Roots) }],
    basis: Basis::HouseRule,
    signs: Some(Signs {
        leaves: &[LeafSign::LowerYellow, LeafSign::Wilted, LeafSign::Rolled],
        roots: true,
        but: &[Possible::DeadRoots],
    }),
    follow_up: None,
    recheck: &[Recheck { check: CheckName::Roots, after: 7 }],
    is_sick: false,
    house_wide: true,
};

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().water;
    let (last, found) = bench.standing_roots()?;
    if found >= limits.roots_failing {
        return None;
    }
    if found >= limits.roots_watch {
        let since = bench.roots_bad_since(last, limits.roots_watch);
        return Some(of_bench(bench, N::RootsBrowning, Severity::Act, since).saw(last).carried(
            bench,
            last,
            limits.roots_days,
        ));
    }
    let looks = bench.root_looks();
    let [third, second, first, ..] = looks.as_slice() else { return None };
    let risen = found_in(third) > found_in(first) && found_in(second) > found_in(first);
    let worse = is_worse(second, first) && is_worse(third, second);
    (risen || worse).then(|| {
        let since = third.first().map_or(last.day(), |e| e.day());
        let warning = of_bench(bench, N::RootsBrowning, Severity::Watch, since);
        warning
            .saw_all([first, second, third].into_iter().filter_map(|l| l.first().copied()))
            .carried(bench, last, limits.roots_days)
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
        look.iter().find_map(|e| match &*e.kind {
            Kind::Roots { pots: Some(pots), bad: Some(bad), .. } if *pots > 0 => {
                Some(f64::from(*bad) / f64::from(*pots))
            }
            _ => None,
        })
    };
    let more_bad = matches!((share(later), share(earlier)), (Some(l), Some(e)) if l > e);
    found_in(later) > found_in(earlier) || (found_in(later) == found_in(earlier) && more_bad)
}
