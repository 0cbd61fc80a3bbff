//! Two programs at one file.

use super::{entry, season, water};
use benchwalk::record::Line;
#[cfg(unix)]
use benchwalk::store::Journaling;
use benchwalk::store::{Saved, Store, StoreError};
use rusqlite::{Connection, TransactionBehavior};
use std::time::{Duration, Instant};

#[test]
fn a_save_waits_a_little_then_says_busy_and_can_be_tried_again() {
    let (_folder, path, mut store) = season();
    let mut other = Connection::open(&path).unwrap();
    let held = other.transaction_with_behavior(TransactionBehavior::Immediate).unwrap();
    let start = Instant::now();
    let error = store.append(&[water(1, 3)]).unwrap_err();
    let waited = start.elapsed();
    assert!(matches!(error, StoreError::Busy { .. }), "{error:?}");
    assert!(error.may_pass());
    assert!(waited >= Duration::from_millis(200) && waited < Duration::from_secs(5), "{waited:?}");
    assert_eq!(store.count().unwrap(), 0, "reading goes on meanwhile");
    drop(held);
    assert_eq!(store.append(&[water(1, 3)]).unwrap(), Saved { new: 1, known: 0 });
}

#[test]
fn interleaved_writers_both_end_up_saved() {
    let (_folder, path, mut one) = season();
    let mut other = Store::open(&path).unwrap();
    for day in 1..=14 {
        one.append(&[water(day, 3)]).unwrap();
        // Reads, then writes after the other has written: in one deferred transaction this would fail at once.
        other.append(&[water(day, 3), water(day + 14, 4)]).unwrap();
    }
    assert_eq!(one.count().unwrap(), 28);
    assert_eq!(one.load().unwrap(), other.load().unwrap());
}

#[test]
fn writers_at_the_same_time_lose_nothing() {
    let (_folder, path, store) = season();
    std::thread::scope(|threads| {
        for writer in 0..3_u8 {
            let path = &path;
            threads.spawn(move || {
                let mut own = Store::open(path).unwrap();
                for number in 0..30_u8 {
                    let line = entry(writer * 64 + number, "2026-10-02T07:00:00-04:00", r#""kind":"water","level":3"#);
                    while let Err(error) = own.append(std::slice::from_ref(&line)) {
                        assert!(error.may_pass(), "{error:?}");
                    }
                }
            });
        }
    });
    assert_eq!(store.count().unwrap(), 90);
}

#[cfg(unix)]
#[test]
fn where_the_log_is_refused_saving_still_works_and_says_so() {
    let (_folder, path, store) = season();
    store.close().unwrap();
    // This way of the database to reach files has no shared memory, as some file systems have none.
    let mut store = Store::open_on(&path, Some("unix-dotfile")).unwrap();
    assert!(matches!(store.journaling(), Journaling::Truncate { .. }), "{:?}", store.journaling());
    let notice = store.journaling().notice().unwrap();
    assert!(notice.starts_with("saving without a write-ahead log"), "{notice}");
    store.append(&[water(1, 3)]).unwrap();
    store.close().unwrap();
    let mut again = Store::open_on(&path, Some("unix-dotfile")).unwrap();
    again.append(&[water(2, 3)]).unwrap();
    again.close().unwrap();
    let store = Store::open(&path).unwrap();
    assert_eq!(store.count().unwrap(), 2);
    assert_eq!(store.journaling(), &Journaling::Wal, "back on a good file system the log is used again");
}

#[test]
fn a_closed_file_is_whole_by_itself() {
    let (folder, path, mut store) = season();
    let lines: Vec<Line> = (1..=28).map(|day| water(day, 3)).collect();
    store.append(&lines).unwrap();
    store.close().unwrap();
    let copy = folder.path().join("copy.db");
    std::fs::copy(&path, &copy).unwrap();
    assert_eq!(Store::open_read_only(&copy).unwrap().count().unwrap(), 28);
    let wal = folder.path().join("season.db-wal");
    assert!(!wal.exists(), "nothing is left in the log");
}
