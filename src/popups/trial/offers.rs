//! What the form of a trial fills in by itself, each with its reason, until something else is typed there.

use super::rows::F;
use super::{State, propose, read};
use crate::model::Model;
use crate::record::{Term, Trial, parse};
use crate::terms::Design;
use crate::units::{Length, Quantity};

/// A suggestion: the field, its text, the reason.
type Offer = (F, String, &'static str);

/// Fills in what is not filled in by hand.
pub(super) fn offer(state: &mut State, model: &Model) {
    state.fields.show(|fields, name| match name {
        F::RateUnit => are_rates(&fields.text(F::Treatments)),
        F::ControlPlots => !fields.text(F::Control).trim().is_empty(),
        _ => true,
    });
    let first = [
        (F::Code, free_code(model), "the next free"),
        (F::RateUnit, "g per pot".to_owned(), "the default"),
        (F::Main, "height".to_owned(), "the default"),
        (F::Guard, "yes".to_owned(), "the default"),
        (F::SharedFeed, "no".to_owned(), "the default"),
        (F::From, parse::show_day(model.day), "today"),
    ];
    apply(state, first.to_vec());
    apply(state, lot(state, model));
    apply(state, spread(state, model));
    apply(state, control(state));
    apply(state, differ(state, model));
    let (design, _) = propose::proposed(state, state.heights.as_ref());
    apply(state, vec![(F::Design, design.code().to_owned(), "proposed")]);
    apply(state, blocks(state, model));
}

/// Sets the fields that were not filled in by hand.
fn apply(state: &mut State, offers: Vec<Offer>) {
    for (name, text, why) in offers {
        if state.own.contains(&name) {
            continue;
        }
        if let Some(row) = state.fields.row_mut(name)
            && row.text() != text
        {
            row.offer(&text);
        }
        state.offered.insert(name, why.to_owned());
    }
}

/// True where every treatment is a number.
fn are_rates(text: &str) -> bool {
    let mut parts = text.split([',', ';']).map(str::trim).filter(|part| !part.is_empty()).peekable();
    parts.peek().is_some() && parts.all(|part| part.parse::<f64>().is_ok())
}

fn free_code(model: &Model) -> String {
    let taken = |code: &String| model.season.trial(code).is_some();
    (1..=999_u32).map(|n| format!("T{n}")).find(|code| !taken(code)).unwrap_or_default()
}

/// The lot on the first bench.
fn lot(state: &State, model: &Model) -> Vec<Offer> {
    let benches = read::benches(state, model).unwrap_or_default();
    let standing = benches.first().and_then(|stand| model.season.standing(&stand.bench, model.day));
    standing.map(|standing| (F::Lot, standing.lot, "it stands there")).into_iter().collect()
}

/// The spread of the grower's own heights.
fn spread(state: &State, model: &Model) -> Vec<Offer> {
    let own = state.heights.as_ref().and_then(|own| own.gradient.within);
    let own = own.filter(|_| read::is_length(read::main(state)) && read::whole(state, F::Pots, 1).is_ok());
    let text = own.map(|cm| {
        let shown = Length::from_cm(cm).in_system(model.system());
        format!("{shown:.2}")
    });
    vec![(F::Spread, text.unwrap_or_default(), if own.is_some() { "your own heights" } else { "" })]
}

/// A rate of nothing is what the others are compared with.
fn control(state: &State) -> Vec<Offer> {
    let Ok(treatments) = read::treatments(state) else { return Vec::new() };
    let zero = treatments.rates.and_then(|rates| rates.iter().position(|rate| rate.abs() < f64::EPSILON));
    let name = zero.and_then(|at| treatments.names.get(at).cloned());
    vec![(F::Control, name.unwrap_or_default(), "rate 0")]
}

fn differ(state: &State, model: &Model) -> Vec<Offer> {
    let Ok(benches) = read::benches(state, model) else { return vec![(F::Differ, "unknown".to_owned(), "")] };
    let mut houses: Vec<&String> = benches.iter().map(|stand| &stand.house).collect();
    houses.dedup();
    let found = state.heights.as_ref().is_some_and(|own| own.gradient.is_found());
    let (code, why) = match (houses.len() > 1, benches.len() > 1 && found) {
        (true, _) => ("houses", "two houses"),
        (_, true) => ("benches", "your own heights"),
        _ => ("unknown", ""),
    };
    vec![(F::Differ, code.to_owned(), why)]
}

/// As many blocks as show what matters, where the places hold them; else as many as they hold.
fn blocks(state: &State, model: &Model) -> Vec<Offer> {
    if propose::design(state) == Some(Design::LatinSquare) {
        let many = read::treatments(state).map(|t| t.names.len()).unwrap_or_default();
        return vec![(F::Blocks, many.to_string(), "a square")];
    }
    let room = propose::room(state, model);
    let enough = state.how_many.rows.as_ref().map(|(_, offered)| *offered);
    let (many, why) = match enough {
        Some(enough) if enough <= room => (enough, "shows what matters"),
        _ => (room, "what the places hold"),
    };
    vec![(F::Blocks, if many == 0 { String::new() } else { many.to_string() }, why)]
}

/// Fills the form with a trial that is changed.
pub(super) fn fill(state: &mut State, trial: &Trial, model: &Model) {
    let system = model.system();
    let main = trial.reads.first().copied();
    let matters = trial.matters.map(|value| match main {
        Some(main) if read::is_length(main) => Length::from_cm(value).show(system),
        _ => value.to_string(),
    });
    let also: Vec<&str> = trial.reads.iter().skip(1).map(|reading| reading.code()).collect();
    let all = [
        (F::Question, Some(trial.question.clone())),
        (F::Main, main.map(|main| main.code().to_owned())),
        (F::Also, Some(also.join(", "))),
        (F::Matters, matters),
        (F::From, Some(parse::show_day(trial.from))),
        (F::Every, trial.every_days.map(|days| days.to_string())),
        (F::Until, trial.until.map(parse::show_day)),
        (F::Ended, trial.ended_because.clone()),
    ];
    for (name, text) in all {
        if let Some((row, text)) = state.fields.row_mut(name).zip(text) {
            row.offer(&text);
        }
        state.own.insert(name);
    }
}
