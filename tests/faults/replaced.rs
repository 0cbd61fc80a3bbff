//! The season file is removed, replaced or loses its log while the screens are open: nothing is shown as saved that is not in
//! the file of that name, and what is not saved can be had again.

use crate::harness::{
    Campaign, Saves, Scores, beside, demo_journal, entries, judge, leave, lines, rescued, run, walk_demo,
};
use crate::terminal::DEADLINE;
use std::fs;
use std::path::Path;
use std::sync::OnceLock;
use std::time::Duration;

/// What happens to the file, by the name it is told by.
const ACTS: [(&str, fn(&Path)); 6] = [
    ("file removed", |file| fs::remove_file(file).unwrap()),
    ("file and log removed", |file| {
        without_log(file);
        fs::remove_file(file).unwrap();
    }),
    ("log removed", without_log),
    ("older copy renamed over it", |file| fs::rename(older(file), file).unwrap()),
    ("older copy renamed over it, log removed first", |file| {
        without_log(file);
        fs::rename(older(file), file).unwrap();
    }),
    ("older copy written over it", |file| {
        fs::copy(older(file), file).unwrap();
    }),
];

fn without_log(file: &Path) {
    for ending in ["-wal", "-shm"] {
        fs::remove_file(beside(file, ending)).ok();
    }
}

/// A copy of the season as it was at the end of September, beside the file.
fn older(file: &Path) -> std::path::PathBuf {
    static MADE: OnceLock<Vec<u8>> = OnceLock::new();
    let bytes = MADE.get_or_init(|| {
        let folder = tempfile::tempdir().unwrap();
        let kept = demo_journal().lines().filter(|line| {
            let entry = line.contains("\"type\":\"entry\"");
            !line.starts_with('#') && (!entry || line.contains("\"at\":\"2026-09"))
        });
        let journal = kept.collect::<Vec<_>>().join("\n").replacen(",\"ends\":true", "", 1) + "\n";
        fs::write(folder.path().join("old.jsonl"), journal).unwrap();
        let done = run(folder.path(), &["--season", "old.db", "import", "old.jsonl"]);
        assert_eq!(done.code, Some(0), "{}", done.err());
        fs::read(folder.path().join("old.db")).unwrap()
    });
    let copy = beside(file, ".older");
    fs::write(&copy, bytes).unwrap();
    copy
}

/// What happens to the file, and whether the program is then left or killed.
type Case = ((&'static str, fn(&Path)), bool);

fn replaced(((_, act), left): &Case) -> Vec<String> {
    let (folder, file, mut pty) = walk_demo();
    let saves = Saves::watch(&pty);
    pty.send("w");
    let mut before = Scores::default();
    before.score(&mut pty);
    assert!(pty.until(DEADLINE, || saves.shown() > 0), "no save:\n{}", pty.text());
    act(&file);
    saves.forget();
    let mut after = Scores::following(&before);
    for _ in 0..3 {
        after.score(&mut pty);
    }
    let rows = || if file.exists() { judge(&file).rows } else { Vec::new() };
    let state = folder.path().join("state");
    let mut why = Vec::new();
    if *left {
        let code = leave(&mut pty);
        let kept = lines(&rows(), "zz");
        let printed = entries(&pty.raw(), "zz");
        if !after.nowhere(&kept).is_empty() && code == 0 {
            why.push("left with 0 though not all is in the file".to_owned());
        }
        why.extend(after.nowhere(&[kept, printed].concat()));
    } else {
        // What is not saved is in the rescue journal soon; then it is killed.
        let kept = || [lines(&rows(), "zz"), rescued(&state, "zz")].concat();
        pty.until(Duration::from_secs(10), || after.nowhere(&kept()).is_empty());
        pty.kill();
        why.extend(after.nowhere(&kept()));
    }
    why.extend(saves.missing(&rows(), "zz"));
    if !why.is_empty() {
        why.push(format!("at the end the screen says:\n{}", pty.text()));
    }
    why
}

#[test]
fn nothing_is_shown_as_saved_in_a_file_that_was_removed_or_replaced() {
    let mut campaign = Campaign::new("replaced files");
    let cases: Vec<Case> = ACTS.iter().flat_map(|act| [(*act, true), (*act, false)]).collect();
    campaign.each(
        &cases,
        |((name, _), left)| format!("{name}, then {}", if *left { "left" } else { "killed" }),
        |_, case| replaced(case),
    );
    campaign.end();
}
