//! Written once: the file itself refuses to change or lose anything, whoever asks.

use super::{entry, season, small, water};
use benchwalk::record::{Line, codec};
use benchwalk::store::{Store, StoreError};
use rusqlite::Connection;
use std::path::Path;

/// A connection as any SQLite client makes it, with that client's defaults.
fn plain(path: &Path) -> Connection {
    Connection::open(path).unwrap()
}

#[test]
fn no_client_can_change_remove_or_replace_a_row() {
    let (_folder, path, mut store) = season();
    store.share([1; 16], "ann").unwrap();
    store.append(&[water(1, 3), entry(2, "2026-10-02T07:00:00-04:00", r#""kind":"fed","n_ppm":250"#)]).unwrap();
    store.close().unwrap();
    let client = plain(&path);
    let mut tables = client
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name")
        .unwrap();
    let tables: Vec<String> = tables.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect();
    assert_eq!(tables.len(), 26, "{tables:?}");
    for table in &tables {
        for refused in ["update", "delete", "replace"] {
            let trigger = format!("{table}_no_{refused}");
            let sql = "SELECT count(*) FROM sqlite_schema WHERE type = 'trigger' AND name = ?1 AND tbl_name = ?2";
            let found: i64 = client.query_row(sql, [&trigger, table], |row| row.get(0)).unwrap();
            assert_eq!(found, 1, "{trigger}");
        }
        let empty: bool = client.query_row(&format!("SELECT count(*) = 0 FROM {table}"), [], |row| row.get(0)).unwrap();
        if empty {
            // Room for later programs: nothing there to attack.
            continue;
        }
        let column: String =
            client.query_row("SELECT name FROM pragma_table_info(?1) WHERE pk = 1", [table], |row| row.get(0)).unwrap();
        let all = format!("SELECT * FROM {table}");
        let attacks = [
            format!("UPDATE {table} SET \"{column}\" = \"{column}\""),
            format!("UPDATE OR REPLACE {table} SET \"{column}\" = \"{column}\""),
            format!("DELETE FROM {table}"),
            format!("INSERT OR REPLACE INTO {table} {all}"),
            format!("REPLACE INTO {table} {all}"),
            format!("INSERT INTO {table} {all} WHERE true ON CONFLICT DO UPDATE SET \"{column}\" = \"{column}\""),
        ];
        for attack in &attacks {
            let error = client.execute(attack, []).expect_err(attack).to_string();
            assert!(error.contains(&format!("{table}: written once")), "{attack}: {error}");
        }
    }
    // Another row in the place of an entry, by number and by id.
    for (seq, id) in [("1", "randomblob(16)"), ("77", "(SELECT id FROM entry WHERE seq = 1)")] {
        let attack = format!(
            "INSERT OR REPLACE INTO entry (seq, id, bench, day, instant, utc_offset, author, kind, fields)
             SELECT {seq}, {id}, bench, day, instant, utc_offset, author, kind, fields FROM entry WHERE seq = 1"
        );
        assert!(client.execute(&attack, []).unwrap_err().to_string().contains("never replaced"));
    }
    let kept = Store::open_read_only(&path).unwrap().load().unwrap().1;
    assert_eq!(kept.len(), 2);
}

#[test]
fn what_breaks_a_rule_of_its_own_fields_is_never_written() {
    let (_folder, _path, mut store) = season();
    let mut bad = water(2, 3);
    if let Line::Entry(entry) = &mut bad {
        entry.kind = benchwalk::record::Kind::Height { cm: vec![25.0, f64::NAN] }.into();
    }
    let error = store.append(&[water(1, 3), bad]).unwrap_err();
    assert!(matches!(&error, StoreError::Refused { detail } if detail.starts_with("cm: number 2")), "{error}");
    assert!(store.load().unwrap().1.is_empty());
}

#[test]
fn the_file_checks_what_it_is_given() {
    let (_folder, path, store) = season();
    store.close().unwrap();
    let client = plain(&path);
    client.pragma_update(None, "foreign_keys", true).unwrap();
    let put = |bench: &str, day: i64, kind: i64, fields: &str| {
        client.execute(
            &format!(
                "INSERT INTO entry (id, bench, day, instant, utc_offset, author, kind, fields)
                 VALUES (randomblob(16), '{bench}', {day}, {day} * 86400 + 40000, -240, 'kt', {kind}, '{fields}')"
            ),
            [],
        )
    };
    let level = |n: &str| format!("{{\"level\":{n}}}");
    put("E1", 20_738, 1, &level("4")).unwrap();
    for (bench, day, kind, fields) in [
        ("E9", 20_738, 1, level("4")),
        ("E1", 20_738, 1, level("6")),
        ("E1", 20_738, 1, level("null")),
        ("E1", 20_738, 1, level("\"four\"")),
        ("E1", 20_738, 1, "4".to_owned()),
        ("E1", 20_738, 1, "level".to_owned()),
        ("E1", 20_738, 2, "{\"score\":6}".to_owned()),
        ("E1", 20_738, 99, "{}".to_owned()),
        ("E1", 4, 1, level("4")),
    ] {
        assert!(put(bench, day, kind, &fields).is_err(), "{bench} {day} {kind} {fields}");
    }
}

#[test]
fn another_content_under_a_known_id_is_refused_with_all_that_came_with_it() {
    let (_folder, _path, mut store) = season();
    store.append(&[water(1, 3)]).unwrap();
    let error = store.append(&[water(2, 3), water(1, 4)]).unwrap_err();
    assert!(matches!(&error, StoreError::Conflict { what } if what.contains("0199a000-")), "{error:?}");
    assert_eq!(store.count().unwrap(), 1, "the good one of the two was not written either");
    // The same instant in another offset is another entry.
    let moved = entry(1, "2026-10-01T06:10:00-05:00", r#""kind":"water","level":3"#);
    assert!(matches!(store.append(&[moved]), Err(StoreError::Conflict { .. })));
}

#[test]
fn a_plan_line_is_revised_never_overwritten() {
    let (_folder, path, mut store) = season();
    let bench = |order: u32, rev: u32| {
        let text =
            format!(r#"{{"type":"bench","bench":"E1","house":"East","order":{order},"area_m2":12,"rev":{rev}}}"#);
        codec::decode(&text, codec::VERSION).unwrap()
    };
    store.append(&[bench(7, 2)]).unwrap();
    assert_eq!(store.load_plan().unwrap().benches.len(), 3, "all revisions are kept");
    assert_eq!(store.append(&[bench(7, 2)]).unwrap().new, 0, "the same again is one line");
    store.close().unwrap();
    let order: i64 =
        plain(&path).query_row("SELECT walk_order FROM bench WHERE bench = 'E1'", [], |r| r.get(0)).unwrap();
    assert_eq!(order, 7, "the view shows the highest");
}

#[test]
fn what_speaks_of_an_unknown_bench_or_is_no_number_is_refused() {
    let (_folder, _path, mut store) = season();
    let stray = codec::decode(
        r#"{"type":"entry","at":"2026-10-01T06:10:00-05:00","by":"kt","bench":"E9","kind":"water","level":3}"#,
        codec::VERSION,
    );
    assert!(matches!(store.append(&[stray.unwrap()]), Err(StoreError::Refused { .. })));
    let mut lots: Vec<Line> = small().into_iter().filter(|line| matches!(line, Line::Lot(_))).collect();
    if let Some(Line::Lot(lot)) = lots.first_mut() {
        lot.revision.rev = 2;
        lot.rim_cm = Some(f64::NAN);
    }
    assert!(matches!(store.append(&lots), Err(StoreError::Refused { .. })));
    assert_eq!(store.load_plan().unwrap().lots.len(), 1);
}
