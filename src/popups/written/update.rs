//! What the list does with keys.

use super::{State, all};
use crate::keys::Command;
use crate::model::{Ask, Effect, Msg, Shared, To};
use crate::record::KindName;

/// Takes what it is told.
pub fn update(state: &mut State, shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
    let many = all(state, shared).len();
    let page = usize::from(shared.size.1.saturating_sub(8)).max(1);
    match msg {
        Msg::Do(Command::Down) => state.at = state.at.saturating_add(1),
        Msg::Do(Command::Up) => state.at = state.at.saturating_sub(1),
        Msg::Do(Command::PageDown) => state.at = state.at.saturating_add(page),
        Msg::Do(Command::PageUp) => state.at = state.at.saturating_sub(page),
        Msg::Do(Command::Back) => return vec![Effect::Go(To::Back)],
        Msg::Do(Command::Accept) => return strike(state, shared),
        _ => {}
    }
    state.at = state.at.min(many.saturating_sub(1));
    Vec::new()
}

/// The form that strikes the marked one out.
fn strike(state: &State, shared: &mut Shared) -> Vec<Effect> {
    let (ids, why) = {
        let all = all(state, shared);
        let Some(one) = all.get(state.at) else { return Vec::new() };
        let why = if one.struck_by.is_some() {
            "It is struck out already."
        } else if one.entry.name() == KindName::Strike {
            "A strike cannot be struck out: write the entry again instead."
        } else {
            ""
        };
        (vec![one.entry.id], why)
    };
    if !why.is_empty() {
        shared.say(why);
        return Vec::new();
    }
    Ask::strike(&ids, shared).map(|ask| Effect::Go(To::Form(Box::new(ask)))).into_iter().collect()
}
