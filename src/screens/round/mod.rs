//! The Round: the benches in walking order, and how far the round got.

mod view;

pub use view::view;

use crate::keys::Command;
use crate::model::{Effect, Mixing, Model, Msg, go, moved};
use crate::record::Place;
use std::collections::BTreeSet;

/// Where the mark stands.
#[derive(Debug, Clone, Default)]
pub struct State {
    /// The place of the marked bench in walking order.
    at: usize,
    /// The benches marked, to be written to together.
    marks: BTreeSet<String>,
}

impl State {
    /// The mark on the first bench not walked, or on the first.
    pub fn new(shared: &Model) -> Self {
        let next = crate::model::walk_order::next_open(shared, None);
        let at = next.and_then(|code| shared.season.benches().iter().position(|b| b.bench == code));
        Self { at: at.unwrap_or(0), marks: BTreeSet::new() }
    }

    /// The benches marked to be written to together, in walking order.
    pub fn marks(&self, shared: &Model) -> Vec<String> {
        let walk = shared.season.benches();
        walk.iter().filter(|b| self.marks.contains(&b.bench)).map(|b| b.bench.clone()).collect()
    }

    /// Marks a bench, or takes the mark off.
    fn mark(&mut self, bench: String) {
        if !self.marks.remove(&bench) {
            self.marks.insert(bench);
        }
    }

    /// The bench marked.
    pub fn marked(&self, shared: &Model) -> Option<String> {
        shared.season.benches().get(self.at).map(|b| b.bench.clone())
    }
}

/// Takes what the page is told.
pub fn update(state: &mut State, shared: &mut Model, msg: &Msg) -> Vec<Effect> {
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
            return first.map(|b| Effect::popup(go::Popup::Add(Place::Bench(b), marks))).into_iter().collect();
        }
        Command::Mix => {
            let marks = state.marks(shared);
            let benches = if marks.is_empty() { state.marked(shared).into_iter().collect() } else { marks };
            return vec![Effect::page(go::Page::Mixing(Mixing::of(benches)))];
        }
        Command::Season => return vec![Effect::page(go::Page::Season)],
        Command::Undo => return shared.undo_and_say(),
        Command::Walk => return vec![Effect::page(go::Page::Walk(None))],
        Command::WalkHere => {
            return state.marked(shared).map(|b| Effect::page(go::Page::Walk(Some(b)))).into_iter().collect();
        }
        Command::BenchPage => {
            return state.marked(shared).map(|b| Effect::page(go::Page::Bench(b))).into_iter().collect();
        }
        _ => {}
    }
    Vec::new()
}
