//! `unfed`: nothing to eat written anywhere.
//!
//! **Sees** day 7 with no slow-release in the lot, no topdress and no feed, entered or constant (act); later, 14 days without
//! feed where there is neither slow-release nor constant feed (watch). Clear water written as `fed` at 0 ppm N is no feed.
//! **Why** the starter charge of a mix is gone after about one volume of leaching.
//! **Numbers** common practice. **Ends** with a feed, a topdress, a revised plan, or the sale.

use super::bench_day::BenchDay;
use super::builder::{of_bench, plus};
use super::{Basis, Figure, Level, Warning, WarningName};
use crate::limits::Feed;
use crate::record::{Entry, Kind, KindName};

pub(super) fn rule(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let constant = bench.lot.feed_n_ppm.is_some_and(|n| n > 0.0);
    if constant || bench.has_slow_release() || bench.past_sale() {
        return None;
    }
    let is_feed = |e: &&&Entry| matches!(e.kind, Kind::Fed { n_ppm, .. } if n_ppm > 0.0);
    let last = bench.of(KindName::Fed).iter().rev().find(is_feed).copied();
    let (level, since, key) = match last {
        None if bench.crop_day() >= limits.unfed_first => {
            (Level::Act, plus(bench.lot.planted, limits.unfed_first), Feed::unfed_first)
        }
        Some(e) if bench.age(e) >= limits.unfed_days => {
            (Level::Watch, plus(e.day(), limits.unfed_days), Feed::unfed_days)
        }
        _ => return None,
    };
    let without = last.map_or_else(|| bench.crop_day(), |e| bench.age(e));
    let figure = if last.is_some() { Figure::Days } else { Figure::CropDay };
    let warning = of_bench(bench, WarningName::Unfed, level, since).missing(KindName::Fed, last.map(Entry::day));
    Some(warning.figure(figure, without as f64, bench.context.limit(key)).on(Basis::CommonPractice))
}
