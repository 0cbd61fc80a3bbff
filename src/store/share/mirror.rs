//! A mirror: a season file that only takes what lies at a carrier. It has no stream of its own, and nothing else is written to it.

use super::SHARED_SINCE;
use crate::exchange::{Branch, BranchId, Chain, Linked, Replica, Stream, Taken};
use crate::store::error::Fault;
use crate::store::{Store, StoreError, row};
use rusqlite::Connection;
use std::path::Path;
use uuid::Uuid;

/// A season file that is a mirror, open to take lines. The screens and `import` open it for reading only.
#[derive(Debug)]
pub struct Mirror(Store);

impl Mirror {
    /// Begins a mirror of a season, still without lines.
    ///
    /// # Errors
    /// As [`Store::create`].
    pub fn create(path: &Path, season: Uuid) -> Result<Self, StoreError> {
        let fill = |store: &mut Store| {
            store.append_of(&[], Some(season))?;
            store.save(|transaction| row::one(transaction.execute("INSERT INTO mirror (one) VALUES (1)", [])?))
        };
        let (store, ()) = Store::create_by(path, fill, open)?;
        Ok(Self(store))
    }

    /// Opens a mirror.
    ///
    /// # Errors
    /// As [`Store::open`]; `NoMirror` where the file is a season file of its own.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        open(path).map(Self)
    }

    /// The season.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn season_id(&self) -> Result<Option<Uuid>, StoreError> {
        self.0.season_id()
    }

    /// Closes the file.
    ///
    /// # Errors
    /// As [`Store::close`].
    pub fn close(self) -> Result<(), StoreError> {
        self.0.close()
    }
}

fn open(path: &Path) -> Result<Store, StoreError> {
    Store::open_as(path, None, true)
}

/// True where a file is a mirror.
pub(in crate::store) fn is_mirror(connection: &Connection, version: i64) -> Result<bool, Fault> {
    if version < SHARED_SINCE {
        return Ok(false);
    }
    Ok(connection.query_row("SELECT EXISTS (SELECT 1 FROM mirror)", [], |row| row.get(0))?)
}

impl Replica for Mirror {
    type Error = StoreError;

    /// It has none.
    fn own(&mut self) -> Result<(), StoreError> {
        Ok(())
    }

    fn branches(&mut self) -> Result<Vec<Branch>, StoreError> {
        self.0.branches()
    }

    fn chain_at(&mut self, branch: BranchId, n: u64) -> Result<Option<Chain>, StoreError> {
        self.0.chain_at(branch, n)
    }

    fn begin(&mut self, stream: Stream, laptop: Option<&str>) -> Result<BranchId, StoreError> {
        self.0.begin(stream, laptop)
    }

    fn take(&mut self, branch: BranchId, after: u64, lines: &[Linked]) -> Result<Taken, StoreError> {
        self.0.take(branch, after, lines)
    }

    fn read(&mut self, branch: BranchId, after: u64, most: usize) -> Result<Vec<Linked>, StoreError> {
        self.0.read(branch, after, most)
    }

    /// What another branch has is kept here; a laptop that writes carries it on.
    fn write_again(&mut self, _branch: BranchId) -> Result<usize, StoreError> {
        Ok(0)
    }
}
