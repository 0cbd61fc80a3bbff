//! The Round: the benches that the active view shows, in the active order, and how far the round got.

mod tally;
mod view;

pub use view::view;

use crate::controls::{List, page};
use crate::keys::Command;
use crate::model::listing::{Listing, View};
use crate::model::{Effect, MixingRequest, Model, Msg, Response, go};
use crate::record::Place;
use std::collections::BTreeSet;

/// The cursor and the selection.
#[derive(Debug, Clone, Default)]
pub struct State {
    /// The cursor, on a bench among those listed.
    list: List,
    /// The bench it is on: it stays with the bench where the list changes.
    bench: Option<String>,
    /// The view and order that the cursor was set in.
    listing: Listing,
    /// The benches marked, to log to together.
    selected: BTreeSet<String>,
}

impl State {
    /// The cursor on the first bench not walked, or on the first.
    pub fn new(model: &Model) -> Self {
        let bench = crate::model::walk_order::next_open(model, None);
        let mut state = Self { bench, listing: model.listing.clone(), ..Self::default() };
        state.follow(model);
        state
    }

    /// Puts the cursor where its bench now stands. Where that is not listed any more the next one takes its place; in another
    /// view or order the first one does.
    fn follow(&mut self, model: &Model) {
        let listed = model.listed();
        let at = self.bench.as_ref().and_then(|code| listed.iter().position(|b| b.bench == *code));
        match at {
            Some(at) => self.list.set(at),
            None if self.listing != model.listing => self.list.set(0),
            None => self.list.clamp(listed.len()),
        }
        self.bench = listed.get(self.list.cursor()).map(|b| b.bench.clone());
        self.listing = model.listing.clone();
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
        model.listed().get(self.list.cursor()).map(|b| b.bench.clone())
    }
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    state.follow(model);
    let (count, page) = (model.listed().len(), page(model.size.1));
    let command = match msg {
        Msg::Do(command) => *command,
        Msg::Found(code) => {
            found(state, model, code);
            return Some(Vec::new());
        }
        _ => return None,
    };
    let response = act(state, model, command, (count, page));
    state.bench = state.cursor(model);
    response
}

fn act(state: &mut State, model: &mut Model, command: Command, (count, page): (usize, usize)) -> Response {
    if state.list.step(command, count, page) {
        return Some(Vec::new());
    }
    match command {
        Command::View => return Some(vec![Effect::popup(go::Popup::Views)]),
        Command::Order => return Some(vec![Effect::popup(go::Popup::Orders)]),
        Command::Mark => {
            if let Some(bench) = state.cursor(model) {
                state.toggle(bench);
                state.list.step(Command::Down, count, page);
            }
        }
        Command::Add => {
            let selected = state.selected(model);
            let first = selected.first().cloned().or_else(|| state.cursor(model));
            return Some(
                first.map(|b| Effect::popup(go::Popup::Add(Place::Bench(b.into()), selected))).into_iter().collect(),
            );
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

/// Puts the cursor on a bench that was found. Where the view does not show it, all benches are shown.
fn found(state: &mut State, model: &mut Model, code: &str) {
    if !model.listed().iter().any(|b| b.bench == code) {
        let text = format!("The view ({}) does not show {code}: all benches are shown now.", model.listing.view.text());
        model.set_listing(Listing { view: View::All, ..model.listing.clone() });
        model.say(text);
    }
    state.bench = Some(code.to_owned());
    state.follow(model);
}
