//! A journal, or a list of benches, into the season file, all or nothing.

use super::{SessionError, is_there};
use crate::files::{self, RECORDS_MOST};
use crate::journal::{self, FAULTS_SHOWN, Reading};
use crate::progress::{self, Work};
use crate::record::codec::season_id;
use crate::record::{Entry, Line, NOBODY, Plan, Revision};
use crate::season::Season;
use crate::store::{Saved, Store, StoreError};
use crate::units::System;
use chrono::{DateTime, FixedOffset};
use std::collections::BTreeMap;
use std::io::Read;
use std::path::Path;
use uuid::Uuid;

/// What is imported.
#[derive(Debug, Clone)]
pub struct Source {
    /// What it is called in messages.
    name: String,
    /// Its bytes.
    bytes: Vec<u8>,
    /// A list of benches (`.csv`), not a journal.
    benches: bool,
}

impl Source {
    /// A file: a list of benches where its name ends in `.csv`, else a journal. `advice` says what to give where it is no
    /// ordinary file.
    ///
    /// # Errors
    /// [`SessionError::File`] where it cannot be read or is larger than [`RECORDS_MOST`].
    pub fn file(path: &Path, advice: &str) -> Result<Self, SessionError> {
        let failed = |error| SessionError::File { path: path.to_owned(), error };
        let bytes = files::read(path, RECORDS_MOST, advice).map_err(failed)?;
        let benches = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("csv"));
        Ok(Self { name: files::shown(path), bytes, benches })
    }

    /// A journal from a stream.
    ///
    /// # Errors
    /// [`SessionError::File`] where it cannot be read or more comes than [`RECORDS_MOST`].
    pub fn stream(name: &str, input: &mut dyn Read) -> Result<Self, SessionError> {
        let failed = |error| SessionError::File { path: name.into(), error };
        let bytes = files::read_stream(input, RECORDS_MOST).map_err(failed)?;
        Ok(Self { name: name.to_owned(), bytes, benches: false })
    }

    /// Its text, or the fault that it is none.
    fn text(&self) -> Result<&str, String> {
        std::str::from_utf8(&self.bytes).map_err(|error| {
            let good = self.bytes.get(..error.valid_up_to()).unwrap_or_default();
            let line = good.split(|byte| *byte == b'\n').count();
            format!("line {line}: is not UTF-8 text; save the file as UTF-8")
        })
    }
}

/// Who writes the lines that a list of benches makes, and when.
#[derive(Debug, Clone, Copy)]
pub struct Writer<'a> {
    /// Counts of a list that do not fit its lots were confirmed.
    pub confirmed: bool,
    /// Now, in the site's zone.
    pub at: DateTime<FixedOffset>,
    /// Who; empty where nobody said.
    pub by: &'a str,
}

impl Writer<'_> {
    /// Makes the lines of a list revisions of what is kept; one that is kept as it is stays the kept line.
    fn revise(&self, season: &Season, reading: &mut Reading) {
        let season = season.on(self.at.date_naive());
        for line in reading.lines.iter_mut().map(|numbered| &mut numbered.line) {
            let key = line.key();
            if let Some(kept) = season.line(&key).filter(|kept| kept.content() == line.content()) {
                *line = kept;
                continue;
            }
            let mut replaces: Vec<Uuid> = season.heads(&key).iter().map(Line::id).collect();
            replaces.sort_unstable();
            if let Some(revision) = line.revision_mut() {
                *revision = Revision {
                    at: Some(self.at),
                    by: Some(if self.by.is_empty() { NOBODY } else { self.by }.to_owned()),
                    replaces: Some(replaces),
                    ..Revision::default()
                };
            }
            let id = line.id();
            if let Some(revision) = line.revision_mut() {
                revision.id = Some(id);
            }
        }
    }
}

/// Reads the source, judges it against what is in the season file, and writes it in one transaction. The file may be new.
///
/// # Errors
/// [`SessionError::Journal`] with every fault of the source; [`SessionError::Store`] for the season file. Nothing was written.
pub fn import(season: &Path, source: &Source, writer: &Writer<'_>) -> Result<Saved, SessionError> {
    import_whole(season, source, writer).map_err(|error| match error {
        // Nothing of an import waits to be tried again.
        SessionError::Store(error) => SessionError::Store(error.of_a_command()),
        other => other,
    })
}

fn import_whole(season: &Path, source: &Source, writer: &Writer<'_>) -> Result<Saved, SessionError> {
    let _whole = Work::whole();
    let refuse =
        |(faults, more): (Vec<String>, usize)| SessionError::Journal { name: source.name.clone(), faults, more };
    let text = source.text().map_err(|fault| refuse((vec![fault], 0)))?;
    // A list of benches is read against the plan that is there, a journal by itself.
    let mut reading = if source.benches { Reading::default() } else { journal::read_all(text) };
    // Before any fault is shown: half a journal has one of its own.
    progress::go_on().map_err(StoreError::from)?;
    let (store, plan, entries) = match there(season) {
        Ok(found) => found,
        // A bad journal is reported even where the season file cannot be read.
        Err(_) if !reading.faults.is_empty() => (None, Plan::default(), Vec::new()),
        Err(error) => return Err(error),
    };
    if source.benches {
        reading = journal::csv::read_benches(text, &plan).map_or_else(
            |faults| Reading { faults, ..Reading::default() },
            |lines| Reading { lines, plan_sound: true, ..Reading::default() },
        );
        writer.revise(&Season::new(plan.clone(), Vec::new()), &mut reading);
    }
    let named = reading.header.and_then(|header| header.season);
    let own = store.as_ref().map(Store::season_id).transpose()?.flatten();
    if let Some(fault) = other_season(&plan, own, named, &reading, season) {
        return Err(refuse((vec![fault], 0)));
    }
    // What the journal of a season says was good where it was written.
    let joined = named.is_some();
    let doubted = source.benches && !writer.confirmed && reading.faults.is_empty();
    let doubts = if doubted { doubts(&plan, &reading) } else { Vec::new() };
    let mut faults = judge(plan, entries, &reading, joined);
    if faults.0.is_empty() {
        faults.0 = doubts;
    }
    if !faults.0.is_empty() {
        return Err(refuse(faults));
    }
    let lines: Vec<Line> = reading.lines.into_iter().map(|numbered| numbered.line).collect();
    let (store, saved) = match store {
        None => Store::create_with(season, &lines, named)?,
        Some(mut store) => {
            let saved = store.append_of(&lines, named)?;
            (store, saved)
        }
    };
    store.close()?;
    Ok(saved)
}

/// Why a journal is of another season than the file, in words: its header names another, or, where it names none, its site is
/// another one.
fn other_season(plan: &Plan, own: Option<Uuid>, named: Option<Uuid>, reading: &Reading, path: &Path) -> Option<String> {
    let own = own?;
    let sites = reading.lines.iter().map(|numbered| &numbered.line).filter(|line| matches!(line, Line::Site(_)));
    let first = sites.min_by_key(|line| line.order());
    let name = |line: Option<&Line>| match line {
        Some(Line::Site(site)) => site.name.clone(),
        _ => "another site".to_owned(),
    };
    let here = plan.sites.iter().cloned().map(Line::Site).min_by_key(Line::order);
    let other = match named {
        Some(named) => named != own,
        None => first.is_some_and(|line| season_id(line.id()) != own && name(Some(line)) != name(here.as_ref())),
    };
    other.then(|| {
        format!(
            "this is the journal of {}, and {} holds the season of {}; they are two seasons: name another file with --season",
            name(first),
            files::shown(path),
            name(here.as_ref())
        )
    })
}

/// Lines of a list with more pots of a lot than it has.
fn doubts(plan: &Plan, reading: &Reading) -> Vec<String> {
    let season = Season::new(plan.clone(), Vec::new());
    let mut placed: BTreeMap<&str, u32> = BTreeMap::new();
    let mut found = Vec::new();
    for numbered in &reading.lines {
        let Line::Placement(placement) = &numbered.line else { continue };
        let Some(lot) = season.lot(&placement.lot) else { continue };
        let all = placed.entry(placement.lot.as_str()).or_default();
        *all = all.saturating_add(placement.pots);
        if *all > lot.pots {
            let text = format!(
                "line {}, pots: is {}, which makes {all} of lot {}, but it has {}; correct it, or import with --confirm",
                numbered.number, placement.pots, lot.lot, lot.pots
            );
            found.push(text);
        }
    }
    found.truncate(FAULTS_SHOWN);
    found
}

/// What is in the season file; nothing where there is none.
fn there(path: &Path) -> Result<(Option<Store>, Plan, Vec<Entry>), SessionError> {
    let store = if is_there(path)? { Some(Store::open(path)?) } else { None };
    let (plan, entries) = store.as_ref().map(Store::load).transpose()?.unwrap_or_default();
    Ok((store, plan, entries))
}

/// The faults, of lines and across them, by line, and how many there are beside them. Where entries are no good in themselves the others are judged only by
/// what they name; where a plan line is no good, not even by that.
fn judge(plan: Plan, entries: Vec<Entry>, reading: &Reading, joined: bool) -> (Vec<String>, usize) {
    let new: Vec<Line> = reading.lines.iter().map(|numbered| numbered.line.clone()).collect();
    let siteless = plan.sites.is_empty() && !new.iter().any(|line| matches!(line, Line::Site(_)));
    let season = Season::new(plan, entries);
    let across = match (reading.faults.is_empty(), reading.plan_sound) {
        (true, _) if joined => season.check_join(&new),
        (true, _) => season.admit(&new, System::Metric).err().unwrap_or_default(),
        (false, true) => season.check_names(&new),
        (false, false) => Vec::new(),
    };
    let mut faults: Vec<(usize, String)> = reading.faults.iter().map(|f| (f.line, f.to_string())).collect();
    faults.extend(across.into_iter().map(|fault| {
        let number = reading.lines.get(fault.index).map_or(0, |numbered| numbered.number);
        let field = fault.field.map(|field| format!(", {field}")).unwrap_or_default();
        (number, format!("line {number}{field}: {}", fault.text))
    }));
    if siteless && faults.is_empty() {
        faults.push((0, "there is no site line; a season begins with one".to_owned()));
    }
    // Stable: of one line in the order they were found.
    faults.sort_by_key(|(number, _)| *number);
    let more = faults.len().saturating_sub(FAULTS_SHOWN).saturating_add(reading.faults.more());
    (faults.into_iter().take(FAULTS_SHOWN).map(|(_, text)| text).collect(), more)
}
