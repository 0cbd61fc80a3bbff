//! Rows of the log: the lines of each stream, numbered and chained.

use crate::exchange::{Chain, Linked};
use crate::record::{Line, codec};
use crate::store::connection::next_row;
use crate::store::error::Fault;
use crate::store::known::Known;
use crate::store::{entries, row};
use rusqlite::{Connection, OptionalExtension, Row};

/// What a row counts for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum State {
    /// It counts.
    Counts = 0,
    /// It is not understood here.
    Held = 1,
    /// Its id is known with other content.
    Other = 2,
}

/// The chain of a cell.
fn chain(bytes: &[u8]) -> Result<Chain, Fault> {
    Chain::from_bytes(bytes).ok_or_else(|| Fault::Malformed(format!("a chain of {} bytes", bytes.len())))
}

/// A number as the exchange counts.
pub(super) fn count(n: i64) -> u64 {
    n.unsigned_abs()
}

/// A number as the file keeps it.
pub(super) fn number(n: u64) -> i64 {
    i64::try_from(n).unwrap_or(i64::MAX)
}

/// The number of a branch's last line, and the chain there.
pub(super) fn head(connection: &Connection, branch: i64) -> Result<(i64, Chain), Fault> {
    next_row();
    let sql = "SELECT n, chain FROM log WHERE stream = ?1 ORDER BY n DESC LIMIT 1";
    let read = |row: &Row<'_>| Ok((row.get::<_, i64>(0)?, row.get::<_, Vec<u8>>(1)?));
    match connection.prepare_cached(sql)?.query_row([branch], read).optional()? {
        None => Ok((0, Chain::START)),
        Some((last, bytes)) => Ok((last, chain(&bytes)?)),
    }
}

/// The chain at a line; `None` where it is not here.
pub(super) fn chain_at(connection: &Connection, branch: i64, n: i64) -> Result<Option<Chain>, Fault> {
    if n == 0 {
        return Ok(Some(Chain::START));
    }
    next_row();
    let sql = "SELECT chain FROM log WHERE stream = ?1 AND n = ?2";
    let bytes: Option<Vec<u8>> = connection.prepare_cached(sql)?.query_row((branch, n), |row| row.get(0)).optional()?;
    bytes.map(|bytes| chain(&bytes)).transpose()
}

/// A row of the log as it is read: its number, its chain, its text, and the entry it names.
pub(super) struct Logged {
    pub(super) n: i64,
    pub(super) linked: Linked,
    pub(super) entry: Option<i64>,
}

/// Reads at most so many rows after a number. Each must fit the chain before it: what is sent on is what was written.
pub(super) fn read(connection: &Connection, branch: i64, after: i64, most: usize) -> Result<Vec<Logged>, Fault> {
    let Some(mut before) = chain_at(connection, branch, after)? else { return Ok(Vec::new()) };
    let sql = format!(
        "SELECT l.n, l.chain, l.entry, l.line, {} FROM log AS l LEFT JOIN entry AS e ON e.seq = l.entry
         WHERE l.stream = ?1 AND l.n > ?2 ORDER BY l.n LIMIT ?3",
        columns_of("e")
    );
    let mut statement = connection.prepare_cached(&sql)?;
    let mut rows = statement.query((branch, after, i64::try_from(most).unwrap_or(i64::MAX)))?;
    let (mut lines, mut known) = (Vec::new(), Known::default());
    let mut last = after;
    next_row();
    while let Some(row) = rows.next()? {
        next_row();
        let n: i64 = row.get(0)?;
        if n != last.saturating_add(1) {
            return Err(Fault::Malformed(format!("line {n} of stream {branch} comes after {last}")));
        }
        let entry: Option<i64> = row.get(2)?;
        let text = match entry {
            // Its columns follow the four of the log.
            Some(seq) => codec::line_text(&Line::Entry(entries::read_from(row, 4, seq, &mut known)?)),
            None => row.get(3)?,
        };
        let kept = chain(&row.get::<_, Vec<u8>>(1)?)?;
        before = before.link(&text);
        if kept != before {
            return Err(Fault::Malformed(format!("line {n} of stream {branch} is not what was written")));
        }
        lines.push(Logged { n, linked: Linked { text, chain: kept }, entry });
        last = n;
    }
    Ok(lines)
}

/// The columns of an entry under the name a statement gives its table.
fn columns_of(table: &str) -> String {
    entries::COLUMNS.split(", ").map(|column| format!("{table}.{column}")).collect::<Vec<_>>().join(", ")
}

/// Adds lines at the end of a branch.
pub(super) struct Writer<'a> {
    connection: &'a Connection,
    pub(super) branch: i64,
    pub(super) last: i64,
    chain: Chain,
}

impl<'a> Writer<'a> {
    pub(super) fn at(connection: &'a Connection, branch: i64) -> Result<Self, Fault> {
        let (last, chain) = head(connection, branch)?;
        Ok(Self { connection, branch, last, chain })
    }

    /// A line that stands in the table of entries under this number.
    pub(super) fn entry(&mut self, text: &str, seq: i64) -> Result<(), Fault> {
        self.row(text, Some(seq), State::Counts)
    }

    /// A line that is kept as text.
    pub(super) fn text(&mut self, text: &str, state: State) -> Result<(), Fault> {
        self.row(text, None, state)
    }

    fn row(&mut self, text: &str, entry: Option<i64>, state: State) -> Result<(), Fault> {
        let (n, chain) = (self.last.saturating_add(1), self.chain.link(text));
        let sql = "INSERT INTO log (stream, n, chain, entry, line, state) VALUES (?1, ?2, ?3, ?4, ?5, ?6)";
        let line = entry.is_none().then_some(text);
        let cells = (self.branch, n, chain.as_bytes(), entry, line, state as i64);
        row::one(self.connection.prepare_cached(sql)?.execute(cells)?)?;
        (self.last, self.chain) = (n, chain);
        Ok(())
    }

    /// Marks the last line as one that another stream had brought before.
    pub(super) fn mark_again(&self) -> Result<(), Fault> {
        let sql = "INSERT INTO log_again (stream, n) VALUES (?1, ?2)";
        row::one(self.connection.prepare_cached(sql)?.execute((self.branch, self.last))?)
    }
}
