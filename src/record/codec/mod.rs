//! The one place that knows the JSON of records: a journal line to a record and back, and the body a store keeps.
//!
//! Reading goes in three steps, each reporting all it finds: text to JSON with repeated names kept (`raw`), JSON to values
//! by the field table (`read`), values judged by `rules`; only then is the record built (`fields`). Writing goes the same
//! way back: values in the table's order, absent and default ones left out, numbers in their shortest exact form. So one
//! record has one spelling, and a journal that is exported, read and exported again is the same byte for byte.

mod id;
mod raw;
mod read;
mod write;

use super::checker::Checker;
use super::fields::{self, entry_values, line_values};
use super::rules;
use super::schema::{self, ENTRY, Field, FieldKind, NOTE, PLOT, RecordSchema};
use super::value::{Value, Values};
use super::{Entry, FieldFault, Kind, KindName, Line, Term, lines};
use foldhash::fast::RandomState;
pub use id::{derived_id, season_id};
use raw::{Pairs, Raw};
use read::Reader;
use std::collections::HashMap;
use std::sync::Arc;
use uuid::Uuid;

/// The version of the journal this program writes; it reads every version up to it.
pub const VERSION: u32 = 2;

/// Which names of fields a text may use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Names {
    /// Today's only.
    Own,
    /// Today's and those of version 1.
    Any,
}

/// The first line of a journal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Header {
    /// Its version.
    pub version: u32,
    /// The season it is of; journals of version 1 and those written by hand have none.
    pub season: Option<Uuid>,
    /// True where its last line is to say how many lines there are, and their hash.
    pub ends: bool,
}

impl Default for Header {
    fn default() -> Self {
        Self { version: VERSION, season: None, ends: false }
    }
}

impl Header {
    /// As it is written, without its line break.
    pub fn encode(&self) -> String {
        let mut values = Values::new();
        values.set_some("version", &self.version);
        values.set_some("season", &self.season);
        values.set_some("ends", &self.ends);
        write::object(Some("journal"), &[&HEADER], &values)
    }
}

/// Why a first line is not the header of a journal that can be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoHeader {
    /// True where a newer program wrote it: what it means by its lines is not known here.
    pub newer: bool,
    /// What is wrong with it, each with what would be right.
    pub faults: Vec<FieldFault>,
}

static HEADER: RecordSchema = RecordSchema {
    name: "journal",
    fields: &[
        Field::need("version", FieldKind::Count { least: 1, most: VERSION }, "", "version of the journal"),
        Field::may("season", FieldKind::Id, "", "id of the season"),
        Field::may("ends", FieldKind::YesNo, "", "true if the last line marks the end"),
    ],
};

/// The shortest first line of a journal, without its line break.
pub fn header() -> String {
    Header::default().encode()
}

/// Reads the first line of a journal.
///
/// # Errors
/// Where it is not the header of a version this program reads; the text says what would be right.
pub fn decode_header(text: &str) -> Result<Header, NoHeader> {
    let first = || format!("the first line must be {}", header());
    let refuse = |faults| Err(NoHeader { newer: false, faults });
    let Ok(Raw::Object(pairs)) = raw::parse(text) else { return refuse(vec![FieldFault::whole(first())]) };
    let of = |name: &str| pairs.iter().find(|(n, _)| n == name).map(|(_, v)| v);
    if !matches!(of("type"), Some(Raw::Text(t)) if t == "journal") {
        return refuse(vec![FieldFault::new("type", first())]);
    }
    let is = |v: f64, version: u32| (v - f64::from(version)).abs() < f64::EPSILON;
    match of("version") {
        Some(Raw::Number(v)) if *v > f64::from(VERSION) => {
            let text = format!("{v} is newer than this program reads ({VERSION}); use a newer program");
            Err(NoHeader { newer: true, faults: vec![FieldFault::new("version", text)] })
        }
        Some(Raw::Number(v)) if is(*v, 1) && pairs.len() == 2 => Ok(Header { version: 1, ..Header::default() }),
        Some(Raw::Number(v)) if is(*v, 1) => refuse(vec![FieldFault::whole(first())]),
        Some(Raw::Number(v)) if is(*v, VERSION) => {
            let tables = [&HEADER];
            let mut reader = Reader::new(&pairs, &tables, Names::Own);
            reader.no_more_fields();
            let (values, checker) = reader.done();
            finish(checker, || {
                Some(Header {
                    version: values.take("version")?,
                    season: values.take("season")?,
                    ends: values.take("ends")?,
                })
            })
            .or_else(refuse)
        }
        _ => refuse(vec![FieldFault::new("version", first())]),
    }
}

/// Reads one line of a journal after its first.
///
/// An entry without an id gets the one made of its content. In version 1 fields may have their names of then.
///
/// # Errors
/// Everything wrong with the line, each with its field and what would be right.
pub fn decode(text: &str, version: u32) -> Result<Line, Vec<FieldFault>> {
    let names = if version < 2 { Names::Any } else { Names::Own };
    let pairs = object(text)?;
    decode_pairs(&pairs, names).map_err(|faults| as_written(faults, &pairs))
}

/// The faults under the names that the text has, where those are of version 1.
fn as_written(faults: Vec<FieldFault>, pairs: &Pairs<'_>) -> Vec<FieldFault> {
    let named = |mut fault: FieldFault| {
        let old = schema::fields().find(|f| f.name == fault.field).and_then(|f| f.was);
        if let Some(was) = old.filter(|was| pairs.iter().any(|(n, _)| *n == **was)) {
            was.clone_into(&mut fault.field);
        }
        fault
    };
    faults.into_iter().map(named).collect()
}

fn decode_pairs(pairs: &Pairs<'_>, names: Names) -> Result<Line, Vec<FieldFault>> {
    let mut found = pairs.iter().filter(|(n, _)| n == "type").map(|(_, v)| v);
    let name = match (found.next(), found.next()) {
        (Some(Raw::Text(t)), None) => t.as_ref(),
        (Some(_), Some(_)) => return Err(vec![FieldFault::new("type", "is given twice; give it once")]),
        (Some(_), None) => return Err(unknown_type("is not text")),
        (None, _) => return Err(unknown_type("is missing")),
    };
    if name == "entry" {
        return decode_entry(pairs, names).map(Line::Entry);
    }
    let Some(table) = schema::plan_table(name) else {
        return Err(if name == "journal" {
            vec![FieldFault::new("type", "'journal' belongs in the first line only; remove this line")]
        } else {
            unknown_type(&format!("'{}' is not known", super::clean(name)))
        });
    };
    let tables = [table, schema::revision_table()];
    let mut reader = Reader::new(pairs, &tables, names);
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
        Raw::Text(t) if name == "type" => Some(t.into_owned()),
        _ => None,
    })
}

fn unknown_type(what: &str) -> Vec<FieldFault> {
    vec![FieldFault::new("type", format!("{what}; known types: {}", schema::line_types()))]
}

fn decode_entry(pairs: &Pairs<'_>, names: Names) -> Result<Entry, Vec<FieldFault>> {
    let named = pairs.iter().find(|(n, _)| n == "kind").and_then(|(_, v)| match v {
        Raw::Text(t) => KindName::from_code(t),
        _ => None,
    });
    let tables: &[&'static RecordSchema] = match named {
        Some(kind) => &[&ENTRY, schema::kind_table(kind)],
        None => &[&ENTRY],
    };
    let mut reader = Reader::new(pairs, tables, names);
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

/// Writes a line as it stands in a stream: its fields sorted by name, with its id. A line of version 1 of the plan has none; its
/// id is made of its content. The chains of streams are made of this text, so it must never be spelled in another way: the same
/// line gives the same bytes on every laptop and in every program to come.
///
/// ```
/// use benchwalk::record::codec;
///
/// let line = codec::decode(r#"{"type":"bench","order":1.0,"bench":"E1","house":"East"}"#, 2).unwrap();
/// let text = codec::line_text(&line);
/// assert_eq!(text, r#"{"bench":"E1","house":"East","order":1,"type":"bench"}"#);
/// assert_eq!(codec::decode(&text, 2), Ok(line));
/// ```
pub fn line_text(line: &Line) -> String {
    let (mut values, name) = (line_values(line), line.type_name());
    if line.revision().is_none_or(|revision| revision.at.is_some()) {
        values.set("id", Value::Id(line.id()));
    }
    match (line, schema::plan_table(name)) {
        (Line::Entry(e), _) => write::whole(name, &[&ENTRY, schema::kind_table(e.name())], &values),
        (_, Some(table)) => write::whole(name, &[table, schema::revision_table()], &values),
        (_, None) => String::new(),
    }
}

/// What an entry's body holds beside the kind's own fields.
static BESIDE: RecordSchema = RecordSchema { name: "body", fields: &[PLOT, NOTE] };

/// What of an entry has no column of its own in a store: the fields of its kind, the plot and the note, as one JSON object.
pub fn encode_body(entry: &Entry) -> String {
    let mut values = entry.kind.values();
    values.set_some("plot", &entry.plot);
    values.set_some("note", &entry.note);
    write::object(None, &[schema::kind_table(entry.name()), &BESIDE], &values)
}

/// The same of an entry that has columns for plot and note.
pub fn encode_kind(kind: &Kind) -> String {
    write::object(None, &[schema::kind_table(kind.name())], &kind.values())
}

/// What [`decode_body`] gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    /// The kind with its own fields.
    pub kind: Arc<Kind>,
    /// The plot of a trial.
    pub plot: Option<Arc<str>>,
    /// The note.
    pub note: Option<Arc<str>>,
}

/// Reads what [`encode_body`] wrote, under the names of any version. Ranges were judged when the entry was written; they
/// are not judged again, so that a record once kept can always be read, whatever a later version thinks of it. Texts that another
/// program put there come out safe to show.
///
/// # Errors
/// Everything misshapen in it, each with its field.
pub fn decode_body(kind: KindName, body: &str) -> Result<Body, Vec<FieldFault>> {
    let pairs: Pairs<'_> = object(body)?.into_iter().map(|(name, value)| (name, value.marked())).collect();
    let tables = [schema::kind_table(kind), &BESIDE];
    let mut reader = Reader::new(&pairs, &tables, Names::Any);
    reader.no_more_fields();
    let (values, checker) = reader.done();
    finish(checker, || {
        Some(Body { kind: Kind::of(kind, &values)?.into(), plot: values.take("plot")?, note: values.take("note")? })
    })
}

/// Bodies that were read before: a season has few different ones, and each is read once.
#[derive(Debug, Default)]
pub struct Bodies {
    read: HashMap<KindName, HashMap<String, Body, RandomState>, RandomState>,
    kept: usize,
}

impl Bodies {
    /// The longest text kept, and how many at most: a long one is most often the only one of its sort.
    const LONG: usize = 160;
    const MOST: usize = 4_096;

    /// [`decode_body`].
    ///
    /// # Errors
    /// As there.
    pub fn decode(&mut self, kind: KindName, body: &str) -> Result<Body, Vec<FieldFault>> {
        if let Some(known) = self.read.get(&kind).and_then(|of_kind| of_kind.get(body)) {
            return Ok(known.clone());
        }
        let read = decode_body(kind, body)?;
        if body.len() <= Self::LONG && self.kept < Self::MOST {
            self.kept += 1;
            self.read.entry(kind).or_default().insert(body.to_owned(), read.clone());
        }
        Ok(read)
    }
}

/// Builds a kind of values by field name, as a form fills them.
///
/// # Errors
/// Every missing or wrong field, each with what would be right.
pub fn kind_from_values(kind: KindName, values: &Values) -> Result<Kind, Vec<FieldFault>> {
    let mut checker = Checker::default();
    rules::required(&mut checker, schema::kind_table(kind), values);
    rules::kind(&mut checker, kind, values);
    finish(checker, || Kind::of(kind, values))
}

/// Builds a plan line of values by field name, as a form fills them. A missing `rev` is 1, a missing `region` cool.
///
/// # Errors
/// Every missing or wrong field, each with what would be right.
pub fn line_from_values(table: &RecordSchema, values: &Values) -> Result<Line, Vec<FieldFault>> {
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
pub fn kept_line(table: &RecordSchema, values: &Values) -> Option<Line> {
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

fn object(text: &str) -> Result<Pairs<'_>, Vec<FieldFault>> {
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
