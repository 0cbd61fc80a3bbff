//! Which stream a laptop writes: files that were copied, put back, or opened beside the screens.

use crate::hub::Hub;
use crate::lines::{Laptop, SEASON, plan, water};
use benchwalk::exchange::{Batches, Exchanged, Replica, exchange};
use benchwalk::store::{Gone, Store, StoreError};
use rusqlite::Connection;

/// Name and length of each stream, the own one marked.
fn streams(store: &mut Store) -> Vec<(String, u64, bool)> {
    let branches = store.branches().unwrap();
    branches.into_iter().map(|b| (b.laptop.unwrap_or_default(), b.last, b.own)).collect()
}

#[test]
fn a_file_copied_to_another_laptop_goes_on_in_a_stream_of_that_one() {
    let mut ann = Laptop::new(1, "ann", &plan());
    ann.append(&[water(101, 1, 3)]);
    let mut bob = Laptop::with_file(2, "bob", &ann.file());
    assert_eq!(streams(bob.store()), [("ann".to_owned(), 5, false)], "nothing is written before its first line");
    bob.append(&[water(201, 2, 3)]);
    bob.append(&[water(202, 3, 3)]);
    assert_eq!(streams(bob.store()), [("ann".to_owned(), 5, false), ("bob".to_owned(), 2, true)]);
    ann.append(&[water(102, 4, 3)]);
    assert_eq!(streams(ann.store()), [("ann".to_owned(), 6, true)], "the other goes on as before");
    // What was in the file is of the laptop that wrote it.
    let came = bob.store().origins(&mut benchwalk::store::Heard::default(), 100).unwrap();
    assert_eq!(came.len(), 5);
    assert!(came.iter().all(|came| &*came.laptop == "ann"));
}

#[test]
fn where_no_seat_was_said_the_newest_stream_goes_on() {
    let mut ann = Laptop::new(1, "ann", &plan());
    ann.quit();
    let mut store = Store::open(&ann.path()).unwrap();
    store.append_of(&[water(101, 1, 3)], Some(SEASON)).unwrap();
    assert_eq!(streams(&mut store), [("ann".to_owned(), 5, true)]);
    store.close().unwrap();
    assert_eq!(streams(ann.store()), [("ann".to_owned(), 5, true)]);
}

#[test]
fn a_backup_that_is_put_back_goes_on_in_a_new_stream_and_gets_back_what_it_lacks() {
    let (mut ann, mut hub) = (Laptop::new(1, "ann", &plan()), Hub::default());
    ann.append(&[water(101, 1, 3)]);
    let to = ann.folder.path().join("backup.db");
    ann.store().backup(&to).unwrap();
    ann.append(&[water(102, 2, 3)]);
    ann.exchange(&mut hub);
    ann.put_back(&std::fs::read(&to).unwrap());
    assert_eq!(streams(ann.store()), [("ann".to_owned(), 5, false)]);
    assert!(ann.store().is_shared().unwrap());
    // Without a seat neither: a command may write before anybody sits down.
    let mut copy = Store::open(&to).unwrap();
    copy.append(&[water(103, 3, 3)]).unwrap();
    assert_eq!(streams(&mut copy), [("ann".to_owned(), 5, false), ("ann".to_owned(), 1, true)]);
    copy.close().unwrap();
    ann.append(&[water(104, 4, 3)]);
    let did = ann.exchange(&mut hub);
    assert_eq!((did.taken, did.given, did.written_again), (1, 1, 0), "no branches: its stream was not written on");
    assert_eq!(streams(ann.store()), [("ann".to_owned(), 6, false), ("ann".to_owned(), 1, true)]);
    // For the grower it is one laptop, and all of it was written here.
    let laptops = ann.store().laptops().unwrap();
    assert_eq!(laptops.iter().map(|l| (l.own, l.lines)).collect::<Vec<_>>(), [(true, 7)]);
    assert_eq!(ann.store().origins(&mut benchwalk::store::Heard::default(), 100).unwrap(), []);
}

#[test]
fn a_backup_of_a_file_that_is_not_shared_has_no_rows_of_streams() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::create(&folder.path().join("season.db")).unwrap();
    store.append(&plan()).unwrap();
    store.backup(&folder.path().join("copy.db")).unwrap();
    let client = Connection::open(folder.path().join("copy.db")).unwrap();
    for table in ["stream", "own", "own_ended", "log"] {
        let sql = format!("SELECT count(*) FROM {table}");
        assert_eq!(client.query_row(&sql, [], |row| row.get::<_, i64>(0)).unwrap(), 0, "{table}");
    }
}

#[test]
fn a_file_put_back_from_a_copy_writes_again_what_its_stream_cannot_carry() {
    let (mut ann, mut bob, mut hub) = (Laptop::new(1, "ann", &plan()), Laptop::new(2, "bob", &plan()), Hub::default());
    ann.append(&[water(101, 1, 3)]);
    let old = ann.file();
    ann.append(&[water(102, 2, 3)]);
    ann.exchange(&mut hub);
    ann.put_back(&old);
    ann.append(&[water(103, 3, 3)]);
    let did = ann.exchange(&mut hub);
    assert_eq!((did.came_back, did.written_again), (6, 1));
    bob.exchange(&mut hub);
    ann.exchange(&mut hub);
    assert_eq!(ann.export(), bob.export());
    assert_eq!(bob.texts().len(), 7);
    // It is known as written here all the same.
    assert_eq!(ann.store().origins(&mut benchwalk::store::Heard::default(), 100).unwrap(), []);
    let who = bob.store().who(water(103, 3, 3).id()).unwrap().unwrap();
    assert_eq!(who.laptop.as_deref(), Some("ann"));
}

#[test]
fn the_screens_take_what_is_exchanged_beside_them_for_no_other_program() {
    let (mut ann, mut bob, mut hub) = (Laptop::new(1, "ann", &plan()), Laptop::new(2, "bob", &plan()), Hub::default());
    // So much that the log is written into the file several times.
    bob.append(&(0..3_000).map(|n| water(10_000 + n, 1, 3)).collect::<Vec<_>>());
    bob.exchange(&mut hub);
    let seen = ann.store().data_version().unwrap();
    let mut beside = Store::open_beside(&ann.path()).unwrap();
    beside.sit(ann.seat, "ann");
    let length = || std::fs::metadata(ann.path()).unwrap().len();
    let before = length();
    let mut did = Exchanged::default();
    exchange(&mut beside, &mut hub, SEASON, Batches { take: 20, give: 20 }, &mut did).unwrap();
    assert_eq!(did.taken, 3_000);
    assert!(length() > before, "the log was written into the file beside the screens");
    ann.append(&[water(101, 1, 3)]);
    assert_ne!(ann.store().data_version().unwrap(), seen, "the screens see that something came");
    assert_eq!(ann.store().count().unwrap(), 3_001);
    // What was saved on the screens meanwhile goes with the next exchange.
    let mut did = Exchanged::default();
    exchange(&mut beside, &mut hub, SEASON, Batches::default(), &mut did).unwrap();
    assert_eq!((did.given, did.taken), (1, 0));
    beside.close().unwrap();
    ann.append(&[water(102, 2, 3)]);
    ann.quit();
    assert!(!ann.path().with_file_name("season.db-wal").exists());
    assert_eq!(ann.store().count().unwrap(), 3_002);
}

#[test]
fn nothing_is_taken_into_a_file_that_was_exchanged() {
    let (mut ann, mut bob, mut hub) = (Laptop::new(1, "ann", &plan()), Laptop::new(2, "bob", &plan()), Hub::default());
    bob.append(&[water(201, 1, 3)]);
    bob.exchange(&mut hub);
    ann.store();
    let mut beside = Store::open_beside(&ann.path()).unwrap();
    let away = ann.path().with_file_name("away.db");
    std::fs::rename(ann.path(), &away).unwrap();
    std::fs::write(ann.path(), bob.file()).unwrap();
    let mut did = Exchanged::default();
    let stopped = exchange(&mut beside, &mut hub, SEASON, Batches::default(), &mut did).unwrap_err();
    let benchwalk::exchange::Stopped::Replica(StoreError::Replaced { what, .. }) = stopped else {
        panic!("{stopped:?}")
    };
    assert_eq!(what, Gone::OtherFile);
}
