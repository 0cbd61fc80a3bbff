//! What is not a sound season file is told in plain words and left byte for byte as it is.

use super::{season, water};
use benchwalk::store::{NEWEST, Store, StoreError, integrity_check};
use rusqlite::Connection;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A closed season file with a few hundred entries.
fn closed() -> (TempDir, PathBuf) {
    let (folder, path, mut store) = season();
    let lines: Vec<_> = (1..=28).map(|day| water(day, 3)).collect();
    store.append(&lines).unwrap();
    store.close().unwrap();
    (folder, path)
}

/// What opening the file says, for writing and for reading, after making sure that it changed nothing.
fn refused(path: &Path) -> (StoreError, Option<StoreError>) {
    let before = fs::read(path).unwrap();
    let write = Store::open(path).and_then(|store| {
        let loaded = store.load().map(drop);
        store.close()?;
        loaded
    });
    let read = Store::open_read_only(path).and_then(|store| store.load().map(drop));
    assert!(fs::read(path).unwrap() == before, "the bytes were changed");
    (write.expect_err("it opened"), read.err())
}

#[test]
fn an_empty_file_is_not_taken_for_a_new_one() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.db");
    fs::write(&path, "").unwrap();
    let (write, read) = refused(&path);
    assert!(matches!(write, StoreError::Empty { .. }), "{write:?}");
    assert!(matches!(read, Some(StoreError::Empty { .. })));
}

#[test]
fn junk_and_other_programs_files_are_not_seasons() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("notes.txt");
    for junk in [b"water the north house".to_vec(), vec![0; 4096], b"SQLite format 3".to_vec(), vec![7; 100_000]] {
        fs::write(&path, junk).unwrap();
        let (write, _) = refused(&path);
        assert!(matches!(write, StoreError::NotASeason { .. }), "{write:?}");
    }
    let alien = folder.path().join("alien.db");
    Connection::open(&alien).unwrap().execute_batch("CREATE TABLE entry (x); PRAGMA application_id = 7").unwrap();
    let (write, read) = refused(&alien);
    assert!(matches!(&write, StoreError::NotASeason { why, .. } if why.contains("another program")), "{write:?}");
    assert!(matches!(read, Some(StoreError::NotASeason { .. })));
    let error = Store::open(folder.path()).unwrap_err();
    assert!(matches!(&error, StoreError::NotASeason { why, .. } if why == "a folder"), "{error:?}");
    let error = Store::open(&folder.path().join("none.db")).unwrap_err();
    assert!(matches!(error, StoreError::NotThere { .. }), "{error:?}");
}

#[test]
fn a_file_cut_short_is_damaged() {
    let (_folder, path) = closed();
    let whole = fs::read(&path).unwrap();
    for length in [60, 4096, whole.len() / 2, whole.len() - 1] {
        fs::write(&path, &whole[..length]).unwrap();
        let (write, _) = refused(&path);
        assert!(matches!(write, StoreError::Damaged { .. }), "{length}: {write:?}");
        assert!(integrity_check(&path).is_err(), "{length}");
    }
}

#[test]
fn a_flipped_page_is_found() {
    let (_folder, path) = closed();
    let whole = fs::read(&path).unwrap();
    integrity_check(&path).unwrap();
    let pages = whole.len() / 4096;
    assert!(pages > 20, "{pages}");
    for page in 1..pages {
        let mut flipped = whole.clone();
        for byte in &mut flipped[page * 4096..page * 4096 + 64] {
            *byte ^= 0xFF;
        }
        fs::write(&path, &flipped).unwrap();
        let error = integrity_check(&path).expect_err("a flipped page passed");
        assert!(matches!(error, StoreError::Damaged { .. }), "page {page}: {error:?}");
        // Opening and reading may or may not meet that page; it neither panics nor mends anything.
        let read = Store::open_read_only(&path).and_then(|store| store.load());
        if let Err(error) = read {
            assert!(
                matches!(error, StoreError::Damaged { .. } | StoreError::Database { .. }),
                "page {page}: {error:?}"
            );
        }
        assert!(fs::read(&path).unwrap() == flipped, "page {page}: the bytes were changed");
    }
}

#[test]
fn a_newer_file_is_read_but_not_written() {
    let (_folder, path) = closed();
    Connection::open(&path).unwrap().pragma_update(None, "user_version", 99).unwrap();
    let (write, read) = refused(&path);
    assert!(matches!(write, StoreError::Newer { found: 99, known: NEWEST, .. }), "{write:?}");
    assert!(write.can_be_read());
    assert!(read.is_none(), "export still reads it");
    let mut store = Store::open_read_only(&path).unwrap();
    assert_eq!(store.load().unwrap().1.len(), 28);
    assert!(matches!(store.append(&[water(29, 3)]), Err(StoreError::ReadOnly { .. })));
}

#[test]
fn opened_for_reading_nothing_is_written() {
    let (_folder, path) = closed();
    let before = fs::read(&path).unwrap();
    let mut store = Store::open_read_only(&path).unwrap();
    assert!(matches!(store.append(&[water(29, 3)]), Err(StoreError::ReadOnly { .. })));
    assert_eq!(store.count().unwrap(), 28);
    store.close().unwrap();
    assert!(fs::read(&path).unwrap() == before);
}

#[cfg(unix)]
#[test]
fn in_a_folder_that_cannot_be_written_the_season_can_be_read() {
    use std::os::unix::fs::PermissionsExt;
    let (folder, path) = closed();
    let mode = |bits: u32| fs::set_permissions(folder.path(), fs::Permissions::from_mode(bits)).unwrap();
    mode(0o555);
    // The super user may write anywhere; then this shows nothing, and the test above has to do.
    let may_write = fs::write(folder.path().join("probe"), "").is_ok();
    let (write, read) = (Store::open(&path), Store::open_read_only(&path).and_then(|s| s.load()));
    mode(0o755);
    assert_eq!(read.unwrap().1.len(), 28);
    if !may_write {
        let error = write.unwrap_err();
        assert!(matches!(error, StoreError::ReadOnly { .. }), "{error:?}");
        assert!(error.can_be_read());
    }
}

#[test]
fn a_new_season_never_goes_over_anything() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("deep/er/season.db");
    Store::create(&path).unwrap().close().unwrap();
    let before = fs::read(&path).unwrap();
    assert!(matches!(Store::create(&path), Err(StoreError::Exists { .. })));
    assert!(fs::read(&path).unwrap() == before);
    let names: Vec<_> = fs::read_dir(path.parent().unwrap()).unwrap().map(|e| e.unwrap().file_name()).collect();
    assert_eq!(names, ["season.db"], "nothing else is left behind");
    // What a killed program left beside it does not stand in the way.
    let other = folder.path().join("other.db");
    fs::write(folder.path().join("other.db.new-1"), "half").unwrap();
    Store::create(&other).unwrap();
    #[cfg(unix)]
    {
        let link = folder.path().join("link.db");
        std::os::unix::fs::symlink(folder.path().join("nowhere.db"), &link).unwrap();
        assert!(matches!(Store::create(&link), Err(StoreError::Exists { .. })));
    }
}
