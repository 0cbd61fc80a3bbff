//! Keys pressed before the season is read: held back, and played in their order once it is.

use super::App;
use crate::input::{Code, Event, Key};
use crate::keys::{Command, Context, look_up};
use crate::model::{Effect, Msg, Now, walk_order};
use crate::progress::{bar, marks};
use crate::screens::Screen;
use crate::ui::Role;
use std::collections::VecDeque;

/// Keys held at most; further ones are dropped, with a word.
const MOST: usize = 200;

/// Cells of the bar that shows how far the reading got.
const BAR: usize = 10;

/// The keys and pastes held back, oldest first, each with the time it was pressed at.
#[derive(Debug, Clone, Default)]
pub(super) struct Held {
    events: VecDeque<(Event, Now)>,
    dropped: usize,
}

impl App {
    /// Holds a key back while the season is read; gives back what is to be handled at once: leaving, redrawing, everything that
    /// is no key.
    pub(super) fn hold(&mut self, event: Event, now: Now) -> Option<Event> {
        if self.model.loaded {
            return Some(event);
        }
        let key = match &event {
            Event::Key(key) => Some(*key),
            Event::Paste(_) => None,
            Event::Resize(..) | Event::Idle | Event::Quit => return Some(event),
        };
        if let Some(key) = key {
            if self.goes_through(key) {
                return Some(event);
            }
            let drops = key.code == Code::Esc && self.on_the_round();
            if drops {
                self.held = Held::default();
                return None;
            }
        }
        if self.held.events.len() < MOST {
            self.held.events.push_back((event, now));
        } else {
            self.held.dropped = self.held.dropped.saturating_add(1);
        }
        None
    }

    /// True where keys held back are to be played now.
    pub fn has_held(&self) -> bool {
        self.model.loaded && (!self.held.events.is_empty() || self.held.dropped > 0)
    }

    /// The oldest key held back, once the season is read.
    pub fn released(&mut self) -> Option<(Event, Now)> {
        if !self.model.loaded {
            return None;
        }
        if self.model.unread.is_some() {
            self.held = Held::default();
        }
        let next = self.held.events.pop_front();
        if next.is_none() && self.held.dropped > 0 {
            let dropped = std::mem::take(&mut self.held.dropped);
            self.model
                .trouble(format!("While the season was read {MOST} keys were kept; {dropped} more were ignored."));
        }
        next
    }

    /// Keys that need no entries. A bare `q` is one while nothing is held before it that it could belong to, and so is what moves
    /// the cursor on the Round: the benches are those of the plan.
    fn goes_through(&self, key: Key) -> bool {
        let anywhere = look_up(Context::Everywhere, key);
        let here = look_up(self.context(), key);
        let first = self.held.events.is_empty() && self.held.dropped == 0 && self.on_the_round();
        matches!(anywhere, Some(Command::Quit | Command::Redraw | Command::Suspend | Command::Palette))
            || first && here.is_some_and(|command| command == Command::Quit || command.moves())
    }

    fn on_the_round(&self) -> bool {
        self.popups.is_empty() && matches!(self.screen, Screen::Round(_))
    }

    /// What is said while the season is read.
    pub(super) fn reading(&self) -> Option<(String, Role)> {
        let model = &self.model;
        let troubled = matches!(model.status, Some(crate::model::Status::Trouble(_)));
        if model.loaded || (troubled && self.held.events.is_empty()) {
            return None;
        }
        let bar = |hundredths: u8| bar(hundredths.into(), BAR, marks(model.look.ascii));
        let far = model.read.map_or_else(|| ".".to_owned(), |n| format!(" {} {n}%.", bar(n)));
        let held = match (self.held.events.len(), self.held.dropped) {
            (0, _) => String::new(),
            (1, _) => " 1 key waits; Esc drops it.".to_owned(),
            (n, 0) => format!(" {n} keys wait; Esc drops them."),
            (n, _) => format!(" {n} keys wait, no more are kept; Esc drops them."),
        };
        Some((format!("Reading the season{far}{held}"), Role::Said))
    }

    /// Closes what takes a finding of a bench that was closed or emptied meanwhile; what was typed is kept.
    pub(super) fn leave_findings(&mut self) -> Vec<Effect> {
        let mut effects = Vec::new();
        for _ in 0..self.popups.len() {
            let bench = self.popups.last().and_then(crate::popups::Popup::finding_of).map(str::to_owned);
            if !bench.is_some_and(|bench| self.is_shut(&bench)) {
                break;
            }
            let left = self.tell(&Msg::Do(Command::Back)).unwrap_or_default();
            effects.extend(self.settle(left));
        }
        effects
    }

    /// True where a bench takes no observation now; says why.
    pub(super) fn is_shut(&mut self, bench: &str) -> bool {
        let why = walk_order::shut(&self.model, bench);
        if let Some(why) = why {
            self.model.trouble(why.text(&self.model, bench));
        }
        why.is_some()
    }
}
