//! How the Mixing page looks: its pages in a row, the fields with what they take or what is wrong beside them, the answer below.

use super::State;
use super::fields::Spec;
use crate::model::{MixTab, Model};
use crate::report::mix::Tone;
use crate::ui::{Role, fit, put, rows, typed, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Cells of the mark and the label.
const LABEL: u16 = 15;
/// Cells of what is typed.
const INPUT: u16 = 24;
/// Rows above the fields: the pages, the benches in words.
const HEAD: u16 = 2;
/// Rows between fields and answer at most: what the field marked takes, or its fault in full.
const TOLD: u16 = 2;

/// Where the fields and the answer stand.
struct Places {
    fields: Rect,
    told: Rect,
    answer: Rect,
}

fn places(state: &State, area: Rect) -> Places {
    let (_, rest) = rows(area, HEAD);
    let many = u16::try_from(state.shown().len()).unwrap_or(u16::MAX);
    let (fields, rest) = rows(rest, many.min((rest.height / 2).max(1)));
    let lines = u16::try_from(told_lines(state, area.width).len()).unwrap_or(TOLD);
    let (told, answer) = rows(rest, lines.clamp(1, TOLD));
    Places { fields, told, answer }
}

/// The rows shown of the answer, and how many it has, in a window of the size last told.
pub(super) fn answer_size(state: &State, shared: &Model) -> (usize, usize) {
    let (columns, height) = shared.size;
    // The frame takes four rows or so around the page.
    let area = Rect { x: 0, y: 0, width: columns, height: height.saturating_sub(4) };
    let rows = state.work.page.rows(usize::from(columns)).len();
    (answer_room(usize::from(places(state, area).answer.height), rows), rows)
}

/// Draws it.
pub fn view(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = shared.look;
    let mut tabs = Vec::new();
    for (i, tab) in MixTab::ALL.into_iter().enumerate() {
        let role = if tab == state.tab { Role::Chosen } else { Role::Plain };
        let mark = if tab == state.tab { look.glyphs().here } else { " " };
        tabs.push(Span::styled(format!("F{}", i.saturating_add(2)), look.style(Role::Key)));
        tabs.push(Span::styled(format!("{mark}{} ", tab.text()), look.style(role)));
        tabs.push(Span::raw(" "));
    }
    put(frame, area, 0, Line::from(tabs));
    put(frame, area, 1, Span::raw(fit(&format!("For {}", state.work.ground), usize::from(area.width))));
    let places = places(state, area);
    let cursor = fields(state, shared, frame, places.fields);
    told(state, shared, frame, places.told);
    answer(state, shared, frame, places.answer);
    cursor
}

fn fields(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let shown = state.shown();
    let room = usize::from(area.height);
    let top = state.at.saturating_add(1).saturating_sub(room);
    let mut cursor = None;
    for (i, (at, spec)) in shown.iter().enumerate().skip(top).take(room).enumerate() {
        let y = area.y.saturating_add(u16::try_from(i).unwrap_or(u16::MAX));
        let line = Rect { y, height: 1, ..area }.intersection(area);
        cursor = field(state, shared, frame, line, (spec, at == state.at)).or(cursor);
    }
    cursor
}

fn field(
    state: &State,
    shared: &Model,
    frame: &mut Frame<'_>,
    line: Rect,
    (spec, marked): (&Spec, bool),
) -> Option<Position> {
    let look = shared.look;
    let mark = if marked { look.glyphs().here } else { " " };
    let star = if spec.required { "*" } else { " " };
    let label = fit(&format!("{mark} {}{star}", spec.label), usize::from(LABEL));
    put(frame, line, 0, Span::styled(label, look.style(if marked { Role::Title } else { Role::Label })));
    let left = LABEL.min(line.width);
    let rest = line.width.saturating_sub(left);
    let place = Rect { x: line.x.saturating_add(left), width: INPUT.min(rest), ..line };
    let field = state.fields.get(spec.name)?;
    let cursor = if marked {
        let room = usize::from(place.width.saturating_sub(3));
        typed(frame, place, (field.text(), field.cursor(), field.scroll(room)), look)
    } else {
        let text = fit(field.text(), usize::from(place.width.saturating_sub(2)));
        put(frame, place, 0, Line::raw(format!("  {text}")));
        None
    };
    let beside = Rect { x: place.right(), width: rest.saturating_sub(INPUT), ..line };
    let cells = usize::from(beside.width);
    match state.fault(*spec) {
        Some(fault) => put(frame, beside, 0, Span::styled(fit(&format!("! {fault}"), cells), look.style(Role::Act))),
        None => put(frame, beside, 0, Line::raw(fit(spec.hint, cells))),
    }
    cursor
}

/// What is told of the field marked.
fn told_text(state: &State) -> (String, Role) {
    let Some(spec) = state.marked() else { return (String::new(), Role::Plain) };
    let full = state.fields.get(spec.name).is_some_and(|f| f.full);
    match state.fault(spec) {
        Some(fault) => (format!("! {}: {fault}", spec.label.trim()), Role::Act),
        None if full => (format!("! cut off: a line takes {} characters", crate::controls::MOST), Role::Act),
        None => (format!("{}: {}", spec.label.trim(), spec.hint), Role::Said),
    }
}

fn told_lines(state: &State, width: u16) -> Vec<String> {
    wrap(&told_text(state).0, usize::from(width))
}

/// What the field marked takes, or what is wrong with it, in full.
fn told(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) {
    let role = told_text(state).1;
    for (i, line) in told_lines(state, area.width).into_iter().take(usize::from(area.height)).enumerate() {
        put(frame, area, i, Span::styled(line, shared.look.style(role)));
    }
}

fn answer(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) {
    let look = shared.look;
    let rows = state.work.page.rows(usize::from(area.width));
    if rows.is_empty() {
        put(frame, area, 0, Line::raw("Type what is marked * to see what to measure out."));
    }
    let room = answer_room(usize::from(area.height), rows.len());
    let top = state.top.min(rows.len().saturating_sub(room));
    for (i, row) in rows.iter().skip(top).take(room).enumerate() {
        let role = match row.tone {
            Tone::Head => Role::Title,
            Tone::Plain => Role::Plain,
            Tone::Alarm => Role::Act,
        };
        put(frame, area, i, Span::styled(row.text.clone(), look.style(role)));
    }
    if rows.len() > room {
        let left = rows.len().saturating_sub(top.saturating_add(room));
        let text =
            if left > 0 { format!("PgDn: {left} more lines, the cautions last") } else { "PgUp: back".to_owned() };
        put(frame, area, usize::from(area.height.saturating_sub(1)), Span::styled(text, look.style(Role::Key)));
    }
}

/// The rows of an answer that are shown at once: its last one says how many more there are.
const fn answer_room(height: usize, rows: usize) -> usize {
    if rows > height { height.saturating_sub(1) } else { height }
}
