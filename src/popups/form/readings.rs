//! What a reading says as it is typed into a form: whether enough plants were checked, how well a mean is known, what the root
//! zone and the water are like.

use super::{BelowLine, State, Tone, place};
use crate::model::Model;
use crate::record::{KindName, PestName, Term, TestMethod, Value, typed};
use crate::report::{readings, sampling};

/// The lines below the fields.
pub(super) fn lines(state: &State, model: &Model) -> Vec<BelowLine> {
    match state.ask.kind {
        KindName::Pests => pests(state, model),
        KindName::Height => heights(state, model),
        KindName::RootZone => root_zone(state, model),
        KindName::FeedCheck => water(state, model),
        KindName::Watered => water_use(state, model).map(reference).into_iter().collect(),
        _ => Vec::new(),
    }
}

const fn sum(text: String) -> BelowLine {
    (Tone::Sum, text)
}

const fn reference(text: String) -> BelowLine {
    (Tone::Reference, text)
}

/// A value of the kind's own fields; `None` while it is not typed, or not understood.
fn value(state: &State, model: &Model, name: &str) -> Option<Value> {
    let row = state.row(name)?;
    typed::read(row.name.field()?, &row.text(), model.system()).ok()?
}

fn count(state: &State, model: &Model, name: &str) -> Option<u32> {
    match value(state, model, name)? {
        Value::Count(count) => Some(count),
        _ => None,
    }
}

/// Enough plants or not, while they are counted; the stop lines are those of whitefly.
fn pests(state: &State, model: &Model) -> Vec<BelowLine> {
    let (checked, infested) = (count(state, model, "inspected"), count(state, model, "infested"));
    let whitefly = PestName::from_code(&state.text("pest")) == Some(PestName::Whitefly);
    let stop = checked.zip(infested).filter(|_| whitefly);
    let mut lines = Vec::new();
    if let Some(text) = stop.and_then(|(checked, infested)| sampling::stop(&model.limits, checked, infested)) {
        lines.push(sum(format!("{text}. {}", sampling::stop_basis(&model.limits))));
    }
    // Nothing of plants where cards or wedges are counted.
    let by_plants = ["cards", "count", "days", "larvae"].iter().all(|name| state.text(name).is_empty());
    lines.extend(sampling::to_find(checked).filter(|_| by_plants).map(reference));
    lines
}

/// How well the mean is known, and how many plants would do; before anything is typed, by the spread of the last time.
fn heights(state: &State, model: &Model) -> Vec<BelowLine> {
    let typed = match value(state, model, "cm") {
        Some(Value::List(all)) => all.iter().filter_map(number).collect(),
        _ => Vec::new(),
    };
    let said = if typed.is_empty() {
        let bench = place::benches(state, model).into_iter().next();
        bench.and_then(|b| sampling::to_measure(&model.limits, (&model.season, &b, model.day), model.system()))
    } else {
        sampling::heights(&model.limits, &typed, model.system())
    };
    said.map(sum).into_iter().collect()
}

const fn number(value: &Value) -> Option<f64> {
    match value {
        Value::Number(number) => Some(*number),
        _ => None,
    }
}

fn root_zone(state: &State, model: &Model) -> Vec<BelowLine> {
    let ec = TestMethod::from_code(&state.text("method")).zip(state.number(model, "ec_ms_cm"));
    let salts = ec.and_then(|(method, ec)| readings::salts(method, ec)).map(sum);
    salts.into_iter().chain([reference(readings::ph_target())]).collect()
}

/// What the alkalinity of the water amounts to, and what it asks for where it is high.
fn water(state: &State, model: &Model) -> Vec<BelowLine> {
    let Some(ppm) = state.number(model, "alkalinity_ppm") else { return Vec::new() };
    let high = readings::alkalinity_high(&model.limits, ppm).map(|text| (Tone::Alarm, format!("! {text}")));
    high.into_iter().chain(readings::alkalinity(ppm).map(sum)).collect()
}

/// What a pot of the first bench uses.
fn water_use(state: &State, model: &Model) -> Option<String> {
    let bench = place::benches(state, model).into_iter().next()?;
    let lot = model.season.lot(&model.season.standing(&bench, model.day)?.lot)?;
    let age = model.day.signed_duration_since(lot.planted).num_days();
    readings::water_use(lot.rim_cm?, age, model.system())
}
