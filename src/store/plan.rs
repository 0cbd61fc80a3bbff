//! Plan lines as rows, by the field table: every line ever written is kept, none is written over.

use super::connection::next_row;
use super::error::Fault;
use super::schema::{fields_of, plan_tables_of, version};
use super::{row, share};
use crate::record::marked;
use crate::record::schema::{Field, FieldKind, RecordSchema};
use crate::record::{Line, Plan, Value, Values, codec, parse};
use rusqlite::types::{Value as Cell, ValueRef};
use rusqlite::{Connection, Row, params_from_iter};
use serde_json::Value as Json;
use std::collections::BTreeMap;
use uuid::Uuid;

/// What the lines replace, by their ids.
pub(super) type Replaces = BTreeMap<Uuid, Vec<Uuid>>;

/// The whole plan. Of a newer program's file lines that are not understood are left out and counted.
pub(super) fn load(connection: &Connection, newer: bool) -> Result<(Plan, usize), Fault> {
    let replaces = replaces(connection)?;
    let (mut plan, mut left_out) = (Plan::default(), 0_usize);
    let least = share::least_of(connection)?;
    let version = version(connection)?;
    for table in plan_tables_of(version) {
        let columns = columns(table, version);
        let sql = format!("SELECT {columns}, {REVISION} FROM {}_line ORDER BY rowid", table.name);
        for line in rows(connection, table, &sql, [], &replaces)? {
            match line {
                Ok(line) => drop(plan.keep(share::plan_that_counts(&least, line))),
                Err(Fault::Malformed(_)) if newer => left_out += 1,
                Err(fault) => return Err(fault),
            }
        }
    }
    Ok((plan, left_out))
}

/// The line of this type and id.
pub(super) fn find(connection: &Connection, table: &'static RecordSchema, id: Uuid) -> Result<Option<Line>, Fault> {
    let sql =
        format!("SELECT {}, {REVISION} FROM {}_line WHERE id = ?1", columns(table, version(connection)?), table.name);
    let found = rows(connection, table, &sql, [Cell::Blob(id.as_bytes().to_vec())], &Replaces::new())?.pop();
    let Some(mut line) = found.transpose()? else { return Ok(None) };
    if let Some(list) = line.revision_mut().and_then(|r| r.replaces.as_mut()) {
        *list = replaced_by(connection, id)?;
    }
    Ok(Some(line))
}

/// As a new row.
pub(super) fn insert(connection: &Connection, table: &RecordSchema, line: &Line) -> Result<(), Fault> {
    let (content, id) = (line.content(), line.id());
    let Some(revision) = line.revision() else { return Ok(()) };
    know(connection, table, &content)?;
    let mut named: Vec<(&str, Cell)> = Vec::new();
    for field in table.fields {
        named.push((column(field.name), cell(field, content.get(field.name))?));
    }
    let integer = |value: Option<i64>| value.map_or(Cell::Null, Cell::Integer);
    let at = revision.at;
    named.push(("id", Cell::Blob(id.as_bytes().to_vec())));
    named.push(("rev", Cell::Integer(i64::from(revision.rev))));
    named.push(("instant", integer(at.map(|at| at.timestamp()))));
    named.push(("utc_offset", integer(at.map(|at| i64::from(at.offset().local_minus_utc() / 60)))));
    named.push(("author", revision.by.clone().map_or(Cell::Null, Cell::Text)));
    let seen = match (&revision.replaces, at) {
        (Some(_), _) => LISTED,
        (None, Some(_)) => EARLIER,
        (None, None) => LOWER,
    };
    named.push(("seen", Cell::Text(seen.to_owned())));
    named.push(("corrects", Cell::Integer(i64::from(revision.corrects))));
    let names = named.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    let marks = vec!["?"; named.len()].join(", ");
    let sql = format!("INSERT INTO {}_line ({names}) VALUES ({marks})", table.name);
    row::one(connection.prepare_cached(&sql)?.execute(params_from_iter(named.into_iter().map(|(_, cell)| cell)))?)?;
    for older in revision.replaces.iter().flatten() {
        let sql = "INSERT INTO plan_replaces (line, older) VALUES (?1, ?2)";
        row::one(connection.prepare_cached(sql)?.execute((id.as_bytes().as_slice(), older.as_bytes().as_slice()))?)?;
    }
    Ok(())
}

/// Its writer had seen the lines of a lower revision.
const LOWER: &str = "lower";
/// Its writer had seen every line before it.
const EARLIER: &str = "earlier";
/// Its writer had seen the lines of `plan_replaces`.
const LISTED: &str = "listed";

/// The columns of a line's revision.
pub(super) const REVISION: &str = "id, rev, instant, utc_offset, author, seen, corrects";

/// The column of a field: its name, unless that is a word of SQL.
fn column(field: &'static str) -> &'static str {
    match field {
        "order" => "walk_order",
        "from" => "from_day",
        "date" => "due_day",
        "until" => "until_day",
        "row" => "bench_row",
        "column" => "bench_column",
        "control" => "control_treatment",
        "reads" => "readings",
        name => name,
    }
}

/// The columns of a line type's own fields in a file of a version.
pub(super) fn columns(table: &'static RecordSchema, version: i64) -> String {
    fields_of(table, version).map(|field| column(field.name)).collect::<Vec<_>>().join(", ")
}

pub(super) fn replaces(connection: &Connection) -> Result<Replaces, Fault> {
    let mut statement = connection.prepare_cached("SELECT line, older FROM plan_replaces ORDER BY line, older")?;
    let mut rows = statement.query([])?;
    let mut all = Replaces::new();
    next_row();
    while let Some(row) = rows.next()? {
        next_row();
        all.entry(uuid(row, "line")?).or_default().push(uuid(row, "older")?);
    }
    Ok(all)
}

fn replaced_by(connection: &Connection, line: Uuid) -> Result<Vec<Uuid>, Fault> {
    let mut statement = connection.prepare_cached("SELECT older FROM plan_replaces WHERE line = ?1 ORDER BY older")?;
    let mut rows = statement.query([line.as_bytes().as_slice()])?;
    let mut all = Vec::new();
    while let Some(row) = rows.next()? {
        all.push(uuid(row, "older")?);
    }
    Ok(all)
}

fn uuid(row: &Row<'_>, column: &str) -> Result<Uuid, Fault> {
    let bytes: Vec<u8> = row.get(column)?;
    Uuid::from_slice(&bytes).map_err(|e| Fault::Malformed(format!("{column}: {e}")))
}

fn rows(
    connection: &Connection,
    table: &RecordSchema,
    sql: &str,
    keys: impl rusqlite::Params,
    replaces: &Replaces,
) -> Result<Vec<Result<Line, Fault>>, Fault> {
    let mut statement = connection.prepare_cached(sql)?;
    let mut rows = statement.query(keys)?;
    let mut found = Vec::new();
    next_row();
    while let Some(row) = rows.next()? {
        next_row();
        found.push(read(row, table, replaces));
    }
    Ok(found)
}

pub(super) fn read(row: &Row<'_>, table: &RecordSchema, replaces: &Replaces) -> Result<Line, Fault> {
    let mut values = Values::new();
    for field in table.fields {
        let cell = match row.get_ref(column(field.name)) {
            // A file of an earlier version has no such column.
            Err(rusqlite::Error::InvalidColumnName(_)) => continue,
            cell => cell?,
        };
        if let Some(value) = value(field, cell)? {
            values.set(field.name, value);
        }
    }
    let id = uuid(row, "id")?;
    values.set_some("rev", &row.get::<_, u32>("rev")?);
    if let Some(seconds) = row.get::<_, Option<i64>>("instant")? {
        values.set("id", Value::Id(id));
        values.set("at", Value::At(row::instant(seconds, row.get("utc_offset")?)?));
        values.set_some("by", &row.get::<_, Option<String>>("author")?.map(row::author));
    }
    if row.get::<_, String>("seen")? == LISTED {
        values.set_some("replaces", &replaces.get(&id).cloned().unwrap_or_default());
    }
    values.set_some("corrects", &row.get::<_, bool>("corrects")?);
    codec::kept_line(table, &values)
        .ok_or_else(|| Fault::Malformed(format!("a row of {}_line does not read", table.name)))
}

/// A cell in its field's form; `None` for an empty one.
fn value(field: &Field, cell: ValueRef<'_>) -> Result<Option<Value>, Fault> {
    let odd = || Fault::Malformed(format!("{} holds what is no such value", field.name));
    let text = || cell.as_str().map_err(|_not_text| odd());
    let count = || cell.as_i64().ok().and_then(|n| u32::try_from(n).ok()).ok_or_else(odd);
    if cell == ValueRef::Null {
        return Ok(None);
    }
    Ok(Some(match field.kind {
        FieldKind::Text { .. } => Value::Text(row::text(text()?.to_owned())),
        FieldKind::Code | FieldKind::Plot => Value::Text(row::code(text()?.to_owned())),
        FieldKind::By => Value::Text(row::author(text()?.to_owned())),
        FieldKind::Count { .. } | FieldKind::Level { .. } => Value::Count(count()?),
        FieldKind::Number { .. } => Value::Number(cell.as_f64().map_err(|_not_a_number| odd())?),
        FieldKind::Day => Value::Day(parse::day(text()?).ok_or_else(odd)?),
        FieldKind::Zone => Value::Zone(text()?.parse().map_err(|_unknown| odd())?),
        FieldKind::Term(known) => {
            let text = text()?;
            let word = known.codes().into_iter().find(|word| *word == text);
            Value::Term(word.ok_or_else(|| {
                Fault::Malformed(format!("{} '{}' is none of {}", field.name, marked(text), known.codes().join(", ")))
            })?)
        }
        FieldKind::YesNo => Value::YesNo(count()? != 0),
        FieldKind::Texts { .. } => {
            let list: Vec<String> = serde_json::from_str(text()?).map_err(|_no_list| odd())?;
            Value::List(list.into_iter().map(|text| Value::Text(row::text(text))).collect())
        }
        FieldKind::Terms(known) => {
            let (list, words): (Vec<String>, _) =
                (serde_json::from_str(text()?).map_err(|_no_list| odd())?, known.codes());
            let term = |text: &String| words.iter().find(|word| **word == text.as_str()).map(|word| Value::Term(word));
            Value::List(list.iter().map(term).collect::<Option<_>>().ok_or_else(odd)?)
        }
        FieldKind::Numbers { .. } => {
            let list: Vec<f64> = serde_json::from_str(text()?).map_err(|_no_list| odd())?;
            Value::List(list.into_iter().map(Value::Number).collect())
        }
        FieldKind::Instant | FieldKind::Parts | FieldKind::Id | FieldKind::Ids => return Err(odd()),
    }))
}

/// A value as a cell.
fn cell(field: &Field, value: Option<&Value>) -> Result<Cell, Fault> {
    let refused = || Fault::Refused(format!("{} has a value that no column takes", field.name));
    Ok(match value {
        None if matches!(field.kind, FieldKind::Texts { .. }) => Cell::Text("[]".to_owned()),
        None => Cell::Null,
        Some(Value::Text(text)) => Cell::Text(text.clone()),
        Some(Value::Count(n)) => Cell::Integer(i64::from(*n)),
        Some(Value::Number(n)) => Cell::Real(row::finite(*n)?),
        Some(Value::Day(day)) => Cell::Text(parse::show_day(*day)),
        Some(Value::Zone(zone)) => Cell::Text(zone.name().to_owned()),
        Some(Value::Term(word)) => Cell::Text((*word).to_owned()),
        Some(Value::YesNo(yes)) => Cell::Integer(i64::from(*yes)),
        Some(Value::List(list)) => {
            let one = |value: &Value| match value {
                Value::Text(text) => Ok(Json::from(text.as_str())),
                Value::Term(word) => Ok(Json::from(*word)),
                Value::Number(n) => row::finite(*n).map(Json::from),
                _ => Err(refused()),
            };
            Cell::Text(Json::Array(list.iter().map(one).collect::<Result<_, Fault>>()?).to_string())
        }
        Some(Value::At(_) | Value::Id(_) | Value::Part(_)) => return Err(refused()),
    })
}

/// Makes a code known.
pub(super) fn know_code(connection: &Connection, name: &str, code: &str) -> Result<(), Fault> {
    let sql = format!(
        "INSERT INTO known_{name} ({name}) SELECT ?1 WHERE NOT EXISTS (SELECT 1 FROM known_{name} WHERE {name} = ?1)"
    );
    connection.prepare_cached(&sql)?.execute([code])?;
    Ok(())
}

/// Makes the codes known that a line is about.
fn know(connection: &Connection, table: &RecordSchema, content: &Values) -> Result<(), Fault> {
    let codes: &[&str] = match table.name {
        "lot" => &["lot"],
        "bench" => &["house", "bench"],
        "trial" => &["trial"],
        "plot" => &["plot"],
        _ => &[],
    };
    for name in codes {
        if let Some(code) = content.take::<String>(name) {
            know_code(connection, name, &code)?;
        }
    }
    Ok(())
}
