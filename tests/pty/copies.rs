//! The copy of the day that the screens keep by themselves.

use crate::terminal::{Pty, Start, query};
use std::path::{Path, PathBuf};

/// Opens the screens on `season.db` of a folder and waits for the Round.
fn open(folder: &Path) -> Pty {
    let mut pty = Pty::start_as(Start { folder: Some(folder), ..Start::default() }, &["--season", "season.db"]);
    pty.wait_round();
    pty
}

/// A folder with the demo in `season.db`.
fn demo() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let start = Start { folder: Some(folder.path()), ..Start::default() };
    let mut pty = Pty::start_as(start, &["demo", "--no-open", "--season", "season.db"]);
    assert_eq!(pty.ended().0.exit_code(), 0);
    folder
}

/// Everything in the folder of the copies.
fn copies(folder: &Path) -> Vec<PathBuf> {
    let Ok(seasons) = std::fs::read_dir(folder.join("data/benchwalk/backups")) else { return Vec::new() };
    seasons.flat_map(|season| std::fs::read_dir(season.unwrap().path()).unwrap()).map(|e| e.unwrap().path()).collect()
}

#[test]
fn the_first_start_of_a_day_keeps_a_copy_and_the_second_none() {
    let folder = demo();
    for _ in 0..2 {
        // Left at once: the copy is finished first.
        let mut pty = open(folder.path());
        pty.send("q");
        assert_eq!(pty.ended().0.exit_code(), 0);
        // Two where midnight at the site came between.
        let found = copies(folder.path());
        assert!((1..=2).contains(&found.len()), "{found:?}");
        for copy in found {
            assert_eq!(query(&copy, "PRAGMA integrity_check"), ["ok"]);
            assert_eq!(query(&copy, "SELECT count(*) > 1000 FROM entry"), ["1"]);
        }
    }
}

#[test]
fn a_copy_that_cannot_be_kept_is_said_and_work_goes_on() {
    let folder = demo();
    let config = folder.path().join("config/benchwalk");
    std::fs::create_dir_all(&config).unwrap();
    std::fs::write(config.join("config.toml"), "backup_folder = '/nostick'\nby = \"kt\"\n").unwrap();
    let mut pty = open(folder.path());
    pty.wait("why there is none", |text| {
        text.contains("No backup copy was made today: the backup folder is missing:") && text.contains("/nostick")
    });
    pty.send("q");
    assert_eq!(pty.ended().0.exit_code(), 0);
    assert!(copies(folder.path()).is_empty());
    // Switched off nothing is said and nothing kept.
    std::fs::write(config.join("config.toml"), "daily_backups = false\nby = \"kt\"\n").unwrap();
    let mut pty = open(folder.path());
    pty.send("q");
    assert_eq!(pty.ended().0.exit_code(), 0);
    assert!(!pty.raw().contains("No backup copy"));
    assert!(copies(folder.path()).is_empty());
}
