//! The season file: the only user of SQLite.
//!
//! One file is one season. Records are inserted and never changed: triggers in the file refuse it for every program. A save is one
//! transaction that is on the disk when [`Store::append`] returns. Views named after the checks make the file readable by any
//! SQLite client; `v2.sql` is the schema. A file of version 1 is brought to it when it is opened for writing.
//!
//! Not here, on purpose: rules across records (`season` judges before anything comes here), and removing or remaking a season
//! file, which the program never does.

mod append;
mod backup;
mod changes;
mod connection;
mod entries;
mod error;
mod guard;
mod identity;
mod known;
mod long;
mod made;
mod network_fs;
mod one_writer;
mod open;
mod plan;
mod row;
mod salvage;
mod schema;
mod season;
mod share;
mod taking;
#[cfg(test)]
mod tests;
mod v1;

pub use append::Saved;
pub use backup::Backup;
pub use entries::Slice;
pub use error::StoreError;
pub use identity::Gone;
pub use open::integrity_check;
pub use salvage::Salvaged;
pub use schema::{APPLICATION_ID, NEWEST, SCRIPTS};
pub use share::{Came, Heard, Mirror, Wrote};
pub use taking::{Outcome, Taking};

use crate::progress::{Step, Work};
use crate::record::{Entry, Line, Plan};
use guard::Seen;
use identity::{Held, Identity};
use one_writer::{OneWriter, Turn};
use rusqlite::Connection;
use rusqlite::config::DbConfig;
use std::cell::Cell;
use std::path::{Path, PathBuf};

/// How a save is made safe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Journaling {
    /// A write-ahead log, synced at every save.
    Wal,
    /// A journal cut to nothing after every save, synced as well: as safe, a little slower, and readers wait for writers.
    Truncate {
        /// Why there is no log.
        why: String,
    },
    /// Nothing is saved.
    ReadOnly,
}

impl Journaling {
    /// What the user should know of it; none in the usual case.
    pub fn notice(&self) -> Option<String> {
        match self {
            Self::Wal => None,
            Self::Truncate { why } => {
                Some(format!("saving without a write-ahead log: {why}; use it on one laptop at a time"))
            }
            Self::ReadOnly => Some("read only: nothing is saved".to_owned()),
        }
    }
}

/// An open season file.
#[derive(Debug)]
pub struct Store {
    connection: Connection,
    /// As it was named.
    path: PathBuf,
    /// The same as an absolute path, links followed.
    real: PathBuf,
    journaling: Journaling,
    /// The file's version.
    version: i64,
    /// Records of a newer program left out so far.
    left_out: Cell<usize>,
    /// What the file is known by; none where nothing is written to it.
    identity: Option<Identity>,
    /// What it held when it was last looked at.
    seen: Seen,
    /// Lines saved since it was opened.
    appended: Vec<Line>,
    /// What has become of it, if anything.
    gone: Option<Gone>,
    /// Which laptop this is, where that was said.
    seat: Option<share::Seat>,
    /// True of a connection beside the one of the screens: it writes the log into the file, so that no save does.
    beside: Option<identity::Beside>,
    /// The right to write on a network file system.
    writer: Option<OneWriter>,
    /// Held while it is read beside a connection of this process that writes.
    _turn: Option<Turn>,
    /// Dropped after the connection.
    held: Held,
}

impl Store {
    /// The file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// How its saves are made safe.
    pub const fn journaling(&self) -> &Journaling {
        &self.journaling
    }

    /// Looks over every page and every row.
    ///
    /// # Errors
    /// `Damaged` with the first thing found.
    pub fn check(&self) -> Result<(), StoreError> {
        let _work = Work::begin(Step::CheckFile, 0);
        schema::integrity_check(&self.connection).map_err(|fault| fault.of(&self.path))
    }

    /// The plan with every revision, and all entries by instant and id.
    ///
    /// # Errors
    /// When the file cannot be read or a row of it is no record.
    pub fn load(&self) -> Result<(Plan, Vec<Entry>), StoreError> {
        let plan = self.load_plan()?;
        let mut entries = self.load_entries(0, usize::MAX)?.entries;
        Entry::sort(&mut entries);
        Ok((plan, entries))
    }

    /// The plan with every revision.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn load_plan(&self) -> Result<Plan, StoreError> {
        let loaded = match self.version {
            ..1 => return Err(StoreError::Empty { path: self.path.clone() }),
            1 => v1::load_plan(&self.connection).map(|plan| (plan, 0)),
            _ => plan::load(&self.connection, self.version > NEWEST),
        };
        let (plan, left_out) = loaded.map_err(|fault| self.said(fault))?;
        // Lines of a newer program that other laptops sent lie in the log.
        self.left_out.set(self.left_out.get() + left_out + self.held()?);
        Ok(plan)
    }

    /// Entries written after the one numbered `after` (0: from the first), at most so many, in the order they were written: a
    /// slice to load while the screen is already up, or what another program wrote since.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn load_entries(&self, after: i64, most: usize) -> Result<Slice, StoreError> {
        let newer = self.version > NEWEST;
        let loaded = match self.version {
            ..2 => v1::load(&self.connection, after, most),
            _ => entries::load(&self.connection, after, most, newer),
        };
        let slice = loaded.map_err(|fault| self.said(fault))?;
        self.left_out.set(self.left_out.get() + slice.left_out);
        Ok(slice)
    }

    /// How many records of a newer program were left out so far, because this program does not understand them.
    pub const fn left_out(&self) -> usize {
        self.left_out.get()
    }

    /// Fails where the file is of a newer program: what this one does not understand in it is left out when it is read.
    ///
    /// # Errors
    /// `Newer`.
    pub fn understood(&self) -> Result<(), StoreError> {
        let newer = || StoreError::Newer { path: self.path.clone(), found: self.version, known: NEWEST };
        if self.version > NEWEST { Err(newer()) } else { Ok(()) }
    }

    /// What went wrong, in words; of a newer program's file first of all that it is one.
    fn said(&self, fault: error::Fault) -> StoreError {
        if self.version > NEWEST {
            return StoreError::Newer { path: self.path.clone(), found: self.version, known: NEWEST };
        }
        fault.of(&self.path)
    }

    /// Entries in the file, struck out or not.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn count(&self) -> Result<u64, StoreError> {
        entries::count(&self.connection).map_err(|fault| fault.of(&self.path))
    }

    /// Closes the file and leaves its log as it is: of a damaged file nothing is changed.
    ///
    /// # Errors
    /// When the system refuses.
    pub fn leave(self) -> Result<(), StoreError> {
        let Self { connection, path, held, .. } = self;
        let left = connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true);
        left.and_then(|_| connection.close().map_err(|(_, error)| error))
            .map_err(|e| error::Fault::Sql(e).of(&path))?;
        drop(held);
        Ok(())
    }

    /// Closes the file: what is in the log goes into the file itself, so that copying the one file is enough.
    ///
    /// # Errors
    /// When that fails; everything saved is still safe in the log beside the file. `Replaced` when the file by that name is not
    /// the one that was opened; nothing is then changed in it.
    pub fn close(mut self) -> Result<(), StoreError> {
        let whole = match self.check_file() {
            Err(StoreError::Busy { .. }) => Ok(()),
            checked => checked,
        };
        if let Some(gone) = self.gone {
            self.prepare_close(gone).map_err(|error| error::Fault::Sql(error).of(&self.path))?;
        }
        let Self { connection, path, journaling, gone, writer, beside, held, .. } = self;
        if journaling == Journaling::Wal && gone.is_none() && beside.is_none() {
            let _writing = held.writing();
            // Another reader keeps the log from being emptied; that is no fault, and the last to close does it.
            // Nor is a full disk: what was saved lies in the log.
            let emptied = connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()));
            match emptied.map_err(|error| error::Fault::Sql(error).of(&path)) {
                Ok(()) | Err(StoreError::Full { .. }) => {}
                Err(error) => return Err(error),
            }
        }
        connection.close().map_err(|(_, error)| error::Fault::Sql(error).of(&path))?;
        drop((beside, held, writer));
        whole
    }
}
