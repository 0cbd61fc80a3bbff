//! How it looks: what it is, then the sides or what can be done, then what the keys do.

use super::choices::{Choices, elsewhere};
use super::sides::Sides;
use super::{State, Way};
use crate::controls::{Input, Row};
use crate::dates;
use crate::model::Model;
use crate::popups::fields::{self, About};
use crate::record::Line as PlanLine;
use crate::report::words;
use crate::ui::list::{Follow, first_seen, list};
use crate::ui::{Role, fit, line_of, panel, put, rows, shorten, typed, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Cells of the mark and the label of a field.
const LABEL: u16 = 20;
/// Rows above the fields: who, and when.
const HEAD: usize = 2;

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let unsettled = state.shown()?;
    let of = format!("{} of {}", state.at.saturating_add(1), state.all.len());
    let title = format!("To settle, {of}: {}", words::settle_about(unsettled));
    match &state.way {
        Way::Sides(sides) => side_by_side(sides, model, frame, (area, &title)),
        Way::Choices(choices) => {
            let said = words::settle(unsettled, model.system());
            let other = elsewhere(unsettled, model);
            Some(to_choose(choices, model, frame, (area, &title), (&said, other)))
        }
    }
}

/// What it is in words, what can be done, and why the last try was refused.
fn to_choose(
    choices: &Choices,
    model: &Model,
    frame: &mut Frame<'_>,
    (area, title): (Rect, &str),
    (said, elsewhere): (&str, Option<String>),
) -> Position {
    let look = model.look;
    let cells = usize::from(area.width);
    let mut above: Vec<String> = wrap(said, cells);
    above.push(String::new());
    above.extend(elsewhere.into_iter().flat_map(|text| wrap(&text, cells)));
    let fault: Vec<String> = choices.fault.iter().flat_map(|fault| wrap(&format!("! {fault}"), cells)).collect();
    let many = choices.all.len();
    let wanted = above.len().saturating_add(many).saturating_add(fault.len()).saturating_add(3);
    let body = panel(frame, area, wanted, title, look);
    let (top, rest) = rows(body, u16::try_from(above.len()).unwrap_or(u16::MAX));
    crate::ui::list::text(frame, top, 0, above.into_iter().map(Line::raw));
    let (middle, below) = rows(rest, u16::try_from(many).unwrap_or(u16::MAX));
    let row = |at: usize, chosen: bool| {
        let Some(choice) = choices.all.get(at) else { return Line::default() };
        let mark = if chosen { look.glyphs().here } else { " " };
        let text = fit(&format!("{mark} {}  {}", choice.key, choice.text), usize::from(middle.width));
        Line::from(Span::styled(text, look.style(if chosen { Role::Chosen } else { Role::Plain })))
    };
    let cursor = list(frame, middle, (choices.list.cursor(), many), Follow::Edge, row);
    let act = look.style(Role::Act);
    crate::ui::list::text(frame, below, 0, fault.into_iter().map(|text| Line::styled(text, act)));
    if many == 0 { Position { x: top.x, y: top.y } } else { cursor }
}

/// The columns: before, each side, and what is to hold.
struct Columns {
    /// Cells of each.
    cells: u16,
    /// Cells of what is to hold: the rest of the row.
    holds: u16,
    before: bool,
    sides: u16,
}

impl Columns {
    fn of(sides: &Sides, width: u16) -> Self {
        let before = sides.of.before.is_some();
        let many = u16::try_from(sides.of.lines.len()).unwrap_or(u16::MAX);
        let columns = many.saturating_add(1).saturating_add(u16::from(before));
        let room = width.saturating_sub(LABEL);
        let cells = room.checked_div(columns).unwrap_or(room).min(26);
        let holds = room.saturating_sub(cells.saturating_mul(columns.saturating_sub(1)));
        Self { cells, holds, before, sides: many }
    }

    /// The place of a column in a row, counted from the one after the label.
    fn place(&self, line: Rect, at: u16) -> Rect {
        let x = line.x.saturating_add(LABEL).saturating_add(self.cells.saturating_mul(at));
        let width = if at >= self.last() { self.holds } else { self.cells };
        Rect { x, width, ..line }.intersection(line)
    }

    /// The column of what is to hold.
    fn last(&self) -> u16 {
        self.sides.saturating_add(u16::from(self.before))
    }
}

fn side_by_side(sides: &Sides, model: &Model, frame: &mut Frame<'_>, (area, title): (Rect, &str)) -> Option<Position> {
    let look = model.look;
    let many = sides.fields.shown().count();
    let words = below(sides, model, usize::from(area.width));
    let wanted = HEAD.saturating_add(many).saturating_add(words.len()).saturating_add(1);
    let body = panel(frame, area, wanted, title, look);
    let columns = Columns::of(sides, body.width);
    head(sides, &columns, frame, body, look);
    let room = usize::from(body.height).saturating_sub(HEAD).saturating_sub(words.len()).max(1).min(many);
    let (_, rest) = rows(body, u16::try_from(HEAD).unwrap_or(0));
    let (middle, last) = rows(rest, u16::try_from(room).unwrap_or(u16::MAX));
    let marked = sides.fields.marked_at();
    let top = first_seen(marked, many, room, Follow::Edge);
    let mut cursor = None;
    for (line, (at, row)) in sides.fields.shown().enumerate().skip(top).take(room).enumerate() {
        let line = line_of(middle, line);
        cursor = field(sides, (row, at == marked), &columns, model, (frame, line)).or(cursor);
    }
    let words = words.into_iter().map(|(text, role)| Line::from(Span::styled(text, look.style(role))));
    crate::ui::list::text(frame, last, 0, words);
    cursor
}

/// Who wrote each side, and when.
fn head(sides: &Sides, columns: &Columns, frame: &mut Frame<'_>, body: Rect, look: crate::input::Look) {
    let mut texts: Vec<(String, String)> = Vec::new();
    if columns.before {
        let before = sides.of.before.as_ref();
        texts.push(("before".to_owned(), before.map(when).unwrap_or_default()));
    }
    for ((who, line), key) in sides.whose().into_iter().zip(&sides.of.lines).zip(1..) {
        texts.push((format!("{key} {who}"), when(line)));
    }
    texts.push(("  to hold".to_owned(), String::new()));
    for (at, (who, when)) in (0..).zip(texts) {
        for (row, text) in [(0, who), (1, when)] {
            let place = columns.place(line_of(body, row), at);
            let room = usize::from(place.width.saturating_sub(1));
            put(frame, place, 0, Span::styled(shorten(&text, room), look.style(Role::Head)));
        }
    }
}

/// When a line was written.
fn when(line: &PlanLine) -> String {
    let at = line.revision().and_then(|revision| revision.at);
    at.map_or_else(String::new, |at| format!("{} {}", dates::short(at.date_naive()), dates::time(&at)))
}

/// A field: before, each side, and what is to hold; the place of the cursor where it is the selected one.
fn field(
    sides: &Sides,
    (row, marked): (&Row<About>, bool),
    columns: &Columns,
    model: &Model,
    (frame, line): (&mut Frame<'_>, Rect),
) -> Option<Position> {
    let look = model.look;
    let mark = if marked { look.glyphs().here } else { " " };
    let label = fit(&format!("{mark} {}", row.label), usize::from(LABEL));
    put(frame, line, 0, Span::styled(label, look.style(if marked { Role::Title } else { Role::Label })));
    if let Some(field) = row.name.field() {
        let all = sides.of.before.iter().chain(&sides.of.lines);
        for (at, of) in (0..).zip(all) {
            let place = columns.place(line, at);
            let text = shorten(&sides.shown(of, field, model), usize::from(place.width.saturating_sub(1)));
            put(frame, place, 0, Span::raw(text));
        }
    }
    let place = columns.place(line, columns.last());
    let cells = usize::from(place.width.saturating_sub(2));
    let here = Position { x: place.x.saturating_add(2), y: place.y };
    let open = sides.is_open(row.name);
    let text = match &row.input {
        Input::Text(text) if marked && sides.is_typing() => {
            let room = usize::from(place.width.saturating_sub(3));
            return typed(frame, place, (text.text(), text.cursor(), text.scroll(room)), look);
        }
        _ if open => {
            put(frame, place, 0, Span::styled(fit("? choose", cells), look.style(Role::Act)));
            return marked.then_some(here);
        }
        Input::Text(text) if text.text().is_empty() => "none".to_owned(),
        Input::Text(text) => text.text().to_owned(),
        Input::One(all, at) => at.and_then(|at| all.get(at)).map_or("-", |choice| choice.text.as_str()).to_owned(),
        Input::Many(all, on) => {
            let texts: Vec<&str> = all.iter().zip(on).filter(|(_, on)| **on).map(|(c, _)| c.text.as_str()).collect();
            if texts.is_empty() { "none".to_owned() } else { texts.join(", ") }
        }
    };
    put(frame, place, 0, Line::raw(format!("  {}", fit(&text, cells))));
    marked.then_some(here)
}

/// What the selected field takes, what is wrong with it, and what the keys do.
fn below(sides: &Sides, model: &Model, cells: usize) -> Vec<(String, Role)> {
    let mut said: Vec<(String, Role)> = vec![(String::new(), Role::Plain)];
    let mut say = |text: &str, role: Role| said.extend(wrap(text, cells).into_iter().map(|line| (line, role)));
    if let Some(row) = sides.fields.marked() {
        match (&row.fault, row.name.field()) {
            (Some(fault), _) => say(&format!("! {} {fault}", row.label), Role::Act),
            (None, Some(field)) if sides.is_typing() => {
                say(&format!("{}: {}", row.label, fields::beside(row, field, model)), Role::Dim);
            }
            (None, _) => say(&format!("{}: {}.", row.label, sides.ways()), Role::Plain),
        }
        for line in crate::ui::fields::picks("", &row.input, cells) {
            if row.name.field().is_some() {
                say(&line, Role::Dim);
            }
        }
    }
    if let Some(fault) = &sides.fault {
        say(&format!("! {fault}"), Role::Act);
    }
    let open = sides.fields.all().any(|row| sides.is_open(row.name));
    let enter = if open { "" } else { "Enter writes one line in the place of both. " };
    say(
        &format!("{enter}A value that begins with 1 or 2: Backspace first, then type. Until then the last line holds."),
        Role::Dim,
    );
    said
}
