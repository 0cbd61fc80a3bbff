//! A form for any kind of entry, made from the field table: work done, and what is seen without a digit.
//!
//! Where it is about stands first (`place`), then the kind's own fields, then when it was and a note. What is typed is read
//! and judged by `record`; `save` makes the entries and has them judged by the season before one is written.

mod amounts;
mod cautions;
mod place;
mod product;
mod readings;
mod rights;
mod save;
mod treatment;
mod update;
mod view;

pub use update::update;
pub use view::view;

use super::fields::{self, About, Opened, own};
use super::when;
use crate::controls::{Fields, List, Row};
use crate::model::{DraftKey, FormRequest, JobTick, Model};
use crate::record::{FieldFault, How, KindName, Place, Term, Value, schema, typed};
use place::{Places, Scope};

/// How a line below the fields is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Tone {
    /// Something to check before saving.
    Alarm,
    /// What the numbers amount to.
    Sum,
    /// A range or a day to compare the entry with: it comes after the first cautions.
    Reference,
}

/// A line below the fields.
type BelowLine = (Tone, String);

/// A form being filled in.
#[derive(Debug, Clone)]
pub struct State {
    ask: FormRequest,
    places: Places,
    fields: Fields<About>,
    /// What is wrong with nothing that is shown.
    stray: Vec<FieldFault>,
    /// Something was changed by hand: only then it is kept on leaving.
    touched: bool,
    /// What the form did by itself; shown once.
    notice: Option<String>,
    /// What an entry that is written right says.
    opened: Opened,
    /// Fields filled in from the last entry of the product.
    recalled: Vec<&'static str>,
    /// A value that fits no sane crop was asked about, in these words; saved once more as it is, it is meant.
    doubted: Option<String>,
    /// 0 hours were typed once and asked about: typed again, they are meant.
    zero_asked: bool,
    /// The first row seen of the words below the fields.
    words: List,
    /// Since when the Enter that opened it may still be held down; it saves nothing. `None` once something was typed.
    held: Option<u64>,
}

impl State {
    /// The form, filled in as asked, or as it was left the last time.
    pub fn new(ask: FormRequest, model: &Model) -> Self {
        let places = Places::of(&ask, model);
        let mut rows = Vec::new();
        let by_place = ask.put_off.is_empty() && ask.strikes.is_empty() && ask.kind != KindName::Job;
        if by_place && ask.rights.is_none() {
            rows.extend(places.rows());
        }
        for field in schema::kind_table(ask.kind).fields.iter().filter(|f| f.asked) {
            rows.push(own(field, field.label));
            // The hours and what they run from stand together.
            rows.extend((field.name == treatment::REI).then(|| Row::typed(About::Ended, "ended at", true)));
        }
        if ask.strikes.iter().filter_map(|id| model.season.entry(*id)).any(|e| e.kind.closes()) {
            rows.push(Row::typed(About::Reopen, "reopen", false));
        }
        if by_place {
            if !rows.iter().any(|row| matches!(row.name, About::Ended)) {
                rows.push(Row::typed(About::When, "when", false));
            }
            rows.push(Row::typed(About::Note, "note", false).long());
        }
        let held = Some(model.now.ms);
        let fields = Fields::new(rows);
        let mut state = Self {
            ask,
            places,
            fields,
            stray: Vec::new(),
            touched: false,
            notice: None,
            opened: Opened::default(),
            recalled: Vec::new(),
            doubted: None,
            zero_asked: false,
            words: List::default(),
            held,
        };
        for (name, text) in state.ask.fill.clone() {
            state.set(name, &text);
        }
        rights::fill(&mut state, model);
        state.fields.settle();
        state.recall(model);
        state.show();
        if let Some(first) = state.first_open() {
            state.fields.mark(first);
        }
        state
    }

    /// The place it is about, as its title says.
    fn title(&self) -> String {
        let what = match self.ask.kind {
            KindName::PutOff => "Postpone".to_owned(),
            KindName::Strike => "Void".to_owned(),
            KindName::Job => return self.ask.ticks.as_ref().map_or_else(String::new, not_needed),
            kind => {
                let mut text = kind.text().to_owned();
                if let Some(first) = text.get_mut(..1) {
                    first.make_ascii_uppercase();
                }
                text
            }
        };
        if self.ask.rights.is_some() {
            let place = &self.ask.place;
            let on = match &self.ask.plot {
                Some(plot) => format!("plot {plot}"),
                None => format!("{} {}", place.field(), place.code()),
            };
            return format!("Write it right: {} on {on}", self.ask.kind.text());
        }
        let for_what = self.ask.answers.map_or_else(String::new, |name| format!("  (answers: {})", name.title()));
        format!("{what}{for_what}")
    }

    /// Sets a field to a text as it is typed; a field it does not have is left alone.
    fn set(&mut self, name: &str, text: &str) {
        if let Some(row) = self.fields.all_mut().find(|row| row.name.name() == name) {
            row.set(text);
        }
    }

    /// A field, by the name it has in the journal.
    fn row(&self, name: &str) -> Option<&Row<About>> {
        self.fields.all().find(|row| row.name.name() == name)
    }

    /// The text of a field, as it would be typed.
    fn text(&self, name: &str) -> String {
        self.row(name).map(Row::text).unwrap_or_default()
    }

    /// A number of the kind's own fields, in the unit it is kept in; `None` while it is not typed, or not understood.
    fn number(&self, model: &Model, name: &str) -> Option<f64> {
        let row = self.row(name).filter(|row| matches!(row.name, About::Own(_)))?;
        match typed::read(row.name.field()?, &row.text(), model.system()).ok()?? {
            Value::Number(n) => Some(n),
            _ => None,
        }
    }

    /// The place chosen.
    fn scope(&self) -> &Scope {
        self.places.scope(self.fields.row(About::Where).and_then(Row::chosen).unwrap_or(0))
    }

    /// Shows benches and exceptions only where they are asked for.
    fn show(&mut self) {
        let (these, rest) = (matches!(self.scope(), Scope::These(_)), matches!(self.scope(), Scope::Rest(_)));
        self.fields.show(|_, name| match name {
            About::Benches => these,
            About::Except => rest,
            _ => true,
        });
    }

    /// The first required field that is empty; else the first of the kind's own, or the note where it has none.
    fn first_open(&self) -> Option<About> {
        let own = |row: &&Row<About>| matches!(row.name, About::Own(_) | About::Ended | About::Reopen);
        let empty = self.fields.shown().filter(own).find(|row| row.required && row.is_empty());
        empty.or_else(|| self.fields.shown().find(own)).or_else(|| self.fields.shown().last()).map(|row| row.name)
    }

    /// Says what is wrong next to each field; what the season finds wrong with a place is shown next to where it was chosen.
    fn blame(&mut self, faults: Vec<FieldFault>) {
        self.fields.clear(|_| true);
        self.stray.clear();
        for fault in faults {
            let named = self.fields.shown().map(|row| row.name).find(|name| name.name() == fault.field);
            let place = is_place(&fault.field).then_some(About::Where).filter(|name| self.fields.shows(*name));
            match named.or(place) {
                Some(name) => {
                    let text = fields::labeled(&self.fields, &fault.text);
                    self.fields.blame(name, text);
                }
                None => self.stray.push(fault),
            }
        }
        if let Some(first) = self.fields.first_fault() {
            self.fields.mark(first);
        }
    }

    /// A fog, mist or smoke goes through the whole house: unless another place is chosen after it, the house it is.
    fn fog_takes_the_house(&mut self) {
        if self.ask.kind != KindName::Sprayed || self.text("how") != How::Fog.code() {
            return;
        }
        let Some(house) = self.places.house() else { return };
        if let Some(row) = self.fields.row_mut(About::Where) {
            row.choose(house);
            let text =
                "Fog, mist, aerosol and smoke close the whole house. Choose less only where the label allows it.";
            self.notice = Some(text.to_owned());
        }
    }

    /// The name its fields are kept under while it is closed.
    fn draft(&self, field: &'static str) -> DraftKey {
        let FormRequest { kind, place, answers, strikes, .. } = &self.ask;
        let strikes = strikes.first().copied();
        DraftKey::Form { kind: *kind, place: place.clone(), answers: *answers, strikes, field }
    }

    fn names(&self) -> impl Iterator<Item = &'static str> {
        self.fields.all().map(|row| row.name.name())
    }

    fn recall(&mut self, model: &Model) {
        let kept = |name: &'static str| Some((name, model.draft(&self.draft(name))?.to_owned()));
        let kept: Vec<(&str, String)> = self.names().filter_map(kept).collect();
        self.touched = !kept.is_empty();
        for (name, text) in kept {
            self.set(name, &text);
        }
        self.show();
        let changed = self.fields.changed();
        if self.touched && !changed.is_empty() {
            let fields = changed.join(", ");
            self.notice = Some(format!("Kept from before, not logged yet: {fields}. Ctrl-U empties a field."));
        }
    }

    /// Leaves it: what was filled in is kept for the next time, or discarded where an entry was to be written right; which
    /// fields it was is said.
    fn leave(&self, model: &mut Model) {
        let changed = self.fields.changed().join(", ");
        if self.ask.rights.is_some() {
            if !changed.is_empty() {
                model.say(format!("The entry stays as it was; not saved: {changed}."));
            }
            return;
        }
        self.keep(model);
        if self.touched && !changed.is_empty() {
            model.say(format!("Kept for next time, not logged: {changed}."));
        }
    }

    /// Keeps what was filled in, for the next time it is opened.
    fn keep(&self, model: &mut Model) {
        if !self.touched {
            return;
        }
        for row in self.fields.all() {
            // Emptied fields are kept too: what the form was filled in with must not come back. An end typed as "now" is not
            // kept: when the form comes back, now is later.
            let now = matches!(row.name, About::Ended) && when::is_now(&row.text());
            let text = if now { String::new() } else { row.text() };
            model.keep_draft(self.draft(row.name.name()), text);
        }
    }

    fn forget(&self, model: &mut Model) {
        for name in self.names() {
            model.forget_draft(&self.draft(name));
        }
    }
}

/// The title where the reason is asked for that a job is not needed.
fn not_needed(tick: &JobTick) -> String {
    let places = tick.places.iter().map(Place::code).collect::<Vec<_>>().join(" ");
    format!("Not needed on {places}: {}", tick.step)
}

/// True for a field of an entry that is its place.
fn is_place(field: &str) -> bool {
    matches!(field, "bench" | "house" | "lot" | "benches" | "except")
}
