//! What is filled in, read: treatments, places, numbers; each fault with the field it belongs to.

use super::State;
use super::rows::F;
use crate::model::Model;
use crate::record::Term;
use crate::record::typed::Facing;
use crate::season::places::{self, Meant};
use crate::terms::TrialReading;
use crate::trials::{Differ, Stand};
use crate::units::{self, Length};
use chrono::NaiveDate;

/// What is wrong with a field.
pub(super) type Fault = (F, String);

/// Treatments by name, with their rates where all are numbers.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Treatments {
    pub(super) names: Vec<String>,
    pub(super) rates: Option<Vec<f64>>,
}

/// The treatments: rates in ascending order, or names as they are typed.
pub(super) fn treatments(state: &State) -> Result<Treatments, Fault> {
    let text = state.text(F::Treatments);
    let parts: Vec<&str> = text.split([',', ';']).map(str::trim).filter(|part| !part.is_empty()).collect();
    if !(2..=24).contains(&parts.len()) {
        return Err((F::Treatments, format!("has {}; give 2 to 24 with commas between them", parts.len())));
    }
    let numbers: Option<Vec<f64>> =
        parts.iter().map(|part| part.parse().ok().filter(|n: &f64| n.is_finite())).collect();
    let Some(mut rates) = numbers else {
        return Ok(Treatments { names: parts.into_iter().map(str::to_owned).collect(), rates: None });
    };
    rates.sort_by(f64::total_cmp);
    let unit = state.text(F::RateUnit);
    let unit = unit.split_whitespace().next().unwrap_or_default();
    let names = rates.iter().map(|rate| format!("{rate} {unit}").trim_end().to_owned()).collect();
    Ok(Treatments { names, rates: Some(rates) })
}

/// The benches in walking order, with their houses.
pub(super) fn benches(state: &State, model: &Model) -> Result<Vec<Stand>, Fault> {
    let codes = places::read(&model.season, &state.text(F::Benches), Meant::EveryBench);
    let codes = codes.map_err(|no| (F::Benches, no.to_string()))?;
    if codes.is_empty() {
        return Err((F::Benches, "is missing; give one such as M4, or a row such as M1-M8".to_owned()));
    }
    let of = |code: String| {
        let house = model.season.bench(&code).map(|bench| bench.house.clone()).unwrap_or_default();
        Stand { bench: code, house }
    };
    Ok(codes.into_iter().map(of).collect())
}

/// Rows and columns of places on each bench.
pub(super) fn grid(state: &State) -> Result<(u32, u32), Fault> {
    let text = state.text(F::Grid);
    let side = |part: &str| part.trim().parse::<u32>().ok().filter(|n| (1..=1_000).contains(n));
    let parts = text.split_once(['x', 'X', '*']);
    let read = parts.and_then(|(rows, columns)| Some((side(rows)?, side(columns)?)));
    read.ok_or_else(|| (F::Grid, "is not rows x columns; give such as 6x4".to_owned()))
}

/// A whole number above zero; where nothing is typed the one given.
pub(super) fn whole(state: &State, name: F, blank: usize) -> Result<usize, Fault> {
    let text = state.text(name);
    if text.trim().is_empty() {
        return Ok(blank);
    }
    let read = text.trim().parse::<usize>().ok().filter(|n| (1..=100_000).contains(n));
    read.ok_or_else(|| (name, format!("is {}; give a whole number such as 6", text.trim())))
}

/// Which way the places differ; `both` and `none` are about the design.
pub(super) fn differ(state: &State) -> Differ {
    match state.text(F::Differ).as_str() {
        "rows" => Differ::Rows,
        "columns" => Differ::Columns,
        "benches" => Differ::Benches,
        "houses" => Differ::Houses,
        _ => Differ::Unknown,
    }
}

/// The main reading.
pub(super) fn main(state: &State) -> TrialReading {
    TrialReading::from_code(&state.text(F::Main)).unwrap_or(TrialReading::Height)
}

/// What is read, the main reading first.
pub(super) fn reads(state: &State) -> Vec<TrialReading> {
    let main = main(state);
    let also = state.text(F::Also);
    let also = also.split(',').filter_map(|code| TrialReading::from_code(code.trim())).filter(|other| *other != main);
    std::iter::once(main).chain(also).collect()
}

/// True where the main reading is a length.
pub(super) fn is_length(reading: TrialReading) -> bool {
    matches!(reading, TrialReading::Height | TrialReading::BractWidth)
}

/// An amount in the unit the main reading is kept in: cm of a length; `None` where nothing is typed.
pub(super) fn amount(state: &State, model: &Model, name: F) -> Result<Option<f64>, Fault> {
    let text = state.text(name);
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let read = if is_length(main(state)) {
        units::parse::<Length>(text, model.system()).map(Length::cm).map_err(|said| said.to_string())
    } else {
        text.parse().map_err(|_no_number| format!("is {text}; give a number in the unit of the main reading"))
    };
    let value = read.map_err(|said| (name, said))?;
    if value > 0.0 { Ok(Some(value)) } else { Err((name, "is not above zero; give more".to_owned())) }
}

/// A day; `None` where nothing is typed.
pub(super) fn day(state: &State, model: &Model, name: F) -> Result<Option<NaiveDate>, Fault> {
    let text = state.text(name);
    if text.trim().is_empty() {
        return Ok(None);
    }
    model.day_reader().day(&text, Facing::Ahead).map(Some).map_err(|said| (name, said))
}
