//! The forms that answer a warning: what its rule names as an answer, as a form to be opened and filled in.
//!
//! A strength is never filled in: its field stays empty, and the form shows what is published next to it. Nor is what only the
//! grower knows (hours closed, what was counted).
#![deny(clippy::wildcard_enum_match_arm)]

use super::{FormRequest, Model};
use crate::crop::feed::Given;
use crate::record::{KindName, Pinch, Place, Term, Value, typed};
use crate::review::{Figures, Job, figures};
use crate::season::Season;
use crate::warnings::{Act, Remedy, Warning};

/// A form that answers a warning.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// What it is, in a few words.
    pub title: String,
    /// The form.
    pub ask: FormRequest,
}

/// The forms that answer a warning, the likeliest first. Empty where walking the benches answers it.
pub fn answers(warning: &Warning, season: &Season) -> Vec<Answer> {
    let benches = if matches!(warning.place, Place::Bench(_)) { Vec::new() } else { warning.benches.clone() };
    let forms = warning.name.rule().answers.iter().map(|answer| {
        let (kind, fill) = form(&answer.remedy, warning.lot.as_deref(), season);
        let ask = FormRequest::new(kind, warning.place.clone()).on(benches.clone());
        Answer { title: answer.title.to_owned(), ask: FormRequest { answers: Some(warning.name), fill, ..ask } }
    });
    forms.collect()
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
                        benches.push(code.to_string());
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

/// The form that logs a listed job, for the benches that do not have to wait, filled in with what was logged last; `None` where
/// the tick alone says what was done.
pub fn job_form(job: &Job, model: &Model) -> Option<FormRequest> {
    let (season, on) = (&model.season, model.day);
    let remedies = || job.names.iter().flat_map(|name| name.rule().answers).map(|answer| answer.remedy);
    let remedy = match job.act {
        Act::Water | Act::Leach => Some(Remedy::Entry(KindName::Watered)),
        Act::Nutrient => remedies().find(|remedy| remedy.nutrient_apart().is_some()),
        Act::Feed => Some(Remedy::Feed),
        Act::Spray => remedies().find(|remedy| {
            remedy.nutrient_apart().is_some() || matches!(remedy, Remedy::GrowthRegulator | Remedy::Spray { .. })
        }),
        Act::Work => remedies().find(|remedy| *remedy == Remedy::Pinch),
        Act::Check | Act::Hold(_) => None,
    }?;
    let first = job.benches.first()?;
    let lot = season.standing(first, on).map(|standing| standing.lot);
    let (kind, mut fill) = form(&remedy, lot.as_deref(), season);
    let known = figures(season, remedy.nutrient_apart(), (&job.benches, on));
    // How much washes the salts out is not what a pot got last.
    let per_pot = known.ml_per_pot.filter(|_| job.act != Act::Leach);
    let numbers = if kind == KindName::Fed {
        let Figures { n_ppm, mg_ppm, mo_ppm, .. } = known;
        vec![("n_ppm", job.planned_n.or(n_ppm)), ("mg_ppm", mg_ppm), ("mo_ppm", mo_ppm), ("ml_per_pot", per_pot)]
    } else if kind == KindName::Nutrient {
        vec![("ppm", known.ppm), ("ml_per_pot", per_pot)]
    } else if kind == KindName::Watered {
        vec![("ml_per_pot", per_pot)]
    } else {
        Vec::new()
    };
    let table = kind.table();
    fill.extend(numbers.into_iter().filter_map(|(name, number)| {
        let text = typed::rounded(table.field(name)?, &Value::Number(number?), model.system());
        Some((name, text))
    }));
    let ask = FormRequest::new(kind, Place::Bench(first.as_str().into())).on(job.benches.clone());
    Some(FormRequest { answers: job.names.first().copied(), fill, ..ask })
}

/// Fields of a form with what is typed into them.
type Fill = Vec<(&'static str, String)>;

/// The kind of entry that writes a remedy down, and what its form is filled in with.
fn form(remedy: &Remedy, lot: Option<&str>, season: &Season) -> (KindName, Fill) {
    match *remedy {
        Remedy::Entry(kind) => (kind, Fill::new()),
        Remedy::Feed => (KindName::Fed, Fill::new()),
        Remedy::GrowthRegulator => (KindName::GrowthRegulator, Fill::new()),
        Remedy::Pinch => (KindName::Pinched, pinch(lot, season)),
        Remedy::Count(pest) => (KindName::Pests, vec![("pest", pest.code().to_owned())]),
        Remedy::Spray { against } => (KindName::Sprayed, vec![("against", against.to_owned())]),
        Remedy::LastNight(kind) => (kind, vec![("night", "-1".to_owned())]),
        Remedy::Nutrient { given: Given::InFeed, .. } => (KindName::Fed, Fill::new()),
        Remedy::Nutrient { material, given: Given::Apart(method) } => {
            let fill = vec![("material", material.code().to_owned()), ("how", method.code().to_owned())];
            (KindName::Nutrient, fill)
        }
    }
}

/// The pinch as the plan has it.
fn pinch(lot: Option<&str>, season: &Season) -> Fill {
    let lot = lot.and_then(|code| season.lot(code));
    match lot.map(|l| l.pinch) {
        Some(planned @ (Pinch::Soft | Pinch::Hard)) => vec![("how", planned.code().to_owned())],
        Some(Pinch::None) | None => Fill::new(),
    }
}
