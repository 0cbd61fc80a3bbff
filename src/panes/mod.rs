//! What several pages show beside their lists: what is known of a bench, the day, how far the walk got by house.
//!
//! A card of a bench that cannot be walked says why in `shut`.
//!
//! A pane is drawn on every key, so it reads what the cache holds and the record of one bench, and assesses nothing.

pub mod bench;
pub mod day;
mod overview;
pub mod progress;
pub mod shut;

pub use overview::{Overview, Seen, Trouble};

use crate::model::Model;
use crate::ui::{Role, put, width};
use crate::warnings::Severity;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// The sign and the role of a level.
pub const fn sign(level: Severity) -> (&'static str, Role) {
    match level {
        Severity::Watch => ("?", Role::Watch),
        Severity::Act => ("!", Role::Act),
        Severity::Urgent => ("!!", Role::Urgent),
    }
}

/// Why a pane has nothing to show: the record is still read, or could not be read.
fn not_read(model: &Model) -> Option<&'static str> {
    if model.unread.is_some() {
        Some("The season could not be read.")
    } else if model.loaded {
        None
    } else {
        Some("The season is being read.")
    }
}

/// Pieces of a line with a gap between them, as many on each row as have room.
fn flow(pieces: Vec<Span<'static>>, (cells, gap): (usize, usize)) -> Vec<Line<'static>> {
    let mut lines: Vec<Vec<Span<'static>>> = Vec::new();
    let mut used = 0_usize;
    for piece in pieces.into_iter().filter(|piece| !piece.content.is_empty()) {
        let wide = usize::from(width(&piece.content));
        match lines.last_mut() {
            Some(line) if used.saturating_add(gap).saturating_add(wide) <= cells => {
                line.push(Span::raw(" ".repeat(gap)));
                line.push(piece);
                used = used.saturating_add(gap).saturating_add(wide);
            }
            _ => {
                lines.push(vec![piece]);
                used = wide;
            }
        }
    }
    lines.into_iter().map(Line::from).collect()
}

/// Puts lines on the rows of an area, as many as it has.
fn put_lines(frame: &mut Frame<'_>, area: Rect, lines: Vec<Line<'static>>) {
    for (row, line) in lines.into_iter().take(usize::from(area.height)).enumerate() {
        put(frame, area, row, line);
    }
}
