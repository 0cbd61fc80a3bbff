//! What answers a warning: the forms to write down that it was done or looked at, with what they are filled in with.
//!
//! One table. Strengths are those in print that the mixing commands show; where prints disagree the field stays empty and the
//! form shows them. What only the grower knows (re-entry hours, what was counted) is never filled in.

use super::Ask;
use crate::crop::feed::Given;
use crate::mix::least_typed;
use crate::record::{KindName, Material, Method, Pinch, Place, Term};
use crate::season::Season;
use crate::warnings::{Warning, WarningName as N};

/// A form that answers a warning.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// What it is, in a few words.
    pub title: String,
    /// The form.
    pub ask: Ask,
}

/// A form before its place is known: title, kind, fields as typed.
type Row = (&'static str, KindName, Vec<(&'static str, String)>);

/// The forms that answer a warning, the likeliest first. Empty where walking the benches answers it.
pub fn answers(warning: &Warning, season: &Season) -> Vec<Answer> {
    let benches = if matches!(warning.place, Place::Bench(_)) { Vec::new() } else { warning.benches.clone() };
    let made = rows(warning, season).into_iter().map(|(title, kind, fill)| {
        let ask = Ask::new(kind, warning.place.clone()).on(benches.clone());
        Answer { title: title.to_owned(), ask: Ask { answers: Some(warning.name), fill, ..ask } }
    });
    made.collect()
}

/// The forms that answer one trouble: each once, for all its benches.
pub fn answers_of(warnings: &[Warning], season: &Season) -> Vec<Answer> {
    let mut all: Vec<Answer> = Vec::new();
    for warning in warnings {
        for answer in answers(warning, season) {
            let same = |a: &&mut Answer| a.ask.kind == answer.ask.kind && a.ask.fill == answer.ask.fill;
            match all.iter_mut().find(same) {
                None => {
                    let mut benches = answer.ask.benches.clone();
                    if let (Place::Bench(code), true) = (&warning.place, benches.is_empty()) {
                        benches.push(code.clone());
                    }
                    all.push(Answer { ask: answer.ask.on(benches), ..answer });
                }
                Some(known) => {
                    for bench in &warning.benches {
                        if !known.ask.benches.contains(bench) {
                            known.ask.benches.push(bench.clone());
                        }
                    }
                }
            }
        }
    }
    all
}

fn rows(warning: &Warning, season: &Season) -> Vec<Row> {
    match warning.name {
        N::MagnesiumDue | N::MagnesiumMissed | N::MolybdenumDue | N::MolybdenumMissed | N::CalciumDue => {
            extras(warning.name)
        }
        N::Unfed | N::SaltsHigh | N::SaltsLow | N::PhLow | N::PhHigh | N::RootZoneUntested | N::TaperFeed => {
            feed(warning.name)
        }
        N::PinchDue | N::PinchOverdue => vec![("pinched", KindName::Pinched, pinch(warning, season))],
        N::Whitefly
        | N::Thrips
        | N::FungusGnats
        | N::Mites
        | N::Mealybugs
        | N::PowderyMildew
        | N::GrayMold
        | N::Scab
        | N::Unscouted => pests(warning.name),
        N::TooTall | N::TooShort | N::FinishingTall | N::FinishingShort | N::Unmeasured => height(warning.name),
        _ => looked(warning.name),
    }
}

fn bare(title: &'static str, kind: KindName) -> Row {
    (title, kind, Vec::new())
}

/// A nutrient at the lowest strength in print, or without one where `ppm` is not to be filled in.
fn nutrient(title: &'static str, material: Material, how: Method, filled: bool) -> Row {
    let mut fill = vec![("material", material.code().to_owned()), ("how", how.code().to_owned())];
    fill.extend(least_typed(material, Given::Apart(how)).filter(|_| filled).map(|ppm| ("ppm", ppm)));
    (title, KindName::Nutrient, fill)
}

/// Feed that carries an element at the lowest strength in print for every watering.
fn in_feed(title: &'static str, salt: Material, field: &'static str) -> Row {
    (title, KindName::Fed, least_typed(salt, Given::InFeed).map(|ppm| (field, ppm)).into_iter().collect())
}

fn extras(name: N) -> Vec<Row> {
    match name {
        N::MagnesiumDue | N::MagnesiumMissed => {
            let mg = Material::MagnesiumSulfate;
            vec![
                nutrient("magnesium sulfate as a drench", mg, Method::Drench, true),
                in_feed("magnesium in the feed (three of four feeds)", mg, "mg_ppm"),
            ]
        }
        N::MolybdenumDue | N::MolybdenumMissed => {
            let mo = Material::SodiumMolybdate;
            vec![
                nutrient("molybdenum once, as a drench", mo, Method::Drench, true),
                nutrient("molybdenum once, as a spray (may injure leaves)", mo, Method::Spray, true),
                in_feed("molybdenum in the feed", mo, "mo_ppm"),
            ]
        }
        _ => {
            let ca = Material::CalciumChloride;
            vec![nutrient("calcium chloride spray", ca, Method::Spray, false)]
        }
    }
}

fn feed(name: N) -> Vec<Row> {
    let test = bare("root zone tested", KindName::RootZone);
    match name {
        N::Unfed => vec![bare("fed", KindName::Fed), bare("topdressed", KindName::Topdressed)],
        N::TaperFeed => vec![bare("fed, leaner", KindName::Fed)],
        N::SaltsLow => vec![test, bare("fed", KindName::Fed)],
        N::SaltsHigh => vec![test, bare("watered through", KindName::Watered)],
        _ => vec![test],
    }
}

/// The pinch as the plan has it.
fn pinch(warning: &Warning, season: &Season) -> Vec<(&'static str, String)> {
    let lot = warning.lot.as_deref().and_then(|code| season.lot(code));
    match lot.map(|l| l.pinch) {
        Some(planned @ (Pinch::Soft | Pinch::Hard)) => vec![("how", planned.code().to_owned())],
        _ => Vec::new(),
    }
}

fn height(name: N) -> Vec<Row> {
    let measured = bare("heights measured", KindName::Height);
    match name {
        N::TooTall | N::FinishingTall => {
            vec![measured, bare("growth regulator given", KindName::GrowthRegulator)]
        }
        _ => vec![measured],
    }
}

fn counted(title: &'static str, pest: &str) -> Row {
    (title, KindName::Pests, vec![("pest", pest.to_owned())])
}

fn treated(title: &'static str, against: &str) -> Row {
    (title, KindName::Sprayed, vec![("against", against.to_owned())])
}

fn pests(name: N) -> Vec<Row> {
    let released = bare("beneficials released", KindName::Released);
    match name {
        N::Whitefly => vec![treated("sprayed", "whitefly"), released, counted("counted again", "whitefly")],
        N::Thrips => vec![treated("sprayed", "thrips"), released, counted("cards counted again", "thrips")],
        N::FungusGnats => vec![released, treated("treated", "fungus gnats"), counted("counted again", "fungus-gnat")],
        N::Mites => vec![treated("sprayed", "mites"), released, counted("looked again", "mite")],
        N::Mealybugs => vec![treated("sprayed", "mealybugs"), counted("looked again", "mealybug")],
        N::PowderyMildew => vec![treated("sprayed", "powdery mildew"), bare("leaves looked at", KindName::Leaves)],
        N::GrayMold => vec![
            bare("leaves looked at", KindName::Leaves),
            treated("sprayed", "gray mold"),
            bare("pots thrown out", KindName::Losses),
        ],
        N::Scab => vec![bare("leaves looked at", KindName::Leaves), bare("pots thrown out", KindName::Losses)],
        _ => vec![counted("looked for whitefly", "whitefly")],
    }
}

fn looked(name: N) -> Vec<Row> {
    let roots = bare("roots looked at", KindName::Roots);
    let last_night = vec![("night", "-1".to_owned())];
    match name {
        N::WetBase | N::DryBase => vec![bare("water scored again", KindName::Water)],
        N::TooDry => vec![bare("watered", KindName::Watered)],
        N::RootsFailing | N::RootsDiseased | N::LossesRising => vec![roots, bare("pots thrown out", KindName::Losses)],
        N::StayingWet | N::WateredWet | N::WiltingWet | N::RootsBrowning | N::RootsUnchecked => vec![roots],
        N::NightLight => vec![bare("light read after dark", KindName::NightLight)],
        N::BlackoutMissed => vec![("last night written", KindName::Blackout, last_night)],
        N::LightsMissed => vec![("last night written", KindName::Lights, last_night)],
        N::ColorBehind | N::ColorAhead => vec![bare("bracts scored", KindName::Bracts)],
        N::HeatDelay | N::ColdNights => vec![bare("temperatures read", KindName::Climate)],
        N::MoldWeather => vec![bare("leaves looked at", KindName::Leaves), bare("humidity read", KindName::Climate)],
        N::GrowthRegulatorLate | N::GrowthRegulatorStrong => vec![bare("leaves looked at", KindName::Leaves)],
        N::ShortCount => vec![bare("counted", KindName::Counted)],
        _ => Vec::new(),
    }
}
