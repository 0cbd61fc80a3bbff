//! `blackout-missed` and `lights-missed`: nights that did not go as the plan has them.
//!
//! **Sees** what was written of each past night (the latest entry of a night counts; tonight is not yet past).
//! - **blackout-missed**, on a lot under black cloth, nights of the first 6 weeks from its first covered night: a night written
//!   as not covered is act; one not written at all while others are is watch. It says the delay as a range, 1-2 days a night
//!   (newspaper column, 2020; Kansas State), summed over all nights not covered. A night not written is only unknown, so it
//!   counts nothing there.
//! - **lights-missed** (act), on a lot under lamps: off on a night before its last lit night, or on after it.
//!
//! **Why** the first six weeks of short days decide when the color comes. **Ends** 14 days after the last such night, since
//! by then the forecast has taken it in.

use super::bench_day::BenchDay;
use super::builder::{days, of_bench, plus};
use super::{Basis, Figure, Level, Warning, WarningName};
use crate::crop::night::delay_of_missed_nights;
use crate::record::{Entry, Kind, KindName, Nights};
use chrono::NaiveDate;
use std::collections::BTreeMap;

const DELAY: Basis =
    Basis::Published("Kansas State (2 days a night) and a newspaper column 2020 (1 day): first six weeks");
const FLOWERS: Basis =
    Basis::Published("R. Kobayashi, poinsettia flower initiation: long nights start it, lamps hold it back");

/// The latest entry of each night, by night.
fn nights<'a>(bench: &BenchDay<'a>, kind: KindName) -> BTreeMap<NaiveDate, (bool, &'a Entry)> {
    let each = bench.of(kind).iter().copied().filter_map(|e| match &e.kind {
        Kind::Blackout { night, covered } => Some((*night, (*covered, e))),
        Kind::Lights { night, on } => Some((*night, (*on, e))),
        _ => None,
    });
    each.collect()
}

pub(super) fn blackout(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let from = bench.lot.blackout_from.filter(|_| bench.lot.nights == Nights::Blackout)?.max(bench.lot.planted);
    let written = nights(bench, KindName::Blackout);
    let recent = |night: NaiveDate| days(night, bench.day()) <= limits.reading_days;
    let past = from.iter_days().take(usize::try_from(limits.first_weeks).ok()?).take_while(|n| *n < bench.day());
    let open: Vec<(NaiveDate, &Entry)> =
        past.clone().filter_map(|n| written.get(&n).filter(|(covered, _)| !covered).map(|(_, e)| (n, *e))).collect();
    let unknown: Vec<NaiveDate> =
        if written.is_empty() { Vec::new() } else { past.filter(|n| !written.contains_key(n) && recent(*n)).collect() };
    let told: Vec<&(NaiveDate, &Entry)> = open.iter().filter(|(n, _)| recent(*n)).collect();
    let (level, since) = match (told.first(), unknown.first()) {
        (Some((night, _)), _) => (Level::Act, *night),
        (None, Some(night)) => (Level::Watch, *night),
        (None, None) => return None,
    };
    let warning = of_bench(bench, WarningName::BlackoutMissed, level, plus(since, 1));
    let warning = warning.saw_all(told.iter().map(|(_, e)| *e));
    let warning = match unknown.last() {
        Some(night) => warning.missing(KindName::Blackout, written.range(..*night).next_back().map(|(n, _)| *n)),
        None => warning,
    };
    let (least, most) = delay_of_missed_nights(u32::try_from(open.len()).unwrap_or(u32::MAX));
    let (least, most) = (f64::from(least), f64::from(most));
    Some(if open.is_empty() {
        warning.on(DELAY)
    } else {
        warning.ranged(Figure::DelayDays, f64::midpoint(least, most), Some((least, most)), None).on(DELAY)
    })
}

pub(super) fn lights(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().light;
    let until = bench.lot.lights_until.filter(|_| bench.lot.nights == Nights::Lights)?;
    let wrong: Vec<(NaiveDate, &Entry)> = nights(bench, KindName::Lights)
        .into_iter()
        .filter(|(night, (on, _))| if *night < until { !on } else { *on && *night > until })
        .filter(|(night, _)| (0..=limits.reading_days).contains(&days(*night, bench.day())))
        .map(|(night, (_, entry))| (night, entry))
        .collect();
    let (since, _) = wrong.first()?;
    let warning = of_bench(bench, WarningName::LightsMissed, Level::Act, *since);
    Some(warning.saw_all(wrong.iter().map(|(_, e)| *e)).on(FLOWERS))
}
