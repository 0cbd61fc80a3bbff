//! Whether another program wrote into the open file.

use super::Store;
use super::connection::{next_row, without_waiting};
use super::error::StoreError;

impl Store {
    /// The number of the file's present content (`PRAGMA data_version`). It becomes another one when another connection has
    /// written, not by what this one writes. Takes some microseconds, and never waits for a writer.
    ///
    /// # Errors
    /// `Busy` while another program keeps the file to itself; any other as [`Store::load`].
    pub fn data_version(&self) -> Result<i64, StoreError> {
        next_row();
        let ask = || self.connection.pragma_query_value(None, "data_version", |row| row.get(0));
        without_waiting(ask).map_err(|error: rusqlite::Error| self.said(super::error::Fault::Sql(error)))
    }
}
