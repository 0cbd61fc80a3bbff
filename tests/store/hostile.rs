//! Files that another program changed: they are read, with nothing raw in what comes out, and not written to.

use super::{season, water};
use benchwalk::journal;
use benchwalk::record::{Entry, Line};
use benchwalk::store::{Store, StoreError};
use rusqlite::Connection;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A closed season with some entries, changed by SQL as another program would.
fn changed(sql: &str) -> (TempDir, PathBuf) {
    let (folder, path, mut store) = season();
    store.append(&(1..=20).map(|day| water(day, 3)).collect::<Vec<Line>>()).unwrap();
    store.close().unwrap();
    let client = Connection::open(&path).unwrap();
    let triggers = "SELECT 'DROP TRIGGER ' || name || ';' FROM sqlite_schema WHERE type = 'trigger'";
    let all: Vec<String> =
        client.prepare(triggers).unwrap().query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect();
    client.execute_batch(&sql.replace("DROP TRIGGERS", &all.concat())).unwrap();
    (folder, path)
}

/// What opening for writing says differs; the file is as it was.
fn differs(path: &Path) -> String {
    let before = fs::read(path).unwrap();
    let error = Store::open(path).expect_err("it opened for writing");
    assert!(fs::read(path).unwrap() == before, "the bytes were changed");
    assert!(error.can_be_read(), "{error:?}");
    match error {
        StoreError::Changed { what, .. } => what,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_trigger_that_swallows_what_is_saved_leaves_the_file_read_only() {
    let (_folder, path) = changed("CREATE TRIGGER swallow BEFORE INSERT ON entry BEGIN SELECT RAISE(IGNORE); END;");
    assert_eq!(differs(&path), "the trigger swallow was added");
    assert_eq!(Store::open_read_only(&path).unwrap().load().unwrap().1.len(), 20);
}

#[test]
fn what_is_missing_or_changed_is_named() {
    for (sql, wanted) in [
        ("DROP TRIGGER entry_no_update;", "the trigger entry_no_update is missing"),
        ("DROP VIEW water;", "the view water is missing"),
        ("DROP INDEX entry_day;", "the index entry_day is missing"),
        ("DROP VIEW water; CREATE VIEW water AS SELECT 1;", "the view water is changed"),
        ("CREATE UNIQUE INDEX one_a_day ON entry (bench, day);", "the index one_a_day was added"),
        ("ALTER TABLE entry ADD COLUMN mine TEXT;", "the table entry is changed"),
        ("DROP TRIGGERS", "the trigger bench_line_no_delete is missing, and 77 more"),
    ] {
        let (_folder, path) = changed(sql);
        assert_eq!(differs(&path), wanted, "{sql}");
    }
}

#[test]
fn views_and_tables_of_the_users_own_do_not_matter() {
    let (_folder, path) = changed(
        "CREATE VIEW mine AS WITH RECURSIVE f(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM f) SELECT count(*) FROM f;
         CREATE TABLE prices (lot TEXT, cents INTEGER); CREATE INDEX by_lot ON prices (lot);",
    );
    let mut store = Store::open(&path).unwrap();
    store.append(&[water(21, 3)]).unwrap();
    let copy = path.with_file_name("copy.db");
    assert_eq!(store.backup(&copy).unwrap().entries, 21);
}

#[test]
fn a_view_in_the_place_of_a_table_is_never_run() {
    let endless = "WITH RECURSIVE f(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM f)";
    for table in ["entry", "site_line", "plan_replaces"] {
        let (_folder, path) = changed(&format!(
            "DROP TRIGGERS PRAGMA legacy_alter_table = 1; ALTER TABLE {table} RENAME TO hidden;
             CREATE VIEW {table} AS {endless} SELECT h.* FROM hidden AS h, f WHERE f.x < 0;"
        ));
        for error in [Store::open(&path).unwrap_err(), Store::open_read_only(&path).unwrap_err()] {
            assert!(error.to_string().contains(&format!("{table} is a view, not a table")), "{error}");
        }
    }
}

#[test]
fn a_row_that_is_taken_out_again_is_not_saved() {
    // Added while the file is open; at the next opening it would be found.
    let (_folder, path, mut store) = season();
    let client = Connection::open(&path).unwrap();
    for body in ["BEFORE INSERT ON entry BEGIN SELECT RAISE(IGNORE)", "AFTER INSERT ON entry BEGIN DELETE FROM entry"] {
        client
            .execute_batch(&format!(
                "DROP TRIGGER IF EXISTS entry_no_delete; DROP TRIGGER IF EXISTS late; CREATE TRIGGER late {body}; END;"
            ))
            .unwrap();
        let error = store.append(&[water(1, 3)]).unwrap_err();
        assert!(matches!(error, StoreError::Changed { .. }), "{body}: {error:?}");
        assert_eq!(store.count().unwrap(), 0);
        assert!(error.may_pass(), "the line is kept");
    }
    client.execute_batch("DROP TRIGGER late").unwrap();
    assert_eq!(store.append(&[water(1, 3)]).unwrap().new, 1);
}

#[test]
fn a_trigger_without_end_is_ended() {
    let (_folder, path, mut store) = season();
    let client = Connection::open(&path).unwrap();
    client
        .execute_batch(
            "CREATE TRIGGER slow AFTER INSERT ON entry BEGIN SELECT count(*) FROM
             (WITH RECURSIVE f(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM f) SELECT x FROM f); END;",
        )
        .unwrap();
    let error = store.append(&[water(1, 3)]).unwrap_err();
    assert!(matches!(error, StoreError::Damaged { .. }), "{error:?}");
    assert_eq!(store.count().unwrap(), 0);
}

#[test]
fn control_characters_in_rows_come_out_marked_and_the_journal_imports_again() {
    let (folder, path) = changed(
        "DROP TRIGGERS PRAGMA foreign_keys = 0; PRAGMA ignore_check_constraints = 1;
         UPDATE entry SET author = char(27) || '[2J', note = char(27) || ']0;x' || char(7) || char(155) || '31m';
         UPDATE entry SET fields = json_object('level', 3), bench = '<b>' || char(27);
         UPDATE bench_line SET bench = '<b>' || char(27) WHERE bench = 'E1';
         UPDATE placement_line SET bench = '<b>' || char(27) WHERE bench = 'E1';
         UPDATE lot_line SET cultivar = 'red' || char(27), container = char(8238);
         UPDATE site_line SET name = 'S' || char(27) || ']0;x' || char(7);",
    );
    let store = Store::open_read_only(&path).unwrap();
    let (plan, entries) = store.load().unwrap();
    let text = journal::write(store.season_id().unwrap(), &plan, &entries);
    let raw = |c: char| c != '\n' && (c.is_control() || ('\u{202a}'..='\u{202e}').contains(&c));
    assert!(!text.contains(raw), "{text:?}");
    assert!(!text.contains("\\u00"), "{text}");
    assert!(text.contains("S\u{fffd}]0;x\u{fffd}"), "what was there can be seen: {text}");
    let lines = journal::read(&text).unwrap();
    let mut again = Store::create(&folder.path().join("again.db")).unwrap();
    again.append_of(&lines, store.season_id().unwrap()).unwrap();
    let (_, mut there) = again.load().unwrap();
    there.sort_by_key(Entry::order);
    assert_eq!(there, entries);
}

#[test]
fn a_version_of_nought_or_less_is_said_in_one_sentence() {
    for version in [0, -1] {
        let (_folder, path) = changed(&format!("PRAGMA user_version = {version}"));
        for error in [Store::open(&path).unwrap_err(), Store::open_read_only(&path).unwrap_err()] {
            assert!(error.to_string().contains(&format!("its version number is {version}")), "{error}");
            assert!(error.to_string().len() < 400, "{error}");
        }
    }
}

#[test]
fn a_row_of_many_megabytes_is_refused_and_the_others_are_read() {
    let (_folder, path) = changed(
        "DROP TRIGGERS PRAGMA ignore_check_constraints = 1;
         UPDATE entry SET note = printf('%.*c', 3000000, 'x') WHERE seq = 7;",
    );
    let store = Store::open_read_only(&path).unwrap();
    let error = store.load().unwrap_err();
    assert!(error.to_string().contains("longer than any"), "{error}");
    let salvaged = store.salvage().unwrap();
    assert_eq!(salvaged.counted(), "19 of 20 entries could be read");
}

#[test]
fn what_can_be_read_of_a_damaged_file_is_read() {
    let (_folder, path, mut store) = season();
    let many: Vec<Line> = (0..=255)
        .map(|n| super::entry(n, "2026-10-12T07:00:00-04:00", r#""kind":"water","level":3,"note":"by the door""#))
        .collect();
    store.append(&many).unwrap();
    let whole = store.salvage().unwrap();
    let read: Vec<Entry> = whole.entries.iter().map(|(_, entry)| entry.clone()).collect();
    assert_eq!((read.len(), whole.written), (256, 256));
    assert_eq!(whole.plan, store.load_plan().unwrap());
    store.close().unwrap();
    // A leaf of the table of entries: the page that holds the entry in the middle.
    let client = Connection::open(&path).unwrap();
    let sql = "SELECT pageno FROM dbstat WHERE name = 'entry' AND pagetype = 'leaf' ORDER BY pageno LIMIT 1 OFFSET 1";
    let page: usize = client.query_row(sql, [], |row| row.get::<_, i64>(0)).unwrap().try_into().unwrap();
    drop(client);
    let mut bytes = fs::read(&path).unwrap();
    bytes[(page - 1) * 4096..page * 4096].fill(0);
    fs::write(&path, &bytes).unwrap();
    let store = Store::open_read_only(&path).unwrap();
    assert!(matches!(store.load(), Err(StoreError::Damaged { .. })));
    let salvaged = store.salvage().unwrap();
    assert_eq!(salvaged.written, 256);
    assert!((128..256).contains(&salvaged.entries.len()), "{}", salvaged.counted());
    assert!(salvaged.entries.iter().all(|(_, entry)| read.contains(entry)), "nothing is made up");
    assert!(
        matches!(store.backup(&path.with_file_name("copy.db")), Err(StoreError::Damaged { path: at, .. }) if at == path)
    );
}

#[test]
fn an_altered_value_does_not_pass_into_a_backup() {
    let (_folder, path, mut store) = season();
    store.append(&(1..=20).map(|day| water(day, 3)).collect::<Vec<Line>>()).unwrap();
    store.close().unwrap();
    let mut bytes = fs::read(&path).unwrap();
    // The day of one entry in the index of days, which the table then contradicts.
    let client = Connection::open(&path).unwrap();
    let page: i64 =
        client.query_row("SELECT rootpage FROM sqlite_schema WHERE name = 'entry_day'", [], |row| row.get(0)).unwrap();
    drop(client);
    let page = usize::try_from(page).unwrap() - 1;
    let last = (page + 1) * 4096;
    // The cell that was written first ends the page: head of 3 or 4 bytes, the day in 2 or 3, the number.
    bytes[last - 3] ^= 1;
    fs::write(&path, &bytes).unwrap();
    let error = Store::open_read_only(&path).unwrap().backup(&path.with_file_name("copy.db")).unwrap_err();
    assert!(matches!(&error, StoreError::Damaged { path: at, .. } if *at == path), "{error:?}");
    assert!(!path.with_file_name("copy.db").exists());
}

#[test]
fn the_log_of_another_file_is_not_mixed_in() {
    let (folder, path, mut store) = season();
    let note = r#""kind":"water","level":3,"note":"a dry corner at the door, and another one below the pipe""#;
    let many: Vec<Line> = (40..=255).map(|n| super::entry(n, "2026-10-12T07:00:00-04:00", note)).collect();
    store.append(&many).unwrap();
    store.close().unwrap();
    let mut store = Store::open(&path).unwrap();
    store.append(&[water(1, 3)]).unwrap();
    // As a kill leaves them: the file and its log.
    let killed = folder.path().join("killed.db");
    let log = |path: &Path| PathBuf::from(format!("{}-wal", path.display()));
    fs::copy(&path, &killed).unwrap();
    fs::copy(log(&path), log(&killed)).unwrap();
    assert_eq!(Store::open_read_only(&killed).unwrap().count().unwrap(), 217, "its own log belongs to it");
    // An older backup is put in its place, its log stays.
    let older = folder.path().join("older.db");
    let mut backup = Store::create(&older).unwrap();
    backup.append(&super::small()).unwrap();
    backup.append(&(2..=9).map(|day| water(day, 4)).collect::<Vec<Line>>()).unwrap();
    backup.close().unwrap();
    fs::copy(&older, &killed).unwrap();
    let before = fs::read(&killed).unwrap();
    let error = Store::open(&killed).unwrap_err();
    assert!(matches!(error, StoreError::OtherLog { .. }), "{error:?}");
    assert!(error.can_be_read());
    let read = Store::open_read_only(&killed).unwrap();
    assert_eq!(read.load().unwrap().1.len(), 8, "the file by itself is read");
    drop(read);
    assert!(fs::read(&killed).unwrap() == before);
    fs::rename(log(&killed), folder.path().join("aside")).unwrap();
    assert_eq!(Store::open(&killed).unwrap().count().unwrap(), 8);
}

#[test]
fn names_that_the_database_would_read_as_its_own_are_only_names() {
    let (folder, path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    for name in ["file:b.db", ":memory:", "b?mode=memory", "a#b%20c.db", "new\nline.db", "it's \"b\".db", "-b.db"] {
        // Windows takes no names with these signs.
        if cfg!(windows) && name.contains([':', '?', '"', '\n']) {
            assert!(store.backup(&folder.path().join(name)).is_err(), "{name}");
            continue;
        }
        let to = folder.path().join(name);
        assert_eq!(store.backup(&to).unwrap().entries, 1, "{name}");
        assert_eq!(Store::open_read_only(&to).unwrap().count().unwrap(), 1, "{name}");
        let mut copy = Store::open(&to).unwrap();
        copy.append(&[water(2, 3)]).unwrap();
        copy.close().unwrap();
        assert_eq!(Store::open_read_only(&to).unwrap().count().unwrap(), 2, "{name}");
    }
    drop(path);
}

#[cfg(target_os = "linux")]
#[test]
fn names_that_are_no_text_work_too() {
    use std::os::unix::ffi::OsStrExt;
    let (folder, _path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    let to = folder.path().join(std::ffi::OsStr::from_bytes(b"b\xff.db"));
    assert_eq!(store.backup(&to).unwrap().entries, 1);
    assert_eq!(Store::open(&to).unwrap().count().unwrap(), 1);
    // In a folder whose name is no text a copy cannot be made, and nothing is left there.
    let odd = folder.path().join(std::ffi::OsStr::from_bytes(b"f\xff"));
    fs::create_dir(&odd).unwrap();
    let error = store.backup(&odd.join("b.db")).unwrap_err();
    assert!(error.to_string().contains("not UTF-8"), "{error}");
    assert_eq!(fs::read_dir(&odd).unwrap().count(), 0);
}

/// Every cell of lines and entries, and every field of entries, set to values Benchwalk never saves there; what the file itself
/// would refuse too.
#[test]
fn what_an_import_refuses_of_an_odd_file_is_named_as_it_goes_out() {
    const ODD: [&str; 3] = ["-1", "4e9", "'two words'"];
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.db");
    let (mut tried, mut read, mut refused, mut wrong) = (0, 0, 0, Vec::new());
    let mut one = |change: &str| {
        fs::write(&path, include_bytes!("v7.db")).unwrap();
        let client = Connection::open(&path).unwrap();
        client.set_db_config(rusqlite::config::DbConfig::SQLITE_DBCONFIG_ENABLE_TRIGGER, false).unwrap();
        let off = "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON; PRAGMA synchronous = OFF;";
        client.execute_batch(off).unwrap();
        // A type that no column of a strict table takes, or one id twice.
        if client.execute(change, []).is_err() {
            return;
        }
        client.close().unwrap();
        tried += 1;
        let store = Store::open_read_only(&path).unwrap();
        let id = store.season_id().unwrap();
        let salvaged = store.salvage().unwrap();
        let kept = (salvaged.plan, salvaged.entries.into_iter().map(|(_, entry)| entry).collect());
        for (plan, entries) in store.load().ok().into_iter().chain([kept]) {
            read += 1;
            let (text, told) = journal::write_judged(id, &plan, &entries);
            let faults = journal::read(&text).err().unwrap_or_default();
            refused += usize::from(!faults.is_empty());
            // The same lines, once each; the words of a time differ, which the import quotes as it is written.
            let lines = |faults: &journal::Faults| faults.iter().map(|fault| fault.line).collect::<BTreeSet<_>>();
            if lines(&told) != lines(&faults) {
                wrong.push(format!("{change}: told {told:?}, refused {faults:?}"));
            }
        }
    };
    let (tables, fields) = {
        fs::write(folder.path().join("good.db"), include_bytes!("v7.db")).unwrap();
        let good = Connection::open(folder.path().join("good.db")).unwrap();
        let pairs = |sql: &str| -> Vec<(String, String)> {
            let mut found = good.prepare(sql).unwrap();
            found.query_map([], |row| Ok((row.get(0)?, row.get(1)?))).unwrap().map(Result::unwrap).collect()
        };
        let columns =
            "SELECT t.name, c.name FROM sqlite_schema t, pragma_table_info(t.name) c WHERE t.type = 'table' AND
                       (t.name LIKE '%\\_line' ESCAPE '\\' OR t.name = 'entry')";
        (pairs(columns), pairs("SELECT DISTINCT CAST(kind AS TEXT), key FROM entry, json_each(fields)"))
    };
    assert!(tables.len() > 100 && fields.len() > 60, "{} columns, {} fields", tables.len(), fields.len());
    for value in ODD {
        for (table, column) in &tables {
            one(&format!("UPDATE {table} SET {column} = {value}"));
        }
        for (kind, field) in &fields {
            one(&format!("UPDATE entry SET fields = json_set(fields, '$.{field}', {value}) WHERE kind = {kind}"));
        }
    }
    assert!(wrong.is_empty(), "{} of {tried}: {:#?}", wrong.len(), wrong.iter().take(5).collect::<Vec<_>>());
    assert!(tried > 300 && read > tried && refused > 100, "{tried} tried, {read} read, {refused} refused");
}
