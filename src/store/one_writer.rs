//! One writer at a time on a network file system, whose locks may be granted and not kept, or refused.
//!
//! A file beside the season (`season.db.writer`) names the program that writes: its host and process. It appears whole and
//! never over another one's, and goes when the season is closed. One that a killed program left is taken over by the next
//! program of the same host; on other hosts nobody can tell, and the file stays until it is removed by hand.
//!
//! Whether a program of this host still runs Linux tells by its number and when it began. On Windows a program that writes keeps a
//! file of its own locked in the user's temporary folder: where it lies there and nobody holds it, the program is gone.

use super::error::StoreError;
use super::open::with_suffix;
use crate::files::{Purpose, Unfinished};
use std::ffi::OsStr;
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex, PoisonError, Weak};
use tempfile::NamedTempFile;

/// The way to the file for the database where there are no locks: none are asked for.
const WITHOUT_LOCKS: &str = if cfg!(windows) { "win32-none" } else { "unix-none" };

/// How the files begin that programs keep locked while they write, where the system does not tell which programs run.
const PROOF: &str = "benchwalk-writes-";

/// The marks of this process, so that a second connection of it shares them.
static OURS: Mutex<Vec<(PathBuf, Weak<Mark>)>> = Mutex::new(Vec::new());

/// The right of this process to write to a season; given back with the last connection that holds it.
#[derive(Debug)]
pub(super) struct OneWriter(Option<Arc<Mark>>);

#[derive(Debug)]
struct Mark {
    path: PathBuf,
    program: Program,
    /// Removed when dropped.
    _proof: Option<NamedTempFile>,
    /// The file system keeps locks, or says so.
    locks: bool,
    /// Somebody reads or saves.
    taken: Mutex<bool>,
    free: Condvar,
}

/// A turn at the file within this process, where there are no locks that would keep readers and a save apart; given back when it
/// is dropped.
#[derive(Debug)]
pub(super) struct Turn(Arc<Mark>);

/// Waits for a turn at the season of this absolute path. `None` where locks do that, and where this process has no right to
/// write.
pub(super) fn turn(season: &Path) -> Option<Turn> {
    our_mark(season).filter(|mark| !mark.locks).map(Turn::at)
}

/// True where this process has the right to write to the season of this absolute path.
pub(super) fn is_ours(season: &Path) -> bool {
    our_mark(season).is_some()
}

fn our_mark(season: &Path) -> Option<Arc<Mark>> {
    let ours = OURS.lock().unwrap_or_else(PoisonError::into_inner);
    ours.iter().find(|(of, _)| of == season).and_then(|(_, mark)| mark.upgrade())
}

impl Turn {
    fn at(mark: Arc<Mark>) -> Self {
        let taken = mark.taken.lock().unwrap_or_else(PoisonError::into_inner);
        let mut taken = mark.free.wait_while(taken, |taken| *taken).unwrap_or_else(PoisonError::into_inner);
        *taken = true;
        drop(taken);
        Self(mark)
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        *self.0.taken.lock().unwrap_or_else(PoisonError::into_inner) = false;
        self.0.free.notify_one();
    }
}

/// A running program, as far as other programs can tell.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
struct Program {
    host: String,
    machine: String,
    /// This start of the machine.
    boot: String,
    /// The space its process number is of: containers have their own.
    space: String,
    process: u32,
    /// When the process began; a number is given again after it.
    began: String,
}

impl OneWriter {
    /// Takes the right to write to the season of this absolute path.
    ///
    /// # Errors
    /// `InUse` while another program has it; `File` where the mark cannot be made.
    pub(super) fn take(season: &Path) -> Result<Self, StoreError> {
        let mut ours = OURS.lock().unwrap_or_else(PoisonError::into_inner);
        ours.retain(|(_, mark)| mark.strong_count() > 0);
        if let Some(mark) = ours.iter().find(|(of, _)| of == season).and_then(|(_, mark)| mark.upgrade()) {
            return Ok(Self(Some(mark)));
        }
        let (path, mut program) = (with_suffix(season, ".writer"), Program::this());
        let proof = if cfg!(windows) { program.prove(&std::env::temp_dir()).ok() } else { None };
        claim(season, &path, &program)?;
        let (locks, taken, free) = (keeps_locks(&path), Mutex::default(), Condvar::new());
        let mark = Arc::new(Mark { locks, path, program, _proof: proof, taken, free });
        ours.push((season.to_owned(), Arc::downgrade(&mark)));
        Ok(Self(Some(mark)))
    }

    /// Makes sure that the right is still ours; takes it again where the mark was removed.
    ///
    /// # Errors
    /// As [`OneWriter::take`].
    pub(super) fn renew(&self, season: &Path) -> Result<(), StoreError> {
        let Some(mark) = &self.0 else { return Ok(()) };
        match Program::read(&mark.path) {
            Ok(program) if program == mark.program => Ok(()),
            _ => claim(season, &mark.path, &mark.program),
        }
    }

    /// Waits for a turn at the file, where there are no locks.
    pub(super) fn turn(&self) -> Option<Turn> {
        self.0.clone().filter(|mark| !mark.locks).map(Turn::at)
    }

    /// How the database reaches the file; `None` in the usual way.
    pub(super) fn vfs(&self) -> Option<&'static str> {
        self.0.as_ref().is_some_and(|mark| !mark.locks).then_some(WITHOUT_LOCKS)
    }
}

impl Drop for OneWriter {
    fn drop(&mut self) {
        // Under the lock of the list, so that none is shared between the last use and the removal.
        let _list = OURS.lock().unwrap_or_else(PoisonError::into_inner);
        self.0 = None;
    }
}

impl Drop for Mark {
    fn drop(&mut self) {
        if Program::read(&self.path).is_ok_and(|program| program == self.program) {
            // One that stays is taken over at the next start.
            fs::remove_file(&self.path).ok();
        }
    }
}

/// Makes the mark; in the place of one whose program is gone.
fn claim(season: &Path, path: &Path, program: &Program) -> Result<(), StoreError> {
    let failed = |error| StoreError::File { path: path.to_owned(), doing: "who writes cannot be marked", error };
    let in_use = |by: &Program| StoreError::InUse { path: season.to_owned(), by: by.name(), mark: path.to_owned() };
    for _ in 0..3 {
        match make(season, path, program) {
            Ok(()) => return Ok(()),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) if matches!(error.kind(), ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem) => {
                return Err(StoreError::ReadOnly { path: season.to_owned() });
            }
            Err(error) => return Err(failed(error)),
        }
        let there = match Program::read(path) {
            Ok(there) if there == *program => return Ok(()),
            Ok(there) => there,
            Err(error) if error.kind() == ErrorKind::NotFound => continue,
            Err(error) => return Err(failed(error)),
        };
        if !there.is_gone(program) {
            return Err(in_use(&there));
        }
        take_away(season, path, &there).map_err(failed)?;
    }
    Err(StoreError::Busy { path: season.to_owned() })
}

fn make(season: &Path, path: &Path, program: &Program) -> io::Result<()> {
    let part = Unfinished::beside(season, Purpose::Text)?;
    part.write(program.text().as_bytes())?;
    part.publish(path)
}

/// Removes the mark of a program that is gone, and no other: another program may have taken it over meanwhile.
fn take_away(season: &Path, path: &Path, gone: &Program) -> io::Result<()> {
    let aside = Unfinished::beside(season, Purpose::Text)?;
    match fs::rename(path, &aside) {
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
        renamed => renamed?,
    }
    if Program::read(&aside)? == *gone {
        return Ok(());
    }
    match aside.publish(path) {
        Err(error) if error.kind() != ErrorKind::AlreadyExists => Err(error),
        _ => Ok(()),
    }
}

/// True where a lock of the file system can be had.
fn keeps_locks(path: &Path) -> bool {
    let tried = fs::OpenOptions::new().read(true).write(true).open(path).map(|file: File| file.try_lock());
    !matches!(tried, Ok(Err(TryLockError::Error(_))))
}

impl Program {
    /// This one. What the system does not tell stays empty.
    #[cfg(not(windows))]
    fn this() -> Self {
        let text = |path: &str| fs::read_to_string(path).map(|text| text.trim().to_owned()).unwrap_or_default();
        let space = fs::read_link("/proc/self/ns/pid").map(|space| space.display().to_string());
        Self {
            host: text("/proc/sys/kernel/hostname"),
            machine: text("/etc/machine-id"),
            boot: text("/proc/sys/kernel/random/boot_id"),
            space: space.unwrap_or_default(),
            process: std::process::id(),
            began: began(std::process::id()).unwrap_or_default(),
        }
    }

    /// This one. Who began it and when takes a proof.
    #[cfg(windows)]
    fn this() -> Self {
        let host = std::env::var("COMPUTERNAME").unwrap_or_default();
        // Each user has a folder for what is temporary.
        let space = std::env::temp_dir().display().to_string();
        Self { host, space, process: std::process::id(), ..Self::default() }
    }

    /// Keeps a file locked in the temporary folder for as long as the program writes; its name is how the program is known again.
    fn prove(&mut self, temporary: &Path) -> io::Result<NamedTempFile> {
        let proof = tempfile::Builder::new().prefix(PROOF).rand_bytes(24).tempfile_in(temporary)?;
        proof.as_file().try_lock().map_err(io::Error::from)?;
        proof.path().file_name().and_then(OsStr::to_str).unwrap_or_default().clone_into(&mut self.began);
        Ok(proof)
    }

    fn text(&self) -> String {
        let Self { host, machine, boot, space, process, began } = self;
        format!("{host}\n{machine}\n{boot}\n{space}\n{process}\n{began}\n")
    }

    fn read(path: &Path) -> io::Result<Self> {
        let text = fs::read_to_string(path)?;
        let mut lines = text.lines().map(str::to_owned);
        let mut next = || lines.next().unwrap_or_default();
        Ok(Self {
            host: next(),
            machine: next(),
            boot: next(),
            space: next(),
            process: next().parse().unwrap_or(0),
            began: next(),
        })
    }

    /// True when this program surely does not run any more, as `here` can tell.
    fn is_gone(&self, here: &Self) -> bool {
        let same = |one: &str, other: &str| !one.is_empty() && one == other;
        if !same(&self.host, &here.host) {
            return false;
        }
        if cfg!(windows) {
            return same(&self.space, &here.space) && was_let_go(&std::env::temp_dir(), &self.began);
        }
        if same(&self.boot, &here.boot) {
            return same(&self.space, &here.space) && began(self.process).as_ref() != Some(&self.began);
        }
        same(&self.machine, &here.machine) && !self.boot.is_empty()
    }

    /// What it is called in messages.
    fn name(&self) -> String {
        let plain = |c: char| if c.is_ascii_alphanumeric() || "-_.".contains(c) { c } else { '?' };
        let host: String = self.host.chars().take(64).map(plain).collect();
        match (host.as_str(), self.process) {
            ("", _) => "another program".to_owned(),
            (host, process) => format!("a program on {host} (process {process})"),
        }
    }
}

/// True where the proof of this name lies in the temporary folder and no program holds it: then it goes. One that is not there says
/// nothing: it may have been cleared away, or be on another machine of the same name.
fn was_let_go(temporary: &Path, name: &str) -> bool {
    let random = name.strip_prefix(PROOF).unwrap_or_default();
    if random.is_empty() || !random.bytes().all(|byte| byte.is_ascii_alphanumeric()) {
        return false;
    }
    let proof = temporary.join(name);
    let Ok(file) = fs::OpenOptions::new().read(true).write(true).open(&proof) else { return false };
    let gone = file.try_lock().is_ok();
    drop(file);
    if gone {
        fs::remove_file(&proof).ok();
    }
    gone
}

/// When a process began, in ticks since the start of the machine; `None` where there is no such process.
fn began(process: u32) -> Option<String> {
    let stat = fs::read_to_string(format!("/proc/{process}/stat")).ok()?;
    // After the name in parentheses, which may hold anything, the twentieth word.
    stat.rsplit_once(") ")?.1.split(' ').nth(19).map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn season() -> (tempfile::TempDir, PathBuf, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let season = folder.path().join("season.db");
        let mark = folder.path().join("season.db.writer");
        (folder, season, mark)
    }

    fn marked(path: &Path, change: impl FnOnce(&mut Program)) {
        let mut program = Program::this();
        change(&mut program);
        fs::write(path, program.text()).unwrap();
    }

    #[test]
    fn the_mark_is_shared_in_a_process_and_goes_with_the_last_use() {
        let (folder, season, mark) = season();
        let one = OneWriter::take(&season).unwrap();
        let two = OneWriter::take(&season).unwrap();
        drop(one);
        assert!(mark.exists());
        two.renew(&season).unwrap();
        fs::remove_file(&mark).unwrap();
        two.renew(&season).unwrap();
        assert!(mark.exists(), "marked again");
        drop(two);
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn of_another_host_or_a_program_that_runs_it_is_left() {
        let (_folder, season, mark) = season();
        for change in [
            |program: &mut Program| program.host = "barn".to_owned(),
            |program: &mut Program| *program = Program { host: String::new(), ..Program::default() },
            #[cfg(not(windows))]
            // The first process always runs, but began at another time than is said here.
            |program: &mut Program| (program.process, program.began) = (1, began(1).unwrap_or_default()),
            |program: &mut Program| program.space = "pid:[1]".to_owned(),
        ] {
            marked(&mark, change);
            let before = fs::read(&mark).unwrap();
            let error = OneWriter::take(&season).unwrap_err();
            assert!(matches!(error, StoreError::InUse { .. }), "{error}");
            assert_eq!(fs::read(&mark).unwrap(), before);
        }
    }

    #[test]
    fn a_program_is_gone_when_nobody_holds_its_proof() {
        let folder = tempfile::tempdir().unwrap();
        let mut program = Program::default();
        let proof = program.prove(folder.path()).unwrap();
        assert!(program.began.starts_with(PROOF));
        assert!(!was_let_go(folder.path(), &program.began), "it is held");
        // As a killed program leaves it.
        let (file, path) = proof.keep().unwrap();
        drop(file);
        for other in ["", PROOF, "season.db", &format!("{PROOF}../x"), &format!("{PROOF}zz")] {
            assert!(!was_let_go(folder.path(), other), "{other}");
        }
        assert!(was_let_go(folder.path(), &program.began));
        assert!(!path.exists() && !was_let_go(folder.path(), &program.began), "once");
    }

    #[test]
    #[cfg(windows)]
    fn of_a_program_of_this_host_that_is_gone_it_is_taken_over_by_its_proof() {
        let (_folder, season, mark) = season();
        let mut gone = Program::this();
        let proof = gone.prove(&std::env::temp_dir()).unwrap();
        fs::write(&mark, gone.text()).unwrap();
        assert!(matches!(OneWriter::take(&season), Err(StoreError::InUse { .. })), "it runs");
        drop(proof.keep().unwrap());
        drop(OneWriter::take(&season).unwrap());
        assert!(!mark.exists());
    }

    #[test]
    #[cfg(target_os = "linux")]
    fn of_a_program_of_this_host_that_is_gone_it_is_taken_over() {
        let (_folder, season, mark) = season();
        for change in
            [|program: &mut Program| program.process = u32::MAX, |program: &mut Program| program.began = "1".to_owned()]
        {
            marked(&mark, change);
            let taken = OneWriter::take(&season).unwrap();
            assert_eq!(Program::read(&mark).unwrap(), Program::this());
            drop(taken);
            assert!(!mark.exists());
        }
    }
}
