//! `root-zone-untested`, `taper-feed` and `calcium-due`: what is told of a lot's feed, once for the lot.
//!
//! - **root-zone-untested** (watch): 15 days without a root zone test on any bench of the lot, counted from planting where
//!   there was none (Ontario: every two weeks). A test on one bench speaks for the lot, as growers sample it; ends with a test,
//!   or the sale.
//! - **taper-feed** (watch): 21 days or less before the sale, and the last feed over 100 ppm N (trade article by university
//!   authors: 80 to 100 ppm in the last 2 to 3 weeks). PlantPart a constant feed is in the plan, only a `fed` written within those
//!   21 days shows that it was stepped down. Names the benches still fed so; ends with a leaner feed, or the sale.
//! - **calcium-due** (watch): where the plan wants calcium sprays, or a first one was given: bract stage 2-4 (a look of the last
//!   14 days) and no calcium spray for 15 days, or none at all (suppliers' programs: weekly; Maryland practice: every two
//!   weeks). Names the benches that want one; ends with a spray, with stage 5, or the sale.

use super::bench_day::BenchDay;
use super::builder::{days, of_place, plus};
use super::{Basis, Figure, Level, Warning, WarningName};
use crate::limits::Feed;
use crate::record::{Entry, Kind, KindName, Material, Method, Place};
use chrono::NaiveDate;

const ONTARIO: Basis = Basis::Published("Ontario floriculture: pH and EC every two weeks");
const TAPER: Basis = Basis::Published("trade article by university authors: 80 to 100 ppm N in the last 2 to 3 weeks");
const CALCIUM: Basis =
    Basis::Published("suppliers' programs: weekly from first color; Maryland practice: every two weeks");

/// The first of a lot's benches, and the codes of those given.
fn codes(sights: &[&BenchDay<'_>]) -> Vec<String> {
    sights.iter().map(|s| s.code().to_owned()).collect()
}

pub(super) fn untested(lot: &str, sights: &[&BenchDay<'_>]) -> Option<Warning> {
    let first = sights.first().filter(|s| !s.past_sale())?;
    let last = sights.iter().filter_map(|s| s.last(KindName::RootZone)).map(Entry::day).max();
    let from = last.unwrap_or(first.lot.planted);
    let limit = first.limits().feed.untested_days;
    let without = days(from, first.day());
    (without >= limit).then(|| {
        let name = (WarningName::RootZoneUntested, Level::Watch);
        of_place(Place::Lot(lot.to_owned()), name, plus(from, limit), first.day(), codes(sights))
            .missing(KindName::RootZone, last)
            .figure(Figure::Days, without as f64, first.context.limit(Feed::untested_days))
            .on(ONTARIO)
    })
}

pub(super) fn taper(lot: &str, sights: &[&BenchDay<'_>]) -> Option<Warning> {
    let first = sights.first()?;
    let limits = &first.limits().feed;
    let left = first.days_to_sale();
    if !(0..=limits.taper_days).contains(&left) {
        return None;
    }
    let from = plus(first.lot.ready_by, -limits.taper_days);
    let strong: Vec<(&BenchDay<'_>, f64, Option<&Entry>)> = sights
        .iter()
        .filter_map(|s| last_nitrogen(s, from).map(|(ppm, entry)| (*s, ppm, entry)))
        .filter(|(_, ppm, _)| *ppm > limits.taper_ppm)
        .collect();
    let (_, most, _) = strong.iter().max_by(|a, b| a.1.total_cmp(&b.1))?;
    let benches = strong.iter().map(|(s, ..)| s.code().to_owned()).collect();
    let mut seen: Vec<&Entry> = strong.iter().filter_map(|(.., e)| *e).collect();
    seen.sort_by_key(|e| e.order());
    seen.dedup_by_key(|e| e.id);
    let name = (WarningName::TaperFeed, Level::Watch);
    let warning = of_place(Place::Lot(lot.to_owned()), name, from, first.day(), benches).saw_all(seen);
    let limit = first.context.limit(Feed::taper_ppm);
    let warning = warning.figure(Figure::Ppm, *most, limit).figure(Figure::DaysToSale, left as f64, None);
    Some(warning.again(first.in_days(7)).on(TAPER))
}

/// The nitrogen a bench was last fed with: the last `fed`, or the constant feed where none since `from` says otherwise.
fn last_nitrogen<'a>(bench: &BenchDay<'a>, from: NaiveDate) -> Option<(f64, Option<&'a Entry>)> {
    let constant = bench.lot.feed_n_ppm.filter(|ppm| *ppm > 0.0);
    let last = bench.last(KindName::Fed).filter(|e| constant.is_none() || e.day() >= from);
    match (last.map(|e| (&e.kind, e)), constant) {
        (Some((Kind::Fed { n_ppm, .. }, entry)), _) => Some((*n_ppm, Some(entry))),
        (_, Some(ppm)) => Some((ppm, None)),
        _ => None,
    }
}

pub(super) fn calcium(lot: &str, sights: &[&BenchDay<'_>]) -> Option<Warning> {
    const STAGES: std::ops::RangeInclusive<u8> = 2..=4;
    let first = sights.first().filter(|s| !s.past_sale())?;
    let spray = |s: &&BenchDay<'_>| last_calcium(s).map(Entry::day);
    let wanted = first.lot.calcium || sights.iter().any(|s| spray(s).is_some());
    if !wanted {
        return None;
    }
    let limit = first.limits().feed.calcium_days;
    let due: Vec<(&BenchDay<'_>, &Entry)> = sights
        .iter()
        .filter(|s| spray(s).is_none_or(|last| days(last, s.day()) >= limit))
        .filter_map(|s| Some((*s, s.stage_within(s.limits().light.reading_days)?)))
        .filter(|(_, (_, stage))| STAGES.contains(stage))
        .map(|(s, (entry, _))| (s, entry))
        .collect();
    let (_, stage) = due.first()?;
    let last = due.iter().filter_map(|(s, _)| spray(s)).min();
    let since = last.map_or_else(|| stage.day(), |last| plus(last, limit));
    let benches = due.iter().map(|(s, _)| s.code().to_owned()).collect();
    let name = (WarningName::CalciumDue, Level::Watch);
    let warning = of_place(Place::Lot(lot.to_owned()), name, since, first.day(), benches);
    let warning = warning.saw(stage).missing(KindName::Nutrient, last);
    let without = last.map(|l| days(l, first.day()) as f64);
    let warning = match without {
        Some(n) => warning.figure(Figure::Days, n, first.context.limit(Feed::calcium_days)),
        None => warning,
    };
    Some(warning.on(CALCIUM))
}

/// The latest calcium spray.
fn last_calcium<'a>(bench: &BenchDay<'a>) -> Option<&'a Entry> {
    let is_spray =
        |e: &&&Entry| matches!(e.kind, Kind::Nutrient { material: Material::CalciumChloride, how: Method::Spray, .. });
    bench.of(KindName::Nutrient).iter().rev().find(is_spray).copied()
}
