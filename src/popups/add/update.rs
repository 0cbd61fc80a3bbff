//! What the list does with keys.

use super::State;
use crate::keys::Command;
use crate::model::{Effect, Msg, To};

/// Takes what it is told.
pub fn update(state: &mut State, msg: &Msg) -> Vec<Effect> {
    let last = state.len().saturating_sub(1);
    match msg {
        Msg::Type(key) => return state.named(key).map(|at| state.open(at)).unwrap_or_default(),
        Msg::Do(Command::Down) => state.at = state.at.saturating_add(1).min(last),
        Msg::Do(Command::Up) => state.at = state.at.saturating_sub(1),
        Msg::Do(Command::Accept) => return state.open(state.at),
        Msg::Do(Command::Back) => return vec![Effect::Go(To::Back)],
        _ => {}
    }
    Vec::new()
}
