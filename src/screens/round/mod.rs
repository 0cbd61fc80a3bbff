//! The Round: the benches in walking order, and how far the round got.

mod view;

pub use view::view;

use crate::controls::{List, page};
use crate::keys::Command;
use crate::model::{Effect, MixingRequest, Model, Msg, Response, go};
use crate::record::Place;
use std::collections::BTreeSet;

/// The cursor and the selection.
#[derive(Debug, Clone, Default)]
pub struct State {
    /// The cursor, on a bench in walking order.
    list: List,
    /// The benches marked, to log to together.
    selected: BTreeSet<String>,
}

impl State {
    /// The cursor on the first bench not walked, or on the first.
    pub fn new(model: &Model) -> Self {
        let next = crate::model::walk_order::next_open(model, None);
        let at = next.and_then(|code| model.season.benches().iter().position(|b| b.bench == code));
        Self { list: List::at(at.unwrap_or(0)), selected: BTreeSet::new() }
    }

    /// The benches marked, to log to together, in walking order.
    pub fn selected(&self, model: &Model) -> Vec<String> {
        let walk = model.season.benches();
        walk.iter().filter(|b| self.selected.contains(&b.bench)).map(|b| b.bench.clone()).collect()
    }

    /// Selects a bench, or takes it out of the selection.
    fn toggle(&mut self, bench: String) {
        if !self.selected.remove(&bench) {
            self.selected.insert(bench);
        }
    }

    /// The bench at the cursor.
    pub fn cursor(&self, model: &Model) -> Option<String> {
        model.season.benches().get(self.list.cursor()).map(|b| b.bench.clone())
    }
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let (count, page) = (model.season.benches().len(), page(model.size.1));
    state.list.clamp(count);
    let Msg::Do(command) = msg else { return None };
    if state.list.step(*command, count, page) {
        return Some(Vec::new());
    }
    match command {
        Command::Mark => {
            if let Some(bench) = state.cursor(model) {
                state.toggle(bench);
                state.list.step(Command::Down, count, page);
            }
        }
        Command::Add => {
            let selected = state.selected(model);
            let first = selected.first().cloned().or_else(|| state.cursor(model));
            return Some(first.map(|b| Effect::popup(go::Popup::Add(Place::Bench(b), selected))).into_iter().collect());
        }
        Command::Mix => {
            let selected = state.selected(model);
            let benches = if selected.is_empty() { state.cursor(model).into_iter().collect() } else { selected };
            return Some(vec![Effect::page(go::Page::Mixing(MixingRequest::of(benches)))]);
        }
        Command::Work => return Some(vec![Effect::page(go::Page::Walk(None))]),
        Command::WalkHere => {
            return Some(state.cursor(model).map(|b| Effect::page(go::Page::Walk(Some(b)))).into_iter().collect());
        }
        Command::Accept => {
            return Some(state.cursor(model).map(|b| Effect::page(go::Page::Bench(b))).into_iter().collect());
        }
        _ => return None,
    }
    Some(Vec::new())
}
