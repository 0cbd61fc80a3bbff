//! The journals of what is not in a season file: written as soon as a save fails, offered at the next start, removed when
//! their lines are in.
//!
//! They lie in the state folder, which need not be on the disk of the season file, named after the file. A running program holds
//! a lock on its own, so that another one does not take them for left behind; the lock goes with the program, however that ends.

use crate::journal;
use crate::model::Rescued;
use crate::record::{Entry, Line, Plan};
use crate::run::{Part, Rescue};
use chrono::{DateTime, Utc};
use sha2::{Digest, Sha256};
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use tempfile::NamedTempFile;
use uuid::Uuid;

/// What an unfinished journal is called until it is whole.
const UNFINISHED: &str = ".unfinished-";
/// Journals with one name: more than one only where a clock stands still.
const MOST_NAMES: u32 = 100;

/// The journals of one run.
#[derive(Debug)]
pub struct RescueJournals {
    folder: PathBuf,
    started: DateTime<Utc>,
    state: Mutex<State>,
}

#[derive(Debug, Default)]
struct State {
    season: PathBuf,
    id: Option<Uuid>,
    waiting: Option<Kept>,
    refused: Option<Kept>,
}

/// A journal as it lies there. Its file is locked while it is open.
#[derive(Debug)]
struct Kept {
    path: PathBuf,
    text: String,
    _locked: File,
}

impl RescueJournals {
    /// None yet. They are to lie in the state folder.
    pub fn new(state_folder: &Path, started: DateTime<Utc>) -> Self {
        Self { folder: folder(state_folder), started, state: Mutex::default() }
    }

    /// Says which season they are of; its id goes into their header, so that they join it.
    pub fn set_season(&self, path: &Path, id: Option<Uuid>) {
        let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        (state.season, state.id) = (path.to_owned(), id);
    }

    fn name(&self, season: &Path, part: Part, number: u32) -> PathBuf {
        let stem = season.file_stem().unwrap_or_default().to_string_lossy();
        let plain = |c: char| if c.is_ascii_alphanumeric() || c == '-' { c } else { '_' };
        let stem: String = stem.chars().map(plain).take(40).collect();
        let started = self.started.format("%Y%m%dT%H%M%SZ");
        let refused = if part == Part::Refused { "-refused" } else { "" };
        let number = if number == 0 { String::new() } else { format!("-{number}") };
        let process = std::process::id();
        self.folder.join(format!("{stem}-{}-{started}-{process}{refused}{number}.jsonl", mark(season)))
    }

    fn write(&self, season: &Path, part: Part, text: String, kept: Option<Kept>) -> io::Result<Kept> {
        let file = written_beside(&self.folder, &text)?;
        let (path, file) = match kept {
            Some(kept) => (kept.path.clone(), file.persist(&kept.path).map_err(|error| error.error)?),
            None => self.publish(season, part, file)?,
        };
        sync_folder(&self.folder)?;
        Ok(Kept { path, text, _locked: file })
    }

    /// Gives a new journal its name, which is never that of another one.
    fn publish(&self, season: &Path, part: Part, mut file: NamedTempFile) -> io::Result<(PathBuf, File)> {
        for number in 0..MOST_NAMES {
            let path = self.name(season, part, number);
            match file.persist_noclobber(&path) {
                Ok(file) => return Ok((path, file)),
                Err(refused) if refused.error.kind() == ErrorKind::AlreadyExists => file = refused.file,
                Err(refused) => return Err(refused.error),
            }
        }
        Err(ErrorKind::AlreadyExists.into())
    }
}

impl Rescue for RescueJournals {
    fn keep(&self, part: Part, lines: &[Line]) -> Result<(), String> {
        let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        let State { season, id, waiting, refused } = &mut *state;
        let slot = if part == Part::Waiting { waiting } else { refused };
        if lines.is_empty() {
            return slot.take().map_or(Ok(()), |kept| remove(&kept.path)).map_err(|error| error.to_string());
        }
        let text = text_of(*id, lines);
        if slot.as_ref().is_some_and(|kept| kept.text == text && kept.path.exists()) {
            return Ok(());
        }
        let before = slot.take().filter(|kept| kept.path.exists());
        *slot = Some(self.write(season, part, text, before).map_err(|error| error.to_string())?);
        Ok(())
    }

    fn paths(&self) -> Vec<String> {
        let state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        let kept = [&state.waiting, &state.refused].into_iter().flatten();
        kept.map(|kept| kept.path.display().to_string()).collect()
    }
}

/// Lines as a journal of the season of this id.
pub fn text_of(id: Option<Uuid>, lines: &[Line]) -> String {
    let mut plan = Plan::default();
    let entries: Vec<Entry> = lines.iter().cloned().filter_map(|line| plan.keep(line)).collect();
    journal::write(id, &plan, &entries)
}

/// The journals that earlier runs left of a season, oldest first: those of its id, and those named after its file that name no
/// season. What a program that still runs holds is not among them.
pub fn left_behind(state_folder: &Path, season: &Path, id: Option<Uuid>) -> Vec<Rescued> {
    let Ok(there) = fs::read_dir(folder(state_folder)) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = there.flatten().map(|entry| entry.path()).collect();
    paths.sort();
    let mark = format!("-{}-", mark(season));
    let mut found = Vec::new();
    for path in paths.into_iter().filter(|path| path.is_file() && !is_held(path)) {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if name.starts_with(UNFINISHED) {
            // Of a program that was ended while it wrote; what it held was never whole.
            fs::remove_file(&path).ok();
        }
        let Some(text) = name.ends_with(".jsonl").then(|| fs::read_to_string(&path).ok()).flatten() else { continue };
        let reading = journal::read_all(&text);
        let named = reading.header.and_then(|header| header.season);
        let same = match (named, id) {
            (Some(named), Some(id)) => named == id,
            _ => name.contains(&mark),
        };
        if same {
            let lines = reading.lines.into_iter().map(|numbered| numbered.line).collect();
            found.push(Rescued { path: path.display().to_string(), lines });
        }
    }
    found
}

/// Removes the journal of an earlier run once it is in; any other file is left alone.
///
/// # Errors
/// When it cannot be removed.
pub fn taken(state_folder: &Path, journal: &Path) -> io::Result<()> {
    let inside = |path: &Path| path.parent().and_then(|parent| parent.canonicalize().ok());
    let ours = inside(journal).is_some() && inside(journal) == folder(state_folder).canonicalize().ok();
    if ours && !is_held(journal) { remove(journal) } else { Ok(()) }
}

fn folder(state_folder: &Path) -> PathBuf {
    state_folder.join("unsaved")
}

/// Eight hexadecimal digits that stand for the full path of a season file.
fn mark(season: &Path) -> String {
    let whole = season.canonicalize().or_else(|_| {
        let full = std::path::absolute(season)?;
        let name = full.file_name().unwrap_or_default();
        full.parent().unwrap_or(&full).canonicalize().map(|folder| folder.join(name))
    });
    let whole = whole.unwrap_or_else(|_| season.to_owned());
    let hash = Sha256::digest(whole.as_os_str().as_encoded_bytes());
    hash.iter().take(4).map(|byte| format!("{byte:02x}")).collect()
}

/// True where a running program holds this file. Where files cannot be locked nothing is held.
fn is_held(path: &Path) -> bool {
    File::open(path).is_ok_and(|file| matches!(file.try_lock(), Err(TryLockError::WouldBlock)))
}

/// The text in a locked file without a name of its own yet, on the disk, for the user alone.
fn written_beside(folder: &Path, text: &str) -> io::Result<NamedTempFile> {
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    {
        use std::os::unix::fs::DirBuilderExt;
        builder.mode(0o700);
    }
    builder.create(folder)?;
    let mut file = tempfile::Builder::new().prefix(UNFINISHED).tempfile_in(folder)?;
    // Where files cannot be locked the journal is offered once too often, and importing it again changes nothing.
    file.as_file().try_lock().ok();
    file.write_all(text.as_bytes())?;
    file.as_file().sync_all()?;
    Ok(file)
}

/// Removes a journal; one that is gone already is as good as removed.
fn remove(path: &Path) -> io::Result<()> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
        _ => path.parent().map_or(Ok(()), sync_folder),
    }
}

/// Makes a new name, or a removal, last.
fn sync_folder(folder: &Path) -> io::Result<()> {
    #[cfg(unix)]
    File::open(folder)?.sync_all()?;
    #[cfg(not(unix))]
    let _folder = folder;
    Ok(())
}
