//! The entries as one table, for a spreadsheet.

use super::guard::guarded;
use crate::record::{Entry, KindName, Term, Value, fields, parse, schema};
use csv::{QuoteStyle, WriterBuilder};

/// The columns every entry fills.
pub(super) const COMMON: [&str; 7] = ["id", "day", "at", "by", "place", "code", "plot"];

/// Writes entries by instant and id, one row each, with a column for every field of any kind; lists are separated by
/// semicolons. A text that a spreadsheet would read as a formula gets an apostrophe, also behind a semicolon or a tab.
pub fn write_entries(entries: &[Entry]) -> String {
    let fields = field_names();
    let mut rows: Vec<Vec<String>> =
        vec![COMMON.into_iter().chain(["kind"]).chain(fields.iter().copied()).map(str::to_owned).collect()];
    let mut sorted: Vec<&Entry> = entries.iter().collect();
    sorted.sort_by_key(|e| e.order());
    rows.extend(sorted.into_iter().map(|e| row(e, &fields)));
    written(&rows)
}

/// Writes any table, its cells guarded as those of entries are.
pub fn write_rows(rows: &[Vec<String>]) -> String {
    let guarded: Vec<Vec<String>> = rows.iter().map(|row| row.iter().map(|cell| guarded(cell)).collect()).collect();
    written(&guarded)
}

pub(super) fn written(rows: &[Vec<String>]) -> String {
    let mut writer = WriterBuilder::new().quote_style(QuoteStyle::Necessary).from_writer(Vec::new());
    let written = rows.iter().try_for_each(|row| writer.write_record(row));
    // Writing into memory does not fail; the fallback is an empty table.
    let bytes = written.ok().and_then(|()| writer.into_inner().ok()).unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

/// Every field of every kind once, in the order of the kinds; the note last.
fn field_names() -> Vec<&'static str> {
    let mut names: Vec<&'static str> = Vec::new();
    for field in KindName::ALL.iter().flat_map(|k| schema::kind_table(*k).fields) {
        if !names.contains(&field.name) {
            names.push(field.name);
        }
    }
    names.push("note");
    names
}

fn row(entry: &Entry, fields: &[&'static str]) -> Vec<String> {
    let values = fields::entry_values(entry);
    let own = fields.iter().map(|f| values.get(f).map(cell).unwrap_or_default());
    common(entry).into_iter().chain([entry.name().code().to_owned()]).chain(own).collect()
}

/// The cells of [`COMMON`].
pub(super) fn common(entry: &Entry) -> [String; COMMON.len()] {
    [
        entry.id.hyphenated().to_string(),
        parse::show_day(entry.day()),
        parse::show_instant(&entry.at),
        guarded(&entry.by),
        entry.place.field().to_owned(),
        guarded(entry.place.code()),
        entry.plot.as_deref().map(guarded).unwrap_or_default(),
    ]
}

pub(super) fn cell(value: &Value) -> String {
    match value {
        Value::Text(t) => guarded(t),
        Value::Count(n) => n.to_string(),
        Value::Number(n) => n.to_string(),
        Value::Day(d) => parse::show_day(*d),
        Value::At(t) => parse::show_instant(t),
        Value::Zone(z) => z.name().to_owned(),
        Value::Term(w) => (*w).to_owned(),
        Value::YesNo(b) => b.to_string(),
        Value::Id(id) => id.hyphenated().to_string(),
        Value::Part(p) => guarded(&format!("{} {} ppm", p.ai, p.ppm)),
        Value::List(list) => list.iter().map(cell).collect::<Vec<_>>().join("; "),
    }
}
