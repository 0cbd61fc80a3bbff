//! Killed at any moment, the program has lost nothing that it said was saved.
//!
//! The test starts itself again as another process that saves and says so, three entries at a time, until it is killed.

use super::{entry, small};
use benchwalk::record::Line;
use benchwalk::store::{NEWEST, Store, integrity_check};
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;
use uuid::Uuid;

/// Names the file for the other process.
const FILE: &str = "BENCHWALK_TEST_KILLED";

/// Entries saved together.
const TOGETHER: u64 = 3;

/// An entry with its number as its id.
fn numbered(number: u64) -> Line {
    let at = format!("2026-10-02T07:{:02}:{:02}-04:00", number / 60 % 60, number % 60);
    let mut line = entry(0, &at, r#""kind":"water","level":3"#);
    if let Line::Entry(entry) = &mut line {
        entry.id = id(number);
    }
    line
}

/// A version-7 id holding a number.
fn id(number: u64) -> Uuid {
    uuid::Builder::from_unix_timestamp_millis(number, &[0; 10]).into_uuid()
}

/// The other process. Run as an ordinary test it does nothing.
#[test]
fn saves_until_killed() {
    let Some(path) = std::env::var_os(FILE) else { return };
    let mut store = Store::open(Path::new(&path)).unwrap();
    let mut out = std::io::stdout();
    let from = store.count().unwrap() / TOGETHER;
    for number in from.. {
        let lines: Vec<Line> = (0..TOGETHER).map(|part| numbered(number * TOGETHER + part)).collect();
        store.append(&lines).unwrap();
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
        integrity_check(&path).unwrap();
        let store = Store::open(&path).unwrap();
        let kept = store.count().unwrap();
        assert_eq!(kept % TOGETHER, 0, "time {time}: a save was cut in two");
        let saves = kept / TOGETHER;
        assert!(saves > last, "time {time}: {saves} kept, {last} was said to be saved");
        assert!(saves <= last + 2, "time {time}: {saves} kept, {last} said");
        let ids: BTreeSet<Uuid> = store.load().unwrap().1.iter().map(|e| e.id).collect();
        assert!((0..kept).all(|number| ids.contains(&id(number))), "time {time}: one is gone");
        store.close().unwrap();
    }
}

/// Names the older file for the other process.
const OLDER: &str = "BENCHWALK_TEST_KILLED_OLDER";

/// The other process. Run as an ordinary test it does nothing.
#[test]
fn brings_an_older_file_here_until_killed() {
    let Some(path) = std::env::var_os(OLDER) else { return };
    Store::open(Path::new(&path)).unwrap().close().unwrap();
}

/// A file of version 1 with as many entries as a few seasons have, so that it takes a while to bring it to this version.
fn older(path: &Path) {
    std::fs::write(path, include_bytes!("v1.db")).unwrap();
    let client = rusqlite::Connection::open(path).unwrap();
    let many = "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 1000)
                INSERT INTO entry (id, bench, day, at, offset, \"by\", kind, a)
                SELECT randomblob(16), 'N1', 20738, 20738 * 86400 + 40000 + i, -240, 'ml', 1, 3 FROM n";
    client.execute(many, []).unwrap();
    client.close().unwrap();
}

#[test]
#[expect(clippy::disallowed_methods, reason = "the kill comes at any time of the writing, which no event marks")]
fn a_file_is_of_the_old_version_or_of_the_new_one_with_every_record_in_it() {
    let folder = tempfile::tempdir().unwrap();
    let whole = folder.path().join("whole.db");
    older(&whole);
    let records = |path: &Path| {
        let store = Store::open_read_only(path).unwrap();
        let (plan, entries) = store.load().unwrap();
        benchwalk::journal::write(store.season_id().unwrap(), &plan, &entries)
    };
    let wanted = records(&whole);
    let version = |path: &Path| -> i64 {
        let client = rusqlite::Connection::open(path).unwrap();
        client.query_row("PRAGMA user_version", [], |row| row.get(0)).unwrap()
    };
    let mut stayed = 0;
    // Milliseconds after the copy beside the file has its name: then the records are being written. `None`: before that.
    for (time, after) in [None, Some(0), Some(10), Some(40)].into_iter().enumerate() {
        let path = folder.path().join(format!("{time}.db"));
        let copy = folder.path().join(format!("{time}.v1.db"));
        std::fs::copy(&whole, &path).unwrap();
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["killed::brings_an_older_file_here_until_killed", "--exact", "--test-threads=1"])
            .env(OLDER, &path)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        while after.is_some() && !copy.exists() && child.try_wait().unwrap().is_none() {
            std::thread::sleep(Duration::from_millis(1));
        }
        std::thread::sleep(Duration::from_millis(after.unwrap_or(5)));
        child.kill().unwrap();
        child.wait().unwrap();
        integrity_check(&path).unwrap();
        stayed += usize::from(version(&path) == 1);
        assert_eq!(records(&path), wanted, "time {time}");
        if copy.exists() {
            assert_eq!((version(&copy), records(&copy)), (1, wanted.clone()), "time {time}");
        }
        Store::open(&path).unwrap().close().unwrap();
        assert_eq!((version(&path), records(&path)), (NEWEST, wanted.clone()), "time {time}");
    }
    assert!(stayed > 0, "none was killed on the way");
}
