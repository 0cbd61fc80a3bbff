//! How the list looks: answers over the whole width, kinds in two columns.

use super::State;
use crate::model::Shared;
use crate::popups::more::letter;
use crate::record::Word;
use crate::ui::{Role, fit, put, sheet};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::Span;

/// Draws it.
pub fn view(state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = shared.look;
    let half = state.kinds.len().div_ceil(2);
    let rows = u16::try_from(state.answers.len().saturating_add(half)).unwrap_or(u16::MAX);
    let body = sheet(frame, area, rows.saturating_add(1), &state.title, look);
    let marked = match state.at.checked_sub(state.answers.len()) {
        Some(kind) => state.answers.len().saturating_add(kind.checked_rem(half.max(1)).unwrap_or(0)),
        None => state.at,
    };
    let top = marked.saturating_sub(usize::from(body.height.saturating_sub(1)));
    let mut cursor = None;
    for i in 0..state.len() {
        let kind = i.checked_sub(state.answers.len());
        let (row, column) = match kind {
            Some(k) if k >= half => (state.answers.len().saturating_add(k.saturating_sub(half)), 1),
            _ => (i, 0),
        };
        let Some(row) = row.checked_sub(top).and_then(|r| u16::try_from(r).ok()).filter(|r| *r < body.height) else {
            continue;
        };
        let (text, wide) = match kind.and_then(|k| Some((k, state.kinds.get(k)?))) {
            Some((k, ask)) => (format!("{}  {}", letter(k), ask.kind.text()), body.width / 2),
            None => (answer(state, i), body.width),
        };
        let place = Rect { x: body.x.saturating_add(column * (body.width / 2)), width: wide, ..body };
        let role = if i == state.at { Role::Chosen } else { Role::Plain };
        let cells = usize::from(wide.saturating_sub(1));
        put(frame, place.intersection(body), row, Span::styled(fit(&text, cells), look.style(role)));
        if i == state.at {
            cursor = Some(Position { x: place.x, y: body.y.saturating_add(row) });
        }
    }
    cursor
}

/// `1  magnesium missed: magnesium sulfate as a drench, for N1 N2`.
fn answer(state: &State, at: usize) -> String {
    let Some(answer) = state.answers.get(at) else { return String::new() };
    let name = answer.ask.answers.map_or("", |n| crate::report::words::title(n));
    let benches =
        if answer.ask.benches.len() > 1 { format!(", for {}", answer.ask.benches.join(" ")) } else { String::new() };
    format!("{}  {name}: {}{benches}", at.saturating_add(1), answer.title)
}
