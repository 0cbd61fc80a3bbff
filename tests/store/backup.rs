//! A second copy of the season.

use super::{season, water};
use benchwalk::store::{Store, StoreError};

#[test]
fn a_backup_holds_everything_and_goes_over_nothing() {
    let (folder, _path, mut store) = season();
    store.append(&(1..=20).map(|day| water(day, 3)).collect::<Vec<_>>()).unwrap();
    let to = folder.path().join("season-backup.db");
    let backup = store.backup(&to).unwrap();
    assert_eq!((backup.entries, &backup.path), (20, &to));
    let before = std::fs::read(&to).unwrap();
    store.append(&[water(21, 3)]).unwrap();
    assert!(matches!(store.backup(&to), Err(StoreError::Exists { .. })));
    assert!(std::fs::read(&to).unwrap() == before);
    // It is a season like any other.
    let mut copy = Store::open(&to).unwrap();
    let (plan, entries) = copy.load().unwrap();
    assert_eq!(plan, store.load_plan().unwrap());
    assert_eq!(entries, store.load().unwrap().1[..20]);
    copy.append(&[water(22, 3)]).unwrap();
    copy.close().unwrap();
    assert!(matches!(store.backup(&folder.path().join("no such folder/b.db")), Err(StoreError::File { .. })));
    let mut names: Vec<_> = std::fs::read_dir(folder.path())
        .unwrap()
        .map(|e| e.unwrap().file_name().into_string().unwrap())
        .filter(|name| !name.starts_with("season.db"))
        .collect();
    names.sort();
    assert_eq!(names, ["season-backup.db"], "no half-written ones are left");
}

#[test]
fn a_backup_taken_while_writing_is_whole() {
    let (folder, path, mut store) = season();
    std::thread::scope(|threads| {
        let writer = threads.spawn(move || {
            for day in 1..=28 {
                while let Err(error) = store.append(&[water(day, 3)]) {
                    assert!(error.may_pass(), "{error:?}");
                }
            }
        });
        let reader = Store::open_read_only(&path).unwrap();
        for number in 0..4 {
            let to = folder.path().join(format!("backup-{number}.db"));
            let backup = reader.backup(&to).unwrap();
            let copy = Store::open_read_only(&to).unwrap();
            let (plan, entries) = copy.load().unwrap();
            assert_eq!(plan.benches.len(), 2);
            assert_eq!(entries.len() as u64, backup.entries);
        }
        writer.join().unwrap();
    });
}

#[cfg(unix)]
#[test]
fn a_backup_is_private_to_its_user() {
    use std::os::unix::fs::PermissionsExt;
    let (folder, _path, store) = season();
    let to = folder.path().join("b.db");
    store.backup(&to).unwrap();
    assert_eq!(std::fs::metadata(&to).unwrap().permissions().mode() & 0o777, 0o600);
}
