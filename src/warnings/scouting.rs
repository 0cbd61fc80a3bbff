//! `unscouted` and `unmeasured`: looks that were not made (watch).
//!
//! - **unscouted**, by house: fewer than half its benches with a pests finding (of any pest) in 8 days, or one bench without for
//!   15 (Ontario 2018: half the benches, weekly; the days are house rules). A bench filled less long ago is not held to it. It
//!   names the benches without: all that lack a look when half do, else those that lack it 15 days.
//! - **unmeasured**, by lot: 9 days without a height on any of its benches, from the start of the curve on (Florida: weekly; two
//!   days' grace). Only for lots with a window to hold heights against.
//!
//! Each **ends** with the look, and with the sale: nothing more is asked of pots that stand longer.

use super::bench_day::BenchDay;
use super::builder::{days, of_place, plus};
use super::due::height_start;
use super::{Basis, Figure, Level, Warning, WarningName};
use crate::limits::{Growth, Pests};
use crate::record::{Entry, KindName, Place};
use chrono::NaiveDate;

const ONTARIO: Basis =
    Basis::Published("Ontario floriculture IPM 2018: half the benches, weekly; the days are a house rule");
const WEEKLY: Basis = Basis::Published("UF/IFAS height-control pages 2011: weekly; two days' grace: house rule");

/// Days since a bench's last look for pests; since it was filled where there was none.
fn unseen(bench: &BenchDay<'_>) -> i64 {
    let last = bench.last(KindName::Pests).map(Entry::day);
    let from = last.unwrap_or(bench.standing.since);
    days(from, bench.day())
}

pub(super) fn unscouted(house: &str, sights: &[&BenchDay<'_>]) -> Option<Warning> {
    let sights: Vec<&BenchDay<'_>> = sights.iter().copied().filter(|s| !s.past_sale()).collect();
    let first = *sights.first()?;
    let limits = &first.limits().pests;
    let without =
        |least: i64| -> Vec<&BenchDay<'_>> { sights.iter().copied().filter(|s| unseen(s) >= least).collect() };
    let lacking = without(limits.scouted_days + 1);
    let seen = sights.len() - lacking.len();
    let (missed, key, grace) = if seen * 2 < sights.len() {
        (lacking, Pests::scouted_days, limits.scouted_days + 1)
    } else {
        (without(limits.unscouted_days), Pests::unscouted_days, limits.unscouted_days)
    };
    let longest = missed.iter().max_by_key(|s| unseen(s))?;
    let most = unseen(longest);
    let last = longest.last(KindName::Pests).map(Entry::day);
    let since = plus(first.day(), grace - most);
    let benches = missed.iter().map(|s| s.code().to_owned()).collect();
    let name = (WarningName::Unscouted, Level::Watch);
    let warning = of_place(Place::House(house.to_owned()), name, since, first.day(), benches);
    let warning = warning.missing(KindName::Pests, last);
    Some(warning.figure(Figure::Days, most as f64, first.context.limit(key)).on(ONTARIO))
}

pub(super) fn unmeasured(lot: &str, sights: &[&BenchDay<'_>]) -> Option<Warning> {
    let first = sights.first().filter(|s| !s.past_sale())?;
    let limit = first.limits().growth.unmeasured_days;
    let started: Vec<(&BenchDay<'_>, NaiveDate)> =
        sights.iter().filter_map(|s| height_start(s).map(|start| (*s, start))).collect();
    let start = started.iter().map(|(_, start)| *start).min()?;
    let last = started.iter().filter_map(|(s, _)| s.last(KindName::Height)).map(Entry::day).max();
    let from = last.filter(|l| *l >= start).unwrap_or(start);
    let without = days(from, first.day());
    (without >= limit).then(|| {
        let benches = started.iter().map(|(s, _)| s.code().to_owned()).collect();
        let name = (WarningName::Unmeasured, Level::Watch);
        of_place(Place::Lot(lot.to_owned()), name, plus(from, limit), first.day(), benches)
            .missing(KindName::Height, last)
            .figure(Figure::Days, without as f64, first.context.limit(Growth::unmeasured_days))
            .on(WEEKLY)
    })
}
