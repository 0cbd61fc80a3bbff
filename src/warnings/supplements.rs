//! `magnesium-due`, `magnesium-missed`, `molybdenum-due`, `molybdenum-missed`: the extra nutrients of the sixth week.
//!
//! **Sees** the crop's age and what was given. Magnesium is first due on day 42 (common practice: six weeks), shown as due
//! from day 35 and missed from day 46 (grace: house rule); then due 28 days after the last and missed at 42 (Purdue: every 4 to
//! 6 weeks), until 21 days before the sale. It is met by a magnesium drench of 100 ppm Mg or more, by the lot's constant feed
//! and water of 30 ppm Mg or more (Michigan State: 30-40), or by three of the last four `fed` at 30 or more; such feeding
//! counts as given on the day of the last of them. Molybdenum is due once, on the same days, and met by a molybdenum nutrient,
//! constant feed or `fed` of 0.1 ppm Mo. A dose before day 35 counts from its own day.
//! **Why** leaves once marked stay marked; giving it late mends only the new ones.
//! **Level** magnesium: due watch, missed act, missed with yellowing between the veins on old or middle leaves urgent.
//! Molybdenum: watch; act with yellow leaf edges, or a root zone under pH 5.5 (a test of the last 14 days).
//! **Ends** with what meets it, or 21 days before the sale. On a wet bench the next step is to give it as the next watering.

use super::bench_day::BenchDay;
use super::builder::{of_bench, plus};
use super::{Basis, Figure, Level, Step, Warning, WarningName};
use crate::limits::{Feed, Key};
use crate::record::{Entry, Kind, KindName, LeafSign, Material, Method, PlantPart};
use chrono::NaiveDate;

const SIX_WEEKS: Basis = Basis::Published(
    "week 6 is common practice; every 4 to 6 weeks: Purdue Extension; 30 ppm: Michigan State Extension",
);
const MO: Basis =
    Basis::Published("week 6 is common practice; 0.1 ppm Mo: Purdue Extension, trade article by university authors");

/// The day a dose is due from and missed from.
struct Dates {
    due: NaiveDate,
    missed: NaiveDate,
    missed_key: Key<i64>,
    due_key: Key<i64>,
}

impl Dates {
    /// The level on a day: due, missed, or neither; nothing from 21 days before the sale on.
    fn missed_on(&self, bench: &BenchDay<'_>) -> Option<bool> {
        let over = bench.days_to_sale() < bench.limits().feed.magnesium_until;
        if over || bench.day() < self.due { None } else { Some(bench.day() >= self.missed) }
    }
}

fn first_dates(bench: &BenchDay<'_>) -> Dates {
    let limits = &bench.limits().feed;
    Dates {
        due: plus(bench.lot.planted, limits.magnesium_shown),
        missed: plus(bench.lot.planted, limits.magnesium_missed),
        due_key: Feed::magnesium_first,
        missed_key: Feed::magnesium_missed,
    }
}

pub(super) fn magnesium(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    if bench.lot.feed_mg_ppm.is_some_and(|ppm| ppm >= limits.magnesium_feed_ppm) {
        return None;
    }
    let last = last_magnesium(bench);
    let mut dates = first_dates(bench);
    if let Some(last) = last {
        let (due, missed) = (plus(last.day(), limits.magnesium_every), plus(last.day(), limits.magnesium_again_missed));
        if due > dates.due {
            dates = Dates { due, missed, due_key: Feed::magnesium_every, missed_key: Feed::magnesium_again_missed };
        }
    }
    let missed = dates.missed_on(bench)?;
    let yellow = bench.sign(LeafSign::BetweenVeins).filter(|e| {
        let old = [PlantPart::Old, PlantPart::Middle];
        missed && matches!(&e.kind, Kind::Leaves { r#where: Some(w), .. } if old.contains(w))
    });
    let level = match (missed, yellow) {
        (true, Some(_)) => Level::Urgent,
        (true, None) => Level::Act,
        (false, _) => Level::Watch,
    };
    let name = if missed { WarningName::MagnesiumMissed } else { WarningName::MagnesiumDue };
    let warning = told(bench, (name, level), (&dates, missed), last).saw_all(yellow);
    Some(warning.on(SIX_WEEKS))
}

/// What both nutrients share: since when, what was last given, how old the crop is, and how to give it to a wet bench.
fn told(
    bench: &BenchDay<'_>,
    (name, level): (WarningName, Level),
    (dates, missed): (&Dates, bool),
    last: Option<&Entry>,
) -> Warning {
    let (since, key) = if missed { (dates.missed, dates.missed_key) } else { (dates.due, dates.due_key) };
    let warning = of_bench(bench, name, level, since);
    let warning = match last {
        Some(entry) => warning.saw(entry).figure(Figure::Days, bench.age(entry) as f64, bench.context.limit(key)),
        None => warning.missing(KindName::Nutrient, None).figure(
            Figure::CropDay,
            bench.crop_day() as f64,
            bench.context.limit(key),
        ),
    };
    let wet = bench.water().filter(|_| bench.is_wet());
    warning.saw_all(wet.map(|r| r.entry)).step_if(wet.is_some(), Step::WaitUntilDry)
}

/// The latest entry that met the need for magnesium.
pub(super) fn last_magnesium<'a>(bench: &BenchDay<'a>) -> Option<&'a Entry> {
    let limits = &bench.limits().feed;
    let is_dose = |e: &&&Entry| {
        matches!(e.kind, Kind::Nutrient { material: Material::MagnesiumSulfate, ppm, how: Method::Drench, .. }
            if ppm >= limits.magnesium_drench_ppm)
    };
    let drench = bench.of(KindName::Nutrient).iter().rev().find(is_dose).copied();
    drench.into_iter().chain(fed_with_magnesium(bench)).max_by_key(|e| e.order())
}

/// The latest `fed` at which three of the last four carried enough magnesium.
fn fed_with_magnesium<'a>(bench: &BenchDay<'a>) -> Option<&'a Entry> {
    const OF_LAST: usize = 4;
    const ENOUGH: usize = 3;
    let least = bench.limits().feed.magnesium_feed_ppm;
    let carries = |e: &Entry| matches!(e.kind, Kind::Fed { mg_ppm: Some(ppm), .. } if ppm >= least);
    let feeds = bench.of(KindName::Fed);
    (ENOUGH..=feeds.len()).rev().find_map(|n| {
        let upto = feeds.get(..n)?;
        let with = upto.iter().rev().take(OF_LAST).filter(|e| carries(e)).count();
        if with >= ENOUGH { upto.last().copied() } else { None }
    })
}

/// The first entry that met the need for molybdenum.
pub(super) fn first_molybdenum<'a>(bench: &BenchDay<'a>) -> Option<&'a Entry> {
    let least = bench.limits().feed.molybdenum_ppm;
    bench.entries.iter().copied().find(|e| match e.kind {
        Kind::Nutrient { material: Material::SodiumMolybdate | Material::AmmoniumMolybdate, ppm, .. }
        | Kind::Fed { mo_ppm: Some(ppm), .. } => ppm >= least,
        _ => false,
    })
}

pub(super) fn molybdenum(bench: &BenchDay<'_>) -> Option<Warning> {
    let limits = &bench.limits().feed;
    let constant = bench.lot.feed_mo_ppm.is_some_and(|ppm| ppm >= limits.molybdenum_ppm);
    if constant || first_molybdenum(bench).is_some() {
        return None;
    }
    let dates = first_dates(bench);
    let missed = dates.missed_on(bench)?;
    let name = if missed { WarningName::MolybdenumMissed } else { WarningName::MolybdenumDue };
    let edges = bench.sign(LeafSign::EdgeYellow);
    let acid = bench
        .recent(KindName::RootZone, limits.root_zone_days)
        .filter(|e| matches!(e.kind, Kind::RootZone { ph: Some(ph), .. } if ph < limits.molybdenum_ph));
    let level = if edges.is_some() || acid.is_some() { Level::Act } else { Level::Watch };
    Some(told(bench, (name, level), (&dates, missed), None).saw_all(edges).saw_all(acid).on(MO))
}
