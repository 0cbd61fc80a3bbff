//! The list of forms: what answers the warnings of the place, each behind a digit; then every kind of work and every
//! observation without a check of its own, each behind a letter.

pub use view::view;

use crate::controls::{List, named, page};
use crate::input::Key;
use crate::keys::Command;
use crate::model::{Answer, Effect, FormRequest, Go, JobTick, Model, Msg, Response, answers, answers_of, go};
use crate::record::{KindName, Place};
use crate::warnings::Warning;

/// At most as many answers as there are digits for them.
const ANSWERS: usize = 9;

/// The list, and where the cursor is.
#[derive(Debug, Clone)]
pub struct State {
    title: String,
    answers: Vec<Answer>,
    kinds: Vec<FormRequest>,
    list: List,
}

impl State {
    /// Everything for a place, or for the marked benches.
    pub fn all(place: &Place, benches: &[String], model: &Model) -> Self {
        let warnings: Vec<Warning> = match (place, benches.len()) {
            (Place::Bench(code), 0 | 1) => model.standing_warnings(code),
            _ => Vec::new(),
        };
        let found = warnings.iter().flat_map(|w| answers(w, &model.season)).take(ANSWERS).collect();
        let title = match benches.len() {
            0 | 1 => format!("Log for {} {}", place.field(), place.code()),
            _ => format!("Log for {}", benches.join(" ")),
        };
        let asks = KindName::offered().into_iter().map(|kind| FormRequest::new(kind, place.clone()));
        let kinds = asks.map(|ask| ask.on(benches.to_vec())).collect();
        Self { title, answers: found, kinds, list: List::at(0) }
    }

    /// What answers the warnings of one problem; of a listed job on its benches, which the form ticks.
    pub fn answers(warnings: &[Warning], tick: Option<&JobTick>, model: &Model) -> Self {
        let mut found = answers_of(warnings, &model.season);
        found.truncate(ANSWERS);
        if let Some(tick) = tick {
            let benches = || tick.places.iter().filter(|place| matches!(place, Place::Bench(_)));
            let codes: Vec<String> = benches().map(|place| place.code().to_owned()).collect();
            for answer in &mut found {
                answer.ask.ticks = Some(tick.clone());
                if let Some(first) = benches().next() {
                    (answer.ask.place, answer.ask.benches) = (first.clone(), codes.clone());
                }
            }
        }
        let title = warnings.first().map_or("", |w| w.name.title());
        Self { title: format!("What was done about: {title}"), answers: found, kinds: Vec::new(), list: List::at(0) }
    }

    /// Each warning to be postponed by itself, where it stands.
    pub fn put_offs(warnings: &[Warning]) -> Self {
        let each = warnings.iter().filter_map(|warning| {
            let title = format!("{} {}", warning.place.field(), warning.place.code());
            Some(Answer { title, ask: FormRequest::put_off(std::slice::from_ref(warning))? })
        });
        Self {
            title: "Postpone".to_owned(),
            answers: each.take(ANSWERS).collect(),
            kinds: Vec::new(),
            list: List::at(0),
        }
    }

    /// The one form, where there is just one.
    pub fn only(&self) -> Option<&FormRequest> {
        match (self.answers.as_slice(), self.kinds.is_empty()) {
            ([one], true) => Some(&one.ask),
            _ => None,
        }
    }

    /// True where there is nothing to choose.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    fn len(&self) -> usize {
        self.answers.len().saturating_add(self.kinds.len())
    }

    fn open(&self, at: usize) -> Vec<Effect> {
        let answer = self.answers.get(at).map(|a| &a.ask);
        let ask = answer.or_else(|| self.kinds.get(at.saturating_sub(self.answers.len())));
        match ask {
            Some(ask) => vec![Effect::Go(Go::Back), Effect::popup(go::Popup::Form(Box::new(ask.clone())))],
            None => Vec::new(),
        }
    }

    /// The line a key names.
    fn named(&self, key: &Key) -> Option<usize> {
        if let Some(digit) = key.digit() {
            return usize::from(digit).checked_sub(1).filter(|i| *i < self.answers.len());
        }
        Some(self.answers.len().saturating_add(named(key, self.kinds.len())?))
    }
}

/// Handles a message.
pub fn update(state: &mut State, model: &Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => state.named(key).map(|at| state.open(at)),
        Msg::Do(Command::Accept) => Some(state.open(state.list.cursor())),
        Msg::Do(Command::Back) => Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(command) => state.list.step(*command, state.len(), page(model.size.1)).then(Vec::new),
        _ => None,
    }
}

mod view {
    use super::State;
    use crate::controls::letter;
    use crate::model::Model;
    use crate::record::Term;
    use crate::ui::list::{Column, Follow, entry, first_seen, two_columns};
    use crate::ui::panel;
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};

    /// Draws it: answers over the whole width, kinds in two columns.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let answers = state.answers.len();
        let half = state.kinds.len().div_ceil(2);
        let rows = answers.saturating_add(half);
        let body = panel(frame, area, rows.saturating_add(1), &state.title, model.look);
        let place = |at: usize| match at.checked_sub(answers) {
            Some(kind) => {
                let (row, column) = two_columns(kind, half);
                (answers.saturating_add(row), column)
            }
            None => (at, Column::Whole),
        };
        let (marked, room) = (place(state.list.cursor()).0, usize::from(body.height));
        let top = first_seen(marked, rows, room, Follow::Edge);
        let mut cursor = None;
        for at in 0..state.len() {
            let (row, column) = place(at);
            let Some(row) = row.checked_sub(top).filter(|row| *row < room) else { continue };
            let text = match at.checked_sub(answers).and_then(|kind| Some((kind, state.kinds.get(kind)?))) {
                Some((kind, ask)) => format!("{}  {}", letter(kind), ask.kind.text()),
                None => answer(state, at),
            };
            let chosen = at == state.list.cursor();
            let first = entry(frame, body, (row, column), (&text, chosen), model.look);
            cursor = if chosen { Some(first) } else { cursor };
        }
        cursor
    }

    /// `1  magnesium missed: magnesium sulfate as a drench, for E1 E2`.
    fn answer(state: &State, at: usize) -> String {
        let Some(answer) = state.answers.get(at) else { return String::new() };
        let name = answer.ask.answers.map_or("", |n| n.title());
        let benches = if answer.ask.benches.len() > 1 {
            format!(", for {}", answer.ask.benches.join(" "))
        } else {
            String::new()
        };
        format!("{}  {name}: {}{benches}", at.saturating_add(1), answer.title)
    }
}
