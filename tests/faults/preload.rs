//! The library that stands between the program and the system's calls (`preload.c`), built once, and its control file.
#![allow(dead_code, reason = "each campaign takes what it needs")]

use chrono::{DateTime, TimeZone};
use std::ffi::OsStr;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::{Mutex, OnceLock};

/// The library, built with the C compiler that the program's own build needs too.
fn library() -> &'static str {
    static BUILT: OnceLock<(tempfile::TempDir, String)> = OnceLock::new();
    let (_, path) = BUILT.get_or_init(|| {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("preload.so");
        let source = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/faults/preload.c");
        let built = Command::new("cc")
            .args(["-Wall", "-Wextra", "-Werror", "-O1", "-shared", "-fPIC", "-o"])
            .arg(&path)
            .arg(source)
            .output()
            .expect("a C compiler named cc");
        assert!(built.status.success(), "{}", String::from_utf8_lossy(&built.stderr));
        (folder, path.to_str().unwrap().to_owned())
    });
    path
}

/// How record locks go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Locks {
    /// Granted, and not kept.
    NotKept,
    /// Refused with "no locks available".
    Refused,
}

/// What is wrong now.
#[derive(Debug, Clone, Default)]
pub(crate) struct Faults {
    /// The folder is a network's: the table of mounts says so.
    pub network: bool,
    pub locks: Option<Locks>,
    /// The index of a write-ahead log cannot be shared.
    pub no_shm: bool,
    /// `full`, `broken` or `slow`.
    pub write: Option<&'static str>,
    /// The wall clock: `+3600`, `-3600`, or `=1791800000` where it stands still.
    pub clock: Option<String>,
}

/// The faults of the programs in a folder, changed while they run.
pub(crate) struct Preload {
    folder: PathBuf,
    control: String,
    now: Mutex<Faults>,
}

impl Preload {
    /// No fault yet; those of files hold for files below the folder. The control file lies beside it.
    pub(crate) fn new(folder: &Path) -> Self {
        let folder = folder.canonicalize().unwrap();
        let control = format!("{}.faults", folder.display());
        let this = Self { folder, control, now: Mutex::default() };
        this.set(&Faults::default());
        this
    }

    /// From the next call on these faults hold, and no others.
    pub(crate) fn set(&self, faults: &Faults) {
        let mut text = format!("under {}\n", self.folder.display());
        if faults.network {
            let mounts = format!("{}.mounts", self.folder.display());
            let table = format!("/dev/root / ext4 rw 0 0\nserver:/home {} nfs4 rw 0 0\n", self.folder.display());
            std::fs::write(&mounts, table).unwrap();
            writeln!(text, "mounts {mounts}").unwrap();
        }
        match faults.locks {
            Some(Locks::NotKept) => text.push_str("locks none\n"),
            Some(Locks::Refused) => text.push_str("locks refused\n"),
            None => {}
        }
        if faults.no_shm {
            text.push_str("shm refused\n");
        }
        if let Some(write) = faults.write {
            writeln!(text, "write {write}").unwrap();
        }
        if let Some(clock) = &faults.clock {
            writeln!(text, "clock {clock}").unwrap();
        }
        let part = format!("{}.part", self.control);
        std::fs::write(&part, text).unwrap();
        std::fs::rename(&part, &self.control).unwrap();
        *self.now.lock().unwrap() = faults.clone();
    }

    /// Changes some of the faults; the others stay.
    pub(crate) fn change(&self, change: impl FnOnce(&mut Faults)) {
        let mut faults = self.now.lock().unwrap().clone();
        change(&mut faults);
        self.set(&faults);
    }

    /// Sets the clock to an instant, where it stands still, and takes every other fault away.
    pub(crate) fn stand_at(&self, instant: DateTime<impl TimeZone>) {
        self.set(&Faults { clock: Some(format!("={}", instant.timestamp())), ..Faults::default() });
    }

    /// The variables of a command that is to meet the faults.
    pub(crate) fn command_env(&self) -> [(&str, Option<&OsStr>); 2] {
        self.env().map(|(name, value)| (name, value.map(OsStr::new)))
    }

    /// The variables of a program in a terminal that is to meet the faults.
    pub(crate) fn env(&self) -> [(&str, Option<&str>); 2] {
        [("LD_PRELOAD", Some(library())), ("PRELOAD_FAULTS", Some(&self.control))]
    }
}
