//! Why the season file could not be read or written: one variant for each thing the user can do about it.

use super::identity::Gone;
use crate::progress::{self, Stopped};
use crate::record::clean;
use rusqlite::{ErrorCode, ffi};
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Why the season file could not be read or written. In every case the file was neither removed nor recreated.
#[derive(Debug, Error)]
pub enum StoreError {
    /// Make one, or name another.
    #[error(
        "{}: there is no season file; 'benchwalk import FILE' begins one, 'benchwalk demo' makes one to try",
        path.display()
    )]
    NotThere {
        /// The file.
        path: PathBuf,
    },
    /// Choose another name.
    #[error("{}: already exists, and was left as it is; choose another name", path.display())]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// Name the right file.
    #[error("{}: not a Benchwalk season file ({why}); it was left as it is, name another with --season", path.display())]
    NotASeason {
        /// The file.
        path: PathBuf,
        /// What it looks like.
        why: String,
    },
    /// Finish the copy, or take the backup.
    #[error(
        "{}: holds no data (0 bytes), perhaps an incomplete copy; it was left as it is, copy it again or use a backup",
        path.display()
    )]
    Empty {
        /// The file.
        path: PathBuf,
    },
    /// Write at the laptops that share the season, or join it here with a file of its own.
    #[error(
        "{}: a mirror of what the laptops of this season share, to be read only; write on one of them, or join with a file of \
         your own ('benchwalk share join')",
        path.display()
    )]
    Mirror {
        /// The file.
        path: PathBuf,
    },
    /// Mirror into another folder.
    #[error("{}: a season file of its own, not a mirror; it was left as it is, mirror into another folder", path.display())]
    NoMirror {
        /// The file.
        path: PathBuf,
    },
    /// Use the newer program; `export` still reads it.
    #[error(
        "{}: written by a newer Benchwalk (file version {found}, this program knows {known}); nothing is written to it, \
         use the newer program, or 'benchwalk export' to read it here",
        path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its version.
        found: i64,
        /// The newest this program knows.
        known: i64,
    },
    /// Mend the permissions, or copy the file elsewhere.
    #[error(
        "{}: cannot be written (the file or its folder is read-only); copy it to a folder of your own, or fix the permissions",
        path.display()
    )]
    ReadOnly {
        /// The file.
        path: PathBuf,
    },
    /// Wait; the entry is kept and tried again.
    #[error(
        "{}: another program is writing to it, or its disk supports no locks; not saved yet, try again in a moment",
        path.display()
    )]
    Busy {
        /// The file.
        path: PathBuf,
    },
    /// Quit the season there first; the entry is kept and tried again.
    #[error(
        "{by} has the season open; on a network file system one program at a time writes to it. Quit it there first; if that \
         program is gone, remove {}: {}",
        mark.display(), path.display()
    )]
    InUse {
        /// The file.
        path: PathBuf,
        /// Who has it.
        by: String,
        /// The file that says so.
        mark: PathBuf,
    },
    /// Quit, and exchange by command.
    #[error(
        "{}: its disk keeps no locks, so nothing is exchanged while the season is open; quit, then run 'benchwalk share'",
        path.display()
    )]
    NoLocks {
        /// The file.
        path: PathBuf,
    },
    /// Make room; the entry is kept and tried again.
    #[error("{}: the disk is full; not saved yet, make room and try again (what was saved before is safe)", path.display())]
    Full {
        /// The file.
        path: PathBuf,
    },
    /// Put the file back; the entry is kept and tried again.
    #[error("{}", replaced(path, *what))]
    Replaced {
        /// The file.
        path: PathBuf,
        /// What has become of it.
        what: Gone,
    },
    /// Move the log away.
    #[error(
        "the log beside {name} is of another file, so nothing is written: move {name}-wal and {name}-shm to another folder, \
         then start again ({})",
        path.display(),
        name = name_of(path)
    )]
    OtherLog {
        /// The file.
        path: PathBuf,
    },
    /// Export it and begin a new file with that.
    #[error(
        "{}: another program changed it ({what}), so nothing is written to it; 'benchwalk export' reads it, and 'benchwalk \
         import' makes a sound file of that",
        path.display()
    )]
    Changed {
        /// The file.
        path: PathBuf,
        /// What differs from a file of this program.
        what: String,
    },
    /// Make room, or choose another place.
    #[error("{}: the disk is full; nothing was written. Make room, or choose another place", path.display())]
    NoRoom {
        /// The file that was to be made or written to.
        path: PathBuf,
    },
    /// Use the newest backup.
    #[error(
        "{}: is damaged ({detail}); it was left as it is. Copy it and its -wal and -shm files to a safe place, \
         then use the newest backup; 'benchwalk export --salvage' writes out what can still be read",
        path.display()
    )]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What was found.
        detail: String,
    },
    /// Strike out and enter again, or revise the line.
    #[error("{what} is already written with other content; nothing was written")]
    Conflict {
        /// The record.
        what: String,
    },
    /// Mend the record.
    #[error("the season file rejected a record ({detail}); nothing was written")]
    Refused {
        /// The rule it breaks.
        detail: String,
    },
    /// Look after the disk, the path or the permissions.
    #[error("{}: {doing}: {error}", path.display())]
    File {
        /// The file.
        path: PathBuf,
        /// What was tried.
        doing: &'static str,
        /// What the system says.
        #[source]
        error: io::Error,
    },
    /// Nothing: it was asked for.
    #[error("stopped; no record was changed")]
    Stopped,
    /// Report it.
    #[error("{}: the database says: {detail}", path.display())]
    Database {
        /// The file.
        path: PathBuf,
        /// What it says.
        detail: String,
    },
}

impl StoreError {
    /// Why a file could not be made.
    pub(super) fn making(path: &Path, doing: &'static str, error: io::Error) -> Self {
        let path = path.to_owned();
        match error.kind() {
            io::ErrorKind::AlreadyExists => Self::Exists { path },
            io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => Self::NoRoom { path },
            _ => Self::File { path, doing, error },
        }
    }

    /// The same, of lines that are not kept to be tried again.
    #[must_use]
    pub fn of_a_command(self) -> Self {
        match self {
            Self::Full { path } => Self::NoRoom { path },
            other => other,
        }
    }

    /// The same, of the file that was asked for instead of the one it was to be made of.
    pub(super) fn instead_of(self, wanted: &Path) -> Self {
        let path = wanted.to_owned();
        match self.of_a_command() {
            Self::NoRoom { .. } => Self::NoRoom { path },
            Self::ReadOnly { .. } => Self::ReadOnly { path },
            Self::Busy { .. } => Self::Busy { path },
            Self::Damaged { detail, .. } => Self::Damaged { path, detail },
            Self::Database { detail, .. } => Self::Database { path, detail },
            Self::File { doing, error, .. } => Self::File { path, doing, error },
            // It was there a moment before: the folder does not keep what is written.
            Self::NotThere { .. } | Self::Empty { .. } | Self::Replaced { .. } => {
                let error = io::Error::other("the disk or the folder fails");
                Self::File { path, doing: "nothing was written", error }
            }
            other => other,
        }
    }

    /// True when the same records may be saved by trying again later; they are to be kept until then. Only what is wrong with a
    /// record itself does not pass: whatever is wrong with the file or its disk may be mended while the program runs.
    pub const fn may_pass(&self) -> bool {
        !matches!(self, Self::Conflict { .. } | Self::Refused { .. })
    }

    /// True when the file can still be opened by [`super::Store::open_read_only`].
    pub const fn can_be_read(&self) -> bool {
        matches!(
            self,
            Self::ReadOnly { .. }
                | Self::InUse { .. }
                | Self::Newer { .. }
                | Self::Changed { .. }
                | Self::Mirror { .. }
                | Self::OtherLog { .. }
                | Self::Damaged { .. }
        )
    }
}

/// The name of a file without its folder.
fn name_of(path: &Path) -> std::borrow::Cow<'_, str> {
    path.file_name().unwrap_or(path.as_os_str()).to_string_lossy()
}

/// What has become of a file that was open, and what to do.
fn replaced(path: &Path, what: Gone) -> String {
    let name = name_of(path);
    match what {
        Gone::Removed => {
            format!("{name} was removed or moved while it was open, and nothing more goes into it: put it back")
        }
        Gone::OtherFile => {
            format!("{name} was replaced while it was open, and nothing more goes into it: put the original back")
        }
        Gone::LogRemoved => {
            format!("{name}-wal was removed while {name} was open, and nothing more goes into it: quit and start again")
        }
        Gone::Overwritten => {
            format!("{name} was overwritten while it was open, and nothing more goes into it: quit and start again")
        }
    }
}

/// What goes wrong inside, before it is known of which file it is said.
#[derive(Debug)]
pub(super) enum Fault {
    /// The database's word.
    Sql(rusqlite::Error),
    /// A row that is no record.
    Malformed(String),
    /// The same key with other content.
    Conflict(String),
    /// A record that cannot be kept.
    Refused(String),
    /// A record that is not there after it was written.
    NotTaken,
    /// The work was asked to stop.
    Stopped,
}

impl From<Stopped> for Fault {
    fn from(_: Stopped) -> Self {
        Self::Stopped
    }
}

impl From<Stopped> for StoreError {
    fn from(_: Stopped) -> Self {
        Self::Stopped
    }
}

impl From<rusqlite::Error> for Fault {
    fn from(error: rusqlite::Error) -> Self {
        Self::Sql(error)
    }
}

impl Fault {
    /// True where the file itself refused a row.
    pub(super) fn is_refused_row(&self) -> bool {
        matches!(self, Self::Sql(error) if error.sqlite_error_code() == Some(ErrorCode::ConstraintViolation))
    }

    /// The error to show, for a file.
    pub(super) fn of(self, path: &Path) -> StoreError {
        let path = path.to_owned();
        let error = match self {
            Self::Malformed(detail) => return StoreError::Damaged { path, detail: clean(&detail) },
            Self::Conflict(what) => return StoreError::Conflict { what },
            Self::Refused(detail) => return StoreError::Refused { detail },
            Self::Stopped => return StoreError::Stopped,
            Self::NotTaken => {
                return StoreError::Changed { path, what: "it rejects what is saved".to_owned() };
            }
            Self::Sql(error) => error,
        };
        // Names in it may be those of another program.
        let detail = clean(&error.to_string());
        // A save of another program is under way, or was cut short; a connection that can only read takes nothing back.
        if let rusqlite::Error::SqliteFailure(said, _) = &error
            && matches!(said.extended_code, ffi::SQLITE_READONLY_ROLLBACK | ffi::SQLITE_READONLY_RECOVERY)
        {
            return StoreError::Busy { path };
        }
        match error.sqlite_error_code() {
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => StoreError::Busy { path },
            Some(ErrorCode::DiskFull) => StoreError::Full { path },
            Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => StoreError::ReadOnly { path },
            Some(ErrorCode::OperationInterrupted) if progress::go_on().is_err() => StoreError::Stopped,
            Some(ErrorCode::OperationInterrupted) => {
                StoreError::Damaged { path, detail: "reading it does not end".to_owned() }
            }
            Some(ErrorCode::TooBig) => {
                StoreError::Damaged { path, detail: "a record is longer than any that Benchwalk writes".to_owned() }
            }
            Some(ErrorCode::DatabaseCorrupt) => StoreError::Damaged { path, detail },
            Some(ErrorCode::NotADatabase) => StoreError::NotASeason { path, why: "not a database".to_owned() },
            Some(ErrorCode::ConstraintViolation | ErrorCode::TypeMismatch) => StoreError::Refused { detail },
            _ => match error {
                // A column of another type than the schema's can only come from outside.
                rusqlite::Error::InvalidColumnType(..) | rusqlite::Error::IntegralValueOutOfRange(..) => {
                    StoreError::Damaged { path, detail }
                }
                _ => StoreError::Database { path, detail },
            },
        }
    }
}
