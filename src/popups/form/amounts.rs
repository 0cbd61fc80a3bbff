//! What a form's numbers amount to for its pots, by the same arithmetic as the mixing commands.

use super::cautions::parts;
use super::{BelowLine, State, Tone, place, treatment};
use crate::crop::feed::{Given, UsualRate, beyond_usual, material_for, published_range, usual_rates};
use crate::crop::growth_regulator::{DoseUnit, Ingredient, dose_per_pot, drench_volume, published_rates, strong};
use crate::model::Model;
use crate::record::{KindName, Material, Method, Region, Term};
use crate::units::{Concentration, Length, Mass, Quantity, System, Volume, plain};

/// A strength this many times the highest published one is asked about (house rule).
const FAR_BEYOND: f64 = 1.5;

/// The lines below the fields.
pub(super) fn lines(state: &State, model: &Model) -> Vec<BelowLine> {
    let pots = pots(state, model);
    match state.ask.kind {
        KindName::Nutrient => nutrient(state, model, pots),
        KindName::GrowthRegulator => growth_regulator(state, model, pots),
        KindName::Sprayed => treatment::stays_closed(state, model),
        KindName::Watered => volume(state, model, pots).map(|v| in_all(v, pots)).into_iter().collect(),
        KindName::Fed => volume(state, model, pots).map(|v| in_all(v, pots)).into_iter().chain(in_feed()).collect(),
        KindName::Topdressed => state.number(model, "g_per_pot").map(|g| topdressed(g, pots)).into_iter().collect(),
        KindName::Moved | KindName::Sold | KindName::Losses | KindName::Counted | KindName::Grade => {
            vec![(Tone::Sum, format!("{pots} pots are there now, by the log."))]
        }
        _ => Vec::new(),
    }
}

/// Pots standing on the places chosen.
fn pots(state: &State, model: &Model) -> u32 {
    let benches = place::benches(state, model).into_iter();
    benches.filter_map(|b| model.season.standing(&b, model.day)).map(|s| s.pots).sum()
}

/// The solution for all pots.
fn volume(state: &State, model: &Model, pots: u32) -> Option<Volume> {
    drench_volume(pots, Volume::from_ml(state.number(model, "ml_per_pot")?), 0.0).ok()
}

fn both(volume: Volume) -> String {
    let us = volume.show(System::Us);
    format!("{} ({us})", volume.show(System::Metric))
}

fn in_all(volume: Volume, pots: u32) -> BelowLine {
    (Tone::Sum, format!("Total {} for {pots} pots.", both(volume)))
}

fn topdressed(g: f64, pots: u32) -> BelowLine {
    let all = Mass::from_g(g * f64::from(pots));
    (Tone::Sum, format!("Total {} ({}) for {pots} pots.", all.show(System::Metric), all.show(System::Us)))
}

fn nutrient(state: &State, model: &Model, pots: u32) -> Vec<BelowLine> {
    let mut lines = Vec::new();
    let Some((material, how)) = given(state) else { return lines };
    let strength = state.number(model, "ppm").map(Concentration::from_ppm);
    let all = volume(state, model, pots);
    if let Some(ppm) = strength {
        let weigh = |volume| material_for(ppm, material.fraction(), volume).ok();
        if let Some((v, Some(mass))) = all.map(|v| (v, weigh(v))) {
            lines.push((Tone::Sum, format!("{} Weigh {}.", in_all(v, pots).1, weight(mass, material))));
        } else {
            let batch = match model.system() {
                System::Us => Volume::from_ml(378_541.178_4),
                System::Metric => Volume::from_ml(100_000.0),
            };
            let said =
                |m| (Tone::Sum, format!("{} in {} of solution.", weight(m, material), batch.show(model.system())));
            lines.extend(weigh(batch).map(said));
        }
    }
    if strength.and_then(|ppm| beyond_usual(material, how, ppm, FAR_BEYOND)) == Some(true) {
        let text = format!("! more than {FAR_BEYOND} times the highest published rate: check the unit.");
        lines.push((Tone::Alarm, text));
    }
    lines.extend(usual_rates(material, how).map(|rate| (Tone::Sum, in_print(material, rate))));
    lines
}

/// The salt of a nutrient and how it is given; a drench until that is chosen.
fn given(state: &State) -> Option<(Material, Given)> {
    let how = Method::from_code(&state.text("how")).unwrap_or(Method::Drench);
    Some((Material::from_code(&state.text("material"))?, Given::Apart(how)))
}

fn in_print(material: Material, rate: &UsualRate) -> String {
    format!("Published: {} ppm {} ({}).", range(rate.low_ppm, rate.high_ppm), material.element(), rate.source)
}

fn range(low: f64, high: f64) -> String {
    if low < high { format!("{} to {}", plain(low), plain(high)) } else { plain(low) }
}

/// The salts of the extra elements of a feed, by the field that holds their ppm.
const IN_FEED: [(&str, Material); 2] = [("mg_ppm", Material::MagnesiumSulfate), ("mo_ppm", Material::SodiumMolybdate)];

/// What is published for the extra elements of a feed.
fn in_feed() -> impl Iterator<Item = BelowLine> {
    let rates = |(_, salt): (&str, Material)| usual_rates(salt, Given::InFeed).map(move |rate| (salt, rate));
    IN_FEED.into_iter().flat_map(rates).map(|(salt, rate)| (Tone::Reference, in_print(salt, rate)))
}

/// The published range of a nutrient, short enough to stand next to the field of its ppm; `None` for other fields.
pub(super) fn published(state: &State, field: &str) -> Option<String> {
    let (material, how) = match state.ask.kind {
        KindName::Nutrient if field == "ppm" => given(state)?,
        KindName::Fed => (IN_FEED.into_iter().find(|(name, _)| *name == field)?.1, Given::InFeed),
        _ => return None,
    };
    let (low, high) = published_range(material, how)?;
    Some(format!("ppm, published {}", range(low, high)))
}

fn weight(mass: Mass, material: Material) -> String {
    format!("{} ({}) of {}", mass.show(System::Metric), mass.show(System::Us), material.text())
}

/// Solution for all pots, the dose per pot, and the usual published strengths; above the usual top it says so.
fn growth_regulator(state: &State, model: &Model, pots: u32) -> Vec<BelowLine> {
    let mut lines = treatment::stays_closed(state, model);
    lines.extend(volume(state, model, pots).map(|v| in_all(v, pots)));
    let per_pot = state.number(model, "ml_per_pot").map(Volume::from_ml);
    let method = Method::from_code(&state.text("how"));
    for part in parts(state, model) {
        let ppm = Concentration::from_ppm(part.ppm);
        let dose = per_pot.filter(|_| method == Some(Method::Drench)).and_then(|v| dose_per_pot(ppm, v).ok());
        let gets = |mass: Mass| format!("{} mg of {} per pot.", plain(mass.g() * 1000.0), part.ai);
        lines.extend(dose.map(|mass| (Tone::Sum, gets(mass))));
        let (Some(ingredient), Some(method)) = (Ingredient::parse(&part.ai), method) else { continue };
        if let Some(strong) = strong((ingredient, method), &model.limits, ppm, per_pot, rim(state, model)) {
            let unit = if strong.unit == DoseUnit::Ppm { "ppm" } else { "mg per pot" };
            let (given, top) = (plain(strong.given), plain(strong.top));
            let whose = if strong.limit.own { "your limit" } else { "the usual maximum" };
            let text = format!("! {}: {given} {unit} is above {whose} of {top}: check the entry.", part.ai);
            lines.push((Tone::Alarm, text));
        }
        lines.extend(treatment::last_safe(state, model, ingredient, method));
        let here =
            published_rates(ingredient, method).filter(|usual| usual.region.is_none_or(|r| Some(r) == region(model)));
        lines.extend(here.map(|usual| {
            let (low, high) = (plain(usual.low_ppm), plain(usual.high_ppm));
            let range = if low == high { low } else { format!("{low} to {high}") };
            (Tone::Reference, format!("Usual: {} {range} ppm, {} ({}).", part.ai, usual.when, usual.basis))
        }));
    }
    lines
}

/// The fall climate of the site, as the published ranges divide it.
fn region(model: &Model) -> Option<Region> {
    model.season.site().map(|site| site.region)
}

/// The rim of the pots on the place the form was opened on.
fn rim(state: &State, model: &Model) -> Option<Length> {
    let bench = place::standing(model, &state.ask.place, model.day).into_iter().next()?;
    let lot = model.season.standing(&bench, model.day)?.lot;
    model.season.lot(&lot)?.rim_cm.map(Length::from_cm)
}
