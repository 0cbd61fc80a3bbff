//! A disk that fills up while walking: it is said that nothing is saved, the screen stays whole, all of it is saved once there
//! is room, and until then it can be had again whatever way the program ends. Where the state folder is full too and the
//! terminal goes, nothing can be kept, and that was told.

use crate::harness::{
    Campaign, DEMO_DAY, Saves, Scores, demo, entries, in_own_mounts, judge, leave, lines, mount_small, rescued, walk,
};
use crate::terminal::Start;
use std::fs::{self, File};
use std::io::Write;
use std::path::Path;
use std::time::Duration;

/// How it ends once the disk is full.
#[derive(Debug, Clone, Copy, PartialEq)]
enum How {
    RoomAgain,
    Left,
    Terminated,
    TerminalGone,
    Killed,
}

/// An end, and whether the state folder lies on another disk.
type Case = (How, bool);

/// Fills the disk to its last byte.
fn fill(file: &Path) {
    let mut filling = File::create(file).unwrap();
    while filling.write(&[0; 512]).is_ok_and(|written| written > 0) {}
}

fn full((how, apart): Case) -> Vec<String> {
    let (small, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let _mounted = mount_small(small.path(), "1M");
    let (file, filling) = (small.path().join("s.db"), small.path().join("filling"));
    demo(&file);
    let elsewhere = other.path().to_str().unwrap();
    let mut env = vec![("TMPDIR", Some(elsewhere))];
    env.extend(apart.then_some(("XDG_STATE_HOME", Some(elsewhere))));
    let mut pty = walk(Start { folder: Some(small.path()), env: &env, ..Start::default() }, &file, DEMO_DAY, "zz");
    let saves = Saves::watch(&pty);
    let mut scores = Scores::default();
    pty.send("w");
    scores.score(&mut pty);
    pty.wait("a save", |text| text.contains("saved: ") && !text.contains("NOT YET"));
    fill(&filling);
    for _ in 0..3 {
        scores.score(&mut pty);
    }
    let mut why = Vec::new();
    if !pty.comes(Duration::from_secs(20), |text| text.contains("3 NOT YET SAVED")) {
        why.push(format!("not said that nothing is saved:\n{}", pty.text()));
    }
    let told = pty.text();
    let kept = || [lines(&judge(&file).rows, "zz"), rescued(small.path(), "zz"), rescued(other.path(), "zz")].concat();
    let code = match how {
        How::RoomAgain => {
            fs::remove_file(&filling).unwrap();
            pty.wait("saved by itself", |text| !text.contains("NOT YET SAVED"));
            Some((leave(&mut pty), 0))
        }
        How::Left => Some((leave(&mut pty), 1)),
        How::Terminated => {
            pty.signal("TERM");
            Some((pty.ended().0.exit_code(), 143))
        }
        How::TerminalGone => {
            pty.hang_up("\u{1b}");
            pty.ended();
            None
        }
        How::Killed => {
            pty.until(Duration::from_secs(10), || scores.nowhere(&kept()).is_empty());
            pty.kill();
            None
        }
    };
    pty.drain();
    if let Some((code, want)) = code.filter(|(code, want)| code != want) {
        why.push(format!("ended with {code}, not {want}"));
    }
    if pty.raw().contains("Unable to write") {
        why.push("the trouble of the log is written across the screen".to_owned());
    }
    let judged = judge(&file);
    why.extend(judged.bad);
    why.extend(saves.missing(&judged.rows, "zz"));
    let lost = scores.nowhere(&[kept(), entries(&pty.raw(), "zz")].concat());
    if how == How::TerminalGone && !apart {
        // There is neither room nor a terminal: no program can keep it. It was told as long as the terminal was there.
        let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
        if !lost.is_empty() && !told.contains("It cannot be kept in a journal either") {
            why.push(format!("not told that nothing can be kept:\n{told}"));
        }
    } else {
        why.extend(lost);
    }
    why
}

#[test]
fn on_a_full_disk_nothing_is_lost() {
    if !in_own_mounts("fulldisk::on_a_full_disk_nothing_is_lost", false) {
        return;
    }
    let mut campaign = Campaign::new("full disks");
    let ends = [How::RoomAgain, How::Left, How::Terminated, How::TerminalGone];
    let cases: Vec<Case> =
        ends.iter().flat_map(|how| [(*how, false), (*how, true)]).chain([(How::Killed, true)]).collect();
    let name =
        |(how, apart): &Case| format!("{how:?}, the state folder {}", if *apart { "elsewhere" } else { "on it too" });
    campaign.each(&cases, name, |_, case| full(*case));
    campaign.end();
}
