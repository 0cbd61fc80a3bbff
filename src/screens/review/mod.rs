//! To be written.
mod update;
mod view;
use crate::model::Shared;
pub use update::update;
pub use view::view;
/// Where the mark stands.
#[derive(Debug, Clone, Default)]
pub struct State {}
impl State {
    /// The first bench of the trouble marked.
    pub fn bench(&self, _shared: &Shared) -> Option<String> {
        None
    }
    /// The title of the page.
    pub fn title(&self, _shared: &Shared) -> String {
        "Evening review".to_owned()
    }
}
