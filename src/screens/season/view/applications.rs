//! The application record: growth regulators and sprays, the newest first, each with what was not logged marked.

use crate::model::Model;
use crate::report::applications::{SOURCE, text_of};
use crate::screens::season::State;
use crate::ui::regions::text_cells;
use crate::ui::{Role, list, put, rows, wrap};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Line;

/// Draws it.
pub(super) fn whole(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let Some(record) = &state.applications else {
        put(frame, area, 0, Line::raw("Applications are shown once there is a site."));
        return;
    };
    let cells = text_cells(area.width);
    put(frame, area, 0, Line::styled(record.summary(), model.look.style(Role::Head)));
    let mut lines = Vec::new();
    for treatment in record.lines.iter().rev().skip(state.list.top()) {
        let [head, rest] = text_of(treatment);
        let title = model.look.style(Role::Title);
        lines.extend(wrap(&head, cells).into_iter().map(|text| Line::styled(text, title)));
        lines.extend(wrap(&rest, cells.saturating_sub(2)).into_iter().map(|text| Line::raw(format!("  {text}"))));
    }
    lines.push(Line::default());
    let source = SOURCE.iter().flat_map(|text| wrap(text, cells));
    lines.extend(source.map(|text| Line::styled(text, model.look.style(Role::Dim))));
    list::text(frame, rows(area, 1).1, 0, lines);
}
