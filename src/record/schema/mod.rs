//! The field table: every line type and every kind of entry, with its fields, their form, unit, range and meaning.
//!
//! The codec reads and writes by this table, messages list known fields from it, and the forms on the screen ask by it.
//! The ranges say what is *possible* (house rule: wide enough for any honest reading, narrow enough to catch a slipped
//! decimal point or a wrong unit); what is *good* for the crop is the limits' business.

mod findings;
mod work;

use super::{KindName, Term, lines};

/// The form a field's value has.
#[derive(Debug, Clone, Copy)]
pub enum Form {
    /// Text of 1 to `most` characters.
    Text {
        /// Longest, in characters.
        most: usize,
    },
    /// A bench or lot code: 1-16 letters, digits, `-` or `.`.
    Code,
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
    /// One word of a closed list.
    Term(fn() -> Vec<&'static str>),
    /// Words of a closed list, each once.
    Terms(fn() -> Vec<&'static str>),
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

/// One field.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Its name in the journal.
    pub name: &'static str,
    /// The form of its value.
    pub form: Form,
    /// True where it must be given. (Further rules between fields are in `rules`.)
    pub required: bool,
    /// Its unit; empty where it has none.
    pub unit: &'static str,
    /// What it means, in one line.
    pub meaning: &'static str,
    /// True for a fact of the past in a line of the plan: a revision of it is a correction unless its writer says otherwise.
    pub fact: bool,
}

impl Field {
    pub(in crate::record) const fn need(
        name: &'static str,
        form: Form,
        unit: &'static str,
        meaning: &'static str,
    ) -> Self {
        Self { name, form, required: true, unit, meaning, fact: false }
    }

    pub(in crate::record) const fn may(
        name: &'static str,
        form: Form,
        unit: &'static str,
        meaning: &'static str,
    ) -> Self {
        Self { name, form, required: false, unit, meaning, fact: false }
    }

    /// The same, of a fact of the past.
    pub(in crate::record) const fn fact(self) -> Self {
        Self { fact: true, ..self }
    }

    /// What the field takes, for messages and for the hint beside a form's field.
    pub fn wanted(&self) -> String {
        let unit = if self.unit.is_empty() { String::new() } else { format!(" ({})", self.unit) };
        match self.form {
            Form::Text { most } => format!("text of 1 to {most} characters"),
            Form::Code => "a code of 1 to 16 letters, digits, - or .".to_owned(),
            Form::By => "1 to 8 characters without spaces".to_owned(),
            Form::Count { least, most } if most == ANY => format!("a whole number, {least} or more"),
            Form::Count { least, most } | Form::Level { least, most } => {
                format!("a whole number from {least} to {most}")
            }
            Form::Number { least, most } if most >= f64::from(ANY) => format!("a number, {least} or more{unit}"),
            Form::Number { least, most } => format!("a number from {least} to {most}{unit}"),
            Form::Day => "a date as YYYY-MM-DD, from 2000 to 2100".to_owned(),
            Form::Instant => "date, time in whole seconds and offset, as 2026-10-05T07:10:00-04:00".to_owned(),
            Form::Zone => "an IANA time zone such as America/New_York".to_owned(),
            Form::Term(known) => format!("one of {}", known().join(", ")),
            Form::Terms(known) => format!("a list of any of {}", known().join(", ")),
            Form::Texts { most } => format!("a list of texts of 1 to {most} characters"),
            Form::Numbers { least, most } => format!("a list of one or more numbers from {least} to {most}{unit}"),
            Form::Parts => "a list of one or more {\"ai\":…,\"ppm\":…}".to_owned(),
            Form::YesNo => "true or false".to_owned(),
            Form::Ids => "a list of ids".to_owned(),
            Form::Id => "an id such as 01890a5d-ac96-774b-bcce-b302099a8057".to_owned(),
        }
    }
}

/// The fields of one line type or one kind.
#[derive(Debug, Clone, Copy)]
pub struct Table {
    /// The line type or kind.
    pub name: &'static str,
    /// Its fields in the order they are written.
    pub fields: &'static [Field],
}

impl Table {
    /// The field of this name.
    pub fn field(&self, name: &str) -> Option<&'static Field> {
        self.fields.iter().find(|f| f.name == name)
    }
}

/// No upper bound of its own (pots, plants, insects).
pub(crate) const ANY: u32 = 1_000_000;

pub(in crate::record) const COUNT: Form = Form::Count { least: 0, most: ANY };
pub(in crate::record) const SOME: Form = Form::Count { least: 1, most: ANY };
pub(in crate::record) const NAME: Form = Form::Text { most: 80 };
const SENTENCE: Form = Form::Text { most: 500 };
pub(in crate::record) const HOUSE: Form = Form::Text { most: 24 };
pub(in crate::record) const PPM: Form = Form::Number { least: 0.0, most: 1_000_000.0 };
const ML: Form = Form::Number { least: 0.0, most: 100_000.0 };
const PH: Form = Form::Number { least: 0.0, most: 14.0 };
const EC: Form = Form::Number { least: 0.0, most: 50.0 };
const PERCENT: Form = Form::Number { least: 0.0, most: 100.0 };
const HOURS: Form = Form::Number { least: 0.0, most: 2_000.0 };

pub(in crate::record) fn codes<T: Term>() -> Vec<&'static str> {
    T::ALL.iter().map(|w| w.code()).collect()
}

pub(crate) fn kind_codes() -> Vec<&'static str> {
    codes::<KindName>()
}

/// What every entry has beside its kind's own fields.
pub static ENTRY: Table = Table {
    name: "entry",
    fields: &[
        Field::may("id", Form::Id, "", "unique; made from the content when left out"),
        Field::need("at", Form::Instant, "", "when; of sprays and growth regulators the end of the application"),
        Field::need("by", Form::By, "", "who wrote it"),
        Field::may("bench", Form::Code, "", "the bench it is about"),
        Field::may("house", HOUSE, "", "or the house"),
        Field::may("lot", Form::Code, "", "or the lot"),
        Field::need("kind", Form::Term(kind_codes), "", "what was seen or done"),
        NOTE,
    ],
};

/// The free text beside an entry; of a `note` the note itself.
pub const NOTE: Field = Field::may("note", Form::Text { most: super::clean::LONGEST }, "", "free text beside it");

/// One ingredient of a growth regulator.
pub static PART: Table = Table {
    name: "part",
    fields: &[
        Field::need("ai", NAME, "", "active ingredient by its common name"),
        Field::need("ppm", PPM, "ppm", "of the active ingredient in the finished solution"),
    ],
};

/// What every line of the plan has beside its own fields: when and by whom it was written, and what its writer had seen.
pub fn revision_table() -> &'static Table {
    &lines::REVISION
}

/// The plan's line types, in the order they are written.
pub fn plan_tables() -> &'static [&'static Table] {
    lines::TABLES
}

/// The plan line type of this name.
pub fn plan_table(name: &str) -> Option<&'static Table> {
    lines::TABLES.iter().copied().find(|t| t.name == name)
}

/// Every line type a journal may have, for messages.
pub fn line_types() -> String {
    lines::TABLES.iter().map(|t| t.name).chain(["entry"]).collect::<Vec<_>>().join(", ")
}

/// The own fields of a kind.
pub fn kind_table(kind: KindName) -> &'static Table {
    if kind.is_finding() { findings::table(kind) } else { work::table(kind) }
}

#[cfg(test)]
mod tests {
    use super::{KindName, Term, kind_table};

    #[test]
    fn every_kind_has_the_table_of_its_name() {
        for kind in KindName::ALL {
            assert_eq!(kind_table(*kind).name, kind.code());
        }
    }
}
