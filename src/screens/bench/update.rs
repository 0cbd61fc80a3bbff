//! What the Bench page does.

use super::{State, charts, rows};
use crate::keys::Command;
use crate::model::{Effect, Go, MixingRequest, Model, Msg, Response, go};
use crate::record::Place;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    if matches!(msg, Msg::Changed | Msg::NewDay) {
        // A plan may have changed with it.
        state.drawn = None;
    }
    let response = act(state, model, msg);
    charts::prepare(state, model);
    response
}

fn act(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    if charts::update(state, model, msg) {
        return Some(Vec::new());
    }
    let height = usize::from(model.size.1.saturating_sub(4)).max(1);
    let longest = rows::columns(state, model, model.size.0).into_iter().map(|(_, lines)| lines.len()).max();
    let last = longest.unwrap_or(0).saturating_sub(height);
    let bench = state.bench.clone();
    match msg {
        Msg::Do(Command::BenchAfter) => turn(state, model, true),
        Msg::Do(Command::BenchBefore) => turn(state, model, false),
        Msg::Found(code) => state.turn(code, model),
        Msg::Do(Command::WalkHere) => return Some(vec![Effect::page(go::Page::Walk(Some(bench)))]),
        Msg::Do(Command::Note) => return Some(vec![Effect::popup(go::Popup::Note(Place::Bench(bench.into())))]),
        Msg::Do(Command::More) => return Some(vec![Effect::popup(go::Popup::More(bench))]),
        Msg::Do(Command::Add) => {
            return Some(vec![Effect::popup(go::Popup::Add(Place::Bench(bench.into()), Vec::new()))]);
        }
        Msg::Do(Command::Strikes) => return Some(vec![Effect::popup(go::Popup::Written(bench))]),
        Msg::Do(Command::Mix) => return Some(vec![Effect::page(go::Page::Mixing(MixingRequest::of(vec![bench])))]),
        Msg::Do(Command::PutOff) => return Some(put_off(&bench, model)),
        Msg::Do(Command::Back) => return Some(vec![Effect::Go(Go::Back)]),
        Msg::Ask(_) => return Some(vec![Effect::page(go::Page::Walk(Some(bench)))]),
        Msg::Do(command) => {
            return state.list.scroll(*command, last, height.saturating_sub(2)).then(Vec::new);
        }
        _ => {}
    }
    state.list.clamp_top(last);
    Some(Vec::new())
}

/// Asks which warning is postponed, until when and why.
fn put_off(bench: &str, model: &mut Model) -> Vec<Effect> {
    let standing = model.standing_warnings(bench);
    if standing.is_empty() {
        model.say("No warning here to postpone.");
        return Vec::new();
    }
    vec![Effect::popup(go::Popup::PutOff(standing))]
}

/// To the bench before or after in walking order.
fn turn(state: &mut State, model: &mut Model, onward: bool) {
    let benches = model.season.benches();
    let at = benches.iter().position(|b| b.bench == state.bench).unwrap_or(0);
    let to = if onward { at.checked_add(1) } else { at.checked_sub(1) };
    match to.and_then(|i| benches.get(i)).map(|b| b.bench.clone()) {
        Some(code) => state.turn(&code, model),
        None => model.say(if onward { "This is the last bench." } else { "This is the first bench." }),
    }
}
