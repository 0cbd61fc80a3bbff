//! The journal of what is not saved cut at its own calls: killed, or given an error of the disk, while an entry joins it. What
//! it held before is still there and can be read, and what the screens go on with is lost nowhere.

use crate::harness::{
    Attached, Campaign, Scores, count, entries, have_strace, judge, leave, lines, rescued, walk_demo,
};
use rusqlite::Connection;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The calls a journal is written by, and how many of each are cut.
const CALLS: [(&str, usize); 5] =
    [("openat", 3), ("fsync", 2), ("rename,renameat,renameat2", 1), ("link,linkat", 1), ("flock", 1)];

const WAYS: [&str; 3] = ["signal=SIGKILL", "error=ENOSPC", "error=EIO"];

/// The journals below a folder.
fn journals(folder: &Path) -> Vec<PathBuf> {
    let Ok(there) = std::fs::read_dir(folder) else { return Vec::new() };
    let paths = there.map(|entry| entry.unwrap().path());
    let all = paths.flat_map(|path| if path.is_dir() { journals(&path) } else { vec![path] });
    all.filter(|path| path.extension().is_some_and(|ending| ending == "jsonl")).collect()
}

/// Gives what did not hold, and whether the cut took place.
fn cut(inject: &str) -> (Vec<String>, bool) {
    let (folder, file, mut pty) = walk_demo();
    let other = Connection::open(&file).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    let state = folder.path().join("state");
    let (mut first, mut why) = (Scores::default(), Vec::new());
    pty.send("w");
    first.score(&mut pty);
    if !pty.until(Duration::from_secs(20), || first.nowhere(&rescued(&state, "zz")).is_empty()) {
        return (vec!["the first entry is in no journal".to_owned()], false);
    }
    let attached = Attached::to(&mut pty, inject);
    let mut more = Scores::following(&first);
    let killed = inject.contains("SIGKILL");
    if killed {
        pty.send("2");
        pty.until(Duration::from_secs(5), || attached.trace().contains("SIGKILL"));
    } else {
        more.score(&mut pty);
        pty.until(Duration::from_secs(5), || attached.struck());
    }
    let struck = attached.struck() || attached.trace().contains("SIGKILL");
    attached.end();
    if killed {
        pty.kill();
    } else {
        let code = leave(&mut pty);
        let kept = [rescued(&state, "zz"), entries(&pty.raw(), "zz")].concat();
        why.extend(more.nowhere(&kept));
        if code == 0 {
            why.push("left with 0 though something is not saved".to_owned());
        }
    }
    other.execute_batch("COMMIT").unwrap();
    why.extend(first.nowhere(&[rescued(&state, "zz"), entries(&pty.raw(), "zz")].concat()));
    // Every journal that lies there is whole: it goes into the season.
    for journal in journals(&state) {
        let done = crate::harness::run(folder.path(), &["--season", "s.db", "import", journal.to_str().unwrap()]);
        if done.code != Some(0) {
            why.push(format!("{} does not go in: {}", journal.display(), done.err()));
        }
    }
    let judged = judge(&file);
    why.extend(judged.bad);
    why.extend(first.nowhere(&[lines(&judged.rows, "zz"), entries(&pty.raw(), "zz")].concat()));
    (why, struck)
}

#[test]
fn the_journal_of_what_is_not_saved_survives_a_cut_of_itself() {
    if !have_strace() {
        return;
    }
    let mut campaign = Campaign::new("cuts of the rescue journal");
    let all = CALLS.iter().flat_map(|(calls, most)| {
        WAYS.iter().flat_map(move |way| (1..=*most).map(move |n| format!("{calls}:{way}:when={n}")))
    });
    let mut cuts: Vec<String> = all.collect();
    let full = cuts.len();
    campaign.rng(0).shuffle(&mut cuts);
    cuts.truncate(count(3, full));
    let struck = std::sync::atomic::AtomicUsize::new(0);
    campaign.each(&cuts, String::clone, |_, inject| {
        let (why, took_place) = cut(inject);
        struck.fetch_add(usize::from(took_place), std::sync::atomic::Ordering::SeqCst);
        why
    });
    println!("{} of {} cuts of the rescue journal took place", struck.into_inner(), cuts.len());
    campaign.end();
}
