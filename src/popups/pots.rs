//! Pots of several benches in one go: two benches swapped, or one lot sold over its benches, a number for each.
//!
//! The entries are logged together and one undo takes all of them back.

pub use view::view;

use crate::controls::Field;
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, PotsAsk, Response};
use crate::record::{Kind, Place};
use crate::season::places;

/// A line to fill in.
#[derive(Debug, Clone)]
struct Row {
    label: String,
    beside: String,
    field: Field,
}

/// The lines, the one that keys act on, and what is wrong.
#[derive(Debug, Clone)]
pub struct State {
    ask: PotsAsk,
    rows: Vec<Row>,
    at: usize,
    fault: Option<String>,
    /// What was asked once more: saved again as it is, it is meant.
    asked: Option<String>,
}

impl State {
    /// Nothing filled in yet.
    pub fn new(ask: PotsAsk, model: &Model) -> Self {
        let row = |label: String, beside: String| Row { label, beside, field: Field::default() };
        let stands = |bench: &str| {
            let standing = model.season.standing(bench, model.day);
            standing.map_or_else(|| "empty".to_owned(), |s| format!("{} pots of {}", s.pots, s.lot))
        };
        let rows = match &ask {
            PotsAsk::Swap(bench) => vec![row("swap with".to_owned(), format!("{bench}: {}", stands(bench)))],
            PotsAsk::Sold(lot) => {
                let benches = model.season.benches_of_lot(lot, model.day).into_iter();
                benches.map(|bench| row(bench.to_owned(), format!("of {}", stands(bench)))).collect()
            }
        };
        Self { ask, rows, at: 0, fault: None, asked: None }
    }

    /// The numbers filled in, by bench.
    fn pots(&self) -> Result<Vec<(String, u32)>, String> {
        let mut all = Vec::new();
        for row in self.rows.iter().filter(|row| !row.field.is_blank()) {
            let text = row.field.text().trim();
            let pots = text.parse::<u32>().map_err(|_no_number| {
                format!("{}: \"{text}\" is no number of pots; give a whole number such as 12", row.label)
            })?;
            all.extend((pots > 0).then(|| (row.label.clone(), pots)));
        }
        Ok(all)
    }

    /// What is logged, each with its place.
    ///
    /// # Errors
    /// What is wrong, and what would be right.
    fn kinds(&self, model: &Model) -> Result<Vec<(String, Kind)>, String> {
        match &self.ask {
            PotsAsk::Sold(_) => {
                let pots = self.pots()?;
                if pots.is_empty() {
                    return Err("no pots are filled in; give the pots sold beside each bench".to_owned());
                }
                Ok(pots.into_iter().map(|(bench, pots)| (bench, Kind::Sold { pots })).collect())
            }
            PotsAsk::Swap(bench) => self.swap(bench, model),
        }
    }

    fn swap(&self, bench: &str, model: &Model) -> Result<Vec<(String, Kind)>, String> {
        let typed = self.rows.first().map(|row| row.field.text().trim().to_owned()).unwrap_or_default();
        let other = places::code(&model.season, &typed).filter(|other| other != bench);
        let Some(other) = other else { return Err(format!("\"{typed}\" is no other bench; give the code of one")) };
        let pots = |code: &str| model.season.standing(code, model.day).map(|standing| standing.pots);
        let way =
            |from: &str, to: &str| pots(from).map(|pots| (from.to_owned(), Kind::Moved { to: to.to_owned(), pots }));
        let all: Vec<(String, Kind)> = way(bench, &other).into_iter().chain(way(&other, bench)).collect();
        if all.is_empty() { Err("both benches are empty; there is nothing to swap".to_owned()) } else { Ok(all) }
    }

    fn title(&self) -> String {
        match &self.ask {
            PotsAsk::Swap(bench) => format!("Swap {bench} with another bench: all pots of both"),
            PotsAsk::Sold(lot) => format!("Sold: lot {lot}, by bench"),
        }
    }

    /// The total, or what the other bench holds.
    fn sum(&self, model: &Model) -> String {
        match (&self.ask, self.pots()) {
            (PotsAsk::Sold(_), Ok(pots)) => {
                let total: u64 = pots.iter().map(|(_, pots)| u64::from(*pots)).sum();
                format!("Total: {total} pots from {} of {} benches.", pots.len(), self.rows.len())
            }
            (PotsAsk::Sold(_), Err(_)) => String::new(),
            (PotsAsk::Swap(_), _) => {
                let typed = self.rows.first().map(|row| row.field.text().trim().to_owned()).unwrap_or_default();
                let other = places::code(&model.season, &typed);
                other.map_or_else(String::new, |code| {
                    let standing = model.season.standing(&code, model.day);
                    standing
                        .map_or_else(|| format!("{code}: empty"), |s| format!("{code}: {} pots of {}", s.pots, s.lot))
                })
            }
        }
    }
}

/// That so many pots are more than fit on a bench; `None` where they fit, or where area or spacing is not known.
pub(super) fn over_room(model: &Model, bench: &str, lot: &str, pots: u32) -> Option<String> {
    let room = model.season.room_for(bench, lot, model.day)?;
    (pots > room).then(|| format!("{pots} pots on {bench}, but at the spacing of {lot} its area holds {room}."))
}

/// The first bench that would hold more pots than fit at the spacing of their lot.
fn moved_over_room(model: &Model, all: &[(String, Kind)]) -> Option<String> {
    all.iter().find_map(|(from, kind)| {
        let Kind::Moved { to, pots } = kind else { return None };
        let lot = model.season.standing(from, model.day)?.lot;
        over_room(model, to, &lot, *pots)
    })
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let count = state.rows.len().max(1);
    match msg {
        Msg::Type(key) => {
            if let Some(row) = state.rows.get_mut(state.at)
                && row.field.key(key)
            {
                (state.fault, state.asked) = (None, None);
            }
        }
        Msg::Paste(text) => {
            if let Some(row) = state.rows.get_mut(state.at) {
                row.field.paste(text);
                (state.fault, state.asked) = (None, None);
            }
        }
        Msg::Do(Command::FieldAfter | Command::PageDown) => state.at = state.at.saturating_add(1) % count,
        Msg::Do(Command::FieldBefore | Command::PageUp) => {
            state.at = state.at.saturating_add(count.saturating_sub(1)) % count;
        }
        Msg::Do(Command::Back) => return Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(Command::Accept) => return Some(accept(state, model)),
        _ => return None,
    }
    Some(Vec::new())
}

fn accept(state: &mut State, model: &mut Model) -> Vec<Effect> {
    let kinds = match state.kinds(model) {
        Ok(kinds) => kinds,
        Err(fault) => {
            state.fault = Some(fault);
            return Vec::new();
        }
    };
    let over = moved_over_room(model, &kinds);
    if over.is_some() && state.asked != over {
        state.asked = over;
        return Vec::new();
    }
    let entries = kinds.into_iter().map(|(bench, kind)| model.entry(Place::Bench(bench.into()), kind, None)).collect();
    match model.record(entries) {
        Ok(effect) => vec![Effect::Go(Go::Back), effect],
        Err(faults) => {
            state.fault = faults.first().map(crate::model::fault_text);
            Vec::new()
        }
    }
}

mod view {
    use super::State;
    use crate::model::Model;
    use crate::ui::list::{Follow, list};
    use crate::ui::{Role, fit, panel, rows, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::{Line, Span};

    /// Cells of a label, and of what is typed.
    const CELLS: (usize, usize) = (18, 12);

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let look = model.look;
        let cells = usize::from(area.width);
        let mut words: Vec<Line<'_>> = vec![Line::default()];
        words.extend(wrap(&state.sum(model), cells).into_iter().map(|l| Line::styled(l, look.style(Role::Good))));
        let asked = state.asked.as_ref().map(|asked| format!("{asked} Enter again saves."));
        let said = state.fault.as_ref().map(|fault| format!("! {fault}")).or(asked);
        words
            .extend(wrap(&said.unwrap_or_default(), cells).into_iter().map(|l| Line::styled(l, look.style(Role::Act))));
        let wanted = state.rows.len().saturating_add(words.len()).saturating_add(1);
        let body = panel(frame, area, wanted, &state.title(), look);
        let room = usize::from(body.height).saturating_sub(words.len()).max(1).min(state.rows.len().max(1));
        let (top, below) = rows(body, u16::try_from(room).unwrap_or(u16::MAX));
        crate::ui::list::text(frame, below, 0, words);
        let row = |at: usize, chosen: bool| {
            let Some(row) = state.rows.get(at) else { return Line::default() };
            let mark = if chosen { look.glyphs().here } else { " " };
            let style = look.style(if chosen { Role::Title } else { Role::Label });
            let typed = if chosen { format!("> {}", row.field.text()) } else { format!("  {}", row.field.text()) };
            Line::from(vec![
                Span::styled(fit(&format!("{mark} {}", row.label), CELLS.0), style),
                Span::raw(fit(&typed, CELLS.1)),
                Span::styled(row.beside.clone(), look.style(Role::Label)),
            ])
        };
        let at = list(frame, top, (state.at, state.rows.len()), Follow::Edge, row);
        let typed = state.rows.get(state.at).map_or(0, |row| row.field.cursor());
        let x = CELLS.0.saturating_add(2).saturating_add(typed);
        Some(Position { x: area.x.saturating_add(u16::try_from(x).unwrap_or(0)), y: at.y })
    }
}
