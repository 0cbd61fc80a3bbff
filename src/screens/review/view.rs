//! How the Evening review looks.

use super::{State, rows};
use crate::model::Shared;
use crate::ui::put;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};

/// Draws it.
pub fn view(state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let all = rows::rows(state, shared, usize::from(area.width));
    let mut cursor = Position { x: area.x, y: area.y };
    for (i, row) in all.into_iter().skip(state.top).take(usize::from(area.height)).enumerate() {
        let at = u16::try_from(i).unwrap_or(u16::MAX);
        if row.trouble == Some(state.at) {
            cursor.y = area.y.saturating_add(at);
        }
        put(frame, area, at, row.line);
    }
    Some(cursor)
}
