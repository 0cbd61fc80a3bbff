//! Backups by themselves: the first start of a day keeps a checked, dated copy of the season.
//!
//! `backups/<season>-<path>-<id>/2026-11-20.db` in the data folder, or in a folder of the user's choice. A copy is made as
//! `benchwalk backup` makes one: under another name, synced, opened again, checked and counted, then named, never over another
//! file. Only what `rule` names is ever removed, and only after the copy of the day is there.

mod folder;
mod rule;

pub use folder::{DatedCopy, copies};

use crate::files;
use crate::store::{Backup, Store, StoreError, integrity_check};
use chrono::NaiveDate;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Where dated copies are kept, and whether the program makes them.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Backups {
    /// The program makes them by itself.
    daily: bool,
    /// The folder with a folder for each season.
    folder: PathBuf,
    /// The user chose the folder: it must be there, as a stick that is not put in is not.
    chosen: bool,
    /// Where the demo seasons lie, of which none are made.
    data: PathBuf,
}

/// Why there is no copy of the day.
#[derive(Debug, Error)]
pub enum NotKept {
    /// Put the disk in, or mend the setting.
    #[error("the backup folder is missing: {}", path.display())]
    NoFolder {
        /// The folder of the settings.
        path: PathBuf,
    },
    /// Mend the permissions, or make room.
    #[error("{error}: {}", path.display())]
    File {
        /// The folder or file.
        path: PathBuf,
        /// What the system said.
        #[source]
        error: io::Error,
    },
    /// Take the newest copy, or make room.
    #[error("{}", in_short(.0))]
    Store(#[from] StoreError),
}

/// The reason first; nothing is said of saving, which has not failed.
fn in_short(error: &StoreError) -> String {
    match error {
        StoreError::Full { path } => format!("the disk is full: {}", path.display()),
        StoreError::File { path, error, .. } => format!("{error}: {}", path.display()),
        StoreError::Busy { path } => format!("another program holds it: {}", path.display()),
        other => other.to_string(),
    }
}

impl Backups {
    /// The settings of the config file, with what they are without it: a copy a day, in `backups` of the data folder.
    pub fn new(data: &Path, daily: Option<bool>, folder: Option<PathBuf>) -> Self {
        Self {
            daily: daily.unwrap_or(true),
            chosen: folder.is_some(),
            folder: folder.unwrap_or_else(|| data.join("backups")),
            data: data.to_owned(),
        }
    }

    /// True where the program makes copies by itself.
    pub const fn daily(&self) -> bool {
        self.daily
    }

    /// The folder that holds the folders of copies.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// A season made by `benchwalk demo` in the data folder.
    fn is_demo(&self, season: &Path) -> bool {
        let number = season.file_name().and_then(|name| name.to_str()?.strip_prefix("demo-")?.strip_suffix(".db"));
        season.parent() == Some(&self.data) && number.is_some_and(|n| n.bytes().all(|b| b.is_ascii_digit()))
    }

    /// The folder for a season's copies, made where it is missing; only the user may read what is made here.
    fn made(&self, folder: &Path) -> Result<(), NotKept> {
        if self.chosen && !self.folder.is_dir() {
            return Err(NotKept::NoFolder { path: self.folder.clone() });
        }
        files::private_folder(folder).map_err(|error| NotKept::File { path: folder.to_owned(), error })
    }
}

/// Keeps a copy of the season for `today`, if there is none yet and the season is sound, and removes those that are too many.
/// `None` where nothing was to be done: the setting is off, it is a demo season or one without a site, the copy is there, or
/// another program makes it just now.
///
/// # Errors
/// [`NotKept`]; then nothing was removed either.
pub fn keep(backups: &Backups, season: &Path, today: NaiveDate) -> Result<Option<Backup>, NotKept> {
    if !backups.daily || backups.is_demo(season) {
        return Ok(None);
    }
    let store = Store::open_read_only(season)?;
    let Some(id) = store.season_id()? else { return Ok(None) };
    let folder = folder::of_season(backups, season, id);
    let to = folder.join(folder::name_of(today));
    if to.symlink_metadata().is_ok() {
        return Ok(None);
    }
    backups.made(&folder)?;
    let lock = lock(&folder);
    if matches!(lock, Lock::Held) {
        return Ok(None);
    }
    let backup = match store.backup(&to) {
        Ok(backup) => backup,
        // Another program was quicker.
        Err(StoreError::Exists { .. }) if to.symlink_metadata().is_ok() => return Ok(None),
        Err(error) => return Err(error.into()),
    };
    store.close()?;
    prune(&folder, today);
    drop(lock);
    tracing::info!(path = %backup.path.display(), entries = backup.entries, "copy of the day kept");
    Ok(Some(backup))
}

/// What the user is to know after a season file was looked over.
#[derive(Debug)]
pub enum Found {
    /// The file is not sound.
    Damaged {
        /// What is wrong with it.
        error: StoreError,
        /// Which copy reads whole, in words to add; empty where none does.
        newest: String,
    },
    /// No copy was kept, and why.
    NoCopy(String),
}

/// Looks over a season file that was opened and keeps the copy of the day. Takes as long as reading the file a few times, so it
/// belongs on a thread of its own. Gives what the user is to know.
pub fn check_and_keep(season: &Path, copies: Option<(Backups, NaiveDate)>) -> Option<Found> {
    let kept = copies.as_ref().map(|(backups, today)| keep(backups, season, *today));
    // A copy is made of a file that was looked over; without one that is still to be done.
    let copied = matches!(kept, Some(Ok(Some(_))));
    if let Err(error) = if copied { Ok(()) } else { integrity_check(season) } {
        let newest = copies.and_then(|(backups, _)| newest(&backups, season));
        let newest = newest
            .map(|copy| format!("; the newest intact copy is from {}: 'benchwalk restore {}'", copy.day, copy.day));
        return Some(Found::Damaged { error, newest: newest.unwrap_or_default() });
    }
    let error = kept?.err()?;
    tracing::warn!(%error, "no copy of the day");
    Some(Found::NoCopy(format!("No backup copy was made today: {error}. The next start tries again.")))
}

/// The newest dated copy that reads back whole.
pub fn newest(backups: &Backups, season: &Path) -> Option<DatedCopy> {
    copies(backups, season).into_iter().find(|copy| integrity_check(&copy.path).is_ok())
}

/// The lock of a folder, held while a copy is written there.
enum Lock {
    /// Nobody else writes there.
    Ours(#[expect(dead_code, reason = "dropped, it lets go")] File),
    /// Another program does.
    Held,
    /// This system, or this file system, has none; a copy is still never written over another.
    None,
}

fn lock(folder: &Path) -> Lock {
    let Ok(file) = File::open(folder) else { return Lock::None };
    match file.try_lock() {
        Ok(()) => Lock::Ours(file),
        Err(fs::TryLockError::WouldBlock) => Lock::Held,
        Err(fs::TryLockError::Error(_)) => Lock::None,
    }
}

/// Removes the copies that the rule names. One with a log beside it was opened and perhaps written to: it is not ours any more.
fn prune(folder: &Path, today: NaiveDate) {
    for day in rule::to_remove(&folder::days(folder), today) {
        let name = folder::name_of(day);
        if folder.join(format!("{name}-wal")).symlink_metadata().is_err() {
            remove(&folder.join(name));
        }
    }
}

/// A copy that cannot be removed is one too many, and no trouble.
fn remove(path: &Path) {
    match fs::remove_file(path) {
        Ok(()) => tracing::info!(path = %path.display(), "copy removed"),
        Err(error) => tracing::warn!(path = %path.display(), %error, "copy not removed"),
    }
}

#[cfg(all(test, unix))]
mod tests;
