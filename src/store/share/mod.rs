//! A season on many laptops: the log of streams, and which of them this laptop writes.
//!
//! A season is shared when its file has an own stream. From then on every save writes the line and its row of the log in one
//! transaction. Which stream a laptop writes depends on its seat: a file that was copied to another laptop, or put back from a
//! backup, begins a new stream with its first line.

mod again;
mod content;
mod held;
mod known;
mod log;
mod mirror;
mod replica;
mod take;

pub use known::{Came, Heard, Wrote};
pub use mirror::Mirror;

pub(super) use content::{entry_that_counts, is_other, least_of, plan_that_counts};
pub(super) use held::{is_to_try, understand};
pub(super) use mirror::is_mirror;

use super::connection::next_row;
use super::error::{Fault, StoreError};
use super::known::Known;
use super::{Store, entries, plan, row, schema};
use crate::exchange::Stream;
use crate::progress::{Step, Work};
use crate::record::{Entry, Line, codec};
use log::{State, Writer};
use rusqlite::{Connection, OptionalExtension, Row};
use uuid::{Builder, Uuid};

/// The first version of the file that can be shared.
pub(super) const SHARED_SINCE: i64 = 8;

/// Which laptop this is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Seat {
    /// A random number of the laptop.
    number: [u8; 16],
    /// What it calls itself.
    laptop: String,
}

impl Store {
    /// Says which laptop this is: a random number that stays with it, and what it calls itself. To be called after opening; without
    /// effect while the season is not shared. Where it was not said, the newest own stream goes on.
    pub fn sit(&mut self, seat: [u8; 16], laptop: &str) {
        self.seat = Some(Seat { number: seat, laptop: laptop.to_owned() });
    }

    /// True where the season is shared: every save is then written into this laptop's stream, too.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn is_shared(&self) -> Result<bool, StoreError> {
        Ok(self.asked(is_shared)?.unwrap_or(false))
    }

    /// Begins to share the season from this laptop: all that is in the file becomes its stream, the lines of the plan first, then
    /// the entries in the order they were written. Without effect, but for [`Store::sit`], where it is shared already.
    ///
    /// # Errors
    /// As [`Store::append`].
    pub fn share(&mut self, seat: [u8; 16], laptop: &str) -> Result<(), StoreError> {
        self.sit(seat, laptop);
        if self.is_shared()? {
            return Ok(());
        }
        let seat = self.seat.clone();
        self.save(|transaction| {
            if is_shared(transaction)? {
                // Another program was quicker.
                return Ok(());
            }
            let own = begin_own(transaction, seat.as_ref())?;
            log_all(transaction, own)
        })
    }
}

fn is_shared(connection: &Connection) -> Result<bool, Fault> {
    next_row();
    let sql = "SELECT EXISTS (SELECT 1 FROM own)";
    Ok(connection.prepare_cached(sql)?.query_row([], |row| row.get(0))?)
}

/// The stream this laptop writes; `None` where it is to begin a new one.
fn own_of(connection: &Connection, seat: Option<&Seat>) -> Result<Option<i64>, Fault> {
    next_row();
    let sql = "SELECT number, seat, EXISTS (SELECT 1 FROM own_ended AS e WHERE e.number = own.number)
               FROM own ORDER BY number DESC LIMIT 1";
    let read = |row: &Row<'_>| Ok((row.get::<_, i64>(0)?, row.get::<_, Vec<u8>>(1)?, row.get::<_, bool>(2)?));
    let newest = connection.prepare_cached(sql)?.query_row([], read).optional()?;
    let goes_on = newest.filter(|(_, there, ended)| !ended && seat.is_none_or(|seat| seat.number == there.as_slice()));
    Ok(goes_on.map(|(number, _, _)| number))
}

/// The same; a new one where there is none.
fn own_or_new(connection: &Connection, seat: Option<&Seat>) -> Result<i64, Fault> {
    match own_of(connection, seat)? {
        Some(own) => Ok(own),
        None => begin_own(connection, seat),
    }
}

/// Begins a stream that this laptop writes.
fn begin_own(connection: &Connection, seat: Option<&Seat>) -> Result<i64, Fault> {
    let newest = "SELECT s.laptop FROM own AS o JOIN stream AS s ON s.number = o.number ORDER BY o.number DESC LIMIT 1";
    let laptop = match seat {
        Some(seat) => Some(seat.laptop.clone()),
        None => connection.query_row(newest, [], |row| row.get(0)).optional()?.flatten(),
    };
    let random: Vec<u8> = connection.query_row("SELECT randomblob(16)", [], |row| row.get(0))?;
    let random = random.try_into().map_err(|_other_length| Fault::Malformed("no random number".to_owned()))?;
    let id = Builder::from_random_bytes(random).into_uuid();
    let number = begin_branch(connection, Stream(id), laptop.as_deref())?;
    // No number is no laptop: one that is named later begins a stream of its own.
    let seat = seat.map_or(&[][..], |seat| &seat.number);
    row::one(connection.execute("INSERT INTO own (number, seat) VALUES (?1, ?2)", (number, seat))?)?;
    Ok(number)
}

/// A new branch of a stream, without lines; gives its number.
fn begin_branch(connection: &Connection, stream: Stream, laptop: Option<&str>) -> Result<i64, Fault> {
    let sql = "INSERT INTO stream (number, id, branch, laptop) VALUES
        ((SELECT coalesce(max(number), 0) + 1 FROM stream), ?1,
         (SELECT coalesce(max(branch), 0) + 1 FROM stream WHERE id = ?1), ?2)";
    row::one(connection.execute(sql, (stream.0.as_bytes().as_slice(), laptop))?)?;
    Ok(connection.last_insert_rowid())
}

/// Writes all that is in the file into a stream.
fn log_all(connection: &Connection, own: i64) -> Result<(), Fault> {
    let plan = plan::load(connection, false)?.0.lines();
    let of = usize::try_from(entries::count(connection)?).unwrap_or(0).saturating_add(plan.len());
    let mut work = Work::begin(Step::Share, of);
    let mut writer = Writer::at(connection, own)?;
    for line in &plan {
        writer.text(&codec::line_text(line), State::Counts)?;
        work.one()?;
    }
    let (mut after, mut known) = (0, Known::default());
    loop {
        let rows = entries::numbered(connection, (after, entries::AT_ONCE), &mut known)?;
        let Some((last, _)) = rows.last() else { return Ok(()) };
        after = *last;
        for (seq, entry) in rows {
            writer.entry(&codec::line_text(&Line::Entry(entry)), seq)?;
            work.one()?;
        }
    }
}

/// Writes new lines of a save into the own stream, entries by their numbers; nothing where the season is not shared.
pub(super) fn log_own(connection: &Connection, seat: Option<&Seat>, new: &[(&Line, i64)]) -> Result<(), Fault> {
    if new.is_empty() {
        return Ok(());
    }
    let Some(mut log) = OwnLog::of(connection, seat)? else { return Ok(()) };
    for (line, seq) in new {
        match line {
            Line::Entry(entry) => log.entry(entry, *seq)?,
            _ => log.line(line)?,
        }
    }
    Ok(())
}

/// What a save writes into the own stream of a shared season; the first line begins one where there is none.
pub(super) struct OwnLog<'a> {
    connection: &'a Connection,
    seat: Option<&'a Seat>,
    writer: Option<Writer<'a>>,
}

impl<'a> OwnLog<'a> {
    /// `None` where the season is not shared.
    pub(super) fn of(connection: &'a Connection, seat: Option<&'a Seat>) -> Result<Option<Self>, Fault> {
        Ok(is_shared(connection)?.then_some(Self { connection, seat, writer: None }))
    }

    fn writer(&mut self) -> Result<&mut Writer<'a>, Fault> {
        let writer = match self.writer.take() {
            Some(writer) => writer,
            None => Writer::at(self.connection, own_or_new(self.connection, self.seat)?)?,
        };
        Ok(self.writer.insert(writer))
    }

    /// A new line of the plan.
    pub(super) fn line(&mut self, line: &Line) -> Result<(), Fault> {
        self.writer()?.text(&codec::line_text(line), State::Counts)
    }

    /// A new entry, under its number.
    pub(super) fn entry(&mut self, entry: &Entry, seq: i64) -> Result<(), Fault> {
        self.writer()?.entry(&codec::line_text(&Line::Entry(entry.clone())), seq)
    }
}

/// True where a stream of the file goes on.
pub(super) fn goes_on(connection: &Connection) -> Result<bool, Fault> {
    if schema::version(connection)? < SHARED_SINCE {
        return Ok(false);
    }
    let sql = "SELECT EXISTS (SELECT 1 FROM own AS o WHERE NOT EXISTS (SELECT 1 FROM own_ended AS e WHERE e.number = o.number))";
    Ok(connection.query_row(sql, [], |row| row.get(0))?)
}

/// Ends the own streams of a copy.
pub(super) fn end_own(connection: &Connection) -> Result<(), Fault> {
    let sql = "INSERT INTO own_ended (number) SELECT o.number FROM own AS o
               WHERE NOT EXISTS (SELECT 1 FROM own_ended AS e WHERE e.number = o.number)";
    connection.execute(sql, [])?;
    Ok(())
}

/// The id of a cell.
fn uuid(bytes: &[u8]) -> Result<Uuid, Fault> {
    Uuid::from_slice(bytes).map_err(|e| Fault::Malformed(format!("an id: {e}")))
}
