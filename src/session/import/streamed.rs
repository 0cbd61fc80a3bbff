//! The import of a sound journal: each line is read, checked and written before the next is read, so that a journal of any length
//! takes little memory. All in one transaction, which is dropped at the first thing that is not in order.
//!
//! What a line says by itself is checked as it comes. Of the rest the plan is held, and of the entries those that bear on the check
//! of other lines ([`Season::bears`]) with one of each place: whatever is wrong with an entry beyond that is wrong with its place.

use super::super::{SessionError, is_there};
use super::{Laptop, Source, other_season};
use crate::files;
use crate::journal::{Next, Streamed};
use crate::progress::{Step, Work, is_watched};
use crate::record::{Entry, Kind, Line, Place};
use crate::season::Season;
use crate::store::{Outcome, Saved, Store, StoreError, Taking};
use crate::units::System;
use std::collections::HashSet;
use std::io::{self, BufRead};
use std::path::Path;
use uuid::Uuid;

/// What is held of a journal until its end.
#[derive(Default)]
struct Held {
    /// Entries to be checked with the plan.
    entries: Vec<Line>,
    places: HashSet<Place>,
    /// Entries that strikes name.
    struck: Vec<Uuid>,
    /// Lines of the plan that were written.
    written: usize,
}

/// Reads a journal and writes it, in one transaction; `None`, and nothing written, where something is not in order.
///
/// # Errors
/// [`SessionError::Store`] where the work was stopped, or the season file is no longer the one that was opened.
pub(super) fn import(season: &Path, source: &Source, laptop: &Laptop) -> Result<Option<Saved>, SessionError> {
    let Ok(lines) = source.lines() else { return Ok(None) };
    let Ok(input) = source.reader() else { return Ok(None) };
    let Ok(Some(journal)) = Streamed::begin(input) else { return Ok(None) };
    let named = journal.header().season;
    let (mut work, is_new) = (Work::begin(Step::Import, lines), !is_there(season)?);
    if is_new {
        let kept = (Season::default(), None);
        let give = |taking: &mut Taking<'_>| take(journal, taking, (&kept, season), &mut work);
        let Some((store, saved)) = or_whole(Store::create_taking(season, named, give))? else { return Ok(None) };
        store.close()?;
        return Ok(Some(saved));
    }
    // What is wrong with the file is said with what is wrong with the journal.
    let Ok(mut store) = Store::open(season) else { return Ok(None) };
    laptop.sit(&mut store)?;
    let kept = (Season::new(store.load_plan()?, store.entries_of(&Season::BEARING)?), store.season_id()?);
    let give = |taking: &mut Taking<'_>| take(journal, taking, (&kept, season), &mut work);
    let saved = or_whole(store.append_taking(named, give))?;
    store.close()?;
    Ok(saved)
}

/// What went wrong is met again where the journal is read whole, after what is wrong with the journal. Only what is not to be tried
/// once more is said at once.
fn or_whole<T>(done: Result<Option<T>, StoreError>) -> Result<Option<T>, StoreError> {
    match done {
        Err(error @ (StoreError::Stopped | StoreError::Replaced { .. })) => Err(error),
        done => Ok(done.unwrap_or_default()),
    }
}

/// Gives the lines of a journal, and judges them.
fn take<R: BufRead>(
    mut journal: Streamed<R>,
    taking: &mut Taking<'_>,
    ((kept, own), season): (&(Season, Option<Uuid>), &Path),
    work: &mut Work,
) -> Result<Outcome, StoreError> {
    let mut held = Held::default();
    loop {
        // A file that stops to be readable is read once more, and said.
        let Ok(next) = journal.read_next() else { return Ok(Outcome::Drop) };
        match next {
            Next::Plan => {}
            Next::Entry(entry) => {
                // What the entries name is there first.
                if !held.write_plan(&journal, taking)? || !taking.entry(&entry)? {
                    return Ok(Outcome::Drop);
                }
                held.keep(entry);
            }
            Next::End => break,
            Next::Fault => return Ok(Outcome::Drop),
        }
        work.one()?;
    }
    if !held.write_plan(&journal, taking)? {
        return Ok(Outcome::Drop);
    }
    let (plan, named) = (journal.plan(), journal.header().season);
    if other_season(kept.plan(), *own, named, plan, season).is_some() {
        return Ok(Outcome::Drop);
    }
    for numbered in plan {
        // One id is one line.
        if taking.there(numbered.line.id())?.is_some() {
            return Ok(Outcome::Drop);
        }
    }
    for id in held.struck {
        if kept.entry(id).is_none() {
            let Some(struck) = taking.there(id)? else { return Ok(Outcome::Drop) };
            held.entries.push(Line::Entry(struck));
        }
    }
    let all: Vec<&Line> = plan.iter().map(|numbered| &numbered.line).chain(&held.entries).collect();
    let has_site = !kept.plan().sites.is_empty() || all.iter().any(|line| matches!(line, Line::Site(_)));
    let sound = match named {
        // What the journal of a season says was good where it was written.
        Some(_) => kept.check_join(&all).is_empty(),
        None => kept.admit_each(&all, System::Metric).is_ok(),
    };
    Ok(if has_site && sound { Outcome::Keep } else { Outcome::Drop })
}

impl Held {
    /// Writes the lines of the plan that came since the last time; false where one is there with other content.
    fn write_plan<R: BufRead>(&mut self, journal: &Streamed<R>, taking: &mut Taking<'_>) -> Result<bool, StoreError> {
        let new = journal.plan().get(self.written..).unwrap_or_default();
        self.written = journal.plan().len();
        if new.is_empty() {
            return Ok(true);
        }
        taking.plan(&new.iter().map(|numbered| &numbered.line).collect::<Vec<_>>())
    }

    /// Keeps what of an entry is to be checked with the plan.
    fn keep(&mut self, entry: Entry) {
        if let Kind::Strike { entry: struck, .. } = &*entry.kind {
            self.struck.push(*struck);
        }
        if Season::bears(&entry) {
            self.entries.push(Line::Entry(entry));
        } else if !self.places.contains(&entry.place) {
            self.places.insert(entry.place.clone());
            self.entries.push(Line::Entry(entry));
        }
    }
}

impl Source {
    /// How many lines it has, where somebody wants to know how far it is read.
    fn lines(&self) -> io::Result<usize> {
        if !is_watched() {
            return Ok(0);
        }
        let (mut input, mut lines) = (self.reader()?, 0_usize);
        loop {
            let part = input.fill_buf()?;
            let length = part.len();
            if length == 0 {
                return Ok(lines);
            }
            lines = lines.saturating_add(part.split(|byte| *byte == b'\n').count().saturating_sub(1));
            input.consume(length);
        }
    }

    /// Reads it from its beginning.
    fn reader(&self) -> io::Result<Box<dyn BufRead + '_>> {
        match &self.content {
            super::Content::Bytes(bytes) => Ok(Box::new(bytes.as_slice())),
            super::Content::File { path, advice } => {
                Ok(Box::new(io::BufReader::with_capacity(BUFFER, files::open(path, advice)?)))
            }
        }
    }
}

/// Bytes of a file that are read at once.
const BUFFER: usize = 64 * 1024;
