//! Locks, signals and backups while walking: another program that writes or holds the file, two programs on one bench, a
//! signal while something is not saved, a backup at any moment. Nothing is lost, nothing hangs.

use crate::harness::{
    Attached, Campaign, DEMO_DAY, Saves, Scores, count, demo, entries, have_strace, judge, judge_in_place, leave,
    lines, load, rescued, run, walk, walk_demo,
};
use crate::terminal::{Pty, Start};
use rusqlite::Connection;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The demo in a folder of its own, with the card of the first bench open.
struct Walk {
    folder: tempfile::TempDir,
    file: PathBuf,
    pty: Pty,
    saves: Saves,
    scores: Scores,
}

impl Walk {
    fn new() -> Self {
        let (folder, file, mut pty) = walk_demo();
        let saves = Saves::watch(&pty);
        pty.send("w");
        Self { folder, file, pty, saves, scores: Scores::default() }
    }

    fn score(&mut self, times: usize) {
        for _ in 0..times {
            self.scores.score(&mut self.pty);
        }
    }

    /// What is lost: of what was shown as saved, and of what was typed and is neither in the file, nor printed, nor rescued.
    fn lost(&self) -> Vec<String> {
        let judged = judge(&self.file);
        let mut why = judged.bad;
        why.extend(self.saves.missing(&judged.rows, "zz"));
        let rescued = rescued(&self.folder.path().join("state"), "zz");
        let printed = entries(&self.pty.raw(), "zz");
        why.extend(self.scores.nowhere(&[lines(&judged.rows, "zz"), rescued, printed].concat()));
        why
    }
}

/// Another program holds the file for a while: what is typed meanwhile waits and is saved by itself.
fn held(lock: &str) -> Vec<String> {
    let mut walk = Walk::new();
    let other = Connection::open(&walk.file).unwrap();
    other.execute_batch(lock).unwrap();
    walk.score(3);
    walk.pty.wait("3 that are not saved", |text| text.contains("3 NOT YET SAVED"));
    walk.pty.pause(Duration::from_secs(count(1, 10) as u64));
    other.execute_batch("COMMIT").unwrap();
    walk.pty.wait("saved by itself", |text| !text.contains("NOT YET SAVED"));
    let mut why = match leave(&mut walk.pty) {
        0 => vec![],
        code => vec![format!("left with {code}")],
    };
    println!("locks: slowest answer of a card {:?}", walk.scores.slowest);
    why.extend(walk.scores.nowhere(&lines(&judge(&walk.file).rows, "zz")));
    why.extend(walk.lost());
    why
}

/// A program that reads for long holds nothing up.
fn read_meanwhile() -> Vec<String> {
    let mut walk = Walk::new();
    let other = Connection::open(&walk.file).unwrap();
    other.execute_batch("BEGIN; SELECT count(*) FROM entry;").unwrap();
    walk.score(3);
    walk.pty.wait("saved", |text| text.contains("saved: ") && !text.contains("NOT YET SAVED"));
    let mut why = match leave(&mut walk.pty) {
        0 => vec![],
        code => vec![format!("left with {code}")],
    };
    drop(other);
    why.extend(walk.scores.nowhere(&lines(&judge(&walk.file).rows, "zz")));
    why.extend(walk.lost());
    why
}

/// The file is locked before a command opens it: it says so and ends; later it works.
fn held_before() -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("s.db");
    demo(&file);
    let other = Connection::open(&file).unwrap();
    other.execute_batch("PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE;").unwrap();
    let review = ["--season", "s.db", "--on", DEMO_DAY, "review"];
    let done = run(folder.path(), &review);
    let mut why = done.unsound();
    if done.code != Some(0) && done.err().trim().is_empty() {
        why.push("no reason is told".to_owned());
    }
    drop(other);
    let free = run(folder.path(), &review);
    if free.code != Some(0) {
        why.push(format!("a review once it is free: code {:?}, {}", free.code, free.err()));
    }
    if done.code == Some(0) && done.out() != free.out() {
        why.push("the review of the locked file is another one".to_owned());
    }
    why
}

/// Two programs walk the same benches, each as another author.
fn together_on_one_bench() -> Vec<String> {
    let mut one = Walk::new();
    let start = Start { folder: Some(one.folder.path()), ..Start::default() };
    let mut two = walk(start, &one.file, DEMO_DAY, "yy");
    let (saves, mut scores) = (Saves::watch(&two), Scores::default());
    two.send("w");
    for _ in 0..3 {
        one.score(1);
        scores.score(&mut two);
    }
    let mut why = Vec::new();
    for pty in [&mut one.pty, &mut two] {
        pty.wait("all saved", |text| !text.contains("NOT YET SAVED"));
        let code = leave(pty);
        if code != 0 {
            why.push(format!("left with {code}"));
        }
    }
    let rows = judge(&one.file).rows;
    why.extend(saves.missing(&rows, "yy"));
    why.extend(scores.nowhere(&lines(&rows, "yy")));
    why.extend(one.scores.nowhere(&lines(&rows, "zz")));
    why.extend(one.lost());
    why
}

/// A signal while three entries wait for another program.
fn signaled(name: &str, code: Option<u32>) -> Vec<String> {
    let mut walk = Walk::new();
    let other = Connection::open(&walk.file).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    walk.score(3);
    walk.pty.wait("3 that are not saved", |text| text.contains("3 NOT YET SAVED"));
    walk.pty.signal(name);
    let (status, _) = walk.pty.ended();
    walk.pty.drain();
    other.execute_batch("COMMIT").unwrap();
    let mut why = walk.lost();
    if code.is_some_and(|code| code != status.exit_code()) {
        why.push(format!("ended with {}, not {code:?}", status.exit_code()));
    }
    why
}

/// A signal while a save waits three seconds for the disk.
fn signaled_in_a_sync() -> Vec<String> {
    if !have_strace() {
        return vec![];
    }
    let mut walk = Walk::new();
    let attached = Attached::to(&mut walk.pty, "fsync,fdatasync:delay_enter=3000000:when=1+");
    walk.score(1);
    walk.pty.signal("TERM");
    let (status, took) = walk.pty.ended();
    walk.pty.drain();
    let trace = attached.trace();
    attached.end();
    let mut why = walk.lost();
    if !why.is_empty() {
        why.push(format!("ended with {} after {took:?}; the calls:\n{trace}", status.exit_code()));
    }
    why
}

#[test]
fn locks_and_signals_while_walking_lose_nothing() {
    type Case = (&'static str, fn() -> Vec<String>);
    let mut campaign = Campaign::new("locks and signals");
    let cases: [Case; 10] = [
        ("another program writes", || held("BEGIN IMMEDIATE")),
        ("another program holds an exclusive lock", || held("BEGIN EXCLUSIVE")),
        ("another program reads", read_meanwhile),
        ("locked before it is opened", held_before),
        ("two programs on one bench", together_on_one_bench),
        ("TERM", || signaled("TERM", Some(143))),
        ("HUP", || signaled("HUP", Some(129))),
        ("INT", || signaled("INT", Some(130))),
        ("QUIT", || signaled("QUIT", None)),
        ("TERM in a slow sync", signaled_in_a_sync),
    ];
    campaign.each(&cases, |(name, _)| (*name).to_owned(), |_, (_, case)| case());
    campaign.end();
}

/// A backup while the walk goes on, in the same program or not, holds everything that was shown as saved before it.
fn backed_up(folder: &Path, nth: usize, before: &Saves) -> Vec<String> {
    let name = format!("b{nth}.db");
    let done = run(folder, &["--season", "s.db", "backup", &name]);
    if done.code != Some(0) {
        return vec![format!("backup: code {:?}, {}", done.code, done.err())];
    }
    let judged = judge_in_place(&folder.join(name));
    [judged.bad, before.missing(&judged.rows, "zz")].concat()
}

#[test]
fn backups_while_walking_hold_what_was_shown_as_saved() {
    let mut campaign = Campaign::new("backups while walking");
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("s.db");
    load(&file, 60, 10, 1);
    let start = Start { folder: Some(folder.path()), ..Start::default() };
    let mut pty = walk(start, &file, "2026-08-20", "zz");
    let (saves, mut scores) = (Saves::watch(&pty), Scores::default());
    pty.send("w");
    for n in 0..count(4, 40) {
        scores.score(&mut pty);
        let before = saves.so_far();
        let why = std::thread::scope(|scope| {
            let backup = scope.spawn(|| backed_up(folder.path(), n, &before));
            scores.score(&mut pty);
            backup.join().unwrap()
        });
        campaign.case(&format!("backup {n}"), &why);
    }
    pty.wait("all saved", |text| !text.contains("NOT YET SAVED"));
    let code = leave(&mut pty);
    let judged = judge(&file);
    let mut why = [judged.bad, saves.missing(&judged.rows, "zz")].concat();
    why.extend(scores.nowhere(&lines(&judged.rows, "zz")));
    if code != 0 {
        why.push(format!("left with {code}"));
    }
    campaign.case("the walk itself", &why);
    campaign.end();
}
