//! What the leaves of a bench show: any number of signs, and where.

mod view;

pub use view::view;

use super::more::letter;
use crate::input::Key;
use crate::keys::Command;
use crate::model::{Effect, Msg, Shared, To};
use crate::record::{Kind, LeafSign, Place, Where, Word};

/// The signs marked.
#[derive(Debug, Clone)]
pub struct State {
    bench: String,
    signs: Vec<LeafSign>,
    place: Option<Where>,
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
                let place = Where::ALL.get(usize::from(digit).wrapping_sub(1)).copied();
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
pub fn update(state: &mut State, shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
    let last = LeafSign::ALL.len().saturating_sub(1);
    match msg {
        Msg::Type(key) => state.key(key),
        Msg::Do(Command::Down) => state.at = state.at.saturating_add(1).min(last),
        Msg::Do(Command::Up) => state.at = state.at.saturating_sub(1),
        Msg::Do(Command::Back) => return vec![Effect::Go(To::Back)],
        Msg::Do(Command::Accept) => {
            let kind = Kind::Leaves { signs: state.signs.clone(), r#where: state.place };
            let effect = shared.write(Place::Bench(state.bench.clone()), kind, None);
            return vec![effect, Effect::Go(To::Back)];
        }
        _ => {}
    }
    Vec::new()
}
