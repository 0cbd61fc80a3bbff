//! Files of other versions: one made by version 0.1 is brought to this version whole or not at all, with a copy beside it; one
//! of a newer program is read as far as it is understood.
//!
//! `v1.db` was made by the program before this version of the file, from a journal with every kind of entry and revised lines;
//! `v1.jsonl` is what that program exported from it. `v3.db` and `v3.jsonl` are the same of version 3.

use super::{entry, season, water};
use benchwalk::journal;
use benchwalk::record::{Entry, Line, Place};
use benchwalk::season::Season;
use benchwalk::store::{NEWEST, Store, StoreError};
use chrono::TimeZone;
use rusqlite::Connection;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

const OLD: &[u8] = include_bytes!("v1.db");
const EXPORTED: &str = include_str!("v1.jsonl");

/// An entry on the first bench of that file.
fn on_old_bench(id: u8, at: &str, rest: &str) -> Line {
    match entry(id, at, rest) {
        Line::Entry(e) => Line::Entry(Entry { place: Place::Bench("N1".into()), ..e }),
        other => other,
    }
}

fn old() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.db");
    fs::write(&path, OLD).unwrap();
    (folder, path)
}

/// The records of a file, one a line, in one order.
pub(super) fn records(store: &Store) -> Vec<String> {
    let (plan, entries) = store.load().unwrap();
    sorted(plan.lines().into_iter().chain(entries.into_iter().map(Line::Entry)))
}

pub(super) fn sorted(lines: impl IntoIterator<Item = Line>) -> Vec<String> {
    let mut all: Vec<String> = lines.into_iter().map(|line| benchwalk::record::codec::encode(&line)).collect();
    all.sort();
    all
}

pub(super) fn version(path: &Path) -> i64 {
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
    assert_eq!(version(&path), NEWEST);
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
    let (folder, path) = old();
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
    assert!(!folder.path().join("season.v1.db").exists(), "a copy at every try");
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
             VALUES (randomblob(16), 'E1', 20738, 20738 * 86400 + 40000, -240, 'kt', 99, '{\"ppm\":800}');",
        )
        .unwrap();
    client.pragma_update(None, "user_version", NEWEST + 1).unwrap();
    client.close().unwrap();
    let before = fs::read(&path).unwrap();
    let error = Store::open(&path).unwrap_err();
    assert!(matches!(error, StoreError::Newer { found, .. } if found == NEWEST + 1), "{error:?}");
    let store = Store::open_read_only(&path).unwrap();
    let (plan, entries) = store.load().unwrap();
    assert_eq!((entries.len(), store.left_out()), (2, 1));
    assert_eq!(Season::new(plan, entries).benches().len(), 2);
    store.close().unwrap();
    assert!(fs::read(&path).unwrap() == before, "the bytes were changed");
}

#[test]
fn a_treatment_of_an_older_file_still_closes_its_benches_for_the_hours_of_its_label() {
    let (_folder, path) = old();
    let at = |hour: u32, minute: u32| chrono::Utc.with_ymd_and_hms(2026, 10, 5, hour, minute, 0).unwrap();
    let closed = |store: &Store| {
        let (plan, entries) = store.load().unwrap();
        let season = Season::new(plan, entries);
        ["N1", "N2", "S1"].map(|bench| season.keep_out(bench, at(12, 30)))
    };
    // N1 treated until 08:05 in New York, closed for 24 h; the house of S1 fogged until 08:06, closed for 4 h.
    let wanted = [Some(at(12, 5) + chrono::TimeDelta::hours(24)), None, Some(at(16, 6))];
    assert_eq!(closed(&Store::open_read_only(&path).unwrap()), wanted);
    let store = Store::open(&path).unwrap();
    assert_eq!(closed(&store), wanted);
    store.close().unwrap();
    let client = Connection::open(&path).unwrap();
    let hours = |view: &str| -> Vec<f64> {
        let mut rows = client.prepare(&format!("SELECT rei_h FROM {view} ORDER BY at_time")).unwrap();
        rows.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect()
    };
    assert_eq!((hours("growth_regulator"), hours("sprayed")), (vec![24.0], vec![4.0]));
    let old_names = "SELECT count(*) FROM entry WHERE fields LIKE '%re_entry_h%'";
    assert_eq!(client.query_row(old_names, [], |row| row.get::<_, i64>(0)).unwrap(), 0);
}

#[test]
fn a_file_brought_here_takes_what_this_version_has_more_of() {
    let (_folder, path) = old();
    let new = [
        on_old_bench(101, "2026-10-06T07:00:00-04:00", r#""plot":"T1.7","kind":"height","cm":[40]"#),
        on_old_bench(
            102,
            "2026-10-06T18:00:00-04:00",
            r#""kind":"sprayed","ai":"soap","against":"whitefly","how":"spray","rei_h":12,"product":"X","rate":"2 %","epa_reg_no":"0000-00","started_at":"2026-10-06T17:40:00-04:00","amount_used":"1.5 gal","area_m2":46.5,"target":"poinsettia","applicator":"M. L.","license":"A-12""#,
        ),
        on_old_bench(
            103,
            "2026-10-06T19:00:00-04:00",
            r#""kind":"growth-regulator","parts":[{"ai":"daminozide","ppm":2500}],"how":"spray","rei_h":24,"epa_reg_no":"0000-01","started_at":"2026-10-06T18:30:00-04:00","amount_used":"2 gal","area_m2":11.7,"target":"poinsettia","applicator":"M. L.","license":"A-12""#,
        ),
        on_old_bench(
            104,
            "2026-10-06T20:00:00-04:00",
            r#""kind":"climate","day_c":22,"night_c":17.5,"low_c":15.1,"high_c":26,"humid_hours":6.5,"humid_over":85,"vpd_kpa":0.44,"light_mol":9.3,"warm_h":1.5,"readings":288"#,
        ),
    ];
    let mut store = Store::open(&path).unwrap();
    assert_eq!(store.append(&new).unwrap().new, 4);
    store.close().unwrap();
    let kept = records(&Store::open_read_only(&path).unwrap());
    assert_eq!(kept, sorted(journal::read(EXPORTED).unwrap().into_iter().chain(new.clone())));
    // Through the journal and into a new file they stay what they are.
    let (plan, entries) = Store::open(&path).unwrap().load().unwrap();
    let again = journal::read(&journal::write(None, &plan, &entries)).unwrap();
    assert_eq!(sorted(again), kept);
    for field in ["plot", "epa_reg_no", "started_at", "amount_used", "area_m2", "target", "applicator", "license"] {
        assert!(
            kept.iter().any(|line| line.contains("\"entry\"") && line.contains(&format!("\"{field}\":"))),
            "{field}"
        );
    }
}

/// Takes a column out of a table again: `lot_line program_bag`.
fn drop_column(path: &std::path::Path, named: &str) {
    let (table, column) = named.split_once(' ').unwrap();
    let views = "DROP VIEW IF EXISTS feed_program; DROP VIEW IF EXISTS trial_reading; DROP VIEW IF EXISTS trial; DROP VIEW IF EXISTS lot;";
    let sql = format!("{views} ALTER TABLE {table} DROP COLUMN {column};");
    Connection::open(path).unwrap().execute_batch(&sql).unwrap();
}

/// What makes a view of version 2 that a later version made again.
fn of_version_2(view: &str) -> String {
    let script = include_str!("../../src/store/v2.sql").replace('\r', "");
    let from = script.find(&format!("CREATE VIEW {view} AS")).unwrap();
    script.split_at(from).1.split_inclusive(";\n").next().unwrap().to_owned()
}

#[test]
fn a_file_of_version_2_is_read_as_it_is_and_takes_the_history_of_a_lot_once_it_is_opened() {
    let (folder, path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    let before = records(&store);
    store.close().unwrap();
    // What the later versions added, taken out again.
    let lot = ["n_ppm", "bag", "from", "days", "clear"].map(|field| format!("lot_line program_{field}"));
    let next = ["g", "basis"].map(|field| format!("lot_line next_release_{field}"));
    let trial = ["drawn", "guard", "near_side", "far_side", "shared_feed", "ended_because"];
    let trial = trial.map(|field| format!("trial_line {field}"));
    drop_column(&path, "site_line no_temperature");
    drop_column(&path, "lot_line response_c");
    for column in lot.iter().chain(&next).chain(&trial) {
        drop_column(&path, column);
    }
    let client = Connection::open(&path).unwrap();
    let trigger = "SELECT sql FROM sqlite_schema WHERE name = 'kind_no_delete'";
    let trigger: String = client.query_row(trigger, [], |row| row.get(0)).unwrap();
    let shared = ["own_ended", "log_again", "log_understood", "log_tried", "other_content", "mirror"]
        .map(|table| format!("DROP TABLE {table};"));
    let shared = format!("{} DROP INDEX log_entry; DROP INDEX log_text; DROP INDEX log_held;", shared.concat());
    client.execute_batch(&shared).unwrap();
    let older = "DROP VIEW history; DROP TABLE history_line; DROP VIEW job; DROP VIEW greenness; DROP VIEW bract_width; DROP VIEW plot;
        DROP TRIGGER kind_no_delete; DELETE FROM kind WHERE number IN (15, 16, 46); PRAGMA user_version = 2;";
    client
        .execute_batch(&format!(
            "{older} DROP VIEW leaves; {trigger}; {} {}",
            of_version_2("lot"),
            of_version_2("leaves")
        ))
        .unwrap();
    client.close().unwrap();
    let store = Store::open_read_only(&path).unwrap();
    assert_eq!(records(&store), before);
    store.close().unwrap();
    assert_eq!(version(&path), 2, "reading changes nothing");
    let mut store = Store::open(&path).unwrap();
    assert_eq!(records(&store), before);
    let said = r#"{"type":"history","lot":"R1","pinch":"done","pinched_on":"2026-08-31","magnesium":"not-done"}"#;
    let said = benchwalk::record::codec::decode(said, 2).unwrap();
    store.append(std::slice::from_ref(&said)).unwrap();
    assert!(store.load_plan().unwrap().lines().contains(&said));
    store.close().unwrap();
    assert_eq!(version(&path), NEWEST);
    assert_eq!(version(&folder.path().join("season.v2.db")), 2, "a copy beside it");
}

#[test]
fn a_file_of_version_3_is_brought_here_with_every_record_and_takes_ticks_of_jobs() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.db");
    fs::write(&path, include_bytes!("v3.db")).unwrap();
    let exported = journal::read(include_str!("v3.jsonl")).unwrap();
    assert_eq!(version(&path), 3);
    let store = Store::open_read_only(&path).unwrap();
    assert_eq!(records(&store), sorted(exported.clone()));
    store.close().unwrap();
    assert_eq!(version(&path), 3, "reading changes nothing");
    let mut store = Store::open(&path).unwrap();
    assert_eq!(records(&store), sorted(exported.clone()));
    assert_eq!(version(&folder.path().join("season.v3.db")), 3, "a copy beside it");
    let tick = entry(
        200,
        "2026-10-07T18:00:00-04:00",
        r#""kind":"job","step":"Look for a drip.","listed_for":"2026-10-08","outcome":"not-needed","why":"mended""#,
    );
    store.append(std::slice::from_ref(&tick)).unwrap();
    assert_eq!(records(&store), sorted(exported.into_iter().chain([tick.clone()])));
    let (plan, entries) = store.load().unwrap();
    let again = journal::read(&journal::write(None, &plan, &entries)).unwrap();
    assert!(again.contains(&tick), "and through the journal");
    store.close().unwrap();
    assert_eq!(version(&path), NEWEST);
    let client = Connection::open(&path).unwrap();
    let seen: String = client
        .query_row(
            "SELECT bench || ' ' || step || ' ' || listed_for || ' ' || outcome || ' ' || why FROM job",
            [],
            |row| row.get(0),
        )
        .unwrap();
    assert_eq!(seen, "E1 Look for a drip. 2026-10-08 not-needed mended");
}
