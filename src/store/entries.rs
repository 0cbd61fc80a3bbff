//! Entries as rows: columns for what every entry has, the journal's JSON for the fields of its kind.

use super::connection::{next_row, whole_file};
use super::error::Fault;
use super::known::Known;
use super::row::{self, instant, number};
use super::share;
use crate::progress::{self, Step, Work};
use crate::record::codec::{self, Body};
use crate::record::{Entry, Kind, KindName, Place};
use rusqlite::types::ValueRef;
use rusqlite::{Connection, Row};
use std::borrow::Cow;
use uuid::Uuid;

/// Some entries in the order they were written.
#[derive(Debug, Clone, PartialEq)]
pub struct Slice {
    /// The entries.
    pub entries: Vec<Entry>,
    /// The number of the last one; the next slice comes after it.
    pub last: i64,
    /// True when none come after it yet.
    pub done: bool,
    /// Entries that this program does not understand, in a newer program's file.
    pub left_out: usize,
}

pub(super) const COLUMNS: &str = "seq, id, bench, house, lot, plot, instant, utc_offset, author, kind, fields, note";

/// Entries after the one numbered `after`. Of a newer program's file those that are not understood are left out and counted.
pub(super) fn load(connection: &Connection, after: i64, most: usize, newer: bool) -> Result<Slice, Fault> {
    let sql = format!("SELECT {COLUMNS} FROM entry WHERE seq > ?1 ORDER BY seq LIMIT ?2");
    let mut statement = connection.prepare_cached(&sql)?;
    let limit = i64::try_from(most).unwrap_or(i64::MAX);
    let mut rows = statement.query((after, limit))?;
    let least = share::least_of(connection)?;
    // Room for all of them at once: to grow means to copy, and to hold both.
    let all = if most == usize::MAX { usize::try_from(last(connection)?).unwrap_or(0) } else { 0 };
    let mut slice = Slice { entries: Vec::with_capacity(all.min(ROOM)), last: after, done: false, left_out: 0 };
    let mut known = Known::default();
    let mut read_rows = 0_usize;
    let mut work = if most == usize::MAX { Some(reading(connection)?) } else { None };
    next_row();
    while let Some(row) = rows.next()? {
        next_row();
        read_rows += 1;
        let seq: i64 = row.get(0)?;
        // Pages that lead back to one another would be read without end.
        if seq <= slice.last {
            return Err(Fault::Malformed(format!("entry {seq} comes after {}", slice.last)));
        }
        slice.last = seq;
        match read_from(row, 0, slice.last, &mut known) {
            Ok(entry) => slice.entries.push(share::entry_that_counts(&least, entry)),
            Err(Fault::Malformed(_)) if newer => slice.left_out += 1,
            Err(fault) => return Err(fault),
        }
        work.as_mut().map_or(Ok(()), Work::one)?;
    }
    slice.done = read_rows < most;
    Ok(slice)
}

/// The number of the last one; 0 where there is none.
pub(super) fn last(connection: &Connection) -> Result<i64, Fault> {
    next_row();
    Ok(connection.query_row("SELECT coalesce(max(seq), 0) FROM entry", [], |row| row.get(0))?)
}

/// Entries for which room is made before they are read, whatever the file says it holds.
const ROOM: usize = 1_000_000;

/// The work of reading all of them.
pub(super) fn reading(connection: &Connection) -> Result<Work, Fault> {
    let of = if progress::is_watched() { usize::try_from(count(connection)?).unwrap_or(0) } else { 0 };
    Ok(Work::begin(Step::ReadEntries, of))
}

/// How many.
pub(super) fn count(connection: &Connection) -> Result<u64, Fault> {
    next_row();
    let count: i64 = connection.query_row("SELECT count(*) FROM entry", [], |row| row.get(0))?;
    Ok(count.unsigned_abs())
}

/// Entries in one go of [`numbered`], at most.
pub(super) const AT_ONCE: i64 = 1_000;

/// At most so many entries after a number, with their numbers, as they stand in their table.
pub(super) fn numbered(
    connection: &Connection,
    (after, most): (i64, i64),
    known: &mut Known,
) -> Result<Vec<(i64, Entry)>, Fault> {
    let sql = format!("SELECT {COLUMNS} FROM entry WHERE seq > ?1 ORDER BY seq LIMIT ?2");
    let mut statement = connection.prepare_cached(&sql)?;
    let mut rows = statement.query((after, most))?;
    let mut found = Vec::new();
    next_row();
    while let Some(row) = rows.next()? {
        next_row();
        let seq = row.get(0)?;
        found.push((seq, read_from(row, 0, seq, known)?));
    }
    Ok(found)
}

/// The entry of this id, with its number.
pub(super) fn find(connection: &Connection, id: Uuid) -> Result<Option<(i64, Entry)>, Fault> {
    next_row();
    let sql = format!("SELECT {COLUMNS} FROM entry WHERE id = ?1");
    let mut statement = connection.prepare_cached(&sql)?;
    let mut rows = statement.query([id.as_bytes().as_slice()])?;
    let Some(row) = rows.next()? else { return Ok(None) };
    let seq = row.get("seq")?;
    read(row, seq).map(|entry| Some((seq, entry)))
}

/// Entries of some kinds, and all of plots, in the order they were written.
pub(super) fn of_kinds(connection: &Connection, kinds: &[KindName]) -> Result<Vec<Entry>, Fault> {
    let numbers = kinds.iter().map(|kind| kind.number().to_string()).collect::<Vec<_>>().join(", ");
    let sql = format!("SELECT {COLUMNS} FROM entry WHERE kind IN ({numbers}) OR plot IS NOT NULL ORDER BY seq");
    let mut statement = connection.prepare(&sql)?;
    let mut rows = statement.query([])?;
    let (mut found, mut known) = (Vec::new(), Known::default());
    whole_file();
    while let Some(row) = rows.next()? {
        whole_file();
        let seq = row.get(0)?;
        found.push(read_from(row, 0, seq, &mut known)?);
    }
    next_row();
    Ok(found)
}

/// How many have a number after this one.
pub(super) fn count_after(connection: &Connection, seq: i64) -> Result<usize, Fault> {
    whole_file();
    let count: i64 = connection.query_row("SELECT count(*) FROM entry WHERE seq > ?1", [seq], |row| row.get(0))?;
    next_row();
    Ok(usize::try_from(count).unwrap_or(0))
}

/// As a new row.
pub(super) fn insert(connection: &Connection, entry: &Entry) -> Result<(), Fault> {
    next_row();
    let place = |field: &str| (entry.place.field() == field).then(|| entry.place.code());
    if let Some(plot) = &entry.plot {
        let sql = "INSERT INTO known_plot (plot) SELECT ?1 WHERE NOT EXISTS (SELECT 1 FROM known_plot WHERE plot = ?1)";
        connection.prepare_cached(sql)?.execute([plot])?;
    }
    let fields = codec::encode_kind(&entry.kind);
    let strikes = match &*entry.kind {
        Kind::Strike { entry, .. } => Some(entry.as_bytes().as_slice()),
        _ => None,
    };
    let sql =
        "INSERT INTO entry (id, bench, house, lot, plot, day, instant, utc_offset, author, kind, strikes, fields, note)
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)";
    let offset = entry.at.offset().local_minus_utc() / 60;
    let rows = connection.prepare_cached(sql)?.execute((
        entry.id.as_bytes().as_slice(),
        place("bench"),
        place("house"),
        place("lot"),
        &entry.plot,
        number(entry.day()),
        entry.at.timestamp(),
        offset,
        &entry.by,
        entry.name().number(),
        strikes,
        fields,
        &entry.note,
    ))?;
    row::one(rows)
}

/// True when two entries say the same; instants are also compared as they were written, with their offsets.
pub(super) fn same(one: &Entry, other: &Entry) -> bool {
    one == other && one.at.offset() == other.at.offset()
}

/// The entry of a row that has [`COLUMNS`] next to one another.
pub(super) fn read(row: &Row<'_>, seq: i64) -> Result<Entry, Fault> {
    read_from(row, row.as_ref().column_index("seq")?, seq, &mut Known::default())
}

/// The same, by the place of the first of [`COLUMNS`] in the row: to look for a name takes longer than to read its cell.
pub(super) fn read_from(row: &Row<'_>, first: usize, seq: i64, known: &mut Known) -> Result<Entry, Fault> {
    let odd = |text: String| Fault::Malformed(format!("entry {seq}: {text}"));
    let places = (cell(row, first + 2)?, cell(row, first + 3)?, cell(row, first + 4)?);
    let place = match &places {
        (Some(bench), None, None) => Place::Bench(known.code(bench)),
        (None, Some(house), None) => Place::House(known.name(house)),
        (None, None, Some(lot)) => Place::Lot(known.code(lot)),
        _ => return Err(odd("is on no bench, house or lot".to_owned())),
    };
    let number: i64 = row.get(first + 9)?;
    let name = KindName::from_number(number).ok_or_else(|| odd(format!("kind {number} is not known")))?;
    let fields = needed(row, first + 10)?;
    let Body { kind, .. } = known.bodies.decode(name, &fields).map_err(|faults| {
        odd(faults.iter().map(|f| format!("{}: {}", f.field, f.text)).collect::<Vec<_>>().join("; "))
    })?;
    let at = instant(row.get(first + 6)?, row.get(first + 7)?)?;
    let id = match row.get_ref(first + 1)?.as_blob() {
        Ok(bytes) => Uuid::from_slice(bytes),
        Err(_) => Uuid::from_slice(&row.get::<_, Vec<u8>>(first + 1)?),
    };
    let id = id.map_err(|e| odd(e.to_string()))?;
    let by = known.author(&needed(row, first + 8)?);
    let plot = cell(row, first + 5)?.map(|plot| known.code(&plot));
    let note: Option<String> = row.get(first + 11)?;
    Ok(Entry { id, at, by, place, plot, kind, note: note.map(|note| row::text(note).into()) })
}

/// The text of a cell, where it stands; `None` of an empty one.
fn cell<'r>(row: &'r Row<'_>, at: usize) -> Result<Option<Cow<'r, str>>, Fault> {
    match row.get_ref(at)? {
        ValueRef::Null => Ok(None),
        value => text(row, at, value).map(Some),
    }
}

/// The text of a cell that has one.
fn needed<'r>(row: &'r Row<'_>, at: usize) -> Result<Cow<'r, str>, Fault> {
    text(row, at, row.get_ref(at)?)
}

fn text<'r>(row: &Row<'_>, at: usize, value: ValueRef<'r>) -> Result<Cow<'r, str>, Fault> {
    match value.as_str() {
        Ok(text) => Ok(Cow::Borrowed(text)),
        // Says what it is instead.
        Err(_) => Ok(Cow::Owned(row.get::<_, String>(at)?)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Term;

    #[test]
    fn the_numbers_of_the_kinds_are_those_of_the_file() {
        let connection = Connection::open_in_memory().unwrap();
        for script in &super::super::SCRIPTS[1..] {
            connection.execute_batch(script).unwrap();
        }
        let mut rows = connection.prepare("SELECT number, name FROM kind").unwrap();
        let pairs: Vec<(i64, String)> =
            rows.query_map([], |r| Ok((r.get(0)?, r.get(1)?))).unwrap().map(Result::unwrap).collect();
        assert_eq!(pairs.len(), KindName::ALL.len());
        for (number, name) in pairs {
            assert_eq!(KindName::from_number(number).map(Term::code), Some(name.as_str()));
        }
    }
}
