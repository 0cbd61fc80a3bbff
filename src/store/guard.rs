//! The guard of an open file: every save goes into the file that was opened, or is refused.

use super::connection::next_row;
use super::error::{Fault, StoreError};
use super::identity::{Found, Gone};
use super::open::{alone, read_only};
use super::{Journaling, Store, schema, season};
use crate::record::Line;
use crate::record::schema::plan_table;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, OptionalExtension, Row, Transaction};
use uuid::Uuid;

/// A log with more than this to be written into the file itself is written there after a save, in pages: 4 MB.
const LONG_LOG: i64 = 1_000;

/// The same where a connection beside this one writes it: only where that one does not get to it.
const VERY_LONG_LOG: i64 = 16 * LONG_LOG;

/// What the file held when it was last looked at: it can only grow.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Seen {
    season: Option<Uuid>,
    /// Number and id of the last entry.
    last: Option<(i64, Vec<u8>)>,
    /// Lines of the plan.
    plan: i64,
}

impl Seen {
    /// What the file of this connection holds.
    pub(super) fn of(connection: &Connection) -> Result<Self, Fault> {
        let sql = "SELECT seq, id FROM entry ORDER BY seq DESC LIMIT 1";
        let last = connection.prepare_cached(sql)?.query_row([], |row| Ok((row.get(0)?, row.get(1)?))).optional()?;
        let mut plan = 0;
        for table in schema::plan_tables_of(schema::version(connection)?) {
            let sql = format!("SELECT count(*) FROM {}_line", table.name);
            plan += connection.prepare_cached(&sql)?.query_row([], |row| row.get::<_, i64>(0))?;
        }
        Ok(Self { season: season::read(connection)?, last, plan })
    }

    /// True when all of this is in the file of the connection.
    fn is_in(&self, connection: &Connection) -> Result<bool, Fault> {
        let now = Self::of(connection)?;
        if now.plan < self.plan || (self.season.is_some() && now.season != self.season) {
            return Ok(false);
        }
        let Some((seq, id)) = &self.last else { return Ok(true) };
        let sql = "SELECT id FROM entry WHERE seq = ?1";
        let there: Option<Vec<u8>> = connection.query_row(sql, [seq], |row| row.get(0)).optional()?;
        Ok(there.as_ref() == Some(id))
    }
}

impl Store {
    /// Lines saved by [`Store::append`] since the file was opened that the file of this name does not hold now, because it was
    /// removed, replaced or written over. None while it is the file that was opened.
    pub fn lost(&self) -> Vec<Line> {
        let Some(identity) = &self.identity else { return Vec::new() };
        if self.gone.is_none() && identity.look() == Found::Same {
            return Vec::new();
        }
        // The log that was opened does not count: it goes with the file that was opened.
        let there = if identity.log_is_ours() || identity.log_length().unwrap_or(0) == 0 {
            alone(&self.real)
        } else {
            read_only(&self.real)
        };
        let Ok(there) = there else { return self.appended.clone() };
        self.appended.iter().filter(|line| !matches!(holds(&there, line), Ok(true))).cloned().collect()
    }

    /// Refuses when the file is no longer the one that was opened; to be asked before and after every save.
    pub(super) fn check_file(&mut self) -> Result<(), StoreError> {
        let Some(identity) = &self.identity else { return Ok(()) };
        let gone = match identity.look() {
            Found::Same => None,
            Found::Touched => self.look_deeper()?,
            Found::Gone(gone) => Some(gone),
        };
        self.gone = gone;
        match gone {
            None => Ok(()),
            Some(what) => {
                tracing::error!(?what, path = %self.path.display(), "not the season file that was opened");
                Err(StoreError::Replaced { path: self.path.clone(), what })
            }
        }
    }

    /// Another program wrote to the file. A save of another Benchwalk leaves all there that was there before.
    fn look_deeper(&mut self) -> Result<Option<Gone>, StoreError> {
        let overwritten = || -> Result<bool, StoreError> {
            let there = match read_only(&self.real) {
                Err(error @ StoreError::Busy { .. }) => return Err(error),
                Err(_) => return Ok(true),
                Ok(there) => there,
            };
            let whole = || -> Result<bool, Fault> {
                schema::integrity_check(&there)?;
                if !self.seen.is_in(&there)? {
                    return Ok(false);
                }
                for line in &self.appended {
                    if !holds(&there, line)? {
                        return Ok(false);
                    }
                }
                Ok(true)
            };
            match whole().map_err(|fault| fault.of(&self.path)) {
                Err(error @ StoreError::Busy { .. }) => Err(error),
                found => Ok(!matches!(found, Ok(true))),
            }
        };
        if overwritten()? {
            return Ok(Some(Gone::Overwritten));
        }
        self.accept();
        Ok(None)
    }

    /// One writing transaction on the file that was opened.
    ///
    /// # Errors
    /// As [`Store::append`]; on any nothing of it stays.
    pub(super) fn save<T>(&mut self, work: impl FnOnce(&Transaction<'_>) -> Result<T, Fault>) -> Result<T, StoreError> {
        self.check_file()?;
        let _turn = match &self.writer {
            Some(writer) => {
                writer.renew(&self.real)?;
                writer.turn()
            }
            None => None,
        };
        // Without a log the save itself changes the file.
        let writing = (self.journaling != Journaling::Wal).then(|| self.held.writing());
        let done = schema::write(&mut self.connection, work).map_err(|fault| fault.of(&self.path))?;
        drop(writing);
        self.saved()?;
        Ok(done)
    }

    /// After a save: the file must still be the one that was opened, and what it holds now is known.
    pub(super) fn saved(&mut self) -> Result<(), StoreError> {
        if !matches!(self.journaling, Journaling::Wal) {
            // The save itself changed the file.
            self.accept();
        }
        self.check_file()?;
        self.seen = Seen::of(&self.connection).map_err(|fault| fault.of(&self.path))?;
        self.tidy();
        Ok(())
    }

    /// Writes a long log into the file itself. That may take long, and does not keep others from saving: a connection beside that of
    /// the screens does it on its own thread.
    pub(super) fn tidy(&mut self) {
        let Some(identity) = &self.identity else { return };
        if self.journaling != Journaling::Wal {
            return;
        }
        let most = if self.beside.is_none() && self.held.has_beside() { VERY_LONG_LOG } else { LONG_LOG };
        let pages = |row: &Row<'_>| Ok(row.get::<_, i64>(1)?.saturating_sub(row.get(2)?));
        let to_write = self.connection.query_row("PRAGMA wal_checkpoint(NOOP)", [], pages);
        // What another program wrote into the file is looked over first, before the next save.
        if to_write.is_ok_and(|pages| pages < most) || identity.look() != Found::Same {
            return;
        }
        let writing = self.held.writing();
        // What is in the log is safe there; where it cannot be written into the file now, it is tried after the next save.
        let done = self.connection.query_row("PRAGMA wal_checkpoint(PASSIVE)", [], |_| Ok(()));
        if let Err(error) = done {
            tracing::warn!(%error, "the log was not written into the file");
        }
        drop(writing);
        self.accept();
    }

    fn accept(&mut self) {
        if let Some(identity) = &mut self.identity {
            identity.accept();
        }
    }

    /// Makes closing do no harm to a file that is not the one that was opened. The log that was opened is written into the file
    /// that was opened, wherever that is now, and removed, so that it is not taken for the log of another file: unless another
    /// program has that file open, or the log by that name is not this one.
    pub(super) fn prepare_close(&self, gone: Gone) -> Result<(), rusqlite::Error> {
        let Some(identity) = &self.identity else { return Ok(()) };
        let harmless = gone != Gone::Overwritten && (identity.log_is_ours() || identity.log_length().is_none());
        if harmless && gone == Gone::LogRemoved {
            return Ok(());
        }
        if harmless {
            // Takes the log in under an exclusive lock. Then it fails at writing the mode into a file that was moved.
            let done = self.connection.pragma_update_and_check(None, "journal_mode", "DELETE", |_| Ok(()));
            tracing::info!(?done, "the log was written into the file that was opened");
        }
        self.connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true)?;
        Ok(())
    }
}

/// True when the line is in the file.
pub(super) fn holds(connection: &Connection, line: &Line) -> Result<bool, Fault> {
    next_row();
    let table = match plan_table(line.type_name()) {
        Some(table) => format!("{}_line", table.name),
        None => "entry".to_owned(),
    };
    let sql = format!("SELECT EXISTS (SELECT 1 FROM {table} WHERE id = ?1)");
    Ok(connection.prepare_cached(&sql)?.query_row([line.id().as_bytes().as_slice()], |row| row.get(0))?)
}
