//! How much to weigh in all for a line of tomorrow's work, by the arithmetic of the mixing commands, and the cautions of it.
//!
//! A salt is calculated at the ppm last typed for the lot; where none was, from the lowest published rate to the highest, with
//! their sources. The solution is what the pots got at their last logged watering, or for a spray what the area of the benches
//! takes; where that is not known, a round volume, and what makes it is stated.

use crate::crop::feed::{Given, published_range, usual_rates};
use crate::crop::growth_regulator::{Caution, drench_volume};
use crate::mix::{Into, NutrientAnswer, NutrientRequest, Solution, both, mass, volume};
use crate::record::{Kind, KindName, Material, Method};
use crate::season::Season;
use crate::units::{Area, Concentration, Mass, System, Volume, plain};
use crate::warnings::WarningName as N;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// A round volume, where the real one is not known: 100 gal or 100 L.
const fn round_volume(units: System) -> Volume {
    match units {
        System::Us => Volume::from_ml(378_541.178_4),
        System::Metric => Volume::from_ml(100_000.0),
    }
}

/// The first extra nutrient that answers a warning: the salt, and how it is given.
fn wanted(name: N) -> Option<(Material, Method)> {
    name.rule().answers.iter().find_map(|answer| answer.remedy.nutrient_apart())
}

/// What to weigh for some benches that have a warning, in a few words, and its cautions; `None` where it asks for nothing that is
/// weighed.
pub(super) fn in_all(
    season: &Season,
    name: N,
    (benches, on): (&[&str], NaiveDate),
    units: System,
) -> Option<(String, Vec<Caution>)> {
    let (material, method) = wanted(name)?;
    let (ends, whence) = strengths(season, (material, method), (benches, on))?;
    let found = match method {
        Method::Drench => drench(season, benches, on, units),
        Method::Spray => spray(season, benches, units),
    };
    let (whole, what_for) = found.map_or((round_volume(units), None), |(whole, words)| (whole, Some(words)));
    let answers: Vec<NutrientAnswer> =
        ends.iter().map(|ppm| weighed(material, *ppm, (method, whole))).collect::<Option<_>>()?;
    let weights: Vec<String> = answers.iter().map(|answer| mass(units, answer.weighing.exact)).collect();
    let ppm: Vec<String> = ends.iter().map(|ppm| plain(*ppm)).collect();
    let (weights, ppm, element) = (weights.join(" to "), ppm.join(" to "), material.element());
    let all = volume(units, whole);
    let text = match what_for {
        Some(words) => format!("Total {weights} in {all} for {words}, {ppm} ppm {element} ({whence})."),
        None => format!("{weights} in {all} makes {ppm} ppm {element} ({whence})."),
    };
    Some((text, answers.into_iter().next().map(|answer| answer.cautions).unwrap_or_default()))
}

/// The strengths to calculate with, ppm of the element, lowest first, and where they come from: what was last typed for the lots
/// that stand on the benches; where one of them has none, what is published.
fn strengths(
    season: &Season,
    (material, method): (Material, Method),
    (benches, on): (&[&str], NaiveDate),
) -> Option<(Vec<f64>, String)> {
    let lots = lots_on(season, benches.iter(), on);
    let typed: Option<Vec<f64>> = lots.iter().map(|lot| last_ppm(season, lot, (material, method), on)).collect();
    if let Some(mut ppm) = typed.filter(|ppm| !ppm.is_empty()) {
        ppm.sort_by(f64::total_cmp);
        let ends = [ppm.first().copied(), ppm.last().copied()];
        let mut ends: Vec<f64> = ends.into_iter().flatten().collect();
        ends.dedup();
        let whence = if lots.len() == 1 { "as last logged for the lot" } else { "as last logged for the lots" };
        return Some((ends, whence.to_owned()));
    }
    let given = Given::Apart(method);
    let (low, high) = published_range(material, given)?;
    let sources: Vec<&str> = usual_rates(material, given).map(|rate| rate.source).collect();
    let mut ends = vec![low, high];
    ends.dedup();
    Some((ends, format!("published: {}", sources.join("; "))))
}

/// The ppm of an element that was last logged for a lot, given in one way.
fn last_ppm(season: &Season, lot: &str, (material, method): (Material, Method), on: NaiveDate) -> Option<f64> {
    last_of_lot(season, lot, (KindName::Nutrient, on), |kind| match *kind {
        Kind::Nutrient { material: of, ppm, how, .. } if how == method && of.element() == material.element() => {
            Some(ppm)
        }
        _ => None,
    })
}

/// What an entry of a kind gave that was logged last for any bench of a lot.
fn last_of_lot<T>(
    season: &Season,
    lot: &str,
    (kind, on): (KindName, NaiveDate),
    get: impl Fn(&Kind) -> Option<T>,
) -> Option<T> {
    let of_bench = |bench: &str| {
        let given = season.history_of(bench, on, kind).into_iter();
        given.filter_map(|entry| Some((entry.order(), get(&entry.kind)?))).max_by_key(|(order, _)| *order)
    };
    let all = season.benches_of_lot(lot, on).into_iter().filter_map(of_bench);
    all.max_by_key(|(order, _)| *order).map(|(_, given)| given)
}

/// The lots that stand on some benches, each once.
fn lots_on(season: &Season, benches: impl Iterator<Item = impl AsRef<str>>, on: NaiveDate) -> BTreeSet<String> {
    benches.filter_map(|bench| Some(season.standing(bench.as_ref(), on)?.lot)).collect()
}

fn weighed(material: Material, ppm: f64, (method, whole): (Method, Volume)) -> Option<NutrientAnswer> {
    let request = NutrientRequest {
        material,
        ppm: Concentration::from_ppm(ppm),
        how: Some(Given::Apart(method)),
        share: None,
        into: Into::Tank(whole),
        scale: Mass::from_g(1.0),
        first: Volume::from_ml(1000.0),
        measure: Volume::from_ml(1.0),
        per_pot: None,
        beside: Vec::new(),
    };
    request.calculate().ok()
}

/// The drench for all pots of the benches at what they got last; `None` where that was not logged for one of them.
pub(super) fn drench(season: &Season, benches: &[&str], on: NaiveDate, units: System) -> Option<(Volume, String)> {
    let (mut pots, mut ml, mut each) = (0_u32, 0.0, Vec::new());
    for bench in benches {
        let standing = season.standing(bench, on)?;
        let given = last_given(season, bench, on)?;
        pots = pots.saturating_add(standing.pots);
        ml += drench_volume(standing.pots, given, 0.0).ok()?.ml();
        let words = volume(units, given);
        if !each.contains(&words) {
            each.push(words);
        }
    }
    let per_pot = each.first().filter(|_| each.len() == 1).map_or_else(String::new, |words| format!(" at {words}"));
    Some((Volume::from_ml(ml), format!("{pots} pots{per_pot}")))
}

/// What is known of the work on some benches, as it was logged last: a figure where it is the same for all of them.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Figures {
    /// Solution or water per pot, mL.
    pub ml_per_pot: Option<f64>,
    /// ppm of a nutrient's element, as last logged for the lots.
    pub ppm: Option<f64>,
    /// ppm N of the last feed.
    pub n_ppm: Option<f64>,
    /// ppm Mg of the last feed.
    pub mg_ppm: Option<f64>,
    /// ppm Mo of the last feed.
    pub mo_ppm: Option<f64>,
}

/// The figures of benches up to a day; of a nutrient the salt and how it is given. Only what was logged is given: nothing is
/// taken from what is published.
pub fn figures(
    season: &Season,
    nutrient: Option<(Material, Method)>,
    (benches, on): (&[String], NaiveDate),
) -> Figures {
    let given = benches.iter().map(|bench| last_given(season, bench, on).map(Volume::ml));
    let lots = lots_on(season, benches.iter(), on);
    let ppm = nutrient.and_then(|of| same(lots.iter().map(|lot| last_ppm(season, lot, of, on))));
    let feeds: Vec<Option<[Option<f64>; 3]>> = lots.iter().map(|lot| last_feed(season, lot, on)).collect();
    let [n_ppm, mg_ppm, mo_ppm] =
        [0_usize, 1, 2].map(|at| same(feeds.iter().map(|feed| feed.and_then(|f| f.get(at).copied().flatten()))));
    Figures { ml_per_pot: same(given), ppm, n_ppm, mg_ppm, mo_ppm }
}

/// The one figure that all of them have.
fn same(mut all: impl Iterator<Item = Option<f64>>) -> Option<f64> {
    let first = all.next()??;
    all.all(|other| other.is_some_and(|other| (other - first).abs() < 1e-9)).then_some(first)
}

/// ppm N, Mg and Mo of the feed that was last logged for a lot.
fn last_feed(season: &Season, lot: &str, on: NaiveDate) -> Option<[Option<f64>; 3]> {
    last_of_lot(season, lot, (KindName::Fed, on), |kind| match *kind {
        Kind::Fed { n_ppm, mg_ppm, mo_ppm, .. } => Some([Some(n_ppm), mg_ppm, mo_ppm]),
        _ => None,
    })
}

/// True where it was logged what a pot of the bench got last.
pub(super) fn is_known(season: &Season, bench: &str, on: NaiveDate) -> bool {
    last_given(season, bench, on).is_some()
}

/// What a pot of a bench got when that was last logged: plain water, feed or a drench of a nutrient.
fn last_given(season: &Season, bench: &str, on: NaiveDate) -> Option<Volume> {
    let kinds = [KindName::Watered, KindName::Fed, KindName::Nutrient].into_iter();
    let of = kinds.flat_map(|kind| season.history_of(bench, on, kind));
    let given = of.filter_map(|entry| {
        let ml = match *entry.kind {
            Kind::Watered { ml_per_pot } | Kind::Fed { ml_per_pot, .. } => ml_per_pot,
            Kind::Nutrient { ml_per_pot, how: Method::Drench, .. } => ml_per_pot,
            _ => None,
        };
        Some((entry.order(), ml.filter(|ml| *ml > 0.0)?))
    });
    given.max_by_key(|(order, _)| *order).map(|(_, ml)| Volume::from_ml(ml))
}

/// The spray for the area of the benches, at the usual rate; `None` where the plan lacks the area of one of them.
fn spray(season: &Season, benches: &[&str], units: System) -> Option<(Volume, String)> {
    let each: Option<Vec<f64>> = benches.iter().map(|code| season.bench(code)?.area_m2).collect();
    let area = Area::from_m2(each?.iter().sum());
    let whole = Solution::spray(area, None, None).ok()?.volume;
    let area = both(units, |s| crate::units::Quantity::show(area, s));
    Some((whole, format!("{area} (spray volume assumed; the label's volume decides)")))
}
