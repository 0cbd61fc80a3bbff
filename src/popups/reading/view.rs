//! How the text looks.

use super::{Item, State};
use crate::model::Shared;
use crate::ui::{Role, fit, put, sheet, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// The text, a row each.
pub(super) fn lines(state: &State, shared: &Shared, cells: usize) -> Vec<Line<'static>> {
    let look = shared.look;
    let mut lines = Vec::new();
    for item in &state.items {
        match item {
            Item::Head(text) => lines.push(Line::styled(*text, look.style(Role::Head))),
            Item::Text(text) => lines.extend(wrap(text, cells).into_iter().map(Line::raw)),
            Item::Key(key, text) => {
                for (i, part) in wrap(text, cells.saturating_sub(18)).into_iter().enumerate() {
                    let lead = fit(if i == 0 { key } else { "" }, 16);
                    let lead = Span::styled(format!("  {lead}"), look.style(Role::Key));
                    lines.push(Line::from(vec![lead, Span::raw(part)]));
                }
            }
        }
    }
    lines
}

/// Draws it.
pub fn view(state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let body = sheet(frame, area, area.height, state.title, shared.look);
    let lines = lines(state, shared, usize::from(body.width));
    let top = state.top.min(lines.len());
    for (row, line) in lines.into_iter().skip(top).take(usize::from(body.height)).enumerate() {
        put(frame, body, u16::try_from(row).unwrap_or(u16::MAX), line);
    }
    Some(Position { x: body.x, y: body.y })
}
