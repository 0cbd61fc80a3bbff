//! The Round of a wide window: two lines of the whole, then the list, the bench under the cursor, and the day where there is room.

use super::{Row, State, beside, digits, empty, height, listed_rows, marks, plots_due, shown};
use crate::dates;
use crate::model::listing::Listing;
use crate::model::{Model, Summary, Walked};
use crate::panes::{self, Overview, day, progress};
use crate::record::Bench;
use crate::report::words;
use crate::ui::list::{Follow, list, under_cursor};
use crate::ui::regions::{Regions, Room, rule};
use crate::ui::{Role, fit, put, rows, shorten, width};
use crate::warnings::{CheckName, Severity, Warning};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};
use std::collections::BTreeMap;

/// Rows of the head.
const HEAD: u16 = 2;
/// Cells between two pieces of the head.
const GAP: &str = "    ";
/// Cells of the first word of a line of the head.
const LABEL: usize = 8;
/// Sales named.
const SALES: usize = 3;

/// Draws it.
pub(super) fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let plots = plots_due(model);
    let more = u16::from(model.left.is_some()).saturating_add(u16::from(!plots.is_empty()));
    let (head, below) = rows(area, HEAD.saturating_add(more));
    let cells = usize::from(area.width);
    let all = Overview::of(model);
    let listed = model.listed();
    put(frame, head, 0, whole(&all, model, cells));
    let row = beside(frame, head, &model.shared(), model);
    put(frame, row, 0, asked(state, (&all, listed.len()), model, usize::from(row.width)));
    if let Some(left) = &model.left {
        put(frame, head, 2, Line::raw(shorten(left, cells)));
    }
    put(
        frame,
        head,
        usize::from(HEAD).saturating_add(usize::from(model.left.is_some())),
        Line::raw(shorten(&plots, cells)),
    );
    let below = rule(frame, below, model.look);
    let cells = u32::from(area.width);
    let part = if Room::of(area.width) == Room::Widest { cells * 2 / 5 } else { cells * 8 / 13 };
    let part = u16::try_from(part).unwrap_or(LIST.1);
    let regions = Regions::of(frame, below, part.clamp(LIST.0, LIST.1), model.look);
    let cursor = benches(state, &listed, model, frame, regions.list);
    if let Some(panel) = regions.panel {
        let bench = listed.get(state.list.cursor()).map(|b| b.bench.as_str()).unwrap_or_default();
        panes::bench::view(model, bench, frame, panel);
    }
    if let Some(area) = regions.day {
        day::view_of(&all, model, frame, area);
    }
    cursor
}

/// The least and the most cells of the list.
const LIST: (u16, u16) = (69, 78);

/// The map of the walk, tonight, the sales to come.
fn whole(all: &Overview<'_>, model: &Model, cells: usize) -> Line<'static> {
    let dim = model.look.style(Role::Dim);
    let night = day::tonight(model).map(day::length);
    let room = cells.saturating_sub(night.as_ref().map_or(0, |night| night.len().saturating_add(10)));
    let mut line = progress::line(all, model, room.saturating_sub(LABEL));
    line.spans.insert(0, Span::styled(fit("walked", LABEL), dim));
    let mut add = |label: &str, text: String| {
        if line.width().saturating_add(GAP.len()).saturating_add(label.len()).saturating_add(text.len()) <= cells {
            line.spans.extend([Span::raw(GAP), Span::styled(label.to_owned(), dim), Span::raw(text)]);
        }
    };
    if let Some(night) = night {
        add("night ", night);
    }
    let mut sales: Vec<_> = model.season.lots().iter().map(|l| l.ready_by).filter(|d| *d >= model.day).collect();
    sales.sort_unstable();
    sales.dedup();
    for (n, sale) in sales.into_iter().take(SALES).enumerate() {
        let days = dates::days_between(model.day, sale);
        add(if n == 0 { "sales " } else { "" }, format!("{} ({days} d)", dates::short(sale)));
    }
    line
}

/// What is due by kind, flags, closures; before them which benches are shown, where it is not all of them.
fn asked(state: &State, (all, listed): (&Overview<'_>, usize), model: &Model, cells: usize) -> Line<'static> {
    let dim = model.look.style(Role::Dim);
    let mut pieces: Vec<Vec<Span<'static>>> = Vec::new();
    if model.listing != Listing::default() || !state.selected(model).is_empty() {
        let counts = (listed, all.benches.len());
        pieces.push(shown(state, model, counts, cells).spans);
    }
    let counts = Counts::of(all, model);
    if counts.unknown > 0 {
        pieces.push(vec![Span::raw(format!("{} {} benches loading", model.look.glyphs().later, counts.unknown))]);
    }
    pieces.push(counts.due(model));
    pieces.push(counts.flagged(model));
    for (until, benches) in &counts.closed {
        let (first, more) = (benches.first().copied().unwrap_or_default(), benches.len().saturating_sub(1));
        let more = if more > 0 { format!(" +{more}") } else { String::new() };
        let text = format!("{first}{more} to {until}");
        pieces.push(vec![Span::styled("closed ", dim), Span::styled(text, model.look.style(Role::Closed))]);
    }
    let mut line = Line::default();
    for piece in pieces.into_iter().filter(|piece| !piece.is_empty()) {
        let wide: usize = piece.iter().map(|span| usize::from(width(&span.content))).sum();
        let gap = if line.spans.is_empty() { "" } else { GAP };
        if line.width().saturating_add(gap.len()).saturating_add(wide) <= cells {
            line.spans.push(Span::raw(gap));
            line.spans.extend(piece);
        }
    }
    line
}

/// What is counted over all benches.
#[derive(Debug, Default)]
struct Counts<'m> {
    due: BTreeMap<CheckName, usize>,
    levels: BTreeMap<Severity, usize>,
    /// Lots and houses with trouble of their own.
    flagged: (usize, usize),
    closed: BTreeMap<String, Vec<&'m str>>,
    unknown: usize,
}

impl<'m> Counts<'m> {
    fn of(all: &Overview<'m>, model: &Model) -> Self {
        let mut counts = Self { flagged: all.flagged(), ..Self::default() };
        for seen in &all.benches {
            if let Some(until) = seen.closed {
                counts.closed.entry(model.day_and_time(until)).or_default().push(&seen.bench.bench);
            }
            let Some(summary) = seen.summary else {
                counts.unknown = counts.unknown.saturating_add(1);
                continue;
            };
            for check in summary.due.iter().filter(|check| !check.done) {
                let due = counts.due.entry(check.what).or_default();
                *due = due.saturating_add(1);
            }
            if let Some(level) = seen.level {
                let benches = counts.levels.entry(level).or_default();
                *benches = benches.saturating_add(1);
            }
        }
        counts
    }

    /// `due  water 20   roots 6`.
    fn due(&self, model: &Model) -> Vec<Span<'static>> {
        let dim = model.look.style(Role::Dim);
        if self.due.is_empty() {
            return if self.unknown > 0 { Vec::new() } else { vec![Span::styled("nothing left due", dim)] };
        }
        let mut spans = vec![Span::styled(fit("due", LABEL.saturating_sub(2)), dim)];
        for (check, count) in &self.due {
            spans.push(Span::styled(format!("  {} ", check.text()), dim));
            spans.push(Span::raw(count.to_string()));
        }
        spans
    }

    /// `flagged  !! 1 urgent  ! 2 act  1 lot`: benches for what is their own, then lots and houses.
    fn flagged(&self, model: &Model) -> Vec<Span<'static>> {
        let levels = self.levels.iter().rev().filter(|(level, _)| **level >= Severity::Act);
        let mut each: Vec<(String, Role)> = levels
            .map(|(level, count)| {
                let (sign, role) = panes::sign(*level);
                (format!("{sign} {count} {}", level.code()), role)
            })
            .collect();
        let (lots, houses) = self.flagged;
        for (count, one, many) in [(lots, "lot", "lots"), (houses, "house", "houses")] {
            if count > 0 {
                each.push((format!("{count} {}", if count == 1 { one } else { many }), Role::Plain));
            }
        }
        if each.is_empty() {
            return Vec::new();
        }
        let mut spans = vec![Span::styled("flagged", model.look.style(Role::Dim))];
        for (text, role) in each {
            spans.extend([Span::raw("  "), Span::styled(text, model.look.style(role))]);
        }
        spans
    }
}

/// The list under its heads; gives the place of the cursor.
fn benches(state: &State, listed: &[&Bench], model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let wide = Columns::of(model, usize::from(area.width));
    put(frame, area, 0, Span::styled(wide.heads(), model.look.style(Role::Dim)));
    let (_, body) = rows(area, 1);
    if listed.is_empty() {
        empty(model, frame, body, model.season.benches().is_empty());
    }
    let rows = listed_rows(model, listed);
    let cursor = rows.iter().position(|row| matches!(row, Row::Bench(at, _) if *at == state.list.cursor()));
    let line = |at: usize, _| match rows.get(at) {
        Some(Row::House(house)) => {
            let name = fit(&house.to_uppercase(), usize::from(body.width)).trim_end().to_owned();
            Line::from(Span::styled(name, model.look.style(Role::Dim)))
        }
        Some(Row::Bench(at, bench)) => {
            let chosen = *at == state.list.cursor();
            let line = wide.row(model, bench, (chosen, state.selected.contains(&bench.bench)));
            if chosen { under_cursor(line, model.look) } else { line }
        }
        None => Line::default(),
    };
    list(frame, body, (cursor.unwrap_or(0), rows.len()), Follow::Center, line)
}

/// The widths of the columns. Those that are least needed make room for long codes: 0 for one that is left out.
struct Columns {
    bench: usize,
    lot: usize,
    day: usize,
    bract: usize,
    height: usize,
    /// What is due or done, with a blank after it.
    state: usize,
    warning: usize,
}

impl Columns {
    /// Mark, six days, today, roots, and a blank before what is due.
    const FIXED: usize = 2 + 13 + 5 + 5 + 1;
    /// What is left due and the worst warning: `closed 08:00 !!`.
    const REST: usize = 15;
    /// What is left due: `water +3`.
    const STATE: usize = 9;
    /// The most cells of a code of a bench, and of a lot.
    const MOST: (usize, usize) = (17, 9);

    fn of(model: &Model, cells: usize) -> Self {
        let benches = model.season.benches();
        let widest =
            |codes: &mut dyn Iterator<Item = &str>| codes.map(|code| usize::from(width(code))).max().unwrap_or(0);
        let bench = widest(&mut benches.iter().map(|b| b.bench.as_str())).saturating_add(1).clamp(6, Self::MOST.0);
        let lot = widest(&mut model.season.lots().iter().map(|l| l.lot.as_str())).saturating_add(1);
        let lot = lot.clamp(4, Self::MOST.1);
        let mut wide = Self { bench, lot, day: 5, bract: 6, height: 7, state: 0, warning: 0 };
        let short = |wide: &Self| wide.taken().saturating_add(Self::REST).saturating_sub(cells);
        if short(&wide) > 0 {
            wide.bract = 0;
        }
        if short(&wide) > 0 {
            wide.day = 0;
        }
        wide.bench = wide.bench.saturating_sub(short(&wide)).max(6);
        let rest = cells.saturating_sub(wide.taken());
        wide.state = rest.saturating_sub(Self::STATE).min(Self::STATE);
        wide.warning = rest.saturating_sub(wide.state);
        wide
    }

    const fn taken(&self) -> usize {
        Self::FIXED
            .saturating_add(self.bench)
            .saturating_add(self.lot)
            .saturating_add(self.day)
            .saturating_add(self.bract)
            .saturating_add(self.height)
    }

    fn heads(&self) -> String {
        format!(
            "  {}{}{}last 6 days  today root{}{}",
            fit("bench", self.bench),
            fit("lot", self.lot),
            fit("day", self.day),
            if self.bract > 0 { " bract" } else { "" },
            if self.height > 0 { " height" } else { "" },
        )
    }

    /// The row of one bench.
    fn row(&self, model: &Model, bench: &Bench, (chosen, marked): (bool, bool)) -> Line<'static> {
        let (look, none) = (model.look, model.look.glyphs().none);
        let mut spans = vec![Span::raw(format!("{}{}", marks(model, (chosen, marked)), fit(&bench.bench, self.bench)))];
        let Some(summary) = model.cache.bench(&bench.bench) else {
            spans.push(Span::raw(look.glyphs().later));
            return Line::from(spans);
        };
        let closed = closed(model, &bench.bench);
        let Some(standing) = &summary.standing else {
            spans.push(Span::styled("empty  ", look.style(Role::Dim)));
            spans.extend(closed);
            return Line::from(spans);
        };
        let day = model.season.lot(&standing.lot).map(|lot| dates::days_between(lot.planted, model.day));
        let day = day.map_or_else(|| none.to_owned(), |day| day.to_string());
        let score = |score: Option<u8>| score.map_or_else(|| none.to_owned(), |score| score.to_string());
        let day = if self.day > 0 { format!("{day:>3}  ") } else { String::new() };
        spans.push(Span::raw(format!("{}{day}", fit(&standing.lot, self.lot))));
        spans.extend(digits(summary, model, " "));
        spans.push(Span::raw("    "));
        spans.push(super::today(summary, model));
        let mut scores = format!("{:>7}", score(summary.roots.map(|r| r.0)));
        if self.bract > 0 {
            scores.push_str(&format!("{:>1$}", score(summary.bracts.map(|b| b.0)), self.bract));
        }
        if self.height > 0 {
            scores.push_str(&format!("{:>1$}", height(model, summary), self.height));
        }
        spans.push(Span::raw(format!("{scores} ")));
        let state = closed.unwrap_or_else(|| left(model, summary));
        let wide = state.width().saturating_add(1).max(self.state);
        let room = self.state.saturating_add(self.warning).saturating_sub(wide);
        let pad = wide.saturating_sub(state.width());
        spans.extend([state, Span::raw(" ".repeat(pad))]);
        spans.extend(warning(model, &bench.bench, room));
        Line::from(spans)
    }
}

/// `closed 08:15`, with the day where it is not today's.
fn closed(model: &Model, bench: &str) -> Option<Span<'static>> {
    let until = model.closed_until(bench)?;
    let text = super::closed_to(model, until);
    Some(Span::styled(format!("closed {text}"), model.look.style(Role::Closed)))
}

/// What is left to do: the first check by name and how many more, or that all is done.
fn left(model: &Model, summary: &Summary) -> Span<'static> {
    if summary.walked() == Walked::Yes {
        return Span::styled("done", model.look.style(Role::Dim));
    }
    let mut due = summary.due.iter().filter(|check| !check.done);
    let Some(first) = due.next() else { return Span::raw("") };
    let more = match due.count() {
        0 => String::new(),
        n => format!(" +{n}"),
    };
    Span::raw(format!("{}{more}", first.what.text()))
}

/// The first warning of a row, as much of it as has room: sign, name, days, how many more.
fn warning(model: &Model, bench: &str, cells: usize) -> Option<Span<'static>> {
    let all = super::warnings_of(model, bench);
    let first: &Warning = all.first()?;
    let ((sign, _), (of, role)) = (panes::sign(first.level), super::whose(model, first));
    let days = match dates::days_between(first.since, model.day) {
        ..=0 => String::new(),
        n => format!(" {n} d"),
    };
    let more = match all.len() {
        0 | 1 => String::new(),
        n => format!(" +{}", n.saturating_sub(1)),
    };
    let (title, short) = (first.name.title(), words::short(first.name));
    let texts = [
        format!("{of}{sign} {title}{days}{more}"),
        format!("{of}{sign} {short}{days}{more}"),
        format!("{of}{sign} {short}{days}"),
        format!("{of}{sign} {short}"),
        format!("{of}{sign}"),
    ];
    let text = texts.into_iter().find(|text| text.len() <= cells).unwrap_or_else(|| sign.to_owned());
    (text.len() <= cells).then(|| Span::styled(text, model.look.style(role)))
}
