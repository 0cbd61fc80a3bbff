//! How a form of the plan looks: as every form, a field a row; below, what the marked field takes and what follows.

mod words;

use super::State;
use crate::model::Model;
use crate::popups::form::row::Row;
use crate::popups::form::view::{Beside, field};
use crate::ui::{Role, panel, put};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::Span;

/// Rows kept for the words below the fields.
const BELOW: u16 = 7;

/// Draws it.
pub fn view(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = shared.look;
    let shown: Vec<(usize, &Row)> = state.shown().collect();
    let mut told: Vec<(String, Role)> = vec![(String::new(), Role::Plain)];
    told.extend(words::below(state, shared, usize::from(area.width)));
    let many = u16::try_from(shown.len()).unwrap_or(u16::MAX);
    let lines = u16::try_from(told.len()).unwrap_or(u16::MAX);
    let wanted = many.saturating_add(lines.max(BELOW)).saturating_add(1);
    let body = panel(frame, area, usize::from(wanted), &state.title(), look);
    let least = body.height.min(3);
    let room = body.height.saturating_sub(lines).max(least).min(many);
    let marked = shown.iter().position(|(at, _)| *at == state.at).unwrap_or(0);
    // One field after the marked one stays in sight.
    let top = marked.saturating_add(2).min(shown.len()).saturating_sub(usize::from(room.max(1))).min(marked);
    let mut cursor = None;
    for (i, (at, row)) in shown.iter().skip(top).take(usize::from(room)).enumerate() {
        let line = Rect { y: body.y.saturating_add(u16::try_from(i).unwrap_or(u16::MAX)), height: 1, ..body };
        let beside = match state.faults.iter().find(|f| f.field == row.name) {
            Some(fault) => Beside::Fault(&fault.text),
            None => Beside::Hint(words::beside(state, row, shared)),
        };
        cursor = field(frame, line.intersection(body), (row, *at == state.at), &beside, look).or(cursor);
    }
    for (i, (text, role)) in told.into_iter().enumerate() {
        let at = usize::from(room).saturating_add(i);
        put(frame, body, at, Span::styled(text, look.style(role)));
    }
    cursor
}
