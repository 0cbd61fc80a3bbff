//! The cautions of a form: those of the work it logs, and what else is typed into it calls for.

use super::State;
use crate::crop::feed::Given;
use crate::crop::growth_regulator::{Caution, Ingredient};
use crate::mix::cautions::{self, Work};
use crate::model::Model;
use crate::record::{How, KindName, LeafSign, Material, Method, Part, Term, Value, typed};
use crate::warnings::WarningName;
use std::iter::empty;

/// A score of the roots from which the plants count as sick: more than half of them brown.
const SICK_ROOTS: u8 = 3;

/// Words in the cause of a loss that say disease, as the beginnings of words.
const DISEASE: [&str; 13] = [
    "rot",
    "mold",
    "mildew",
    "botrytis",
    "pythium",
    "rhizoctonia",
    "phytophthora",
    "fusarium",
    "xanthomonas",
    "scab",
    "blight",
    "canker",
    "disease",
];

/// Every caution of the form as it is filled in, the most important first.
pub(super) fn of(state: &State, model: &Model) -> Vec<Caution> {
    match state.ask.kind {
        KindName::GrowthRegulator => growth_regulator(state, model),
        KindName::Nutrient => nutrient(state),
        KindName::Fed => cautions::of_feed(false, empty()),
        KindName::Topdressed => cautions::of_topdress(),
        _ => work(state).iter().flat_map(|work| cautions::cautions(*work)).copied().collect(),
    }
}

/// The kinds of work of all other forms.
fn work(state: &State) -> Vec<Work> {
    let sick = |sick: bool| sick.then_some(Work::SickPlants);
    match state.ask.kind {
        KindName::Sprayed => sprayed(state),
        KindName::FeedCheck => vec![Work::LimeOrAcid],
        KindName::RootZone => {
            let ph = matches!(state.ask.answers, Some(WarningName::PhLow | WarningName::PhHigh));
            ph.then_some(Work::LimeOrAcid).into_iter().collect()
        }
        KindName::Roots => {
            let brown = state.text("score").trim().parse::<u8>().is_ok_and(|score| score >= SICK_ROOTS);
            sick(brown || !state.text("signs").is_empty()).into_iter().chain([Work::Plants]).collect()
        }
        KindName::Losses => sick(names_disease(&state.text("cause"))).into_iter().chain([Work::Plants]).collect(),
        KindName::Leaves => {
            let signs = state.text("signs");
            let seen = signs.split(", ").filter_map(LeafSign::from_code).any(LeafSign::is_disease);
            sick(seen).into_iter().collect()
        }
        KindName::Pinched | KindName::Moved | KindName::Spaced | KindName::Height => vec![Work::Plants],
        KindName::Grade | KindName::Sold => vec![Work::Plants, Work::Visitors],
        KindName::Blackout => vec![Work::Night, Work::Heat],
        KindName::Lights | KindName::NightLight => vec![Work::Night],
        _ => Vec::new(),
    }
}

/// A fog closes the house; a spray may. Until the method is chosen it counts as a spray.
fn sprayed(state: &State) -> Vec<Work> {
    match How::from_code(&state.text("how")) {
        Some(How::Fog) => vec![Work::Fog, Work::Treatment, Work::LateTreatment, Work::Heat],
        Some(How::Drench) => vec![Work::Treatment, Work::Heat],
        Some(How::Spray) | None => vec![Work::Treatment, Work::Spraying, Work::LateTreatment, Work::Heat],
    }
}

fn growth_regulator(state: &State, model: &Model) -> Vec<Caution> {
    let ingredients: Vec<Option<Ingredient>> =
        parts(state, model).iter().map(|part| Ingredient::parse(&part.ai)).collect();
    let method = Method::from_code(&state.text("how")).unwrap_or(Method::Spray);
    cautions::of_growth_regulator(&ingredients, method)
}

fn nutrient(state: &State) -> Vec<Caution> {
    let how = Method::from_code(&state.text("how")).map(Given::Apart);
    match Material::from_code(&state.text("material")) {
        Some(material) => cautions::of_nutrient(material, how, false, empty()),
        None => [Work::Fertilizer, Work::Salt].into_iter().flat_map(cautions::cautions).copied().collect(),
    }
}

/// The ingredients typed, with their ppm; none while they are not understood.
pub(super) fn parts(state: &State, model: &Model) -> Vec<Part> {
    let row = state.row("parts");
    let typed = row.and_then(|row| typed::read(row.name.field()?, &row.text(), model.system()).ok().flatten());
    let Some(Value::List(parts)) = typed else { return Vec::new() };
    let each = parts.into_iter().filter_map(|value| match value {
        Value::Part(part) => Some(part),
        _ => None,
    });
    each.collect()
}

/// True where a cause names a disease, such as `root rot`.
fn names_disease(cause: &str) -> bool {
    let cause = cause.to_lowercase();
    cause.split(|c: char| !c.is_alphanumeric()).any(|word| DISEASE.iter().any(|begun| word.starts_with(begun)))
}

#[cfg(test)]
mod tests {
    use super::names_disease;

    #[test]
    fn a_cause_that_names_a_disease_is_known_by_its_words() {
        for cause in ["root rot", "Rotted at the base", "gray mold", "pythium?", "stem canker"] {
            assert!(names_disease(cause), "{cause}");
        }
        for cause in ["", "dropped", "carrot flies", "broken stems"] {
            assert!(!names_disease(cause), "{cause}");
        }
    }
}
