//! To be written.
use super::State;
use crate::keys::Command;
use crate::model::{Effect, Msg, Shared, To};

/// Takes what the page is told.
pub fn update(_state: &mut State, _shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
    match msg {
        Msg::Do(Command::Back) => vec![Effect::Go(To::Back)],
        _ => Vec::new(),
    }
}
