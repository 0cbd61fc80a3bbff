//! A field of a record: its name, the kind of its value with the range, its unit and what it means.
//!
//! The ranges say what is *possible* (house rule: wide enough for any honest reading, narrow enough to catch a slipped
//! decimal point or a wrong unit); what is *good* for the crop is the limits' business.
#![deny(clippy::wildcard_enum_match_arm)]

use crate::terms::Term;

/// What kind of value a field's value has.
#[derive(Debug, Clone, Copy)]
pub enum FieldKind {
    /// Text of 1 to `most` characters.
    Text {
        /// Longest, in characters.
        most: usize,
    },
    /// A bench or lot code: 1-16 letters, digits, `-` or `.`.
    Code,
    /// A plot of a trial: the trial's code, a point and the number of the plot.
    Plot,
    /// Who wrote: 1-8 characters without spaces.
    By,
    /// A whole number.
    Count {
        /// Least.
        least: u32,
        /// Most.
        most: u32,
    },
    /// A digit of a scale.
    Level {
        /// Lowest of the scale.
        least: u32,
        /// Highest of the scale.
        most: u32,
    },
    /// A number in the field's unit.
    Number {
        /// Least.
        least: f64,
        /// Most.
        most: f64,
    },
    /// A day, `YYYY-MM-DD`, 2000 to 2100.
    Day,
    /// An instant, RFC 3339, whole seconds, with offset.
    Instant,
    /// An IANA time zone.
    Zone,
    /// One term of a closed list.
    Term(Known),
    /// Terms of a closed list, each once.
    Terms(Known),
    /// A list of short texts.
    Texts {
        /// Longest of one, in characters.
        most: usize,
    },
    /// A list of one or more numbers.
    Numbers {
        /// Least of one.
        least: f64,
        /// Most of one.
        most: f64,
    },
    /// A list of one or more active ingredients with their ppm.
    Parts,
    /// True or false.
    YesNo,
    /// An id.
    Id,
    /// A list of ids; an empty one says something else than none.
    Ids,
}

/// A closed list of terms, whichever it is.
#[derive(Debug, Clone, Copy)]
pub struct Known {
    codes: fn() -> Vec<&'static str>,
    text: fn(&str) -> Option<&'static str>,
    spelled: fn(&str) -> Option<&'static str>,
}

impl Known {
    /// The spellings, in the order they are offered.
    pub fn codes(self) -> Vec<&'static str> {
        (self.codes)()
    }

    /// How the term with this spelling reads; the spelling itself where there is none.
    pub fn text(self, code: &'static str) -> &'static str {
        (self.text)(code).unwrap_or(code)
    }

    /// The spelling of the list that this text is.
    pub fn spelled(self, code: &str) -> Option<&'static str> {
        (self.spelled)(code)
    }

    const fn of<T: Term>() -> Self {
        Self {
            codes: || T::ALL.iter().map(|t| t.code()).collect(),
            text: |code| T::from_code(code).map(Term::text),
            spelled: |code| T::from_code(code).map(Term::code),
        }
    }
}

/// One term of a list.
pub(super) const fn term<T: Term>() -> FieldKind {
    FieldKind::Term(Known::of::<T>())
}

/// Any terms of a list, each once.
pub(super) const fn terms_of<T: Term>() -> FieldKind {
    FieldKind::Terms(Known::of::<T>())
}

/// One field.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Its name in the journal.
    pub name: &'static str,
    /// The kind of its value, with its range.
    pub kind: FieldKind,
    /// True where it must be given. (Further rules between fields are in `rules`.)
    pub required: bool,
    /// Its unit; empty where it has none.
    pub unit: &'static str,
    /// What it means, in one line.
    pub meaning: &'static str,
    /// True for a fact of the past in a line of the plan: a revision of it is a correction unless its writer says otherwise.
    pub fact: bool,
    /// Its name in a few plain words, in the forms.
    pub label: &'static str,
    /// Its name in version 1 of the journal, where that was another.
    pub was: Option<&'static str>,
    /// False where no form asks for it: a page or a logger fills it in.
    pub asked: bool,
}

impl Field {
    /// One that must be given.
    pub const fn need(name: &'static str, kind: FieldKind, unit: &'static str, meaning: &'static str) -> Self {
        Self { name, kind, required: true, unit, meaning, fact: false, label: name, was: None, asked: true }
    }

    /// One that may be left out.
    pub const fn may(name: &'static str, kind: FieldKind, unit: &'static str, meaning: &'static str) -> Self {
        Self { name, kind, required: false, unit, meaning, fact: false, label: name, was: None, asked: true }
    }

    /// The same, of a fact of the past.
    pub(super) const fn fact(self) -> Self {
        Self { fact: true, ..self }
    }

    /// The same, under a label that is not its name.
    pub(super) const fn label(self, label: &'static str) -> Self {
        Self { label, ..self }
    }

    /// The same, known by another name in version 1 of the journal.
    pub(super) const fn was(self, name: &'static str) -> Self {
        Self { was: Some(name), ..self }
    }

    /// The same, under a name in the journal that is not the record's.
    pub(super) const fn named(self, name: &'static str) -> Self {
        Self { name, ..self }
    }

    /// The same, left out of the forms.
    pub(super) const fn unasked(self) -> Self {
        Self { asked: false, ..self }
    }

    /// The name that ids are made with: that of version 1, so that an old journal read again has the ids it had.
    pub(super) const fn first_name(&self) -> &'static str {
        match self.was {
            Some(name) => name,
            None => self.name,
        }
    }

    /// What the field takes, for messages and for the hint beside a form's field.
    pub fn wanted(&self) -> String {
        let unit = if self.unit.is_empty() { String::new() } else { format!(" ({})", self.unit) };
        match self.kind {
            FieldKind::Text { most } => format!("text of 1 to {most} characters"),
            FieldKind::Code => "a code of 1 to 16 letters, digits, - or .".to_owned(),
            FieldKind::Plot => {
                "a plot such as T1.7: the trial's code of 1 to 10 letters, digits or -, a point, a number".to_owned()
            }
            FieldKind::By => "1 to 8 characters without spaces".to_owned(),
            FieldKind::Count { least, most } if most == ANY => format!("a whole number, {least} or more"),
            FieldKind::Count { least, most } | FieldKind::Level { least, most } => {
                format!("a whole number from {least} to {most}")
            }
            FieldKind::Number { least, most } if most >= f64::from(ANY) => format!("a number, {least} or more{unit}"),
            FieldKind::Number { least, most } => format!("a number from {least} to {most}{unit}"),
            FieldKind::Day => "a date as YYYY-MM-DD, from 2000 to 2100".to_owned(),
            FieldKind::Instant => "date, time in whole seconds and offset, as 2026-10-05T07:10:00-04:00".to_owned(),
            FieldKind::Zone => "an IANA time zone such as America/New_York".to_owned(),
            FieldKind::Term(known) => format!("one of {}", known.codes().join(", ")),
            FieldKind::Terms(known) => format!("a list of any of {}", known.codes().join(", ")),
            FieldKind::Texts { most } => format!("a list of texts of 1 to {most} characters"),
            FieldKind::Numbers { least, most } => format!("a list of one or more numbers from {least} to {most}{unit}"),
            FieldKind::Parts => "a list of one or more {\"ai\":…,\"ppm\":…}".to_owned(),
            FieldKind::YesNo => "true or false".to_owned(),
            FieldKind::Ids => "a list of ids".to_owned(),
            FieldKind::Id => "an id such as 01890a5d-ac96-774b-bcce-b302099a8057".to_owned(),
        }
    }
}

/// The fields of one line type or one kind.
#[derive(Debug, Clone, Copy)]
pub struct RecordSchema {
    /// The line type or kind.
    pub name: &'static str,
    /// Its fields in the order they are written.
    pub fields: &'static [Field],
}

impl RecordSchema {
    /// The field of this name.
    pub fn field(&self, name: &str) -> Option<&'static Field> {
        self.fields.iter().find(|f| f.name == name)
    }
}

/// No upper bound of its own (pots, plants, insects).
pub(crate) const ANY: u32 = 1_000_000;

pub(super) const COUNT: FieldKind = FieldKind::Count { least: 0, most: ANY };
pub(super) const SOME: FieldKind = FieldKind::Count { least: 1, most: ANY };
pub(super) const NAME: FieldKind = FieldKind::Text { most: 80 };
pub(super) const SENTENCE: FieldKind = FieldKind::Text { most: 500 };
pub(super) const HOUSE: FieldKind = FieldKind::Text { most: 24 };
pub(super) const PPM: FieldKind = FieldKind::Number { least: 0.0, most: 1_000_000.0 };
pub(super) const ML: FieldKind = FieldKind::Number { least: 0.0, most: 100_000.0 };
pub(super) const PH: FieldKind = FieldKind::Number { least: 0.0, most: 14.0 };
pub(super) const EC: FieldKind = FieldKind::Number { least: 0.0, most: 50.0 };
pub(super) const PERCENT: FieldKind = FieldKind::Number { least: 0.0, most: 100.0 };
pub(super) const HOURS: FieldKind = FieldKind::Number { least: 0.0, most: 2_000.0 };
