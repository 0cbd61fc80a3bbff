//! The days that were read, and the entries of the plots, the newest first, with a cursor on the one that would be voided.

use super::said;
use crate::dates;
use crate::model::Model;
use crate::record::{Entry, Plot};
use crate::report::entry;
use crate::screens::trial::State;
use crate::trials::{Over, Readings};
use crate::ui::list::{Follow, list, on_row};
use crate::ui::{Role, fit, put, rows};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Days of a reading that are listed.
const DAYS: usize = 6;

/// Draws it.
pub(super) fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let Some(readings) = &state.readings else { return on_row(area, 0) };
    let cells = usize::from(area.width);
    let days = days(state, readings, cells);
    let (head, body) = rows(area, u16::try_from(days.len().saturating_add(1)).unwrap_or(u16::MAX));
    for (row, line) in days.into_iter().enumerate() {
        put(frame, head, row, line);
    }
    let entries = state.entries(model);
    if entries.is_empty() {
        put(frame, body, 0, Line::raw("Nothing is logged of the plots yet."));
        return on_row(body, 0);
    }
    let look = model.look;
    let row = |at: usize, chosen: bool| {
        let text = entries.get(at).map(|entry| line(entry, readings, model)).unwrap_or_default();
        let (sign, role) = if chosen { (look.glyphs().here, Role::Chosen) } else { (" ", Role::Plain) };
        Line::from(Span::styled(fit(&format!("{sign} {text}"), cells).trim_end().to_owned(), look.style(role)))
    };
    let cursor = state.list.cursor().min(entries.len().saturating_sub(1));
    list(frame, body, (cursor, entries.len()), Follow::Center, row)
}

/// The last days of the reading shown, with how much of each was read.
fn days(state: &State, readings: &Readings, cells: usize) -> Vec<Line<'static>> {
    let days = readings.days(state.reading);
    let shown = match state.over() {
        Some(Over::Day(day)) => Some(day),
        _ => None,
    };
    let one = |read: &crate::trials::DayRead| {
        let mark = if Some(read.day) == shown { "*" } else { "" };
        format!("{} {} of {}{mark}", dates::short(read.day), read.read, read.living)
    };
    let listed: Vec<String> = days.iter().rev().take(DAYS).map(one).collect();
    let more = if days.len() > DAYS { format!(", {} earlier", days.len() - DAYS) } else { String::new() };
    let name = crate::record::Term::text(state.reading);
    if listed.is_empty() {
        return said(&format!("{name}: not read yet"), cells);
    }
    said(&format!("{name}, plots read: {}{more}   * shown", listed.join(", ")), cells)
}

/// An entry of a plot: `Oct 12 07:20  kt  plot 7, 12 g  height 15.0 in`.
fn line(entry: &Entry, readings: &Readings, model: &Model) -> String {
    let plot = readings.plots.iter().find(|plot| entry.plot.as_deref() == Some(plot.plot.as_str()));
    let of = |plot: &Plot| format!("plot {}, {}", plot.number(), plot.treatment);
    let pending = if model.pending.contains(&entry.id) { " *not yet saved" } else { "" };
    format!(
        "{:<7}{} {:<5} {} {}{pending}",
        dates::short(entry.day()),
        dates::time(&entry.at),
        entry.by,
        fit(&plot.map(of).unwrap_or_default(), 18),
        entry::line(entry, model.system())
    )
}
