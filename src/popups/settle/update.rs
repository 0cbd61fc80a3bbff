//! What the keys do where something is settled.

use super::choices::{Choices, Done};
use super::sides::Sides;
use super::{State, Way};
use crate::controls::page;
use crate::input::Key;
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response, go};

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Do(Command::Back) => return Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(Command::PageDown) => state.turn(true, model),
        Msg::Do(Command::PageUp) => state.turn(false, model),
        Msg::Do(Command::Accept) => return Some(accept(state, model)),
        Msg::Do(Command::FieldAfter) => step(state, true, model),
        Msg::Do(Command::FieldBefore) => step(state, false, model),
        Msg::Type(key) => return typed(state, model, key),
        Msg::Paste(text) => {
            if let Way::Sides(sides) = &mut state.way {
                sides.paste(text);
            }
        }
        _ => return None,
    }
    Some(Vec::new())
}

fn step(state: &mut State, onward: bool, model: &Model) {
    match &mut state.way {
        Way::Sides(sides) => sides.step(onward),
        Way::Choices(choices) => {
            let command = if onward { Command::Down } else { Command::Up };
            choices.list.step(command, choices.all.len(), page(model.size.1));
            choices.fault = None;
        }
    }
}

/// A digit chooses a side, unless a value is being typed; every other character begins one.
fn typed(state: &mut State, model: &Model, key: &Key) -> Response {
    match &mut state.way {
        Way::Sides(sides) => {
            let side = key.digit().filter(|_| !sides.is_typing()).and_then(|digit| usize::from(digit).checked_sub(1));
            if side.is_some_and(|side| sides.choose(side, model)) {
                return Some(Vec::new());
            }
            sides.typed(key);
            Some(Vec::new())
        }
        Way::Choices(choices) => choices.mark(key.typed()?).then(Vec::new),
    }
}

fn accept(state: &mut State, model: &mut Model) -> Vec<Effect> {
    match &mut state.way {
        Way::Sides(sides) => write(sides, model),
        Way::Choices(choices) if choices.all.is_empty() => {
            state.turn(true, model);
            Vec::new()
        }
        Way::Choices(choices) => act(choices, model),
    }
}

/// Writes the line that is to hold; the form goes on to the next once the file has it.
fn write(sides: &mut Sides, model: &Model) -> Vec<Effect> {
    match sides.lines(model) {
        Ok(lines) => vec![Effect::KeepPlan(lines)],
        Err(faults) => {
            sides.blame(faults);
            Vec::new()
        }
    }
}

fn act(choices: &mut Choices, model: &mut Model) -> Vec<Effect> {
    match choices.act(model) {
        Done::Nothing => Vec::new(),
        Done::Goes(form) => vec![Effect::Go(Go::Back), form],
        Done::Written(effect) => {
            let next = Effect::popup(go::Popup::Settle);
            let more = !model.unsettled().is_empty();
            std::iter::once(effect).chain([Effect::Go(Go::Back)]).chain(more.then_some(next)).collect()
        }
    }
}
