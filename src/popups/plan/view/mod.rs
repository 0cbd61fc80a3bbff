//! How a form of the plan looks: as every form, a field a row; below, what the selected field takes and what follows.

mod words;

use super::State;
use crate::model::Model;
use crate::ui::fields::{fields, form_columns};
use crate::ui::regions::text_cells;
use crate::ui::{Role, list, panel, rows};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Rows kept for the words below the fields.
const BELOW: usize = 7;

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = model.look;
    let mut words: Vec<(String, Role)> = vec![(String::new(), Role::Plain)];
    words.extend(words::below(state, model, text_cells(area.width)));
    let many = state.fields.shown().count();
    let wanted = many.saturating_add(words.len().max(BELOW)).saturating_add(1);
    let body = panel(frame, area, wanted, &state.title(), look);
    let height = usize::from(body.height);
    let room = height.saturating_sub(words.len()).max(height.min(3)).min(many);
    let (top, below) = rows(body, u16::try_from(room).unwrap_or(u16::MAX));
    // One field after the selected one stays in sight.
    let cursor =
        fields(frame, top, (&state.fields, 1), form_columns(body.width), |row| words::beside(state, row, model), look);
    list::text(frame, below, 0, words.into_iter().map(|(text, role)| Line::from(Span::styled(text, look.style(role)))));
    cursor
}
