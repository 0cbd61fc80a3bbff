//! Which benches the Round shows, or in which order: each choice behind a letter, views with how many benches they show.

pub use view::view;

use crate::controls::{List, letter, page};
use crate::keys::Command;
use crate::model::listing::{Listing, Order, View};
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::warnings::CheckName;

/// What a line of the list chooses.
#[derive(Debug, Clone)]
enum Choice {
    View(View),
    Order(Order),
    /// The list of houses.
    Houses,
    /// The list of lots.
    Lots,
}

/// A line: its letter, its words, what it chooses.
#[derive(Debug, Clone)]
struct Item {
    letter: char,
    text: String,
    choice: Choice,
}

/// The choices, and where the cursor is.
#[derive(Debug, Clone)]
pub struct State {
    title: &'static str,
    items: Vec<Item>,
    /// The list of views lies below this one.
    within: bool,
    list: List,
}

/// The letters of the checks due today.
const CHECKS: [(char, CheckName); 7] = [
    ('w', CheckName::Water),
    ('b', CheckName::Base),
    ('r', CheckName::Roots),
    ('e', CheckName::Reach),
    ('t', CheckName::Bracts),
    ('y', CheckName::Whitefly),
    ('m', CheckName::Height),
];

impl State {
    /// The views, the cursor on the active one.
    pub fn views(model: &Model) -> Self {
        let view = |letter, view: View| {
            let text = format!("{}  ({})", view.text(), count(model, &view));
            Item { letter, text, choice: Choice::View(view) }
        };
        let mut items = vec![
            view('a', View::All),
            view('n', View::NotWalked),
            view('f', View::Flagged),
            view('c', View::Closed),
            Item { letter: 'h', text: "one house ..".to_owned(), choice: Choice::Houses },
            Item { letter: 'l', text: "one lot ..".to_owned(), choice: Choice::Lots },
        ];
        // A check that is due nowhere is not offered.
        let due = CHECKS.iter().filter(|(_, check)| count(model, &View::Due(*check)) > 0);
        items.extend(due.map(|(letter, check)| view(*letter, View::Due(*check))));
        let active = items.iter().position(|item| match (&item.choice, &model.listing.view) {
            (Choice::View(view), active) => view == active,
            (Choice::Houses, View::House(_)) | (Choice::Lots, View::Lot(_)) => true,
            _ => false,
        });
        Self { title: "View: which benches the Round shows", items, within: false, list: List::at(active.unwrap_or(0)) }
    }

    /// The orders, the cursor on the active one.
    pub fn orders(model: &Model) -> Self {
        let letters = ['w', 's', 'd', 'l'];
        let item = |(letter, order): (char, Order)| {
            let text = match order {
                Order::Wettest => "wettest first: the last water reading, then the week ('d' as in drench)".to_owned(),
                Order::Walking | Order::Severity | Order::Unseen => order.text().to_owned(),
            };
            Item { letter, text, choice: Choice::Order(order) }
        };
        let items = letters.into_iter().zip(Order::ALL).map(item).collect();
        let at = Order::ALL.iter().position(|order| *order == model.listing.order);
        Self { title: "Order of the list", items, within: false, list: List::at(at.unwrap_or(0)) }
    }

    /// The houses or the lots, by letters from a on.
    fn within(title: &'static str, views: Vec<View>, model: &Model) -> Self {
        let items = views.into_iter().enumerate().map(|(at, view)| {
            let text = format!("{}  ({})", view.text(), count(model, &view));
            Item { letter: if at < 26 { letter(at) } else { ' ' }, text, choice: Choice::View(view) }
        });
        Self { title, items: items.collect(), within: true, list: List::at(0) }
    }

    /// Takes a line: a view or an order holds at once, houses and lots are listed next.
    fn choose(&mut self, at: usize, model: &mut Model) -> Vec<Effect> {
        let Some(item) = self.items.get(at) else { return Vec::new() };
        let (season, now) = (&model.season, model.listing.clone());
        match item.choice.clone() {
            Choice::View(view) => model.set_listing(Listing { view, ..now }),
            Choice::Order(order) => model.set_listing(Listing { order, ..now }),
            Choice::Houses => {
                let houses = season.houses().into_iter().map(|h| View::House(h.to_owned())).collect();
                *self = Self::within("View: one house", houses, model);
                return Vec::new();
            }
            Choice::Lots => {
                let lots = season.lots().into_iter().map(|l| View::Lot(l.lot.clone())).collect();
                *self = Self::within("View: one lot", lots, model);
                return Vec::new();
            }
        }
        vec![Effect::Go(Go::Back)]
    }
}

/// How many benches a view shows.
fn count(model: &Model, view: &View) -> usize {
    model.listed_as(&Listing { view: view.clone(), order: Order::Walking }).len()
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => {
            let typed = key.typed().filter(|c| *c != ' ')?.to_ascii_lowercase();
            let at = state.items.iter().position(|item| item.letter == typed)?;
            Some(state.choose(at, model))
        }
        Msg::Do(Command::Accept) => Some(state.choose(state.list.cursor(), model)),
        Msg::Do(Command::Back) if state.within => {
            *state = State::views(model);
            Some(Vec::new())
        }
        Msg::Do(Command::Back) => Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(command) => state.list.step(*command, state.items.len(), page(model.size.1)).then(Vec::new),
        _ => None,
    }
}

mod view {
    use super::State;
    use crate::model::Model;
    use crate::ui::list::lettered;
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let line =
            |at: usize| state.items.get(at).map_or((' ', String::new()), |item| (item.letter, item.text.clone()));
        let at = (state.list.cursor(), state.items.len());
        Some(lettered(frame, area, state.title, at, model.look, line))
    }
}
