//! Key handling of a form.

use super::row::{About, Input, beside};
use super::{State, save};
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response};

/// An Enter within this time after the form opened, with nothing typed since, is the held key that opened it; milliseconds.
const HELD: u64 = 200;

/// Handles a message.
pub fn update(state: &mut State, shared: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => {
            let changed = state.rows.get_mut(state.at).is_some_and(|row| row.key(key));
            if changed {
                changed_at(state);
            }
        }
        Msg::Paste(text) => {
            if let Some(row) = state.rows.get_mut(state.at)
                && let Input::Text(field) = &mut row.input
            {
                field.paste(text);
                changed_at(state);
            }
        }
        Msg::Do(Command::FieldAfter) => go(state, true),
        Msg::Do(Command::FieldBefore) => go(state, false),
        Msg::Do(Command::Back) => {
            state.keep(shared);
            return Some(vec![Effect::Go(Go::Back)]);
        }
        Msg::Do(Command::Accept) if state.held.is_some_and(|since| shared.now.ms.saturating_sub(since) < HELD) => {
            // Restarted at each repeat, so that a long-held key saves nothing either.
            state.held = Some(shared.now.ms);
        }
        Msg::Do(Command::Accept) => return Some(accept(state, shared)),
        _ => return None,
    }
    Some(Vec::new())
}

/// A field was changed: clears its error until the next validation.
fn changed_at(state: &mut State) {
    state.touched = true;
    // Typing means that the Enter that opened the form was released.
    state.held = None;
    state.told = None;
    let Some(row) = state.rows.get(state.at) else { return };
    let (name, about) = (row.name, row.about);
    state.faults.retain(|f| f.field != name && !(about == About::Where && is_place(&f.field)));
    if about == About::Own("how") {
        state.fog_takes_the_house();
    }
}

fn is_place(field: &str) -> bool {
    matches!(field, "bench" | "house" | "lot" | "benches" | "except")
}

/// Moves the focus to the next or previous field, wrapping at the ends.
fn go(state: &mut State, onward: bool) {
    let shown: Vec<usize> = state.shown().map(|(at, _)| at).collect();
    state.at = beside(&shown, state.at, onward);
}

/// Saves, or focuses the first invalid field.
fn accept(state: &mut State, shared: &mut Model) -> Vec<Effect> {
    match save::save(state, shared) {
        Ok(effect) => {
            state.forget(shared);
            vec![effect, Effect::Go(Go::Back)]
        }
        Err(faults) => {
            state.faults = faults;
            let wrong = |name: &str| state.faults.iter().any(|f| f.field == name);
            let first = state.shown().find(|(_, row)| {
                wrong(row.name)
                    || (row.about == About::Where
                        && state.faults.iter().any(|f| is_place(&f.field) && !named(state, &f.field)))
            });
            if let Some(at) = first.map(|(at, _)| at) {
                state.at = at;
            }
            Vec::new()
        }
    }
}

/// True where a field of this name is shown.
fn named(state: &State, field: &str) -> bool {
    state.shown().any(|(_, row)| row.name == field)
}
