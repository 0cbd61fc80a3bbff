//! To be written.
mod update;
mod view;
use crate::model::Shared;
pub use update::update;
pub use view::view;
/// Which bench.
#[derive(Debug, Clone, Default)]
pub struct State {
    bench: String,
}
impl State {
    /// The page of a bench.
    pub fn new(bench: &str, _shared: &mut Shared) -> Self {
        Self { bench: bench.to_owned() }
    }
    /// The bench.
    pub fn bench(&self) -> &str {
        &self.bench
    }
}
