//! What the Season page does.

use super::{Part, State};
use crate::keys::Command;
use crate::model::{Effect, Msg, Shared, To};
use crate::report::series;

/// Takes what the page is told.
pub fn update(state: &mut State, shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
    let page = usize::from(shared.size.1.saturating_sub(7)).max(1);
    let Msg::Do(command) = msg else { return Vec::new() };
    match command {
        Command::ViewAfter => *state = State { part: state.part.turned(true), top: 0 },
        Command::ViewBefore => *state = State { part: state.part.turned(false), top: 0 },
        Command::Down => state.top = state.top.saturating_add(1),
        Command::Up => state.top = state.top.saturating_sub(1),
        Command::PageDown => state.top = state.top.saturating_add(page),
        Command::PageUp => state.top = state.top.saturating_sub(page),
        Command::First => state.top = 0,
        Command::Last => state.top = usize::MAX,
        Command::Back => return vec![Effect::Go(To::Back)],
        _ => {}
    }
    state.top = state.top.min(last(state.part, shared));
    Vec::new()
}

/// The furthest a part may be scrolled: its last lot stays in sight.
fn last(part: Part, shared: &Shared) -> usize {
    match part {
        Part::Calendar => {
            let lots = series::calendar(&shared.season, shared.day, &shared.limits);
            lots.iter().map(|c| c.steps.len().saturating_add(2)).sum::<usize>().saturating_sub(4)
        }
        Part::Nights => 0,
        Part::Pots => shared.season.lots().len().saturating_sub(1),
    }
}
