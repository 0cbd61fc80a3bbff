//! The evening review as text and as JSON.

mod json;
mod text;

pub use json::json;
pub(in crate::report) use json::{Out, out};
pub use text::text;

use super::words;
use crate::review::Problem;
use crate::units::System;

/// The newest evidence of all parts of a problem, each once, oldest first, at most `most` pieces a part.
pub fn evidence(problem: &Problem, most: usize, system: System) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    // The evidence of one bench represents all benches of the same problem.
    let first = problem.lead().map(|w| &w.benches);
    for part in problem.parts.iter().filter(|w| Some(&w.benches) == first) {
        for text in words::pieces(&part.evidence, most, system) {
            if !all.contains(&text) {
                all.push(text);
            }
        }
    }
    all
}
