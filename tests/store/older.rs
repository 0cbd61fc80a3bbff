//! Files of other versions: one made by version 0.1 is brought to this version whole or not at all, with a copy beside it; one
//! of a newer program is read as far as it is understood.
//!
//! `v1.db` was made by the program before this version of the file, from a journal with every kind of entry and revised lines;
//! `v1.jsonl` is what that program exported from it.

use super::{season, water};
use benchwalk::journal;
use benchwalk::record::Line;
use benchwalk::season::Season;
use benchwalk::store::{Store, StoreError};
use rusqlite::Connection;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const OLD: &[u8] = include_bytes!("v1.db");
const EXPORTED: &str = include_str!("v1.jsonl");

fn old() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.db");
    fs::write(&path, OLD).unwrap();
    (folder, path)
}

/// The records of a file, one a line, in one order.
fn records(store: &Store) -> Vec<String> {
    let (plan, entries) = store.load().unwrap();
    sorted(plan.lines().into_iter().chain(entries.into_iter().map(Line::Entry)))
}

fn sorted(lines: impl IntoIterator<Item = Line>) -> Vec<String> {
    let mut all: Vec<String> = lines.into_iter().map(|line| benchwalk::record::codec::encode(&line)).collect();
    all.sort();
    all
}

fn version(path: &Path) -> i64 {
    Connection::open(path).unwrap().query_row("PRAGMA user_version", [], |row| row.get(0)).unwrap()
}

#[test]
fn a_file_of_version_1_is_brought_here_with_every_record_and_a_copy_beside_it() {
    let (folder, path) = old();
    let exported = journal::read(EXPORTED).unwrap();
    let kinds = exported.iter().filter_map(|l| if let Line::Entry(e) = l { Some(e.name()) } else { None });
    let kinds: std::collections::BTreeSet<_> = kinds.map(|k| format!("{k:?}")).collect();
    assert!(kinds.len() >= 29, "every kind of that version: {kinds:?}");
    let store = Store::open(&path).unwrap();
    assert_eq!(records(&store), sorted(exported.clone()));
    assert!(store.season_id().unwrap().is_some());
    store.close().unwrap();
    assert_eq!(version(&path), 2);
    let copy = folder.path().join("season.v1.db");
    assert_eq!(version(&copy), 1);
    assert_eq!(records(&Store::open_read_only(&copy).unwrap()), sorted(exported));
    // Entries keep the order they were written in.
    let order = |path: &Path| -> Vec<Vec<u8>> {
        let client = Connection::open(path).unwrap();
        let mut ids = client.prepare("SELECT id FROM entry ORDER BY seq").unwrap();
        ids.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect()
    };
    assert_eq!(order(&path), order(&copy));
}

#[test]
fn the_copy_is_never_written_over_another_file() {
    let (folder, path) = old();
    fs::write(folder.path().join("season.v1.db"), "mine").unwrap();
    Store::open(&path).unwrap().close().unwrap();
    assert_eq!(fs::read(folder.path().join("season.v1.db")).unwrap(), b"mine");
    assert_eq!(version(&folder.path().join("season.v1-2.db")), 1);
}

#[test]
fn reading_alone_changes_nothing_of_an_older_file() {
    let (folder, path) = old();
    let store = Store::open_read_only(&path).unwrap();
    assert_eq!(records(&store), sorted(journal::read(EXPORTED).unwrap()));
    let id = store.season_id().unwrap();
    store.close().unwrap();
    assert!(fs::read(&path).unwrap() == OLD, "the bytes were changed");
    assert!(!folder.path().join("season.v1.db").exists());
    let store = Store::open(&path).unwrap();
    assert_eq!(store.season_id().unwrap(), id, "the season is the same before and after");
    // And the same as in a file that a journal of version 1 was imported into.
    let mut other = Store::create(&folder.path().join("other.db")).unwrap();
    other.append(&journal::read(EXPORTED).unwrap()).unwrap();
    assert_eq!(other.season_id().unwrap(), id);
}

#[test]
fn an_older_file_with_a_record_that_does_not_read_stays_as_it_is() {
    let (_folder, path) = old();
    let client = Connection::open(&path).unwrap();
    let bad = "INSERT INTO entry (id, bench, day, at, offset, \"by\", kind, a, body)
               VALUES (randomblob(16), 'N1', 20738, 20738 * 86400 + 40000, -240, 'ml', 1, 3, '{\"level\":\"three\"}')";
    client.execute(bad, []).unwrap();
    client.close().unwrap();
    let count = |path: &Path| -> i64 {
        Connection::open(path).unwrap().query_row("SELECT count(*) FROM entry", [], |row| row.get(0)).unwrap()
    };
    let before = count(&path);
    let error = Store::open(&path).unwrap_err();
    assert!(matches!(&error, StoreError::Damaged { detail, .. } if detail.contains("level")), "{error:?}");
    assert_eq!((version(&path), count(&path)), (1, before));
}

#[test]
fn a_newer_file_is_read_as_far_as_it_is_understood_and_left_as_it_is() {
    let (_folder, path, mut store) = season();
    store.append(&[water(1, 3), water(2, 4)]).unwrap();
    store.close().unwrap();
    let client = Connection::open(&path).unwrap();
    client
        .execute_batch(
            "INSERT INTO kind (number, name) VALUES (99, 'co2');
             ALTER TABLE lot_line ADD COLUMN breeder TEXT;
             INSERT INTO entry (id, bench, day, instant, utc_offset, author, kind, fields)
             VALUES (randomblob(16), 'N1', 20738, 20738 * 86400 + 40000, -240, 'ml', 99, '{\"ppm\":800}');
             PRAGMA user_version = 3;",
        )
        .unwrap();
    client.close().unwrap();
    let before = fs::read(&path).unwrap();
    let error = Store::open(&path).unwrap_err();
    assert!(matches!(error, StoreError::Newer { found: 3, .. }), "{error:?}");
    let store = Store::open_read_only(&path).unwrap();
    let (plan, entries) = store.load().unwrap();
    assert_eq!((entries.len(), store.left_out()), (2, 1));
    assert_eq!(Season::new(plan, entries).benches().len(), 2);
    store.close().unwrap();
    assert!(fs::read(&path).unwrap() == before, "the bytes were changed");
}
