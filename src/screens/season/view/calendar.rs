//! The calendars of all lots on one time axis.

use super::axis::{Axis, NAME, legend, named_bar, role};
use crate::model::Model;
use crate::report::series::{LotCalendar, Step};
use crate::screens::season::State;
use crate::ui::{Role, fit, list, put, rows, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Draws it in a narrow window.
pub(super) fn narrow(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let Some(axis) = Axis::new(model, area.width) else {
        put(frame, area, 0, Line::raw("No lots yet."));
        return;
    };
    let heads = format!("{}{}", " ".repeat(NAME), axis.heads());
    put(frame, area, 0, Span::styled(heads, model.look.style(Role::Head)));
    let legend = legend(usize::from(area.width));
    let foot = u16::try_from(legend.len()).unwrap_or(0);
    let room = area.height.saturating_sub(foot.saturating_add(1));
    let lines = state.calendars.all().iter().flat_map(|c| lot(c, &axis, model));
    let (_, body) = rows(area, 1);
    let (body, below) = rows(body, room);
    list::text(frame, body, state.list.top(), lines);
    list::text(frame, below, 0, legend.into_iter().map(Line::raw));
}

/// The rows of one lot.
fn lot(calendar: &LotCalendar, axis: &Axis, model: &Model) -> Vec<Line<'static>> {
    let title = format!("{}  {}", calendar.lot, calendar.title);
    let mut lines = vec![Line::from(Span::styled(title, model.look.style(Role::Title)))];
    for step in &calendar.steps {
        let style = model.look.style(role(step.state));
        let word = step.state.word();
        // The word of the state first, then what is to be said of it.
        let wrapped = wrap(&format!("{word} {}", step.words), axis.words);
        for (i, words) in wrapped.into_iter().enumerate() {
            let (name, bar) = if i == 0 { (step.name, axis.bar(step)) } else { ("", " ".repeat(axis.cells)) };
            let (state, rest) = words.split_at_checked(if i == 0 { word.len() } else { 0 }).unwrap_or(("", &words));
            let mut spans = named_bar(name, &bar, style);
            spans.push(Span::raw(" "));
            spans.push(Span::styled(state.to_owned(), style));
            spans.push(Span::raw(rest.to_owned()));
            lines.push(Line::from(spans));
        }
    }
    let by = calendar.forecast.iter().flat_map(|by| wrap(by, axis.cells.saturating_add(axis.words)));
    let name = |row: usize| fit(if row == 0 { "  color forecast" } else { "" }, NAME);
    lines.extend(by.enumerate().map(|(row, text)| Line::raw(format!("{}{text}", name(row)))));
    lines.push(Line::default());
    lines
}

/// Draws the list of a wide window; gives the place of the cursor.
pub(super) fn wide(state: &State, chosen: usize, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let Some(axis) = Axis::bars(model, area.width) else {
        put(frame, area, 0, Line::raw("No lots yet."));
        return Position { x: area.x, y: area.y };
    };
    let heads = format!("{}{}", " ".repeat(NAME), axis.heads());
    put(frame, area, 0, Span::styled(heads, model.look.style(Role::Dim)));
    let legend = legend(usize::from(area.width));
    let foot = u16::try_from(legend.len()).unwrap_or(0);
    let (_, body) = rows(area, 1);
    let (body, below) = rows(body, body.height.saturating_sub(foot));
    let mut lines = Vec::new();
    let (mut first, mut last) = (0, 0);
    for (at, calendar) in state.calendars.all().iter().enumerate() {
        if at == chosen {
            first = lines.len();
        }
        lines.push(title(calendar, at == chosen, model, usize::from(body.width)));
        lines.extend(calendar.steps.iter().map(|step| bar(step, &axis, model)));
        if at == chosen {
            last = lines.len();
        }
        lines.push(Line::default());
    }
    // The whole lot under the cursor is seen, its title whatever the room.
    let top = last.saturating_sub(usize::from(body.height)).min(first);
    list::text(frame, body, top, lines);
    list::text(frame, below, 0, legend.into_iter().map(|text| Line::styled(text, model.look.style(Role::Dim))));
    list::on_row(body, first.saturating_sub(top))
}

/// The first row of a lot, across the whole list.
fn title(calendar: &LotCalendar, chosen: bool, model: &Model, cells: usize) -> Line<'static> {
    let mark = if chosen { model.look.glyphs().here } else { " " };
    let text = fit(&format!("{mark} {}  {}", calendar.lot, calendar.title), cells);
    Line::styled(text, model.look.style(if chosen { Role::Chosen } else { Role::Title }))
}

fn bar(step: &Step, axis: &Axis, model: &Model) -> Line<'static> {
    Line::from(named_bar(step.name, &axis.bar(step), model.look.style(role(step.state))))
}
