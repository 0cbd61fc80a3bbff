//! How the Share page looks: a table of folders and hubs with what is to be said of each, then a table of laptops.

use super::State;
use crate::exchange::{CarrierState, LaptopState, Sharing};
use crate::model::Model;
use crate::report::share;
use crate::ui::list::on_row;
use crate::ui::regions::text_cells;
use crate::ui::{Role, fit, put, wrap};
use chrono::{DateTime, TimeDelta, Utc};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};

/// How a season comes to be shared.
const ALONE: &str = "This season is kept on this laptop alone.\n\
\n\
To keep it on several laptops, choose a folder that all of them reach, on a network drive or a stick, and type in a shell:\n\
\n\
\x20   benchwalk share on --folder DIR\n\
\n\
and on each of the other laptops:\n\
\n\
\x20   benchwalk share join --folder DIR\n\
\n\
Nobody waits for the folder: each laptop walks and saves by itself, and exchanges lines when the folder is there. A database \
server (PostgreSQL) does it for many laptops and sites. Both are described step by step by `benchwalk help share`.";

/// Cells of the first column.
const NAME: usize = 18;
/// Cells before what belongs to the row above.
const UNDER: usize = 2;

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let lines = lines(model, usize::from(area.width));
    let room = usize::from(area.height);
    let top = state.list.top().min(lines.len().saturating_sub(room));
    for (row, line) in lines.into_iter().skip(top).take(room).enumerate() {
        put(frame, area, row, line);
    }
    Some(on_row(area, 0))
}

/// The page, a row each.
pub(super) fn lines(model: &Model, cells: usize) -> Vec<Line<'static>> {
    let Some(sharing) = &model.sharing else {
        let cells = text_cells(u16::try_from(cells).unwrap_or(u16::MAX));
        return ALONE.split('\n').flat_map(|text| set(text, cells)).map(Line::raw).collect();
    };
    let mut lines = Vec::new();
    let head = format!("This laptop is {}. {}", sharing.laptop, in_short(sharing, model));
    lines.extend(wrap(&head, cells).into_iter().map(Line::raw));
    lines.push(Line::default());
    let style = model.look.style(Role::Head);
    lines.push(Line::styled(carrier_cells("folder or hub", "shared", "to send", "next time"), style));
    if sharing.carriers.is_empty() {
        let text = "none: 'benchwalk share on --folder DIR' names a folder again";
        lines.extend(wrap(text, cells).into_iter().map(Line::raw));
    }
    for carrier in &sharing.carriers {
        lines.extend(carrier_lines(carrier, model, cells));
    }
    lines.push(Line::default());
    lines.push(Line::styled(laptop_cells("laptop", "lines", "known to", "heard"), style));
    lines.extend(sharing.laptops.iter().map(|laptop| Line::raw(laptop_line(laptop, model))));
    if let Some(held) = share::held(sharing) {
        lines.push(Line::default());
        lines.extend(wrap(&format!("{held}."), cells).into_iter().map(Line::raw));
    }
    lines
}

/// A text, and a line of a command as it is.
fn set(text: &str, cells: usize) -> Vec<String> {
    if text.is_empty() || text.starts_with(' ') { vec![text.to_owned()] } else { wrap(text, cells) }
}

fn in_short(sharing: &Sharing, model: &Model) -> String {
    if model.exchanging {
        return share::EXCHANGING.to_owned();
    }
    let others = sharing.laptops.iter().filter(|laptop| !laptop.own).count();
    let others = match others {
        0 => "No other laptop is known yet.".to_owned(),
        1 => "1 other laptop keeps this season too.".to_owned(),
        n => format!("{n} other laptops keep this season too."),
    };
    match share::frame(sharing, model.present()) {
        text if text.is_empty() => others,
        text => format!("{others} In short: {text}."),
    }
}

fn carrier_cells(name: &str, shared: &str, to_send: &str, next: &str) -> String {
    format!("{}{}{to_send:>8}  {next}", fit(name, NAME), fit(shared, 20)).trim_end().to_owned()
}

/// A carrier: its row, where it is, what is to be said of it.
fn carrier_lines(carrier: &CarrierState, model: &Model, cells: usize) -> Vec<Line<'static>> {
    let now = model.present();
    let shared = carrier.shared.map_or_else(|| "not yet".to_owned(), |at| when(at, model));
    let next = match carrier.next {
        _ if model.exchanging => "now".to_owned(),
        None => "by Enter".to_owned(),
        Some(_) if !model.exchanges_by_itself() => "by Enter (another day)".to_owned(),
        Some(next) if next.signed_duration_since(now) < TimeDelta::minutes(1) => "within a minute".to_owned(),
        Some(next) => format!("in {}", share::length(next.signed_duration_since(now))),
    };
    let row = carrier_cells(&carrier.name, &shared, &carrier.to_send.to_string(), &next);
    let under = |text: &str| -> Vec<String> {
        let lines = wrap(text, cells.saturating_sub(UNDER).max(1));
        lines.into_iter().map(|line| format!("{}{line}", " ".repeat(UNDER))).collect()
    };
    let mut lines = vec![Line::raw(row)];
    let dim = model.look.style(Role::Dim);
    lines.extend(under(&carrier.place).into_iter().map(|line| Line::styled(line, dim)));
    let role = model.look.style(if share::fails(carrier) { Role::Act } else { Role::Plain });
    for note in share::notes(carrier, now) {
        lines.extend(under(&note).into_iter().map(|line| Line::from(Span::styled(line, role))));
    }
    lines
}

fn laptop_cells(name: &str, lines: &str, known: &str, heard: &str) -> String {
    format!("{}{lines:>8}  {}{heard}", fit(name, NAME), fit(known, 20)).trim_end().to_owned()
}

/// A laptop in one line. Of this one all is known.
fn laptop_line(laptop: &LaptopState, model: &Model) -> String {
    let name = laptop.name.clone().unwrap_or_else(|| "name not known".to_owned());
    let none = model.look.glyphs().none;
    let known = laptop.known_to.map_or_else(|| none.to_owned(), |at| model.day_and_time(model.local(at.to_utc())));
    if laptop.own {
        return laptop_cells(&name, &laptop.lines.to_string(), &known, "this laptop");
    }
    let heard = laptop.seen.map_or_else(|| none.to_owned(), |at| when(at, model));
    laptop_cells(&name, &laptop.lines.to_string(), &known, &heard)
}

/// An instant: how long ago within the last hours, else by day and time.
fn when(at: DateTime<Utc>, model: &Model) -> String {
    let now = model.present();
    if now.signed_duration_since(at) < TimeDelta::hours(12) {
        share::ago(at, now)
    } else {
        model.day_and_time(model.local(at))
    }
}
