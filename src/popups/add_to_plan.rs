//! What can be added to the plan, each behind the letter of its name; and the two kinds of work that change where pots stand.

pub use view::view;

use crate::controls::{List, page};
use crate::keys::Command;
use crate::model::{Effect, FormRequest, Go, Model, Msg, PlanAsk, PotsAsk, Response, go};
use crate::record::{KindName, Place};

/// What a line of the list opens.
#[derive(Debug, Clone, Copy)]
enum Item {
    Site,
    Lot,
    Benches,
    Placement,
    Order,
    Trial,
    Work(KindName),
    Swap,
    Sold,
    History,
}

const ITEMS: [(char, &str, Item); 11] = [
    ('s', "site: place, time zone, units", Item::Site),
    ('l', "a new lot", Item::Lot),
    ('b', "new benches, in a row", Item::Benches),
    ('p', "a placement: a lot on benches", Item::Placement),
    ('o', "an order: pots for a date", Item::Order),
    ('t', "a trial on the benches: its layout drawn by lot", Item::Trial),
    ('m', "move pots of the selected bench", Item::Work(KindName::Moved)),
    ('w', "swap the selected bench with another", Item::Swap),
    ('d', "sold: pots of the selected lot, by bench", Item::Sold),
    ('h', "history of the selected lot before its record", Item::History),
    ('c', "spacing: log that the selected bench was spaced", Item::Work(KindName::Spaced)),
];

/// Said where no lot is selected.
const NO_LOT: &str = "Esc, then select a lot, or a bench that has pots.";

/// The bench or lot selected on the page below, and where the cursor is.
#[derive(Debug, Clone)]
pub struct State {
    bench: Option<String>,
    lot: Option<String>,
    list: List,
}

impl State {
    /// The cursor on the first line.
    pub const fn new(bench: Option<String>, lot: Option<String>) -> Self {
        Self { bench, lot, list: List::at(0) }
    }

    /// Opens a line; one that cannot be opened yet says what comes first.
    fn open(&self, at: usize, model: &mut Model) -> Vec<Effect> {
        let Some((_, _, item)) = ITEMS.get(at) else { return Vec::new() };
        match self.popup(*item, model) {
            Ok(popup) => vec![Effect::Go(Go::Back), Effect::popup(popup)],
            Err(first) => {
                model.say(first);
                Vec::new()
            }
        }
    }

    /// The lot selected on the page below: its line, or the bench where it stands.
    fn lot(&self, model: &Model) -> Option<String> {
        let stands = |bench: &String| model.season.standing(bench, model.day).map(|standing| standing.lot);
        self.lot.clone().or_else(|| self.bench.as_ref().and_then(stands))
    }

    /// The form of a line, or what comes first.
    fn popup(&self, item: Item, model: &Model) -> Result<go::Popup, &'static str> {
        let season = &model.season;
        let ask = match item {
            Item::Site => PlanAsk::Site,
            _ if season.site().is_none() => return Err("The site comes first: press s."),
            Item::Lot => PlanAsk::NewLot,
            Item::Benches => PlanAsk::Benches,
            Item::Placement if season.lots().is_empty() => return Err("No lots to place yet: press l."),
            Item::Placement if season.benches().is_empty() => return Err("No benches to place it on yet: press b."),
            Item::Placement => PlanAsk::SetDown,
            Item::Order if season.lots().is_empty() => return Err("No lots yet: press l."),
            Item::Order => PlanAsk::NewOrder,
            Item::Trial if season.benches().is_empty() => return Err("No benches for a trial yet: press b."),
            Item::Trial => return Ok(go::Popup::NewTrial),
            Item::Swap => {
                let bench = self.bench.clone().ok_or("Esc, then select a bench.")?;
                return Ok(go::Popup::Pots(PotsAsk::Swap(bench)));
            }
            Item::Sold => return Ok(go::Popup::Pots(PotsAsk::Sold(self.lot(model).ok_or(NO_LOT)?))),
            Item::History => PlanAsk::History(self.lot(model).ok_or(NO_LOT)?),
            Item::Work(kind) => {
                let bench = self.bench.clone().filter(|b| season.standing(b, model.day).is_some());
                let bench = bench.ok_or("Esc, then select a bench that has pots.")?;
                return Ok(go::Popup::Form(Box::new(FormRequest::new(kind, Place::Bench(bench.into())))));
            }
        };
        Ok(go::Popup::Plan(ask))
    }
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => {
            let typed = key.typed()?.to_ascii_lowercase();
            let at = ITEMS.iter().position(|(letter, ..)| *letter == typed)?;
            Some(state.open(at, model))
        }
        Msg::Do(Command::Accept) => Some(state.open(state.list.cursor(), model)),
        Msg::Do(Command::Back) => Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(command) => state.list.step(*command, ITEMS.len(), page(model.size.1)).then(Vec::new),
        _ => None,
    }
}

mod view {
    use super::{ITEMS, State};
    use crate::model::Model;
    use crate::ui::list::lettered;
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let line =
            |at: usize| ITEMS.get(at).map_or((' ', String::new()), |(letter, text, _)| (*letter, (*text).to_owned()));
        let at = (state.list.cursor(), ITEMS.len());
        Some(lettered(frame, area, "Add to the plan", at, model.look, line))
    }
}
