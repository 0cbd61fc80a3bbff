//! Killed at any moment, the program has lost nothing that it said was saved.
//!
//! The test starts itself again as another process that saves and says so, one entry after another, until it is killed.

use super::{entry, small};
use benchwalk::store::{Store, quick_check};
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};

/// Names the file for the other process.
const FILE: &str = "BENCHWALK_TEST_KILLED";

/// The other process. Run as an ordinary test it does nothing.
#[test]
fn saves_until_killed() {
    let Some(path) = std::env::var_os(FILE) else { return };
    let mut store = Store::open(Path::new(&path)).unwrap();
    let mut out = std::io::stdout();
    let from = store.count().unwrap();
    for number in from.. {
        let seconds = number % 60;
        let minutes = number / 60 % 60;
        let at = format!("2026-10-02T07:{minutes:02}:{seconds:02}-04:00");
        let mut line = entry(0, &at, r#""kind":"water","level":3"#);
        if let benchwalk::record::Line::Entry(entry) = &mut line {
            entry.id = uuid::Uuid::from_u128(u128::from(number) + 1);
        }
        store.append(&[line]).unwrap();
        writeln!(out, "\nsaved {number}").unwrap();
        out.flush().unwrap();
    }
}

#[test]
fn nothing_said_to_be_saved_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.db");
    let mut store = Store::create(&path).unwrap();
    store.append(&small()).unwrap();
    store.close().unwrap();
    let mut chance = 20_261_012_u64;
    for time in 0..20 {
        chance = chance.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let stop_after = chance >> 58;
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["killed::saves_until_killed", "--exact", "--nocapture", "--test-threads=1"])
            .env(FILE, &path)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map(Result::unwrap);
        let said = |line: &String| line.strip_prefix("saved ").and_then(|n| n.parse::<u64>().ok());
        let mut last = lines.by_ref().filter_map(|line| said(&line)).nth(usize::try_from(stop_after).unwrap()).unwrap();
        child.kill().unwrap();
        child.wait().unwrap();
        // What was said between the last line read and the end.
        last = lines.filter_map(|line| said(&line)).last().unwrap_or(last);
        quick_check(&path).unwrap();
        let store = Store::open(&path).unwrap();
        let kept = store.count().unwrap();
        assert!(kept > last, "time {time}: {kept} kept, {last} was said to be saved");
        assert!(kept <= last + 2, "time {time}: {kept} kept, {last} said");
        let ids: Vec<u128> = store.load().unwrap().1.iter().map(|e| e.id.as_u128()).collect();
        for number in 0..=last {
            assert!(ids.contains(&(u128::from(number) + 1)), "time {time}: {number} is gone");
        }
        store.close().unwrap();
    }
}
