//! The journals of what is not in a season file: written as soon as a save fails, offered at the next start, removed when
//! their lines are in.
//!
//! They lie in the state folder, which need not be on the disk of the season file, named after the file. A running program holds
//! a lock on its own, so that another one does not take them for left behind; the lock goes with the program, however that ends.

use super::path_mark::mark;
use crate::files::{self, sync_folder};
use crate::journal;
use crate::model::Rescued;
use crate::record::{Entry, Line, Plan};
use crate::run::{Part, Rescue};
use crate::store::Store;
use chrono::{DateTime, Utc};
use std::collections::HashSet;
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use tempfile::NamedTempFile;
use uuid::Uuid;

/// What an unfinished journal is called until it is whole.
const UNFINISHED: &str = ".unfinished-";
/// In the name of a journal of what was refused.
const REFUSED: &str = "-refused";
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
    locked: Option<File>,
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
        let refused = if part == Part::Refused { REFUSED } else { "" };
        let number = if number == 0 { String::new() } else { format!("-{number}") };
        let process = std::process::id();
        self.folder.join(format!("{stem}-{}-{started}-{process}{refused}{number}.jsonl", mark(season)))
    }

    fn write(&self, season: &Path, part: Part, text: String, before: Option<&mut Kept>) -> io::Result<Kept> {
        let file = written_beside(&self.folder, &text)?;
        let (path, file) = if let Some(before) = before {
            file.as_file().sync_all()?;
            if cfg!(windows) {
                // There no file is replaced that somebody has open. Not held for this moment it is offered once too often at worst.
                drop(before.locked.take());
            }
            let named = file.persist(&before.path).map_err(|refused| refused.error);
            (before.path.clone(), named.inspect_err(|_| before.locked = held(&before.path))?)
        } else {
            // A first journal gets its name before the disk has it: a program that is ended while the disk is slow leaves it.
            let (path, file) = self.publish(season, part, file)?;
            file.sync_all().inspect_err(|_| drop(remove(&path)))?;
            (path, file)
        };
        sync_folder(&self.folder)?;
        Ok(Kept { path, text, locked: Some(file) })
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
            return slot.take().map_or(Ok(()), |kept| remove(&kept.path)).map_err(|error| reason(&error));
        }
        let text = text_of(*id, lines);
        if slot.as_ref().is_some_and(|kept| kept.text == text && kept.path.exists()) {
            return Ok(());
        }
        // Until the new one is there the old one stays, and is still held.
        let before = slot.as_mut().filter(|kept| kept.path.exists());
        *slot = Some(self.write(season, part, text, before).map_err(|error| reason(&error))?);
        Ok(())
    }

    fn paths(&self) -> Vec<String> {
        let state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        let kept = [&state.waiting, &state.refused].into_iter().flatten();
        kept.map(|kept| kept.path.display().to_string()).collect()
    }
}

/// Why a journal could not be written, for the screens: without a path where that says nothing more.
fn reason(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::StorageFull => "the disk of the state folder is full".to_owned(),
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => "the state folder cannot be written".to_owned(),
        _ => error.to_string(),
    }
}

/// Lines as a journal of the season of this id.
pub fn text_of(id: Option<Uuid>, lines: &[Line]) -> String {
    let mut plan = Plan::default();
    let entries: Vec<Entry> = lines.iter().cloned().filter_map(|line| plan.keep(line)).collect();
    journal::write(id, &plan, &entries)
}

/// A journal that an earlier run left.
#[derive(Debug, Clone, PartialEq)]
pub struct Left {
    /// The journal, without what is in the season file already.
    pub rescued: Rescued,
    /// True when all of it is in the season file: the program was ended after the last of it was written and before it could
    /// remove the journal.
    pub done: bool,
}

/// True when there is any journal, of whatever season and run.
pub fn is_any(state_folder: &Path) -> bool {
    fs::read_dir(folder(state_folder)).is_ok_and(|mut there| there.next().is_some())
}

/// The journals that earlier runs left of a season, oldest first: those of its id, and those named after its file that name no
/// season. What a program that still runs holds is not among them.
pub fn left_behind(state_folder: &Path, season: &Path, store: Option<&Store>) -> Vec<Left> {
    let Ok(there) = fs::read_dir(folder(state_folder)) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = there.flatten().map(|entry| entry.path()).collect();
    paths.sort();
    let id = store.and_then(|store| store.season_id().ok()).flatten();
    let mut found: Vec<Rescued> = Vec::new();
    for path in paths.into_iter().filter(|path| path.is_file() && !is_held(path)) {
        if name_of(&path).starts_with(UNFINISHED) {
            // Of a program that was ended while it wrote; what it held was never whole.
            fs::remove_file(&path).ok();
        }
        found.extend(read(&path, season, id));
    }
    let known = if found.is_empty() { None } else { store.and_then(|store| store.load().ok()) };
    let (plan, entries) = known.unwrap_or_default();
    let lines = plan.lines().into_iter().chain(entries.into_iter().map(Line::Entry));
    let known: HashSet<Uuid> = lines.map(|line| line.id()).collect();
    let left = |mut rescued: Rescued| {
        let read = !rescued.lines.is_empty();
        rescued.lines.retain(|line| !known.contains(&line.id()));
        Left { done: read && rescued.lines.is_empty(), rescued }
    };
    found.into_iter().map(left).collect()
}

/// The journal at this path, where it is one and of this season.
fn read(path: &Path, season: &Path, id: Option<Uuid>) -> Option<Rescued> {
    let name = name_of(path);
    let is_journal = path.extension().is_some_and(|ending| ending == "jsonl");
    let text = is_journal.then(|| fs::read_to_string(path).ok()).flatten()?;
    let reading = journal::read_all(&text);
    let named = reading.header.and_then(|header| header.season);
    let same = match (named, id) {
        (Some(named), Some(id)) => named == id,
        _ => name.contains(&format!("-{}-", mark(season))),
    };
    let lines = reading.lines.into_iter().map(|numbered| numbered.line).collect();
    let refused = name.contains(REFUSED);
    same.then(|| Rescued { path: path.display().to_string(), lines, refused })
}

fn name_of(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

/// Removes the journal of an earlier run once it is in; any other file is left alone. True when it was removed.
///
/// # Errors
/// When it cannot be removed.
pub fn taken(state_folder: &Path, journal: &Path) -> io::Result<bool> {
    let inside = |path: &Path| path.parent().and_then(|parent| parent.canonicalize().ok());
    let ours = inside(journal).is_some() && inside(journal) == folder(state_folder).canonicalize().ok();
    let left = ours && journal.is_file() && !is_held(journal);
    if left { remove(journal).map(|()| true) } else { Ok(false) }
}

fn folder(state_folder: &Path) -> PathBuf {
    state_folder.join("unsaved")
}

/// True where a running program holds this file. Where files cannot be locked nothing is held.
fn is_held(path: &Path) -> bool {
    File::open(path).is_ok_and(|file| matches!(file.try_lock(), Err(TryLockError::WouldBlock)))
}

/// A journal of this run, held again.
fn held(path: &Path) -> Option<File> {
    File::open(path).ok().filter(|file| file.try_lock().is_ok())
}

/// The text in a locked file without a name of its own yet, for the user alone; not yet synced.
fn written_beside(folder: &Path, text: &str) -> io::Result<NamedTempFile> {
    files::private_folder(folder)?;
    let mut file = tempfile::Builder::new().prefix(UNFINISHED).tempfile_in(folder)?;
    // Where files cannot be locked the journal is offered once too often, and importing it again changes nothing.
    file.as_file().try_lock().ok();
    file.write_all(text.as_bytes())?;
    Ok(file)
}

/// Removes a journal; one that is gone already is as good as removed.
fn remove(path: &Path) -> io::Result<()> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
        _ => path.parent().map_or(Ok(()), sync_folder),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Kind, Place};

    const SEASON: Uuid = Uuid::from_u128(77);

    fn line(n: u128) -> Line {
        let at = DateTime::parse_from_rfc3339("2026-10-12T07:00:00-04:00").unwrap();
        let place = Place::Bench("E1".into());
        let (id, by) = (Uuid::from_u128(n), "kt".into());
        Line::Entry(Entry { id, at, by, place, plot: None, kind: Kind::Note {}.into(), note: Some("a note".into()) })
    }

    fn journals(state: &Path, season: &Path, id: Option<Uuid>) -> RescueJournals {
        let started = DateTime::parse_from_rfc3339("2026-10-12T11:00:00Z").unwrap().to_utc();
        let journals = RescueJournals::new(state, started);
        journals.set_season(season, id);
        journals
    }

    fn names(state: &Path) -> Vec<String> {
        let there = fs::read_dir(folder(state)).map(|there| there.map(|entry| name_of(&entry.unwrap().path())));
        there.map(Iterator::collect).unwrap_or_default()
    }

    #[test]
    fn a_journal_holds_what_it_was_given_last_for_the_user_alone_and_goes_with_the_last_line() {
        let state = tempfile::tempdir().unwrap();
        let journals = journals(state.path(), Path::new("/data/my season.db"), Some(SEASON));
        journals.keep(Part::Waiting, &[line(1)]).unwrap();
        journals.keep(Part::Waiting, &[line(1), line(2)]).unwrap();
        journals.keep(Part::Refused, &[line(3)]).unwrap();
        let all = names(state.path());
        assert_eq!(all.len(), 2, "{all:?}");
        assert!(
            all.iter()
                .all(|name| name.starts_with("my_season-")
                    && Path::new(name).extension().is_some_and(|end| end == "jsonl")),
            "{all:?}"
        );
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            let path = journals.paths().remove(0);
            // Windows lets nobody read a file that is locked.
            let text = fs::read_to_string(&path).unwrap();
            let reading = journal::read_all(&text);
            assert!(reading.faults.is_empty(), "{:?}", reading.faults);
            assert_eq!(reading.header.unwrap().season, Some(SEASON));
            assert_eq!(reading.lines.into_iter().map(|n| n.line).collect::<Vec<_>>(), [line(1), line(2)]);
            let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
            assert_eq!((mode(Path::new(&path)), mode(&folder(state.path()))), (0o600, 0o700));
        }
        journals.keep(Part::Waiting, &[]).unwrap();
        journals.keep(Part::Refused, &[]).unwrap();
        assert!(names(state.path()).is_empty());
        assert!(journals.paths().is_empty());
    }

    #[test]
    fn a_journal_that_was_taken_away_is_written_again() {
        let state = tempfile::tempdir().unwrap();
        let journals = journals(state.path(), Path::new("/data/s.db"), None);
        journals.keep(Part::Waiting, &[line(1)]).unwrap();
        fs::remove_file(journals.paths().remove(0)).unwrap();
        journals.keep(Part::Waiting, &[line(1)]).unwrap();
        assert_eq!(names(state.path()).len(), 1);
    }

    #[test]
    fn two_runs_never_write_into_one_journal() {
        let state = tempfile::tempdir().unwrap();
        let season = Path::new("/data/s.db");
        let (one, other) = (journals(state.path(), season, None), journals(state.path(), season, None));
        one.keep(Part::Waiting, &[line(1)]).unwrap();
        other.keep(Part::Waiting, &[line(2)]).unwrap();
        assert_eq!(names(state.path()).len(), 2);
        other.keep(Part::Waiting, &[]).unwrap();
        assert!(Path::new(&one.paths()[0]).exists());
    }

    #[test]
    fn what_a_running_program_holds_is_not_offered_and_what_it_left_is() {
        let state = tempfile::tempdir().unwrap();
        let season = Path::new("/data/s.db");
        let running = journals(state.path(), season, None);
        running.keep(Part::Waiting, &[line(1)]).unwrap();
        assert!(left_behind(state.path(), season, None).is_empty());
        assert!(!taken(state.path(), Path::new(&running.paths()[0])).unwrap(), "nor removed");
        drop(running);
        let left = left_behind(state.path(), season, None);
        assert_eq!(left.len(), 1);
        assert_eq!((left[0].rescued.lines.clone(), left[0].done), (vec![line(1)], false));
        assert!(left_behind(state.path(), Path::new("/data/other.db"), None).is_empty());
        assert!(taken(state.path(), Path::new(&left[0].rescued.path)).unwrap());
        assert!(left_behind(state.path(), season, None).is_empty());
    }

    #[test]
    fn only_journals_of_this_folder_are_removed() {
        let state = tempfile::tempdir().unwrap();
        let own = state.path().join("own.jsonl");
        fs::write(&own, "x").unwrap();
        fs::create_dir_all(folder(state.path())).unwrap();
        assert!(!taken(state.path(), &own).unwrap());
        assert!(own.exists());
    }

    #[test]
    fn a_folder_that_cannot_be_made_is_said() {
        let state = tempfile::tempdir().unwrap();
        let file = state.path().join("state");
        fs::write(&file, "x").unwrap();
        let journals = journals(&file, Path::new("/data/s.db"), None);
        assert!(journals.keep(Part::Waiting, &[line(1)]).is_err());
        assert!(journals.paths().is_empty());
        assert!(journals.keep(Part::Waiting, &[]).is_ok());
    }
}
