//! What is known of one bench: two weeks of water, how it dries, its height against the window, its warnings with what to do,
//! the last lines of its log.

mod height;
mod log;
mod warned;
mod water;

use super::{flow, not_read, put_lines};
use crate::dates;
use crate::model::Model;
use crate::ui::regions::TEXT;
use crate::ui::{Role, wrap};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use std::cell::LazyCell;

/// The fewest lines of the log that are worth a region of their own, its heading among them.
const LEAST_LOG: usize = 3;

/// Draws what is known of a bench. Where the area is low the least needed goes first: lines of the log, then the picture of the
/// heights, then all but the first step of each warning.
pub fn view(model: &Model, bench: &str, frame: &mut Frame<'_>, area: Rect) {
    draw(model, bench, frame, area, true);
}

/// The same for a page that says itself what stands on the bench.
pub fn without_head(model: &Model, bench: &str, frame: &mut Frame<'_>, area: Rect) {
    draw(model, bench, frame, area, false);
}

fn draw(model: &Model, bench: &str, frame: &mut Frame<'_>, area: Rect, headed: bool) {
    let area = Rect { width: area.width.min(TEXT), ..area };
    let size = (usize::from(area.width), usize::from(area.height));
    let above = if headed { head(model, bench, size.0) } else { Vec::new() };
    let mut lines = lines(model, bench, size, above);
    if lines.first().is_some_and(|line| line.spans.is_empty()) {
        lines.remove(0);
    }
    put_lines(frame, area, lines);
}

/// The lines that have room in so many cells and rows, after those above them.
fn lines(
    model: &Model,
    bench: &str,
    (cells, rows): (usize, usize),
    mut lines: Vec<Line<'static>>,
) -> Vec<Line<'static>> {
    if let Some(why) = not_read(model) {
        lines.push(Line::raw(why));
        return lines;
    }
    if model.season.bench(bench).is_none() {
        return vec![Line::raw("No bench is chosen.")];
    }
    let history = model.season.history(bench, model.day);
    if history.standing.is_some() {
        lines.push(Line::default());
        lines.extend(water::lines(&history, model, cells));
        lines.extend(dries(model, bench, cells));
    }
    let picture = height::lines(model, bench, cells);
    let words: Vec<Line<'static>> = picture.first().cloned().into_iter().collect();
    let whole = warned::lines(model, bench, cells, usize::MAX);
    let short = LazyCell::new(|| warned::lines(model, bench, cells, 1));
    let left = |parts: &[&Vec<Line<'static>>]| {
        let taken: usize = parts.iter().filter(|part| !part.is_empty()).map(|part| part.len().saturating_add(1)).sum();
        rows.checked_sub(lines.len().saturating_add(taken))
    };
    let fits = |parts: &[&Vec<Line<'static>>]| left(parts).is_some();
    let parts = match [[&picture, &whole], [&words, &whole]].into_iter().find(|parts| fits(parts)) {
        Some(parts) => parts.to_vec(),
        None if fits(&[&words, &short]) => vec![&words, &short],
        None => vec![&*short],
    };
    let room = left(&parts).and_then(|room| room.checked_sub(1)).unwrap_or(0);
    let log = if room >= LEAST_LOG { log::lines(model, bench, (cells, room)) } else { Vec::new() };
    for part in parts.into_iter().chain([&log]).filter(|part| !part.is_empty()) {
        lines.push(Line::default());
        lines.extend(part.iter().cloned());
    }
    lines
}

/// What stands on it, and whether one may go there.
fn head(model: &Model, bench: &str, cells: usize) -> Vec<Line<'static>> {
    let mut pieces = vec![Span::styled(bench.to_owned(), model.look.style(Role::Title))];
    match model.season.standing(bench, model.day) {
        None => pieces.push(Span::raw("empty")),
        Some(standing) => {
            let lot = model.season.lot(&standing.lot);
            let kind = lot.map(|lot| format!(" {}, {}", lot.cultivar, lot.container)).unwrap_or_default();
            pieces.push(Span::raw(format!("{}{kind}", standing.lot)));
            pieces.push(Span::raw(format!("{} pots", standing.pots)));
            if let Some(lot) = lot {
                let days = |from, to| dates::days_between(from, to);
                pieces.push(Span::raw(format!("day {}", days(lot.planted, model.day))));
                let left = days(model.day, lot.ready_by);
                let when = if left < 0 { String::new() } else { format!(" ({left} d)") };
                pieces.push(Span::raw(format!("sale {}{when}", dates::short(lot.ready_by))));
            }
        }
    }
    let mut lines = flow(pieces, (cells, 3));
    if let Some(until) = model.closed_until(bench) {
        let text = format!("CLOSED until {} (by this log; follow the posted sign)", model.day_and_time(until));
        let style = model.look.style(Role::Closed);
        lines.extend(wrap(&text, cells).into_iter().map(|line| Line::from(Span::styled(line, style))));
    }
    lines
}

/// How fast it dries, beside its lot and the times before.
fn dries(model: &Model, bench: &str, cells: usize) -> Vec<Line<'static>> {
    let text = model.cache.dries(bench, model.day).unwrap_or_default();
    let lines = wrap(&text, cells.saturating_sub(1)).into_iter().filter(|line| !line.is_empty());
    lines.map(|line| Line::raw(format!(" {line}"))).collect()
}
