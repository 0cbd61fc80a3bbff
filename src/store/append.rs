//! Saving: one transaction, all or nothing, and the same again changes nothing.

use super::error::{Fault, StoreError};
use super::guard::holds;
use super::{Store, entries, plan, season, share};
use crate::progress::{Step, Work};
use crate::record::schema::{self, RecordSchema};
use crate::record::{Entry, Line, codec, rules};
use rusqlite::Connection;
use uuid::Uuid;

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
    /// over. Plan lines are written before entries, whatever their order, because entries name them.
    ///
    /// Every line is checked here by the rules of its own fields, so that what is written always reads. The rules across lines
    /// belong to `season`, which this module may not use: callers pass lines that `Season::admit` accepted, or,
    /// from the journal of the same season, `check_join`.
    ///
    /// # Errors
    /// `Busy`, `InUse`, `Full` and `Replaced` may pass: keep the records and try again; after `Replaced` they may be in a file that has
    /// no name any more, and to save them once more does no harm. `Conflict` when an id, or a key and revision, is there with
    /// other content. `Refused` when a record breaks a rule of its own fields: what is once written must always read. On any
    /// error nothing was written into the file of this name.
    pub fn append(&mut self, lines: &[Line]) -> Result<Saved, StoreError> {
        let saved = self.append_of(lines, None)?;
        self.appended.extend(lines.iter().cloned());
        Ok(saved)
    }

    /// The same of a journal that names its season. A file that has no season yet becomes a part of that one.
    ///
    /// # Errors
    /// As [`Store::append`]; `Conflict` when the file is of another season.
    pub fn append_of(&mut self, lines: &[Line], id: Option<Uuid>) -> Result<Saved, StoreError> {
        if let Some(fault) = lines.iter().flat_map(rules::check_line).next() {
            return Err(StoreError::Refused { detail: format!("{}: {}", fault.field, fault.text) });
        }
        let seat = self.seat.clone();
        self.save(|transaction| {
            let mut new = Vec::new();
            let mut work = Work::begin(Step::Import, lines.len());
            for rank in 0..=LAST_RANK {
                for line in lines.iter().filter(|line| self::rank(line) == rank) {
                    if put(transaction, line)? {
                        // Of an entry its number; of a line of the plan it says nothing.
                        new.push((line, transaction.last_insert_rowid()));
                    }
                    work.one()?;
                }
            }
            drop(work);
            let mut work = Work::begin(Step::CheckImport, lines.len());
            // A trigger may take out again what was written.
            for line in lines {
                if !holds(transaction, line)? {
                    return Err(Fault::NotTaken);
                }
                work.one()?;
            }
            season::settle(transaction, id)?;
            share::log_own(transaction, seat.as_ref(), &new)?;
            Ok(Saved { new: new.len(), known: lines.len().saturating_sub(new.len()) })
        })
    }
}

pub(super) const LAST_RANK: u8 = 3;

/// The order lines are written in: those that make a code known first, then those that name codes, then entries.
pub(super) const fn rank(line: &Line) -> u8 {
    match line {
        Line::Site(_) | Line::Lot(_) | Line::Bench(_) => 0,
        Line::LotHistory(_) | Line::Placement(_) | Line::Order(_) | Line::Trial(_) => 1,
        Line::Plot(_) => 2,
        Line::Entry(_) => LAST_RANK,
    }
}

/// One record; true when it is new.
pub(super) fn put(connection: &Connection, line: &Line) -> Result<bool, Fault> {
    match (line, schema::plan_table(line.type_name())) {
        (Line::Entry(entry), _) => put_entry(connection, entry),
        (line, Some(table)) => put_plan(connection, table, line),
        (line, None) => Err(Fault::Refused(format!("{} has no table", line.key()))),
    }
}

fn put_plan(connection: &Connection, table: &'static RecordSchema, line: &Line) -> Result<bool, Fault> {
    match plan::find(connection, table, line.id())? {
        None => plan::insert(connection, table, line).map(|()| true),
        // As written: two instants may be equal in different offsets.
        Some(there) if codec::encode(&there) == codec::encode(line) => Ok(false),
        Some(_) if share::is_other(connection, line)? => Ok(false),
        Some(_) => Err(Fault::Conflict(line.key().to_string())),
    }
}

fn put_entry(connection: &Connection, entry: &Entry) -> Result<bool, Fault> {
    match entries::find(connection, entry.id)? {
        None => entries::insert(connection, entry).map(|()| true),
        Some((_, there)) if entries::same(&there, entry) => Ok(false),
        Some(_) if share::is_other(connection, &Line::Entry(entry.clone()))? => Ok(false),
        Some(_) => Err(Fault::Conflict(format!("entry {}", entry.id))),
    }
}
