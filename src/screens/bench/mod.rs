//! The Bench page: everything known of one bench.

mod rows;
mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::model::Shared;

/// Which bench, and how far the page is scrolled.
#[derive(Debug, Clone, Default)]
pub struct State {
    bench: String,
    top: usize,
}

impl State {
    /// The page of a bench, from its top.
    pub fn new(bench: &str, shared: &mut Shared) -> Self {
        shared.cache.now(&shared.season, bench, shared.day, &shared.limits);
        Self { bench: bench.to_owned(), top: 0 }
    }

    /// The bench.
    pub fn bench(&self) -> &str {
        &self.bench
    }
}
