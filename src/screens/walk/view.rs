//! How the Walk card looks: the bench large, what is known of it, the checks in a row, the digits in words.

mod wide;

use super::{State, checks, scale, shut, temperature};
use crate::dates;
use crate::input::Palette;
use crate::model::Model;
use crate::panes;
use crate::record::Entry;
use crate::report::{sampling, words};
use crate::ui::{Letters, Role, line_of, put, rows, typed, wrap};
use crate::units::System;
use crate::warnings::{CheckName, Severity, Warning};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::style::Modifier;
use ratatui::text::{Line, Span};

/// From this height on the code is drawn large.
const TALL: u16 = 17;

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    if wide::is(model) {
        return wide::view(state, model, frame, area);
    }
    let below = head(state, model, frame, area);
    if let Some(why) = state.shut(model) {
        return Some(shut::view(state, model, frame, below, why));
    }
    let strip = strip(state, model);
    let lines = flow(&strip, usize::from(below.width));
    let (above, rest) = rows(below, u16::try_from(lines.len()).unwrap_or(1).saturating_add(1));
    let cursor = row_of_checks(&strip, &lines, model, frame, above);
    ask(state, model, frame, rest).or(cursor)
}

/// The bench and what is known of it; gives the room below.
fn head(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Rect {
    let title = model.look.style(Role::Title);
    let facts = facts(state, model);
    let half = usize::from(area.width / 2).saturating_sub(2);
    let letters = Letters::LOW.code(state.bench(), half).filter(|_| area.height >= TALL);
    let Some(letters) = letters else {
        let height = u16::try_from(facts.len()).unwrap_or(0).min(area.height / 3);
        let (top, below) = rows(area, height.saturating_add(1));
        put(frame, top, 0, Span::styled(format!(">> {} <<", state.bench()), title));
        for (i, fact) in facts.into_iter().enumerate() {
            put(frame, top, i.saturating_add(1), fact);
        }
        return below;
    };
    let (top, below) = rows(area, u16::try_from(letters.len()).unwrap_or(0).saturating_add(2));
    let wide = letters.iter().map(|l| crate::ui::width(l)).max().unwrap_or(0).max(16).saturating_add(4);
    for (i, line) in letters.into_iter().enumerate() {
        put(frame, top, i.saturating_add(1), large(&line, model));
    }
    let right = Rect { x: top.x.saturating_add(wide), width: top.width.saturating_sub(wide), ..top }.intersection(top);
    for (i, fact) in facts.into_iter().enumerate() {
        put(frame, right, i.saturating_add(1), fact);
    }
    below
}

/// A row of large letters: in sunlight their cells are solid, elsewhere bold.
fn large(line: &str, model: &Model) -> Line<'static> {
    let bold = model.look.style(Role::Title);
    let solid = model.look.palette == Palette::Sunlight;
    let style = if solid { bold.add_modifier(Modifier::REVERSED) } else { bold };
    let mut spans: Vec<Span<'static>> = Vec::new();
    for part in line.split_inclusive(' ') {
        let letters = part.trim_end_matches(' ');
        spans.push(Span::styled(letters.to_owned(), style));
        spans.push(Span::raw(" ".repeat(part.len().saturating_sub(letters.len()))));
    }
    Line::from(spans)
}

/// What is known of the bench, a line each.
fn facts(state: &State, model: &Model) -> Vec<Line<'static>> {
    let mut lines = Vec::new();
    let label = model.look.style(Role::Label);
    let house = model.season.bench(state.bench()).map(|b| b.house.clone()).unwrap_or_default();
    if let Some(standing) = model.season.standing(state.bench(), model.day) {
        let pots = standing.pots;
        match model.season.lot(&standing.lot) {
            Some(lot) => {
                lines.push(Line::raw(format!("{}  {}, {}", lot.lot, lot.cultivar, lot.container)));
                let age = model.day.signed_duration_since(lot.planted).num_days();
                let left = lot.ready_by.signed_duration_since(model.day).num_days();
                lines.push(Line::raw(format!("house {house}  {pots} pots  day {age}, {left} days to the sale")));
            }
            None => lines.push(Line::raw(format!("house {house}  lot {}  {pots} pots", standing.lot))),
        }
    }
    let Some(summary) = model.cache.bench(state.bench()) else { return lines };
    let mut week = vec![Span::styled("water, last 6 days: ", label)];
    for (i, level) in summary.week.iter().skip(1).rev().enumerate() {
        week.extend((i > 0).then(|| Span::raw(" ")));
        week.push(level.map_or_else(
            || Span::styled(model.look.glyphs().none, label),
            |level| Span::styled(level.to_string(), model.look.digit(level)),
        ));
    }
    week.push(Span::styled("  (yesterday last)", label));
    lines.push(Line::from(week));
    let mut seen = Vec::new();
    if let Some((score, on)) = summary.roots {
        seen.push(format!("roots {score} on {}", dates::short(on)));
    }
    if let Some((stage, on)) = summary.bracts {
        seen.push(format!("bracts {stage} on {}", dates::short(on)));
    }
    if !seen.is_empty() {
        lines.push(Line::raw(seen.join("  ")));
    }
    lines.extend(warned(model, state.bench(), Severity::Watch));
    lines
}

/// The strongest warnings of the bench, its lot and its house from a level on, on one line each, two at most.
fn warned(model: &Model, bench: &str, least: Severity) -> Vec<Line<'static>> {
    let mut all: Vec<Warning> = model.standing_warnings(bench);
    all.retain(|w| w.level >= least);
    all.sort_by_key(|w| std::cmp::Reverse(w.level));
    let more = match all.len() {
        0..=2 => String::new(),
        n => format!("  and {} more", n.saturating_sub(2)),
    };
    let shown = all.iter().take(2).enumerate().map(|(i, warning)| {
        let (_, role) = panes::sign(warning.level);
        let text = format!("{}: {}", warning.said_level(), warning.title());
        let tail = if i == 1 { more.clone() } else { String::new() };
        Line::from(vec![Span::styled(text, model.look.style(role)), Span::raw(tail)])
    });
    shown.collect()
}

/// A piece of the strip of checks: its text, how it is drawn, and for the current one the cells its value lies before its end.
struct Piece {
    text: String,
    role: Role,
    cursor: Option<usize>,
}

/// The checks of this card, each with what was logged today; the current one in brackets.
fn strip(state: &State, model: &Model) -> Vec<Piece> {
    let history = model.season.history(state.bench(), model.day);
    let today: Vec<&Entry> = history.on(model.day).collect();
    let mut pieces = Vec::new();
    for (i, check) in state.checks.iter().enumerate() {
        let written = today.iter().rev().find(|e| checks::answers(e, *check));
        let value = written.map_or_else(|| "_".to_owned(), |e| checks::shown(e, *check));
        let pending = written.is_some_and(|e| model.pending.contains(&e.id));
        let mark = if pending { "*" } else { "" };
        let asked = i == state.at;
        let name = named(state, *check);
        let text = if asked { format!("[{name} {value}{mark}]") } else { format!(" {name} {value}{mark} ") };
        let role = match (asked, pending, written.is_some()) {
            (true, _, _) => Role::Chosen,
            (false, true, _) => Role::Pending,
            (false, false, true) => Role::Good,
            (false, false, false) => Role::Plain,
        };
        let back = value.len().saturating_add(1).saturating_add(usize::from(pending));
        pieces.push(Piece { text, role, cursor: asked.then_some(back) });
    }
    if let Some(watered) = today.iter().rev().find(|e| e.name() == crate::record::KindName::Watered) {
        let mark = if model.pending.contains(&watered.id) { "*" } else { "" };
        pieces.push(Piece { text: format!(" watered{mark}"), role: Role::Good, cursor: None });
    }
    pieces
}

/// A check by its name; one that a warning asks for says so.
fn named(state: &State, check: CheckName) -> String {
    let name = scale(check).name;
    if state.asks_again(check).is_some() { format!("re-check: {name}") } else { name.to_owned() }
}

/// Which pieces stand on each row, so that none is cut off.
fn flow(strip: &[Piece], room: usize) -> Vec<std::ops::Range<usize>> {
    let mut lines = Vec::new();
    let (mut start, mut used) = (0_usize, 0_usize);
    for (i, piece) in strip.iter().enumerate() {
        let wide = usize::from(crate::ui::width(&piece.text)).saturating_add(1);
        if i > start && used.saturating_add(wide).saturating_sub(1) > room {
            lines.push(start..i);
            (start, used) = (i, 0);
        }
        used = used.saturating_add(wide);
    }
    lines.push(start..strip.len());
    lines
}

/// Draws the strip; gives the place of the value asked for.
fn row_of_checks(
    strip: &[Piece],
    lines: &[std::ops::Range<usize>],
    model: &Model,
    frame: &mut Frame<'_>,
    area: Rect,
) -> Option<Position> {
    let mut cursor = None;
    for (row, line) in lines.iter().enumerate() {
        let mut spans = Vec::new();
        let mut x = 0_u16;
        for piece in strip.get(line.clone()).unwrap_or_default() {
            let wide = crate::ui::width(&piece.text);
            if let Some(back) = piece.cursor {
                let to = wide.saturating_sub(u16::try_from(back).unwrap_or(1));
                let y = area.y.saturating_add(u16::try_from(row).unwrap_or(0));
                cursor = Some(Position { x: area.x.saturating_add(x).saturating_add(to), y });
            }
            x = x.saturating_add(wide).saturating_add(1);
            spans.push(Span::styled(piece.text.clone(), model.look.style(piece.role)));
            spans.push(Span::raw(" "));
        }
        put(frame, area, row, Line::from(spans));
    }
    cursor
}

/// What a check asks, on lines of so many cells; why it is asked again comes first.
fn asked(state: &State, model: &Model, check: CheckName, cells: usize) -> Vec<String> {
    let scale = scale(check);
    let asked = match check {
        CheckName::Whitefly => format!("{} Check {} plants.", scale.ask, model.limits.round.pests_plants),
        CheckName::Height => format!("{} In {}.", scale.ask, unit(model.system()).0),
        CheckName::Water
        | CheckName::Base
        | CheckName::Roots
        | CheckName::Reach
        | CheckName::Bracts
        | CheckName::Climate => scale.ask.to_owned(),
    };
    let mut lines = wrap(&asked, cells);
    if let Some(why) = state.asks_again(check) {
        let since = model.cache.bench(state.bench()).and_then(|s| s.warnings.iter().find(|w| w.name == why));
        let since = since.map(|w| format!(" since {}", dates::short(w.since))).unwrap_or_default();
        lines.insert(0, format!("Re-check: {} ({}{since})", scale.name, why.title()));
    }
    lines
}

/// Said where every check of the card is done: the plots of a trial that are due here, or that nothing is.
fn all_done(state: &State, model: &Model) -> String {
    match state.plots_due(model) {
        Some((trial, plots)) => {
            let are = if plots == 1 { "is" } else { "are" };
            format!("{} of {trial} {are} due: Enter reads them. Tab: next bench.", words::plots(plots))
        }
        None => "Nothing more is due here today. Tab: next bench.  m: more checks.  n: note.".to_owned(),
    }
}

/// What is asked, and every digit in words.
fn ask(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let title = model.look.style(Role::Title);
    let cells = usize::from(area.width);
    let lines =
        state.check().map_or_else(|| wrap(&all_done(state, model), cells), |check| asked(state, model, check, cells));
    let (top, below) = rows(area, u16::try_from(lines.len()).unwrap_or(1));
    for (i, line) in lines.into_iter().enumerate() {
        put(frame, top, i, Span::styled(line, title));
    }
    let Some(check) = state.check() else { return Some(Position { x: area.x, y: area.y }) };
    if scale(check).digits.is_empty() {
        return line(state, check, model, frame, below);
    }
    let taken = digits(check, model, frame, below);
    for (row, text) in (taken.saturating_add(1)..).zip(enough(check, model, usize::from(below.width))) {
        put(frame, below, row, Span::styled(text, model.look.style(Role::Dim)));
    }
    None
}

/// What of a check says how many plants are enough, on lines of so many cells.
fn enough(check: CheckName, model: &Model, cells: usize) -> Vec<String> {
    if check != CheckName::Whitefly {
        return Vec::new();
    }
    let plants = model.limits.round.pests_plants;
    let texts = sampling::stop_row(&model.limits, plants).into_iter().chain(sampling::to_find(Some(plants)));
    texts.flat_map(|text| wrap(&text, cells)).collect()
}

/// Every digit of a check in words; in a wide window each level's name stands in a column of its own. Gives the rows taken.
fn digits(check: CheckName, model: &Model, frame: &mut Frame<'_>, area: Rect) -> usize {
    let look = model.look;
    let scale = scale(check).digits;
    let parts = |meaning: &'static str| meaning.split_once(": ");
    let names = scale.iter().filter_map(|(_, meaning)| Some(parts(meaning)?.0.len()));
    let column = names.max().filter(|_| wide::is(model) && scale.iter().all(|(_, meaning)| parts(meaning).is_some()));
    for (i, (digit, meaning)) in scale.iter().enumerate() {
        let swatch = if check == CheckName::Roots { look.roots_swatch(*digit) } else { None };
        let mut spans = vec![Span::styled(format!("  {digit}  "), look.style(Role::Key))];
        if let Some(style) = swatch {
            spans.push(Span::styled("    ", style));
            spans.push(Span::raw("  "));
        }
        match column.zip(parts(meaning)) {
            Some((column, (name, rest))) => {
                spans.push(Span::raw(format!("{name:<column$}  ")));
                spans.push(Span::styled(rest, look.style(Role::Dim)));
            }
            None => spans.push(Span::raw(*meaning)),
        }
        put(frame, area, i, Line::from(spans));
    }
    scale.len()
}

/// The unit heights are typed in, and how a line of them looks.
const fn unit(system: System) -> (&'static str, &'static str) {
    match system {
        System::Us => ("inches", "12.5 13 12 13.5"),
        System::Metric => ("cm", "32 33.5 31 34"),
    }
}

/// The line that is typed, how, and below it why it was refused.
fn line(state: &State, check: CheckName, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let how = match check {
        CheckName::Climate => temperature::how(model.system()).to_owned(),
        _ => format!("Type the readings with spaces between, such as {}. Blank skips.", unit(model.system()).1),
    };
    let how = wrap(&how, usize::from(area.width));
    let below = how.len();
    for (row, text) in how.into_iter().enumerate() {
        put(frame, area, row, Span::raw(text));
    }
    let place = line_of(area, below);
    let room = usize::from(place.width.saturating_sub(3));
    let fault = state.fault.as_ref().map(|fault| wrap(&format!("! {fault}"), usize::from(area.width)));
    for (row, line) in (below.saturating_add(1)..).zip(fault.into_iter().flatten()) {
        put(frame, area, row, Span::styled(line, model.look.style(Role::Urgent)));
    }
    if check == CheckName::Height && state.fault.is_none() {
        let known = state.measured(model).map(|text| wrap(&text, usize::from(area.width)));
        for (row, text) in (below.saturating_add(2)..).zip(known.into_iter().flatten()) {
            put(frame, area, row, Span::styled(text, model.look.style(Role::Dim)));
        }
    }
    let typing = state.typed(check);
    let shown = (typing.text(), typing.cursor(), typing.scroll(room));
    typed(frame, place, shown, model.look)
}
