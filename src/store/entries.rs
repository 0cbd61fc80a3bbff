//! Entries as rows: typed columns for what is read every day, the journal's JSON for the rest.

use super::cells::{Cells, number};
use super::error::Fault;
use crate::record::codec::{self, Body};
use crate::record::{Entry, Kind, KindName, PestCount, Place};
use chrono::{DateTime, FixedOffset};
use rusqlite::{Connection, named_params};
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
}

const COLUMNS: &str = "seq, id, bench, house, lot, day, at, offset, \"by\", kind, a, b, body";

/// Entries after the one numbered `after`.
pub(super) fn load(connection: &Connection, after: i64, most: usize) -> Result<Slice, Fault> {
    let sql = format!("SELECT {COLUMNS} FROM entry WHERE seq > ?1 ORDER BY seq LIMIT ?2");
    let mut statement = connection.prepare_cached(&sql)?;
    let limit = i64::try_from(most).unwrap_or(i64::MAX);
    let mut rows = statement.query((after, limit))?;
    let mut slice = Slice { entries: Vec::new(), last: after, done: false };
    while let Some(row) = rows.next()? {
        slice.last = row.get("seq")?;
        slice.entries.push(read(&Cells(row), slice.last)?);
    }
    slice.done = slice.entries.len() < most;
    Ok(slice)
}

/// How many.
pub(super) fn count(connection: &Connection) -> Result<u64, Fault> {
    let count: i64 = connection.query_row("SELECT count(*) FROM entry", [], |row| row.get(0))?;
    Ok(count.unsigned_abs())
}

/// The entry of this id.
pub(super) fn find(connection: &Connection, id: Uuid) -> Result<Option<Entry>, Fault> {
    let sql = format!("SELECT {COLUMNS} FROM entry WHERE id = ?1");
    let mut statement = connection.prepare_cached(&sql)?;
    let mut rows = statement.query([id.as_bytes().as_slice()])?;
    let Some(row) = rows.next()? else { return Ok(None) };
    let seq = row.get("seq")?;
    read(&Cells(row), seq).map(Some)
}

/// As a new row.
pub(super) fn insert(connection: &Connection, entry: &Entry) -> Result<(), Fault> {
    let place = |field: &str| (entry.place.field() == field).then(|| entry.place.code());
    let (a, b) = daily(&entry.kind);
    let whole =
        entry.note.is_none() && entry.plot.is_none() && from_daily(entry.name(), a, b).as_ref() == Some(&entry.kind);
    let body = (!whole).then(|| codec::encode_body(entry));
    let strikes = match &entry.kind {
        Kind::Strike { entry, .. } => Some(entry.as_bytes().as_slice()),
        _ => None,
    };
    let sql = "INSERT INTO entry (id, bench, house, lot, day, at, offset, \"by\", kind, a, b, strikes, body)
               VALUES (:id, :bench, :house, :lot, :day, :at, :offset, :by, :kind, :a, :b, :strikes, :body)";
    connection.prepare_cached(sql)?.execute(named_params! {
        ":id": entry.id.as_bytes().as_slice(), ":bench": place("bench"), ":house": place("house"),
        ":lot": place("lot"), ":day": number(entry.day()), ":at": entry.at.timestamp(),
        ":offset": entry.at.offset().local_minus_utc() / 60, ":by": entry.by, ":kind": entry.name().number(),
        ":a": a, ":b": b, ":strikes": strikes, ":body": body,
    })?;
    Ok(())
}

/// True when two entries say the same; instants are also compared as they were written, with their offsets.
pub(super) fn same(one: &Entry, other: &Entry) -> bool {
    one == other && one.at.offset() == other.at.offset()
}

fn read(cells: &Cells<'_, '_>, seq: i64) -> Result<Entry, Fault> {
    let odd = |text: String| Fault::Odd(format!("entry {seq}: {text}"));
    let id: Vec<u8> = cells.get("id")?;
    let places = (cells.get("bench")?, cells.get("house")?, cells.get("lot")?);
    let place = match places {
        (Some(bench), None, None) => Place::Bench(bench),
        (None, Some(house), None) => Place::House(house),
        (None, None, Some(lot)) => Place::Lot(lot),
        _ => return Err(odd("is on no bench, house or lot".to_owned())),
    };
    let number: i64 = cells.get("kind")?;
    let name = KindName::from_number(number).ok_or_else(|| odd(format!("kind {number} is not known")))?;
    let (a, b): (Option<i64>, Option<i64>) = (cells.get("a")?, cells.get("b")?);
    let Body { kind, plot, note } = match cells.get::<Option<String>>("body")? {
        None => {
            let kind = from_daily(name, a, b).ok_or_else(|| odd("has no body".to_owned()))?;
            Body { kind, plot: None, note: None }
        }
        Some(body) => codec::decode_body(name, &body).map_err(|faults| {
            odd(faults.iter().map(|f| format!("{}: {}", f.field, f.text)).collect::<Vec<_>>().join("; "))
        })?,
    };
    let offset: i32 = cells.get("offset")?;
    let at = offset
        .checked_mul(60)
        .and_then(FixedOffset::east_opt)
        .zip(DateTime::from_timestamp(cells.get("at")?, 0))
        .map(|(offset, instant)| instant.with_timezone(&offset))
        .ok_or_else(|| odd("has no instant".to_owned()))?;
    let id = Uuid::from_slice(&id).map_err(|e| odd(e.to_string()))?;
    Ok(Entry { id, at, by: cells.get("by")?, place, plot, kind, note })
}

/// The two columns of a kind.
fn daily(kind: &Kind) -> (Option<u32>, Option<u32>) {
    match kind {
        Kind::Water { level, base } => (Some(u32::from(*level)), base.map(u32::from)),
        Kind::Roots { score: a, .. } | Kind::Bracts { stage: a } => (Some(u32::from(*a)), None),
        Kind::Pests { count: PestCount::Plants { inspected, infested }, .. } => (Some(*inspected), Some(*infested)),
        Kind::Losses { pots, .. } | Kind::Counted { pots } | Kind::Moved { pots, .. } | Kind::Sold { pots } => {
            (Some(*pots), None)
        }
        _ => (None, None),
    }
}

/// The kind, where the two columns say all of it.
fn from_daily(name: KindName, a: Option<impl TryInto<u32>>, b: Option<impl TryInto<u32>>) -> Option<Kind> {
    let a: Option<u32> = a.and_then(|a| a.try_into().ok());
    let b: Option<u32> = b.and_then(|b| b.try_into().ok());
    let small = |value: u32| u8::try_from(value).ok();
    Some(match name {
        KindName::Water => Kind::Water {
            level: small(a?)?,
            base: match b {
                Some(b) => Some(small(b)?),
                None => None,
            },
        },
        KindName::Roots => Kind::Roots { score: small(a?)?, pots: None, bad: None, signs: Vec::new(), reach: None },
        KindName::Bracts => Kind::Bracts { stage: small(a?)? },
        KindName::Losses => Kind::Losses { pots: a?, cause: None },
        KindName::Counted => Kind::Counted { pots: a? },
        KindName::Sold => Kind::Sold { pots: a? },
        KindName::Watered => Kind::Watered { ml_per_pot: None },
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Term;

    #[test]
    fn the_numbers_of_the_kinds_are_those_of_the_file() {
        let connection = Connection::open_in_memory().unwrap();
        connection.execute_batch(super::super::SCRIPTS[0]).unwrap();
        let mut rows = connection.prepare("SELECT number, name FROM kind").unwrap();
        let pairs: Vec<(i64, String)> =
            rows.query_map([], |r| Ok((r.get(0)?, r.get(1)?))).unwrap().map(Result::unwrap).collect();
        assert_eq!(pairs.len(), KindName::ALL.len());
        for (number, name) in pairs {
            assert_eq!(KindName::from_number(number).map(Term::code), Some(name.as_str()));
        }
    }
}
