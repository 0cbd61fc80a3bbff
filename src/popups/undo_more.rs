//! The question before a second undo right after the first: what it would void. The undo key does not answer it.

pub use view::view;

use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::report::entry;

/// More entries than this are counted, not named.
const NAMED: usize = 8;

/// What the next undo would void, a line each.
#[derive(Debug, Clone)]
pub struct State {
    lines: Vec<String>,
}

impl State {
    /// Of what was recorded last.
    pub fn new(model: &Model) -> Self {
        let next = model.next_undo().unwrap_or_default();
        let line = |e: &crate::record::Entry| {
            let time = crate::dates::time(&e.at);
            format!(
                "{} {}, logged {} {time}",
                entry::about(e),
                entry::line(e, model.system()),
                crate::dates::short(e.day())
            )
        };
        let mut lines: Vec<String> = next.iter().take(NAMED).map(line).collect();
        if let more @ 1.. = next.len().saturating_sub(NAMED) {
            lines.push(format!("and {more} more"));
        }
        Self { lines }
    }
}

/// Handles a message.
pub fn update(msg: &Msg) -> Response {
    match msg {
        Msg::Do(Command::Accept) => Some(vec![Effect::Go(Go::Back), Effect::Go(Go::Undo)]),
        Msg::Do(Command::Back) => Some(vec![Effect::Go(Go::Back)]),
        _ => None,
    }
}

mod view {
    use super::State;
    use crate::model::Model;
    use crate::ui::{Role, panel, put, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::{Line, Span};

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let wide = usize::from(area.width);
        let lines: Vec<String> = state.lines.iter().flat_map(|line| wrap(line, wide)).collect();
        let body = panel(frame, area, lines.len().saturating_add(4), "Undo one more?", model.look);
        put(frame, body, 0, Line::raw("Enter voids this too; Esc keeps it:"));
        for (row, line) in (1..).zip(lines) {
            put(frame, body, row, Span::styled(format!("  {line}"), model.look.style(Role::Title)));
        }
        Some(Position { x: body.x, y: body.y })
    }
}
