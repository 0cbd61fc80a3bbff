//! A form for any kind of entry, made from the field table: work done, and what is seen without a digit.
//!
//! Where it is about stands first (`place`), then the kind's own fields (`row`), then when it was and a note. What is typed is
//! read and judged by `record`; `save` makes the entries and has them judged by the season before one is written.

mod amounts;
mod place;
pub(super) mod row;
mod save;
mod treatment;
mod update;
pub(super) mod view;
pub(super) mod when;

pub use update::update;
pub use view::view;

use crate::model::{Ask, DraftKey, Model, closes};
use crate::record::{FieldFault, How, KindName, Term, schema};
use place::{Places, Scope};
use row::{About, Row};

/// A form being filled in.
#[derive(Debug, Clone)]
pub struct State {
    ask: Ask,
    places: Places,
    rows: Vec<Row>,
    /// The field keys act on.
    at: usize,
    faults: Vec<FieldFault>,
    /// Something was changed by hand: only then it is kept on leaving.
    touched: bool,
    /// What the form did by itself, told once.
    told: Option<&'static str>,
    /// Since when the Enter that opened it may still be held down; it saves nothing. `None` once something was typed.
    held: Option<u64>,
}

impl State {
    /// The form, filled in as asked, or as it was left the last time.
    pub fn new(ask: Ask, shared: &Model) -> Self {
        let places = Places::of(&ask, shared);
        let mut rows = Vec::new();
        if ask.put_off.is_empty() && ask.strikes.is_empty() {
            rows.extend(places.rows(ask.kind));
        }
        let own = schema::kind_table(ask.kind).fields;
        for field in own.iter().filter(|f| f.asked) {
            rows.push(Row::own(field));
            // The hours and what they run from stand together.
            rows.extend((field.name == "rei_h").then(Row::ended));
        }
        if ask.strikes.iter().filter_map(|id| shared.season.entry(*id)).any(|e| closes(&e.kind)) {
            rows.push(Row::reopen());
        }
        if ask.put_off.is_empty() && ask.strikes.is_empty() {
            if !rows.iter().any(|row| row.about == About::Ended) {
                rows.push(Row::when());
            }
            rows.push(Row::note());
        }
        let held = Some(shared.now.ms);
        let mut state = Self { ask, places, rows, at: 0, faults: Vec::new(), touched: false, told: None, held };
        for (name, text) in state.ask.fill.clone() {
            state.set(name, &text);
        }
        state.recall(shared);
        state.at = state.first_open();
        state
    }

    /// The place it is about, as its title says.
    fn title(&self) -> String {
        let what = match self.ask.kind {
            KindName::PutOff => "Put off".to_owned(),
            KindName::Strike => "Strike out".to_owned(),
            kind => {
                let mut text = kind.text().to_owned();
                if let Some(first) = text.get_mut(..1) {
                    first.make_ascii_uppercase();
                }
                text
            }
        };
        let for_what = self.ask.answers.map_or_else(String::new, |name| format!("  (answers: {})", name.title()));
        format!("{what}{for_what}")
    }

    /// Sets a field to a text as it is typed; a field it does not have is left alone.
    fn set(&mut self, name: &str, text: &str) {
        if let Some(row) = self.rows.iter_mut().find(|r| r.name == name) {
            row.set(text);
        }
    }

    /// The text of a field, as it would be typed.
    fn text(&self, name: &str) -> String {
        self.rows.iter().find(|r| r.name == name).map(Row::text).unwrap_or_default()
    }

    /// The place chosen.
    fn scope(&self) -> &Scope {
        let chosen = self.rows.iter().find(|r| r.about == About::Where).and_then(Row::chosen);
        self.places.scope(chosen.unwrap_or(0))
    }

    /// True for a field that is shown: benches and exceptions only where they are asked for.
    fn shows(&self, row: &Row) -> bool {
        match row.about {
            About::Benches => matches!(self.scope(), Scope::These(_)),
            About::Except => matches!(self.scope(), Scope::Rest(_)),
            _ => true,
        }
    }

    /// The fields shown, by their place among all.
    fn shown(&self) -> impl DoubleEndedIterator<Item = (usize, &Row)> {
        self.rows.iter().enumerate().filter(|(_, row)| self.shows(row))
    }

    /// The first required field that is empty; else the first of the kind's own, or the note where it has none.
    fn first_open(&self) -> usize {
        let own = |row: &&(usize, &Row)| matches!(row.1.about, About::Own(_) | About::Ended | About::Reopen);
        let shown: Vec<_> = self.shown().collect();
        let empty = shown.iter().filter(own).find(|(_, row)| row.required() && row.is_empty());
        empty.or_else(|| shown.iter().find(own)).or(shown.last()).map_or(0, |(at, _)| *at)
    }

    /// A fog goes through the whole house: unless another place is chosen after it, the house it is.
    fn fog_takes_the_house(&mut self) {
        if self.ask.kind != KindName::Sprayed || self.text("how") != How::Fog.code() {
            return;
        }
        let Some(house) = self.places.house() else { return };
        if let Some(row) = self.rows.iter_mut().find(|r| r.about == About::Where) {
            row.choose(house);
            self.told = Some("A fog closes the whole house. Choose less only where the label allows it.");
        }
    }

    /// The name its fields are kept under while it is closed.
    fn draft(&self, field: &'static str) -> DraftKey {
        let Ask { kind, place, answers, strikes, .. } = &self.ask;
        let strikes = strikes.first().copied();
        DraftKey::Form { kind: *kind, place: place.clone(), answers: *answers, strikes, field }
    }

    fn recall(&mut self, shared: &Model) {
        let kept: Vec<(&str, String)> = self
            .rows
            .iter()
            .filter_map(|r| Some((r.name, shared.drafts.text(&self.draft(r.name))?.to_owned())))
            .collect();
        self.touched = !kept.is_empty();
        for (name, text) in kept {
            self.set(name, &text);
        }
    }

    /// Keeps what was filled in, for the next time it is opened.
    fn keep(&self, shared: &mut Model) {
        if !self.touched {
            return;
        }
        for row in &self.rows {
            // Emptied fields are kept too: what the form was filled in with must not come back. An end typed as "now" is not
            // kept: when the form comes back, now is later.
            let text = if row.about == About::Ended && when::is_now(&row.text()) { String::new() } else { row.text() };
            shared.drafts.keep(self.draft(row.name), text);
        }
    }

    fn forget(&self, shared: &mut Model) {
        for row in &self.rows {
            shared.drafts.forget(&self.draft(row.name));
        }
    }
}
