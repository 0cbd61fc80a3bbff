//! Cautions about growth regulators and about each ingredient. The cautions of every treatment are in
//! `mix::cautions`, which puts both together: no sentence is said twice.
//!
//! Plain sentences with a stable name each. None of them gives a re-entry interval, and none overrides a label.

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
    caution(
        "strength",
        "Type the strength from this very pack: one ingredient is sold at strengths up to ten times apart.",
    ),
    caution("stress", "Not on wilted or dry plants, nor on plants with sick roots: they take more harm than hold."),
    caution("check-plants", "Leave a few plants untreated, try a new rate on a few first, and keep a record."),
];

const SPRAY: [Caution; 1] =
    [caution("slow-drying", "Spray early in the morning or late in the afternoon, so that leaves dry slowly.")];

const DRENCH: [Caution; 1] =
    [caution("moist-medium", "Drench a moist medium, not a wet or a dry one, and let nothing run through.")];

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
    const NOT_KNOWN: &[Caution] =
        &[caution("not-known", "Nothing is known here of this ingredient: its label is all there is to go by.")];
    const TRIAZOLE: Caution = caution(
        "triazole-residue",
        "Do not use pots and trays of a crop treated with it again. Overdosing cannot be washed out.",
    );
    const PACLOBUTRAZOL_SPRAY: &[Caution] =
        &[caution("stems", "It works through wet stems; what runs into the medium works as a drench."), TRIAZOLE];
    const PACLOBUTRAZOL_DRENCH: &[Caution] = &[
        caution(
            "weak-late-drench",
            "Sources disagree on late drenches under 1 ppm: one trial saw no sure effect (Michigan State, 2002), growers and the \
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
        &[caution("drench-not-sure", "Sources disagree whether a chlormequat drench is allowed: read the label.")];
    const DAMINOZIDE: &[Caution] = &[caution(
        "dry-leaves-daminozide",
        "Leaves must stay dry after it: sources say from 4 to 24 hours. It does not work through the medium.",
    )];
    const ETHEPHON: &[Caution] = &[
        caution(
            "water-ethephon",
            "It is weaker in alkaline water and in heat. Leaves must stay dry for 18 to 24 hours.",
        ),
        caution("branching-only", "Use it around the pinch; nearer the sale it harms the crop."),
    ];
    const TALLER: &[Caution] = &[
        caution("taller", "This makes plants taller. Bracts stand up for about two weeks before they lie down again."),
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
