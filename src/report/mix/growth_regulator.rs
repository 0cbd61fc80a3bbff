//! A growth regulator, or a tank of several, in words.

use super::{Page, cautions_json, off, range};
use crate::crop::growth_regulator::{
    Amount, Cutoff, DoseUnit, Ingredient, Measured, PackCheck, PublishedRate, SprayRate, Strong, published_rates,
    too_little,
};
use crate::dates;
use crate::mix::{GrowthRegulatorAnswer, LastDay, PartAnswer, both, volume};
use crate::terms::{Method, Region, Term};
use crate::units::{Quantity, System, Volume, plain};
use serde_json::{Value, json};

pub(super) fn page(answer: &GrowthRegulatorAnswer, units: System) -> Page {
    let mut page = Page::default();
    page.line(heading(answer, units));
    if let Some(words) = usual_volume(answer) {
        page.item("ASSUMED", words);
    }
    for part in &answer.parts {
        page.blank();
        part_lines(answer, &mut page, part, units);
    }
    page.cautions(&answer.cautions);
    page
}

fn heading(answer: &GrowthRegulatorAnswer, units: System) -> String {
    let solution = &answer.solution;
    let whole = volume(units, solution.volume);
    if let Some((area, rate)) = solution.area {
        let area = both(units, |s| area.show(s));
        return format!("Spray: {area} at {}: {whole} of solution", both(units, |s| rate_words(rate, s)));
    }
    match (solution.pots, solution.per_pot) {
        (Some(pots), Some(per_pot)) => {
            format!("Drench: {pots} pots at {}: {whole} of solution", volume(units, per_pot))
        }
        _ if answer.method == Method::Spray => format!("Spray: {whole} of solution"),
        _ => format!("Drench: {whole} of solution"),
    }
}

/// A spray rate in the units of a system: `2 qt per 100 sq ft`, `204 mL per m2`.
fn rate_words(rate: SprayRate, system: System) -> String {
    match system {
        System::Us => format!("{} qt per 100 sq ft", plain(rate.in_quarts_per_100_ft2())),
        System::Metric => format!("{} mL per m2", plain(rate.in_ml_per_m2())),
    }
}

/// Where a volume that was not typed comes from.
fn usual_volume(answer: &GrowthRegulatorAnswer) -> Option<&'static str> {
    if answer.solution.usual_per_pot {
        return Some(
            "drench volume assumed, the usual one for this pot diameter (Michigan State drench guidelines; Purdue, 2010); the \
             label's volume decides",
        );
    }
    let (_, rate) = answer.solution.area?;
    (rate == SprayRate::USUAL)
        .then_some("spray volume assumed, 2 qt per 100 sq ft (most guides; Michigan State gives 2 to 3 qt); the label's volume decides")
}

fn part_lines(answer: &GrowthRegulatorAnswer, page: &mut Page, part: &PartAnswer, units: System) {
    let Measured { part: asked, exact, measured, makes } = part.amount;
    page.line(format!(
        "{} at {} ppm, using {} product",
        asked.ingredient.name(),
        plain(asked.ppm.ppm()),
        asked.strength.show()
    ));
    alarms(answer, page, part);
    let label = if answer.measured { "measured" } else { "measure out" };
    page.item(label, both(units, |s| exact.show(s)));
    if !answer.measured {
        let off = off(part.amount.off_by());
        let metric = measured.show(System::Metric);
        page.item("rounded", format!("{metric}, which makes {} ppm ({off})", plain(makes.ppm())));
    }
    if let Some(mg) = part.mg_per_pot {
        let most = if answer.method == Method::Spray { ", if all of it stays on the pots" } else { "" };
        page.item("per pot", format!("{} mg of active ingredient{most}", plain(mg)));
    }
    page.item("math", formula(&part.amount, answer.solution.volume.ml() / 1000.0));
    usual_growth_regulator(page, asked.ingredient, answer.method);
    for last in part.last.iter().filter(|l| !l.late) {
        page.item("last safe day", last_words(last));
    }
}

/// What is to be stopped at, before anything else is said of a part.
fn alarms(answer: &GrowthRegulatorAnswer, page: &mut Page, part: &PartAnswer) {
    if let Some(strong) = &part.strong {
        page.item("TOO STRONG?", strong_words(strong));
    }
    if let Some(words) = pack_words(part) {
        page.item("READ THE LABEL", words);
    }
    if !answer.measured && too_little(part.amount.exact) {
        let words = "too little to measure well: mix a bigger batch, or dilute the product with a measured amount of water \
                     first and measure that";
        page.item("TOO LITTLE", words);
    }
    for last in part.last.iter().filter(|l| l.late) {
        page.item("TOO LATE", last_words(last));
    }
}

pub(super) fn json(answer: &GrowthRegulatorAnswer) -> Value {
    let solution = &answer.solution;
    json!({
        "how": answer.method.code(),
        "solution_ml": solution.volume.ml(),
        "area_m2": solution.area.map(|(area, _)| area.m2()),
        "ml_per_m2": solution.area.map(|(_, rate)| rate.in_ml_per_m2()),
        "pots": solution.pots,
        "ml_per_pot": solution.per_pot.map(Volume::ml),
        "parts": answer.parts.iter().map(part_json).collect::<Vec<_>>(),
        "cautions": cautions_json(&answer.cautions),
    })
}

/// The usual ranges of an ingredient put on in a way, or that none was found.
pub fn usual_growth_regulator(page: &mut Page, ingredient: Ingredient, method: Method) {
    let rows: Vec<&PublishedRate> = published_rates(ingredient, method).collect();
    if rows.is_empty() {
        page.item("usual", format!("no published poinsettia {} rate was found; the label decides", method.code()));
    }
    for (i, row) in rows.iter().enumerate() {
        page.item(if i == 0 { "usual" } else { "" }, usual_words(row));
    }
}

fn part_json(answer: &PartAnswer) -> Value {
    let Measured { part, exact, measured, makes } = answer.amount;
    let (unit, unit_measured) = match exact {
        Amount::Weight(_) => ("exact_g", "measured_g"),
        Amount::Volume(_) => ("exact_ml", "measured_ml"),
    };
    let last = answer.last.first().map(|l| match l.last {
        Cutoff::Day { day, why } => json!({ "day": day.to_string(), "why": why, "late": l.late }),
        Cutoff::None { why } => json!({ "day": null, "why": why, "late": false }),
        Cutoff::NoFigure => json!({ "day": null, "why": "no figure was found", "late": false }),
    });
    json!({
        "ai": part.ingredient.name(),
        "ppm": part.ppm.ppm(),
        "strength": part.strength.show(),
        unit: exact.base(),
        unit_measured: measured.base(),
        "measured_makes_ppm": makes.ppm(),
        "too_little_to_measure": too_little(exact),
        "mg_per_pot": answer.mg_per_pot,
        "usual": answer.usual.iter().map(|u| json!({
            "low_ppm": u.low_ppm, "high_ppm": u.high_ppm, "when": u.when, "region": u.region.map(region_word),
            "basis": u.basis.to_string(),
        })).collect::<Vec<_>>(),
        "too_strong": answer.strong.map(|s| strong_words(&s)),
        "pack": pack_words(answer),
        "last_safe": last,
    })
}

fn region_word(region: Region) -> &'static str {
    match region {
        Region::Cool => "cool",
        Region::Warm => "warm",
    }
}

fn formula(amount: &Measured, liters: f64) -> String {
    let (ppm, liters) = (plain(amount.part.ppm.ppm()), plain(liters));
    let (strength, comes) = (amount.part.strength, plain(amount.exact.base()));
    match (strength.g_per_g(), strength.g_per_l()) {
        (Some(share), _) => {
            format!("g = ppm x liters / (1000 x share) = {ppm} x {liters} / (1000 x {}) = {comes}", plain(share))
        }
        (_, Some(grams)) => format!("mL = ppm x liters / g per L = {ppm} x {liters} / {} = {comes}", plain(grams)),
        (None, None) => String::new(),
    }
}

fn usual_words(usual: &PublishedRate) -> String {
    let range = range(usual.low_ppm, usual.high_ppm);
    let place = usual.region.map_or_else(String::new, |r| format!("{} region, ", region_word(r)));
    format!("{range} ppm: {place}{} ({})", usual.when, usual.basis)
}

fn strong_words(strong: &Strong) -> String {
    let unit = match strong.unit {
        DoseUnit::Ppm => "ppm",
        DoseUnit::MgPerPot => "mg per pot",
    };
    let (given, top) = (plain(strong.given), plain(strong.top));
    if strong.limit.own {
        return format!("{given} {unit} is above your limit of {top}");
    }
    format!("{given} {unit} is above the usual maximum of {top} ({})", strong.basis)
}

/// What to say when the strength typed is not the usual one: that it differs, never what the usual one is.
fn pack_words(part: &PartAnswer) -> Option<String> {
    let typed = part.amount.part.strength.show();
    let form = |solid| if solid { "a solid" } else { "a liquid" };
    match part.pack {
        PackCheck::Usual | PackCheck::NoFigure => None,
        PackCheck::OtherForm { solid } => Some(format!(
            "{typed} is for {}; common products of this ingredient are {}. Check what the label says it is.",
            form(!solid),
            form(solid)
        )),
        PackCheck::Unusual { times } => {
            let differs = if times > 1.0 { about(times) + " times" } else { format!("1/{} of", about(1.0 / times)) };
            Some(format!(
                "{typed} is about {differs} what common labels of this ingredient say. Check the decimal point, and whether \
                 it is percent or g/L."
            ))
        }
    }
}

/// A ratio as a whole number, near enough for a warning: `9`.
fn about(ratio: f64) -> String {
    format!("{ratio:.0}")
}

/// `L1: Mon Oct 5, 2026: why`; past it, that it was.
pub fn last_words(last: &LastDay) -> String {
    let lot = if last.lot.is_empty() { String::new() } else { format!("{}: ", last.lot) };
    match last.last {
        Cutoff::Day { day, why } => {
            let late = if last.late { "the last safe day was " } else { "" };
            format!("{lot}{late}{}: {why}", dates::long(day))
        }
        Cutoff::None { why } => format!("{lot}{why}"),
        Cutoff::NoFigure => format!("{lot}no published figure was found; the label decides"),
    }
}
