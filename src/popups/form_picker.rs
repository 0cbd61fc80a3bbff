//! The list of forms: what answers the warnings of the place, each behind a digit; then every kind of work and every finding
//! without a check of its own, each behind a letter.

pub use view::view;

use super::letter;
use crate::input::Key;
use crate::keys::Command;
use crate::model::{Answer, Ask, Effect, Go, Model, Msg, answers, answers_of, go};
use crate::record::{KindName, Place};
use crate::warnings::Warning;

/// The kinds offered, in the order of their letters: work first.
pub const KINDS: [KindName; 25] = [
    KindName::Watered,
    KindName::Fed,
    KindName::Topdressed,
    KindName::Nutrient,
    KindName::GrowthRegulator,
    KindName::Sprayed,
    KindName::Released,
    KindName::Pinched,
    KindName::Blackout,
    KindName::Lights,
    KindName::Spaced,
    KindName::Moved,
    KindName::Sold,
    KindName::Climate,
    KindName::NightLight,
    KindName::RootZone,
    KindName::FeedCheck,
    KindName::Losses,
    KindName::Counted,
    KindName::Grade,
    KindName::Pests,
    KindName::Roots,
    KindName::Leaves,
    KindName::Height,
    KindName::Note,
];

/// At most as many answers as there are digits for them.
const ANSWERS: usize = 9;

/// The list, and where the mark stands.
#[derive(Debug, Clone)]
pub struct State {
    title: String,
    answers: Vec<Answer>,
    kinds: Vec<Ask>,
    at: usize,
}

impl State {
    /// Everything for a place, or for benches marked.
    pub fn all(place: &Place, benches: &[String], shared: &Model) -> Self {
        let told: Vec<Warning> = match (place, benches.len()) {
            (Place::Bench(code), 0 | 1) => shared.standing_warnings(code),
            _ => Vec::new(),
        };
        let found = told.iter().flat_map(|w| answers(w, &shared.season)).take(ANSWERS).collect();
        let title = match benches.len() {
            0 | 1 => format!("Write down for {} {}", place.field(), place.code()),
            _ => format!("Write down for {}", benches.join(" ")),
        };
        let kinds = KINDS.iter().map(|kind| Ask::new(*kind, place.clone()).on(benches.to_vec())).collect();
        Self { title, answers: found, kinds, at: 0 }
    }

    /// What answers the warnings of one trouble.
    pub fn answers(warnings: &[Warning], shared: &Model) -> Self {
        let mut found = answers_of(warnings, &shared.season);
        found.truncate(ANSWERS);
        let title = warnings.first().map_or("", |w| crate::report::words::title(w.name));
        Self { title: format!("What was done about: {title}"), answers: found, kinds: Vec::new(), at: 0 }
    }

    /// Each warning to be put off by itself, where it stands.
    pub fn put_offs(warnings: &[Warning]) -> Self {
        let each = warnings.iter().filter_map(|warning| {
            let title = format!("{} {}", warning.place.field(), warning.place.code());
            Some(Answer { title, ask: Ask::put_off(std::slice::from_ref(warning))? })
        });
        Self { title: "Put off".to_owned(), answers: each.take(ANSWERS).collect(), kinds: Vec::new(), at: 0 }
    }

    /// The one form, where there is just one.
    pub fn only(&self) -> Option<&Ask> {
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
        let kind = (0..self.kinds.len()).find(|i| Some(letter(*i)) == key.typed())?;
        Some(self.answers.len().saturating_add(kind))
    }
}

/// Takes what it is told.
pub fn update(state: &mut State, msg: &Msg) -> Vec<Effect> {
    let last = state.len().saturating_sub(1);
    match msg {
        Msg::Type(key) => return state.named(key).map(|at| state.open(at)).unwrap_or_default(),
        Msg::Do(Command::Down) => state.at = state.at.saturating_add(1).min(last),
        Msg::Do(Command::Up) => state.at = state.at.saturating_sub(1),
        Msg::Do(Command::Accept) => return state.open(state.at),
        Msg::Do(Command::Back) => return vec![Effect::Go(Go::Back)],
        _ => {}
    }
    Vec::new()
}

mod view {
    use super::State;
    use crate::model::Model;
    use crate::popups::letter;
    use crate::record::Term;
    use crate::ui::{Role, fit, panel, put};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Span;

    /// Draws it.
    pub fn view(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let look = shared.look;
        let half = state.kinds.len().div_ceil(2);
        let rows = u16::try_from(state.answers.len().saturating_add(half)).unwrap_or(u16::MAX);
        let body = panel(frame, area, rows.saturating_add(1), &state.title, look);
        let marked = match state.at.checked_sub(state.answers.len()) {
            Some(kind) => state.answers.len().saturating_add(kind.checked_rem(half.max(1)).unwrap_or(0)),
            None => state.at,
        };
        let top = marked.saturating_sub(usize::from(body.height.saturating_sub(1)));
        let mut cursor = None;
        for i in 0..state.len() {
            let kind = i.checked_sub(state.answers.len());
            let (row, column) = match kind {
                Some(k) if k >= half => (state.answers.len().saturating_add(k.saturating_sub(half)), 1),
                _ => (i, 0),
            };
            let Some(row) = row.checked_sub(top).and_then(|r| u16::try_from(r).ok()).filter(|r| *r < body.height)
            else {
                continue;
            };
            let (text, wide) = match kind.and_then(|k| Some((k, state.kinds.get(k)?))) {
                Some((k, ask)) => (format!("{}  {}", letter(k), ask.kind.text()), body.width / 2),
                None => (answer(state, i), body.width),
            };
            let place = Rect { x: body.x.saturating_add(column * (body.width / 2)), width: wide, ..body };
            let role = if i == state.at { Role::Chosen } else { Role::Plain };
            let cells = usize::from(wide.saturating_sub(1));
            put(frame, place.intersection(body), row, Span::styled(fit(&text, cells), look.style(role)));
            if i == state.at {
                cursor = Some(Position { x: place.x, y: body.y.saturating_add(row) });
            }
        }
        cursor
    }

    /// `1  magnesium missed: magnesium sulfate as a drench, for N1 N2`.
    fn answer(state: &State, at: usize) -> String {
        let Some(answer) = state.answers.get(at) else { return String::new() };
        let name = answer.ask.answers.map_or("", |n| crate::report::words::title(n));
        let benches = if answer.ask.benches.len() > 1 {
            format!(", for {}", answer.ask.benches.join(" "))
        } else {
            String::new()
        };
        format!("{}  {name}: {}{benches}", at.saturating_add(1), answer.title)
    }
}
