//! How a form looks: a field a row with its unit and range, or its error, next to it; below, what the selected field takes.

use super::{BelowLine, State, Tone, amounts, cautions, product, readings, rights, when};
use crate::controls::{Input, MOST, Row};
use crate::model::Model;
use crate::popups::columns;
use crate::popups::fields::{About, beside, takes_text};
use crate::record::{Entry, KindName};
use crate::report::words;
use crate::ui::fields::{REPLACES, fields, form_columns, picks};
use crate::ui::regions::text_cells;
use crate::ui::{Role, list, panel, rows, wrap};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// The cautions that come before what is usual: in a small window these must be seen.
const FIRST: usize = 3;
/// Rows kept for the words below the fields.
const BELOW: usize = 4;
/// Fields seen at once in a form of many, so that its cautions are seen with them.
const ROWS: usize = 8;

/// A row of the words below the fields.
struct Said {
    text: String,
    role: Role,
    /// The caution it belongs to, by its place among them.
    caution: Option<usize>,
}

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = model.look;
    let mut words = below(state, model, text_cells(area.width));
    let (many, below_rows) = (state.fields.shown().count(), words.len());
    let body = panel(frame, area, many.saturating_add(below_rows).saturating_add(1), &state.title(), look);
    let (top, below) = rows(body, fields_room(many, below_rows, body.height));
    let hint = |row: &Row<About>| hint(row, state, model);
    let hidden = many.saturating_sub(usize::from(top.height));
    if let Some(head) = words.first_mut().filter(|_| hidden > 0) {
        head.text = format!("({hidden} more fields: Tab)");
    }
    let cursor = fields(frame, top, (&state.fields, usize::from(hidden > 0)), form_columns(body.width), hint, look);
    let room = usize::from(below.height);
    let fits = words_room(room, words.len());
    let first = state.words.top().min(words.len().saturating_sub(fits));
    let more = (fits < words.len()).then(|| more(words.get(first.saturating_add(fits)..).unwrap_or_default()));
    let shown = words.into_iter().skip(first).take(fits).map(|said| (said.text, said.role));
    let lines = shown.chain(more.map(|text| (text, Role::Key)));
    list::text(frame, below, 0, lines.map(|(text, role)| Line::from(Span::styled(text, look.style(role)))));
    cursor
}

/// The rows of the fields in a form so high.
fn fields_room(many: usize, below_rows: usize, height: u16) -> u16 {
    let height = usize::from(height);
    let kept = if many > ROWS { height.saturating_sub(ROWS) } else { 0 };
    let room = height.saturating_sub(kept.max(BELOW).min(below_rows)).max(height.min(1)).min(many);
    u16::try_from(room).unwrap_or(u16::MAX)
}

/// The words that are seen at once: the last row says how many more there are.
const fn words_room(room: usize, words: usize) -> usize {
    if words > room { room.saturating_sub(1) } else { words }
}

/// How many lines follow, and how many cautions among them are not seen in full.
fn more(rest: &[Said]) -> String {
    let mut cautions: Vec<usize> = rest.iter().filter_map(|said| said.caution).collect();
    cautions.dedup();
    match (rest.len(), cautions.len()) {
        (0, _) => "PgUp: back".to_owned(),
        (lines, 0) => format!("PgDn: {lines} more lines"),
        (lines, 1) => format!("PgDn: {lines} more lines, 1 caution"),
        (lines, many) => format!("PgDn: {lines} more lines, {many} cautions"),
    }
}

/// The words seen at once and all of them, in a window of the last known size.
pub(super) fn words_size(state: &State, model: &Model) -> (usize, usize) {
    let height = model.size.1;
    let words = below(state, model, text_cells(columns(model))).len();
    // Frame and title take six rows at most in a window of usual width.
    let body = height.saturating_sub(6);
    let fields = fields_room(state.fields.shown().count(), words, body);
    (words_room(usize::from(body.saturating_sub(fields)), words), words)
}

/// Unit and range next to a field.
fn hint(row: &Row<About>, state: &State, model: &Model) -> String {
    if let Some(published) = row.name.field().and_then(|field| amounts::published(state, field.name)) {
        return published;
    }
    if product::is_recalled(state, row) {
        return "as last logged; check".to_owned();
    }
    match (row.name, &row.input) {
        (_, Input::One(..)) => "press a letter".to_owned(),
        (_, Input::Many(..)) => "press letters".to_owned(),
        (About::Own(field), Input::Text(_)) => beside(row, field, model),
        (About::When | About::Ended, _) => {
            let ended = matches!(row.name, About::Ended);
            when::echo(&row.text(), model, ended).unwrap_or_else(|| when::beside(ended).to_owned())
        }
        _ => String::new(),
    }
}

/// Text below the fields: what the focused field takes, its error in full, the amounts, the cautions.
fn below(state: &State, model: &Model, cells: usize) -> Vec<Said> {
    let mut words = vec![Said { text: String::new(), role: Role::Plain, caution: None }];
    let mut tell = |text: &str, role: Role, caution: Option<usize>| {
        words.extend(wrap(text, cells).into_iter().map(|text| Said { text, role, caution }));
    };
    for (text, role) in about_fields(state, model, cells).into_iter().chain(about_entries(state, model)) {
        tell(&text, role, None);
    }
    let (references, sums): (Vec<BelowLine>, Vec<BelowLine>) = amounts::lines(state, model)
        .into_iter()
        .chain(readings::lines(state, model))
        .partition(|l| l.0 == Tone::Reference);
    for (tone, line) in sums {
        tell(&line, if tone == Tone::Alarm { Role::Act } else { Role::Good }, None);
    }
    let all: Vec<&str> = cautions::of(state, model).iter().map(|caution| caution.text).collect();
    let treated = matches!(state.ask.kind, KindName::Sprayed | KindName::GrowthRegulator);
    let emergency = model.season.site().and_then(|s| s.emergency.as_deref()).filter(|_| treated);
    for (at, text) in all.iter().enumerate().take(FIRST) {
        tell(&format!("- {text}"), Role::Plain, Some(at));
    }
    if let Some(text) = emergency {
        tell(&format!("- {text}"), Role::Plain, None);
    }
    for (_, line) in references {
        tell(&line, Role::Good, None);
    }
    for (at, text) in all.iter().enumerate().skip(FIRST) {
        tell(&format!("- {text}"), Role::Plain, Some(at));
    }
    words
}

/// What the focused field takes, and what is wrong with it or with nothing that is shown.
fn about_fields(state: &State, model: &Model, cells: usize) -> Vec<(String, Role)> {
    let mut words = Vec::new();
    if let Some(row) = state.fields.marked() {
        let keeps = state.fields.replaces().then(|| REPLACES.to_owned());
        words.extend(takes(row, model, cells).into_iter().chain(keeps).map(|line| (line, Role::Plain)));
        if row.is_cut() {
            words.push((format!("! too long: maximum {MOST} characters"), Role::Act));
        }
        words.extend(row.fault.iter().map(|fault| (format!("! {} {fault}", row.label), Role::Act)));
    }
    let stray = state.stray.iter().map(|fault| format!("! {} {}", fault.field, fault.text).trim_end().to_owned());
    words.extend(stray.map(|text| (text, Role::Act)));
    words
}

/// What is postponed or voided, and what the form did by itself.
fn about_entries(state: &State, model: &Model) -> Vec<(String, Role)> {
    let put_off = state.ask.put_off.iter();
    let mut words: Vec<(String, Role)> = put_off
        .map(|(place, name)| (format!("{} on {} {}", name.title(), place.field(), place.code()), Role::Plain))
        .collect();
    for entry in struck(state, model) {
        let what = crate::report::entry::line(entry, model.system());
        let at = crate::dates::weekday(entry.day());
        words.push((format!("{at}  {}: {what}", crate::report::entry::named(entry)), Role::Struck));
    }
    let others = struck(state, model).chain(rights::entry(state, model));
    let mut whose: Vec<String> = others
        .filter(|entry| model.season.origin(entry.id).is_some())
        .map(|entry| words::who_when(&model.season.writer(entry), &[], None))
        .collect();
    whose.dedup();
    if !whose.is_empty() {
        words.push((format!("Logged by {}: it is voided on every laptop.", whose.join(", ")), Role::Act));
    }
    let shut: Vec<&str> = struck(state, model).filter(|e| e.kind.closes()).map(|e| e.place.code()).collect();
    if !shut.is_empty() {
        words.push((format!("Voided, but {} stays closed until its REI is over.", shut.join(" ")), Role::Said));
    }
    words.extend(state.notice.iter().map(|notice| (notice.clone(), Role::Said)));
    words
}

/// The entries that a strike voids.
fn struck<'s>(state: &'s State, model: &'s Model) -> impl Iterator<Item = &'s Entry> {
    state.ask.strikes.iter().filter_map(|id| model.season.entry(*id))
}

/// What a field takes, in full.
fn takes(row: &Row<About>, model: &Model, cells: usize) -> Vec<String> {
    let ended = matches!(row.name, About::Ended);
    if ended || matches!(row.name, About::When) {
        let early = when::early(&row.text(), model, ended);
        return early.into_iter().chain([when::takes(model, ended)]).flat_map(|text| wrap(&text, cells)).collect();
    }
    let words = match row.name {
        About::Own(field) => field.meaning,
        About::Where | About::When | About::Ended => "",
        About::Benches => "Benches, separated by spaces: codes, a row such as E1-E6, a house or a lot.",
        About::Except => "Benches to leave out, separated by spaces: codes, a row such as E1-E6, a house or a lot.",
        About::Reopen => "To reopen it now, type the code of what is closed; blank: it stays closed.",
        About::Note | About::Near | About::Holds | About::Whose => "Optional note.",
    };
    match (row.name, &row.input) {
        (About::Own(field), Input::Text(_)) => wrap(&format!("{words}: {}", takes_text(field, model)), cells),
        (_, Input::Text(_)) => wrap(words, cells),
        (_, input) => picks(words, input, cells),
    }
}
