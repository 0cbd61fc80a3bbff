//! Saving lines as they come: a journal of any length in one transaction, all or nothing, without holding it.

use super::append::rank;
use super::error::{Fault, StoreError};
use super::guard::holds;
use super::known::Known;
use super::{Saved, Store, entries, plan, season, share};
use crate::record::{Entry, KindName, Line, codec, rules, schema};
use rusqlite::Connection;
use std::collections::VecDeque;
use std::fs;
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// How much of the file is kept in memory while it takes lines: the pages of its indexes, which are written to in no order. Below
/// zero, as the database has it, in kilobytes.
const PAGES: i64 = -12_000;

/// What becomes of what was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// It stays.
    Keep,
    /// Nothing of it stays.
    Drop,
}

/// A transaction that takes lines.
pub struct Taking<'t> {
    connection: &'t Connection,
    path: &'t Path,
    /// The own stream of a season that is shared.
    log: Option<share::OwnLog<'t>>,
    /// The number of the last entry before.
    before: i64,
    /// The entry that came last, where it was there before: most often the next one is the row after it.
    last: i64,
    /// Which entries of those before came already.
    came: Vec<bool>,
    /// Entries after it, read ahead.
    ahead: Ahead,
    saved: Saved,
    new_entries: usize,
    new_plan: Vec<Line>,
}

impl Store {
    /// Begins a new season file of lines that come one by one, those of the season with this id: whole, or not at all. `None` where
    /// they are to be dropped.
    ///
    /// # Errors
    /// As [`Store::create_with`], and those of `give`.
    pub fn create_taking(
        path: &Path,
        id: Option<Uuid>,
        give: impl FnOnce(&mut Taking<'_>) -> Result<Outcome, StoreError>,
    ) -> Result<Option<(Self, Saved)>, StoreError> {
        let mut dropped = false;
        let fill = |store: &mut Self| {
            let saved = store.append_taking(id, give)?;
            dropped = saved.is_none();
            // Ends the new file; what is said of it is not shown.
            saved.ok_or(StoreError::Stopped)
        };
        let new_folders = missing_above(path);
        let created = Self::create_by(path, fill, Self::open);
        if created.is_err() {
            for folder in new_folders {
                // One that holds something else by now stays.
                fs::remove_dir(folder).ok();
            }
        }
        if dropped { Ok(None) } else { created.map(Some) }
    }

    /// Writes lines down as they come, in one transaction. When this returns they are on the disk; `None` where they are to be
    /// dropped, and nothing was written. Each is checked by the rules of its own fields, as by [`Store::append`]; lines of the plan
    /// are to be given before the entries that name them.
    ///
    /// # Errors
    /// As [`Store::append_of`], and those of `give`; nothing was written.
    pub fn append_taking(
        &mut self,
        id: Option<Uuid>,
        give: impl FnOnce(&mut Taking<'_>) -> Result<Outcome, StoreError>,
    ) -> Result<Option<Saved>, StoreError> {
        let (seat, path) = (self.seat.clone(), self.path.clone());
        let pages = self.pages(PAGES)?;
        // What `give` said where it is no fault of this transaction.
        let mut said: Option<Result<(), StoreError>> = None;
        let done = self.save(|transaction| {
            let Some(mut taking) = Taking::begin(transaction, &path, seat.as_ref())? else {
                said = Some(Ok(()));
                return Err(Fault::NotTaken);
            };
            match give(&mut taking) {
                Ok(Outcome::Keep) => taking.end(id),
                Ok(Outcome::Drop) => {
                    said = Some(Ok(()));
                    Err(Fault::NotTaken)
                }
                Err(error) => {
                    said = Some(Err(error));
                    Err(Fault::NotTaken)
                }
            }
        });
        self.pages(pages)?;
        match said {
            Some(dropped) => dropped.map(|()| None),
            None => done.map(Some),
        }
    }

    /// Entries of some kinds, and all of plots of trials, in the order they were written.
    ///
    /// # Errors
    /// As [`Store::load`].
    pub fn entries_of(&self, kinds: &[KindName]) -> Result<Vec<Entry>, StoreError> {
        entries::of_kinds(&self.connection, kinds).map_err(|fault| fault.of(&self.path))
    }

    /// Sets how much of the file is kept in memory, as the database counts it; gives what it was.
    fn pages(&self, wanted: i64) -> Result<i64, StoreError> {
        let set = || -> Result<i64, rusqlite::Error> {
            let was = self.connection.pragma_query_value(None, "cache_size", |row| row.get(0))?;
            self.connection.pragma_update(None, "cache_size", wanted)?;
            Ok(was)
        };
        set().map_err(|error| Fault::Sql(error).of(&self.path))
    }
}

impl<'t> Taking<'t> {
    /// `None` where lines of one id with different content are kept: which one counts is to be known first.
    fn begin(connection: &'t Connection, path: &'t Path, seat: Option<&'t share::Seat>) -> Result<Option<Self>, Fault> {
        if !share::least_of(connection)?.is_empty() {
            return Ok(None);
        }
        let before = entries::last(connection)?;
        let came = vec![false; usize::try_from(before).unwrap_or(0).saturating_add(1)];
        Ok(Some(Self {
            connection,
            path,
            log: share::OwnLog::of(connection, seat)?,
            before,
            last: 0,
            came,
            ahead: Ahead::default(),
            saved: Saved::default(),
            new_entries: 0,
            new_plan: Vec::new(),
        }))
    }

    /// Takes lines of the plan, each given once. False where one is there with other content.
    ///
    /// # Errors
    /// As [`Store::append`].
    pub fn plan(&mut self, lines: &[&Line]) -> Result<bool, StoreError> {
        let mut lines = lines.to_vec();
        lines.sort_by_key(|line| rank(line));
        for line in lines {
            match self.plan_line(line) {
                Ok(true) => {}
                other => return self.said(other),
            }
        }
        Ok(true)
    }

    fn plan_line(&mut self, line: &Line) -> Result<bool, Fault> {
        let Some(table) = schema::plan_table(line.type_name()) else { return Ok(false) };
        match plan::find(self.connection, table, line.id())? {
            Some(there) if codec::encode(&there) == codec::encode(line) => {
                self.saved.known += 1;
                return Ok(true);
            }
            Some(_) => return Ok(false),
            None => {}
        }
        if let Some(fault) = rules::check_line(line).into_iter().next() {
            return Err(Fault::Refused(format!("{}: {}", fault.field, fault.text)));
        }
        plan::insert(self.connection, table, line)?;
        if let Some(log) = &mut self.log {
            log.line(line)?;
        }
        self.saved.new += 1;
        self.new_plan.push(line.clone());
        Ok(true)
    }

    /// Takes an entry. False where it is there with other content.
    ///
    /// # Errors
    /// As [`Store::append`].
    pub fn entry(&mut self, entry: &Entry) -> Result<bool, StoreError> {
        let taken = self.put_entry(entry);
        self.said(taken)
    }

    fn put_entry(&mut self, entry: &Entry) -> Result<bool, Fault> {
        // In a file that had none most of them are new.
        if self.before > 0
            && let Some(there) = self.find(entry.id)?
        {
            return Ok(self.came(&there, entry));
        }
        if let Some(fault) = rules::check_entry(entry).into_iter().next() {
            return Err(Fault::Refused(format!("{}: {}", fault.field, fault.text)));
        }
        if let Err(fault) = entries::insert(self.connection, entry) {
            // One that is there is refused by the file itself.
            let there = if fault.is_refused_row() { self.find(entry.id)? } else { None };
            return there.map(|there| self.came(&there, entry)).ok_or(fault);
        }
        if let Some(log) = &mut self.log {
            log.entry(entry, self.connection.last_insert_rowid())?;
        }
        self.saved.new += 1;
        self.new_entries += 1;
        Ok(true)
    }

    /// Counts an entry that is there; false where it has other content.
    fn came(&mut self, (seq, there): &(i64, Entry), entry: &Entry) -> bool {
        if !entries::same(there, entry) {
            return false;
        }
        // One that was written by this transaction came twice, and is counted already.
        if let Some(came) = usize::try_from(*seq).ok().and_then(|seq| self.came.get_mut(seq))
            && !std::mem::replace(came, true)
        {
            self.saved.known += 1;
        }
        true
    }

    /// The entry of this id, taken or there before.
    ///
    /// # Errors
    /// As [`Store::append`].
    pub fn there(&self, id: Uuid) -> Result<Option<Entry>, StoreError> {
        let found = entries::find(self.connection, id);
        self.said(found.map(|found| found.map(|(_, entry)| entry)))
    }

    /// The entry of this id with its number. A journal that was written from the file, or was read into it, has the entries in the
    /// order they stand there.
    fn find(&mut self, id: Uuid) -> Result<Option<(i64, Entry)>, Fault> {
        if self.last < self.before
            && let Some(found) = self.ahead.next_is(self.connection, (self.last, id))?
        {
            self.last = found.0;
            return Ok(Some(found));
        }
        let found = entries::find(self.connection, id)?;
        if let Some((seq, _)) = found.as_ref().filter(|(seq, _)| *seq <= self.before) {
            self.last = *seq;
            self.ahead.turn_away();
        }
        Ok(found)
    }

    /// Makes sure that all of it is there, and gives the file its season.
    fn end(self, id: Option<Uuid>) -> Result<Saved, Fault> {
        // A trigger may take out again what was written.
        if entries::count_after(self.connection, self.before)? != self.new_entries {
            return Err(Fault::NotTaken);
        }
        for line in &self.new_plan {
            if !holds(self.connection, line)? {
                return Err(Fault::NotTaken);
            }
        }
        season::settle(self.connection, id)?;
        Ok(self.saved)
    }

    fn said<T>(&self, done: Result<T, Fault>) -> Result<T, StoreError> {
        done.map_err(|fault| fault.of(self.path))
    }
}

/// Entries read ahead of the one that came last: the more of them in one go, the longer the journal has the order of the file.
#[derive(Debug, Default)]
struct Ahead {
    entries: VecDeque<(i64, Entry)>,
    /// How many were read at once.
    many: i64,
    known: Known,
}

impl Ahead {
    /// The entry after the one numbered `after`, with its number, where it has this id.
    fn next_is(&mut self, connection: &Connection, (after, id): (i64, Uuid)) -> Result<Option<(i64, Entry)>, Fault> {
        if self.entries.is_empty() {
            self.many = self.many.saturating_mul(2).clamp(1, entries::AT_ONCE);
            self.entries = entries::numbered(connection, (after, self.many), &mut self.known)?.into();
        }
        Ok(self.entries.pop_front_if(|(_, next)| next.id == id))
    }

    /// Another one came than the next.
    fn turn_away(&mut self) {
        self.entries.clear();
        self.many = 0;
    }
}

/// The folders above a path that are not there, the innermost first.
fn missing_above(path: &Path) -> Vec<PathBuf> {
    let missing = |folder: &&Path| !folder.as_os_str().is_empty() && folder.symlink_metadata().is_err();
    path.ancestors().skip(1).take_while(missing).map(Path::to_owned).collect()
}
