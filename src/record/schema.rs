//! The field table: every line type and every kind of entry, with its fields.
//!
//! The codec reads and writes by this table, messages list known fields from it, and the forms on the screen ask by it. The
//! rows themselves stand with what they make: `kinds`, `lines`, and here what every entry has.
#![deny(clippy::wildcard_enum_match_arm)]

pub use super::field::{Field, FieldKind, Known, RecordSchema};

use super::field::{HOUSE, NAME, PPM, term};
use super::{KindName, Term, lines};

/// What every entry has beside its kind's own fields.
pub static ENTRY: RecordSchema = RecordSchema {
    name: "entry",
    fields: &[
        Field::may("id", FieldKind::Id, "", "unique; default: made from the content"),
        Field::need("at", FieldKind::Instant, "", "when; for sprays and growth regulators the end of the application"),
        Field::need("by", FieldKind::By, "", "initials of the person who logged it"),
        Field::may("bench", FieldKind::Code, "", "the bench it is about"),
        PLOT,
        Field::may("house", HOUSE, "", "or the house"),
        Field::may("lot", FieldKind::Code, "", "or the lot"),
        Field::need("kind", term::<KindName>(), "", "what was seen or done"),
        NOTE,
    ],
};

/// The free text of an entry; of a `note` the note itself.
pub const NOTE: Field = Field::may("note", FieldKind::Text { most: super::clean::LONGEST }, "", "optional free text");

/// The plot of a trial an entry is about.
pub const PLOT: Field = Field::may("plot", FieldKind::Plot, "", "the plot of a trial on that bench");

/// One ingredient of a growth regulator.
pub static PART: RecordSchema = RecordSchema {
    name: "part",
    fields: &[
        Field::need("ai", NAME, "", "active ingredient by its common name"),
        Field::need("ppm", PPM, "ppm", "of the active ingredient in the finished solution"),
    ],
};

/// What every line of the plan has in addition to its own fields: when and by whom it was written, and what its writer had seen.
pub fn revision_table() -> &'static RecordSchema {
    &lines::REVISION
}

/// The plan's line types, in the order they are written.
pub fn plan_tables() -> &'static [&'static RecordSchema] {
    lines::TABLES
}

/// The plan line type of this name.
pub fn plan_table(name: &str) -> Option<&'static RecordSchema> {
    lines::TABLES.iter().copied().find(|t| t.name == name)
}

/// Every line type a journal may have, for messages.
pub fn line_types() -> String {
    lines::TABLES.iter().map(|t| t.name).chain(["entry"]).collect::<Vec<_>>().join(", ")
}

/// The own fields of a kind.
pub const fn kind_table(kind: KindName) -> &'static RecordSchema {
    kind.table()
}

/// Every field of every line and kind.
pub fn fields() -> impl Iterator<Item = &'static Field> {
    let kinds = KindName::ALL.iter().map(|kind| kind.table());
    let all = lines::TABLES.iter().copied().chain([&lines::REVISION, &ENTRY]).chain(kinds);
    all.flat_map(|table| table.fields)
}
