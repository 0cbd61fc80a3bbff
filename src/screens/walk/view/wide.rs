//! The Walk card in a wide window: the progress of the walk and the next benches across it, the card left, what is known of
//! the bench beside it, the day where there is room for it.

use super::super::{State, shut};
use super::{all_done, ask, asked, flow, large, row_of_checks, scale, strip, warned};
use crate::dates;
use crate::model::{Model, walk_order};
use crate::panes;
use crate::ui::regions::{Regions, Room, TALL, rule};
use crate::ui::{Letters, Role, put, rows, shorten, width, wrap};
use crate::warnings::Severity;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// The least cells beside large letters that facts are read in.
const FACTS: usize = 26;
/// Cells between the map of the walk and the next benches, at least and at most.
const GAP: usize = 4;
const MOST_GAP: usize = 18;
/// Benches named after `next`.
const NEXT: usize = 5;
/// Rows a check takes whose answer is typed: how, the line, and why it was refused.
const TYPED: usize = 4;
/// Rows of what is said of a bench that cannot be walked.
const SHUT_ROWS: usize = 6;

/// True where the window is wide enough for this card.
pub(super) fn is(model: &Model) -> bool {
    Room::of(model.size.0) > Room::Narrow
}

/// Draws it.
pub(super) fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let (top, body) = rows(area, 1);
    let all = panes::Overview::of(model);
    head(state, &all, model, frame, top);
    let body = rule(frame, body, model.look);
    let why = state.shut(model);
    let (band, body) = rows(body, if why.is_some() { panes::shut::BAND } else { 0 });
    if let Some(why) = why {
        panes::shut::band(state.bench(), model, frame, band, why);
    }
    let regions = Regions::of(frame, body, card_width(body.width), model.look);
    let card = regions.list;
    if let Some(panel) = regions.panel {
        panes::bench::without_head(model, state.bench(), frame, panel);
    }
    if let Some(day) = regions.day {
        panes::day::view_of(&all, model, frame, day);
    }
    match why {
        Some(why) => {
            let below = bench(state, model, frame, card, SHUT_ROWS);
            shut::ways(state, model, frame, below, why);
            Some(Position { x: band.x.saturating_add(1), y: band.y.saturating_add(1) })
        }
        None => open(state, model, frame, card),
    }
}

/// Cells of the card: what is typed and asked needs no more, so what is spare goes to the panel.
const fn card_width(columns: u16) -> u16 {
    match columns {
        0..120 => 58,
        120..176 => 62,
        _ => 66,
    }
}

/// How far the walk got, and which benches come next. These stand over the panel where that is no wide gap.
fn head(state: &State, all: &panes::Overview<'_>, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let next = next(state, model, usize::from(area.width / 2));
    let room = usize::from(area.width).saturating_sub(next.width()).saturating_sub(GAP);
    let map = panes::progress::line(all, model, room);
    let panel = usize::from(card_width(area.width)).saturating_add(3);
    let gap = panel.saturating_sub(map.width()).clamp(GAP, MOST_GAP).min(room.saturating_sub(map.width()).max(GAP));
    let mut spans = map.spans;
    spans.push(Span::raw(" ".repeat(gap)));
    spans.extend(next.spans);
    put(frame, area, 0, Line::from(spans));
}

/// The benches that come next, as many as have room, with the sign of what is wrong there; one that is closed is passed over,
/// and has an `x`.
fn next(state: &State, model: &Model, cells: usize) -> Line<'static> {
    let look = model.look;
    let ahead = walk_order::ahead(model, state.bench(), NEXT);
    let none = if ahead.is_empty() { "no other bench left" } else { "next" };
    let mut spans = vec![Span::styled(none, look.style(Role::Dim))];
    let mut used = none.len();
    for next in ahead {
        let (sign, role) = match (next.is_closed, next.level) {
            (true, _) => (" x", Role::Dim),
            (false, Some(level @ (Severity::Act | Severity::Urgent))) => panes::sign(level),
            (false, Some(Severity::Watch) | None) => ("", Role::Plain),
        };
        let name = if next.is_closed { Role::Dim } else { Role::Plain };
        let one = [Span::styled(format!("  {}", next.bench), look.style(name)), Span::styled(sign, look.style(role))];
        used = one.iter().map(Span::width).fold(used, usize::saturating_add);
        if used > cells {
            break;
        }
        spans.extend(one);
    }
    Line::from(spans)
}

/// The card of a bench that can be walked: the code, the checks, what is asked.
fn open(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let strip = strip(state, model);
    let cells = usize::from(area.width);
    let lines = flow(&strip, cells);
    let asked = match state.check() {
        None => wrap(&all_done(state, model), cells).len(),
        Some(check) => asked(state, model, check, cells).len().saturating_add(match scale(check).digits.len() {
            0 => TYPED,
            digits => digits.saturating_add(1),
        }),
    };
    let needed = lines.len().saturating_add(1).saturating_add(asked);
    let below = bench(state, model, frame, area, needed);
    let (above, rest) = rows(below, u16::try_from(lines.len()).unwrap_or(1).saturating_add(1));
    let cursor = row_of_checks(&strip, &lines, model, frame, above);
    ask(state, model, frame, rest).or(cursor)
}

/// The code as large as leaves so many rows below it, with what is known of the bench beside it, or below it where the code is
/// long; gives the room below.
fn bench(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect, needed: usize) -> Rect {
    let spare = usize::from(area.height).saturating_sub(needed).saturating_sub(1);
    let (lines, beside) = code(state.bench(), usize::from(area.width), (model.size.1 >= TALL, spare));
    let high = u16::try_from(lines.len()).unwrap_or(1);
    let (top, below) = rows(area, high);
    let blank = u16::from(spare > 0);
    for (row, line) in lines.iter().enumerate() {
        put(frame, top, row, large(line, model));
    }
    if beside {
        let taken = lines.iter().map(|line| width(line)).max().unwrap_or(0).saturating_add(3);
        let right = Rect { x: top.x.saturating_add(taken), width: top.width.saturating_sub(taken), ..top };
        facts(state, model, frame, right);
        return rows(below, blank).1;
    }
    let left = u16::try_from(spare).unwrap_or(0).saturating_sub(high);
    let known = facts(state, model, frame, rows(below, left).0);
    rows(below, u16::try_from(known).unwrap_or(0).saturating_add(blank)).1
}

/// The largest letters for a code in so many cells and rows, and whether there is room for facts beside them.
fn code(code: &str, cells: usize, (tall, rows): (bool, usize)) -> (Vec<String>, bool) {
    let beside = cells.saturating_sub(FACTS);
    let choices = [
        (Letters::TALL, beside, tall),
        (Letters::SLIM, beside, tall),
        (Letters::LOW, beside, true),
        (Letters::SLIM, cells, tall),
        (Letters::LOW, cells, true),
    ];
    let mut fitting = choices.into_iter().filter(|(letters, _, can)| *can && letters.height() <= rows);
    let found = fitting.find_map(|(letters, room, _)| Some((letters.code(code, room)?, room == beside)));
    found.unwrap_or_else(|| (vec![format!(">> {code} <<")], false))
}

/// What is known of the bench, its strongest warnings last; gives the rows taken.
fn facts(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> usize {
    let (room, cells) = (usize::from(area.height), usize::from(area.width));
    let mut lines = known(state, model, cells);
    // What is only to be watched stands in the panel.
    let warned = warned(model, state.bench(), Severity::Act);
    lines.truncate(room.saturating_sub(warned.len()));
    lines.extend(warned);
    let taken = lines.len().min(room);
    for (row, line) in lines.into_iter().enumerate() {
        put(frame, area, row, line);
    }
    taken
}

/// What grows on the bench, where it stands, and what was seen last, in lines of so many cells.
fn known(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut pairs: Vec<(&str, String)> = Vec::new();
    let mut lines = Vec::new();
    if let Some(bench) = model.season.bench(state.bench()) {
        let all = model.season.benches();
        let house: Vec<_> = all.iter().filter(|b| b.house == bench.house).collect();
        let at = house.iter().position(|b| b.bench == bench.bench).unwrap_or(0).saturating_add(1);
        pairs.push(("house", bench.house.clone()));
        pairs.push(("bench", format!("{at} of {}", house.len())));
    }
    if let Some(standing) = model.season.standing(state.bench(), model.day) {
        pairs.push(("pots", standing.pots.to_string()));
        let mut what = standing.lot.clone();
        if let Some(lot) = model.season.lot(&standing.lot) {
            what = format!("{}  {}, {}", lot.lot, lot.cultivar, lot.container);
            let age = model.day.signed_duration_since(lot.planted).num_days();
            let left = lot.ready_by.signed_duration_since(model.day).num_days();
            pairs.push(("day", age.to_string()));
            pairs.push(("sale", format!("{} in {left} days", dates::short(lot.ready_by))));
        }
        lines.push(Line::raw(shorten(&what, cells)));
    }
    if let Some(summary) = model.cache.bench(state.bench()) {
        let seen = |score: u8, on| format!("{score} on {}", dates::short(on));
        pairs.extend(summary.roots.map(|(score, on)| ("roots", seen(score, on))));
        pairs.extend(summary.bracts.map(|(stage, on)| ("bracts", seen(stage, on))));
    }
    lines.extend(flowed(pairs, model, cells));
    lines
}

/// Names and values one after the other, on as many lines as they need.
fn flowed(pairs: Vec<(&str, String)>, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let mut lines: Vec<Vec<Span<'static>>> = Vec::new();
    let mut used = cells;
    for (name, value) in pairs {
        let wide = usize::from(width(name)).saturating_add(1).saturating_add(usize::from(width(&value)));
        if used.saturating_add(2).saturating_add(wide) > cells {
            lines.push(Vec::new());
            used = 0;
        } else if let Some(line) = lines.last_mut() {
            line.push(Span::raw("  "));
            used = used.saturating_add(2);
        }
        if let Some(line) = lines.last_mut() {
            line.push(Span::styled(format!("{name} "), model.look.style(Role::Label)));
            line.push(Span::raw(shorten(&value, cells.saturating_sub(used))));
        }
        used = used.saturating_add(wide);
    }
    lines.into_iter().map(Line::from).collect()
}
