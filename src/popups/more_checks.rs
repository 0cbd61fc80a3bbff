//! Further checks and work for a bench, each behind a letter.

pub use view::view;

use crate::controls::{List, named, page};
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, PotsAsk, Response, go};
use crate::record::{KindName, Place};
use crate::warnings::CheckName;

/// What a line of the list opens.
#[derive(Debug, Clone, Copy)]
enum Item {
    Check(CheckName),
    Line(KindName),
    Leaves,
    Note,
    Swap,
    Sold,
}

const ITEMS: [(&str, Item); 16] = [
    ("leaves", Item::Leaves),
    ("note", Item::Note),
    ("watered, with the amount", Item::Line(KindName::Watered)),
    ("fed", Item::Line(KindName::Fed)),
    ("pots lost", Item::Line(KindName::Losses)),
    ("pots counted", Item::Line(KindName::Counted)),
    ("whitefly on 10 plants or more", Item::Line(KindName::Pests)),
    ("score water", Item::Check(CheckName::Water)),
    ("score water at the base", Item::Check(CheckName::Base)),
    ("score roots", Item::Check(CheckName::Roots)),
    ("score root reach", Item::Check(CheckName::Reach)),
    ("score bracts", Item::Check(CheckName::Bracts)),
    ("count whitefly", Item::Check(CheckName::Whitefly)),
    ("measure heights", Item::Check(CheckName::Height)),
    ("swap with another bench", Item::Swap),
    ("sold, pots of its lot by bench", Item::Sold),
];

/// Which bench, and where the cursor is.
#[derive(Debug, Clone)]
pub struct State {
    bench: String,
    list: List,
}

impl State {
    /// The cursor on the first line.
    pub const fn new(bench: String) -> Self {
        Self { bench, list: List::at(0) }
    }

    /// The bench.
    pub fn bench(&self) -> &str {
        &self.bench
    }

    fn open(&self, at: usize, model: &mut Model) -> Vec<Effect> {
        let bench = self.bench.clone();
        let to = match ITEMS.get(at) {
            Some((_, Item::Check(check))) => return vec![Effect::Go(Go::Check(*check))],
            Some((_, Item::Line(kind))) => go::Popup::Line(*kind, bench),
            Some((_, Item::Leaves)) => go::Popup::Leaves(bench),
            Some((_, Item::Note)) => go::Popup::Note(Place::Bench(bench.into())),
            Some((_, Item::Swap)) => go::Popup::Pots(PotsAsk::Swap(bench)),
            Some((_, Item::Sold)) => {
                let Some(standing) = model.season.standing(&bench, model.day) else {
                    model.say("No pots stand here.");
                    return Vec::new();
                };
                go::Popup::Pots(PotsAsk::Sold(standing.lot))
            }
            None => return Vec::new(),
        };
        vec![Effect::Go(Go::Back), Effect::popup(to)]
    }
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => named(key, ITEMS.len()).map(|at| state.open(at, model)),
        Msg::Do(Command::Accept) => Some(state.open(state.list.cursor(), model)),
        Msg::Do(Command::Back) => Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(command) => state.list.step(*command, ITEMS.len(), page(model.size.1)).then(Vec::new),
        _ => None,
    }
}

mod view {
    use super::{ITEMS, State};
    use crate::controls::letter;
    use crate::model::Model;
    use crate::ui::list::lettered;
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let line = |at: usize| (letter(at), ITEMS.get(at).map_or_else(String::new, |(text, _)| (*text).to_owned()));
        let (title, at) = (format!("More for {}", state.bench), (state.list.cursor(), ITEMS.len()));
        Some(lettered(frame, area, &title, at, model.look, line))
    }
}
