//! The versions of the season file. Each is a script, released once and frozen; `user_version` says how many have run.

use super::error::{Fault, StoreError};
use rusqlite::{Connection, Transaction, TransactionBehavior};
use std::path::Path;

/// `BWLK`: marks a SQLite file as a Benchwalk season.
pub const APPLICATION_ID: u32 = 0x4257_4C4B;

/// Every version's script, oldest first. A test holds the hash of each.
pub const SCRIPTS: [&str; 1] = [include_str!("v1.sql")];

/// The newest file version this program knows: one for each script, as a test holds.
pub const NEWEST: i64 = 1;

/// Brings a file to the newest version, one transaction a script. A file with records is looked over first.
pub(super) fn migrate(connection: &mut Connection, path: &Path) -> Result<(), StoreError> {
    let from = version(connection).map_err(|fault| fault.of(path))?;
    if from > 0 && from < NEWEST {
        quick_check(connection).map_err(|fault| fault.of(path))?;
    }
    let from = usize::try_from(from).unwrap_or(0);
    for (script, number) in SCRIPTS.iter().zip(1_i64..).skip(from) {
        write(connection, |transaction| {
            transaction.execute_batch(script)?;
            transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
            Ok(transaction.pragma_update(None, "user_version", number)?)
        })
        .map_err(|fault| fault.of(path))?;
        tracing::info!(version = number, path = %path.display(), "season file brought to version");
    }
    Ok(())
}

/// One writing transaction. It takes the write lock at once: a transaction that reads first and writes later can be refused in
/// between without waiting. On any error nothing of it stays.
pub(super) fn write<T>(
    connection: &mut Connection,
    work: impl FnOnce(&Transaction<'_>) -> Result<T, Fault>,
) -> Result<T, Fault> {
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // The first error decides: after a full disk the roll-back has already happened, and asking for it again only says so.
    let done = work(&transaction)?;
    transaction.commit()?;
    Ok(done)
}

/// The file's version.
pub(super) fn version(connection: &Connection) -> Result<i64, Fault> {
    Ok(connection.query_row("PRAGMA user_version", [], |row| row.get(0))?)
}

/// Looks over every page and every row's constraints.
pub(super) fn quick_check(connection: &Connection) -> Result<(), Fault> {
    let said: String = connection.query_row("PRAGMA quick_check(1)", [], |row| row.get(0))?;
    if said == "ok" { Ok(()) } else { Err(Fault::Odd(said)) }
}
