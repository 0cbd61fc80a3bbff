//! The versions of the season file. Each is a script, released once and frozen; `user_version` says how many have run.

use super::connection::{next_row, whole_file};
use super::error::{Fault, StoreError};
use super::{append, backup, entries, plan, season, v1};
use crate::progress::{Step, Work};
use crate::record::Line;
use crate::record::schema::{Field, RecordSchema, plan_tables};
use rusqlite::{Connection, OptionalExtension, Transaction, TransactionBehavior};
use std::path::Path;

/// `BWLK`: marks a SQLite file as a Benchwalk season.
pub const APPLICATION_ID: u32 = 0x4257_4C4B;

/// Every version's script, oldest first. A test holds the hash of each. A new file begins with the second: it makes all tables
/// that the first had.
pub const SCRIPTS: [&str; 8] = [
    include_str!("v1.sql"),
    include_str!("v2.sql"),
    include_str!("v3.sql"),
    include_str!("v4.sql"),
    include_str!("v5.sql"),
    include_str!("v6.sql"),
    include_str!("v7.sql"),
    include_str!("v8.sql"),
];

/// The newest file version this program knows: one for each script, as a test holds.
pub const NEWEST: i64 = 8;

/// Brings a file to the newest version in one transaction. A file with records is looked over first, and a checked copy of it
/// is left beside it.
pub(super) fn migrate(connection: &mut Connection, path: &Path) -> Result<(), StoreError> {
    let of = |fault: Fault| fault.of(path);
    let from = version(connection).map_err(of)?;
    if from >= NEWEST {
        return Ok(());
    }
    let _whole = Work::whole();
    if from > 0 {
        let work = Work::begin(Step::CheckFile, 0);
        integrity_check(connection).map_err(of)?;
        drop(work);
        if from == 1 {
            // Before the copy: a file that does not read is left alone, not copied again at every try.
            v1::load_plan(connection).map_err(of)?;
            v1::load(connection, 0, usize::MAX).map_err(of)?;
        }
        let copy = backup::beside(connection, path, from)?;
        tracing::info!(copy = %copy.display(), "season file copied before its version changes");
    }
    write(connection, |transaction| {
        match version(transaction)? {
            0 => run_from(transaction, 2)?,
            1 => from_1(transaction)?,
            from if from < NEWEST => run_from(transaction, from + 1)?,
            // Another program was quicker.
            _ => return Ok(()),
        }
        transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
        Ok(transaction.pragma_update(None, "user_version", NEWEST)?)
    })
    .map_err(of)?;
    tracing::info!(version = NEWEST, path = %path.display(), "season file brought to version");
    Ok(())
}

/// Runs the scripts of a version and of all after it.
fn run_from(connection: &Connection, version: i64) -> Result<(), Fault> {
    for (_, script) in (1..).zip(SCRIPTS).filter(|(number, _)| *number >= version) {
        next_row();
        connection.execute_batch(script)?;
    }
    Ok(())
}

/// The tables of version 1, those that others refer to last.
const V1_TABLES: [&str; 10] = [
    "entry",
    "order_line",
    "placement_line",
    "bench_line",
    "lot_line",
    "site_line",
    "kind",
    "known_house",
    "known_bench",
    "known_lot",
];

/// From version 1 to the newest: reads every record from the tables of version 1, makes the tables of today, and writes the
/// records.
fn from_1(connection: &Connection) -> Result<(), Fault> {
    let plan = v1::load_plan(connection)?;
    let entries = v1::load(connection, 0, usize::MAX)?.entries;
    let views: Vec<String> = {
        let mut statement = connection.prepare("SELECT name FROM sqlite_schema WHERE type = 'view'")?;
        let names = statement.query_map([], |row| row.get(0))?;
        names.collect::<Result<_, _>>()?
    };
    for view in views {
        connection.execute_batch(&format!("DROP VIEW \"{view}\""))?;
    }
    for table in V1_TABLES {
        whole_file();
        connection.execute_batch(&format!("DROP TABLE {table}"))?;
    }
    run_from(connection, 2)?;
    let mut lines = plan.lines();
    lines.extend(entries.into_iter().map(Line::Entry));
    lines.sort_by_key(append::rank);
    let mut work = Work::begin(Step::Migrate, lines.len());
    for line in &lines {
        append::put(connection, line)?;
        work.one()?;
    }
    drop(work);
    season::settle(connection, None)?;
    let kept =
        plan::load(connection, false)?.0.lines().len() + entries::load(connection, 0, usize::MAX, false)?.entries.len();
    if kept == lines.len() { Ok(()) } else { Err(Fault::Malformed(format!("{kept} of {} records", lines.len()))) }
}

/// One writing transaction. It takes the write lock at once: a transaction that reads first and writes later can be refused in
/// between without waiting. On any error nothing of it stays.
pub(super) fn write<T>(
    connection: &mut Connection,
    work: impl FnOnce(&Transaction<'_>) -> Result<T, Fault>,
) -> Result<T, Fault> {
    next_row();
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // The first error decides: after a full disk the roll-back has already happened, and asking for it again only says so.
    let done = work(&transaction)?;
    transaction.commit()?;
    Ok(done)
}

/// The plan's line types that have a table in a file of a version.
pub(super) fn plan_tables_of(version: i64) -> impl Iterator<Item = &'static RecordSchema> {
    let from = |name| LATER_TABLES.iter().find(|(line, _)| *line == name).map_or(1, |(_, from)| *from);
    plan_tables().iter().copied().filter(move |table| version >= from(table.name))
}

/// Line types that came later than the first version: (line type, version).
const LATER_TABLES: [(&str, i64); 3] = [("history", 3), ("trial", 2), ("plot", 2)];

/// Fields that came later than the table of their line type: (line type, field, version).
const LATER_FIELDS: [(&str, &str, i64); 15] = [
    ("site", "no_temperature", 5),
    ("lot", "program_n_ppm", 5),
    ("lot", "program_bag", 5),
    ("lot", "program_from", 5),
    ("lot", "program_days", 5),
    ("lot", "program_clear", 5),
    ("trial", "drawn", 6),
    ("trial", "guard", 6),
    ("trial", "near_side", 6),
    ("trial", "far_side", 6),
    ("trial", "shared_feed", 6),
    ("trial", "ended_because", 6),
    ("lot", "next_release_g", 6),
    ("lot", "next_release_basis", 6),
    ("lot", "response_c", 7),
];

/// The fields of a line type that have a column in a file of a version.
pub(super) fn fields_of(table: &'static RecordSchema, version: i64) -> impl Iterator<Item = &'static Field> {
    let later =
        move |name| LATER_FIELDS.iter().any(|(line, of, from)| (*line, *of) == (table.name, name) && version < *from);
    table.fields.iter().filter(move |field| !later(field.name))
}

/// The file's version.
pub(super) fn version(connection: &Connection) -> Result<i64, Fault> {
    Ok(connection.query_row("PRAGMA user_version", [], |row| row.get(0))?)
}

/// True where there is nothing in the file yet.
pub(super) fn is_empty(connection: &Connection) -> Result<bool, Fault> {
    let objects: i64 = connection.query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))?;
    Ok(objects == 0)
}

/// Looks over every page, every row's constraints, every index, and every code that a row names.
pub(super) fn integrity_check(connection: &Connection) -> Result<(), Fault> {
    whole_file();
    let said: String = connection.query_row("PRAGMA integrity_check(1)", [], |row| row.get(0))?;
    if said != "ok" {
        return Err(Fault::Malformed(said));
    }
    let broken = connection.query_row("PRAGMA foreign_key_check", [], |row| {
        let (table, row, named): (String, Option<i64>, String) = (row.get(0)?, row.get(1)?, row.get(2)?);
        let row = row.map_or_else(String::new, |number| format!(" {number}"));
        Ok(format!("{table}{row} names what is not in {named}"))
    });
    let broken = broken.optional()?;
    next_row();
    broken.map_or(Ok(()), |said| Err(Fault::Malformed(said)))
}
