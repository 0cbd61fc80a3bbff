//! Lines that were not understood when they came: held as text, sent on, and read by a program that understands them.

use super::take::{Intake, Kept, Read};
use crate::record::schema::FieldKind;
use crate::record::{KindName, Line, Term, codec, schema};
use crate::store::connection::next_row;
use crate::store::error::Fault;
use crate::store::{entries, row};
use rusqlite::Connection;
use sha2::{Digest, Sha256};

/// Lines that are held and not understood.
pub(super) fn count(connection: &Connection) -> Result<usize, Fault> {
    let held = rows(connection)?;
    if held == 0 {
        return Ok(0);
    }
    next_row();
    let sql = "SELECT count(DISTINCT line) FROM log AS l WHERE state = 1 AND NOT EXISTS
        (SELECT 1 FROM log_understood AS u WHERE u.stream = l.stream AND u.n = l.n)";
    let count: i64 = connection.prepare_cached(sql)?.query_row([], |row| row.get(0))?;
    Ok(usize::try_from(count).unwrap_or(0))
}

/// Rows of the log that were held when they came.
fn rows(connection: &Connection) -> Result<i64, Fault> {
    next_row();
    let sql = "SELECT count(*) FROM log INDEXED BY log_held WHERE state = 1";
    Ok(connection.prepare_cached(sql)?.query_row([], |row| row.get(0))?)
}

/// What this program understands: a hash of its tables of fields. Programs with the same one understand the same lines.
fn program() -> String {
    let mut hash = Sha256::new();
    let kinds = KindName::ALL.iter().map(|kind| (kind.code(), schema::kind_table(*kind)));
    for (name, table) in schema::plan_tables().iter().map(|table| (table.name, *table)).chain(kinds) {
        hash.update(format!("{name}:"));
        for field in table.fields {
            let takes = match field.kind {
                FieldKind::Term(known) | FieldKind::Terms(known) => known.codes().join(" "),
                other => format!("{other:?}"),
            };
            hash.update(format!("{} {takes};", field.name));
        }
    }
    let hash = format!("{:x}", hash.finalize());
    format!("{} {}", env!("CARGO_PKG_VERSION"), hash.get(..16).unwrap_or_default())
}

/// True where lines are held that this program has not tried to understand.
pub(in crate::store) fn is_to_try(connection: &Connection) -> Result<bool, Fault> {
    let held = rows(connection)?;
    if held == 0 {
        return Ok(false);
    }
    let sql = "SELECT coalesce(max(held), 0) FROM log_tried WHERE program = ?1";
    let tried: i64 = connection.query_row(sql, [program()], |row| row.get(0))?;
    Ok(tried < held)
}

/// Reads the held lines that this program understands into their tables. Their rows of the log stay as they are.
pub(in crate::store) fn understand(connection: &Connection) -> Result<(), Fault> {
    if !is_to_try(connection)? {
        return Ok(());
    }
    let held: Vec<(i64, i64, String)> = {
        let sql = "SELECT stream, n, line FROM log AS l WHERE state = 1 AND NOT EXISTS
            (SELECT 1 FROM log_understood AS u WHERE u.stream = l.stream AND u.n = l.n) ORDER BY stream, n";
        let mut statement = connection.prepare_cached(sql)?;
        let found = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
        found.collect::<Result<_, _>>()?
    };
    let mut intake = Intake::of(connection);
    for (stream, n, text) in held {
        next_row();
        let read = Read::of(&text);
        if read.line.is_none() || matches!(intake.keep(&read)?, (Kept::Held, _)) {
            continue;
        }
        let sql = "INSERT INTO log_understood (stream, n) VALUES (?1, ?2)";
        row::one(connection.prepare_cached(sql)?.execute((stream, n))?)?;
    }
    let sql = "INSERT INTO log_tried (program, held) VALUES (?1, ?2)";
    row::one(connection.execute(sql, (program(), rows(connection)?))?)
}

/// The number of the entry that says what a text says, where there is one.
pub(super) fn entry_of(connection: &Connection, text: &str) -> Result<Option<i64>, Fault> {
    let Ok(Line::Entry(entry)) = codec::decode(text, codec::VERSION) else { return Ok(None) };
    let there = entries::find(connection, entry.id)?;
    Ok(there.filter(|(_, there)| codec::line_text(&Line::Entry(there.clone())) == text).map(|(seq, _)| seq))
}
