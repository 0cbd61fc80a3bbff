//! Whether the season file is still the one that was opened: not removed, not replaced, its log still beside it, and not
//! written over by another program.
//!
//! POSIX drops every lock a process has on a file as soon as the process closes **any** handle of it, and the locks of SQLite are
//! such locks: without them another program may take the log away from under an open season. So a season file is never
//! opened beside SQLite and closed again while it is in use: [`Held`] keeps one handle for the whole process, and files are
//! compared by what the system tells of them without opening them.

use crate::files;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::SystemTime;

#[cfg(unix)]
mod system {
    use std::fs::{self, File};
    use std::io;
    use std::os::unix::fs::{FileExt, MetadataExt};
    use std::path::Path;

    /// What makes a file this one: its device and its number there.
    pub(super) type Id = (u64, u64);

    pub(super) fn id_of(path: &Path) -> io::Result<Id> {
        fs::metadata(path).map(|about| (about.dev(), about.ino()))
    }

    pub(super) fn id_of_open(file: &File, _path: &Path) -> io::Result<Id> {
        file.metadata().map(|about| (about.dev(), about.ino()))
    }

    pub(super) fn read_start(file: &File, into: &mut [u8]) -> io::Result<usize> {
        file.read_at(into, 0)
    }
}

#[cfg(not(unix))]
mod system {
    use std::fs::File;
    use std::io;
    use std::os::windows::fs::FileExt;
    use std::path::Path;

    /// What makes a file this one. Here locks belong to a handle, so opening the file once more does no harm.
    pub(super) type Id = same_file::Handle;

    pub(super) fn id_of(path: &Path) -> io::Result<Id> {
        same_file::Handle::from_path(path)
    }

    pub(super) fn id_of_open(_file: &File, path: &Path) -> io::Result<Id> {
        id_of(path)
    }

    pub(super) fn read_start(file: &File, into: &mut [u8]) -> io::Result<usize> {
        file.seek_read(into, 0)
    }
}

use system::{Id, id_of};

/// Length of a database's head, in bytes.
const HEAD: usize = 100;

/// The handles of all season files in use.
#[cfg(unix)]
static HANDLES: Mutex<Vec<(Id, std::sync::Weak<Handle>)>> = Mutex::new(Vec::new());

/// A handle of a season file, and what this process does to the file.
#[derive(Debug)]
struct Handle {
    file: File,
    ours: Mutex<Ours>,
}

/// What the connections of this process did to the file itself.
#[derive(Debug, Default)]
struct Ours {
    /// How many write into it now.
    writing: usize,
    /// How it was after the last of them.
    stamp: Option<Stamp>,
    /// Connections that exchange beside that of the screens.
    beside: usize,
}

impl Handle {
    fn of(file: File) -> Arc<Self> {
        Arc::new(Self { file, ours: Mutex::default() })
    }

    fn ours(&self) -> MutexGuard<'_, Ours> {
        self.ours.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// While it is there, a connection of this process writes into the file itself: no other connection takes that for another program.
#[derive(Debug)]
pub(super) struct Writing(Held);

impl Drop for Writing {
    fn drop(&mut self) {
        let Some(handle) = &self.0.0 else { return };
        let mut ours = handle.ours();
        ours.writing = ours.writing.saturating_sub(1);
        ours.stamp = stamp(&self.0).ok();
    }
}

/// While it is there, a connection beside that of the screens exchanges.
#[derive(Debug)]
pub(super) struct Beside(Held);

impl Drop for Beside {
    fn drop(&mut self) {
        if let Some(handle) = &self.0.0 {
            let mut ours = handle.ours();
            ours.beside = ours.beside.saturating_sub(1);
        }
    }
}

/// A handle of a season file, the same one for everything in this process that reads its head. It outlives the connections made
/// beside it.
#[derive(Debug, Clone)]
pub(super) struct Held(Option<Arc<Handle>>);

impl Held {
    /// The handle of the file of this name, which is an ordinary one.
    pub(super) fn of(path: &Path) -> io::Result<Self> {
        #[cfg(unix)]
        {
            let mut handles = HANDLES.lock().unwrap_or_else(PoisonError::into_inner);
            handles.retain(|(_, handle)| handle.strong_count() > 0);
            let id = id_of(path)?;
            if let Some(file) = handles.iter().find(|(held, _)| *held == id).and_then(|(_, handle)| handle.upgrade()) {
                return Ok(Self(Some(file)));
            }
            let handle = Handle::of(files::open(path, files::FILE)?);
            handles.push((system::id_of_open(&handle.file, path)?, Arc::downgrade(&handle)));
            Ok(Self(Some(handle)))
        }
        #[cfg(not(unix))]
        Ok(Self(Some(Handle::of(files::open(path, files::FILE)?))))
    }

    /// The head as it is now; shorter where the file is.
    pub(super) fn head(&self) -> io::Result<Vec<u8>> {
        let mut head = vec![0; HEAD];
        let read = self.file()?;
        let length = system::read_start(read, &mut head)?;
        head.truncate(length);
        Ok(head)
    }

    fn file(&self) -> io::Result<&File> {
        self.0.as_deref().map(|handle| &handle.file).ok_or_else(|| io::ErrorKind::NotFound.into())
    }

    /// Before a connection of this process writes into the file itself, until what is given is dropped.
    pub(super) fn writing(&self) -> Writing {
        if let Some(handle) = &self.0 {
            handle.ours().writing += 1;
        }
        Writing(self.clone())
    }

    /// Before a connection exchanges beside that of the screens, until what is given is dropped.
    pub(super) fn beside(&self) -> Beside {
        if let Some(handle) = &self.0 {
            handle.ours().beside += 1;
        }
        Beside(self.clone())
    }

    /// True while a connection of this process exchanges beside that of the screens.
    pub(super) fn has_beside(&self) -> bool {
        self.0.as_ref().is_some_and(|handle| handle.ours().beside > 0)
    }

    /// True where the file is as this process left it, or is just writing it.
    fn is_as_we_left_it(&self) -> bool {
        let Some(handle) = &self.0 else { return false };
        // Looked at under the lock: a connection that is done in between has noted what it left.
        let ours = handle.ours();
        ours.writing > 0 || stamp(self).is_ok_and(|now| ours.stamp.as_ref() == Some(&now))
    }
}

impl Drop for Held {
    fn drop(&mut self) {
        // Under the lock of the list, so that none is opened between the last use and the close.
        #[cfg(unix)]
        let _list = HANDLES.lock().unwrap_or_else(PoisonError::into_inner);
        self.0 = None;
    }
}

/// What has become of an open season file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gone {
    /// Nothing has its name any more.
    Removed,
    /// Another file has its name.
    OtherFile,
    /// It is there, but the log with what was saved last is not.
    LogRemoved,
    /// It is there, with other content.
    Overwritten,
}

/// What [`Identity::look`] found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Found {
    /// The same file, and untouched.
    Same,
    /// The same file; another program wrote to it, as it may.
    Touched,
    /// Not the file that was opened.
    Gone(Gone),
}

/// What changes in a file when somebody writes to it.
#[derive(Debug, PartialEq, Eq)]
struct Stamp {
    length: u64,
    modified: Option<SystemTime>,
    head: Vec<u8>,
}

/// What an open season file is known by.
#[derive(Debug)]
pub(super) struct Identity {
    /// Its name, as an absolute path.
    path: PathBuf,
    /// The name of its log.
    log: PathBuf,
    id: Id,
    log_id: Option<Id>,
    stamp: Stamp,
    held: Held,
}

impl Identity {
    /// Of a file that `held` was taken of before it was opened. `logged` when it has a write-ahead log.
    pub(super) fn of(path: &Path, log: PathBuf, held: Held, logged: bool) -> io::Result<Self> {
        let path = std::path::absolute(path)?;
        let id = system::id_of_open(held.file()?, &path)?;
        let stamp = stamp(&held)?;
        let log_id = if logged { Some(id_of(&log)?) } else { None };
        Ok(Self { path, log, id, log_id, stamp, held })
    }

    /// Looks whether its names still stand for the files that were opened. Costs a few calls of the system.
    pub(super) fn look(&self) -> Found {
        match id_of(&self.path) {
            Ok(id) if id == self.id => {}
            Ok(_) => return Found::Gone(Gone::OtherFile),
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Found::Gone(Gone::Removed),
            Err(_) => return Found::Touched,
        }
        if self.log_id.is_some() && !self.log_is_ours() {
            return Found::Gone(Gone::LogRemoved);
        }
        match stamp(&self.held) {
            Ok(now) if now == self.stamp => Found::Same,
            Ok(_) if self.held.is_as_we_left_it() => Found::Same,
            _ => Found::Touched,
        }
    }

    /// True when the log that lies there by name is the one that was opened.
    pub(super) fn log_is_ours(&self) -> bool {
        matches!((&self.log_id, id_of(&self.log)), (Some(ours), Ok(there)) if *ours == there)
    }

    /// Length of the log that lies there by name, in bytes; `None` where none does.
    pub(super) fn log_length(&self) -> Option<u64> {
        fs::metadata(&self.log).ok().map(|about| about.len())
    }

    /// Takes the file as it is now for its own, after a save or when what was written by others has been looked over.
    pub(super) fn accept(&mut self) {
        if let Ok(now) = stamp(&self.held) {
            self.stamp = now;
        }
    }
}

fn stamp(held: &Held) -> io::Result<Stamp> {
    let about = held.file()?.metadata()?;
    Ok(Stamp { length: about.len(), modified: about.modified().ok(), head: held.head()? })
}
