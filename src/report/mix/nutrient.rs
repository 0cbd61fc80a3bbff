//! A nutrient in words.

use super::weighing::{a_pot_gets, lines, not_together, purpose};
use super::{Page, cautions_json, off, range, weighing};
use crate::crop::feed::{Given, USUAL_RATES, UsualRate};
use crate::mix::{NutrientAnswer, volume};
use crate::record::{Material, Term};
use crate::units::{System, plain};
use serde_json::{Value, json};

/// The material as it is sold.
const fn sold_as(material: Material) -> &'static str {
    match material {
        Material::MagnesiumSulfate => "Magnesium sulfate heptahydrate",
        Material::SodiumMolybdate => "Sodium molybdate dihydrate",
        Material::AmmoniumMolybdate => "Ammonium molybdate tetrahydrate",
        Material::CalciumChloride => "Calcium chloride dihydrate",
    }
}

/// What it must not share a stock tank with.
const fn never_with(material: Material) -> Option<&'static str> {
    match material {
        Material::MagnesiumSulfate => {
            Some("calcium (it precipitates as gypsum and clogs lines: North Carolina Agronomic Division)")
        }
        Material::CalciumChloride => {
            Some("sulfates (North Carolina Agronomic Division) or phosphates (common practice, no source)")
        }
        Material::SodiumMolybdate | Material::AmmoniumMolybdate => None,
    }
}

fn how_word(how: Given) -> &'static str {
    match how {
        Given::InFeed => "in every feed",
        Given::Apart(method) => method.text(),
    }
}

fn usual(salt: Material) -> impl Iterator<Item = &'static UsualRate> {
    USUAL_RATES.iter().filter(move |r| r.salts.contains(&salt))
}

/// The usual rates of a material.
pub fn usual_nutrient(page: &mut Page, material: Material) {
    for (i, rate) in usual(material).enumerate() {
        let label = if i == 0 { "usual" } else { "" };
        page.item(
            label,
            format!("{} ppm, {} ({})", range(rate.low_ppm, rate.high_ppm), how_word(rate.how), rate.source),
        );
    }
}

pub(super) fn page(answer: &NutrientAnswer, units: System) -> Page {
    let (material, weighing) = (answer.request.material, &answer.weighing);
    let mut page = Page::default();
    page.line(format!(
        "{}, {}% {}: {} ppm of {} {}",
        sold_as(material),
        plain(weighing.share.share() * 100.0),
        material.element(),
        plain(weighing.target.ppm()),
        material.element(),
        purpose(weighing, units)
    ));
    if answer.too_strong {
        page.item("TOO STRONG?", "more than 1.5 times every published rate for this method");
    }
    not_together(&mut page, &answer.clashes);
    lines(&mut page, weighing, units);
    match &answer.steps {
        None => {}
        Some(Ok(plan)) => page.item(
            "two-step mix",
            format!(
                "too little to weigh on this scale: dissolve {} g in water, top up to {}, use {} of it; makes {} ppm ({})",
                plain(plan.weigh.g()),
                volume(units, plan.dissolve_in),
                volume(units, plan.take),
                plain(weighing.target.ppm() * (1.0 + plan.off)),
                off(plan.off)
            ),
        ),
        Some(Err(reason)) => page.item("two-step mix", format!("too little to weigh on this scale; {}", reason.text(units))),
    }
    a_pot_gets(&mut page, answer.mg_per_pot, material.element());
    usual_nutrient(&mut page, material);
    if let Some(never) = never_with(material) {
        page.item("keep apart", format!("never in one stock tank with {never}"));
    }
    page.cautions(&answer.cautions);
    page
}

pub(super) fn json(answer: &NutrientAnswer) -> Value {
    let material = answer.request.material;
    let mut all = weighing::json(&answer.weighing);
    if let Some(fields) = all.as_object_mut() {
        fields.insert("material".to_owned(), json!(material.code()));
        fields.insert("element".to_owned(), json!(material.element()));
        let plan = answer.steps.as_ref().and_then(|s| s.as_ref().ok()).map(|p| {
            json!({ "weigh_g": p.weigh.g(), "dissolve_in_ml": p.dissolve_in.ml(), "take_ml": p.take.ml(), "off": p.off })
        });
        fields.insert("two_steps".to_owned(), json!(plan));
        let rates: Vec<_> = usual(material)
            .map(
                |r| json!({ "how": how_word(r.how), "low_ppm": r.low_ppm, "high_ppm": r.high_ppm, "source": r.source }),
            )
            .collect();
        fields.insert("usual".to_owned(), json!(rates));
        fields.insert("never_with".to_owned(), json!(never_with(material)));
        fields.insert("cautions".to_owned(), cautions_json(&answer.cautions));
    }
    all
}
