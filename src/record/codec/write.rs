//! Values to JSON text, one spelling for each record.

use super::super::schema::{Field, FieldKind, PART, RecordSchema};
use super::super::value::{Value, Values};
use super::super::{Part, parse};
use serde_json::{Map, Value as Json};

/// One object: its type first where it has one, then the tables' fields in their order. The note comes last.
pub(super) fn object(name: Option<&str>, tables: &[&'static RecordSchema], values: &Values) -> String {
    let mut map = Map::new();
    if let Some(name) = name {
        map.insert("type".to_owned(), Json::from(name));
    }
    let fields = || tables.iter().flat_map(|t| t.fields);
    for field in fields().filter(|f| f.name != "note").chain(fields().filter(|f| f.name == "note").take(1)) {
        put(&mut map, field.name, field, values);
    }
    Json::Object(map).to_string()
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
    named: fn(&'static Field) -> &'static str,
    values: &Values,
) -> String {
    let mut map = Map::new();
    map.insert("type".to_owned(), Json::from(name));
    for field in fields {
        put(&mut map, named(field), field, values);
    }
    map.sort_keys();
    Json::Object(map).to_string()
}

fn put(map: &mut Map<String, Json>, name: &str, field: &'static Field, values: &Values) {
    let Some(value) = values.get(field.name) else { return };
    let left_out = !field.required
        && match value {
            Value::YesNo(v) => !v,
            Value::List(list) => list.is_empty() && !matches!(field.kind, FieldKind::Ids),
            Value::Count(rev) => field.name == "rev" && *rev == 1,
            _ => false,
        };
    if !left_out {
        map.insert(name.to_owned(), json(value));
    }
}

fn json(value: &Value) -> Json {
    match value {
        Value::Text(t) => Json::from(t.as_str()),
        Value::Count(n) => Json::from(*n),
        Value::Number(n) => number(*n),
        Value::Day(d) => Json::from(parse::show_day(*d)),
        Value::At(t) => Json::from(parse::show_instant(t)),
        Value::Zone(z) => Json::from(z.name()),
        Value::Term(w) => Json::from(*w),
        Value::YesNo(b) => Json::from(*b),
        Value::Id(id) => Json::from(id.hyphenated().to_string()),
        Value::Part(p) => part(p),
        Value::List(list) => list.iter().map(json).collect(),
    }
}

fn part(part: &Part) -> Json {
    let mut values = Values::new();
    values.set("ai", Value::Text(part.ai.clone()));
    values.set("ppm", Value::Number(part.ppm));
    let mut map = Map::new();
    for field in PART.fields {
        put(&mut map, field.name, field, &values);
    }
    Json::Object(map)
}

/// Whole numbers are written without a point: `250`, not `250.0`.
#[expect(clippy::cast_possible_truncation, reason = "the range is checked first; it is exact up to 2^53")]
fn number(n: f64) -> Json {
    if n.fract() == 0.0 && n.abs() < 1e15 { Json::from(n as i64) } else { Json::from(n) }
}
