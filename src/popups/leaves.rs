//! What the leaves of a bench show: any number of signs, and where.

pub use view::view;

use super::letter;
use crate::input::Key;
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg};
use crate::record::{Kind, LeafSign, Place, PlantPart, Term};

/// The signs marked.
#[derive(Debug, Clone)]
pub struct State {
    bench: String,
    signs: Vec<LeafSign>,
    place: Option<PlantPart>,
    at: usize,
}

impl State {
    /// Nothing marked yet.
    pub const fn new(bench: String) -> Self {
        Self { bench, signs: Vec::new(), place: None, at: 0 }
    }

    fn toggle(&mut self, sign: LeafSign) {
        if self.signs.contains(&sign) {
            self.signs.retain(|s| *s != sign);
        } else {
            self.signs.push(sign);
            self.signs.sort_unstable();
        }
    }

    fn key(&mut self, key: &Key) {
        match (key.typed(), key.digit()) {
            (_, Some(digit)) => {
                let place = PlantPart::ALL.get(usize::from(digit).wrapping_sub(1)).copied();
                self.place = if self.place == place { None } else { place };
            }
            (Some(' '), None) => {
                if let Some(sign) = LeafSign::ALL.get(self.at) {
                    self.toggle(*sign);
                }
            }
            (Some(c), None) => {
                let found = LeafSign::ALL.iter().enumerate().find(|(i, _)| letter(*i) == c);
                if let Some((at, sign)) = found {
                    self.at = at;
                    self.toggle(*sign);
                }
            }
            (None, None) => {}
        }
    }
}

/// Takes what it is told.
pub fn update(state: &mut State, shared: &mut Model, msg: &Msg) -> Vec<Effect> {
    let last = LeafSign::ALL.len().saturating_sub(1);
    match msg {
        Msg::Type(key) => state.key(key),
        Msg::Do(Command::Down) => state.at = state.at.saturating_add(1).min(last),
        Msg::Do(Command::Up) => state.at = state.at.saturating_sub(1),
        Msg::Do(Command::Back) => return vec![Effect::Go(Go::Back)],
        Msg::Do(Command::Accept) => {
            let kind = Kind::Leaves { signs: state.signs.clone(), r#where: state.place };
            let entry = shared.entry(Place::Bench(state.bench.clone()), kind, None);
            let effects = shared.record_or_say(vec![entry]);
            let back = (!effects.is_empty()).then_some(Effect::Go(Go::Back));
            return effects.into_iter().chain(back).collect();
        }
        _ => {}
    }
    Vec::new()
}

mod view {
    use super::State;
    use crate::model::Model;
    use crate::popups::letter;
    use crate::record::{LeafSign, PlantPart, Term};
    use crate::ui::{Role, fit, panel, put};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Span;

    /// Draws it.
    pub fn view(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let look = shared.look;
        let half = LeafSign::ALL.len().div_ceil(2);
        let rows = u16::try_from(half).unwrap_or(8);
        let title = format!("Leaves on {}", state.bench);
        let body = panel(frame, area, rows.saturating_add(4), &title, look);
        let cells = usize::from(body.width / 2);
        let mut cursor = None;
        for (i, sign) in LeafSign::ALL.iter().enumerate() {
            let (column, row) = (i / half, i % half);
            let mark = if state.signs.contains(sign) { "[x]" } else { "[ ]" };
            let role = if i == state.at { Role::Chosen } else { Role::Plain };
            let text = fit(&format!("{} {mark} {}", letter(i), sign.text()), cells.saturating_sub(1));
            let left = u16::try_from(column.saturating_mul(cells)).unwrap_or(0);
            let place = Rect { x: body.x.saturating_add(left), width: body.width / 2, ..body }.intersection(body);
            let row = u16::try_from(row).unwrap_or(0);
            put(frame, place, row, Span::styled(text, look.style(role)));
            if i == state.at {
                cursor = Some(Position { x: place.x.saturating_add(3), y: place.y.saturating_add(row) });
            }
        }
        let places: Vec<String> = PlantPart::ALL
            .iter()
            .enumerate()
            .map(|(i, w)| {
                let mark = if state.place == Some(*w) { "x" } else { " " };
                format!("{} [{mark}] {}", i.saturating_add(1), w.text())
            })
            .collect();
        put(frame, body, rows, Span::raw(places.join("  ")));
        let hint = "A letter marks a sign. Enter saves; with nothing marked: looked, nothing seen.";
        put(frame, body, rows.saturating_add(1), Span::raw(hint));
        cursor
    }
}
