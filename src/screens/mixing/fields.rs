//! The fields of the Mixing page: which there are, and which are shown.

use crate::controls::{Fields, Row};
use crate::model::{MixTab, MixingField as F};

/// Ingredients in one tank at most.
pub(super) const PARTS: usize = 3;

/// A field: its name, the word before it, what it takes, whether it must be typed.
type Spec = (F, &'static str, &'static str, bool);

const fn must(name: F, label: &'static str, hint: &'static str) -> Spec {
    (name, label, hint, true)
}

const fn may(name: F, label: &'static str, hint: &'static str) -> Spec {
    (name, label, hint, false)
}

/// Every field, in the order they stand on every page.
const FIELDS: [Spec; 39] = [
    may(F::Benches, "benches", "codes, a row as N1-N6, a house or a lot"),
    must(F::Method(MixTab::GrowthRegulator), "how", "spray or drench"),
    must(F::Material, "material", "magnesium-sulfate, sodium-, ammonium-molybdate, calcium-chloride"),
    must(F::Method(MixTab::Nutrient), "how", "spray or drench"),
    must(F::Ppm(MixTab::Nutrient), "ppm", "ppm of Mg, Mo or Ca"),
    must(F::Analysis, "bag", "its three numbers, such as 15-5-15"),
    must(F::Ppm(MixTab::Feed), "ppm N", "ppm of N in the feed"),
    must(F::Grams, "g per pot", "10, 0.35oz: slow-release per pot, from the bag"),
    may(F::Area, "area", "500ft2, 46m2; empty: that of the benches"),
    may(F::Rate, "spray", "2qt/100ft2, 0.2L/m2; empty: 2 qt per 100 sq ft"),
    may(F::Pots, "pots", "empty: those on the benches"),
    may(F::PerPot(MixTab::GrowthRegulator), "per pot", "4floz, 120mL; empty: the usual for the rim"),
    may(F::Reserve, "to spare", "percent made over and above; empty: none"),
    may(F::PerPot(MixTab::Nutrient), "per pot", "8floz, 240mL"),
    may(F::PerPot(MixTab::Feed), "per pot", "8floz, 240mL"),
    may(F::Volume, "all of it", "100gal, 380L; empty: pots x per pot, or area x spray"),
    must(F::Ingredient(0), "ingredient", "common name, such as paclobutrazol"),
    must(F::Strength(0), "strength", "from the pack: 4 g/L, 0.4% liquid, 85% solid, 1 lb/gal"),
    must(F::PartPpm(0), "ppm", "ppm of active ingredient in the tank"),
    may(F::Ingredient(1), "second", "another ingredient in the same tank; empty: none"),
    must(F::Strength(1), " strength", "from the pack: 4 g/L, 0.4% liquid, 85% solid, 1 lb/gal"),
    must(F::PartPpm(1), " ppm", "ppm of active ingredient in the tank"),
    may(F::Ingredient(2), "third", "another ingredient in the same tank; empty: none"),
    must(F::Strength(2), " strength", "from the pack: 4 g/L, 0.4% liquid, 85% solid, 1 lb/gal"),
    must(F::PartPpm(2), " ppm", "ppm of active ingredient in the tank"),
    may(F::Injector, "injector", "1:100; empty: straight into the tank"),
    may(F::Stock, "stock tank", "50gal, 20L; empty: as much stock as is needed"),
    may(F::Percent(MixTab::Nutrient), "element %", "as the bag says; empty: the pure salt"),
    may(F::Percent(MixTab::Topdress), "N %", "as the bag says; empty: not known"),
    may(F::Beside, "same tank", "what else goes in, such as calcium-nitrate"),
    may(F::Scale, "scale step", "0.1g; empty: 1 g"),
    may(F::FirstWater, "first water", "where too little to weigh: 1L; empty: 1 L"),
    may(F::MeasureStep, "measure step", "of the cylinder or syringe; empty: 1 mL"),
    may(F::Magnesium, "ppm Mg", "in the feed, written down with it; empty: not known"),
    may(F::Molybdenum, "ppm Mo", "in the feed, written down with it; empty: not known"),
    may(F::ChartEc, "chart EC", "the bag's chart: mS/cm at the ppm below"),
    may(F::ChartPpm, "chart ppm", "ppm N of that line of the chart"),
    may(F::WaterEc, "water EC", "of the plain water, mS/cm; empty: 0"),
    may(F::FeedEc, "feed reads", "EC of the feed, mS/cm: what the injector gives"),
];

/// Every field, empty.
pub(super) fn all() -> Fields<F> {
    Fields::new(FIELDS.into_iter().map(|(name, label, _, required)| Row::typed(name, label, required)).collect())
}

/// What a field takes.
pub(super) fn hint(name: F) -> &'static str {
    FIELDS.iter().find(|spec| spec.0 == name).map_or("", |spec| spec.2)
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
