//! How a form looks: a field a row with its unit and range, or its error, beside it; below, what the field marked takes.

use super::row::{About, Choice, Input, Row};
use super::{State, amounts, when};
use crate::controls::{MOST, letter};
use crate::mix::cautions::{Work, cautions};
use crate::model::{Model, closes};
use crate::record::{Entry, FieldFault, KindName, form};
use crate::ui::{Role, fit, panel, put, typed, width, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Cells of the mark and the label.
const LABEL: u16 = 20;
/// Cells of what is typed, where there is room for a word beside it.
const INPUT: u16 = 27;
/// The cautions that come before what is usual: in a small window these must be seen.
const FIRST: usize = 3;
/// Rows kept for the words below the fields.
const BELOW: u16 = 4;

/// Draws it.
pub fn view(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = shared.look;
    let shown: Vec<(usize, &Row)> = state.shown().collect();
    let words = below(state, shared, usize::from(area.width));
    let many = u16::try_from(shown.len()).unwrap_or(u16::MAX);
    let told = u16::try_from(words.len()).unwrap_or(u16::MAX);
    let body = panel(frame, area, usize::from(many.saturating_add(told).saturating_add(1)), &state.title(), look);
    let room = body.height.saturating_sub(BELOW.min(told)).max(body.height.min(1)).min(many);
    let marked = shown.iter().position(|(at, _)| *at == state.at).unwrap_or(0);
    let top = marked.saturating_sub(usize::from(room.saturating_sub(1)));
    let mut cursor = None;
    for (i, (at, row)) in shown.iter().skip(top).take(usize::from(room)).enumerate() {
        let line = Rect { y: body.y.saturating_add(u16::try_from(i).unwrap_or(u16::MAX)), height: 1, ..body };
        let beside = match fault_of(state, row) {
            Some(fault) => Beside::Fault(&fault.text),
            None => Beside::Hint(hint(row, shared)),
        };
        cursor = field(frame, line.intersection(body), (row, *at == state.at), &beside, look).or(cursor);
    }
    for (i, (text, role)) in words.into_iter().enumerate() {
        let at = usize::from(room).saturating_add(i);
        put(frame, body, at, Span::styled(text, look.style(role)));
    }
    cursor
}

/// What stands beside a field.
pub(in crate::popups) enum Beside<'a> {
    /// What is wrong with it.
    Fault(&'a str),
    /// Its unit and range.
    Hint(String),
}

/// One field; gives the cursor's place where it is the one marked.
pub(in crate::popups) fn field(
    frame: &mut Frame<'_>,
    line: Rect,
    (row, marked): (&Row, bool),
    beside: &Beside<'_>,
    look: crate::input::Look,
) -> Option<Position> {
    let mark = if marked { look.glyphs().here } else { " " };
    let star = if row.required() { "*" } else { " " };
    let label = fit(&format!("{mark} {}{star}", row.label), usize::from(LABEL));
    let role = if marked { Role::Title } else { Role::Label };
    put(frame, line, 0, Span::styled(label, look.style(role)));
    let wide = line.width >= LABEL.saturating_add(INPUT).saturating_add(10);
    let left = LABEL.min(line.width);
    let rest = line.width.saturating_sub(left);
    let place = Rect { x: line.x.saturating_add(left), width: if wide { INPUT } else { rest }, ..line };
    let cursor = input(row, frame, place, marked, look);
    if wide {
        let place =
            Rect { x: place.right().saturating_add(1), width: rest.saturating_sub(INPUT).saturating_sub(1), ..line };
        let cells = usize::from(place.width);
        match beside {
            Beside::Fault(text) => {
                put(frame, place, 0, Span::styled(fit(&format!("! {text}"), cells), look.style(Role::Act)));
            }
            Beside::Hint(text) => put(frame, place, 0, Line::raw(fit(text, cells))),
        }
    }
    cursor.filter(|_| marked)
}

fn input(row: &Row, frame: &mut Frame<'_>, place: Rect, marked: bool, look: crate::input::Look) -> Option<Position> {
    let cells = usize::from(place.width.saturating_sub(2));
    match &row.input {
        Input::Text(text) if marked => {
            let room = usize::from(place.width.saturating_sub(3));
            typed(frame, place, (text.text(), text.cursor(), text.scroll(room)), look)
        }
        Input::Text(text) => {
            put(frame, place, 0, Line::raw(format!("  {}", fit(text.text(), cells))));
            None
        }
        Input::One(all, at) => {
            let text = at.and_then(|i| all.get(i)).map_or("-", |c| c.text.as_str());
            picked(frame, place, text, cells);
            Some(Position { x: place.x.saturating_add(2), y: place.y })
        }
        Input::Many(all, on) => {
            let texts: Vec<&str> = all.iter().zip(on).filter(|(_, on)| **on).map(|(c, _)| c.text.as_str()).collect();
            let text = if texts.is_empty() { "none".to_owned() } else { texts.join(", ") };
            picked(frame, place, &text, cells);
            Some(Position { x: place.x.saturating_add(2), y: place.y })
        }
    }
}

fn picked(frame: &mut Frame<'_>, place: Rect, text: &str, cells: usize) {
    put(frame, place, 0, Line::raw(format!("  {}", fit(text, cells))));
}

/// What is wrong with a field. What is wrong with the place stands beside it, whatever field the season names.
fn fault_of<'s>(state: &'s State, row: &Row) -> Option<&'s FieldFault> {
    let own = state.faults.iter().find(|f| f.field == row.name);
    let place = || state.faults.iter().find(|f| matches!(f.field.as_str(), "bench" | "house" | "lot"));
    own.or_else(|| if row.about == About::Where { place() } else { None })
}

/// Unit and range beside a field.
fn hint(row: &Row, shared: &Model) -> String {
    match (row.about, row.field) {
        (About::Own(_), Some(field)) => match row.input {
            Input::One(..) => "pick by letter".to_owned(),
            Input::Many(..) => "mark by letter".to_owned(),
            Input::Text(_) => form::hint(field, shared.system()),
        },
        (About::When, _) => "empty: now".to_owned(),
        (About::Ended, _) => "14:30, or now".to_owned(),
        (About::Where, _) => "pick by letter".to_owned(),
        _ => String::new(),
    }
}

/// What is told below the fields: what the field marked takes, its error in full, what the numbers come to, the cautions.
fn below(state: &State, shared: &Model, cells: usize) -> Vec<(String, Role)> {
    let mut words = vec![(String::new(), Role::Plain)];
    if let Some(row) = state.rows.get(state.at) {
        words.extend(takes(row, shared, cells).into_iter().map(|line| (line, Role::Plain)));
    }
    let mut tell = |text: &str, role: Role| words.extend(wrap(text, cells).into_iter().map(|line| (line, role)));
    if let Some(row) = state.rows.get(state.at) {
        if matches!(&row.input, Input::Text(field) if field.full) {
            tell(&format!("! cut off: a line takes {MOST} characters"), Role::Act);
        }
        if let Some(fault) = fault_of(state, row) {
            tell(&format!("! {} {}", row.label, fault.text), Role::Act);
        }
    }
    let stray = |fault: &&FieldFault| !state.shown().any(|(_, row)| fault_of(state, row) == Some(*fault));
    for fault in state.faults.iter().filter(stray) {
        tell(format!("! {} {}", fault.field, fault.text).trim_end(), Role::Act);
    }
    for (place, name) in &state.ask.put_off {
        tell(&format!("{} on {} {}", name.title(), place.field(), place.code()), Role::Plain);
    }
    for entry in struck(state, shared) {
        let what = crate::report::entry::line(entry, shared.system());
        let at = crate::dates::weekday(entry.day());
        tell(&format!("{at}  {} {}: {what}", entry.place.field(), entry.place.code()), Role::Struck);
    }
    let shut: Vec<&str> = struck(state, shared).filter(|e| closes(&e.kind)).map(|e| e.place.code()).collect();
    if !shut.is_empty() {
        let text = format!("Struck out, {} stays closed all the same until its hours are over.", shut.join(" "));
        tell(&text, Role::Said);
    }
    if let Some(told) = state.told {
        tell(told, Role::Said);
    }
    let (usual, come_to): (Vec<String>, Vec<String>) =
        amounts::lines(state, shared).into_iter().partition(|line| amounts::is_for_later(line));
    for line in come_to {
        tell(&line, if line.starts_with('!') { Role::Act } else { Role::Good });
    }
    let all: Vec<&str> = work(state).iter().flat_map(|work| cautions(*work)).map(|c| c.text).collect();
    let (first, rest) = all.split_at(FIRST.min(all.len()));
    let treated = matches!(state.ask.kind, KindName::Sprayed | KindName::GrowthRegulator);
    let emergency = shared.season.site().and_then(|s| s.emergency.as_deref()).filter(|_| treated);
    for text in first.iter().copied().chain(emergency) {
        tell(&format!("- {text}"), Role::Plain);
    }
    for line in usual {
        tell(&line, Role::Good);
    }
    for text in rest {
        tell(&format!("- {text}"), Role::Plain);
    }
    words
}

/// The entries that a strike takes out.
fn struck<'s>(state: &'s State, shared: &'s Model) -> impl Iterator<Item = &'s Entry> {
    state.ask.strikes.iter().filter_map(|id| shared.season.entry(*id))
}

/// What a field takes, in full.
fn takes(row: &Row, shared: &Model, cells: usize) -> Vec<String> {
    let words = match (row.about, row.field) {
        (About::Where, _) => "",
        (About::Own(_), Some(field)) => field.meaning,
        (About::Benches, _) => "The benches: codes with blanks between, a row as N1-N6, a house or a lot.",
        (About::Except, _) => "The benches left out: codes with blanks between, a row as N1-N6, a house or a lot.",
        (About::When, _) => when::HINT,
        (About::Ended, _) => when::ENDED,
        (About::Reopen, _) => "To open it now type the code of what is closed; empty: it stays closed.",
        _ => "A word beside the entry, if there is one to say.",
    };
    match row.field {
        _ if !matches!(row.input, Input::Text(_)) => picks(words, row, cells),
        Some(field) if matches!(row.about, About::Own(_)) => {
            wrap(&format!("{words}: {}", form::hint(field, shared.system())), cells)
        }
        _ => wrap(words, cells),
    }
}

/// What can be picked in a field, by letter, below some words; nothing for a text.
pub(in crate::popups) fn picks(words: &str, row: &Row, cells: usize) -> Vec<String> {
    match &row.input {
        Input::One(all, at) => listed(words, all, &|i| *at == Some(i), cells),
        Input::Many(all, on) => listed(words, all, &|i| on.get(i) == Some(&true), cells),
        Input::Text(_) => Vec::new(),
    }
}

/// What can be picked, as many on a line as fit; none is broken.
fn listed(words: &str, all: &[Choice], on: &dyn Fn(usize) -> bool, cells: usize) -> Vec<String> {
    let mut lines = if words.is_empty() { Vec::new() } else { wrap(&format!("{words}:"), cells) };
    let mut line = String::new();
    for (i, choice) in all.iter().enumerate() {
        let one = format!("{} [{}] {}", letter(i), if on(i) { "x" } else { " " }, choice.text);
        if !line.is_empty() && width(&line).saturating_add(width(&one)).saturating_add(2) > fits(cells) {
            lines.push(std::mem::take(&mut line));
        }
        line = if line.is_empty() { one } else { format!("{line}  {one}") };
    }
    lines.push(line);
    lines
}

fn fits(cells: usize) -> u16 {
    u16::try_from(cells).unwrap_or(u16::MAX)
}

/// The work whose cautions are shown.
fn work(state: &State) -> Vec<Work> {
    match state.ask.kind {
        KindName::Sprayed if state.text("how") == "fog" => vec![Work::Fog, Work::Treatment],
        KindName::Sprayed | KindName::GrowthRegulator => vec![Work::Treatment, Work::LateTreatment],
        KindName::Nutrient | KindName::Fed | KindName::Topdressed => vec![Work::Fertilizer],
        KindName::Pinched | KindName::Moved | KindName::Spaced => vec![Work::Plants],
        KindName::Blackout | KindName::Lights | KindName::NightLight => vec![Work::Night],
        KindName::Sold | KindName::Grade => vec![Work::Visitors],
        _ => Vec::new(),
    }
}
