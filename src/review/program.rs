//! The feed programs of lots: which benches are to be fed or given clear water on a day, how much that is in all, and what of the
//! program was skipped so far.
//!
//! By days: a feeding day is done on a bench by a feed logged on it or before the next one. At every watering: each day on which
//! benches of the lot were watered or fed is a feeding day; the benches that dry down next are those that read 3 or less and were
//! not watered since. What was typed for the lot is used as it stands.

use super::amounts;
use crate::crop::feed::{Rhythm, is_clear};
use crate::dates;
use crate::mix::{FeedRequest, Into, mass, three_numbers, volume};
use crate::record::{Entry, Kind, KindName, Lot};
use crate::season::Season;
use crate::units::{Concentration, Mass, System, Volume, plain};
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// The highest level at which a bench may want water on the next day.
const DRYING: u8 = 3;
/// Days named at most.
const NAMED: usize = 4;

/// What a lot's program asks for on a day.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Feeding {
    /// Clear water instead of feed.
    pub(super) clear: bool,
    /// The benches, in walking order.
    pub(super) benches: Vec<String>,
    /// N as typed, ppm.
    pub(super) n_ppm: f64,
    bag: Option<String>,
    /// At the watering of the bench, not on a day.
    each: bool,
    so_far: SoFar,
}

/// How far a program got up to a day.
#[derive(Debug, Clone, PartialEq, Default)]
struct SoFar {
    since: Option<NaiveDate>,
    planned: usize,
    fed: usize,
    last: Option<NaiveDate>,
    skipped: Vec<NaiveDate>,
}

impl SoFar {
    /// `Fed 3 of 5 planned since Oct 1, last Oct 9; skipped Oct 12, Oct 14.`; nothing before the first feeding day is over.
    fn text(&self) -> String {
        let Some(since) = self.since.filter(|_| self.planned > 0) else { return String::new() };
        let mut text = format!(" Fed {} of {} planned since {}", self.fed, self.planned, dates::short(since));
        if let Some(last) = self.last {
            text.push_str(&format!(", last {}", dates::short(last)));
        }
        let named: Vec<String> = self.skipped.iter().rev().take(NAMED).rev().map(|day| dates::short(*day)).collect();
        match self.skipped.len().saturating_sub(named.len()) {
            _ if named.is_empty() => {}
            0 => text.push_str(&format!("; skipped {}", named.join(", "))),
            more => text.push_str(&format!("; skipped {} and {more} before", named.join(", "))),
        }
        text.push('.');
        text
    }
}

impl Feeding {
    /// What to do on some of its benches, with the totals where they are known.
    pub(super) fn text(&self, season: &Season, (benches, on): (&[&str], NaiveDate), units: System) -> String {
        let when = if self.each { ", with the watering where it reads 2" } else { "" };
        let what = if self.clear {
            format!("Clear water as planned{when}")
        } else {
            let bag = self.bag.as_ref().map_or_else(String::new, |bag| format!(", {bag}"));
            format!("Feed as planned{when}: {} ppm N{bag}", plain(self.n_ppm))
        };
        let total = amounts::drench(season, benches, on, units);
        let total = total.map_or_else(String::new, |(all, words)| {
            let weight = self.weight(all).map_or_else(String::new, |weight| format!("{} in ", mass(units, weight)));
            format!("; {weight}{} for {words}", volume(units, all))
        });
        format!("{what}{total}.{}", self.so_far.text())
    }

    /// How much of the bag makes the strength in a volume; `None` where its three numbers are not known.
    fn weight(&self, all: Volume) -> Option<Mass> {
        let bag = self.bag.as_ref().filter(|_| !self.clear)?;
        let analysis = bag.split_whitespace().find_map(|word| three_numbers(word).ok())?;
        let request = FeedRequest {
            analysis,
            n: Concentration::from_ppm(self.n_ppm),
            into: Into::Tank(all),
            scale: Mass::from_g(1.0),
            per_pot: None,
            chart: None,
            beside: Vec::new(),
        };
        request.calculate().ok().map(|answer| answer.weighing.exact)
    }
}

/// What the programs of all lots ask for on the day after `on`, by what is logged up to `on`.
pub(super) fn feedings(season: &Season, (on, next): (NaiveDate, NaiveDate)) -> Vec<Feeding> {
    season.lots().into_iter().filter_map(|lot| of_lot(season, lot, (on, next))).collect()
}

fn of_lot(season: &Season, lot: &Lot, (on, next): (NaiveDate, NaiveDate)) -> Option<Feeding> {
    let (n_ppm, from) = (lot.program_n_ppm?, lot.program_from?);
    if next < from || next > lot.ready_by {
        return None;
    }
    let benches: Vec<Bench<'_>> =
        season.benches_of_lot(&lot.lot, on).into_iter().map(|code| Bench::of(season, code, on)).collect();
    let rhythm = lot.program_days.map(|days| Rhythm { from, days: i64::from(days), clear: lot.program_clear });
    let (clear, due, so_far) = match rhythm {
        Some(rhythm) => by_days(&rhythm, &benches, (on, next))?,
        None => at_waterings(lot, &benches, (from, on)),
    };
    let benches: Vec<String> = due.into_iter().map(str::to_owned).collect();
    let each = rhythm.is_none();
    (!benches.is_empty()).then(|| Feeding { clear, benches, n_ppm, bag: lot.program_bag.clone(), each, so_far })
}

/// A bench and the days on which it was fed, and given clear water.
struct Bench<'a> {
    code: &'a str,
    fed: BTreeSet<NaiveDate>,
    clear: BTreeSet<NaiveDate>,
    /// It reads 3 or less and was not watered since.
    dries: bool,
}

impl<'a> Bench<'a> {
    fn of(season: &Season, code: &'a str, on: NaiveDate) -> Self {
        let is_feed = |entry: &&Entry| matches!(&*entry.kind, Kind::Fed { n_ppm, .. } if *n_ppm > 0.0);
        let (feeds, plain): (Vec<&Entry>, Vec<&Entry>) =
            season.history_of(code, on, KindName::Fed).into_iter().partition(is_feed);
        let fed: BTreeSet<NaiveDate> = feeds.into_iter().map(Entry::day).collect();
        let watered = season.history_of(code, on, KindName::Watered);
        let clear: BTreeSet<NaiveDate> = watered.into_iter().chain(plain).map(Entry::day).collect();
        let last = season.last_of(code, on, KindName::Water);
        let dries = last.is_some_and(|e| {
            let level = if let Kind::Water { level, .. } = *e.kind { level } else { u8::MAX };
            let wet = fed.iter().chain(&clear).max().is_some_and(|day| *day >= e.day());
            level <= DRYING && !wet
        });
        Self { code, fed, clear, dries }
    }

    fn is_done(&self, clear: bool, from: NaiveDate, last: NaiveDate) -> bool {
        let any = |days: &BTreeSet<NaiveDate>| days.range(from..=last).next().is_some();
        any(&self.fed) || clear && any(&self.clear)
    }
}

type Asked<'a> = (bool, Vec<&'a str>, SoFar);

/// Every so many days: the open feeding day, the benches where it is not done, and how it went so far. A feeding day counts as fed
/// where at least half of the benches were.
fn by_days<'a>(rhythm: &Rhythm, benches: &[Bench<'a>], (on, next): (NaiveDate, NaiveDate)) -> Option<Asked<'a>> {
    let days = rhythm.up_to(next);
    let open = days.last()?;
    let due = benches.iter().filter(|bench| !bench.is_done(open.clear, open.day, open.last));
    let due: Vec<&str> = due.map(|bench| bench.code).collect();
    let mut so_far = SoFar { since: Some(rhythm.from), ..SoFar::default() };
    for feeding in days.iter().filter(|feeding| !feeding.clear && feeding.day <= on) {
        let done = benches.iter().filter(|bench| bench.is_done(false, feeding.day, feeding.last)).count();
        so_far.planned = so_far.planned.saturating_add(1);
        if done > 0 && done.saturating_mul(2) >= benches.len() {
            so_far.fed = so_far.fed.saturating_add(1);
        } else if feeding.last < next {
            so_far.skipped.push(feeding.day);
        }
    }
    so_far.last = benches.iter().flat_map(|bench| &bench.fed).filter(|day| **day >= rhythm.from).max().copied();
    Some((open.clear, due, so_far))
}

/// At every watering: the benches that dry down next, and how the waterings so far went. The days of the lot's waterings are counted;
/// one is fed where any bench was.
fn at_waterings<'a>(lot: &Lot, benches: &[Bench<'a>], (from, on): (NaiveDate, NaiveDate)) -> Asked<'a> {
    let fed: BTreeSet<NaiveDate> = benches.iter().flat_map(|bench| bench.fed.range(from..=on)).copied().collect();
    let clear: BTreeSet<NaiveDate> = benches.iter().flat_map(|bench| bench.clear.range(from..=on)).copied().collect();
    let mut so_far = SoFar { since: Some(from), last: fed.last().copied(), ..SoFar::default() };
    let mut number = 0_u32;
    for day in fed.union(&clear) {
        number = number.saturating_add(1);
        if is_clear(number, lot.program_clear) {
            continue;
        }
        so_far.planned = so_far.planned.saturating_add(1);
        if fed.contains(day) {
            so_far.fed = so_far.fed.saturating_add(1);
        } else {
            so_far.skipped.push(*day);
        }
    }
    let due = benches.iter().filter(|bench| bench.dries).map(|bench| bench.code).collect();
    (is_clear(number.saturating_add(1), lot.program_clear), due, so_far)
}
