//! The Share page: this laptop's name, the folders and hubs between the laptops, what is known of the other laptops.

mod view;

pub use view::view;

use crate::controls::List;
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response};

/// How far it is scrolled.
#[derive(Debug, Clone, Copy, Default)]
pub struct State {
    list: List,
}

/// Rows of the frame around the page.
const FRAME: u16 = 4;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let room = usize::from(model.size.1.saturating_sub(FRAME)).max(1);
    let last = view::lines(model, usize::from(model.size.0)).len().saturating_sub(room);
    state.list.clamp_top(last);
    let Msg::Do(command) = msg else { return None };
    Some(match command {
        Command::Back => vec![Effect::Go(Go::Back)],
        Command::Accept if model.sharing.is_none() => {
            model.say("This season is not shared: there is nothing to exchange with.");
            Vec::new()
        }
        Command::Accept => vec![Effect::Share],
        other => return state.list.scroll(*other, last, room).then(Vec::new),
    })
}
