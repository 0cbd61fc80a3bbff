//! What only the store's own connection can show: its settings, a full disk, and that released versions stay as they are.

use super::*;
use crate::record::{Line, codec};
use sha2::{Digest, Sha256};

fn line(text: &str) -> Line {
    codec::decode(text, codec::VERSION).unwrap()
}

fn water(number: u32) -> Line {
    line(&format!(
        r#"{{"type":"entry","id":"0199a000-0000-7000-8000-{number:012}","at":"2026-10-12T07:10:00-04:00","by":"kt","bench":"E1","kind":"water","level":4,"note":"{}"}}"#,
        "dry corner, ".repeat(20) + "again"
    ))
}

fn season() -> (tempfile::TempDir, Store) {
    let folder = tempfile::tempdir().unwrap();
    let mut store = Store::create(&folder.path().join("season.db")).unwrap();
    store.append(&[line(r#"{"type":"bench","bench":"E1","house":"East","order":1}"#)]).unwrap();
    (folder, store)
}

#[test]
fn released_versions_are_frozen() {
    let hashes: Vec<String> =
        SCRIPTS.iter().map(|script| format!("{:x}", Sha256::digest(script.replace('\r', "")))).collect();
    assert_eq!(
        hashes,
        [
            "f8465654fb2993ff7dafdca3753419c207aa35249c2fe5aecb68bfbb03e02d11",
            "dcd9f42ec1b8123eb60edb24146a218953bf053212d6e0101cc9d381e05675f1",
            "9eb3767842a8c4c0152b325ad63a152794436f3c21ab6aac98c3c14341fc8690",
            "63e0eae9d26cc2c3440a9fb21cb1a3c3e0905c37b77d12e1c396f13c0ca68b4d",
            "842e3c676a7a19cb04a99af22fa1ace169bab42b53cc15dbc508de1c0da1a00e",
            "886ead7e7e2d19ca125d15290e9159fd57c718c0601548c1e99377f5e9ff8a76",
            "bf88771fbb6f826aef99263c4b785a75182358686810f0ff06a073115dd862c2",
            "d97e2ed89fd350a2414d2d429deb3c53f13092277c2e0e5978be3c0ffb515031"
        ],
        "a released script was edited: a change is a new script"
    );
}

#[test]
fn every_opening_has_its_settings() {
    let (_folder, store) = season();
    let path = store.path().to_owned();
    let other = Store::open(&path).unwrap();
    for store in [&store, &other] {
        let get =
            |name: &str| store.connection.pragma_query_value(None, name, |row| row.get::<_, rusqlite::types::Value>(0));
        let number = |name: &str| match get(name).unwrap() {
            rusqlite::types::Value::Integer(value) => value,
            other => panic!("{name}: {other:?}"),
        };
        assert_eq!(get("journal_mode").unwrap(), "wal".to_owned().into());
        assert_eq!(number("synchronous"), 2, "FULL");
        assert_eq!(number("foreign_keys"), 1);
        assert_eq!(number("trusted_schema"), 0);
        assert_eq!(number("application_id"), i64::from(APPLICATION_ID));
        assert_eq!(number("user_version"), NEWEST);
        assert_eq!(store.journaling(), &Journaling::Wal);
        assert_eq!(store.journaling().notice(), None);
    }
}

#[test]
fn on_a_full_disk_nothing_is_half_written_and_saving_goes_on_with_room() {
    let (_folder, mut store) = season();
    store.append(&[water(1)]).unwrap();
    let pages: i64 = store.connection.pragma_query_value(None, "page_count", |row| row.get(0)).unwrap();
    store.connection.pragma_update_and_check(None, "max_page_count", pages + 1, |row| row.get::<_, i64>(0)).unwrap();
    let many: Vec<Line> = (2..500).map(water).collect();
    let error = store.append(&many).unwrap_err();
    assert!(matches!(error, StoreError::Full { .. }), "{error:?}");
    assert!(error.may_pass());
    assert!(store.connection.is_autocommit(), "no transaction is left open");
    assert_eq!(store.count().unwrap(), 1);
    store.connection.pragma_update_and_check(None, "max_page_count", 1_000_000, |row| row.get::<_, i64>(0)).unwrap();
    assert_eq!(store.append(&many).unwrap(), Saved { new: 498, known: 0 });
    schema::integrity_check(&store.connection).unwrap();
}

#[test]
fn a_transaction_that_fails_leaves_nothing() {
    let (_folder, mut store) = season();
    let failed: Result<(), error::Fault> = schema::write(&mut store.connection, |transaction| {
        transaction.execute("INSERT INTO known_lot (lot) VALUES ('X')", [])?;
        Err(error::Fault::Malformed("stop".to_owned()))
    });
    assert!(failed.is_err());
    let lots: i64 = store.connection.query_row("SELECT count(*) FROM known_lot", [], |row| row.get(0)).unwrap();
    assert_eq!(lots, 0);
}

#[test]
fn an_older_file_is_looked_over_before_it_is_changed() {
    let (folder, path, mut connection) = version_1();
    schema::migrate(&mut connection, &path).unwrap();
    assert_eq!(schema::version(&connection).unwrap(), NEWEST);
    // And again changes nothing, nor does it leave another copy.
    schema::migrate(&mut connection, &path).unwrap();
    schema::integrity_check(&connection).unwrap();
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 2);
}

/// A file made by version 0.1 of the program, opened.
fn version_1() -> (tempfile::TempDir, PathBuf, Connection) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("old.db");
    std::fs::copy(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/store/v1.db"), &path).unwrap();
    let connection = Connection::open(&path).unwrap();
    connection.pragma_update(None, "foreign_keys", true).unwrap();
    connection.pragma_update_and_check(None, "journal_mode", "DELETE", |row| row.get::<_, String>(0)).unwrap();
    (folder, path, connection)
}

#[test]
fn on_a_full_disk_an_older_file_stays_what_it_was() {
    let (_folder, path, mut connection) = version_1();
    let count = |c: &Connection| c.query_row("SELECT count(*) FROM entry", [], |row| row.get::<_, i64>(0)).unwrap();
    let before = count(&connection);
    let pages: i64 = connection.pragma_query_value(None, "page_count", |row| row.get(0)).unwrap();
    connection.pragma_update_and_check(None, "max_page_count", pages, |row| row.get::<_, i64>(0)).unwrap();
    let error = schema::migrate(&mut connection, &path).unwrap_err();
    assert!(matches!(error, StoreError::Full { .. }), "{error:?}");
    assert_eq!((schema::version(&connection).unwrap(), count(&connection)), (1, before));
    connection.pragma_update_and_check(None, "max_page_count", 1_000_000, |row| row.get::<_, i64>(0)).unwrap();
    schema::migrate(&mut connection, &path).unwrap();
    assert_eq!((schema::version(&connection).unwrap(), count(&connection)), (NEWEST, before));
}
