//! Files that are not finished yet: they get their name only when they are whole, and what a killed run left of one is removed
//! the next time a file is written in that folder.
//!
//! An unfinished file is `.benchwalk-PURPOSE-PID-RANDOM`, beside it an empty `.benchwalk-PURPOSE-PID-RANDOM.lock`, which its
//! program holds locked until the end. A lock that nobody holds is what a killed program left: that name and nothing else says
//! which files are removed. A season file, a backup or an export under a name of the user's is never among them.

use super::{must_be_fit, private_file, sync_folder};
use std::ffi::OsStr;
use std::fs::{self, OpenOptions, TryLockError};
use std::io::{self, ErrorKind, Write};
use std::ops::Deref;
use std::path::{Path, PathBuf};
use std::time::Duration;
use tempfile::{NamedTempFile, PathPersistError, TempPath};

const PREFIX: &str = ".benchwalk-";
const LOCK: &str = ".lock";

/// Characters of the random part of a name.
const RANDOM: usize = 8;

/// What else the database may leave beside a file it was writing.
const BESIDE: [&str; 3] = ["-journal", "-wal", "-shm"];

/// How often a file is tried to be named that another program holds, and the time between two tries: a fifth of a second in all.
const LOOKS: u32 = 10;
const LOOK: Duration = Duration::from_millis(20);

/// What an unfinished file is to become.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// A season file.
    Season,
    /// A copy of a season file.
    Backup,
    /// A text file of the user or of the program.
    Text,
}

impl Purpose {
    const ALL: [Self; 3] = [Self::Season, Self::Backup, Self::Text];

    const fn word(self) -> &'static str {
        match self {
            Self::Season => "season",
            Self::Backup => "backup",
            Self::Text => "text",
        }
    }
}

/// A file that is being written in the folder where it is to be; only the user may read it. Dropped without a name of its own it
/// is removed.
#[derive(Debug)]
pub struct Unfinished {
    // Dropped in this order: the lock stands until the others are gone.
    part: TempPath,
    beside: Beside,
    lock: NamedTempFile,
}

/// What the database may have left beside an unfinished file, where it failed; removed when dropped.
#[derive(Debug)]
struct Beside([PathBuf; 3]);

impl Drop for Beside {
    fn drop(&mut self) {
        for path in &self.0 {
            // Most often there is none.
            fs::remove_file(path).ok();
        }
    }
}

fn beside(part: &Path) -> [PathBuf; 3] {
    BESIDE.map(|ending| {
        let mut name = part.as_os_str().to_owned();
        name.push(ending);
        PathBuf::from(name)
    })
}

impl Unfinished {
    /// An empty file in the folder of `path`. What killed programs left unfinished there is removed first.
    ///
    /// # Errors
    /// When the folder cannot be written; where no file could have the name of `path`, [`ErrorKind::InvalidFilename`].
    pub fn beside(path: &Path, purpose: Purpose) -> io::Result<Self> {
        must_be_fit(path)?;
        let folder = folder_of(path);
        remove_left_over(folder);
        let prefix = format!("{PREFIX}{}-{}-", purpose.word(), std::process::id());
        // Another program may take a lock that is not locked yet for one that was left; then the next name is tried.
        for _ in 0..100 {
            let lock = tempfile::Builder::new().prefix(&prefix).suffix(LOCK).rand_bytes(RANDOM).tempfile_in(folder);
            let lock = lock.map_err(plainly)?;
            match lock.as_file().try_lock() {
                // Where files cannot be locked, what is left looks like what is in use, and stays.
                Ok(()) | Err(TryLockError::Error(_)) if lock.path().exists() => {}
                _ => continue,
            }
            let part = lock.path().with_extension("");
            private_file(OpenOptions::new().write(true).create_new(true), &part)?;
            let beside = Beside(beside(&part));
            return Ok(Self { part: TempPath::try_from_path(part)?, beside, lock });
        }
        Err(ErrorKind::ResourceBusy.into())
    }

    /// Writes the whole content and syncs it.
    ///
    /// # Errors
    /// What the system says, a full disk for one.
    pub fn write(&self, content: &[u8]) -> io::Result<()> {
        let mut file = OpenOptions::new().write(true).truncate(true).open(&self.part)?;
        file.write_all(content)?;
        file.sync_all()
    }

    /// Gives it its name, never over another file. File systems without links and without a rename that leaves others alone get a
    /// look and a rename.
    ///
    /// # Errors
    /// [`ErrorKind::AlreadyExists`] where something has that name.
    pub fn publish(self, path: &Path) -> io::Result<()> {
        let Self { part, beside, lock } = self;
        match patiently(part, |part| part.persist_noclobber(path)) {
            Ok(()) => {}
            Err(refused) if refused.error.kind() == ErrorKind::AlreadyExists => return Err(refused.error),
            Err(_) if path.symlink_metadata().is_ok() => return Err(ErrorKind::AlreadyExists.into()),
            Err(refused) => patiently(refused.path, |part| part.persist(path)).map_err(|refused| refused.error)?,
        }
        drop((beside, lock));
        sync_folder(folder_of(path))
    }

    /// Gives it its name, in the place of the file that has it.
    ///
    /// # Errors
    /// What the system says; the other file is then as it was.
    pub fn replace(self, path: &Path) -> io::Result<()> {
        let Self { part, beside, lock } = self;
        patiently(part, |part| part.persist(path)).map_err(|refused| refused.error)?;
        drop((beside, lock));
        sync_folder(folder_of(path))
    }
}

/// Gives a file its name, again and again where another program holds it for a moment: on Windows one that looks into what is
/// new, such as a virus scanner, keeps it from being renamed.
#[expect(clippy::disallowed_methods, reason = "nothing tells when the other program is done")]
fn patiently(part: TempPath, name: impl Fn(TempPath) -> Result<(), PathPersistError>) -> Result<(), PathPersistError> {
    let mut part = part;
    for _ in 0..LOOKS {
        match name(part) {
            Err(refused) if is_held(&refused.error) => part = refused.path,
            done => return done,
        }
        std::thread::sleep(LOOK);
    }
    name(part)
}

/// Access denied, a sharing violation, a lock: by their numbers, for the library has one word for them and others.
fn is_held(error: &io::Error) -> bool {
    cfg!(windows) && matches!(error.raw_os_error(), Some(5 | 32 | 33))
}

impl Deref for Unfinished {
    type Target = Path;

    fn deref(&self) -> &Path {
        &self.part
    }
}

impl AsRef<Path> for Unfinished {
    fn as_ref(&self) -> &Path {
        &self.part
    }
}

/// What the system says, without the name of a file that nobody asked for.
fn plainly(error: io::Error) -> io::Error {
    let said = error.to_string();
    match said.split_once(" at path ") {
        Some((reason, _)) => io::Error::new(error.kind(), reason),
        None => error,
    }
}

/// Removes what killed programs left unfinished in a folder. What cannot be removed stays for the next time.
fn remove_left_over(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for lock in entries.flatten().filter_map(|entry| is_lock(&entry.file_name()).then(|| entry.path())) {
        let plain = |path: &Path| path.symlink_metadata().is_ok_and(|about| about.is_file());
        if !plain(&lock) {
            continue;
        }
        let Ok(held) = OpenOptions::new().read(true).write(true).open(&lock) else { continue };
        if held.try_lock().is_err() || held.metadata().map_or(true, |about| about.len() > 0) {
            continue;
        }
        let part = lock.with_extension("");
        let all = beside(&part).into_iter().chain([part]).filter(|path| plain(path));
        if all.map(fs::remove_file).all(|removed| removed.is_ok()) {
            fs::remove_file(&lock).ok();
        }
    }
}

/// True for the name of a lock of ours: `.benchwalk-season-1234-Ab3dEf9h.lock`.
fn is_lock(name: &OsStr) -> bool {
    let parts = || {
        let (purpose, rest) = name.to_str()?.strip_prefix(PREFIX)?.strip_suffix(LOCK)?.split_once('-')?;
        let (process, random) = rest.split_once('-')?;
        let ours = Purpose::ALL.iter().any(|known| known.word() == purpose);
        let number = (1..=10).contains(&process.len()) && process.bytes().all(|b| b.is_ascii_digit());
        Some(ours && number && random.len() == RANDOM && random.bytes().all(|b| b.is_ascii_alphanumeric()))
    };
    parts().unwrap_or(false)
}

/// The folder a file is in; one named by nothing is the present one.
fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::ffi::OsString;

    fn names(folder: &Path) -> Vec<OsString> {
        let mut names: Vec<OsString> = fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name()).collect();
        names.sort();
        names
    }

    /// What a killed program leaves: the files without a lock on them.
    fn left(folder: &Path, base: &str, endings: &[&str]) {
        for ending in endings {
            fs::write(folder.join(format!("{base}{ending}")), if *ending == LOCK { "" } else { "half" }).unwrap();
        }
    }

    #[test]
    fn what_a_killed_run_left_is_removed_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        left(folder.path(), ".benchwalk-season-4711-Ab3dEf9h", &["", "-wal", "-shm", "-journal", LOCK]);
        left(folder.path(), ".benchwalk-text-4711-12345678", &["", LOCK]);
        // No lock of ours, so nothing says that these are ours.
        let theirs = [
            ".benchwalk-season-4711-ZZ3dEf9h",
            ".benchwalk-season-4711-short.lock",
            ".benchwalk-other-4711-Ab3dEf9h.lock",
            ".benchwalk-season-x-Ab3dEf9h.lock",
            "season.db",
            "season.db.1234.new",
        ];
        for name in theirs {
            fs::write(at(name), "").unwrap();
        }
        let full = ".benchwalk-text-4711-87654321.lock";
        fs::write(at(full), "somebody's").unwrap();
        let in_use = Unfinished::beside(&at("a.db"), Purpose::Season).unwrap();
        let second = Unfinished::beside(&at("b.db"), Purpose::Season).unwrap();
        assert!(in_use.exists() && second.exists(), "files in use are left alone");
        drop((in_use, second));
        let mut wanted: Vec<OsString> = theirs.iter().chain([&full]).map(OsString::from).collect();
        wanted.sort();
        assert_eq!(names(folder.path()), wanted);
    }

    #[cfg(unix)]
    #[test]
    fn a_link_or_a_folder_under_such_a_name_is_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        fs::write(at("mine"), "").unwrap();
        std::os::unix::fs::symlink(at("mine"), at(".benchwalk-text-1-aaaaaaaa.lock")).unwrap();
        fs::create_dir(at(".benchwalk-text-1-bbbbbbbb.lock")).unwrap();
        let before = names(folder.path());
        drop(Unfinished::beside(&at("a"), Purpose::Text).unwrap());
        assert_eq!(names(folder.path()), before);
    }

    /// Held without leave to rename it, as some programs hold a file they look into.
    #[cfg(windows)]
    #[test]
    fn a_file_that_is_held_for_a_moment_gets_its_name_after_it() {
        use std::os::windows::fs::OpenOptionsExt;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.txt");
        let file = Unfinished::beside(&path, Purpose::Text).unwrap();
        file.write(b"one").unwrap();
        // FILE_SHARE_READ and FILE_SHARE_WRITE without FILE_SHARE_DELETE.
        let held = OpenOptions::new().read(true).share_mode(1 | 2).open(&*file).unwrap();
        std::thread::scope(|threads| {
            let named = threads.spawn(|| file.publish(&path));
            assert!(!path.exists());
            drop(held);
            named.join().unwrap().unwrap();
        });
        assert_eq!(fs::read(&path).unwrap(), b"one");
    }

    #[test]
    fn a_finished_file_has_its_name_and_nothing_is_left() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.txt");
        let new = |text: &[u8]| {
            let file = Unfinished::beside(&path, Purpose::Text).unwrap();
            file.write(text).unwrap();
            file
        };
        new(b"one").publish(&path).unwrap();
        assert_eq!(new(b"two").publish(&path).unwrap_err().kind(), ErrorKind::AlreadyExists);
        assert_eq!(fs::read(&path).unwrap(), b"one");
        new(b"two").replace(&path).unwrap();
        assert_eq!((fs::read(&path).unwrap(), names(folder.path()).len()), (b"two".to_vec(), 1));
    }
}
