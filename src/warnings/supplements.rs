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

use super::made::{of_bench, plus};
use super::sight::Sight;
use super::{Basis, Figure, Level, Step, Warning, WarningName};
use crate::record::{Entry, How, Kind, KindName, LeafSign, Material, Where};
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
    missed_key: &'static str,
    due_key: &'static str,
}

impl Dates {
    /// The level on a day: due, missed, or neither; nothing from 21 days before the sale on.
    fn missed_on(&self, sight: &Sight<'_>) -> Option<bool> {
        let over = sight.days_to_sale() < sight.limits().feed.magnesium_until;
        if over || sight.day() < self.due { None } else { Some(sight.day() >= self.missed) }
    }
}

fn first_dates(sight: &Sight<'_>) -> Dates {
    let limits = &sight.limits().feed;
    Dates {
        due: plus(sight.lot.planted, limits.magnesium_shown),
        missed: plus(sight.lot.planted, limits.magnesium_missed),
        due_key: "feed.magnesium_first",
        missed_key: "feed.magnesium_missed",
    }
}

pub(super) fn magnesium(sight: &Sight<'_>) -> Option<Warning> {
    let limits = &sight.limits().feed;
    if sight.lot.feed_mg_ppm.is_some_and(|ppm| ppm >= limits.magnesium_feed_ppm) {
        return None;
    }
    let last = last_magnesium(sight);
    let mut dates = first_dates(sight);
    if let Some(last) = last {
        let (due, missed) = (plus(last.day(), limits.magnesium_every), plus(last.day(), limits.magnesium_again_missed));
        if due > dates.due {
            dates = Dates { due, missed, due_key: "feed.magnesium_every", missed_key: "feed.magnesium_again_missed" };
        }
    }
    let missed = dates.missed_on(sight)?;
    let yellow = sight.sign(LeafSign::BetweenVeins).filter(|e| {
        let old = [Where::Old, Where::Middle];
        missed && matches!(&e.kind, Kind::Leaves { r#where: Some(w), .. } if old.contains(w))
    });
    let level = match (missed, yellow) {
        (true, Some(_)) => Level::Urgent,
        (true, None) => Level::Act,
        (false, _) => Level::Watch,
    };
    let name = if missed { WarningName::MagnesiumMissed } else { WarningName::MagnesiumDue };
    let warning = told(sight, (name, level), (&dates, missed), last).saw_all(yellow);
    Some(warning.on(SIX_WEEKS))
}

/// What both nutrients share: since when, what was last given, how old the crop is, and how to give it to a wet bench.
fn told(
    sight: &Sight<'_>,
    (name, level): (WarningName, Level),
    (dates, missed): (&Dates, bool),
    last: Option<&Entry>,
) -> Warning {
    let (since, key) = if missed { (dates.missed, dates.missed_key) } else { (dates.due, dates.due_key) };
    let warning = of_bench(sight, name, level, since);
    let warning = match last {
        Some(entry) => warning.saw(entry).figure(Figure::Days, sight.age(entry) as f64, sight.ground.limit(key)),
        None => warning.missing(KindName::Nutrient, None).figure(
            Figure::CropDay,
            sight.crop_day() as f64,
            sight.ground.limit(key),
        ),
    };
    let wet = sight.water().filter(|_| sight.is_wet());
    warning.saw_all(wet.map(|r| r.entry)).step_if(wet.is_some(), Step::WaitUntilDry)
}

/// The latest entry that met the need for magnesium.
pub(super) fn last_magnesium<'a>(sight: &Sight<'a>) -> Option<&'a Entry> {
    let limits = &sight.limits().feed;
    let is_dose = |e: &&&Entry| {
        matches!(e.kind, Kind::Nutrient { material: Material::MagnesiumSulfate, ppm, how: How::Drench, .. }
            if ppm >= limits.magnesium_drench_ppm)
    };
    let drench = sight.of(KindName::Nutrient).iter().rev().find(is_dose).copied();
    drench.into_iter().chain(fed_with_magnesium(sight)).max_by_key(|e| e.order())
}

/// The latest `fed` at which three of the last four carried enough magnesium.
fn fed_with_magnesium<'a>(sight: &Sight<'a>) -> Option<&'a Entry> {
    const OF_LAST: usize = 4;
    const ENOUGH: usize = 3;
    let least = sight.limits().feed.magnesium_feed_ppm;
    let carries = |e: &Entry| matches!(e.kind, Kind::Fed { mg_ppm: Some(ppm), .. } if ppm >= least);
    let feeds = sight.of(KindName::Fed);
    (ENOUGH..=feeds.len()).rev().find_map(|n| {
        let upto = feeds.get(..n)?;
        let with = upto.iter().rev().take(OF_LAST).filter(|e| carries(e)).count();
        if with >= ENOUGH { upto.last().copied() } else { None }
    })
}

/// The first entry that met the need for molybdenum.
pub(super) fn first_molybdenum<'a>(sight: &Sight<'a>) -> Option<&'a Entry> {
    let least = sight.limits().feed.molybdenum_ppm;
    sight.entries.iter().copied().find(|e| match e.kind {
        Kind::Nutrient { material: Material::SodiumMolybdate | Material::AmmoniumMolybdate, ppm, .. }
        | Kind::Fed { mo_ppm: Some(ppm), .. } => ppm >= least,
        _ => false,
    })
}

pub(super) fn molybdenum(sight: &Sight<'_>) -> Option<Warning> {
    let limits = &sight.limits().feed;
    let constant = sight.lot.feed_mo_ppm.is_some_and(|ppm| ppm >= limits.molybdenum_ppm);
    if constant || first_molybdenum(sight).is_some() {
        return None;
    }
    let dates = first_dates(sight);
    let missed = dates.missed_on(sight)?;
    let name = if missed { WarningName::MolybdenumMissed } else { WarningName::MolybdenumDue };
    let edges = sight.sign(LeafSign::EdgeYellow);
    let acid = sight
        .recent(KindName::RootZone, limits.root_zone_days)
        .filter(|e| matches!(e.kind, Kind::RootZone { ph: Some(ph), .. } if ph < limits.molybdenum_ph));
    let level = if edges.is_some() || acid.is_some() { Level::Act } else { Level::Watch };
    Some(told(sight, (name, level), (&dates, missed), None).saw_all(edges).saw_all(acid).on(MO))
}
