//! How a form looks: a field a row with its unit and range, or its error, next to it; below, what the selected field takes.

use super::{BelowLine, State, Tone, amounts, when};
use crate::controls::{Input, MOST, Row};
use crate::mix::cautions::{Work, cautions};
use crate::model::Model;
use crate::popups::fields::About;
use crate::record::{Entry, How, KindName, Term, typed};
use crate::ui::fields::{FORM, fields, picks};
use crate::ui::{Role, list, panel, rows, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// The cautions that come before what is usual: in a small window these must be seen.
const FIRST: usize = 3;
/// Rows kept for the words below the fields.
const BELOW: usize = 4;

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = model.look;
    let words = below(state, model, usize::from(area.width));
    let (many, below_rows) = (state.fields.shown().count(), words.len());
    let body = panel(frame, area, many.saturating_add(below_rows).saturating_add(1), &state.title(), look);
    let height = usize::from(body.height);
    let room = height.saturating_sub(BELOW.min(below_rows)).max(height.min(1)).min(many);
    let (top, below) = rows(body, u16::try_from(room).unwrap_or(u16::MAX));
    let cursor = fields(frame, top, (&state.fields, 0), FORM, |row| hint(row, model), look);
    list::text(frame, below, 0, words.into_iter().map(|(text, role)| Line::from(Span::styled(text, look.style(role)))));
    cursor
}

/// Unit and range next to a field.
fn hint(row: &Row<About>, model: &Model) -> String {
    match (row.name, &row.input) {
        (_, Input::One(..)) => "press a letter".to_owned(),
        (_, Input::Many(..)) => "press letters".to_owned(),
        (About::Own(field), Input::Text(_)) => typed::hint(field, model.system()),
        (About::When, _) => "blank: now".to_owned(),
        (About::Ended, _) => "14:30, or now".to_owned(),
        _ => String::new(),
    }
}

/// Text below the fields: what the focused field takes, its error in full, the amounts, the cautions.
fn below(state: &State, model: &Model, cells: usize) -> Vec<(String, Role)> {
    let mut words = vec![(String::new(), Role::Plain)];
    if let Some(row) = state.fields.marked() {
        words.extend(takes(row, model, cells).into_iter().map(|line| (line, Role::Plain)));
    }
    let mut tell = |text: &str, role: Role| words.extend(wrap(text, cells).into_iter().map(|line| (line, role)));
    if let Some(row) = state.fields.marked() {
        if row.is_cut() {
            tell(&format!("! too long: maximum {MOST} characters"), Role::Act);
        }
        if let Some(fault) = &row.fault {
            tell(&format!("! {} {fault}", row.label), Role::Act);
        }
    }
    for fault in &state.stray {
        tell(format!("! {} {}", fault.field, fault.text).trim_end(), Role::Act);
    }
    for (place, name) in &state.ask.put_off {
        tell(&format!("{} on {} {}", name.title(), place.field(), place.code()), Role::Plain);
    }
    for entry in struck(state, model) {
        let what = crate::report::entry::line(entry, model.system());
        let at = crate::dates::weekday(entry.day());
        tell(&format!("{at}  {} {}: {what}", entry.place.field(), entry.place.code()), Role::Struck);
    }
    let shut: Vec<&str> = struck(state, model).filter(|e| e.kind.closes()).map(|e| e.place.code()).collect();
    if !shut.is_empty() {
        let text = format!("Voided, but {} stays closed until its REI is over.", shut.join(" "));
        tell(&text, Role::Said);
    }
    if let Some(notice) = state.notice {
        tell(notice, Role::Said);
    }
    let (references, sums): (Vec<BelowLine>, Vec<BelowLine>) =
        amounts::lines(state, model).into_iter().partition(|line| line.0 == Tone::Reference);
    for (tone, line) in sums {
        tell(&line, if tone == Tone::Alarm { Role::Act } else { Role::Good });
    }
    let all: Vec<&str> = work(state).iter().flat_map(|work| cautions(*work)).map(|c| c.text).collect();
    let (first, rest) = all.split_at(FIRST.min(all.len()));
    let treated = matches!(state.ask.kind, KindName::Sprayed | KindName::GrowthRegulator);
    let emergency = model.season.site().and_then(|s| s.emergency.as_deref()).filter(|_| treated);
    for text in first.iter().copied().chain(emergency) {
        tell(&format!("- {text}"), Role::Plain);
    }
    for (_, line) in references {
        tell(&line, Role::Good);
    }
    for text in rest {
        tell(&format!("- {text}"), Role::Plain);
    }
    words
}

/// The entries that a strike voids.
fn struck<'s>(state: &'s State, model: &'s Model) -> impl Iterator<Item = &'s Entry> {
    state.ask.strikes.iter().filter_map(|id| model.season.entry(*id))
}

/// What a field takes, in full.
fn takes(row: &Row<About>, model: &Model, cells: usize) -> Vec<String> {
    let words = match row.name {
        About::Own(field) => field.meaning,
        About::Where => "",
        About::Benches => "Benches, separated by spaces: codes, a row such as E1-E6, a house or a lot.",
        About::Except => "Benches to leave out, separated by spaces: codes, a row such as E1-E6, a house or a lot.",
        About::When => when::HINT,
        About::Ended => when::ENDED,
        About::Reopen => "To reopen it now, type the code of what is closed; blank: it stays closed.",
        About::Note | About::Near | About::Holds => "Optional note.",
    };
    match (row.name, &row.input) {
        (About::Own(field), Input::Text(_)) => wrap(&format!("{words}: {}", typed::hint(field, model.system())), cells),
        (_, Input::Text(_)) => wrap(words, cells),
        (_, input) => picks(words, input, cells),
    }
}

/// The work whose cautions are shown.
fn work(state: &State) -> Vec<Work> {
    match state.ask.kind {
        KindName::Sprayed if state.text("how") == How::Fog.code() => vec![Work::Fog, Work::Treatment],
        KindName::Sprayed | KindName::GrowthRegulator => vec![Work::Treatment, Work::LateTreatment],
        KindName::Nutrient | KindName::Fed | KindName::Topdressed => vec![Work::Fertilizer],
        KindName::Pinched | KindName::Moved | KindName::Spaced => vec![Work::Plants],
        KindName::Blackout | KindName::Lights | KindName::NightLight => vec![Work::Night],
        KindName::Sold | KindName::Grade => vec![Work::Visitors],
        _ => Vec::new(),
    }
}
