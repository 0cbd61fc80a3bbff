//! How the line looks.

use super::{State, words};
use crate::model::Shared;
use crate::ui::{Role, put, sheet, typed, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Draws it.
pub fn view(state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = shared.look;
    let (title, ask) = words(&state.purpose);
    let body = sheet(frame, area, 7, &title, look);
    let asked = wrap(ask, usize::from(body.width));
    let mut row = 0_u16;
    for line in asked {
        put(frame, body, row, Line::raw(line));
        row = row.saturating_add(1);
    }
    let place = Rect { y: body.y.saturating_add(row), height: 1, ..body }.intersection(body);
    let room = usize::from(place.width.saturating_sub(3));
    let shown = (state.field.text(), state.field.cursor(), state.field.scroll(room));
    let cursor = typed(frame, place, shown, look);
    let fault = match (&state.fault, state.field.full) {
        (Some(fault), _) => format!("! {fault}"),
        (None, true) => format!("! cut off: a line takes {} characters", crate::model::MOST),
        (None, false) => String::new(),
    };
    put(frame, body, row.saturating_add(1), Span::styled(fault, look.style(Role::Act)));
    cursor
}
