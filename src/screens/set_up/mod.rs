//! The Setup page: the whole plan as a list (site, lots, orders, benches with the pots on them, placements), with a
//! form a key away for each, and the next step. From an empty program to the first walk without leaving it.

mod items;
mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::controls::List;
use crate::model::Model;
use items::{Item, items};

/// Where the cursor is.
#[derive(Debug, Clone, Default)]
pub struct State {
    /// The cursor, on a line among all.
    list: List,
}

impl State {
    /// The line at the cursor.
    fn cursor(&self, model: &Model) -> Option<Item> {
        let all = items(model);
        let last = all.len().saturating_sub(1);
        all.into_iter().nth(self.list.cursor().min(last))
    }

    /// The bench at the cursor, where it is one, or a placement.
    pub fn bench(&self, model: &Model) -> Option<String> {
        match self.cursor(model)? {
            Item::Bench(code) | Item::Placement(code, _) => Some(code),
            Item::Site | Item::Lot(_) | Item::Order(..) | Item::Trial(_) => None,
        }
    }

    /// The lot at the cursor, where it is one, or an order of it.
    pub fn lot(&self, model: &Model) -> Option<String> {
        match self.cursor(model)? {
            Item::Lot(code) | Item::Order(code, _) => Some(code),
            Item::Trial(code) => model.season.trial(&code).map(|trial| trial.lot.clone()),
            Item::Site | Item::Bench(_) | Item::Placement(..) => None,
        }
    }
}
