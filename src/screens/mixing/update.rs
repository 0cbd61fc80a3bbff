//! Message handling of the Mixing page.

use super::State;
use super::work::Writes;
use crate::keys::Command;
use crate::model::{Ask, DraftKey, Effect, Go, MixTab, Model, Msg, Response, go};
use crate::record::{Entry, KindName, Place};

/// Handles a message.
pub fn update(state: &mut State, shared: &mut Model, msg: &Msg) -> Response {
    let effects = match msg {
        Msg::Type(key) => {
            let name = state.marked().map(|s| s.name);
            if let Some(field) = name.and_then(|n| state.fields.get_mut(n)) {
                field.key(key);
                state.written = false;
            }
            Some(Vec::new())
        }
        Msg::Paste(text) => {
            let name = state.marked().map(|s| s.name);
            if let Some(field) = name.and_then(|n| state.fields.get_mut(n)) {
                field.paste(text);
                state.written = false;
            }
            Some(Vec::new())
        }
        Msg::Do(command) => act(state, shared, *command),
        Msg::NewDay | Msg::Changed | Msg::Quiet | Msg::Ask(_) => None,
    };
    state.renew(shared);
    state.keep(shared);
    effects
}

fn act(state: &mut State, shared: &mut Model, command: Command) -> Response {
    let last = state.shown().len().saturating_sub(1);
    match command {
        Command::FieldAfter => state.at = if state.at >= last { 0 } else { state.at.saturating_add(1) },
        Command::FieldBefore => state.at = state.at.checked_sub(1).unwrap_or(last),
        Command::PageDown => {
            let (height, rows) = super::view::answer_size(state, shared);
            let most = rows.saturating_sub(height);
            state.top = state.top.saturating_add(height.saturating_sub(1).max(1)).min(most);
        }
        Command::PageUp => {
            let (height, _) = super::view::answer_size(state, shared);
            state.top = state.top.saturating_sub(height.saturating_sub(1).max(1));
        }
        Command::Tab(number) => {
            if let Some(tab) = MixTab::ALL.get(usize::from(number)) {
                (state.tab, state.top, state.asked, state.written) = (*tab, 0, false, false);
                state.renew(shared);
                state.at = state.first_open();
            }
        }
        Command::Back => {
            state.keep(shared);
            return Some(vec![Effect::Go(Go::Back)]);
        }
        Command::Accept => return Some(accept(state, shared)),
        _ => return None,
    }
    Some(Vec::new())
}

/// Records the work, or focuses the first missing or invalid field.
fn accept(state: &mut State, shared: &mut Model) -> Vec<Effect> {
    state.asked = true;
    let shown = state.shown();
    if let Some(at) = shown.iter().position(|spec| state.fault(*spec).is_some()) {
        state.at = at;
        shared.trouble("Not written: see the field marked.");
        return Vec::new();
    }
    if state.written {
        shared.say("It is written already. Change something to write it again.");
        return Vec::new();
    }
    let Some(writes) = state.work.writes.clone() else { return Vec::new() };
    let benches = state.work.benches.clone();
    let Some(first) = benches.first() else {
        state.at = shown.iter().position(|spec| spec.name == "benches").unwrap_or(0);
        shared.trouble("Not written: type the benches it is for.");
        return Vec::new();
    };
    match writes {
        Writes::Form(kind, fill) => {
            let place = Place::Bench(first.clone());
            forget_form(shared, kind, &place, &fill);
            let ask = Ask { fill, ..Ask::new(kind, place).on(benches) };
            vec![Effect::popup(go::Popup::Form(Box::new(ask)))]
        }
        Writes::Kind(kind) => {
            let made: Vec<Entry> =
                benches.iter().map(|b| shared.entry(Place::Bench(b.clone()), kind.clone(), None)).collect();
            write(state, shared, made)
        }
    }
}

/// The form opens with the present mix, so older drafts of these fields are removed.
fn forget_form(shared: &mut Model, kind: KindName, place: &Place, fill: &[(&'static str, String)]) {
    for field in fill.iter().map(|(field, _)| *field).chain(["place", "benches"]) {
        shared.drafts.forget(&DraftKey::Form { kind, place: place.clone(), answers: None, strikes: None, field });
    }
}

/// Records entries in one go.
fn write(state: &mut State, shared: &mut Model, made: Vec<Entry>) -> Vec<Effect> {
    let effects = shared.record_or_say(made);
    if !effects.is_empty() {
        (state.asked, state.written) = (false, true);
    }
    effects
}
