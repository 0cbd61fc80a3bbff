//! A journal, or tables of the plan, into the season file, all or nothing.
//!
//! A sound journal is written line by line as it is read (`streamed`). Where something is not in order it is read whole, and every
//! fault of it is said.

mod streamed;

use super::share::Laptop;
use super::{SessionError, is_there};
use crate::files::{self, RECORDS_MOST};
use crate::journal::csv::{ReadSheet, read_plan};
use crate::journal::{self, FAULTS_SHOWN, Numbered, Reading};
use crate::progress::{self, Work};
use crate::record::codec::season_id;
use crate::record::{Entry, Line, NOBODY, Plan, Revision};
use crate::season::Season;
use crate::store::{Saved, Store, StoreError};
use crate::units::System;
use chrono::{DateTime, FixedOffset};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::io::Read;
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// What is imported.
#[derive(Debug, Clone)]
pub struct Source {
    /// What it is called in messages.
    pub(super) name: String,
    content: Content,
    /// A table of the plan (`.csv`), not a journal.
    table: bool,
}

/// What is read of it.
#[derive(Debug, Clone)]
enum Content {
    /// Its bytes.
    Bytes(Vec<u8>),
    /// An ordinary file that is not read yet, and what to give where it is none.
    File { path: PathBuf, advice: String },
}

impl Source {
    /// A file to be imported, as [`Source::file`]; a journal is only read as it is imported.
    ///
    /// # Errors
    /// As [`Source::file`].
    pub fn for_import(path: &Path, advice: &str) -> Result<Self, SessionError> {
        if is_table(path) {
            return Self::file(path, advice);
        }
        let failed = |error| SessionError::File { path: path.to_owned(), error };
        files::must_fit(path, RECORDS_MOST, advice).map_err(failed)?;
        let content = Content::File { path: path.to_owned(), advice: advice.to_owned() };
        Ok(Self { name: files::shown(path), content, table: false })
    }

    /// A file: a table of the plan where its name ends in `.csv`, else a journal. `advice` says what to give where it is no
    /// ordinary file.
    ///
    /// # Errors
    /// [`SessionError::File`] where it cannot be read or is larger than [`RECORDS_MOST`].
    pub fn file(path: &Path, advice: &str) -> Result<Self, SessionError> {
        let failed = |error| SessionError::File { path: path.to_owned(), error };
        let bytes = files::read(path, RECORDS_MOST, advice).map_err(failed)?;
        Ok(Self { name: files::shown(path), content: Content::Bytes(bytes), table: is_table(path) })
    }

    /// A table of the plan, whatever its name ends in.
    ///
    /// # Errors
    /// As [`Source::file`].
    pub fn table(path: &Path, advice: &str) -> Result<Self, SessionError> {
        Ok(Self { table: true, ..Self::file(path, advice)? })
    }

    /// A journal from a stream.
    ///
    /// # Errors
    /// [`SessionError::File`] where it cannot be read or more comes than [`RECORDS_MOST`].
    pub fn stream(name: &str, input: &mut dyn Read) -> Result<Self, SessionError> {
        let failed = |error| SessionError::File { path: name.into(), error };
        let bytes = files::read_stream(input, RECORDS_MOST).map_err(failed)?;
        Ok(Self { name: name.to_owned(), content: Content::Bytes(bytes), table: false })
    }

    /// The same with all of its bytes read.
    ///
    /// # Errors
    /// As [`Source::file`].
    fn whole(&self) -> Result<Cow<'_, Self>, SessionError> {
        match &self.content {
            Content::Bytes(_) => Ok(Cow::Borrowed(self)),
            Content::File { path, advice } => Self::file(path, advice).map(Cow::Owned),
        }
    }

    /// Its text, or the fault that it is none. Of one that is not read yet there is none.
    pub(super) fn text(&self) -> Result<&str, String> {
        let bytes = match &self.content {
            Content::Bytes(bytes) => bytes.as_slice(),
            Content::File { .. } => &[],
        };
        std::str::from_utf8(bytes).map_err(|error| {
            let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let line = good.split(|byte| *byte == b'\n').count();
            format!("line {line}: is not UTF-8 text; save the file as UTF-8")
        })
    }
}

fn is_table(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv"))
}

/// Who writes the lines that tables make, and when.
#[derive(Debug, Clone, Copy)]
pub struct Writer<'a> {
    /// Counts of a table that do not fit its lots were confirmed.
    pub confirmed: bool,
    /// Now, in the site's zone.
    pub at: DateTime<FixedOffset>,
    /// Who; empty where nobody said.
    pub by: &'a str,
    /// The laptop it is written on; what it writes into a shared season goes into its own stream.
    pub laptop: &'a Laptop,
}

impl Writer<'_> {
    /// Makes the lines of tables revisions of what is kept; one that is kept as it is stays the kept line.
    fn revise(&self, season: &Season, lines: &mut [Numbered]) {
        let season = season.on(self.at.date_naive());
        for line in lines.iter_mut().map(|numbered| &mut numbered.line) {
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
    let done = if source.table {
        import_tables(season, std::slice::from_ref(source), writer)
    } else {
        import_journal(season, source, writer.laptop)
    };
    done.map_err(of_a_command)
}

/// Reads tables of the plan that belong together, judges them against what is in the season file, and writes all of them in one
/// transaction. The file may be new, where the table of the site is among them.
///
/// # Errors
/// As [`import`]; a fault names its table where there are several.
pub fn import_plan(season: &Path, tables: &[Source], writer: &Writer<'_>) -> Result<Saved, SessionError> {
    import_tables(season, tables, writer).map_err(of_a_command)
}

/// Nothing of an import waits to be tried again.
fn of_a_command(error: SessionError) -> SessionError {
    match error {
        SessionError::Store(error) => SessionError::Store(error.of_a_command()),
        other => other,
    }
}

/// The first faults, and how many there are beside them.
type FaultTexts = (Vec<String>, usize);

fn import_journal(season: &Path, source: &Source, laptop: &Laptop) -> Result<Saved, SessionError> {
    let _whole = Work::whole();
    if let Some(saved) = streamed::import(season, source, laptop)? {
        return Ok(saved);
    }
    let source = source.whole()?;
    let refuse = |(faults, more): FaultTexts| SessionError::Journal { name: source.name.clone(), faults, more };
    let text = source.text().map_err(|fault| refuse((vec![fault], 0)))?;
    let reading = journal::read_all(text);
    // Before any fault is shown: half a journal has one of its own.
    progress::go_on().map_err(StoreError::from)?;
    let (store, plan, entries) = match there(season) {
        Ok(found) => found,
        // A bad journal is reported even where the season file cannot be read.
        Err(_) if !reading.faults.is_empty() => (None, Plan::default(), Vec::new()),
        Err(error) => return Err(error),
    };
    let named = reading.header.and_then(|header| header.season);
    let own = store.as_ref().map(Store::season_id).transpose()?.flatten();
    if let Some(fault) = other_season(&plan, own, named, &reading.lines, season) {
        return Err(refuse((vec![fault], 0)));
    }
    // What the journal of a season says was good where it was written.
    let kept = Season::new(plan, entries);
    let faults = judge(&kept, &reading, named.is_some());
    if !faults.0.is_empty() {
        return Err(refuse(faults));
    }
    // What is in the file just as it is written here was read from it, and stays: nothing is to be looked for once more.
    let is_kept = kept.kept_lines(&reading.lines.iter().map(|numbered| &numbered.line).collect::<Vec<_>>());
    drop(kept);
    let known = is_kept.iter().filter(|kept| **kept).count();
    let fresh = reading.lines.into_iter().zip(is_kept).filter(|(_, kept)| !kept).map(|(line, _)| line);
    let mut saved = write(season, store, (fresh, named), laptop)?;
    saved.known = saved.known.saturating_add(known);
    Ok(saved)
}

fn import_tables(season: &Path, tables: &[Source], writer: &Writer<'_>) -> Result<Saved, SessionError> {
    let _whole = Work::whole();
    let name = tables.iter().map(|source| source.name.as_str()).collect::<Vec<_>>().join(", ");
    let refuse = |(faults, more): FaultTexts| SessionError::Journal { name: name.clone(), faults, more };
    let label = |table: usize, fault: &str| match tables.get(table).filter(|_| tables.len() > 1) {
        Some(source) => format!("{}: {fault}", source.name),
        None => fault.to_owned(),
    };
    let mut texts = Vec::with_capacity(tables.len());
    for (at, source) in tables.iter().enumerate() {
        texts.push(source.text().map_err(|fault| refuse((vec![label(at, &fault)], 0)))?);
    }
    let (store, plan, entries) = there(season)?;
    let sheets = read_plan(&texts, &plan).map_err(|faults| {
        let each = faults.iter().enumerate().flat_map(|(at, faults)| faults.iter().map(move |fault| (at, fault)));
        let mut all: Vec<String> = each.map(|(at, fault)| label(at, &fault.to_string())).collect();
        let more = faults.iter().map(crate::journal::Faults::more).sum::<usize>();
        let beyond = all.len().saturating_sub(FAULTS_SHOWN);
        all.truncate(FAULTS_SHOWN);
        refuse((all, more.saturating_add(beyond)))
    })?;
    progress::go_on().map_err(StoreError::from)?;
    let mut lines: Vec<Numbered> = sheets.iter().flat_map(|sheet| sheet.lines.iter().cloned()).collect();
    writer.revise(&Season::new(plan.clone(), Vec::new()), &mut lines);
    let own = store.as_ref().map(Store::season_id).transpose()?.flatten();
    if let Some(fault) = other_season(&plan, own, None, &lines, season) {
        return Err(refuse((vec![fault], 0)));
    }
    let faults = judge_tables((plan, entries), (&sheets, &lines), writer.confirmed, &label);
    if !faults.0.is_empty() {
        return Err(refuse(faults));
    }
    write(season, store, (lines.into_iter(), None), writer.laptop)
}

/// The faults of tables against the season, each with its table, line and column; where there is none, the doubts.
fn judge_tables(
    (plan, entries): (Plan, Vec<Entry>),
    (sheets, lines): (&[ReadSheet], &[Numbered]),
    confirmed: bool,
    label: &dyn Fn(usize, &str) -> String,
) -> FaultTexts {
    // The table of each line, in the order of the lines.
    let tables: Vec<usize> =
        sheets.iter().enumerate().flat_map(|(at, sheet)| sheet.lines.iter().map(move |_| at)).collect();
    let at = |index: usize| (tables.get(index).copied().unwrap_or(0), lines.get(index).map_or(0, |n| n.number));
    let new: Vec<Line> = lines.iter().map(|numbered| numbered.line.clone()).collect();
    let siteless = plan.sites.is_empty() && !new.iter().any(|line| matches!(line, Line::Site(_)));
    let season = Season::new(plan, entries);
    let system = season.site().map_or(System::Metric, |site| site.units);
    let across = season.admit(&new, system).err().unwrap_or_default();
    let mut found: Vec<((usize, usize), String)> = across
        .into_iter()
        .map(|fault| {
            let (table, line) = at(fault.index);
            let column = |field: String| sheets.get(table).map_or(field.clone(), |s| s.column(&field).to_owned());
            let field = fault.field.map(|field| format!(", {}", column(field))).unwrap_or_default();
            ((table, line), format!("line {line}{field}: {}", fault.text))
        })
        .collect();
    if siteless && found.is_empty() {
        found.push(((0, 0), "there is no site yet; give the table of the site too".to_owned()));
    }
    if found.is_empty() && !confirmed {
        found.extend(doubts(&season, lines).into_iter().map(|(index, text)| (at(index), text)));
    }
    found.sort_by_key(|(place, _)| *place);
    let more = found.len().saturating_sub(FAULTS_SHOWN);
    (found.into_iter().take(FAULTS_SHOWN).map(|((table, _), text)| label(table, &text)).collect(), more)
}

/// Writes good lines, in one transaction.
fn write(
    season: &Path,
    store: Option<Store>,
    (lines, named): (impl Iterator<Item = Numbered>, Option<Uuid>),
    laptop: &Laptop,
) -> Result<Saved, SessionError> {
    let lines: Vec<Line> = lines.map(|numbered| numbered.line).collect();
    let (store, saved) = match store {
        None => Store::create_with(season, &lines, named)?,
        Some(mut store) => {
            laptop.sit(&mut store)?;
            let saved = store.append_of(&lines, named)?;
            (store, saved)
        }
    };
    store.close()?;
    Ok(saved)
}

/// Why a journal is of another season than the file, in words: its header names another, or, where it names none, its site is
/// another one.
fn other_season(
    plan: &Plan,
    own: Option<Uuid>,
    named: Option<Uuid>,
    lines: &[Numbered],
    path: &Path,
) -> Option<String> {
    let own = own?;
    let sites = lines.iter().map(|numbered| &numbered.line).filter(|line| matches!(line, Line::Site(_)));
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

/// Placements that make more pots of a lot than it has, by their place among the lines, each with what is to be said.
fn doubts(season: &Season, lines: &[Numbered]) -> Vec<(usize, String)> {
    let new = |code: &str| {
        lines.iter().find_map(|numbered| match &numbered.line {
            Line::Lot(lot) if lot.lot == code => Some(lot.pots),
            _ => None,
        })
    };
    let mut placed: BTreeMap<&str, u32> = BTreeMap::new();
    let mut found = Vec::new();
    for (index, numbered) in lines.iter().enumerate() {
        let Line::Placement(placement) = &numbered.line else { continue };
        let lot = placement.lot.as_str();
        let Some(pots) = new(lot).or_else(|| season.lot(lot).map(|lot| lot.pots)) else { continue };
        let all = placed.entry(lot).or_default();
        *all = all.saturating_add(placement.pots);
        if *all > pots {
            let text = format!(
                "line {}, pots: is {}, which makes {all} of lot {lot}, but it has {pots}; correct it, or import with --confirm",
                numbered.number, placement.pots
            );
            found.push((index, text));
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
fn judge(season: &Season, reading: &Reading, joined: bool) -> (Vec<String>, usize) {
    let new: Vec<&Line> = reading.lines.iter().map(|numbered| &numbered.line).collect();
    let siteless = season.plan().sites.is_empty() && !new.iter().any(|line| matches!(line, Line::Site(_)));
    let across = match (reading.faults.is_empty(), reading.plan_sound) {
        (true, _) if joined => season.check_join(&new),
        (true, _) => season.admit_each(&new, System::Metric).err().unwrap_or_default(),
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
