//! Saving: one transaction, all or nothing, and the same again changes nothing.

use super::error::{Fault, StoreError};
use super::{Store, entries, plan, schema};
use crate::record::{Entry, Line, rules};
use rusqlite::Connection;

/// What a save did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Saved {
    /// Records written.
    pub new: usize,
    /// Records that were there already.
    pub known: usize,
}

impl Store {
    /// Writes records down. When this returns, they are on the disk. Records already there with the same content are passed
    /// over. Plan lines are written before entries, whatever their order, for entries speak of them.
    ///
    /// # Errors
    /// `Busy` and `Full` may pass: keep the records and try again. `Other` when an id, or a key and revision, is there with
    /// other content. `Refused` when a record breaks a rule of its own fields: what is once written must always read. On any
    /// error nothing was written.
    pub fn append(&mut self, lines: &[Line]) -> Result<Saved, StoreError> {
        if let Some(line) = lines.iter().find(|line| line.revision().is_some_and(|r| r.at.is_some())) {
            return Err(StoreError::Refused { detail: format!("{} with an instant", line.key()) });
        }
        if let Some(fault) = lines.iter().flat_map(rules::check_line).next() {
            return Err(StoreError::Refused { detail: format!("{}: {}", fault.field, fault.text) });
        }
        let done = schema::write(&mut self.connection, |transaction| {
            let mut saved = Saved::default();
            let mut count = |new: bool| if new { saved.new += 1 } else { saved.known += 1 };
            for rank in 0..=LAST_RANK {
                for line in lines.iter().filter(|line| self::rank(line) == rank) {
                    count(put(transaction, line)?);
                }
            }
            Ok(saved)
        });
        done.map_err(|fault| fault.of(&self.path))
    }
}

const LAST_RANK: u8 = 2;

/// What must be there before: codes first, then what speaks of them, then entries.
const fn rank(line: &Line) -> u8 {
    match line {
        Line::Site(_) | Line::Lot(_) | Line::Bench(_) => 0,
        Line::Placement(_) | Line::Order(_) => 1,
        Line::Entry(_) => LAST_RANK,
    }
}

/// One record; true when it is new.
fn put(connection: &Connection, line: &Line) -> Result<bool, Fault> {
    match line {
        Line::Site(site) => put_plan(connection, site),
        Line::Lot(lot) => put_plan(connection, lot),
        Line::Bench(bench) => put_plan(connection, bench),
        Line::Placement(placement) => put_plan(connection, placement),
        Line::Order(order) => put_plan(connection, order),
        Line::Entry(entry) => put_entry(connection, entry),
    }
}

fn put_plan<L: plan::Line>(connection: &Connection, line: &L) -> Result<bool, Fault> {
    match line.find(connection)? {
        None => line.insert(connection).map(|()| true),
        Some(there) if there == *line => Ok(false),
        Some(_) => Err(Fault::Other(line.name())),
    }
}

fn put_entry(connection: &Connection, entry: &Entry) -> Result<bool, Fault> {
    match entries::find(connection, entry.id)? {
        None => entries::insert(connection, entry).map(|()| true),
        Some(there) if entries::same(&there, entry) => Ok(false),
        Some(_) => Err(Fault::Other(format!("entry {}", entry.id))),
    }
}
