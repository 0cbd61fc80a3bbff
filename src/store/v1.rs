//! Files of version 1, read as the journal of version 1 that they are: rows to its JSON, its JSON to records. Frozen with
//! `v1.sql`.

use super::connection::next_row;
use super::entries::{self, Slice};
use super::error::Fault;
use super::row;
use crate::progress::Work;
use crate::record::{Line, Plan, codec, parse};
use rusqlite::types::ValueRef;
use rusqlite::{Connection, Row};
use serde_json::{Map, Value as Json};

/// The tables of the plan and their line types.
const PLAN: [(&str, &str); 5] = [
    ("site_line", "site"),
    ("lot_line", "lot"),
    ("bench_line", "bench"),
    ("placement_line", "placement"),
    ("order_line", "order"),
];

/// Columns that hold days since 1970-01-01.
const DAYS: [&str; 6] = ["planted", "ready_by", "blackout_from", "lights_until", "from", "date"];

/// The whole plan.
pub(super) fn load_plan(connection: &Connection) -> Result<Plan, Fault> {
    let mut plan = Plan::default();
    for (table, name) in PLAN {
        let mut statement = connection.prepare(&format!("SELECT * FROM {table}"))?;
        let columns: Vec<String> = statement.column_names().map(str::to_owned).collect();
        let mut rows = statement.query([])?;
        next_row();
        while let Some(row) = rows.next()? {
            next_row();
            let mut map = Map::new();
            map.insert("type".to_owned(), Json::from(name));
            for column in &columns {
                if let Some(json) = cell(column, row.get_ref(column.as_str())?)? {
                    map.insert(column.clone(), json);
                }
            }
            plan.keep(decode(map)?);
        }
    }
    Ok(plan)
}

/// Entries after the one numbered `after`.
pub(super) fn load(connection: &Connection, after: i64, most: usize) -> Result<Slice, Fault> {
    let sql = "SELECT e.*, k.name AS kind_name FROM entry AS e JOIN kind AS k ON k.number = e.kind
               WHERE e.seq > ?1 ORDER BY e.seq LIMIT ?2";
    let mut statement = connection.prepare(sql)?;
    let mut rows = statement.query((after, i64::try_from(most).unwrap_or(i64::MAX)))?;
    let mut slice = Slice { entries: Vec::new(), last: after, done: false, left_out: 0 };
    let mut work = if most == usize::MAX { Some(entries::reading(connection)?) } else { None };
    next_row();
    while let Some(row) = rows.next()? {
        next_row();
        work.as_mut().map_or(Ok(()), Work::one)?;
        slice.last = row.get("seq")?;
        match decode(entry(row)?)? {
            Line::Entry(entry) => slice.entries.push(entry),
            _ => return Err(Fault::Malformed(format!("entry {}: is none", slice.last))),
        }
    }
    slice.done = slice.entries.len() < most;
    Ok(slice)
}

fn decode(map: Map<String, Json>) -> Result<Line, Fault> {
    codec::decode(&safe(Json::Object(map)).to_string(), 1).map_err(|faults| {
        Fault::Malformed(faults.iter().map(|f| format!("{}: {}", f.field, f.text)).collect::<Vec<_>>().join("; "))
    })
}

/// The same with every text made safe to show.
fn safe(json: Json) -> Json {
    match json {
        Json::String(text) => Json::String(row::text(text)),
        Json::Array(list) => Json::Array(list.into_iter().map(safe).collect()),
        Json::Object(map) => Json::Object(map.into_iter().map(|(name, value)| (name, safe(value))).collect()),
        other => other,
    }
}

/// A cell of the plan as the journal writes it; `None` for an empty one.
fn cell(column: &str, cell: ValueRef<'_>) -> Result<Option<Json>, Fault> {
    let odd = || Fault::Malformed(format!("{column} does not read"));
    Ok(match cell {
        ValueRef::Null => None,
        ValueRef::Integer(number) if DAYS.contains(&column) => Some(Json::from(parse::show_day(row::day(number)?))),
        ValueRef::Integer(number) if column == "calcium" => Some(Json::from(number != 0)),
        ValueRef::Integer(number) => Some(Json::from(number)),
        ValueRef::Real(number) => Some(Json::from(number)),
        ValueRef::Text(text) if column == "dull_houses" => {
            Some(serde_json::from_slice(text).map_err(|_no_list| odd())?)
        }
        ValueRef::Text(text) => Some(Json::from(std::str::from_utf8(text).map_err(|_no_text| odd())?)),
        ValueRef::Blob(_) => return Err(odd()),
    })
}

fn entry(row: &Row<'_>) -> Result<Map<String, Json>, Fault> {
    let odd = |text: String| Fault::Malformed(format!("entry: {text}"));
    let body: Option<String> = row.get("body")?;
    let kind: String = row.get("kind_name")?;
    let mut map: Map<String, Json> = match body {
        Some(body) => serde_json::from_str(&body).map_err(|e| odd(e.to_string()))?,
        None => daily(&kind, row.get("a")?, row.get("b")?),
    };
    let id: Vec<u8> = row.get("id")?;
    let id = uuid::Uuid::from_slice(&id).map_err(|e| odd(e.to_string()))?;
    let at = row::instant(row.get("at")?, row.get("offset")?)?;
    map.insert("type".to_owned(), Json::from("entry"));
    map.insert("id".to_owned(), Json::from(id.hyphenated().to_string()));
    map.insert("at".to_owned(), Json::from(parse::show_instant(&at)));
    map.insert("by".to_owned(), Json::from(row.get::<_, String>("by")?));
    map.insert("kind".to_owned(), Json::from(kind));
    for place in ["bench", "house", "lot"] {
        if let Some(code) = row.get::<_, Option<String>>(place)? {
            map.insert(place.to_owned(), Json::from(code));
        }
    }
    Ok(map)
}

/// The fields of a kind whose two columns say all of it.
fn daily(kind: &str, a: Option<i64>, b: Option<i64>) -> Map<String, Json> {
    let names: [&str; 2] = match kind {
        "water" => ["level", "base"],
        "roots" => ["score", ""],
        "bracts" => ["stage", ""],
        "losses" | "counted" | "sold" => ["pots", ""],
        _ => ["", ""],
    };
    let pairs = names.into_iter().zip([a, b]).filter(|(name, _)| !name.is_empty());
    pairs.filter_map(|(name, value)| Some((name.to_owned(), Json::from(value?)))).collect()
}
