//! Drawing the fields of a form: label, what is typed or picked, and next to it the unit and range or what is wrong.

use super::regions::DRAWER;
use super::{Role, fit, line_of, put, typed, width, wrap};
use crate::controls::{Choice, Fields, Input, Row, letter};
use crate::input::Look;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// The least cells next to a field that a word is put into.
const BESIDE: u16 = 9;

/// The columns of a form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Columns {
    /// Cells of the mark and the label.
    pub label: u16,
    /// Cells of what is typed, where there is room for a word next to it.
    pub input: u16,
}

/// Said of the selected field where the next key typed replaces what is in it.
pub const REPLACES: &str = "Typing replaces it; an arrow key first keeps it.";

/// The columns of a popup's form. Beside a page what is typed takes less room, so that ranges next to it are seen whole.
pub const fn form_columns(width: u16) -> Columns {
    Columns { label: 20, input: if width == DRAWER { 20 } else { 27 } }
}

/// Draws the fields that have room around the selected one; gives the cursor's place. `ahead`: fields after the selected one that
/// stay in sight. `hint` says what stands next to a field with nothing wrong.
pub fn fields<N: Copy + PartialEq>(
    frame: &mut Frame<'_>,
    area: Rect,
    (fields, ahead): (&Fields<N>, usize),
    columns: Columns,
    hint: impl Fn(&Row<N>) -> String,
    look: Look,
) -> Option<Position> {
    let (room, marked) = (usize::from(area.height), fields.marked_at());
    let count = fields.shown().count();
    let last = marked.saturating_add(ahead).saturating_add(1).min(count);
    let top = last.saturating_sub(room.max(1)).min(marked);
    let mut cursor = None;
    for (line, (at, row)) in fields.shown().enumerate().skip(top).take(room).enumerate() {
        let line = line_of(area, line);
        cursor = field(frame, line, (row, at == marked), columns, &hint, look).or(cursor);
    }
    cursor
}

/// One field; gives the cursor's place where it is the selected one.
fn field<N>(
    frame: &mut Frame<'_>,
    line: Rect,
    (row, marked): (&Row<N>, bool),
    columns: Columns,
    hint: impl Fn(&Row<N>) -> String,
    look: Look,
) -> Option<Position> {
    let mark = if marked { look.glyphs().here } else { " " };
    let star = if row.required { "*" } else { " " };
    let label = fit(&format!("{mark} {}{star}", row.label), usize::from(columns.label));
    put(frame, line, 0, Span::styled(label, look.style(if marked { Role::Title } else { Role::Label })));
    let left = columns.label.min(line.width);
    let rest = line.width.saturating_sub(left);
    let wide = rest > columns.input.saturating_add(BESIDE);
    let place = Rect { x: line.x.saturating_add(left), width: if wide { columns.input } else { rest }, ..line };
    let cursor = input(frame, place, (&row.input, marked), look);
    if wide {
        let used = columns.input.saturating_add(1);
        let place = Rect { x: place.right().saturating_add(1), width: rest.saturating_sub(used), ..line };
        let cells = usize::from(place.width);
        match &row.fault {
            Some(text) => put(frame, place, 0, Span::styled(fit(&format!("! {text}"), cells), look.style(Role::Act))),
            None => put(frame, place, 0, Line::raw(fit(&hint(row), cells))),
        }
    }
    cursor.filter(|_| marked)
}

/// What is typed or picked.
fn input(frame: &mut Frame<'_>, place: Rect, (input, marked): (&Input, bool), look: Look) -> Option<Position> {
    let cells = usize::from(place.width.saturating_sub(2));
    let text = match input {
        Input::Text(text) if marked => {
            let room = usize::from(place.width.saturating_sub(3));
            return typed(frame, place, (text.text(), text.cursor(), text.scroll(room)), look);
        }
        Input::Text(text) => text.text().to_owned(),
        Input::One(all, at) => at.and_then(|i| all.get(i)).map_or("-", |c| c.text.as_str()).to_owned(),
        Input::Many(all, on) => {
            let texts: Vec<&str> = all.iter().zip(on).filter(|(_, on)| **on).map(|(c, _)| c.text.as_str()).collect();
            if texts.is_empty() { "none".to_owned() } else { texts.join(", ") }
        }
    };
    put(frame, place, 0, Line::raw(format!("  {}", fit(&text, cells))));
    Some(Position { x: place.x.saturating_add(2), y: place.y })
}

/// What can be picked in a field, by letter, below some words; nothing for a text.
pub fn picks(words: &str, input: &Input, cells: usize) -> Vec<String> {
    match input {
        Input::One(all, at) => listed(words, all, &|i| *at == Some(i), cells),
        Input::Many(all, on) => listed(words, all, &|i| on.get(i) == Some(&true), cells),
        Input::Text(_) => Vec::new(),
    }
}

/// What can be picked, as many on a line as fit; none is broken.
fn listed(words: &str, all: &[Choice], on: &dyn Fn(usize) -> bool, cells: usize) -> Vec<String> {
    let mut lines = if words.is_empty() { Vec::new() } else { wrap(&format!("{words}:"), cells) };
    let fits = u16::try_from(cells).unwrap_or(u16::MAX);
    let mut line = String::new();
    for (i, choice) in all.iter().enumerate() {
        let one = format!("{} [{}] {}", letter(i), if on(i) { "x" } else { " " }, choice.text);
        if !line.is_empty() && width(&line).saturating_add(width(&one)).saturating_add(2) > fits {
            lines.push(std::mem::take(&mut line));
        }
        line = if line.is_empty() { one } else { format!("{line}  {one}") };
    }
    lines.push(line);
    lines
}
