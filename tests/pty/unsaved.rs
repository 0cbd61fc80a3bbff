//! What could not be saved: kept in a journal, printed on leaving, offered at the next start and saved from there.

use crate::terminal::{Pty, Start, is_round, program, query};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

const MINE: &str = "SELECT count(*) FROM written WHERE author = 'demo'";
const OFFER: &str = "Enter saves this now";

/// The journals of what is not saved.
fn journals(home: &Path) -> Vec<PathBuf> {
    let there = fs::read_dir(home.join("state/benchwalk/unsaved")).into_iter().flatten();
    there.map(|entry| entry.unwrap().path()).collect()
}

/// A screen as one line: where a message is broken depends on what it says.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Entries in what was printed.
fn printed(pty: &Pty) -> usize {
    pty.raw().matches("\"type\":\"entry\"").count()
}

/// One command in the home of a program; gives its exit code, standard output and standard error.
fn run(home: &Path, arguments: &[&str]) -> (Option<i32>, String, String) {
    let mut command = Command::new(program());
    command.current_dir(home).args(arguments).env("HOME", home);
    for (name, sub) in [("XDG_DATA_HOME", "data"), ("XDG_CONFIG_HOME", "config"), ("XDG_STATE_HOME", "state")] {
        command.env(name, home.join(sub));
    }
    let done = command.output().unwrap();
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (done.status.code(), text(&done.stdout), text(&done.stderr))
}

/// The season opened again where a first program left it.
fn again(home: &Path) -> Pty {
    let start = Start { folder: Some(home), ..Start::default() };
    Pty::start_as(start, &["--season", "season.db", "--on", "2026-10-14", "--by", "demo"])
}

/// A demo season of which a second connection holds the lock, with one entry that waits.
fn waiting(home: &Path) -> (Pty, rusqlite::Connection) {
    let start = Start { folder: Some(home), ..Start::default() };
    let mut pty = Pty::start_as(start, &["demo", "--season", "season.db"]);
    pty.wait_round();
    let other = rusqlite::Connection::open(home.join("season.db")).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    pty.send("w4");
    pty.wait("not saved", |text| text.contains("1 NOT YET SAVED: another program is writing"));
    (pty, other)
}

#[test]
fn a_season_file_replaced_while_open_loses_nothing_and_the_next_start_saves_it() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let start = Start { folder: Some(home), ..Start::default() };
    let mut pty = Pty::start_as(start, &["demo", "--season", "season.db"]);
    pty.wait_round();
    assert_eq!(run(home, &["--season", "season.db", "backup", "old.db"]).0, Some(0));
    pty.send("w4");
    pty.wait("saved", |text| text.contains("saved:") && !text.contains("NOT YET"));
    fs::remove_file(home.join("season.db-wal")).ok();
    fs::remove_file(home.join("season.db-shm")).ok();
    fs::rename(home.join("old.db"), home.join("season.db")).unwrap();
    pty.send("2");
    pty.wait("why and what to do", |text| {
        let line = text.lines().find(|line| line.starts_with("! 1 NOT YET SAVED: season.db"));
        line.is_some()
            && words(text).contains("kept in a journal, to be offered at the next start")
            && !text.contains("saved: ")
    });
    pty.send("\u{11}");
    pty.wait("put off once", |text| words(text).contains("Press quit again to print them"));
    pty.send("\u{11}");
    assert_eq!(pty.ended().0.exit_code(), 1);
    pty.drain();
    assert_eq!(printed(&pty), 2, "what was saved before and what was not: {}", pty.raw());
    let kept = journals(home);
    assert_eq!(kept.len(), 1);
    assert_eq!(query(&home.join("season.db"), MINE), ["0"]);

    // A command says it on standard error, a line.
    let (code, _, said) = run(home, &["--season", "season.db", "review"]);
    let path = kept[0].display();
    assert_eq!((code, said), (Some(0), format!("2 entries not saved yet are in {path}: benchwalk import {path}\n")));

    let mut next = again(home);
    next.wait("the offer", |text| words(text).contains("2 entries of Oct 14 were not saved") && text.contains(OFFER));
    next.send("\u{1b}");
    next.wait("left for later", |text| !text.contains(OFFER) && text.contains("walked "));
    next.send("q");
    assert_eq!(next.ended().0.exit_code(), 0);
    assert_eq!(journals(home), kept);

    let mut next = again(home);
    next.wait("the offer", |text| text.contains(OFFER));
    next.send("\r");
    next.wait("saved", |text| !text.contains(OFFER) && is_round(text));
    next.send("q");
    assert_eq!(next.ended().0.exit_code(), 0);
    assert_eq!(query(&home.join("season.db"), MINE), ["2"]);
    assert!(journals(home).is_empty());
    assert_eq!(run(home, &["--season", "season.db", "review"]).2, "");
}

#[test]
fn a_terminal_that_goes_leaves_a_journal_that_import_takes() {
    let home = tempfile::tempdir().unwrap();
    let (mut pty, other) = waiting(home.path());
    pty.hang_up("\u{1b}");
    assert_ne!(pty.ended().0.exit_code(), 0);
    other.execute_batch("ROLLBACK").unwrap();
    let kept = journals(home.path());
    assert_eq!(kept.len(), 1);
    let (code, said, trouble) = run(home.path(), &["--season", "season.db", "import", kept[0].to_str().unwrap()]);
    assert_eq!(code, Some(0), "{trouble}");
    assert!(said.contains("1 record imported") && said.contains("removed"), "{said}");
    assert_eq!(query(&home.path().join("season.db"), MINE), ["1"]);
    assert!(journals(home.path()).is_empty());
}

#[test]
fn a_signal_ends_it_with_its_own_exit_code_also_with_unsaved_entries() {
    for (name, code) in [("TERM", 143), ("HUP", 129)] {
        let home = tempfile::tempdir().unwrap();
        let (mut pty, _other) = waiting(home.path());
        pty.signal(name);
        assert_eq!(pty.ended().0.exit_code(), code, "{name}");
        pty.drain();
        // Whether it could also print them in time is the disk's affair.
        assert_eq!(journals(home.path()).len(), 1, "{name}");
    }
}

#[test]
fn a_journal_of_what_was_saved_after_all_goes_without_a_word() {
    let home = tempfile::tempdir().unwrap();
    let (mut pty, other) = waiting(home.path());
    let kept = journals(home.path());
    assert_eq!(kept.len(), 1);
    let copy = fs::read(&kept[0]).unwrap();
    other.execute_batch("ROLLBACK").unwrap();
    pty.wait("saved by itself", |text| text.contains("saved:") && !text.contains("NOT YET"));
    assert!(journals(home.path()).is_empty());
    pty.send("\u{11}");
    assert_eq!(pty.ended().0.exit_code(), 0);
    // As if the program had been killed between the save and the removal.
    fs::write(&kept[0], copy).unwrap();
    let mut next = again(home.path());
    next.wait_round();
    assert!(!next.text().contains(OFFER), "{}", next.text());
    next.send("q");
    next.ended();
    assert!(journals(home.path()).is_empty());
}
