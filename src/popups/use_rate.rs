//! Which rate of a trial is the slow-release of its lot next season, each behind a letter.

pub use view::view;

use crate::controls::{List, named, page};
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::record::Trial;

/// The trial, and the cursor on one of its rates.
#[derive(Debug, Clone)]
pub struct State {
    trial: Option<Trial>,
    list: List,
}

impl State {
    /// The rates of a trial.
    pub fn new(trial: &str, model: &Model) -> Self {
        Self { trial: model.season.trial(trial).cloned(), list: List::default() }
    }

    fn rates(&self) -> &[f64] {
        self.trial.as_ref().and_then(|trial| trial.rates.as_deref()).unwrap_or_default()
    }

    fn choose(&self, at: usize, model: &mut Model) -> Vec<Effect> {
        let (Some(trial), Some(rate)) = (&self.trial, self.rates().get(at)) else { return Vec::new() };
        match model.use_rate(trial, *rate) {
            Ok(effect) => vec![effect, Effect::Go(Go::Back)],
            Err(faults) => {
                model.refuse(&faults);
                vec![Effect::Go(Go::Back)]
            }
        }
    }
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let count = state.rates().len();
    match msg {
        Msg::Type(key) => {
            let at = named(key, count)?;
            Some(state.choose(at, model))
        }
        Msg::Do(Command::Accept) => Some(state.choose(state.list.cursor(), model)),
        Msg::Do(Command::Back) => Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(command) => state.list.step(*command, count, page(model.size.1)).then(Vec::new),
        _ => None,
    }
}

mod view {
    use super::State;
    use crate::controls::letter;
    use crate::model::Model;
    use crate::ui::list::lettered;
    use crate::units::plain;
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let (code, lot) = state.trial.as_ref().map_or(("", ""), |trial| (&trial.trial, &trial.lot));
        let title = format!("Next season: slow-release for lot {lot}, by trial {code}");
        let line = |at: usize| {
            let rate = state.rates().get(at).map(|rate| plain(*rate)).unwrap_or_default();
            (letter(at), format!("use {rate} g per pot"))
        };
        let at = (state.list.cursor(), state.rates().len());
        Some(lettered(frame, area, &title, at, model.look, line))
    }
}
