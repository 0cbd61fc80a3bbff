//! Key handling of a form.

use super::{State, is_place, product, save, treatment, view};
use crate::controls::List;
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::popups::fields::About;

/// An Enter within this time after the form opened, with nothing typed since, is the held key that opened it; milliseconds.
const HELD: u64 = 200;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => {
            if let Some(name) = state.fields.key(key) {
                changed(state, model, name);
            }
        }
        Msg::Paste(text) => {
            if let Some(name) = state.fields.paste(text) {
                changed(state, model, name);
            }
        }
        Msg::Do(Command::FieldAfter) => step(state, true),
        Msg::Do(Command::FieldBefore) => step(state, false),
        Msg::Do(command @ (Command::PageDown | Command::PageUp)) => {
            let (room, all) = view::words_size(state, model);
            state.words.scroll(*command, all.saturating_sub(room), room.max(1));
        }
        Msg::Do(Command::Back) => {
            state.leave(model);
            return Some(vec![Effect::Go(Go::Back)]);
        }
        Msg::Do(Command::Accept) if state.held.is_some_and(|since| model.now.ms.saturating_sub(since) < HELD) => {
            // Restarted at each repeat, so that a long-held key saves nothing either.
            state.held = Some(model.now.ms);
        }
        Msg::Do(Command::Accept) => return Some(accept(state, model)),
        _ => return None,
    }
    Some(Vec::new())
}

/// To the next field, or the one before; what is said of it stands above all other words.
fn step(state: &mut State, on: bool) {
    state.fields.step(on);
    state.words = List::default();
}

/// A field was changed: clears its error until the next validation.
fn changed(state: &mut State, model: &Model, name: About) {
    state.touched = true;
    state.words = List::default();
    // Typing means that the Enter that opened the form was released.
    state.held = None;
    state.notice = None;
    product::typed_by_hand(state, name);
    if product::is_product(name) {
        product::recall(state, model);
    }
    let place = name == About::Where;
    state.fields.clear(|other| other == name || (place && is_place(other.name())));
    state.stray.retain(|fault| !(place && is_place(&fault.field)));
    if name.name() == treatment::REI && state.number(model, treatment::REI).is_some_and(|hours| hours > 0.0) {
        // Another length was meant: a 0 after it is asked about again.
        state.zero_asked = false;
    }
    if name.name() == "how" {
        state.fog_takes_the_house();
    }
    state.show();
}

/// Saves, or goes to the first field that is wrong.
fn accept(state: &mut State, model: &mut Model) -> Vec<Effect> {
    match save::save(state, model) {
        Ok(effect) => {
            state.forget(model);
            vec![effect, Effect::Go(Go::Back)]
        }
        Err(faults) => {
            if treatment::zero(state, model).is_some() {
                state.set(treatment::REI, "");
                state.zero_asked = true;
            }
            state.words = List::default();
            state.doubted = faults.first().filter(|_| faults.len() == 1).map(|fault| fault.text.clone());
            state.blame(faults);
            Vec::new()
        }
    }
}
