//! What can still be read of a damaged file, row by row.

use super::connection::next_row;
use super::error::Fault;
use super::schema::plan_tables_of;
use super::{Store, StoreError, entries, plan, share};
use crate::record::schema::RecordSchema;
use crate::record::{Entry, Plan};
use rusqlite::{Connection, Row};
use uuid::Uuid;

/// Rows tried where the number of the last one cannot be read.
const UNKNOWN: i64 = 100_000;

/// What could be read of a damaged file. Whether a value is the one that was written cannot be known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Salvaged {
    /// The id of the season.
    pub season: Option<Uuid>,
    /// The lines of the plan.
    pub plan: Plan,
    /// The entries with the numbers they were written under.
    pub entries: Vec<(i64, Entry)>,
    /// Entries that were written, as far as that can be read.
    pub written: usize,
}

impl Salvaged {
    /// `1812 of 1875 entries could be read`.
    pub fn counted(&self) -> String {
        format!("{} of {} entries could be read", self.entries.len(), self.written)
    }
}

impl Store {
    /// Reads all that can be read, and passes over the rest.
    ///
    /// # Errors
    /// When the file cannot be read at all, and of a file of version 1 when a row is no record.
    pub fn salvage(&self) -> Result<Salvaged, StoreError> {
        if self.version < 2 {
            let (plan, slice) = (self.load_plan()?, self.load_entries(0, usize::MAX)?);
            let numbered: Vec<_> = (1..).zip(slice.entries).collect();
            let written = numbered.len();
            return Ok(Salvaged { season: self.season_id()?, plan, entries: numbered, written });
        }
        let connection = &self.connection;
        // Without this a line only seems to have replaced nothing.
        let replaces = plan::replaces(connection).unwrap_or_default();
        let least = share::least_of(connection).unwrap_or_default();
        self.left_out.set(self.held().unwrap_or(0));
        let mut salvaged = Salvaged { season: self.season_id().ok().flatten(), ..Salvaged::default() };
        for table in plan_tables_of(self.version) {
            let sql = plan_sql(table, self.version);
            scan(connection, &sql, last(connection, &format!("{}_line", table.name)), |row, _| {
                drop(salvaged.plan.keep(share::plan_that_counts(&least, plan::read(row, table, &replaces)?)));
                Ok(())
            });
        }
        let sql = format!("SELECT {} FROM entry WHERE seq > ?1 ORDER BY seq", entries::COLUMNS);
        let written = last(connection, "entry");
        let reached = scan(connection, &sql, written, |row, seq| {
            salvaged.entries.push((seq, share::entry_that_counts(&least, entries::read(row, seq)?)));
            Ok(())
        });
        let written = usize::try_from(written.unwrap_or(reached)).unwrap_or_default();
        salvaged.written = written.max(salvaged.entries.len());
        Ok(salvaged)
    }
}

fn plan_sql(table: &'static RecordSchema, version: i64) -> String {
    let (columns, revision) = (plan::columns(table, version), plan::REVISION);
    format!("SELECT rowid AS seq, {columns}, {revision} FROM {}_line WHERE rowid > ?1 ORDER BY rowid", table.name)
}

/// The number of the last row of a table: from the table itself, else from one of its indexes.
fn last(connection: &Connection, table: &str) -> Option<i64> {
    let by_index = if table == "entry" { "INDEXED BY entry_day" } else { "" };
    [String::new(), by_index.to_owned()].iter().find_map(|index| {
        let sql = format!("SELECT max(n) FROM (SELECT rowid AS n FROM {table} {index})");
        connection.query_row(&sql, [], |row| row.get::<_, Option<i64>>(0)).ok().map(Option::unwrap_or_default)
    })
}

/// Reads the rows of a statement that begins after a row number (`?1`) and names it `seq`. Where it fails, it goes on after the
/// next number. Gives the last number that was read.
fn scan(
    connection: &Connection,
    sql: &str,
    last: Option<i64>,
    mut take: impl FnMut(&Row<'_>, i64) -> Result<(), Fault>,
) -> i64 {
    let (mut after, mut reached) = (0_i64, 0_i64);
    // The last number may be a damaged one too, far beyond all rows: then it ends after so many numbers in vain.
    while after < last.unwrap_or(i64::MAX) && after.saturating_sub(reached) <= UNKNOWN {
        let mut pass = || -> Result<(), Fault> {
            let mut statement = connection.prepare_cached(sql)?;
            let mut rows = statement.query([after])?;
            next_row();
            while let Some(row) = rows.next()? {
                next_row();
                let number: i64 = row.get("seq")?;
                // Pages that lead back to one another would be read without end.
                if number <= after {
                    return Err(Fault::Malformed(format!("row {number} comes after {after}")));
                }
                (after, reached) = (number, number);
                // A row that is no record is passed over.
                if let Err(fault) = take(row, number) {
                    tracing::warn!(number, ?fault, "a row does not read");
                }
            }
            Ok(())
        };
        if pass().is_ok() {
            break;
        }
        after = after.saturating_add(1);
    }
    reached
}
