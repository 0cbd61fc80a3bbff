//! The usual cautions, each once: the general ones here, those of growth regulators in the crop's own table. They never
//! override the product label or the law, and state so.

use super::is_acid;
use crate::crop::feed::{Carries, Given, usual_rates};
use crate::crop::growth_regulator::{self, Caution, Ingredient};
use crate::terms::{Material, Method};

/// The kind of work a caution belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Work {
    /// Mixing or applying a growth regulator or a pesticide.
    Treatment,
    /// Spraying a growth regulator or a pesticide.
    Spraying,
    /// A treatment of leaves and bracts: color and released beneficials suffer.
    LateTreatment,
    /// A fog, mist, aerosol or smoke.
    Fog,
    /// Weighing out a fertilizer or a salt.
    Fertilizer,
    /// Dissolving a salt.
    Salt,
    /// Spraying a salt on leaves and bracts.
    LeafSpray,
    /// Feeding through an injector.
    Injector,
    /// Hydrated lime or acids.
    LimeOrAcid,
    /// Knocking out, pinching and carrying plants.
    Plants,
    /// Sick plants.
    SickPlants,
    /// The house at night: lights, cords, black cloth.
    Night,
    /// Work in a hot house.
    Heat,
    /// Sale days.
    Visitors,
}

impl Work {
    /// Every kind of work that has cautions.
    pub const ALL: [Self; 14] = [
        Self::Treatment,
        Self::Spraying,
        Self::LateTreatment,
        Self::Fog,
        Self::Fertilizer,
        Self::Salt,
        Self::LeafSpray,
        Self::Injector,
        Self::LimeOrAcid,
        Self::Plants,
        Self::SickPlants,
        Self::Night,
        Self::Heat,
        Self::Visitors,
    ];
}

const fn say(id: &'static str, text: &'static str) -> Caution {
    Caution { id, text }
}

const TREATMENT: &[Caution] = &[
    say(
        "label",
        "The product label is the law; federal, state and local rules apply. If they differ from this program, follow them.",
    ),
    say(
        "rei",
        "Type the restricted-entry interval (REI) from the label: it runs from the end of the application. Until then only \
         trained handlers with the label's PPE may enter, and only as the label allows; follow the posted sign.",
    ),
    say(
        "clothing",
        "Wear all PPE the label lists (at minimum gloves, long sleeves, long pants, shoes with socks). PPE is hot: rest, \
         shade, water.",
    ),
    say(
        "applicator",
        "A certified or licensed applicator, or someone they supervise where the law allows, does the work.",
    ),
    say(
        "mixing",
        "Mix only what you will use today, in the order the label gives; unless it says otherwise, start with a partly filled \
         tank, put the product in, then top up to volume.",
    ),
    say("gloves", "Take gloves off and wash your hands before you touch the keyboard."),
    say("record", APPLICATION_RECORD),
];

/// Shown with treatments, on forms and in reports: what is logged of one is not the record that the law asks for.
pub const APPLICATION_RECORD: &str =
    "This log does not replace the application record your state and the worker protection rules require.";

const LATE_TREATMENT: &[Caution] = &[
    say("colored-bracts", "Keep sprays off colored bracts: few labels permit it, and residue and burn show."),
    say("beneficials", "Many products kill released beneficials for weeks: check compatibility first."),
];

const FERTILIZER: &[Caution] = &[
    say("bag-label", "The fertilizer's label and SDS decide; state and local rules apply."),
    say("dust", "Goggles and gloves; raise no dust and breathe none."),
    say("few-plants", "Try a new rate on a few plants first."),
];

const INJECTOR: &[Caution] = &[
    say("bucket", "Check the injector with a bucket and the EC."),
    say(
        "backflow",
        "An injector needs a backflow preventer, as the local plumbing code says; mark outlets of treated water \
         'do not drink'.",
    ),
];

const LIME_OR_ACID: &[Caution] = &[
    say("burns", "Hydrated lime and acids burn skin and eyes: goggles, face shield, gloves, apron, eyewash at hand."),
    say("acid-into-water", "Acid goes into water, never water into acid."),
    say("trained", "Lime drenches and acid injection are for trained staff only, by the label and SDS."),
];

const PLANTS: &[Caution] = &[
    say(
        "sap",
        "The milky sap can irritate skin and eyes, and people allergic to latex may react: wear gloves, rinse it off at once.",
    ),
    say("lifting", "Lift with your legs; two people for a heavy tray."),
];

const NIGHT: &[Caution] = &[
    say(
        "cords",
        "Cords, lights and wet floors: shut the power off before you touch a light. Use only GFCI-protected, wet-location \
         equipment; wiring is a licensed electrician's job, by local code.",
    ),
    say("cloth", "Keep clear of moving cloth, cables and motors; nobody is under the cloth while it closes."),
];

/// The cautions for a kind of work, the most important first.
pub const fn cautions(work: Work) -> &'static [Caution] {
    match work {
        Work::Treatment => TREATMENT,
        Work::Spraying => {
            const {
                &[say(
                    "spray-closes",
                    "The label may close more than the treated benches (ventilation, respirator, fine sprays): choose the \
                     house then.",
                )]
            }
        }
        Work::LateTreatment => LATE_TREATMENT,
        Work::Fog => {
            const {
                &[say(
                    "fog",
                    "A fog, mist, aerosol or smoke closes the whole house: nobody inside until it is ventilated as the label \
                     says and the REI is over.",
                )]
            }
        }
        Work::Fertilizer => FERTILIZER,
        Work::Salt => {
            const { &[say("dissolve", "Dissolve salts slowly into water; calcium chloride heats up as it dissolves.")] }
        }
        Work::LeafSpray => {
            const {
                &[say(
                    "leaf-spray",
                    "A salt spray can mark or burn leaves and bracts: spray a few plants and wait some days before the rest.",
                )]
            }
        }
        Work::Injector => INJECTOR,
        Work::LimeOrAcid => LIME_OR_ACID,
        Work::Plants => PLANTS,
        Work::SickPlants => {
            const {
                &[say(
                    "sick-plants",
                    "Sick plants: walk those benches last, bag tissue at the bench, clean hands and tools afterward.",
                )]
            }
        }
        Work::Night => NIGHT,
        Work::Heat => const { &[say("heat", "Heat: drink water, rest in the shade, work in pairs when it is hot.")] },
        Work::Visitors => {
            const { &[say("visitors", "On sale days keep visitors out of closed benches and away from hoses and cords.")] }
        }
    }
}

/// All cautions of a growth-regulator treatment, the most important first. `None` is an ingredient without a row here.
pub fn of_growth_regulator(ingredients: &[Option<Ingredient>], method: Method) -> Vec<Caution> {
    let spray: [&[Caution]; 2] = match method {
        Method::Spray => [cautions(Work::Spraying), cautions(Work::LateTreatment)],
        Method::Drench => [&[], &[]],
    };
    let mut all = cautions(Work::Treatment).to_vec();
    all.extend(spray.concat());
    all.extend(growth_regulator::cautions(ingredients, method));
    all
}

/// All cautions of an extra nutrient, the most important first; `how` is `None` where it is not known how it is given, and
/// `beside` names what else goes into the tank.
pub fn of_nutrient<'a>(
    material: Material,
    how: Option<Given>,
    injector: bool,
    beside: impl Iterator<Item = &'a str>,
) -> Vec<Caution> {
    let spray = Given::Apart(Method::Spray);
    let sprayed = how.map_or_else(|| usual_rates(material, spray).next().is_some(), |how| how == spray);
    let mut all = of_tank(injector, beside);
    all.extend(cautions(Work::Salt));
    all.extend(cautions(Work::LeafSpray).iter().filter(|_| sprayed));
    all
}

/// All cautions of a liquid feed, the most important first; `beside` names what else goes into the tank.
pub fn of_feed<'a>(injector: bool, beside: impl Iterator<Item = &'a str>) -> Vec<Caution> {
    of_tank(injector, beside)
}

/// All cautions of a topdress.
pub fn of_topdress() -> Vec<Caution> {
    cautions(Work::Fertilizer).to_vec()
}

/// The names of what else goes into a tank.
pub(super) fn names<'a>(beside: &'a [(&'static str, Carries)]) -> impl Iterator<Item = &'a str> {
    beside.iter().map(|(name, _)| *name)
}

/// What goes with a tank of fertilizer: an acid in it comes first.
fn of_tank<'a>(injector: bool, mut beside: impl Iterator<Item = &'a str>) -> Vec<Caution> {
    let acid = beside.any(is_acid);
    let mut all = if acid { cautions(Work::LimeOrAcid).to_vec() } else { Vec::new() };
    all.extend(cautions(Work::Fertilizer));
    all.extend(cautions(Work::Injector).iter().filter(|_| injector));
    all
}

/// Shown wherever keep-out is shown: one laptop may not know every treatment.
pub const KEEP_OUT: &str = "by this log; follow the posted sign";

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
                for id in ["label", "applicator", "rei", "clothing", "gloves", "strength", "record"] {
                    assert!(said.iter().any(|c| c.id == id), "{ingredient:?} {method:?} lacks {id}");
                }
                assert!(said.iter().all(|c| c.id != "rei" || !c.text.contains("hours")), "no interval is given");
            }
        }
    }
}
