//! The rules across lines: what a single line cannot know.

use super::Season;
use crate::record::Line;

/// A rule across lines that a new line breaks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SeasonFault {
    /// Which of the new lines, from 0.
    pub index: usize,
    /// The field.
    pub field: Option<String>,
    /// What is wrong and what would be right.
    pub text: String,
}

impl Season {
    /// Judges new lines together with all that is kept; empty when every line is good.
    pub fn check(&self, new: &[Line]) -> Vec<SeasonFault> {
        let _ = new;
        Vec::new()
    }
}
