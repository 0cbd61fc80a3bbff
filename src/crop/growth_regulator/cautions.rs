//! Cautions about growth regulators and about each ingredient. The cautions of every treatment are in
//! `mix::cautions`, which puts both together: no sentence is said twice.
//!
//! Plain sentences with a stable name each. None of them gives a restricted-entry interval, and none overrides a label.

use super::Ingredient;
use crate::terms::Method;

/// One caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// A stable name, for JSON and tests.
    pub id: &'static str,
    /// The sentence.
    pub text: &'static str,
}

const fn caution(id: &'static str, text: &'static str) -> Caution {
    Caution { id, text }
}

/// With every growth regulator, first to last.
const ALWAYS: [Caution; 3] = [
    caution("strength", "Type the strength from the label in your hand: strengths differ up to tenfold."),
    caution("stress", "Not on wilted or dry plants, nor on plants with sick roots: they are easily damaged."),
    caution("check-plants", "Leave a few plants untreated, try a new rate on a few first, and keep a record."),
];

const SPRAY: [Caution; 1] =
    [caution("slow-drying", "Spray early in the morning or late in the afternoon, so that leaves dry slowly.")];

const DRENCH: [Caution; 1] = [caution("moist-medium", "Drench moist mix, neither wet nor dry, with no run-through.")];

/// The cautions that belong to growth regulators and to these ingredients. `None` is one without a row here.
pub fn cautions(ingredients: &[Option<Ingredient>], method: Method) -> Vec<Caution> {
    let mut all = ALWAYS.to_vec();
    match method {
        Method::Spray => all.extend(SPRAY),
        Method::Drench => all.extend(DRENCH),
    }
    for ingredient in ingredients {
        for own in of(*ingredient, method) {
            if !all.contains(own) {
                all.push(*own);
            }
        }
    }
    all
}

/// What belongs to one ingredient.
fn of(ingredient: Option<Ingredient>, method: Method) -> &'static [Caution] {
    const NOT_KNOWN: &[Caution] = &[caution("not-known", "Benchwalk has no data on this ingredient; go by its label.")];
    const TRIAZOLE: Caution = caution(
        "triazole-residue",
        "Do not reuse pots or trays from treated crops. An overdose cannot be leached out.",
    );
    const PACLOBUTRAZOL_SPRAY: &[Caution] =
        &[caution("stems", "It moves in through stems; runoff into the mix acts as a drench."), TRIAZOLE];
    const PACLOBUTRAZOL_DRENCH: &[Caution] = &[
        caution(
            "weak-late-drench",
            "Sources disagree on late drenches under 1 ppm: one trial found no clear effect (Michigan State, 2002), growers and the \
             University of Florida use 0.05 to 0.5.",
        ),
        TRIAZOLE,
    ];
    const UNICONAZOLE: &[Caution] = &[
        caution("very-active", "Small errors matter: too much or too late delays color and makes bracts small."),
        TRIAZOLE,
    ];
    const CHLORMEQUAT_SPRAY: &[Caution] = &[caution(
        "halo",
        "Above 1,500 ppm, and on tender cultivars below, new leaves get yellow spots within 3 to 5 days; brown edges stay.",
    )];
    const CHLORMEQUAT_DRENCH: &[Caution] =
        &[caution("drench-not-sure", "A chlormequat drench is legal only where the product's label lists it.")];
    const DAMINOZIDE: &[Caution] = &[caution(
        "dry-leaves-daminozide",
        "Keep foliage dry afterward; sources say 4 to 24 hours. It does not work through the mix.",
    )];
    const ETHEPHON: &[Caution] = &[
        caution("water-ethephon", "It is weaker in alkaline water and in heat. Keep foliage dry for 18 to 24 hours."),
        caution("branching-only", "Use it around the pinch; later it damages the crop."),
    ];
    const TALLER: &[Caution] = &[
        caution("taller", "This makes plants taller. Bracts stay upright for about two weeks, then flatten again."),
        caution("repeat-taller", "Wait 10 days for the full effect before another spray."),
    ];
    match (ingredient, method) {
        (None, _) => NOT_KNOWN,
        (Some(Ingredient::Paclobutrazol), Method::Spray) => PACLOBUTRAZOL_SPRAY,
        (Some(Ingredient::Paclobutrazol), Method::Drench) => PACLOBUTRAZOL_DRENCH,
        (Some(Ingredient::Uniconazole), _) => UNICONAZOLE,
        (Some(Ingredient::Chlormequat), Method::Spray) => CHLORMEQUAT_SPRAY,
        (Some(Ingredient::Chlormequat), Method::Drench) => CHLORMEQUAT_DRENCH,
        (Some(Ingredient::Daminozide), _) => DAMINOZIDE,
        (Some(Ingredient::Ethephon), _) => ETHEPHON,
        (Some(Ingredient::BaGa47 | Ingredient::Ga3), _) => TALLER,
        (Some(Ingredient::Flurprimidol | Ingredient::Ancymidol), _) => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::{Ingredient, Method, cautions};

    #[test]
    fn a_name_stands_for_one_sentence() {
        for method in [Method::Spray, Method::Drench] {
            for ingredient in Ingredient::ALL.into_iter().map(Some).chain([None]) {
                let said = cautions(&[ingredient], method);
                for id in ["strength", "stress", "check-plants"] {
                    assert!(said.iter().any(|c| c.id == id), "{ingredient:?} {method:?} lacks {id}");
                }
                let mut ids: Vec<_> = said.iter().map(|c| c.id).collect();
                ids.sort_unstable();
                ids.dedup();
                assert_eq!(ids.len(), said.len(), "a name stands for one sentence");
            }
        }
    }

    #[test]
    fn a_tank_says_each_caution_once() {
        let both = cautions(&[Some(Ingredient::Paclobutrazol), Some(Ingredient::Uniconazole)], Method::Spray);
        assert_eq!(both.iter().filter(|c| c.id == "triazole-residue").count(), 1);
    }
}
