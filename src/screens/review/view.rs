//! To be written.
use super::State;
use crate::model::Shared;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};

/// Draws it.
pub fn view(_state: &State, _shared: &Shared, _frame: &mut Frame<'_>, _area: Rect) -> Option<Position> {
    None
}
