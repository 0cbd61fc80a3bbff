//! Values to JSON text, one spelling for each record.

use super::super::schema::{Field, FieldKind, PART, RecordSchema};
use super::super::value::{Value, Values};
use super::super::{Part, parse};
use uuid::Uuid;

/// Room for the text of a usual record.
const USUAL: usize = 256;

/// A field under a name, and its value; the type of the record has none.
type Named<'v> = (&'static str, Option<&'v Value>);

/// One object: its type first where it has one, then the tables' fields in their order. The note comes last.
pub(super) fn object(name: Option<&str>, tables: &[&'static RecordSchema], values: &Values) -> String {
    let mut named = Vec::with_capacity(values.len().saturating_add(1));
    let fields = || tables.iter().flat_map(|t| t.fields);
    if name.is_some() {
        named.push((TYPE, None));
    }
    for field in fields().filter(|f| f.name != "note").chain(fields().filter(|f| f.name == "note").take(1)) {
        put(&mut named, field.name, field, values);
    }
    text_of(name.unwrap_or_default(), &named)
}

/// The object of a record without its id, under the names of version 1, sorted: what ids are made of.
pub(super) fn sorted(name: &str, tables: &[&'static RecordSchema], values: &Values) -> String {
    by_name(name, tables.iter().flat_map(|t| t.fields).filter(|f| f.name != "id"), Field::first_name, values)
}

/// The whole object of a record under the names of today, sorted.
pub(super) fn whole(name: &str, tables: &[&'static RecordSchema], values: &Values) -> String {
    by_name(name, tables.iter().flat_map(|t| t.fields), |field| field.name, values)
}

fn by_name(
    name: &str,
    fields: impl Iterator<Item = &'static Field>,
    shown: fn(&'static Field) -> &'static str,
    values: &Values,
) -> String {
    let mut named = Vec::with_capacity(values.len().saturating_add(1));
    named.push((TYPE, None));
    for field in fields {
        put(&mut named, shown(field), field, values);
    }
    named.sort_unstable_by_key(|(name, _)| *name);
    text_of(name, &named)
}

/// The name of the type of a record.
const TYPE: &str = "type";

/// Adds a field where it has a value that is written; one name is there once, with the value given last.
fn put<'v>(named: &mut Vec<Named<'v>>, name: &'static str, field: &'static Field, values: &'v Values) {
    let Some(value) = values.get(field.name) else { return };
    let left_out = !field.required
        && match value {
            Value::YesNo(v) => !v,
            Value::List(list) => list.is_empty() && !matches!(field.kind, FieldKind::Ids),
            Value::Count(rev) => field.name == "rev" && *rev == 1,
            _ => false,
        };
    if left_out {
        return;
    }
    match named.iter_mut().find(|(there, _)| *there == name) {
        Some((_, there)) => *there = Some(value),
        None => named.push((name, Some(value))),
    }
}

/// An object of these, a type where there is no value.
fn text_of(name: &str, named: &[Named<'_>]) -> String {
    let mut out = String::with_capacity(USUAL);
    out.push('{');
    for (at, (field, value)) in named.iter().enumerate() {
        if at > 0 {
            out.push(',');
        }
        text(&mut out, field);
        out.push(':');
        match value {
            Some(value) => json(&mut out, value),
            None => text(&mut out, name),
        }
    }
    out.push('}');
    out
}

fn json(out: &mut String, value: &Value) {
    match value {
        Value::Text(t) => text(out, t),
        Value::Count(n) => out.push_str(&n.to_string()),
        Value::Number(n) => number(out, *n),
        Value::Day(d) => quoted(out, |out| parse::put_day(out, *d)),
        Value::At(t) => quoted(out, |out| parse::put_instant(out, t)),
        Value::Zone(z) => text(out, z.name()),
        Value::Term(w) => text(out, w),
        Value::YesNo(b) => out.push_str(if *b { "true" } else { "false" }),
        Value::Id(id) => {
            quoted(out, |out| out.push_str(id.hyphenated().encode_lower(&mut Uuid::encode_buffer())));
        }
        Value::Part(p) => part(out, p),
        Value::List(list) => {
            out.push('[');
            for (at, value) in list.iter().enumerate() {
                if at > 0 {
                    out.push(',');
                }
                json(out, value);
            }
            out.push(']');
        }
    }
}

/// Between quotes: text that has none of the characters that JSON writes with escapes.
fn quoted(out: &mut String, put: impl FnOnce(&mut String)) {
    out.push('"');
    put(out);
    out.push('"');
}

/// A text.
fn text(out: &mut String, text: &str) {
    if text.bytes().all(|byte| byte >= 0x20 && byte != b'"' && byte != b'\\') {
        quoted(out, |out| out.push_str(text));
    } else {
        out.push_str(&serde_json::Value::from(text).to_string());
    }
}

fn part(out: &mut String, part: &Part) {
    let mut values = Values::new();
    values.set("ai", Value::Text(part.ai.clone()));
    values.set("ppm", Value::Number(part.ppm));
    let mut named = Vec::with_capacity(2);
    for field in PART.fields {
        put(&mut named, field.name, field, &values);
    }
    out.push_str(&text_of("", &named));
}

/// Whole numbers are written without a point: `250`, not `250.0`.
#[expect(clippy::cast_possible_truncation, reason = "the range is checked first; it is exact up to 2^53")]
fn number(out: &mut String, n: f64) {
    if n.fract() == 0.0 && n.abs() < 1e15 {
        out.push_str(&(n as i64).to_string());
    } else {
        out.push_str(&serde_json::Value::from(n).to_string());
    }
}
