//! How the list of leaf signs looks.

use super::{State, letter};
use crate::model::Shared;
use crate::record::{LeafSign, Where, Word};
use crate::ui::{Role, fit, put, sheet};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::Span;

/// Draws it.
pub fn view(state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = shared.look;
    let half = LeafSign::ALL.len().div_ceil(2);
    let rows = u16::try_from(half).unwrap_or(8);
    let title = format!("Leaves on {}", state.bench);
    let body = sheet(frame, area, rows.saturating_add(4), &title, look);
    let cells = usize::from(body.width / 2);
    let mut cursor = None;
    for (i, sign) in LeafSign::ALL.iter().enumerate() {
        let (column, row) = (i / half, i % half);
        let mark = if state.signs.contains(sign) { "[x]" } else { "[ ]" };
        let role = if i == state.at { Role::Chosen } else { Role::Plain };
        let text = fit(&format!("{} {mark} {}", letter(i), sign.text()), cells.saturating_sub(1));
        let left = u16::try_from(column.saturating_mul(cells)).unwrap_or(0);
        let place = Rect { x: body.x.saturating_add(left), width: body.width / 2, ..body }.intersection(body);
        let row = u16::try_from(row).unwrap_or(0);
        put(frame, place, row, Span::styled(text, look.style(role)));
        if i == state.at {
            cursor = Some(Position { x: place.x.saturating_add(3), y: place.y.saturating_add(row) });
        }
    }
    let places: Vec<String> = Where::ALL
        .iter()
        .enumerate()
        .map(|(i, w)| {
            let mark = if state.place == Some(*w) { "x" } else { " " };
            format!("{} [{mark}] {}", i.saturating_add(1), w.text())
        })
        .collect();
    put(frame, body, rows, Span::raw(places.join("  ")));
    let hint = "A letter marks a sign. Enter saves; with nothing marked: looked, nothing seen.";
    put(frame, body, rows.saturating_add(1), Span::raw(hint));
    cursor
}
