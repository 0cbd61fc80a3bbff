//! The day: what is done of what is due, flags by level, what is closed and until when, the nights, each lot's way to its sale,
//! the climate, what is not saved.

mod climate;
mod lots;
mod nights;
mod today;

pub use nights::{length, tonight};

use super::{not_read, own_level, put_lines, sign};
use crate::model::Model;
use crate::review::ranges;
use crate::ui::regions::{self, TEXT};
use crate::ui::{Role, wrap};
use crate::warnings::{Severity, Whose};
use chrono::{DateTime, FixedOffset};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use std::collections::BTreeMap;

/// Rows that the benches of one level, or of one hour, take at most.
const MOST: usize = 3;

/// Draws the day. Where the area is low, what stands last is left out.
pub fn view(model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let area = Rect { width: area.width.min(TEXT), ..area };
    let (cells, mut left) = (usize::from(area.width), usize::from(area.height));
    if let Some(why) = not_read(model) {
        put_lines(frame, area, vec![regions::headed(("today", ""), cells, model.look), Line::raw(why)]);
        return;
    }
    let parts = [
        today::lines(model, cells),
        flags(model, cells),
        closed(model, cells),
        saved(model, cells),
        nights::lines(model, cells),
        lots::lines(model, cells),
        climate::lines(model, cells),
    ];
    let mut lines: Vec<Line<'static>> = Vec::new();
    for part in parts.into_iter().filter(|part| !part.is_empty()) {
        let gap = usize::from(!lines.is_empty());
        let Some(room) = left.checked_sub(gap).filter(|room| *room >= part.len().min(3)) else { break };
        if gap > 0 {
            lines.push(Line::default());
        }
        let shown = part.len().min(room);
        left = room.saturating_sub(shown);
        lines.extend(part.into_iter().take(shown));
    }
    put_lines(frame, area, lines);
}

/// The benches with trouble of their own, by level, in ranges; then what concerns whole lots and houses.
fn flags(model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut levels: BTreeMap<Severity, Vec<String>> = BTreeMap::new();
    for bench in model.season.benches() {
        if let Some(level) = own_level(model, &bench.bench) {
            levels.entry(level).or_default().push(bench.bench.clone());
        }
    }
    let mut lines = vec![regions::headed(("flagged", ""), cells, model.look)];
    for (level, benches) in levels.iter().rev() {
        let (sign, role) = sign(*level);
        let lead = format!(" {sign:<2} {:<6} {:>3}  ", level.code(), benches.len());
        lines.extend(places(model, (lead, role), benches, cells));
    }
    let shared = shared(model);
    for (place, level, title) in &shared {
        let (sign, role) = sign(*level);
        let lead = Span::styled(format!(" {sign:<2} {:<7}", level.code()), model.look.style(role));
        let text = crate::ui::shorten(&format!("{place} {title}"), cells.saturating_sub(lead.width()));
        lines.push(Line::from(vec![lead, Span::raw(text)]));
    }
    if levels.is_empty() && shared.is_empty() {
        let text = if model.cache.is_fresh() { " none" } else { " not calculated yet" };
        lines.push(Line::from(Span::styled(text, model.look.style(Role::Dim))));
    }
    lines
}

/// The troubles of lots and houses as a whole, each once, the most severe first: where, how severe, what.
fn shared(model: &Model) -> Vec<(String, Severity, &'static str)> {
    let mut all: BTreeMap<(Whose<'_>, &'static str), Severity> = BTreeMap::new();
    for warning in model.cache.warnings(&model.season).filter(|w| w.put_off_until.is_none()) {
        let whose = model.cache.whose(warning);
        if !matches!(whose, Whose::Bench(_)) {
            let level = all.entry((whose, warning.name.title())).or_insert(warning.level);
            *level = (*level).max(warning.level);
        }
    }
    let place = |whose: Whose<'_>| match whose {
        Whose::Bench(code) => code.to_owned(),
        Whose::Lot(code) => format!("lot {code}"),
        Whose::House(name) => format!("house {name}"),
    };
    let mut all: Vec<_> = all.into_iter().map(|((whose, title), level)| (place(whose), level, title)).collect();
    all.sort_by_key(|(_, level, _)| std::cmp::Reverse(*level));
    all
}

/// The closed benches by the hour they open.
fn closed(model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut hours: BTreeMap<DateTime<FixedOffset>, Vec<String>> = BTreeMap::new();
    for bench in model.season.benches() {
        if let Some(until) = model.closed_until(&bench.bench) {
            hours.entry(until).or_default().push(bench.bench.clone());
        }
    }
    if hours.is_empty() {
        return Vec::new();
    }
    let mut lines = vec![regions::headed(("closed", "until, by this log; follow the posted sign"), cells, model.look)];
    for (until, benches) in hours {
        let lead = format!(" {}  ", model.day_and_time(until));
        lines.extend(places(model, (lead, Role::Closed), &benches, cells));
    }
    lines
}

/// Benches in ranges behind a lead, on a few rows.
fn places(model: &Model, (lead, role): (String, Role), benches: &[String], cells: usize) -> Vec<Line<'static>> {
    let room = cells.saturating_sub(lead.len());
    let mut rows = wrap(&ranges(&model.season, benches, model.day), room);
    if rows.len() > MOST {
        let rest = rows.split_off(MOST.saturating_sub(1)).join(" ");
        rows.push(crate::ui::shorten(&rest, room));
    }
    let indent = " ".repeat(lead.len());
    let mut leads = vec![Span::styled(lead, model.look.style(role))].into_iter();
    let row =
        |text: String| Line::from(vec![leads.next().unwrap_or_else(|| Span::raw(indent.clone())), Span::raw(text)]);
    rows.into_iter().map(row).collect()
}

/// What is shown and not yet safe in the file.
fn saved(model: &Model, cells: usize) -> Vec<Line<'static>> {
    let (text, role) = match model.pending.len() {
        0 => return Vec::new(),
        1 => (" 1 line".to_owned(), Role::Pending),
        n => (format!(" {n} lines"), Role::Pending),
    };
    let heading = regions::headed(("not saved yet", ""), cells, model.look);
    vec![heading, Line::from(Span::styled(text, model.look.style(role)))]
}
