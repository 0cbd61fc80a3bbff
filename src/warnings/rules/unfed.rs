//! `unfed`: no feed logged.
//!
//! **Sees** day 7 with no slow-release in the lot, no topdress and no feed, entered or constant (act); later, 14 days without
//! feed where there is neither slow-release nor constant feed (watch). Clear water logged as `fed` at 0 ppm N is no feed.
//! Where the record began later and nobody said whether the lot was fed before, it keeps quiet until a feed is logged.
//! **Why** the starter charge of a mix is gone after about one volume of leaching.
//! **Numbers** common practice. **Ends** with a feed, a topdress, a revised plan, or the sale.
//! **Class** date: it stands until done or moot.

use crate::dates::{add_days, days_between};
use crate::limits::Feed;
use crate::record::{Entry, Kind, KindName};
use crate::warnings::before::{Earlier, EarlierWork};
use crate::warnings::builder::of_bench;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};

/// Everything about `unfed`.
pub(super) static RULE: Rule = Rule {
    name: N::Unfed,
    code: "unfed",
    find: Find::Bench(rule),
    cause: Cause::RootZone,
    class: Class::Date,
    title: "no feed logged",
    why: "The starter charge is gone after a few waterings.",
    next: &[Step::feed("Feed at the next watering, or log what was given.")],
    answers: &[
        Answer { title: "fed", remedy: Remedy::Feed },
        Answer { title: "topdressed", remedy: Remedy::Entry(KindName::Topdressed) },
    ],
    basis: Basis::CommonPractice,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let constant = bench.lot.feed_n_ppm.is_some_and(|n| n > 0.0);
    if constant || bench.has_slow_release() || bench.past_sale() {
        return None;
    }
    let is_feed = |e: &&&Entry| matches!(*e.kind, Kind::Fed { n_ppm, .. } if n_ppm > 0.0);
    let logged = bench.of(KindName::Fed).iter().rev().find(is_feed).map(|e| e.day());
    let last = logged.or_else(|| bench.done_earlier(EarlierWork::Feeding));
    let (level, since, key) = match last {
        None if bench.earlier(EarlierWork::Feeding) == Earlier::NotKnown => return None,
        None if bench.crop_day() >= limits.unfed_first => {
            (Severity::Act, add_days(bench.lot.planted, limits.unfed_first), Feed::unfed_first)
        }
        Some(day) if days_between(day, bench.day()) >= limits.unfed_days => {
            (Severity::Watch, add_days(day, limits.unfed_days), Feed::unfed_days)
        }
        _ => return None,
    };
    let without = last.map_or_else(|| bench.crop_day(), |day| days_between(day, bench.day()));
    let figure = if last.is_some() { Figure::Days } else { Figure::CropDay };
    let warning = of_bench(bench, N::Unfed, level, since).missing(KindName::Fed, last);
    Some(warning.figure(figure, without as f64, bench.context.limit(key)))
}
