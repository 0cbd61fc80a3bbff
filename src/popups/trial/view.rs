//! How the form of a trial looks: a field a row, below them what is proposed and why; before it is saved, the layout over the whole form.

use super::rows::{F, beside, takes};
use super::{State, propose, read, save};
use crate::controls::{Input, Row};
use crate::model::Model;
use crate::popups::columns;
use crate::record::{Line as Record, Term, Trial};
use crate::report::trial::Laid;
use crate::report::trial::laying::{over_tags, which_way};
use crate::report::trial::map::{self, Purpose};
use crate::trials::Planned;
use crate::ui::fields::{fields, form_columns, picks};
use crate::ui::regions::text_cells;
use crate::ui::{Role, list, panel, rows, wrap};
use crate::units::{Length, Quantity, System};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// Fields seen at once, so that what follows from them is seen with them.
const ROWS: usize = 9;

type Said = (String, Role);

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let look = model.look;
    let cells = text_cells(area.width);
    let words = if state.shows_layout { layout(state, model, cells) } else { below(state, model, cells) };
    let many = if state.shows_layout { 0 } else { state.fields.shown().count() };
    let title = if state.shows_layout { "The layout drawn" } else { &state.title() };
    let body = panel(frame, area, many.saturating_add(words.len()).saturating_add(2), title, look);
    let room = if usize::from(body.height) >= many.saturating_add(words.len()) { many } else { many.min(ROWS) };
    let (top, below) = rows(body, u16::try_from(room).unwrap_or(u16::MAX));
    let hint = |row: &Row<F>| hint(state, row, model);
    let cursor = if state.shows_layout {
        Some(Position { x: body.x, y: body.y })
    } else {
        fields(frame, top, (&state.fields, 1), form_columns(body.width), hint, look)
    };
    let room = usize::from(below.height);
    let fits = if words.len() > room { room.saturating_sub(1) } else { words.len() };
    let first = state.words.top().min(words.len().saturating_sub(fits));
    let left = words.len().saturating_sub(first.saturating_add(fits));
    let more = (fits < words.len())
        .then(|| if left > 0 { format!("PgDn: {left} more lines") } else { "PgUp: back".to_owned() })
        .map(|text| (text, Role::Key));
    let shown = words.into_iter().skip(first).take(fits).chain(more);
    list::text(frame, below, 0, shown.map(|(text, role)| Line::from(Span::styled(text, look.style(role)))));
    cursor
}

/// The lines seen at once and all of them, in a window of the last known size: frame and title take six rows at most.
pub(super) fn words_size(state: &State, model: &Model) -> (usize, usize) {
    let cells = text_cells(columns(model));
    let words = if state.shows_layout { layout(state, model, cells) } else { below(state, model, cells) };
    let (height, many) = (usize::from(model.size.1.saturating_sub(6)), state.fields.shown().count());
    let taken = match (state.shows_layout, height >= many.saturating_add(words.len())) {
        (true, _) => 0,
        (false, true) => many,
        (false, false) => many.min(ROWS),
    };
    (height.saturating_sub(taken).saturating_sub(1), words.len())
}

/// A few words next to a field: how to pick, an example, or why it is filled in.
fn hint(state: &State, row: &Row<F>, model: &Model) -> String {
    let why = state.offered.get(&row.name).filter(|why| !why.is_empty() && !row.is_empty());
    match (&row.input, why) {
        (_, Some(why)) => why.clone(),
        (Input::One(..), None) => "press a letter".to_owned(),
        (Input::Many(..), None) => "press letters".to_owned(),
        (Input::Text(_), None) if row.is_empty() => beside(row.name, model.system()).to_owned(),
        (Input::Text(_), None) => String::new(),
    }
}

/// What the selected field takes, and what follows from what is filled in.
fn below(state: &State, model: &Model, cells: usize) -> Vec<Said> {
    let mut words: Vec<Said> = vec![(String::new(), Role::Plain)];
    let mut tell = |text: &str, role: Role| words.extend(wrap(text, cells).into_iter().map(|line| (line, role)));
    if let Some(row) = state.fields.marked() {
        let takes = takes(row.name, model.system());
        match &row.fault {
            Some(fault) => tell(&format!("! {}: {fault}", row.label), Role::Act),
            None if matches!(row.input, Input::Text(_)) => tell(&format!("{}: {takes}", row.label), Role::Said),
            None => {
                for line in picks(takes, &row.input, cells) {
                    tell(&line, Role::Said);
                }
            }
        }
    }
    for fault in &state.stray {
        tell(&format!("! {}", fault.text), Role::Act);
    }
    if state.is_new() {
        for (text, role) in proposal(state, model) {
            tell(&text, role);
        }
    }
    words
}

/// The design and why, how many blocks, what it takes.
fn proposal(state: &State, model: &Model) -> Vec<Said> {
    let mut said = Vec::new();
    let system = model.system();
    if let Some(own) = &state.heights {
        said.push((which_way(own, system), Role::Plain));
        if own.benches.len() > 1 && matches!(state.text(F::Differ).as_str(), "rows" | "columns" | "both") {
            said.extend(over_tags(own, system).map(|text| (text, Role::Plain)));
        }
    }
    if read::treatments(state).is_err() {
        return said;
    }
    let (design, why) = propose::proposed(state, state.heights.as_ref());
    said.push((format!("Proposed: {}; {why}.", design.text()), Role::Plain));
    said.extend(how_many(state, model).into_iter().map(|text| (text, Role::Plain)));
    match &state.laid {
        Ok(_) => said.extend(takes_places(state, model)),
        Err((F::Treatments, _)) => {}
        Err((field, fault)) => {
            let label = state.row(*field).map_or("", |row| row.label);
            if state.row(*field).is_some_and(|row| !row.is_empty()) {
                said.push((format!("{label}: {fault}"), Role::Act));
            }
        }
    }
    if state.text(F::SharedFeed) == "yes" {
        said.push(("Feed runs together on this bench: rates cannot differ from pot to pot.".to_owned(), Role::Act));
    }
    said
}

/// The least difference that each number of blocks shows.
fn how_many(state: &State, model: &Model) -> Vec<String> {
    let main = read::main(state);
    if !state.how_many.is_known() {
        let Ok(Some(_)) = read::amount(state, model, F::Matters) else { return Vec::new() };
        let spread = read::amount(state, model, F::Spread).ok().flatten();
        return match spread {
            Some(_) => Vec::new(),
            None => vec!["Type the spread of single pots, or read heights on a few benches first.".to_owned()],
        };
    }
    let Some((rows, offered)) = &state.how_many.rows else {
        return vec!["Even 100 blocks would not show what matters: give a larger difference.".to_owned()];
    };
    let length = read::is_length(main);
    let shown =
        |value: f64| format!("{:.2}", if length { Length::from_cm(value).in_system(model.system()) } else { value });
    let unit = match (length, model.system()) {
        (false, _) => "",
        (true, System::Us) => " in",
        (true, System::Metric) => " cm",
    };
    let row = |row: &Planned| {
        let mark = if row.blocks == *offered { "*" } else { "" };
        format!("{}{mark}: {}", row.blocks, row.seen.map_or_else(|| "none".to_owned(), shown))
    };
    let room = propose::room(state, model);
    let mut said = vec![format!(
        "Blocks, and the least difference they show 4 times in 5: {}{unit}.",
        rows.iter().map(row).collect::<Vec<_>>().join("; ")
    )];
    if *offered > room && room > 0 {
        said.push(format!("{offered} blocks (*) show what matters, and the places hold {room}."));
    }
    if read::whole(state, F::Pots, 1).is_ok_and(|pots| pots > 1) {
        said.push("The spread is that of single pots; between plots of several it is not known before.".to_owned());
    }
    said
}

/// Pots and benches that it takes.
fn takes_places(state: &State, model: &Model) -> Vec<Said> {
    let Some((trial, lines)) = drawn(state, model) else { return Vec::new() };
    let laid = laid(&trial, &lines, model);
    let pots: u64 = laid.plots.iter().map(|plot| u64::from(plot.pots)).sum();
    let mut benches: Vec<&str> = laid.plots.iter().map(|plot| plot.bench.as_str()).collect();
    benches.dedup();
    let guards = laid.guards();
    let guard = if guards > 0 { format!(" and {guards} guard pots") } else { String::new() };
    let count = laid.plots.len();
    let mut said = vec![(format!("{count} plots: {pots} pots{guard}, on {}.", benches.join(", ")), Role::Good)];
    let stand: u64 =
        benches.iter().filter_map(|b| model.season.standing(b, model.day)).map(|s| u64::from(s.pots)).sum();
    let taken = pots.saturating_add(u64::try_from(guards).unwrap_or(u64::MAX));
    if stand > 0 && taken > stand {
        said.push((format!("That is {taken} pots, and {stand} stand there now."), Role::Act));
    }
    said
}

/// The trial and plots as they would be saved.
fn drawn(state: &State, model: &Model) -> Option<(Trial, Vec<Record>)> {
    let lines = save::lines(state, model).ok()?;
    let trial =
        lines.iter().find_map(|line| if let Record::Trial(trial) = line { Some(trial.clone()) } else { None })?;
    Some((trial, lines))
}

fn laid<'a>(trial: &'a Trial, lines: &'a [Record], model: &Model) -> Laid<'a> {
    let plot = |line: &'a Record| if let Record::Plot(plot) = line { Some(plot) } else { None };
    Laid { trial, plots: lines.iter().filter_map(plot).collect(), on: model.day }
}

/// The layout before it is saved.
fn layout(state: &State, model: &Model, cells: usize) -> Vec<Said> {
    let Some((trial, lines)) = drawn(state, model) else { return Vec::new() };
    let laid = laid(&trial, &lines, model);
    let times = if state.drawn == 1 { "once".to_owned() } else { format!("{} times", state.drawn) };
    let mut words: Vec<Said> = Vec::new();
    let head = format!(
        "Trial {}: {}, seed {}, drawn {times}. Enter saves it; F3 draws again; Esc goes back to the fields.",
        trial.trial,
        trial.design.text(),
        state.seed
    );
    words.extend(wrap(&head, cells).into_iter().map(|line| (line, Role::Title)));
    words.extend(map::lines(&laid, Purpose::Giving, cells).into_iter().skip(1).map(|line| (line, Role::Plain)));
    words.extend(map::weigh_out(&laid).iter().flat_map(|text| wrap(text, cells)).map(|line| (line, Role::Plain)));
    words.extend(takes_places(state, model));
    words
}
