//! Reading a season file without leaving anything beside it, also while another program writes.

use super::{season, water};
use benchwalk::store::Store;
use std::fs;
use std::path::Path;

fn names(path: &Path) -> Vec<String> {
    let entries = fs::read_dir(path.parent().unwrap()).unwrap();
    let mut names: Vec<String> = entries.map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

#[test]
fn a_reader_of_a_closed_file_leaves_it_and_its_folder_as_they_were() {
    let (folder, path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    store.close().unwrap();
    let (before, there) = (fs::read(&path).unwrap(), names(&path));
    // What an earlier reader left is taken along.
    fs::write(format!("{}-wal", path.display()), "").unwrap();
    for drops in [true, false] {
        let mut reader = Store::open_read_only(&path).unwrap();
        assert_eq!(reader.count().unwrap(), 1);
        assert!(reader.append(&[water(2, 3)]).is_err());
        if drops {
            drop(reader);
        } else {
            reader.close().unwrap();
        }
        assert_eq!(names(&path), there);
        assert!(fs::read(&path).unwrap() == before);
    }
    let reader = Store::open_read_only(&path).unwrap();
    assert_eq!(reader.backup(&folder.path().join("copy.db")).unwrap().entries, 1);
    assert!(reader.count().is_ok());
}

#[test]
fn a_writer_that_begins_beside_a_reader_loses_nothing() {
    let (_folder, path, store) = season();
    store.close().unwrap();
    let there = names(&path);
    for day in 1..=10 {
        let reader = Store::open_read_only(&path).unwrap();
        let mut writer = Store::open(&path).unwrap();
        writer.append(&[water(day, 3)]).unwrap();
        let all = u64::from(day) * 2 - 1;
        assert_eq!(reader.count().unwrap(), all, "the reader sees it");
        if day % 2 == 0 {
            // The writer goes on without the reader …
            reader.close().unwrap();
            writer.append(&[water(day + 10, 4)]).unwrap();
            writer.close().unwrap();
        } else {
            // … or goes first, and the reader is the last one.
            writer.append(&[water(day + 10, 4)]).unwrap();
            writer.close().unwrap();
            assert_eq!(reader.count().unwrap(), all + 1);
            drop(reader);
        }
        assert_eq!(names(&path), there);
        assert_eq!(Store::open_read_only(&path).unwrap().count().unwrap(), all + 1);
    }
}

#[test]
fn the_log_of_a_killed_writer_is_read_and_left_as_it_is() {
    let (folder, path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    // As a program leaves them that is killed here.
    let other = folder.path().join("killed.db");
    let log = |path: &Path| format!("{}-wal", path.display());
    fs::copy(&path, &other).unwrap();
    fs::copy(log(&path), log(&other)).unwrap();
    let before = (fs::read(&other).unwrap(), fs::read(log(&other)).unwrap());
    assert!(!before.1.is_empty());
    let reader = Store::open_read_only(&other).unwrap();
    assert_eq!(reader.count().unwrap(), 1);
    reader.close().unwrap();
    assert!((fs::read(&other).unwrap(), fs::read(log(&other)).unwrap()) == before);
}
