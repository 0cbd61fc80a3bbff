//! How the Mixing page looks: its pages in a row, the fields with what they take or what is wrong next to them, the answer below.

use super::State;
use super::fields::hint;
use crate::controls::{Input, MOST, Row};
use crate::input::Look;
use crate::model::{MixTab, MixingField as F, Model};
use crate::report::mix::{Row as AnswerRow, Tone};
use crate::ui::fields::{Columns, fields, picks};
use crate::ui::regions::{Regions, Room, TEXT, heading, rule};
use crate::ui::{Role, fit, line_of, put, rows, width, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// The columns of the fields.
const COLUMNS: Columns = Columns { label: 17, input: 22 };
/// Rows above the fields: the pages, the benches in words or a rule.
const HEAD: u16 = 2;
/// Rows between fields and answer at most: what the selected field takes, what can be picked in it, or its fault in full.
const HELP: u16 = 4;
/// Cells of the fields where the answer stands beside them; with the cautions beside that.
const FIELDS: (u16, u16) = (67, 74);

/// Where fields and answer stand.
struct Places {
    /// The regions of a wide window.
    regions: Regions,
    fields: Rect,
    help: Rect,
    answer: Rect,
    /// A place of their own, where the window has one and they fit it.
    cautions: Option<Rect>,
}

fn places(state: &State, model: &Model, area: Rect) -> Places {
    let (_, rest) = rows(area, HEAD);
    let list = if Room::of(area.width) == Room::Widest { FIELDS.1 } else { FIELDS.0 };
    let regions = Regions::within(rest, list);
    let many = u16::try_from(state.fields.shown().count()).unwrap_or(u16::MAX);
    let Some(panel) = regions.panel else {
        let (fields, rest) = rows(rest, many.min((rest.height / 2).max(1)));
        let lines = u16::try_from(help_lines(state, model, area.width).len()).unwrap_or(HELP);
        let (help, answer) = rows(rest, lines.clamp(1, HELP));
        return Places { regions, fields, help, answer, cautions: None };
    };
    let below = |region: Rect| rows(region, 1).1;
    let (fields, rest) = rows(below(regions.list), many.min(regions.list.height.saturating_sub(HELP)));
    let (_, help) = rows(rest, 1);
    let cautions = regions.day.map(below).filter(|place| {
        let cautions = state.work.page.parts().1.rows(text_cells(*place));
        !cautions.is_empty() && cautions.len() <= usize::from(place.height)
    });
    Places { regions, fields, help, answer: below(panel), cautions }
}

/// The cells that text takes in a region.
fn text_cells(region: Rect) -> usize {
    usize::from(region.width.min(TEXT))
}

/// The rows of the answer; without the cautions, where these have a place of their own.
fn answer_rows(state: &State, places: &Places) -> Vec<AnswerRow> {
    let page = &state.work.page;
    let cells = if places.regions.panel.is_some() { text_cells(places.answer) } else { places.answer.width.into() };
    if places.cautions.is_some() { page.parts().0.rows(cells) } else { page.rows(cells) }
}

/// The visible rows of the answer, and how many it has, in a window of the last known size.
pub(super) fn answer_size(state: &State, model: &Model) -> (usize, usize) {
    let (columns, height) = model.size;
    // The frame takes four rows or so around the page.
    let area = Rect { x: 0, y: 0, width: columns, height: height.saturating_sub(4) };
    let places = places(state, model, area);
    let rows = answer_rows(state, &places).len();
    (answer_room(usize::from(places.answer.height), rows), rows)
}

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = model.look;
    tabs(state, look, frame, area);
    let places = places(state, model, area);
    if let Some(panel) = places.regions.panel {
        rule(frame, line_of(area, 1), look);
        Regions::of(frame, rows(area, HEAD).1, places.regions.list.width, look);
        heading(frame, places.regions.list, ("for", &state.work.ground), look);
        heading(frame, panel, ("measure out", ""), look);
        if let (Some(day), Some(place)) = (places.regions.day, places.cautions) {
            heading(frame, day, ("cautions", ""), look);
            draw(frame, place, &state.work.page.parts().1.rows(text_cells(place)), look);
        }
    } else {
        put(frame, area, 1, Span::raw(fit(&format!("For {}", state.work.ground), usize::from(area.width))));
    }
    // Beside the answer there is little room: a hint that does not fit whole is left to the line below the fields.
    let beside = places.fields.width.saturating_sub(COLUMNS.label).saturating_sub(COLUMNS.input).saturating_sub(1);
    let hint = |row: &Row<F>| {
        let text = hint(row.name, model.system());
        if places.regions.panel.is_some() && width(text) > beside { String::new() } else { text.to_owned() }
    };
    let cursor = fields(frame, places.fields, (&state.fields, 0), COLUMNS, hint, look);
    help(state, model, frame, places.help);
    answer(state, model, frame, &places);
    cursor
}

/// The pages in a row.
fn tabs(state: &State, look: Look, frame: &mut Frame<'_>, area: Rect) {
    let mut tabs = Vec::new();
    for (i, tab) in MixTab::ALL.into_iter().enumerate() {
        let role = if tab == state.tab { Role::Chosen } else { Role::Plain };
        let mark = if tab == state.tab { look.glyphs().here } else { " " };
        tabs.push(Span::styled(format!("F{}", i.saturating_add(2)), look.style(Role::Key)));
        tabs.push(Span::styled(format!("{mark}{} ", tab.text()), look.style(role)));
        tabs.push(Span::raw(" "));
    }
    put(frame, area, 0, Line::from(tabs));
}

/// The help of the focused field.
fn help_text(state: &State, model: &Model) -> (String, Role) {
    let Some(row) = state.fields.marked() else { return (String::new(), Role::Plain) };
    match &row.fault {
        Some(fault) => (format!("! {}: {fault}", row.label.trim()), Role::Act),
        None if row.is_cut() => (format!("! too long: maximum {MOST} characters"), Role::Act),
        None => (format!("{}: {}", row.label.trim(), hint(row.name, model.system())), Role::Said),
    }
}

fn help_lines(state: &State, model: &Model, width: u16) -> Vec<String> {
    let choices = state.fields.marked().filter(|row| row.fault.is_none() && !matches!(row.input, Input::Text(_)));
    if let Some(row) = choices {
        return picks("", &row.input, usize::from(width));
    }
    wrap(&help_text(state, model).0, usize::from(width))
}

/// What the selected field takes, or what is wrong with it, in full.
fn help(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let role = help_text(state, model).1;
    for (i, line) in help_lines(state, model, area.width).into_iter().take(usize::from(area.height)).enumerate() {
        put(frame, area, i, Span::styled(line, model.look.style(role)));
    }
}

fn answer(state: &State, model: &Model, frame: &mut Frame<'_>, places: &Places) {
    let (look, area) = (model.look, places.answer);
    let rows = answer_rows(state, places);
    if rows.is_empty() {
        put(frame, area, 0, Line::raw("Fill in the * fields to see what to measure out."));
    }
    let room = answer_room(usize::from(area.height), rows.len());
    let top = state.list.top().min(rows.len().saturating_sub(room));
    let seen: Vec<AnswerRow> = rows.iter().skip(top).take(room).cloned().collect();
    draw(frame, area, &seen, look);
    if rows.len() > room {
        let left = rows.len().saturating_sub(top.saturating_add(room));
        let text =
            if left > 0 { format!("PgDn: {left} more lines, the cautions last") } else { "PgUp: back".to_owned() };
        put(frame, area, usize::from(area.height.saturating_sub(1)), Span::styled(text, look.style(Role::Key)));
    }
}

/// Draws rows of the answer by their tone.
fn draw(frame: &mut Frame<'_>, area: Rect, rows: &[AnswerRow], look: Look) {
    for (i, row) in rows.iter().enumerate() {
        let role = match row.tone {
            Tone::Head => Role::Title,
            Tone::Plain => Role::Plain,
            Tone::Alarm => Role::Act,
        };
        put(frame, area, i, Span::styled(row.text.clone(), look.style(role)));
    }
}

/// The rows of an answer that are shown at once: its last one says how many more there are.
const fn answer_room(height: usize, rows: usize) -> usize {
    if rows > height { height.saturating_sub(1) } else { height }
}
