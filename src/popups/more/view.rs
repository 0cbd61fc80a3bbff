//! How the list looks.

use super::{ITEMS, State, letter};
use crate::model::Shared;
use crate::ui::{Role, fit, put, sheet};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::Span;

/// Draws it.
pub fn view(state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let rows = u16::try_from(ITEMS.len()).unwrap_or(14);
    let title = format!("More for {}", state.bench);
    let body = sheet(frame, area, rows.saturating_add(1), &title, shared.look);
    let top = state.at.saturating_sub(usize::from(body.height.saturating_sub(1)));
    for (i, (text, _)) in ITEMS.iter().enumerate().skip(top) {
        let role = if i == state.at { Role::Chosen } else { Role::Plain };
        let line = fit(&format!("{}  {text}", letter(i)), usize::from(body.width));
        let row = u16::try_from(i.saturating_sub(top)).unwrap_or(u16::MAX);
        put(frame, body, row, Span::styled(line, shared.look.style(role)));
    }
    let y = body.y.saturating_add(u16::try_from(state.at.saturating_sub(top)).unwrap_or(0));
    Some(Position { x: body.x, y })
}
