//! The season's end: what was sold, lost, spent and used, as lines that scroll.

use crate::model::Model;
use crate::report::totals::{Row, rows};
use crate::screens::season::State;
use crate::ui::{Role, list, put};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// Columns beyond which lines are no longer easy to read.
const WIDEST: usize = 100;

/// Draws it.
pub(super) fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let sections = state.end.as_deref().unwrap_or_default();
    if sections.is_empty() {
        put(frame, area, 0, Line::raw("The season's end needs a site and a lot; g adds them."));
        return;
    }
    let lines = rows(sections, usize::from(area.width).min(WIDEST)).into_iter().skip(1).map(|row| match row {
        Row::Title(text) => Line::from(Span::styled(text, model.look.style(Role::Title))),
        Row::Head(text) => Line::from(Span::styled(text, model.look.style(Role::Head))),
        Row::Text(text) => Line::raw(text),
    });
    list::text(frame, area, state.list.top(), lines);
}
