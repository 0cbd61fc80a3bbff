//! A second copy of the season: whole, checked, and never over another file.

use super::connection::{next_row, secure, whole_file};
use super::error::{Fault, StoreError};
use super::open::{connect, read_only, with_suffix};
use super::{Store, entries, long, row, schema, share};
use crate::files::{self, Purpose, Unfinished};
use crate::progress::{Step, Work};
use chrono::NaiveDate;
use rusqlite::{Connection, OpenFlags};
use std::fs::File;
use std::io;
use std::path::{Path, PathBuf};

/// A backup that was made and looked over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Backup {
    /// Where it is.
    pub path: PathBuf,
    /// Entries in it.
    pub entries: u64,
}

impl Store {
    /// Writes a backup. Copying the file alone, while the program runs, would leave behind what is still in the log; this does
    /// not. The file itself is looked over first: a copy is rebuilt row by row, and of a damaged one it would look sound. It is
    /// written under another name, synced, opened again and counted before it gets its name.
    ///
    /// # Errors
    /// `Exists` when something is there; `NoRoom` on a full disk; `Damaged` when this file is, or when what was written does not read
    /// back whole.
    pub fn backup(&self, to: &Path) -> Result<Backup, StoreError> {
        let _whole = Work::whole();
        // A copy of rows that do not read is no backup, however sound its pages are.
        self.load()?;
        copy(&self.connection, &self.path, to)
    }

    /// The latest day that has an entry; `None` where there are none.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn last_day(&self) -> Result<Option<NaiveDate>, StoreError> {
        let read = || -> Result<Option<NaiveDate>, Fault> {
            let last: Option<i64> = self.connection.query_row("SELECT max(day) FROM entry", [], |row| row.get(0))?;
            last.map(row::day).transpose()
        };
        read().map_err(|fault| fault.of(&self.path))
    }
}

/// Copies a file of an older version beside it, under a name that is free: `season.v1.db`.
pub(super) fn beside(connection: &Connection, path: &Path, version: i64) -> Result<PathBuf, StoreError> {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let mut number = 1_u32;
    loop {
        let again = if number > 1 { format!("-{number}") } else { String::new() };
        let mut name = format!("{stem}.v{version}{again}");
        if let Some(extension) = path.extension() {
            name.push_str(&format!(".{}", extension.to_string_lossy()));
        }
        match copy(connection, path, &path.with_file_name(name)) {
            Err(StoreError::Exists { .. }) if number < 1000 => number += 1,
            made => return made.map(|backup| backup.path),
        }
    }
}

fn copy(connection: &Connection, from: &Path, to: &Path) -> Result<Backup, StoreError> {
    let failed = |error: io::Error| StoreError::making(to, "the backup cannot be written", error);
    if let Some(kind) = files::other_kind(to).filter(|kind| *kind != "a folder") {
        let said = format!("it is {kind}, not an ordinary file; give another name");
        return Err(failed(io::Error::new(io::ErrorKind::InvalidInput, said)));
    }
    // A log beside the name, left by another file, would be read as a part of the copy.
    for taken in ["", "-wal", "-shm", "-journal"].map(|suffix| with_suffix(to, suffix)) {
        if taken.symlink_metadata().is_ok() {
            return Err(StoreError::Exists { path: taken });
        }
    }
    let work = Work::begin(Step::CheckFile, 0);
    schema::integrity_check(connection).map_err(|fault| fault.of(from))?;
    drop(work);
    let before = entries::count(connection).map_err(|fault| fault.of(from))?;
    let part = Unfinished::beside(to, Purpose::Backup).map_err(failed)?;
    let entries = copy_to(connection, before, &part).map_err(|error| error.instead_of(to))?;
    // Opened for writing: some systems sync no other.
    let file = File::options().write(true).open(&part).map_err(failed)?;
    file.sync_all().map_err(failed)?;
    part.publish(to).map_err(failed)?;
    Ok(Backup { path: to.to_owned(), entries })
}

/// Another writer may add some to the entries `before` in between; fewer there can never be.
fn copy_to(connection: &Connection, before: u64, part: &Path) -> Result<u64, StoreError> {
    let of = |fault: Fault| fault.of(part);
    let failed = |error: io::Error| StoreError::making(part, "the backup cannot be written", error);
    // Absolute: SQLite takes some names for its own.
    let name = long::spelled_out(&std::path::absolute(part).map_err(failed)?);
    let Some(name) = name.to_str() else {
        let why = io::Error::new(io::ErrorKind::InvalidFilename, "the name of the folder is not UTF-8 text");
        return Err(failed(why));
    };
    whole_file();
    let work = Work::begin(Step::CopyFile, 0);
    vacuum_into(connection, name).map_err(|error| of(Fault::Sql(error)))?;
    drop(work);
    next_row();
    no_own_stream(Path::new(name)).map_err(of)?;
    let copy = read_only(part)?;
    let work = Work::begin(Step::CheckFile, 0);
    schema::integrity_check(&copy).map_err(of)?;
    drop(work);
    let after = entries::count(&copy).map_err(of)?;
    if after < before {
        return Err(of(Fault::Malformed(format!("{after} of {before} entries"))));
    }
    Ok(after)
}

/// Takes care that the copy does not go on in the stream of this laptop: what both wrote from here on would have one number.
fn no_own_stream(part: &Path) -> Result<(), Fault> {
    let mut copy = connect(part, OpenFlags::SQLITE_OPEN_READ_WRITE, None)?;
    secure(&mut copy)?;
    if share::goes_on(&copy)? {
        schema::write(&mut copy, |transaction| share::end_own(transaction))?;
    }
    copy.close().map_err(|(_, error)| Fault::Sql(error))
}

/// Writes the copy. A connection that writes nothing has to be let write this other file.
fn vacuum_into(connection: &Connection, name: &str) -> Result<(), rusqlite::Error> {
    let reads_only: bool = connection.pragma_query_value(None, "query_only", |row| row.get(0))?;
    connection.pragma_update(None, "query_only", false)?;
    let copied = connection.execute("VACUUM INTO ?1", [name]);
    connection.pragma_update(None, "query_only", reads_only)?;
    copied.map(drop)
}
