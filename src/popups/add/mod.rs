//! What can be written down by a form: what answers the warnings of the place, each behind a digit; then every kind of work
//! and every finding without a check of its own, each behind a letter.

mod update;
mod view;

pub use update::update;
pub use view::view;

use super::more::letter;
use crate::input::Key;
use crate::model::{Answer, Ask, Effect, Shared, To, answers, answers_of};
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
    pub fn all(place: &Place, benches: &[String], shared: &Shared) -> Self {
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
    pub fn answers(warnings: &[Warning], shared: &Shared) -> Self {
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
            Some(ask) => vec![Effect::Go(To::Back), Effect::Go(To::Form(Box::new(ask.clone())))],
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
