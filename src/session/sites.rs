//! The season files of many sites: which files are meant, which of them are of one season, and what one holds. Every file is opened
//! for reading only.

use super::last_year::save_was_cut;
use super::origins_of;
use crate::exchange::LaptopState;
use crate::record::{Entry, Line, Plan};
use crate::season::Origins;
use crate::store::{Store, StoreError};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use uuid::Uuid;

/// What is said of a file beside which the journal of a save lies.
const CUT: &str = "a save was cut short in it, or is under way; open it once by itself with --season";

/// A file or folder that cannot be used, and why, in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unread {
    /// Where it is.
    pub path: PathBuf,
    /// What is wrong with it; the path is not repeated.
    pub why: String,
}

impl Unread {
    fn of(path: &Path, error: &StoreError) -> Self {
        let why = error.to_string();
        let named = format!("{}: ", path.display());
        Self { path: path.to_owned(), why: why.strip_prefix(&named).map_or(why.clone(), str::to_owned) }
    }
}

/// A file of a season that another file goes further in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Other {
    /// The file.
    pub path: PathBuf,
    /// The one that is read.
    pub used: PathBuf,
    /// Records in it that the other does not have.
    pub lacking: usize,
}

/// The season files that are meant.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Files {
    /// One a season.
    pub seasons: Vec<PathBuf>,
    /// Further files of these seasons.
    pub others: Vec<Other>,
    /// What cannot be used.
    pub unread: Vec<Unread>,
}

/// The season files among these files and in these folders: each season once, by the file with the most records.
///
/// # Errors
/// [`StoreError::Stopped`] where the work was asked to stop; what is wrong with a file is among what is found.
pub fn find(named: &[PathBuf]) -> Result<Files, StoreError> {
    let mut files = Files::default();
    let mut seen = BTreeSet::new();
    let mut by_season: BTreeMap<Uuid, Vec<PathBuf>> = BTreeMap::new();
    for path in meant(named, &mut files.unread) {
        // A file that is named twice is one.
        if !seen.insert(std::fs::canonicalize(&path).unwrap_or_else(|_| path.clone())) {
            continue;
        }
        if save_was_cut(&path) {
            // To read it would first have to mend it.
            files.unread.push(Unread { path, why: CUT.to_owned() });
            continue;
        }
        match season_of(&path) {
            Ok(Some(season)) => by_season.entry(season).or_default().push(path),
            // What it lacks is said where it is read.
            Ok(None) => files.seasons.push(path),
            Err(StoreError::Stopped) => return Err(StoreError::Stopped),
            Err(error) => files.unread.push(Unread::of(&path, &error)),
        }
    }
    for of_one in by_season.into_values() {
        match of_one.as_slice() {
            [alone] => files.seasons.push(alone.clone()),
            _ => choose(of_one, &mut files)?,
        }
    }
    Ok(files)
}

/// The files that are named, and those in folders that are named, by name.
fn meant(named: &[PathBuf], unread: &mut Vec<Unread>) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for path in named {
        if !path.is_dir() {
            all.push(path.clone());
            continue;
        }
        let inside = std::fs::read_dir(path)
            .and_then(|folder| folder.map(|entry| entry.map(|entry| entry.path())).collect::<Result<Vec<_>, _>>());
        let why = match inside {
            Ok(mut inside) => {
                inside.retain(|path| path.extension().is_some_and(|end| end == "db"));
                inside.sort();
                let none = inside.is_empty();
                all.extend(inside);
                none.then(|| "no season file (*.db) in this folder".to_owned())
            }
            Err(error) => Some(format!("the folder cannot be read: {error}")),
        };
        unread.extend(why.map(|why| Unread { path: path.clone(), why }));
    }
    all
}

/// The season a file is of.
fn season_of(path: &Path) -> Result<Option<Uuid>, StoreError> {
    let store = Store::open_read_only(path)?;
    store.understood()?;
    let season = store.season_id()?;
    store.close()?;
    Ok(season)
}

/// The records of a file, by their ids.
struct Records {
    all: BTreeSet<Uuid>,
    /// Without the site and its benches, which the seasons of a site share: the id of a season that was never shared is made of the
    /// first line of its site, so two years may have the same.
    own: BTreeSet<Uuid>,
}

impl Records {
    fn of(path: &Path) -> Result<Self, StoreError> {
        let store = Store::open_read_only(path)?;
        let (plan, entries) = store.load()?;
        store.close()?;
        let lines = plan.lines();
        let own = lines.iter().filter(|line| !matches!(line, Line::Site(_) | Line::Bench(_)));
        let entries: Vec<Uuid> = entries.iter().map(|entry| entry.id).collect();
        Ok(Self {
            own: own.map(Line::id).chain(entries.iter().copied()).collect(),
            all: lines.iter().map(Line::id).chain(entries).collect(),
        })
    }

    fn same_season(&self, other: &Self) -> bool {
        let empty = self.own.is_empty() || other.own.is_empty();
        empty || !self.own.is_disjoint(&other.own)
    }
}

/// Of several files of one season the one with the most records is read, of equal ones the first; the others are named.
fn choose(of_one: Vec<PathBuf>, files: &mut Files) -> Result<(), StoreError> {
    let mut read: Vec<(PathBuf, Records)> = Vec::new();
    for path in of_one {
        match Records::of(&path) {
            Ok(records) => read.push((path, records)),
            Err(StoreError::Stopped) => return Err(StoreError::Stopped),
            Err(error) => files.unread.push(Unread::of(&path, &error)),
        }
    }
    read.sort_by_key(|(_, records)| Reverse(records.all.len()));
    let mut used: Vec<(PathBuf, Records)> = Vec::new();
    for (path, records) in read {
        match used.iter().find(|(_, known)| known.same_season(&records)) {
            Some((further, known)) => {
                let lacking = records.all.difference(&known.all).count();
                files.others.push(Other { path, used: further.clone(), lacking });
            }
            None => used.push((path, records)),
        }
    }
    files.seasons.extend(used.into_iter().map(|(path, _)| path));
    Ok(())
}

/// What a season file holds.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Held {
    /// Its plan.
    pub plan: Plan,
    /// Its entries.
    pub entries: Vec<Entry>,
    /// Which laptops wrote its lines, where it is shared.
    pub origins: Origins,
    /// These laptops, and up to when each is known.
    pub laptops: Vec<LaptopState>,
}

/// Reads a season file, and looks over all of it: what is said of a site is not to rest on a file that lost some.
///
/// # Errors
/// What is wrong with the file.
pub fn read(path: &Path) -> Result<Held, Unread> {
    let held = Store::open_read_only(path).and_then(|store| {
        store.check()?;
        let (plan, entries) = store.load()?;
        let (origins, laptops) = (origins_of(&store)?, store.laptops()?);
        store.close()?;
        Ok(Held { plan, entries, origins, laptops })
    });
    held.map_err(|error| Unread::of(path, &error))
}
