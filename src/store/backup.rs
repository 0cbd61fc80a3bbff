//! A second copy of the season: whole, checked, and never over another file.

use super::error::{Fault, StoreError};
use super::open::{new_beside, publish, read_only};
use super::{Store, entries, schema};
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
    /// not. It is written under another name, synced, opened again and counted before it gets its name.
    ///
    /// # Errors
    /// `Exists` when something is there; `Damaged` when what was written does not read back whole.
    pub fn backup(&self, to: &Path) -> Result<Backup, StoreError> {
        let failed = |error: io::Error| match error.kind() {
            io::ErrorKind::AlreadyExists => StoreError::Exists { path: to.to_owned() },
            _ => StoreError::File { path: to.to_owned(), doing: "the backup cannot be written", error },
        };
        if to.symlink_metadata().is_ok() {
            return Err(StoreError::Exists { path: to.to_owned() });
        }
        let part = new_beside(to, "part").map_err(failed)?;
        let entries = self.copy_to(&part)?;
        // Opened for writing: some systems sync no other.
        let file = File::options().write(true).open(&part).map_err(failed)?;
        file.sync_all().map_err(failed)?;
        publish(part, to).map_err(failed)?;
        Ok(Backup { path: to.to_owned(), entries })
    }

    fn copy_to(&self, part: &Path) -> Result<u64, StoreError> {
        // Another writer may add some in between; fewer there can never be.
        let before = self.count()?;
        let name = part.to_string_lossy();
        self.connection.execute("VACUUM INTO ?1", [&name]).map_err(|error| Fault::Sql(error).of(part))?;
        let copy = read_only(part)?;
        let of = |fault: Fault| fault.of(part);
        schema::quick_check(&copy).map_err(of)?;
        let after = entries::count(&copy).map_err(of)?;
        if after < before {
            return Err(of(Fault::Odd(format!("{after} of {before} entries"))));
        }
        Ok(after)
    }
}
