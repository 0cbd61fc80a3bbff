//! What every connection is set to before anything of a file is read: nothing a file says is trusted.

use crate::progress;
use rusqlite::config::DbConfig;
use rusqlite::limits::Limit;
use rusqlite::{Connection, Error};
use std::cell::Cell;
use std::time::{Duration, Instant};

/// How long a save waits for another writer. Longer would freeze the screen; the entry stays pending and is tried again.
pub(super) const BUSY_WAIT: Duration = Duration::from_millis(250);

/// The longest row, in bytes. The longest that this program writes has some tens of thousands.
const LONGEST_ROW: i32 = 1 << 20;

/// Steps of the database's machine between two looks at the budget.
const STEPS: i32 = 10_000;
/// Looks that a statement may take without giving a row: fifty million steps, some seconds.
const SHORT: u32 = 5_000;
/// The same of what reads the whole file: a check, a copy.
const LONG: u32 = 100 * SHORT;

thread_local! {
    /// Looks left to the statement that runs on this thread.
    static LEFT: Cell<u32> = const { Cell::new(SHORT) };
}

/// Statements kept prepared: those of a save.
const STATEMENTS: usize = 64;

/// How often a waiting save looks whether it may go: it waits for a step of an exchange, which takes some milliseconds.
const LOOK: Duration = Duration::from_millis(1);

thread_local! {
    /// True while this thread waits for another writer at all.
    static WAITS: Cell<bool> = const { Cell::new(true) };
}

/// Waits for another writer, up to [`BUSY_WAIT`]. The database's own way waits longer and longer between two looks.
#[expect(clippy::disallowed_methods, reason = "a lock of another connection gives no event when it goes")]
fn wait() -> impl FnMut(i32) -> bool + Send + 'static {
    let mut since = Instant::now();
    move |tries| {
        if tries == 0 {
            since = Instant::now();
        }
        let goes_on = WAITS.get() && since.elapsed() < BUSY_WAIT;
        if goes_on {
            std::thread::sleep(LOOK);
        }
        goes_on
    }
}

/// Asks without waiting for another writer.
pub(super) fn without_waiting<T>(ask: impl FnOnce() -> T) -> T {
    WAITS.set(false);
    let answer = ask();
    WAITS.set(true);
    answer
}

/// Begins the budget of a statement, or of its next row.
pub(super) fn next_row() {
    LEFT.set(SHORT);
}

/// Begins the budget of a statement that reads the whole file.
pub(super) fn whole_file() {
    LEFT.set(LONG);
}

/// Sets up a connection. Views are not read by this program, and extensions are not in it.
pub(super) fn secure(connection: &mut Connection) -> Result<(), Error> {
    connection.busy_handler(Some(wait()))?;
    connection.set_prepared_statement_cache_capacity(STATEMENTS);
    for (what, on) in [
        (DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true),
        (DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false),
        (DbConfig::SQLITE_DBCONFIG_ENABLE_VIEW, false),
        (DbConfig::SQLITE_DBCONFIG_ENABLE_FTS3_TOKENIZER, false),
    ] {
        connection.set_db_config(what, on)?;
    }
    connection.set_limit(Limit::SQLITE_LIMIT_LENGTH, LONGEST_ROW)?;
    connection.pragma_update(None, "cell_size_check", true)?;
    connection.pragma_update_and_check(None, "mmap_size", 0, |_| Ok(())).or_else(|error| match error {
        // Answers nothing where the system has no such maps.
        Error::QueryReturnedNoRows => Ok(()),
        error => Err(error),
    })?;
    next_row();
    connection.progress_handler(STEPS, Some(|| LEFT.replace(LEFT.get().saturating_sub(1)) == 0 || progress::tick()))
}
