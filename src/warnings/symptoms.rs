//! What the record says of a bench, in the terms of the symptom key.
//!
//! Leaf signs, water, roots, tests and climate count as long as they speak to the rules (see `bench_day`); what no longer speaks is
//! left out, so that the key takes it as not known.

use super::bench_day::{BenchDay, DayContext, has_sign};
use super::pest_counts::found;
use super::root_zone;
use super::temperatures::nights;
use crate::crop::symptoms::Seen;
use crate::limits::Limits;
use crate::record::{Entry, Kind, KindName, LeafSign, PestName, Term};
use crate::season::Season;
use chrono::NaiveDate;

/// What is seen and known of a bench on a day; empty for an empty bench.
pub fn seen(season: &Season, bench: &str, day: NaiveDate, limits: &Limits) -> Seen {
    let context = DayContext::new(season, day, limits);
    BenchDay::new(&context, bench).map(|bench| of(&bench)).unwrap_or_default()
}

/// What is seen and known of a bench as a rule looks at it.
pub(super) fn of(bench: &BenchDay<'_>) -> Seen {
    let speaking: Vec<LeafSign> = LeafSign::ALL.iter().copied().filter(|s| bench.sign(*s).is_some()).collect();
    let looks = bench.of(KindName::Leaves).iter().rev();
    let place = looks.copied().find_map(|e| match &*e.kind {
        Kind::Leaves { plant_part: Some(place), .. } if speaking.iter().any(|s| has_sign(e, *s)) => Some(*place),
        _ => None,
    });
    let roots = bench.roots();
    let night = nights(bench).pop();
    let lately = |pest: PestName| {
        let fresh = |e: &&&Entry| bench.age(e) <= bench.limits().pests.finding_days;
        let looks = bench.of(KindName::Pests).iter().rev().take_while(fresh);
        looks.copied().find_map(|e| found(e, pest)).is_some_and(|n| n > 0.0)
    };
    Seen {
        signs: speaking,
        unwritten: Vec::new(),
        place,
        water: bench.water().map(|r| r.level),
        roots: roots.map(|(_, score)| score),
        root_signs: bench.root_signs(),
        ph: root_zone::ph(bench),
        salts: root_zone::salt_state(bench),
        week: u32::try_from(bench.crop_day() / 7).ok(),
        night_c: night.filter(|(e, _)| bench.age(e) <= bench.limits().light.climate_days).map(|(_, c)| c),
        small_flies: lately(PestName::FungusGnat) || lately(PestName::ShoreFly),
        whitefly: lately(PestName::Whitefly),
        // Which cultivars show it is not asked anywhere: not known.
        one_cultivar: false,
    }
}
