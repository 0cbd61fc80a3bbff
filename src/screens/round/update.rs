//! What the Round does.

use super::State;
use crate::keys::Command;
use crate::model::{Effect, Mixing, Msg, Shared, To, moved};
use crate::record::Place;

/// Takes what the page is told.
pub fn update(state: &mut State, shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
    let last = shared.season.benches().len().saturating_sub(1);
    let page = usize::from(shared.size.1.saturating_sub(8)).max(1);
    state.at = state.at.min(last);
    let Msg::Do(command) = msg else { return Vec::new() };
    if let Some(to) = moved(*command, state.at, last, page) {
        state.at = to;
        return Vec::new();
    }
    match command {
        Command::Mark => {
            if let Some(bench) = state.marked(shared) {
                state.mark(bench);
                state.at = state.at.saturating_add(1).min(last);
            }
        }
        Command::Add => {
            let marks = state.marks(shared);
            let first = marks.first().cloned().or_else(|| state.marked(shared));
            return first.map(|b| Effect::Go(To::Add(Place::Bench(b), marks))).into_iter().collect();
        }
        Command::Mix => {
            let marks = state.marks(shared);
            let benches = if marks.is_empty() { state.marked(shared).into_iter().collect() } else { marks };
            return vec![Effect::Go(To::Mixing(Mixing::of(benches)))];
        }
        Command::Season => return vec![Effect::Go(To::Season)],
        Command::Undo => return shared.take_back(),
        Command::Walk => return vec![Effect::Go(To::Walk(None))],
        Command::WalkHere => return state.marked(shared).map(|b| Effect::Go(To::Walk(Some(b)))).into_iter().collect(),
        Command::BenchPage => return state.marked(shared).map(|b| Effect::Go(To::Bench(b))).into_iter().collect(),
        _ => {}
    }
    Vec::new()
}
