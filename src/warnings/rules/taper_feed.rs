//! `taper-feed`: a feed not yet stepped down before the sale, raised once for the lot.
//!
//! **Sees** 21 days or less before the sale, and the last feed over 100 ppm N (trade article by university authors: 80 to 100 ppm
//! in the last 2 to 3 weeks). Where a constant feed is in the plan, only a `fed` logged within those 21 days shows that it was
//! stepped down. Names the benches still fed so, but for those where `unfed` stands.
//! **Level** watch. **Ends** with a leaner feed, or the sale.
//! **Class** date: it stands until done or moot.

use crate::dates::add_days;
use crate::limits::Feed;
use crate::record::{Entry, Kind, KindName};
use crate::warnings::builder::of_group;
use crate::warnings::{
    Answer, Basis, BenchDay, Cause, Class, Figure, Find, Group, Remedy, Rule, Severity, Step, Warning, WarningName as N,
};
use chrono::NaiveDate;

/// Everything about `taper-feed`.
pub(super) static RULE: Rule = Rule {
    name: N::TaperFeed,
    code: "taper-feed",
    find: Find::Lot(rule),
    cause: Cause::RootZone,
    class: Class::Date,
    title: "taper the feed",
    why: "A low, nitrate-based finishing feed protects bract edges.",
    next: &[Step::todo("Step the feed down to 80 to 100 ppm N; do not cut it off.")],
    answers: &[Answer { title: "fed, lower rate", remedy: Remedy::Feed }],
    basis: TAPER,
    signs: None,
    follow_up: None,
    recheck: &[],
    is_sick: false,
    house_wide: false,
};

const TAPER: Basis = Basis::Published("trade article by university authors: 80 to 100 ppm N in the last 2 to 3 weeks");

fn rule(group: &Group<'_, '_>) -> Option<Warning> {
    let first = group.benches.first()?;
    let limits = &first.limits().feed;
    let left = first.days_to_sale();
    if !(0..=limits.taper_days).contains(&left) {
        return None;
    }
    let from = add_days(first.lot.ready_by, -limits.taper_days);
    let strong: Vec<(&BenchDay<'_>, f64, Option<&Entry>)> = group
        .benches
        .iter()
        .filter(|s| !is_unfed(group, s))
        .filter_map(|s| last_nitrogen(s, from).map(|(ppm, entry)| (*s, ppm, entry)))
        .filter(|(_, ppm, _)| *ppm > limits.taper_ppm)
        .collect();
    let (_, most, _) = strong.iter().max_by(|a, b| a.1.total_cmp(&b.1))?;
    let benches = strong.iter().map(|(s, ..)| s.code().to_owned()).collect();
    let mut seen: Vec<&Entry> = strong.iter().filter_map(|(.., e)| *e).collect();
    seen.sort_by_key(|e| e.order());
    seen.dedup_by_key(|e| e.id);
    let name = (N::TaperFeed, Severity::Watch);
    let warning = of_group(group, name, first.counted_from(from), benches).saw_all(seen);
    let limit = first.context.limit(Feed::taper_ppm);
    let warning = warning.figure(Figure::Ppm, *most, limit).figure(Figure::DaysToSale, left as f64, None);
    Some(warning.again(first.in_days(7)))
}

/// True where `unfed` stands on a bench: what is not fed is not to be fed less.
fn is_unfed(group: &Group<'_, '_>, bench: &BenchDay<'_>) -> bool {
    group.of_bench.get(bench.code()).is_some_and(|all| all.iter().any(|w| w.name == N::Unfed))
}

/// The nitrogen a bench was last fed with: the last `fed`, or the constant feed where none since `from` says otherwise.
fn last_nitrogen<'a>(bench: &BenchDay<'a>, from: NaiveDate) -> Option<(f64, Option<&'a Entry>)> {
    let constant = bench.lot.feed_n_ppm.filter(|ppm| *ppm > 0.0);
    let last = bench.last(KindName::Fed).filter(|e| constant.is_none() || e.day() >= from);
    match (last.map(|e| (&*e.kind, e)), constant) {
        (Some((Kind::Fed { n_ppm, .. }, entry)), _) => Some((*n_ppm, Some(entry))),
        (_, Some(ppm)) => Some((ppm, None)),
        _ => None,
    }
}
