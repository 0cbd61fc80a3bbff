//! How the Season page looks: the row of its parts, and below it the part shown, a file each.

mod applications;
mod axis;
mod beside;
mod calendar;
mod end;
mod last_year;
mod nights;
mod pots;

use super::{Part, State};
use crate::model::Model;
use crate::ui::regions::{Room, rule};
use crate::ui::{Role, line_of, put, rows};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// True in a window that lists the lots, with the one under the cursor beside them.
pub(super) fn lists_lots(state: &State, model: &Model) -> bool {
    state.part.is_of_lots() && is_wide(model)
}

/// Rows of the text of last year, to be scrolled.
pub(super) fn last_year_rows(state: &State, model: &Model) -> usize {
    last_year::length(state, model)
}

/// True in a window that has room for regions side by side.
pub(super) fn is_wide(model: &Model) -> bool {
    Room::of(model.size.0) > Room::Narrow
}

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let (head, body) = rows(area, 2);
    put(frame, head, 0, parts(state, model));
    let wide = Room::of(area.width) > Room::Narrow;
    if wide {
        rule(frame, line_of(area, 1), model.look);
    }
    if wide && state.part.is_of_lots() {
        return Some(beside::view(state, model, frame, body));
    }
    if wide && state.part == Part::LastYear {
        return Some(last_year::wide(state, model, frame, body));
    }
    match state.part {
        Part::Calendar => calendar::narrow(state, model, frame, body),
        Part::Nights => nights::narrow(state, model, frame, body),
        Part::Pots => pots::narrow(state, model, frame, body),
        Part::Applications => applications::whole(state, model, frame, body),
        Part::LastYear => last_year::narrow(state, model, frame, body),
        Part::End => end::view(state, model, frame, body),
    }
    Some(Position { x: area.x, y: area.y })
}

/// The parts, the one shown marked by sign and style.
fn parts(state: &State, model: &Model) -> Line<'static> {
    let mut spans = Vec::new();
    for part in Part::ALL {
        let shown = part == state.part;
        let text = if shown { format!("[{}]", part.text()) } else { format!(" {} ", part.text()) };
        spans.push(Span::styled(text, model.look.style(if shown { Role::Chosen } else { Role::Plain })));
        spans.push(Span::raw("  "));
    }
    Line::from(spans)
}
