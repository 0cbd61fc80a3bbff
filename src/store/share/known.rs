//! What is known of the laptops: how far each got here, which lines came from them, and what a carrier lacks.

use super::log::{chain_at, number, read};
use super::replica::branches;
use super::{Seat, own_of, uuid};
use crate::exchange::{Branch, Head, LaptopState, Stream};
use crate::record::{Line, codec};
use crate::store::connection::next_row;
use crate::store::error::Fault;
use crate::store::{Store, StoreError};
use chrono::{DateTime, FixedOffset};
use rusqlite::Connection;
use std::collections::{BTreeMap, HashMap};
use std::sync::Arc;
use uuid::Uuid;

/// Lines at the end of a stream whose instants are looked at: some may be imported, and older than what stands before them.
const NEWEST: u64 = 50;

/// How far the lines of other laptops were asked for; begins with none.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Heard(BTreeMap<i64, i64>);

/// A line that another laptop wrote.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Came {
    /// Its id.
    pub line: Uuid,
    /// The laptop, as it calls itself.
    pub laptop: Arc<str>,
}

/// Where a line was written first, as far as it is known here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wrote {
    /// The laptop, as it calls itself.
    pub laptop: Option<String>,
    /// True of this laptop.
    pub own: bool,
    /// The stream that brought it.
    pub stream: Stream,
    /// Its number there.
    pub number: u64,
}

impl Store {
    /// What the file says of sharing; `None` where it is of a version before that.
    pub(super) fn asked<T>(&self, ask: impl FnOnce(&Connection) -> Result<T, Fault>) -> Result<Option<T>, StoreError> {
        if self.version < super::SHARED_SINCE {
            return Ok(None);
        }
        ask(&self.connection).map(Some).map_err(|fault| self.said(fault))
    }

    /// The laptops that write the season: this one first, then by name. Streams of one name are one laptop's: it begins another one
    /// where its file was put back from a copy.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn laptops(&self) -> Result<Vec<LaptopState>, StoreError> {
        let seat = self.seat.as_ref();
        Ok(self.asked(|connection| laptops(connection, seat))?.unwrap_or_default())
    }

    /// Lines of a newer program that are kept, sent on, and not understood here.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn held(&self) -> Result<usize, StoreError> {
        Ok(self.asked(super::held::count)?.unwrap_or(0))
    }

    /// Lines in this laptop's own stream.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn own_lines(&self) -> Result<u64, StoreError> {
        let own = |connection: &Connection| match own_of(connection, self.seat.as_ref())? {
            Some(own) => Ok(super::log::count(super::log::head(connection, own)?.0)),
            None => Ok(0),
        };
        Ok(self.asked(own)?.unwrap_or(0))
    }

    /// Lines here that a carrier with these heads lacks.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn to_send(&self, heads: &[Head]) -> Result<usize, StoreError> {
        Ok(self.asked(|connection| to_send(connection, heads))?.unwrap_or(0))
    }

    /// Lines that other laptops wrote, at most so many, those after what was `heard`, which then reaches to the last of them. None come
    /// where all were given.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn origins(&self, heard: &mut Heard, most: usize) -> Result<Vec<Came>, StoreError> {
        let seat = self.seat.as_ref();
        Ok(self.asked(|connection| origins(connection, seat, heard, most))?.unwrap_or_default())
    }

    /// Where an entry was written, as far as it is known here; `None` where there is no such entry in a stream.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn who(&self, entry: Uuid) -> Result<Option<Wrote>, StoreError> {
        let seat = self.seat.as_ref();
        Ok(self.asked(|connection| who(connection, seat, entry))?.flatten())
    }
}

/// The streams that this laptop wrote, by all their branches: those that do not go on among them, and what came back of one.
fn own_streams(connection: &Connection, seat: Option<&Seat>) -> Result<Vec<i64>, Fault> {
    next_row();
    let mut statement = connection.prepare_cached(
        "SELECT b.number, o.seat FROM own AS o JOIN stream AS s ON s.number = o.number JOIN stream AS b ON b.id = s.id
         ORDER BY b.number",
    )?;
    let rows = statement.query_map([], |row| Ok((row.get::<_, i64>(0)?, row.get::<_, Vec<u8>>(1)?)))?;
    let all = rows.collect::<Result<Vec<_>, _>>()?;
    let ours = |there: &[u8]| seat.is_none_or(|seat| there.is_empty() || seat.number == there);
    Ok(all.into_iter().filter(|(_, there)| ours(there)).map(|(number, _)| number).collect())
}

fn laptops(connection: &Connection, seat: Option<&Seat>) -> Result<Vec<LaptopState>, Fault> {
    let (own, ours) = (own_of(connection, seat)?, own_streams(connection, seat)?);
    let mut all: Vec<LaptopState> = Vec::new();
    // The newest first: that is the one a laptop writes.
    for branch in branches(connection, own)?.into_iter().rev() {
        let is_own = ours.contains(&branch.id.0);
        if branch.last == 0 && !branch.own {
            continue;
        }
        let known_to = newest(connection, &branch)?;
        let same = |other: &&mut LaptopState| {
            other.stream == branch.stream
                || (is_own && other.own)
                || (other.own == is_own && other.name.is_some() && other.name == branch.laptop)
        };
        match all.iter_mut().find(same) {
            Some(laptop) if laptop.stream == branch.stream => {
                laptop.lines = laptop.lines.max(branch.last);
                laptop.known_to = laptop.known_to.max(known_to);
            }
            Some(laptop) => {
                laptop.lines = laptop.lines.saturating_add(branch.last);
                laptop.known_to = laptop.known_to.max(known_to);
            }
            None => all.push(LaptopState {
                stream: branch.stream,
                name: branch.laptop,
                own: is_own,
                lines: branch.last,
                known_to,
                seen: None,
            }),
        }
    }
    all.sort_by(|a, b| (!a.own, &a.name, a.stream).cmp(&(!b.own, &b.name, b.stream)));
    Ok(all)
}

/// The instant of the newest line of a branch.
fn newest(connection: &Connection, branch: &Branch) -> Result<Option<DateTime<FixedOffset>>, Fault> {
    let from = branch.last.saturating_sub(NEWEST);
    let lines = read(connection, branch.id.0, number(from), usize::MAX)?;
    let at = |text: &str| match codec::decode(text, codec::VERSION).ok()? {
        Line::Entry(entry) => Some(entry.at),
        line => line.revision().and_then(|revision| revision.at),
    };
    Ok(lines.iter().filter_map(|line| at(&line.linked.text)).max())
}

fn to_send(connection: &Connection, heads: &[Head]) -> Result<usize, Fault> {
    let mut lacking: BTreeMap<Stream, u64> = BTreeMap::new();
    let there: HashMap<Stream, &Head> = heads.iter().map(|head| (head.stream, head)).collect();
    for branch in branches(connection, None)? {
        let more = match there.get(&branch.stream) {
            // Of a stream that it does not have, it gets the first branch.
            None if lacking.contains_key(&branch.stream) => continue,
            None => branch.last,
            Some(head) if head.last >= branch.last => continue,
            // Another branch of the stream lies there: what that lacks goes into the own stream first.
            Some(head) if chain_at(connection, branch.id.0, number(head.last))? != Some(head.chain) => continue,
            Some(head) => branch.last - head.last,
        };
        lacking.insert(branch.stream, more);
    }
    Ok(usize::try_from(lacking.values().sum::<u64>()).unwrap_or(usize::MAX))
}

fn origins(connection: &Connection, seat: Option<&Seat>, heard: &mut Heard, most: usize) -> Result<Vec<Came>, Fault> {
    let ours = own_streams(connection, seat)?;
    let mut came = Vec::new();
    for branch in branches(connection, None)?.into_iter().filter(|branch| !ours.contains(&branch.id.0)) {
        let laptop: Arc<str> = match &branch.laptop {
            Some(name) => name.as_str().into(),
            None => branch.stream.laptop().into(),
        };
        let after = heard.0.entry(branch.id.0).or_default();
        let last = number(branch.last);
        while *after < last && came.len() < most {
            let lines = ids(connection, branch.id.0, *after, most - came.len())?;
            let Some(last) = lines.last() else { break };
            *after = last.n;
            for line in lines {
                if !is_written_here(connection, &ours, &line)? {
                    came.extend(line.id.map(|line| Came { line, laptop: Arc::clone(&laptop) }));
                }
            }
        }
        if came.len() >= most {
            break;
        }
    }
    Ok(came)
}

/// A row of the log without its text: that of an entry need not be made for this.
struct Row {
    n: i64,
    entry: Option<i64>,
    line: Option<String>,
    /// The id of the line; `None` where it is not understood.
    id: Option<Uuid>,
}

/// Rows of a branch after a number.
fn ids(connection: &Connection, branch: i64, after: i64, most: usize) -> Result<Vec<Row>, Fault> {
    let sql = "SELECT l.n, l.entry, l.line, e.id FROM log AS l LEFT JOIN entry AS e ON e.seq = l.entry
               WHERE l.stream = ?1 AND l.n > ?2 ORDER BY l.n LIMIT ?3";
    let mut statement = connection.prepare_cached(sql)?;
    let mut rows = statement.query((branch, after, i64::try_from(most).unwrap_or(i64::MAX)))?;
    let mut found = Vec::new();
    next_row();
    while let Some(row) = rows.next()? {
        next_row();
        let (bytes, line) = (row.get::<_, Option<Vec<u8>>>(3)?, row.get::<_, Option<String>>(2)?);
        let id = match (bytes, &line) {
            (Some(bytes), _) => Some(uuid(&bytes)?),
            (None, Some(text)) => codec::decode(text, codec::VERSION).ok().map(|line| line.id()),
            (None, None) => None,
        };
        found.push(Row { n: row.get(0)?, entry: row.get(1)?, line, id });
    }
    Ok(found)
}

/// True where a line that another stream brought was written on this laptop: it stands in an own stream, and was not only written
/// again there.
fn is_written_here(connection: &Connection, ours: &[i64], line: &Row) -> Result<bool, Fault> {
    next_row();
    let of = |column: &str| {
        format!(
            "SELECT stream FROM log AS l WHERE {column} = ?1
             AND NOT EXISTS (SELECT 1 FROM log_again AS a WHERE a.stream = l.stream AND a.n = l.n)"
        )
    };
    let mut statement = connection.prepare_cached(&of(if line.entry.is_some() { "entry" } else { "line" }))?;
    let mut rows = match line.entry {
        Some(seq) => statement.query([seq])?,
        None => statement.query([&line.line])?,
    };
    while let Some(row) = rows.next()? {
        if ours.contains(&row.get(0)?) {
            return Ok(true);
        }
    }
    Ok(false)
}

fn who(connection: &Connection, seat: Option<&Seat>, entry: Uuid) -> Result<Option<Wrote>, Fault> {
    let sql = "SELECT l.stream, l.n, s.id, s.laptop FROM entry AS e JOIN log AS l ON l.entry = e.seq
        JOIN stream AS s ON s.number = l.stream WHERE e.id = ?1
        ORDER BY EXISTS (SELECT 1 FROM log_again AS a WHERE a.stream = l.stream AND a.n = l.n), l.stream LIMIT 1";
    let ours = own_streams(connection, seat)?;
    next_row();
    let mut statement = connection.prepare_cached(sql)?;
    let mut rows = statement.query([entry.as_bytes().as_slice()])?;
    let Some(row) = rows.next()? else { return Ok(None) };
    let laptop: Option<String> = row.get(3)?;
    Ok(Some(Wrote {
        laptop: laptop.map(crate::store::row::text),
        own: ours.contains(&row.get(0)?),
        stream: Stream(uuid(&row.get::<_, Vec<u8>>(2)?)?),
        number: super::log::count(row.get(1)?),
    }))
}
