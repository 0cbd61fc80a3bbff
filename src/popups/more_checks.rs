//! Further checks and work for a bench, each behind a letter.

pub use view::view;

use super::letter;
use crate::keys::Command;
use crate::model::{Effect, Go, Msg, go};
use crate::record::{KindName, Place};
use crate::warnings::CheckName;

/// What a line of the list opens.
#[derive(Debug, Clone, Copy)]
enum Item {
    Check(CheckName),
    Line(KindName),
    Leaves,
    Note,
}

const ITEMS: [(&str, Item); 14] = [
    ("leaves", Item::Leaves),
    ("note", Item::Note),
    ("watered, with the amount", Item::Line(KindName::Watered)),
    ("fed", Item::Line(KindName::Fed)),
    ("pots lost", Item::Line(KindName::Losses)),
    ("pots counted", Item::Line(KindName::Counted)),
    ("whitefly on ten plants or more", Item::Line(KindName::Pests)),
    ("score water", Item::Check(CheckName::Water)),
    ("score water at the base", Item::Check(CheckName::Base)),
    ("score roots", Item::Check(CheckName::Roots)),
    ("score how far the roots reach", Item::Check(CheckName::Reach)),
    ("score bracts", Item::Check(CheckName::Bracts)),
    ("count whitefly", Item::Check(CheckName::Whitefly)),
    ("measure heights", Item::Check(CheckName::Height)),
];

/// Where the mark stands.
#[derive(Debug, Clone)]
pub struct State {
    bench: String,
    at: usize,
}

impl State {
    /// The mark on the first line.
    pub const fn new(bench: String) -> Self {
        Self { bench, at: 0 }
    }

    fn open(&self, at: usize) -> Vec<Effect> {
        let bench = self.bench.clone();
        let to = match ITEMS.get(at) {
            Some((_, Item::Check(check))) => return vec![Effect::Go(Go::Check(*check))],
            Some((_, Item::Line(kind))) => go::Popup::Line(*kind, bench),
            Some((_, Item::Leaves)) => go::Popup::Leaves(bench),
            Some((_, Item::Note)) => go::Popup::Note(Place::Bench(bench)),
            None => return Vec::new(),
        };
        vec![Effect::Go(Go::Back), Effect::popup(to)]
    }
}

/// Takes what it is told.
pub fn update(state: &mut State, msg: &Msg) -> Vec<Effect> {
    match msg {
        Msg::Type(key) => {
            let found = (0..ITEMS.len()).find(|i| Some(letter(*i)) == key.typed());
            return found.map(|at| state.open(at)).unwrap_or_default();
        }
        Msg::Do(Command::Down) => state.at = state.at.saturating_add(1).min(ITEMS.len().saturating_sub(1)),
        Msg::Do(Command::Up) => state.at = state.at.saturating_sub(1),
        Msg::Do(Command::Accept) => return state.open(state.at),
        Msg::Do(Command::Back) => return vec![Effect::Go(Go::Back)],
        _ => {}
    }
    Vec::new()
}

mod view {
    use super::{ITEMS, State};
    use crate::model::Model;
    use crate::popups::letter;
    use crate::ui::{Role, fit, panel, put};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Span;

    /// Draws it.
    pub fn view(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let rows = u16::try_from(ITEMS.len()).unwrap_or(14);
        let title = format!("More for {}", state.bench);
        let body = panel(frame, area, rows.saturating_add(1), &title, shared.look);
        let top = state.at.saturating_sub(usize::from(body.height.saturating_sub(1)));
        for (i, (text, _)) in ITEMS.iter().enumerate().skip(top) {
            let role = if i == state.at { Role::Chosen } else { Role::Plain };
            let line = fit(&format!("{}  {text}", letter(i)), usize::from(body.width));
            let row = u16::try_from(i.saturating_sub(top)).unwrap_or(u16::MAX);
            put(frame, body, row, Span::styled(line, shared.look.style(role)));
        }
        let y = body.y.saturating_add(u16::try_from(state.at.saturating_sub(top)).unwrap_or(0));
        Some(Position { x: body.x, y })
    }
}
