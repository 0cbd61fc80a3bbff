//! Message handling of the Mixing page.

use super::State;
use super::work::Writes;
use crate::controls::List;
use crate::keys::Command;
use crate::model::{DraftKey, Effect, FormRequest, Go, MixTab, MixingField as F, Model, Msg, Response, go};
use crate::record::{Entry, KindName, Place};

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let effects = match msg {
        Msg::Type(key) => {
            state.written &= state.fields.key(key).is_none();
            Some(Vec::new())
        }
        Msg::Paste(text) => {
            state.written &= state.fields.paste(text).is_none();
            Some(Vec::new())
        }
        Msg::Do(command) => act(state, model, *command),
        Msg::NewDay | Msg::Changed | Msg::Quiet | Msg::Ask(_) | Msg::Found(_) => None,
    };
    state.renew(model);
    state.keep(model);
    effects
}

fn act(state: &mut State, model: &mut Model, command: Command) -> Response {
    match command {
        Command::FieldAfter => state.fields.step(true),
        Command::FieldBefore => state.fields.step(false),
        Command::PageDown | Command::PageUp => {
            let (height, rows) = super::view::answer_size(state, model);
            state.list.scroll(command, rows.saturating_sub(height), height.saturating_sub(1).max(1));
        }
        Command::Tab(number) => {
            if let Some(tab) = MixTab::ALL.get(usize::from(number)) {
                (state.tab, state.list, state.asked, state.written) = (*tab, List::default(), false, false);
                state.renew(model);
                state.mark_first_open();
            }
        }
        Command::Back => {
            state.keep(model);
            return Some(vec![Effect::Go(Go::Back)]);
        }
        Command::Accept => return Some(accept(state, model)),
        _ => return None,
    }
    Some(Vec::new())
}

/// Records the work, or focuses the first missing or invalid field.
fn accept(state: &mut State, model: &mut Model) -> Vec<Effect> {
    state.asked = true;
    state.blame(model.system());
    if let Some(first) = state.fields.first_fault() {
        state.fields.mark(first);
        model.trouble("Not logged: check the selected field.");
        return Vec::new();
    }
    if state.written {
        model.say("Already logged. Change a field to log it again.");
        return Vec::new();
    }
    let Some(writes) = state.work.writes.clone() else { return Vec::new() };
    let benches = state.work.benches.clone();
    let Some(first) = benches.first() else {
        state.fields.mark(F::Benches);
        model.trouble("Not logged: type the benches it is for.");
        return Vec::new();
    };
    match writes {
        Writes::Form(kind, fill) => {
            let place = Place::Bench(first.as_str().into());
            forget_form(model, kind, &place, &fill);
            let ask = FormRequest { fill, ..FormRequest::new(kind, place).on(benches) };
            vec![Effect::popup(go::Popup::Form(Box::new(ask)))]
        }
        Writes::Kind(kind) => {
            let made: Vec<Entry> =
                benches.iter().map(|b| model.entry(Place::Bench(b.as_str().into()), kind.clone(), None)).collect();
            write(state, model, made)
        }
    }
}

/// The form opens with the present mix, so older drafts of these fields are removed.
fn forget_form(model: &mut Model, kind: KindName, place: &Place, fill: &[(&'static str, String)]) {
    for field in fill.iter().map(|(field, _)| *field).chain(["place", "benches"]) {
        model.forget_draft(&DraftKey::Form { kind, place: place.clone(), answers: None, strikes: None, field });
    }
}

/// Records entries in one go.
fn write(state: &mut State, model: &mut Model, made: Vec<Entry>) -> Vec<Effect> {
    let effects = model.record_or_say(made);
    if !effects.is_empty() {
        (state.asked, state.written) = (false, true);
    }
    effects
}
