//! The usual cautions. They never override the product label or local rules, and say so.

/// What a caution goes with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Work {
    /// Mixing or putting on a growth regulator or a spray.
    Treatment,
    /// A treatment on colored bracts or beside released beneficials.
    LateTreatment,
    /// A fog.
    Fog,
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

/// The cautions for a kind of work, the weightiest first.
pub const fn cautions(work: Work) -> &'static [&'static str] {
    match work {
        Work::Treatment => &[
            "The product label and local rules decide; a licensed applicator does the work.",
            "Type the re-entry hours from the label: they run from the end of the application. The posted sign decides.",
            "Wear what the label says, gloves and long sleeves at least; mind the heat in it.",
            "Gloves off and hands washed before the keyboard.",
            "Mix only what today needs; fill part of the tank, add the product, fill up.",
        ],
        Work::LateTreatment => &[
            "Fewer products are allowed on colored bracts: residue and injury.",
            "Many sprays kill released beneficials for weeks: ask before mixing.",
        ],
        Work::Fog => {
            &["A fog closes the whole house. Nobody inside until it is vented and the label's hours are over."]
        }
        Work::LimeOrAcid => &[
            "Hydrated lime and acids burn skin and eyes: goggles, gloves, water at hand.",
            "Acid goes into water, never water into acid.",
        ],
        Work::Plants => {
            &["The milky sap irritates skin and eyes: wash it off.", "Lift trays with the legs, two to a heavy one."]
        }
        Work::SickPlants => {
            &["Clean hands and tools after sick plants; walk those benches last. Bag tissue at the bench."]
        }
        Work::Night => &[
            "At night: cords, lamps and wet floors. Power off before a hand is on a lamp.",
            "Nobody under the cloth while it closes.",
        ],
        Work::Visitors => &["On sale days keep visitors out of closed benches and off hoses and cords."],
    }
}

/// Said wherever keep-out is shown: what one laptop knows is not all.
pub const KEEP_OUT: &str = "as known here; the posted sign decides";
