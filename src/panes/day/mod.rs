//! The day: what is done of what is due, flags by level, what is closed and until when, the nights, each lot's way to its sale,
//! the climate, what is not saved.

mod climate;
mod lots;
mod nights;
mod today;

pub use nights::{length, tonight};

use super::overview::OfHouse;
use super::{Overview, Seen, not_read, put_lines, sign};
use crate::model::Model;
use crate::review::ranges_of;
use crate::ui::regions::{self, TEXT};
use crate::ui::{Role, wrap};
use crate::warnings::{Severity, Whose};
use chrono::{DateTime, FixedOffset};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use std::collections::{BTreeMap, BTreeSet};

/// Rows that the benches of one level, or of one hour, take at most.
const MOST: usize = 3;
/// Troubles of lots and houses that are named.
const TROUBLES: usize = 8;

/// Draws the day. Where the area is low, what stands last is left out.
pub fn view(model: &Model, frame: &mut Frame<'_>, area: Rect) {
    view_of(&Overview::of(model), model, frame, area);
}

/// The same of benches that are read already.
pub fn view_of(all: &Overview<'_>, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let area = Rect { width: area.width.min(TEXT), ..area };
    let (cells, mut left) = (usize::from(area.width), usize::from(area.height));
    if let Some(why) = not_read(model) {
        put_lines(frame, area, vec![regions::headed(("today", ""), cells, model.look), Line::raw(why)]);
        return;
    }
    let houses = all.by_house();
    let parts = [
        today::lines(&houses, model, cells),
        flags((all, &houses), model, cells),
        closed(&houses, model, cells),
        saved(model, cells),
        nights::lines(model, cells),
        lots::lines(all, model, cells),
        climate::lines(&houses, model, cells),
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
fn flags((all, houses): (&Overview<'_>, &[OfHouse<'_>]), model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut levels: BTreeMap<Severity, usize> = BTreeMap::new();
    for level in all.benches.iter().filter_map(|seen| seen.level) {
        let benches = levels.entry(level).or_default();
        *benches = benches.saturating_add(1);
    }
    let mut lines = vec![regions::headed(("flagged", ""), cells, model.look)];
    for (level, benches) in levels.iter().rev() {
        let (sign, role) = sign(*level);
        let lead = format!(" {sign:<2} {:<6} {benches:>3}  ", level.code());
        lines.extend(places(model, (lead, role), (houses, cells), |seen| seen.level == Some(*level)));
    }
    for trouble in all.troubles.iter().take(TROUBLES) {
        let (sign, role) = sign(trouble.level);
        let lead = Span::styled(format!(" {sign:<2} {:<7}", trouble.level.code()), model.look.style(role));
        let place = match trouble.whose {
            Whose::Bench(code) => code.to_owned(),
            Whose::Lot(code) => format!("lot {code}"),
            Whose::House(name) => format!("house {name}"),
        };
        let text = crate::ui::shorten(&format!("{place} {}", trouble.title), cells.saturating_sub(lead.width()));
        lines.push(Line::from(vec![lead, Span::raw(text)]));
    }
    match all.troubles.len().saturating_sub(TROUBLES) {
        0 => {}
        more => lines.push(Line::from(Span::styled(format!(" and {more} more"), model.look.style(Role::Dim)))),
    }
    if levels.is_empty() && all.troubles.is_empty() {
        let text = if model.cache.is_fresh() { " none" } else { " not calculated yet" };
        lines.push(Line::from(Span::styled(text, model.look.style(Role::Dim))));
    }
    lines
}

/// The closed benches by the hour they open.
fn closed(houses: &[OfHouse<'_>], model: &Model, cells: usize) -> Vec<Line<'static>> {
    let hours: BTreeSet<DateTime<FixedOffset>> =
        houses.iter().flat_map(|(_, benches)| benches).filter_map(|seen| seen.closed).collect();
    if hours.is_empty() {
        return Vec::new();
    }
    let mut lines = vec![regions::headed(("closed", "until, by this log; follow the posted sign"), cells, model.look)];
    for until in hours {
        let lead = format!(" {}  ", model.day_and_time(until));
        lines.extend(places(model, (lead, Role::Closed), (houses, cells), |seen| seen.closed == Some(until)));
    }
    lines
}

/// The benches of which something holds, in ranges behind a lead, on a few rows.
fn places(
    model: &Model,
    (lead, role): (String, Role),
    (houses, cells): (&[OfHouse<'_>], usize),
    holds: impl Fn(&Seen<'_>) -> bool,
) -> Vec<Line<'static>> {
    let room = cells.saturating_sub(lead.len());
    let stands = |seen: &&Seen<'_>| match seen.summary {
        Some(summary) => summary.standing.is_some(),
        None => model.season.standing(&seen.bench.bench, model.day).is_some(),
    };
    let mut rows = wrap(&ranges_of(houses, |seen| &seen.bench.bench, |seen| holds(seen), stands), room);
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
