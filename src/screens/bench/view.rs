//! How the Bench page looks.

use super::{State, rows};
use crate::model::Shared;
use crate::ui::put;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};

/// Draws it.
pub fn view(state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let lines = rows::rows(state, shared, usize::from(area.width));
    for (row, line) in lines.into_iter().skip(state.top).take(usize::from(area.height)).enumerate() {
        put(frame, area, u16::try_from(row).unwrap_or(u16::MAX), line);
    }
    Some(Position { x: area.x, y: area.y })
}
