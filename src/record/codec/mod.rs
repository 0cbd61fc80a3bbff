//! The one place that knows the JSON of records: a journal line to a record and back, and the body a store keeps.
//!
//! Reading goes in three steps, each reporting all it finds: text to JSON with repeated names kept (`raw`), JSON to values
//! by the field table (`read`), values judged by `rules`; only then is the record built (`fields`). Writing goes the same
//! way back: values in the table's order, absent and default ones left out, numbers in their shortest exact form. So one
//! record has one spelling, and a journal that is exported, read and exported again is the same byte for byte.

mod fields;
mod raw;
mod read;
mod write;

use super::rules::{self, Checker};
use super::schema::{self, ENTRY, NOTE, Table};
use super::value::{Value, Values};
use super::{Entry, FieldFault, Kind, KindName, Line, Term, id, lines};
pub use fields::{entry_values, kind_values, line_values};
use raw::Raw;
use read::Reader;

/// The version of the journal this program reads and writes.
pub const VERSION: u32 = 1;

/// The first line of every journal, without its line break.
pub fn header() -> String {
    format!("{{\"type\":\"journal\",\"version\":{VERSION}}}")
}

/// Reads the first line of a journal.
///
/// # Errors
/// Where it is not the header of a version this program reads; the text says what would be right.
pub fn decode_header(text: &str) -> Result<(), Vec<FieldFault>> {
    let first = || format!("the first line must be {}", header());
    let Ok(Raw::Object(pairs)) = raw::parse(text) else { return Err(vec![FieldFault::whole(first())]) };
    let of = |name: &str| pairs.iter().find(|(n, _)| n == name).map(|(_, v)| v);
    if !matches!(of("type"), Some(Raw::Text(t)) if t == "journal") {
        return Err(vec![FieldFault::new("type", first())]);
    }
    let own = f64::from(VERSION);
    match of("version") {
        Some(Raw::Number(v)) if *v > own => Err(vec![FieldFault::new(
            "version",
            format!("{v} is newer than this program reads ({VERSION}); use a newer program"),
        )]),
        Some(Raw::Number(v)) if (*v - own).abs() < f64::EPSILON && pairs.len() == 2 => Ok(()),
        Some(Raw::Number(v)) if (*v - own).abs() < f64::EPSILON => Err(vec![FieldFault::whole(first())]),
        _ => Err(vec![FieldFault::new("version", first())]),
    }
}

/// Reads one line of a journal after its first.
///
/// An entry without an id gets the one made of its content.
///
/// # Errors
/// Everything wrong with the line, each with its field and what would be right.
pub fn decode(text: &str) -> Result<Line, Vec<FieldFault>> {
    let pairs = object(text)?;
    let mut found = pairs.iter().filter(|(n, _)| n == "type").map(|(_, v)| v);
    let name = match (found.next(), found.next()) {
        (Some(Raw::Text(t)), None) => t.as_str(),
        (Some(_), Some(_)) => return Err(vec![FieldFault::new("type", "is given twice; give it once")]),
        (Some(_), None) => return Err(unknown_type("is not text")),
        (None, _) => return Err(unknown_type("is missing")),
    };
    if name == "entry" {
        return decode_entry(&pairs).map(Line::Entry);
    }
    let Some(table) = schema::plan_table(name) else {
        return Err(if name == "journal" {
            vec![FieldFault::new("type", "'journal' is the first line's; take this line out")]
        } else {
            unknown_type(&format!("'{}' is not known", super::clean(name)))
        });
    };
    let tables = [table, schema::revision_table()];
    let mut reader = Reader::new(&pairs, &tables);
    reader.no_more_fields();
    let (mut values, mut checker) = reader.done();
    if table.name == "site" && !values.has("region") && !checker.is_bad("region") {
        values.set("region", Value::Term("cool"));
    }
    if !values.has("rev") && !checker.is_bad("rev") {
        values.set("rev", Value::Count(1));
    }
    rules::plan(&mut checker, table, &values);
    finish(checker, || {
        let mut line = lines::line_of(table.name, &values)?;
        let made = line.id();
        if let Some(revision) = line.revision_mut().filter(|r| r.at.is_some()) {
            revision.id.get_or_insert(made);
        }
        Some(line)
    })
}

/// The type a line gives itself, whatever else is wrong with it.
pub fn line_type(text: &str) -> Option<String> {
    let pairs = object(text).ok()?;
    pairs.into_iter().find_map(|(name, value)| match value {
        Raw::Text(t) if name == "type" => Some(t),
        _ => None,
    })
}

fn unknown_type(what: &str) -> Vec<FieldFault> {
    vec![FieldFault::new("type", format!("{what}; known types: {}", schema::line_types()))]
}

fn decode_entry(pairs: &[(String, Raw)]) -> Result<Entry, Vec<FieldFault>> {
    let named = pairs.iter().find(|(n, _)| n == "kind").and_then(|(_, v)| match v {
        Raw::Text(t) => KindName::from_code(t),
        _ => None,
    });
    let tables: &[&'static Table] = match named {
        Some(kind) => &[&ENTRY, schema::kind_table(kind)],
        None => &[&ENTRY],
    };
    let mut reader = Reader::new(pairs, tables);
    if named.is_some() {
        // Of an unknown kind the own fields are not known either: saying so once is enough.
        reader.no_more_fields();
    }
    let (values, mut checker) = reader.done();
    rules::entry(&mut checker, named, &values);
    finish(checker, || {
        let mut entry = fields::entry(named?, &values)?;
        if !values.has("id") {
            entry.id = id::derived_id(&entry);
        }
        Some(entry)
    })
}

/// Writes one line of a journal, without its line break.
pub fn encode(line: &Line) -> String {
    let (values, name) = (line_values(line), line.type_name());
    match (line, schema::plan_table(name)) {
        (Line::Entry(e), _) => write::object(Some(name), &[&ENTRY, schema::kind_table(e.name())], &values),
        (_, Some(table)) => write::object(Some(name), &[table, schema::revision_table()], &values),
        (_, None) => String::new(),
    }
}

static NOTE_ONLY: Table = Table { name: "note", fields: &[NOTE] };

/// The own fields of a kind, and the note, as one JSON object: what a store keeps of an entry beside its columns.
pub fn encode_kind(kind: &Kind, note: Option<&str>) -> String {
    let mut values = kind_values(kind);
    values.set_some("note", &note.map(str::to_owned));
    write::object(None, &[schema::kind_table(kind.name()), &NOTE_ONLY], &values)
}

/// Reads what [`encode_kind`] wrote. Ranges were judged when the entry was written; they are not judged again, so that a
/// record once kept can always be read, whatever a later version thinks of it.
///
/// # Errors
/// Everything misshapen in it, each with its field.
pub fn decode_kind(kind: KindName, body: &str) -> Result<(Kind, Option<String>), Vec<FieldFault>> {
    let pairs = object(body)?;
    let tables = [schema::kind_table(kind), &NOTE_ONLY];
    let mut reader = Reader::new(&pairs, &tables);
    reader.no_more_fields();
    let (values, checker) = reader.done();
    finish(checker, || Some((fields::kind(kind, &values)?, values.take("note")?)))
}

/// Builds a kind of values by field name, as a form fills them.
///
/// # Errors
/// Every missing or wrong field, each with what would be right.
pub fn kind_from_values(kind: KindName, values: &Values) -> Result<Kind, Vec<FieldFault>> {
    let mut checker = Checker::default();
    rules::required(&mut checker, schema::kind_table(kind), values);
    rules::kind(&mut checker, kind, values);
    finish(checker, || fields::kind(kind, values))
}

/// Builds a plan line of values by field name, as a form fills them. A missing `rev` is 1, a missing `region` cool.
///
/// # Errors
/// Every missing or wrong field, each with what would be right.
pub fn line_from_values(table: &Table, values: &Values) -> Result<Line, Vec<FieldFault>> {
    let mut values = values.clone();
    if !values.has("rev") {
        values.set("rev", Value::Count(1));
    }
    if table.name == "site" && !values.has("region") {
        values.set("region", Value::Term("cool"));
    }
    let mut checker = Checker::default();
    rules::required(&mut checker, table, &values);
    rules::plan(&mut checker, table, &values);
    finish(checker, || lines::line_of(table.name, &values))
}

/// Builds a line of the plan of values that were kept. Ranges were judged when it was written; they are not judged again.
pub fn kept_line(table: &Table, values: &Values) -> Option<Line> {
    lines::line_of(table.name, values)
}

/// The canonical object of a line of the plan: every field but the id, sorted by name.
pub(super) fn canonical_line(line: &Line) -> String {
    let name = line.type_name();
    let own = schema::plan_table(name).unwrap_or_else(schema::revision_table);
    write::sorted(name, &[own, schema::revision_table()], &line.plan_values())
}

/// The canonical object of an entry: every field but the id, sorted by name, values as they were read.
pub fn canonical(entry: &Entry) -> String {
    write::sorted("entry", &[&ENTRY, schema::kind_table(entry.name())], &entry_values(entry))
}

fn object(text: &str) -> Result<Vec<(String, Raw)>, Vec<FieldFault>> {
    match raw::parse(text) {
        Ok(Raw::Object(pairs)) => Ok(pairs),
        Ok(other) => {
            Err(vec![FieldFault::whole(format!("is {}; a line is one JSON object in braces", other.describe()))])
        }
        Err(why) => Err(vec![FieldFault::whole(why)]),
    }
}

fn finish<T>(checker: Checker, build: impl FnOnce() -> Option<T>) -> Result<T, Vec<FieldFault>> {
    let faults = checker.done();
    if !faults.is_empty() {
        return Err(faults);
    }
    build().ok_or_else(|| vec![FieldFault::whole("its fields do not fit together")])
}
