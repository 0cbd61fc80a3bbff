//! The usual cautions, each once: the general ones here, those of growth regulators in the crop's own table. They never
//! override the product label or local rules, and state so.

use crate::crop::growth_regulator::{self, Caution, Ingredient};
use crate::terms::Method;

/// The kind of work a caution belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Work {
    /// Mixing or putting on a growth regulator or a spray.
    Treatment,
    /// A treatment on colored bracts or beside released beneficials.
    LateTreatment,
    /// A fog.
    Fog,
    /// Weighing out a fertilizer or a salt.
    Fertilizer,
    /// Feeding through an injector.
    Injector,
    /// Hydrated lime or acids.
    LimeOrAcid,
    /// Knocking out, pinching and carrying plants.
    Plants,
    /// Sick plants.
    SickPlants,
    /// The house at night: lamps, cords, cloth.
    Night,
    /// Sale days.
    Visitors,
}

impl Work {
    /// Every kind of work that has cautions.
    pub const ALL: [Self; 10] = [
        Self::Treatment,
        Self::LateTreatment,
        Self::Fog,
        Self::Fertilizer,
        Self::Injector,
        Self::LimeOrAcid,
        Self::Plants,
        Self::SickPlants,
        Self::Night,
        Self::Visitors,
    ];
}

const fn say(id: &'static str, text: &'static str) -> Caution {
    Caution { id, text }
}

const TREATMENT: &[Caution] = &[
    say("label", "The product label and local rules decide; where they differ from this, they are right."),
    say("applicator", "A licensed applicator does the work."),
    say(
        "re-entry",
        "Read the re-entry interval on the label and type it: it runs from the end of the application. Only handlers are \
         inside until then; the posted sign decides.",
    ),
    say(
        "clothing",
        "Wear what the label asks for, gloves and long sleeves at least; it is hot work, so rest and drink.",
    ),
    say("gloves", "Gloves off and hands washed before the keyboard."),
    say("mixing", "Mix for today only and keep none: fill part of the tank, add the product, fill up to the volume."),
];

const LATE_TREATMENT: &[Caution] = &[
    say("colored-bracts", "Keep sprays off colored bracts: fewer products are allowed there, and they leave marks."),
    say("beneficials", "Many sprays kill released beneficials for weeks: ask before mixing."),
];

const FERTILIZER: &[Caution] = &[
    say("bag-label", "The bag's label and local rules decide."),
    say("few-plants", "Try a new rate on a few plants first."),
];

const LIME_OR_ACID: &[Caution] = &[
    say("burns", "Hydrated lime and acids burn skin and eyes: goggles, gloves, water at hand."),
    say("acid-into-water", "Acid goes into water, never water into acid."),
];

const PLANTS: &[Caution] = &[
    say("sap", "The milky sap irritates skin and eyes: wash it off."),
    say("lifting", "Lift trays with the legs, two to a heavy one."),
];

const NIGHT: &[Caution] = &[
    say("cords", "At night: cords, lamps and wet floors. Power off before a hand is on a lamp."),
    say("cloth", "Nobody under the cloth while it closes."),
];

/// The cautions for a kind of work, the most important first.
pub const fn cautions(work: Work) -> &'static [Caution] {
    match work {
        Work::Treatment => TREATMENT,
        Work::LateTreatment => LATE_TREATMENT,
        Work::Fog => {
            const {
                &[say(
                    "fog",
                    "A fog closes the whole house. Nobody inside until it is vented and the label's hours are over.",
                )]
            }
        }
        Work::Fertilizer => FERTILIZER,
        Work::Injector => const { &[say("bucket", "Check the injector with a bucket and the EC.")] },
        Work::LimeOrAcid => LIME_OR_ACID,
        Work::Plants => PLANTS,
        Work::SickPlants => {
            const {
                &[say(
                    "sick-plants",
                    "Clean hands and tools after sick plants; walk those benches last. Bag tissue at the bench.",
                )]
            }
        }
        Work::Night => NIGHT,
        Work::Visitors => {
            const { &[say("visitors", "On sale days keep visitors out of closed benches and off hoses and cords.")] }
        }
    }
}

/// All cautions of a growth-regulator treatment, the most important first. `None` is an ingredient without a row here.
pub fn of_growth_regulator(ingredients: &[Option<Ingredient>], method: Method) -> Vec<Caution> {
    let late: &[Caution] = match method {
        Method::Spray => cautions(Work::LateTreatment),
        Method::Drench => &[],
    };
    let mut all = cautions(Work::Treatment).to_vec();
    all.extend(growth_regulator::cautions(ingredients, method));
    all.extend(late);
    all
}

/// Shown wherever keep-out is shown: one laptop may not know every treatment.
pub const KEEP_OUT: &str = "as known here; the posted sign decides";

#[cfg(test)]
mod tests {
    use super::{Work, cautions, of_growth_regulator};
    use crate::crop::growth_regulator::{Caution, Ingredient};
    use crate::terms::Method;

    fn each_once(all: &[Caution]) {
        let mut ids: Vec<_> = all.iter().map(|c| c.id).collect();
        let mut texts: Vec<_> = all.iter().flat_map(|c| c.text.split(". ")).collect();
        let (named, said) = (ids.len(), texts.len());
        ids.sort_unstable();
        ids.dedup();
        texts.sort_unstable();
        texts.dedup();
        assert_eq!((ids.len(), texts.len()), (named, said), "{all:?}");
    }

    #[test]
    fn no_sentence_is_said_twice() {
        let general: Vec<Caution> = Work::ALL.into_iter().flat_map(|w| cautions(w).to_vec()).collect();
        each_once(&general);
        for method in [Method::Spray, Method::Drench] {
            let all: Vec<Option<Ingredient>> = Ingredient::ALL.into_iter().map(Some).chain([None]).collect();
            each_once(&of_growth_regulator(&all, method));
        }
    }

    #[test]
    fn every_treatment_has_the_ones_that_always_hold() {
        for method in [Method::Spray, Method::Drench] {
            for ingredient in Ingredient::ALL.into_iter().map(Some).chain([None]) {
                let said = of_growth_regulator(&[ingredient], method);
                for id in ["label", "applicator", "re-entry", "clothing", "gloves", "strength"] {
                    assert!(said.iter().any(|c| c.id == id), "{ingredient:?} {method:?} lacks {id}");
                }
                assert!(said.iter().all(|c| c.id != "re-entry" || !c.text.contains("hours")), "no interval is given");
            }
        }
    }
}
