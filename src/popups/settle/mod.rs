//! What is to settle, one after the other: lines of the plan side by side, field by field; work that may be logged twice; pots
//! that do not add up; and what only a laptop or a clock elsewhere mends.
//!
//! Everything is settled by new lines: a revision in the place of both, a strike, a note that both are right. Esc leaves it for
//! later.

mod choices;
mod sides;
mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::model::Model;
use crate::season::Unsettled;
use choices::Choices;
use sides::Sides;

/// What is to settle, and how the one shown is settled.
#[derive(Debug, Clone)]
pub struct State {
    all: Vec<Unsettled>,
    at: usize,
    way: Way,
}

/// How something is settled.
#[derive(Debug, Clone)]
enum Way {
    /// A line of the plan is written in the place of those that contradict each other.
    Sides(Box<Sides>),
    /// One of several things to do.
    Choices(Choices),
}

impl State {
    /// The first that is to settle; `None` where nothing is.
    pub fn new(model: &Model) -> Option<Self> {
        Self::at(0, model)
    }

    /// The one at a place of the list, or the last before it; `None` where nothing is to settle.
    fn at(at: usize, model: &Model) -> Option<Self> {
        let all = model.unsettled();
        let at = at.min(all.len().checked_sub(1)?);
        let way = Way::of(all.get(at)?, model);
        Some(Self { all, at, way })
    }

    /// The one that follows once this one is settled; `None` where it was the last.
    pub fn next(&self, model: &Model) -> Option<Self> {
        Self::at(self.at, model)
    }

    /// The one after or before, without settling this one.
    fn turn(&mut self, onward: bool, model: &Model) {
        let many = self.all.len().max(1);
        let step = if onward { 1 } else { many.saturating_sub(1) };
        let to = self.at.saturating_add(step).checked_rem(many).unwrap_or(0);
        if let Some(next) = Self::at(to, model) {
            *self = next;
        }
    }

    fn shown(&self) -> Option<&Unsettled> {
        self.all.get(self.at)
    }
}

impl Way {
    fn of(unsettled: &Unsettled, model: &Model) -> Self {
        match unsettled {
            Unsettled::Plan(contradiction) => Self::Sides(Box::new(Sides::new(contradiction, model))),
            other => Self::Choices(Choices::new(other, model)),
        }
    }
}
