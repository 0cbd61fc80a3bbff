//! What keys do in the form of a trial.

use super::rows::F;
use super::{State, save, view};
use crate::controls::List;
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::trials::seed_of;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) if !state.shows_layout => {
            if let Some(name) = state.fields.key(key) {
                typed(state, model, name);
            }
        }
        Msg::Paste(text) if !state.shows_layout => {
            if let Some(name) = state.fields.paste(text) {
                typed(state, model, name);
            }
        }
        Msg::Type(_) | Msg::Paste(_) => {}
        Msg::Do(command @ (Command::PageDown | Command::PageUp)) => {
            let (room, lines) = view::words_size(state, model);
            state.words.scroll(*command, lines.saturating_sub(room), room.max(1));
        }
        Msg::Do(Command::FieldAfter | Command::FieldBefore) if state.shows_layout => {}
        Msg::Do(Command::FieldAfter) => go(state, model, true),
        Msg::Do(Command::FieldBefore) => go(state, model, false),
        Msg::Do(Command::DrawAgain) => draw_again(state, model),
        Msg::Do(Command::Back) if state.shows_layout => {
            (state.shows_layout, state.words) = (false, List::default());
        }
        Msg::Do(Command::Back) => {
            state.leave(model);
            return Some(vec![Effect::Go(Go::Back)]);
        }
        Msg::Do(Command::Accept) => return Some(accept(state, model)),
        _ => return None,
    }
    Some(Vec::new())
}

/// A field was edited: what was wrong with it is over, and what follows from it is offered once more.
fn typed(state: &mut State, model: &Model, name: F) {
    state.touched = true;
    state.own.insert(name);
    state.offered.remove(&name);
    state.stray.clear();
    state.fields.clear(|other| other == name);
    state.changed(model);
}

fn go(state: &mut State, model: &Model, onward: bool) {
    state.renew(model);
    state.fields.step(onward);
    state.words = List::default();
}

/// Another layout by another seed, counted; only while one is shown, and not of a trial that is laid.
fn draw_again(state: &mut State, model: &mut Model) {
    if !state.is_new() {
        model.say("The layout was drawn and is kept: another one is a new trial.");
        return;
    }
    state.renew(model);
    if state.laid.is_err() {
        model.say("No layout is drawn yet: fill in what is missing first.");
        return;
    }
    // One key, one draw: the ids of two events in one instant may agree in what the seed is made of.
    let before = state.seed.clone();
    state.seed = seed_of(model.now.id);
    if state.seed == before {
        let next = before.parse::<u32>().unwrap_or_default().wrapping_add(1) % 100_000_000;
        state.seed = format!("{next:08}");
    }
    state.drawn = state.drawn.saturating_add(1).min(1_000);
    state.changed(model);
    (state.shows_layout, state.words) = (true, List::default());
}

/// Shows the layout, or saves what is shown; where something is wrong it stands next to its field.
fn accept(state: &mut State, model: &mut Model) -> Vec<Effect> {
    state.renew(model);
    let lines = match save::lines(state, model) {
        Ok(lines) => lines,
        Err(faults) => {
            blame(state, faults);
            return Vec::new();
        }
    };
    if lines.is_empty() {
        model.say("No change.");
        return vec![Effect::Go(Go::Back)];
    }
    if state.is_new() && !state.shows_layout {
        (state.shows_layout, state.words) = (true, List::default());
        return Vec::new();
    }
    state.forget(model);
    vec![Effect::KeepPlan(lines)]
}

fn blame(state: &mut State, faults: Vec<(F, String)>) {
    state.shows_layout = false;
    state.fields.clear(|_| true);
    state.stray.clear();
    for (name, text) in faults {
        if state.fields.shows(name) {
            state.fields.blame(name, text);
        } else {
            state.stray.push(crate::record::FieldFault::whole(text));
        }
    }
    if let Some(first) = state.fields.first_fault() {
        state.fields.mark(first);
    }
}
