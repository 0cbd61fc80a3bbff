//! Lines of one id with different content, as edited journals bring them: all are kept, and on every laptop the same one counts.

use crate::record::{Entry, Line, codec};
use crate::store::connection::next_row;
use crate::store::error::Fault;
use crate::store::row;
use rusqlite::Connection;
use std::collections::BTreeMap;
use uuid::Uuid;

/// The least text beside the one in the tables, by the type and id of the line. Of nearly every file it is empty.
pub(in crate::store) type Least = BTreeMap<(String, Uuid), String>;

/// Reads it.
pub(in crate::store) fn least_of(connection: &Connection) -> Result<Least, Fault> {
    if crate::store::schema::version(connection)? < super::SHARED_SINCE {
        return Ok(Least::new());
    }
    next_row();
    let sql = "SELECT record, id, min(line) FROM other_content GROUP BY record, id";
    let mut statement = connection.prepare_cached(sql)?;
    let mut rows = statement.query([])?;
    let mut least = Least::new();
    while let Some(row) = rows.next()? {
        next_row();
        least.insert((row.get(0)?, super::uuid(&row.get::<_, Vec<u8>>(1)?)?), row.get(2)?);
    }
    Ok(least)
}

/// The line that counts: this one of the tables, or another of the same id whose text is less.
fn that_counts(least: &Least, line: Line) -> Line {
    if least.is_empty() {
        return line;
    }
    let other = least.get(&(line.type_name().to_owned(), line.id()));
    let less = other.filter(|text| **text < codec::line_text(&line));
    less.and_then(|text| codec::decode(text, codec::VERSION).ok()).unwrap_or(line)
}

/// The entry that counts.
pub(in crate::store) fn entry_that_counts(least: &Least, entry: Entry) -> Entry {
    if least.is_empty() {
        return entry;
    }
    match that_counts(least, Line::Entry(entry.clone())) {
        Line::Entry(other) => other,
        _ => entry,
    }
}

/// The line of the plan that counts.
pub(in crate::store) fn plan_that_counts(least: &Least, line: Line) -> Line {
    that_counts(least, line)
}

/// Keeps one more content of an id; true where it was not there.
pub(super) fn add(connection: &Connection, record: &str, id: Uuid, text: &str) -> Result<bool, Fault> {
    if is_there(connection, record, id, text)? {
        return Ok(false);
    }
    let sql = "INSERT INTO other_content (record, id, line) VALUES (?1, ?2, ?3)";
    row::one(connection.prepare_cached(sql)?.execute((record, id.as_bytes().as_slice(), text))?)?;
    Ok(true)
}

/// True where this very line is kept beside the one of its id in the tables.
pub(in crate::store) fn is_other(connection: &Connection, line: &Line) -> Result<bool, Fault> {
    if crate::store::schema::version(connection)? < super::SHARED_SINCE {
        return Ok(false);
    }
    is_there(connection, line.type_name(), line.id(), &codec::line_text(line))
}

fn is_there(connection: &Connection, record: &str, id: Uuid, text: &str) -> Result<bool, Fault> {
    next_row();
    let sql = "SELECT EXISTS (SELECT 1 FROM other_content WHERE record = ?1 AND id = ?2 AND line = ?3)";
    Ok(connection.prepare_cached(sql)?.query_row((record, id.as_bytes().as_slice(), text), |row| row.get(0))?)
}
