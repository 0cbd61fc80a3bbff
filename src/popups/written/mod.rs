//! Everything written of a bench, newest first, to strike something out; what was struck out stands there too.

mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::model::Shared;
use crate::season::Written;

/// Where the mark stands.
#[derive(Debug, Clone)]
pub struct State {
    bench: String,
    at: usize,
}

impl State {
    /// The mark on the newest.
    pub const fn new(bench: String) -> Self {
        Self { bench, at: 0 }
    }
}

/// What was written, newest first.
fn all<'s>(state: &State, shared: &'s Shared) -> Vec<Written<'s>> {
    let mut all = shared.season.written(&state.bench);
    all.reverse();
    all
}
