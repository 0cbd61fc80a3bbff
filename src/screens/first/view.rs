//! How the first-run page looks.

use super::State;
use crate::model::Shared;
use crate::ui::{Role, put, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

const WELCOME: &str = "There is no season file yet. Benchwalk keeps one season of a potted poinsettia crop: you walk the \
benches in the morning and score what is due, and in the evening it says which benches need you and why.";

const CHOICES: [(&str, &str); 4] = [
    ("s", "Set up your own season by form: the site, lots, benches."),
    ("d", "Open the demo: an invented season of 24 benches to try every key on."),
    ("i", "Import a journal: your own benches, lots and entries from a text file."),
    ("h", "Read how to start: what such a journal looks like."),
];

/// Draws it.
pub fn view(_state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let cells = usize::from(area.width.min(76));
    let mut row = 1_u16;
    for line in wrap(WELCOME, cells) {
        put(frame, area, row, Line::raw(line));
        row = row.saturating_add(1);
    }
    row = row.saturating_add(1);
    let start = row;
    for (key, text) in CHOICES {
        for (i, line) in wrap(text, cells.saturating_sub(6)).into_iter().enumerate() {
            let lead = if i == 0 { format!("  {key}   ") } else { " ".repeat(6) };
            put(frame, area, row, Line::from(vec![Span::styled(lead, shared.look.style(Role::Key)), Span::raw(line)]));
            row = row.saturating_add(1);
        }
    }
    let at = row.saturating_add(1);
    put(frame, area, at, Line::raw(format!("The file will be {}", shared.path)));
    Some(Position { x: area.x.saturating_add(2), y: area.y.saturating_add(start) })
}
