//! The fields of the Mixing page, and which of them are visible.

use super::State;
use crate::model::MixTab;

/// One field.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spec {
    /// Its name, the key of its text and draft.
    pub(super) name: &'static str,
    /// The word before it.
    pub(super) label: &'static str,
    /// What it takes.
    pub(super) hint: &'static str,
    /// Must be typed.
    pub(super) required: bool,
}

const fn must(name: &'static str, label: &'static str, hint: &'static str) -> Spec {
    Spec { name, label, hint, required: true }
}

const fn may(name: &'static str, label: &'static str, hint: &'static str) -> Spec {
    Spec { name, label, hint, required: false }
}

const BENCHES: Spec = may("benches", "benches", "codes, a house or a lot, parted by blanks");
const AREA: Spec = may("area", "area", "500ft2, 46m2; empty: that of the benches");
const RATE: Spec = may("rate", "spray", "2qt/100ft2, 0.2L/m2; empty: 2 qt on 100 ft2");
const POTS: Spec = may("pots", "pots", "empty: those on the benches");
const VOLUME: Spec = may("volume", "all of it", "100gal, 380L; empty: pots x a pot, or area x spray");
const INJECTOR: Spec = may("injector", "injector", "1:100; empty: straight into the tank");
const STOCK: Spec = may("stock", "stock tank", "50gal, 20L; empty: as much stock as is needed");
const SCALE: Spec = may("scale", "scale step", "0.1g; empty: 1 g");
const BESIDE: Spec = may("beside", "same tank", "what else goes in, such as calcium-nitrate");

const HOW: Spec = must("how", "how", "spray or drench");
const PER_POT: Spec = may("per pot", "a pot gets", "4floz, 120mL; empty: the usual for the rim");
const RESERVE: Spec = may("reserve", "to spare", "percent made over and above; empty: none");

/// The parts of a tank: ingredient, strength, ppm.
pub(super) const PARTS: [[Spec; 3]; 3] = [
    [
        must("ai 1", "ingredient", "common name, such as paclobutrazol"),
        must("strength 1", "strength", "from the pack: 4 g/L, 0.4% liquid, 85% solid, 1 lb/gal"),
        must("ppm 1", "ppm", "ppm of active ingredient in the tank"),
    ],
    [
        may("ai 2", "second", "another ingredient in the same tank; empty: none"),
        must("strength 2", " strength", "from the pack: 4 g/L, 0.4% liquid, 85% solid, 1 lb/gal"),
        must("ppm 2", " ppm", "ppm of active ingredient in the tank"),
    ],
    [
        may("ai 3", "third", "another ingredient in the same tank; empty: none"),
        must("strength 3", " strength", "from the pack: 4 g/L, 0.4% liquid, 85% solid, 1 lb/gal"),
        must("ppm 3", " ppm", "ppm of active ingredient in the tank"),
    ],
];

const MATERIAL: Spec = must("material", "material", "magnesium-sulfate, sodium-, ammonium-molybdate, calcium-chloride");
const NUTRIENT_HOW: Spec = must("nutrient how", "how", "spray or drench");
const NUTRIENT_PPM: Spec = must("nutrient ppm", "ppm", "ppm of Mg, Mo or Ca");
const PERCENT: Spec = may("percent", "element %", "as the bag says; empty: the pure salt");
const NUTRIENT_PER_POT: Spec = may("nutrient per pot", "a pot gets", "8floz, 240mL");
const FIRST: Spec = may("first", "first water", "where too little to weigh: 1L; empty: 1 L");
const MEASURE: Spec = may("measure", "measure step", "of the cylinder or syringe; empty: 1 mL");

const ANALYSIS: Spec = must("analysis", "bag", "its three numbers, such as 15-5-15");
const N: Spec = must("n", "ppm N", "ppm of N in the feed");
const FEED_PER_POT: Spec = may("feed per pot", "a pot gets", "8floz, 240mL");
const MG: Spec = may("feed mg", "ppm Mg", "in the feed, written down with it; empty: not known");
const MO: Spec = may("feed mo", "ppm Mo", "in the feed, written down with it; empty: not known");
const CHART_EC: Spec = may("chart ec", "chart EC", "the bag's chart: mS/cm at the ppm below");
const CHART_N: Spec = may("chart n", "chart ppm", "ppm N of that line of the chart");
const WATER_EC: Spec = may("water ec", "water EC", "of the plain water, mS/cm; empty: 0");
const FEED_EC: Spec = may("feed ec", "feed reads", "EC of the feed, mS/cm: what the injector gives");

const GRAMS: Spec = must("grams", "g a pot", "10, 0.35oz: slow-release a pot, from the bag");
const N_PERCENT: Spec = may("n percent", "N %", "as the bag says; empty: not known");

/// Every field there is.
pub(super) fn all() -> impl Iterator<Item = Spec> {
    let one = [BENCHES, AREA, RATE, POTS, VOLUME, INJECTOR, STOCK, SCALE, BESIDE, HOW, PER_POT, RESERVE, MATERIAL];
    let two = [NUTRIENT_HOW, NUTRIENT_PPM, PERCENT, NUTRIENT_PER_POT, FIRST, MEASURE, ANALYSIS, N, FEED_PER_POT, MG];
    let three = [MO, CHART_EC, CHART_N, WATER_EC, FEED_EC, GRAMS, N_PERCENT];
    PARTS.into_iter().flatten().chain(one).chain(two).chain(three)
}

/// The visible fields of the page.
pub(super) fn shown(state: &State) -> Vec<Spec> {
    match state.tab {
        MixTab::GrowthRegulator => {
            let mut fields = vec![BENCHES, HOW];
            let place: &[Spec] = if state.is_spray("how") { &[AREA, RATE] } else { &[POTS, PER_POT, RESERVE] };
            fields.extend(place);
            fields.push(VOLUME);
            let mut open = true;
            for part in PARTS {
                let [ai, strength, ppm] = part;
                let filled = !state.is_blank(ai.name);
                if open {
                    fields.push(ai);
                }
                if open && (filled || ai.required) {
                    fields.extend([strength, ppm]);
                }
                open = open && filled;
            }
            fields
        }
        MixTab::Nutrient => {
            let mut fields = vec![BENCHES, MATERIAL, NUTRIENT_HOW, NUTRIENT_PPM];
            if state.is_spray("nutrient how") {
                fields.extend([AREA, RATE]);
            } else {
                fields.extend([POTS, NUTRIENT_PER_POT]);
            }
            fields.extend([VOLUME, INJECTOR]);
            fields.extend(Some(STOCK).filter(|_| !state.is_blank("injector")));
            fields.extend([PERCENT, BESIDE, SCALE]);
            fields.extend([FIRST, MEASURE].into_iter().filter(|_| state.work.two_steps));
            fields
        }
        MixTab::Feed => {
            let mut fields = vec![BENCHES, ANALYSIS, N, POTS, FEED_PER_POT, VOLUME, INJECTOR];
            fields.extend(Some(STOCK).filter(|_| !state.is_blank("injector")));
            fields.extend([BESIDE, SCALE, MG, MO, CHART_EC]);
            let chart = !state.is_blank("chart ec");
            fields.extend([CHART_N, WATER_EC, FEED_EC].into_iter().filter(|_| chart));
            fields
        }
        MixTab::Topdress => vec![BENCHES, GRAMS, POTS, N_PERCENT, SCALE],
    }
}
