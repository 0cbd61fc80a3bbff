//! How the Trial page looks: one part after the other, or in a wide window the means beside the part.

mod dots;
mod layout;
mod means;
mod parts;
mod readings;

use super::{Part, State};
use crate::model::Model;
use crate::report::trial::Words;
use crate::ui::regions::{Room, beside, heading};
use crate::ui::{list, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::Line;

/// Cells of the means, where a part stands beside them.
const MEANS: u16 = 78;

/// Rows of text in the window.
pub(super) fn height(model: &Model) -> usize {
    usize::from(model.size.1.saturating_sub(4)).max(1)
}

/// Rows of the longest text shown.
pub(super) fn longest(state: &State, model: &Model) -> usize {
    let shown = if Room::of(model.size.0) > Room::Narrow { vec![Part::Means, right(state)] } else { vec![state.part] };
    let cells = usize::from(model.size.0);
    shown.into_iter().map(|part| lines(part, state, model, (cells, height(model))).len()).max().unwrap_or(0)
}

/// The part that stands beside the means.
const fn right(state: &State) -> Part {
    match state.part {
        Part::Means => Part::Layout,
        part => part,
    }
}

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    if Room::of(area.width) == Room::Narrow {
        return Some(part(state.part, state, model, frame, area));
    }
    let (left, rest) = beside(frame, area, MEANS.min(area.width / 2 + 18), model.look);
    let at = part(Part::Means, state, model, frame, left);
    let place = heading(frame, rest, (right(state).text(), ""), model.look);
    let beside = part(right(state), state, model, frame, place);
    Some(if state.part == Part::Means { at } else { beside })
}

/// Draws a part, and gives the place of the cursor.
fn part(part: Part, state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    if part == Part::Readings {
        return readings::view(state, model, frame, area);
    }
    let all = lines(part, state, model, (usize::from(area.width), usize::from(area.height)));
    let last = all.len().saturating_sub(usize::from(area.height));
    list::text(frame, area, state.list.top().min(last), all);
    Position { x: area.x, y: area.y }
}

/// The text of a part in so many cells and rows.
fn lines(part: Part, state: &State, model: &Model, (cells, rows): (usize, usize)) -> Vec<Line<'static>> {
    let Some(readings) = &state.readings else {
        return said("This trial is not known on this day.", cells);
    };
    if part == Part::Layout {
        return layout::lines(readings, model, cells);
    }
    let words = state.found().map(|found| Words::of(found, model.system()));
    match (part, words) {
        (_, None) => said("Calculating \u{2026}", cells),
        (Part::Response, Some(words)) => parts::response(&words, model, (cells, rows)),
        (Part::Position, Some(words)) => parts::position(&words, model, (cells, rows)),
        (Part::Checks, Some(words)) => parts::checks(&words, model, (cells, rows)),
        (_, Some(words)) => means::lines(&words, state, model, cells),
    }
}

/// A sentence, broken into lines.
fn said(text: &str, cells: usize) -> Vec<Line<'static>> {
    wrap(text, cells).into_iter().map(Line::raw).collect()
}

/// A sentence behind a lead; what does not fit the row goes on under itself.
fn led(lead: &str, text: &str, cells: usize) -> Vec<Line<'static>> {
    let room = cells.saturating_sub(lead.len());
    let lead = |row: usize| if row == 0 { lead.to_owned() } else { " ".repeat(lead.len()) };
    let rows = wrap(text, room).into_iter().enumerate();
    rows.map(|(row, text)| Line::raw(format!("{}{text}", lead(row)))).collect()
}
