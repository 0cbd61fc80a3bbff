//! Fields of forms as the field table has them: what is picked and what is typed, how a value is read, what is said of it.
//!
//! The forms of entries and the forms of the plan are made of these; `controls` holds what is typed, `ui` draws it.

use super::when;
use crate::controls::{Choice, Fields, Input, Row};
use crate::model::Model;
use crate::record::schema::{self, FieldKind, Known};
use crate::record::{FieldFault, Value, typed};
use std::collections::BTreeMap;

/// What a field is about.
#[derive(Debug, Clone, Copy)]
pub(super) enum About {
    /// A field of the record.
    Own(&'static schema::Field),
    /// Which place.
    Where,
    /// The benches, where several are chosen.
    Benches,
    /// The benches left out, where the rest of a house is chosen.
    Except,
    /// When it was.
    When,
    /// When an application ended: always typed.
    Ended,
    /// A note with it.
    Note,
    /// The codes of the places to reopen.
    Reopen,
    /// A city near the site.
    Near,
    /// From when on a change of the plan counts.
    Holds,
    /// Whose version of a line of the plan holds, in every field.
    Whose,
}

impl PartialEq for About {
    fn eq(&self, other: &Self) -> bool {
        self.name() == other.name()
    }
}

impl About {
    /// Its name: for a field of the record that of the journal.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Own(field) => field.name,
            Self::Where => "place",
            Self::Benches => "benches",
            Self::Except => "except",
            Self::When | Self::Ended => "at",
            Self::Note => "note",
            Self::Reopen => "reopen",
            Self::Near => "near",
            Self::Holds => "holds",
            Self::Whose => "whose",
        }
    }

    /// Its row of the field table.
    pub(super) const fn field(self) -> Option<&'static schema::Field> {
        match self {
            Self::Own(field) => Some(field),
            Self::Note => Some(&schema::NOTE),
            Self::Where
            | Self::Benches
            | Self::Except
            | Self::When
            | Self::Ended
            | Self::Reopen
            | Self::Near
            | Self::Holds
            | Self::Whose => None,
        }
    }
}

/// Characters from which on a text is one of sentences.
const LONG: usize = 81;

/// A field of the record, empty, under a label.
pub(super) fn own(field: &'static schema::Field, label: &'static str) -> Row<About> {
    let input = match field.kind {
        FieldKind::Term(known) => Input::one(terms(known)),
        FieldKind::Terms(known) => Input::many(terms(known)),
        FieldKind::YesNo => Input::one(["yes", "no"].map(plain).to_vec()),
        FieldKind::Text { most: LONG.. } => return Row::typed(About::Own(field), label, field.required).long(),
        _ => return Row::typed(About::Own(field), label, field.required),
    };
    Row::new(About::Own(field), label, field.required, input)
}

/// The values a form was opened with, each under the text that shows it, which may be rounded: where that text was not touched
/// the value is the one that was kept.
#[derive(Debug, Clone, Default)]
pub(super) struct Opened(BTreeMap<&'static str, (String, Value)>);

impl Opened {
    /// Fills a field in with a value that is kept.
    pub(super) fn fill(&mut self, row: &mut Row<About>, value: &Value, model: &Model) {
        let Some(field) = row.name.field() else { return };
        let text = match value {
            Value::At(at) => when::shown(*at, model),
            value => typed::rounded(field, value, model.system()),
        };
        row.set(&text);
        self.0.insert(field.name, (row.text(), value.clone()));
    }

    /// Forgets what a field was opened with.
    pub(super) fn forget(&mut self, row: &Row<About>) {
        self.0.remove(row.name.name());
    }

    fn untouched(&self, row: &Row<About>) -> Option<&Value> {
        self.0.get(row.name.name()).filter(|(text, _)| *text == row.text()).map(|(_, value)| value)
    }
}

/// What is in a field of the record; `None` where it is empty.
///
/// # Errors
/// What is wrong with it, and what would be right.
pub(super) fn value(row: &Row<About>, opened: &Opened, model: &Model) -> Result<Option<Value>, FieldFault> {
    let Some(field) = row.name.field() else { return Ok(None) };
    if let Some(value) = opened.untouched(row) {
        return Ok(Some(value.clone()));
    }
    let text = row.text();
    match (&row.input, field.kind) {
        // A list of signs that must be given may be empty: checked, no symptoms.
        (Input::Many(..), _) if row.is_empty() => Ok(field.required.then(|| Value::List(Vec::new()))),
        (_, FieldKind::Instant) if !row.is_empty() => {
            let at = when::read(&text, model, false).map_err(|said| FieldFault::new(field.name, said))?;
            Ok(Some(Value::At(at.unwrap_or(model.now.at))))
        }
        (_, FieldKind::Day) if !row.is_empty() => {
            let day = model.day_reader().day(&text, when::facing(field.name));
            day.map(|day| Some(Value::Day(day))).map_err(|said| FieldFault::new(field.name, said))
        }
        _ => typed::read(field, &text, model.system()),
    }
}

/// What a field of the record takes, in full.
pub(super) fn takes_text(field: &schema::Field, model: &Model) -> String {
    match field.kind {
        FieldKind::Instant => format!("such as {}", model.day_reader().moments()),
        FieldKind::Day => format!("such as {}", model.day_reader().days(when::facing(field.name))),
        _ => typed::hint(field, model.system()),
    }
}

/// Examples of what a field of the record takes, or how a day typed in it was read.
pub(super) fn beside(row: &Row<About>, field: &schema::Field, model: &Model) -> String {
    match field.kind {
        FieldKind::Day => when::echo_day(&row.text(), model, when::facing(field.name))
            .unwrap_or_else(|| model.day_reader().days(when::facing(field.name)).to_owned()),
        FieldKind::Instant => {
            when::echo(&row.text(), model, false).unwrap_or_else(|| "such as 2:30p, 14:30".to_owned())
        }
        _ => typed::hint(field, model.system()),
    }
}

/// A fault with the labels of the form in place of the names that only the journal has; those are words with an underscore.
pub(super) fn labeled(fields: &Fields<About>, text: &str) -> String {
    let word = |c: char| c.is_alphanumeric() || c == '_';
    let label = |name: &str| fields.all().find(|row| row.name.name() == name).map(|row| row.label);
    let mut out = String::with_capacity(text.len());
    for part in text.split_inclusive(|c| !word(c)) {
        let name = part.trim_end_matches(|c| !word(c));
        match label(name).filter(|_| name.contains('_')) {
            Some(label) => out.push_str(&format!("\"{label}\"{}", part.strip_prefix(name).unwrap_or_default())),
            None => out.push_str(part),
        }
    }
    out
}

fn terms(known: Known) -> Vec<Choice> {
    let choice = |code: &'static str| Choice { code: code.to_owned(), text: known.text(code).to_owned() };
    known.codes().into_iter().map(choice).collect()
}

/// A choice that reads as it is spelled.
fn plain(code: &str) -> Choice {
    Choice { code: code.to_owned(), text: code.to_owned() }
}
