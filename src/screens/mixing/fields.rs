//! The fields of the Mixing page: which there are, and which are shown.

use crate::controls::{Choice, Field, Fields, Input, Row};
use crate::crop::growth_regulator::Ingredient;
use crate::mix::BESIDE;
use crate::model::{MixTab, MixingField as F};
use crate::terms::{Material, Method, Term};
use crate::units::System;

/// Ingredients in one tank at most.
pub(super) const PARTS: usize = 3;

/// A field: its name, the word before it, what it takes in US and in metric units, whether it must be typed.
type Spec = (F, &'static str, [&'static str; 2], bool);

const fn must(name: F, label: &'static str, hint: &'static str) -> Spec {
    (name, label, [hint, hint], true)
}

const fn may(name: F, label: &'static str, hint: &'static str) -> Spec {
    (name, label, [hint, hint], false)
}

/// A field whose examples are in the units of the site.
const fn either(name: F, label: &'static str, us: &'static str, metric: &'static str) -> Spec {
    (name, label, [us, metric], false)
}

/// No product has all of these strengths: they show how a label's is typed.
const STRENGTH: &str = "from the label, such as 12 g/L, 7% liquid, 60% solid (made-up numbers)";
const PART_PPM: &str = "ppm of active ingredient in the tank";
const ANOTHER: &str = "press a letter; blank: no other in the tank";
const LETTER: &str = "press a letter";
const LOGGED: &str = "in the feed, logged with it; blank: not known";

/// Every field, in the order they stand on every page.
const FIELDS: [Spec; 39] = [
    may(F::Benches, "benches", "codes, a row (E1-E6), a house or a lot"),
    must(F::Method(MixTab::GrowthRegulator), "method", LETTER),
    must(F::Material, "material", LETTER),
    must(F::Method(MixTab::Nutrient), "method", LETTER),
    must(F::Ppm(MixTab::Nutrient), "ppm", "target ppm of Mg, Mo or Ca"),
    must(F::Analysis, "bag", "its three numbers, such as 15-5-15"),
    must(F::Ppm(MixTab::Feed), "ppm N", "target ppm of N in the feed"),
    must(F::Grams, "g per pot", "10, 0.35oz: slow-release per pot, from the bag"),
    either(F::Area, "area", "500ft2; blank: that of the benches", "46m2; blank: that of the benches"),
    either(F::Rate, "spray", "2qt/100ft2; blank: 2 qt per 100 sq ft", "0.2L/m2; blank: 0.204 L/m2"),
    may(F::Pots, "pots", "blank: those on the benches"),
    either(
        F::PerPot(MixTab::GrowthRegulator),
        "per pot",
        "4 fl oz; blank: usual for the pot size",
        "120mL; blank: usual for the pot size",
    ),
    may(F::Reserve, "extra", "percent extra to mix; blank: none"),
    either(
        F::PerPot(MixTab::Nutrient),
        "per pot",
        "solution per pot, such as 8floz",
        "solution per pot, such as 240mL",
    ),
    either(F::PerPot(MixTab::Feed), "per pot", "solution per pot, such as 8floz", "solution per pot, such as 240mL"),
    either(
        F::Volume,
        "total volume",
        "100 gal; blank: pots x per pot, or area x spray",
        "380L; blank: pots x per pot, or area x spray",
    ),
    must(F::Ingredient(0), "ingredient", LETTER),
    must(F::Strength(0), "strength", STRENGTH),
    must(F::PartPpm(0), "ppm", PART_PPM),
    may(F::Ingredient(1), "second", ANOTHER),
    must(F::Strength(1), " strength", STRENGTH),
    must(F::PartPpm(1), " ppm", PART_PPM),
    may(F::Ingredient(2), "third", ANOTHER),
    must(F::Strength(2), " strength", STRENGTH),
    must(F::PartPpm(2), " ppm", PART_PPM),
    may(F::Injector, "injector", "1:100; blank: straight into the tank"),
    either(F::Stock, "stock tank", "50gal; blank: as much as needed", "20L; blank: as much as needed"),
    may(F::Percent(MixTab::Nutrient), "element, %", "from the bag; blank: the pure salt"),
    may(F::Percent(MixTab::Topdress), "N, %", "from the bag; blank: not known"),
    may(F::Beside, "same tank", "press letters: what else is in it"),
    may(F::Scale, "scale", "resolution, such as 0.1g; blank: 1 g"),
    may(F::FirstWater, "first solution", "too little to weigh: 1L; blank: 1 L"),
    may(F::MeasureStep, "cylinder mark", "smallest on it, or syringe; blank: 1 mL"),
    may(F::Magnesium, "ppm Mg", LOGGED),
    may(F::Molybdenum, "ppm Mo", LOGGED),
    may(F::ChartEc, "chart EC", "bag's chart: mS/cm at the ppm below"),
    may(F::ChartPpm, "chart ppm", "ppm N of that line of the chart"),
    may(F::WaterEc, "water EC", "of the plain water, mS/cm; blank: 0"),
    may(F::FeedEc, "feed EC", "measured, mS/cm: checks the injector"),
];

/// Every field, empty.
pub(super) fn all() -> Fields<F> {
    let row = |(name, label, _, required): Spec| Row::new(name, label, required, input(name));
    Fields::new(FIELDS.into_iter().map(row).collect())
}

/// A line to type, or what can be picked by letter.
fn input(name: F) -> Input {
    let choice = |code: &str, text: &str| Choice { code: code.to_owned(), text: text.to_owned() };
    match name {
        F::Method(_) => Input::one(Method::ALL.iter().map(|m| choice(m.code(), m.text())).collect()),
        F::Material => Input::one(Material::ALL.iter().map(|m| choice(m.code(), m.text())).collect()),
        F::Ingredient(_) => Input::one(Ingredient::ALL.iter().map(|i| choice(i.name(), i.name())).collect()),
        F::Beside => Input::many(BESIDE.iter().map(|(name, _)| choice(name, name)).collect()),
        _ => Input::Text(Field::default()),
    }
}

/// What a field takes, in the units of the site.
pub(super) fn hint(name: F, system: System) -> &'static str {
    let [us, metric] = FIELDS.iter().find(|spec| spec.0 == name).map_or(["", ""], |spec| spec.2);
    match system {
        System::Us => us,
        System::Metric => metric,
    }
}

/// True where a method is typed that is a spray.
pub(super) fn is_spray(fields: &Fields<F>, tab: MixTab) -> bool {
    fields.typed(F::Method(tab)).is_some_and(|text| "spray".starts_with(&text.to_lowercase()))
}

/// True for a field that the page calls for. `two_steps`: the weight is too small for the scale.
pub(super) fn is_called_for(fields: &Fields<F>, (tab, two_steps): (MixTab, bool), name: F) -> bool {
    use MixTab::{Feed, GrowthRegulator, Nutrient, Topdress};
    let filled = |name| fields.typed(name).is_some();
    let spray = is_spray(fields, tab);
    let mixed = matches!(tab, Nutrient | Feed);
    let ingredient = |part: usize| tab == GrowthRegulator && (0..part).all(|before| filled(F::Ingredient(before)));
    match name {
        F::Benches => true,
        F::Method(of) | F::Ppm(of) | F::Percent(of) => of == tab,
        F::PerPot(of) => of == tab && !spray,
        F::Area | F::Rate => spray,
        F::Pots => !spray,
        F::Reserve => tab == GrowthRegulator && !spray,
        F::Volume => tab != Topdress,
        F::Ingredient(part) => ingredient(part),
        F::Strength(part) | F::PartPpm(part) => ingredient(part) && (part == 0 || filled(F::Ingredient(part))),
        F::Material => tab == Nutrient,
        F::Injector | F::Beside => mixed,
        F::Stock => mixed && filled(F::Injector),
        F::Scale => tab != GrowthRegulator,
        F::FirstWater | F::MeasureStep => tab == Nutrient && two_steps,
        F::Analysis | F::Magnesium | F::Molybdenum | F::ChartEc => tab == Feed,
        F::ChartPpm | F::WaterEc | F::FeedEc => tab == Feed && filled(F::ChartEc),
        F::Grams => tab == Topdress,
    }
}
