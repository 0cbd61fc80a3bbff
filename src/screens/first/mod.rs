//! The page of the first run: no season is open yet.

mod update;
mod view;

pub use update::update;
pub use view::view;

/// Nothing to remember.
#[derive(Debug, Clone, Default)]
pub struct State {}
