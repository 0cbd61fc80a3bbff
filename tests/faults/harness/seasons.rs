//! Seasons to try faults on, and a walk through them.

use super::command::{Run, run};
use super::judge::beside;
use crate::large::large;
use crate::terminal::{Pty, Start};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

/// The day the demo is opened on.
pub(crate) const DEMO_DAY: &str = "2026-10-14";

/// Writes the demo season, closed and without a write-ahead log, to a file that is not there yet.
pub(crate) fn demo(file: &Path) {
    static MADE: OnceLock<Vec<u8>> = OnceLock::new();
    let bytes = MADE.get_or_init(|| {
        let folder = tempfile::tempdir().unwrap();
        let made = folder.path().join("demo.db");
        let done = run(folder.path(), &["demo", "--no-open", "--season", "demo.db"]);
        assert_eq!(done.code, Some(0), "no demo: {}", done.err());
        assert!(!beside(&made, "-wal").exists(), "the demo is not closed");
        std::fs::read(made).unwrap()
    });
    std::fs::write(file, bytes).unwrap();
}

/// The demo season as a journal.
pub(crate) fn demo_journal() -> &'static str {
    static JOURNAL: OnceLock<String> = OnceLock::new();
    JOURNAL.get_or_init(|| {
        let folder = tempfile::tempdir().unwrap();
        demo(&folder.path().join("demo.db"));
        let done = run(folder.path(), &["--season", "demo.db", "export"]);
        assert_eq!(done.code, Some(0), "no journal: {}", done.err());
        done.out()
    })
}

/// Writes a season of so many benches (`H1-01` and on) and days from August 10, 2026 to a file that is not there yet; gives its journal.
pub(crate) fn load(file: &Path, benches: u32, days: u32, seed: u64) -> String {
    let journal = large(benches, days, seed).journal();
    let folder = tempfile::tempdir().unwrap();
    let arguments = ["--season".as_ref(), file.as_os_str(), "import".as_ref(), "-".as_ref()];
    let done = Run { stdin: journal.as_bytes(), ..Run::at(folder.path()) }.go(&arguments);
    assert_eq!(done.code, Some(0), "no season: {}", done.err());
    journal
}

/// Copies a season file and its write-ahead log, if there is one.
pub(crate) fn copy(from: &Path, to: &Path) {
    std::fs::copy(from, to).unwrap();
    if beside(from, "-wal").exists() {
        std::fs::copy(beside(from, "-wal"), beside(to, "-wal")).unwrap();
    }
}

/// Opens the screens on the demo, `s.db` in a folder of its own, as `zz`, and waits for the Round.
pub(crate) fn walk_demo() -> (tempfile::TempDir, PathBuf, Pty) {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("s.db");
    demo(&file);
    let pty = walk(Start { folder: Some(folder.path()), ..Start::default() }, &file, DEMO_DAY, "zz");
    (folder, file, pty)
}

/// Opens the screens on a season file, as this author, and waits for the Round.
pub(crate) fn walk(start: Start<'_>, file: &Path, on: &str, by: &str) -> Pty {
    let arguments = ["--season".as_ref(), file.as_os_str(), "--on".as_ref(), on.as_ref(), "--by".as_ref(), by.as_ref()];
    let mut pty = Pty::start_as(start, &arguments);
    pty.wait_round();
    pty
}
