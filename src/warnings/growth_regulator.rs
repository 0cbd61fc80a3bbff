//! `growth-regulator-late` and `growth-regulator-strong`: a treatment that may cost bracts or leaves.
//!
//! **Sees** every `growth-regulator` entry of the last 14 days, each ingredient of its tank by itself.
//! - **late** (act): put on after its last safe day. Sprays of daminozide, paclobutrazol or uniconazole from the start of short
//!   days (Florida about 2009, 1998); chlormequat sprays from 14 days after it, and from 15 October where the region is cool (the
//!   days a house rule, from Florida about 2009; UMass 1999), whichever comes first; ethephon within 6 weeks of the sale (growth
//!   regulator chapter, Virginia Tech and NC State). Late drenches of paclobutrazol have no cut-off (Florida).
//! - **strong** (act): a spray, or a dose a pot, above its usual top (chlormequat spray 1,500 ppm: Purdue 2010; the others stand in
//!   the limits, each with its source), or put on a bench that was wilted, dry (1) or at roots 2 or more at that moment.
//!
//! **Why** a late spray makes small bracts and late color; a strong one burns leaves and stops growth.
//! **Ends** growth regulator warnings keep their level 7 days, then stand 7 more as watch. An ingredient not known here is not
//! judged: its label is all there is to go by.

use super::bench_day::{BenchDay, DayContext, score};
use super::builder::{days, of_bench};
use super::pinch::fading;
use super::{Basis, Evidence, Figure, Level, Warning, WarningName};
use crate::crop::growth_regulator::{Cutoff, CutoffDays, DoseUnit, Ingredient, Strong, cutoff, strong};
use crate::record::{Entry, Kind, KindName, LeafSign, Lot, Method, Part, Region};
use crate::units::{Concentration, Length, Volume};

const LATE: Basis =
    Basis::Published("UF/IFAS 1998 and about 2009; UMass 1999; Virginia Tech and NC State; 14 days: house rule");
const STRESS: Basis =
    Basis::Published("Purdue 2010: yellow spots above 1,500 ppm; not on plants under stress: NC State trial");

/// The parts of a treatment, how it was put on, and the solution a pot.
fn tank(entry: &Entry) -> Option<(&[Part], Method, Option<f64>)> {
    let Kind::GrowthRegulator { parts, how, ml_per_pot, .. } = &entry.kind else { return None };
    Some((parts, *how, *ml_per_pot))
}

/// The treatments that still speak, latest first.
fn treatments<'s, 'a>(bench: &'s BenchDay<'a>) -> impl Iterator<Item = &'a Entry> + use<'s, 'a> {
    let limits = &bench.limits().growth;
    let most = limits.stands + limits.lingers;
    bench.of(KindName::GrowthRegulator).iter().rev().copied().take_while(move |e| bench.age(e) <= most)
}

pub(super) fn late(bench: &BenchDay<'_>) -> Option<Warning> {
    treatments(bench).find_map(|entry| {
        let day = first_late(bench, entry)?;
        let level = fading(bench, Level::Act, entry.day())?;
        let last = day.pred_opt().unwrap_or(day);
        let warning = of_bench(bench, WarningName::GrowthRegulatorLate, level, entry.day());
        let warning = warning.saw(entry).also(Evidence::Forecast { from: last, to: last });
        Some(warning.again(bench.in_days(7)).on(LATE))
    })
}

/// The first day on which a treatment would have been late, where it was.
fn first_late(bench: &BenchDay<'_>, entry: &Entry) -> Option<chrono::NaiveDate> {
    let (rules, region) = (rules(bench.context), region(bench.context));
    let (parts, method, _) = tank(entry)?;
    let found = parts.iter().filter_map(|p| Ingredient::parse(&p.ai)).filter_map(|ingredient| {
        // Without a start of short days only what goes by the sale can be judged.
        let short_days = match (ingredient, bench.short_days()) {
            (_, Some(day)) => day,
            (Ingredient::Ethephon, None) => bench.lot.ready_by,
            (_, None) => return None,
        };
        match cutoff(ingredient, method, region, short_days, bench.lot.ready_by, rules) {
            Cutoff::Day { day, .. } if entry.day() > day => day.succ_opt(),
            _ => None,
        }
    });
    found.min()
}

/// The days the rules go by.
pub(super) const fn rules(context: &DayContext<'_>) -> CutoffDays {
    CutoffDays::of(context.limits)
}

pub(super) fn region(context: &DayContext<'_>) -> Region {
    let cool = context.site().is_some_and(|s| s.region == Region::Cool && s.latitude >= 0.0);
    if cool { Region::Cool } else { Region::Warm }
}

/// The last day a lot may be sprayed with an ingredient without being late; `None` where no figure was found.
pub(super) fn last_spray(context: &DayContext<'_>, lot: &Lot, ingredient: Ingredient) -> Option<chrono::NaiveDate> {
    let short_days = context.short_days(lot)?;
    match cutoff(ingredient, Method::Spray, region(context), short_days, lot.ready_by, rules(context)) {
        Cutoff::Day { day, .. } => Some(day),
        Cutoff::None { .. } | Cutoff::NoFigure => None,
    }
}

pub(super) fn too_strong(bench: &BenchDay<'_>) -> Option<Warning> {
    treatments(bench).find_map(|entry| {
        let level = fading(bench, Level::Act, entry.day())?;
        let strong = strong_part(bench, entry);
        let stress = stress(bench, entry);
        if strong.is_none() && stress.is_empty() {
            return None;
        }
        let warning = of_bench(bench, WarningName::GrowthRegulatorStrong, level, entry.day());
        let warning = warning.saw_all(stress).saw(entry).again(bench.in_days(3));
        Some(match strong {
            Some(s) => {
                let figure = if s.unit == DoseUnit::Ppm { Figure::Ppm } else { Figure::MgPerPot };
                let limit = super::Limit { value: s.top, ..s.limit };
                warning.figure(figure, s.given, Some(limit)).on(s.basis)
            }
            None => warning.on(STRESS),
        })
    })
}

/// The ingredient of a tank that is furthest above its usual top.
fn strong_part(bench: &BenchDay<'_>, entry: &Entry) -> Option<Strong> {
    let (parts, method, ml) = tank(entry)?;
    let rim = bench.lot.rim_cm.map(Length::from_cm);
    let judged = parts.iter().filter_map(|part| {
        let ingredient = Ingredient::parse(&part.ai)?;
        strong((ingredient, method), bench.limits(), Concentration::from_ppm(part.ppm), ml.map(Volume::from_ml), rim)
    });
    judged.max_by(|a, b| (a.given / a.top).total_cmp(&(b.given / b.top)))
}

/// What says that the bench was under stress when it was treated.
fn stress<'a>(bench: &BenchDay<'a>, treated: &Entry) -> Vec<&'a Entry> {
    let limits = &bench.limits().water;
    let at = treated.instant();
    let before = |e: &Entry| e.instant() <= at;
    let wilted = bench.sign_on(LeafSign::Wilted, treated.day()).filter(|e| before(e));
    let dry = bench.readings.iter().rev().find(|r| before(r.entry)).filter(|r| {
        let watered = bench.waterings.iter().any(|w| w.instant() >= r.entry.instant() && w.instant() <= at);
        let fresh = days(r.day, treated.day()) <= limits.reading_days;
        fresh && r.level <= limits.dry_at && !watered
    });
    let roots = bench.of(KindName::Roots).iter().rev().copied().find(|e| before(e)).filter(|e| {
        let fresh = days(e.day(), treated.day()) <= limits.roots_days;
        fresh && score(e).is_some_and(|s| s >= limits.roots_watch)
    });
    wilted.into_iter().chain(dry.map(|r| r.entry)).chain(roots).collect()
}
