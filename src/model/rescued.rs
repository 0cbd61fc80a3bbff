//! What an earlier run could not save.

use crate::record::Line;

/// The journal of what an earlier run could not save.
#[derive(Debug, Clone, PartialEq)]
pub struct Rescued {
    /// Where it lies.
    pub path: String,
    /// What of it is not in the season file yet, in the order it was written.
    pub lines: Vec<Line>,
    /// The season file refused it for good; importing it names what is wrong.
    pub refused: bool,
}
