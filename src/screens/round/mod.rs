//! The Round: the benches in walking order, and how far the round got.

mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::model::Shared;
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
    pub fn new(shared: &Shared) -> Self {
        let next = crate::model::route::next_open(shared, None);
        let at = next.and_then(|code| shared.season.benches().iter().position(|b| b.bench == code));
        Self { at: at.unwrap_or(0), marks: BTreeSet::new() }
    }

    /// The benches marked to be written to together, in walking order.
    pub fn marks(&self, shared: &Shared) -> Vec<String> {
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
    pub fn marked(&self, shared: &Shared) -> Option<String> {
        shared.season.benches().get(self.at).map(|b| b.bench.clone())
    }
}
