//! The file is removed, replaced, written over or loses its log while it is open: nothing is shown as saved that is not in the
//! file by that name, and no file is harmed by the log of another.

use super::{entry, season, small, water};
use benchwalk::record::Line;
use benchwalk::store::{Gone, Store, StoreError};
use std::fs;
use std::path::{Path, PathBuf};

/// Fields of an entry that takes some room.
const NOTE: &str =
    r#""kind":"water","level":3,"note":"a dry corner at the door, and another one below the heating pipe""#;

/// What `append` of an open file says after its surroundings were changed.
fn refused(store: &mut Store, line: Line) -> Gone {
    match store.append(&[line]) {
        Err(error @ StoreError::Replaced { what, .. }) => {
            assert!(error.may_pass(), "it stays to be saved");
            assert!(error.to_string().contains("season.db"), "{error}");
            what
        }
        other => panic!("{other:?}"),
    }
}

fn beside(path: &Path, suffix: &str) -> PathBuf {
    path.with_file_name(format!("season.db{suffix}"))
}

fn remove(path: &Path, suffixes: &[&str]) {
    for suffix in suffixes {
        fs::remove_file(beside(path, suffix)).unwrap();
    }
}

/// An older copy of the season, with one entry.
fn older(path: &Path) -> PathBuf {
    let copy = path.with_file_name("older.db");
    let mut store = Store::create(&copy).unwrap();
    store.append(&small()).unwrap();
    store.append(&[water(1, 3)]).unwrap();
    store.close().unwrap();
    copy
}

/// Entries of a file as the next start of the program finds them.
fn found(path: &Path) -> Vec<u32> {
    let store = Store::open(path).unwrap();
    let days = store.load().unwrap().1.iter().map(|entry| chrono::Datelike::day(&entry.day())).collect();
    store.close().unwrap();
    days
}

/// Days of the entries that are reported as lost.
fn lost(store: &Store) -> Vec<u32> {
    let day = |line: &Line| match line {
        Line::Entry(entry) => Some(chrono::Datelike::day(&entry.day())),
        _ => None,
    };
    store.lost().iter().filter_map(day).collect()
}

#[test]
fn a_file_that_is_as_it_was_has_lost_nothing() {
    let (_folder, path, mut store) = season();
    for day in 1..=9 {
        store.append(&[water(day, 3)]).unwrap();
    }
    assert_eq!(lost(&store), [] as [u32; 0]);
    store.close().unwrap();
    assert_eq!(found(&path).len(), 9);
}

#[test]
fn nothing_is_saved_into_a_file_that_was_removed_and_all_of_it_when_it_is_back() {
    let (folder, path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    let away = folder.path().join("away.db");
    fs::rename(&path, &away).unwrap();
    assert_eq!(refused(&mut store, water(2, 3)), Gone::Removed);
    assert_eq!(lost(&store), [1]);
    fs::rename(&away, &path).unwrap();
    assert_eq!(store.append(&[water(2, 3)]).unwrap().new, 1);
    assert_eq!(lost(&store), [] as [u32; 0]);
    store.close().unwrap();
    assert_eq!(found(&path), [1, 2]);
}

#[test]
fn what_was_saved_goes_with_the_file_that_was_moved_away() {
    let (folder, path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    let away = folder.path().join("away.db");
    fs::rename(&path, &away).unwrap();
    assert!(matches!(store.close(), Err(StoreError::Replaced { what: Gone::Removed, .. })));
    assert_eq!(found(&away), [1]);
    assert!(!beside(&path, "-wal").exists(), "no log is left for the file that is put in its place");
}

#[test]
fn a_file_removed_with_its_log_takes_nothing_more() {
    let (_folder, path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    remove(&path, &["", "-wal", "-shm"]);
    assert_eq!(refused(&mut store, water(2, 3)), Gone::Removed);
    assert_eq!(lost(&store), [1]);
    assert!(store.close().is_err());
    assert!(!path.exists());
}

#[test]
fn another_file_of_the_same_name_is_neither_written_nor_mixed_with_the_log() {
    let (_folder, path, mut store) = season();
    let copy = older(&path);
    let bytes = fs::read(&copy).unwrap();
    for day in 2..=9 {
        store.append(&[water(day, 3)]).unwrap();
    }
    fs::rename(&copy, &path).unwrap();
    assert_eq!(refused(&mut store, water(10, 3)), Gone::OtherFile);
    assert_eq!(lost(&store), [2, 3, 4, 5, 6, 7, 8, 9]);
    assert!(store.close().is_err());
    assert!(fs::read(&path).unwrap() == bytes);
    assert_eq!(found(&path), [1]);
}

#[test]
fn a_file_replaced_as_the_readme_says_is_not_written() {
    let (_folder, path, mut store) = season();
    let copy = older(&path);
    store.append(&[water(2, 3)]).unwrap();
    remove(&path, &["-wal", "-shm"]);
    fs::rename(&copy, &path).unwrap();
    // Another program has it open already, with a log of its own.
    let mut other = Store::open(&path).unwrap();
    other.append(&[water(3, 3)]).unwrap();
    assert_eq!(refused(&mut store, water(4, 3)), Gone::OtherFile);
    assert_eq!(lost(&store), [2]);
    assert!(store.close().is_err());
    other.append(&[water(5, 3)]).unwrap();
    other.close().unwrap();
    assert_eq!(found(&path), [1, 3, 5]);
}

#[test]
fn without_its_log_a_file_takes_nothing_more_and_gets_what_the_log_held_when_it_is_closed() {
    let (_folder, path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    remove(&path, &["-wal", "-shm"]);
    assert_eq!(refused(&mut store, water(2, 3)), Gone::LogRemoved);
    assert_eq!(lost(&store), [1]);
    assert!(store.close().is_err());
    assert_eq!(found(&path), [1]);
}

#[test]
fn a_file_written_over_in_place_is_found_before_the_next_save() {
    let (_folder, path, mut store) = season();
    let copy = older(&path);
    let many: Vec<Line> = (40..=255).map(|n| entry(n, "2026-10-12T07:00:00-04:00", NOTE)).collect();
    store.append(&many).unwrap();
    store.close().unwrap();
    let mut store = Store::open(&path).unwrap();
    store.append(&[water(29, 3)]).unwrap();
    fs::copy(&copy, &path).unwrap();
    assert_eq!(refused(&mut store, water(30, 3)), Gone::Overwritten);
    assert_eq!(lost(&store), [29]);
    assert!(store.close().is_err());
    assert!(fs::read(&path).unwrap() == fs::read(&copy).unwrap(), "the log was not written into it");
}

#[test]
fn a_file_written_over_before_anything_was_saved_is_found_too() {
    let (_folder, path, mut store) = season();
    let copy = older(&path);
    for day in 2..=9 {
        store.append(&[water(day, 3)]).unwrap();
    }
    store.close().unwrap();
    let mut store = Store::open(&path).unwrap();
    fs::copy(&copy, &path).unwrap();
    assert_eq!(refused(&mut store, water(10, 3)), Gone::Overwritten);
    assert!(store.close().is_err());
    assert_eq!(found(&path), [1]);
}

#[test]
fn what_another_benchwalk_writes_is_no_replacement() {
    let (_folder, path, mut store) = season();
    for day in 1..=9 {
        store.append(&[water(day, 3)]).unwrap();
        let mut other = Store::open(&path).unwrap();
        other.append(&[water(day + 9, 4)]).unwrap();
        // Writes the log into the file.
        other.close().unwrap();
    }
    assert_eq!(lost(&store), [] as [u32; 0]);
    store.close().unwrap();
    assert_eq!(found(&path).len(), 18);
}

/// What the system says of this process's locks on a file.
#[cfg(target_os = "linux")]
fn locks(path: &Path) -> usize {
    use std::os::unix::fs::MetadataExt;
    let inode = fs::metadata(path).unwrap().ino();
    let table = fs::read_to_string("/proc/locks").unwrap();
    let (own, file) = (format!(" {} ", std::process::id()), format!(":{inode} "));
    table.lines().filter(|line| line.contains(&own) && line.contains(&file)).count()
}

/// Another program that closes the file last takes its log away; this lock keeps it from being the last.
#[cfg(target_os = "linux")]
#[test]
fn the_lock_on_an_open_file_outlasts_every_look_at_it() {
    let (folder, path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    let held = locks(&path);
    if held == 0 {
        // A system without a table of locks shows nothing here.
        return;
    }
    benchwalk::store::integrity_check(&path).unwrap();
    assert_eq!(locks(&path), held, "after the check");
    Store::open_read_only(&path).unwrap().close().unwrap();
    assert_eq!(locks(&path), held, "after a reader");
    Store::open(&path).unwrap().close().unwrap();
    assert_eq!(locks(&path), held, "after a writer");
    store.backup(&folder.path().join("copy.db")).unwrap();
    assert_eq!(store.lost(), []);
    store.append(&[water(2, 3)]).unwrap();
    assert_eq!(locks(&path), held, "after a save");
}
