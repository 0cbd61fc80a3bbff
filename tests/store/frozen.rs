//! Files that the program of version 5, of version 6 and of version 7 of the season file made, each with what it exported from it:
//! `v5.db` and `v5.jsonl`, and so on. They hold every kind of entry of their time and revised lines; those of version 6 and 7 a trial
//! with its plots, one of them moved, and entries of plots; that of version 7 a lot with the temperature its response holds at.

use super::entry;
use super::older::{records, sorted, version};
use benchwalk::journal;
use benchwalk::record::{Entry, Line, TrialReading};
use benchwalk::season::Season;
use benchwalk::store::{NEWEST, Store};
use benchwalk::trials::Readings;
use rusqlite::Connection;
use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;
use tempfile::TempDir;

const V5: (&[u8], &str) = (include_bytes!("v5.db"), include_str!("v5.jsonl"));
const V6: (&[u8], &str) = (include_bytes!("v6.db"), include_str!("v6.jsonl"));
const V7: (&[u8], &str) = (include_bytes!("v7.db"), include_str!("v7.jsonl"));

fn laid_down(bytes: &[u8]) -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.db");
    fs::write(&path, bytes).unwrap();
    (folder, path)
}

/// What a file exports, without the line of its end, which names a hash.
fn export(store: &Store) -> String {
    let (plan, entries) = store.load().unwrap();
    journal::write(store.season_id().unwrap(), &plan, &entries)
}

/// Reads a file of an older version as it is, then opens it, and finds the same in both.
fn is_the_same_before_and_after((bytes, exported): (&[u8], &str), of: i64) -> (TempDir, PathBuf) {
    let (folder, path) = laid_down(bytes);
    assert_eq!(version(&path), of);
    let wanted = sorted(journal::read(exported).unwrap());
    let store = Store::open_read_only(&path).unwrap();
    assert_eq!(records(&store), wanted);
    assert_eq!(export(&store), exported, "the export before");
    store.close().unwrap();
    assert_eq!(version(&path), of, "reading changes nothing");
    let store = Store::open(&path).unwrap();
    assert_eq!(records(&store), wanted);
    assert_eq!(export(&store), exported, "the export after");
    store.close().unwrap();
    assert_eq!(version(&path), NEWEST);
    assert_eq!(folder.path().join(format!("season.v{of}.db")).exists(), of < NEWEST, "a copy beside an older one");
    (folder, path)
}

#[test]
fn a_file_of_version_6_takes_the_temperature_a_response_holds_at_and_gives_days_of_plots_as_dates() {
    let (_folder, path) = laid_down(V6.0);
    let mut store = Store::open(&path).unwrap();
    let (plan, entries) = store.load().unwrap();
    let lot = Season::new(plan, entries).lot("L1").unwrap().clone();
    let revision = benchwalk::record::Revision {
        id: None,
        replaces: None,
        at: Some("2026-12-30T08:00:00-05:00".parse().unwrap()),
        ..lot.revision.clone()
    };
    let changed = Line::Lot(benchwalk::record::Lot { response_c: Some(18.9), revision, ..lot });
    assert_eq!(store.append(std::slice::from_ref(&changed)).unwrap().new, 1);
    store.close().unwrap();
    let kept = records(&Store::open_read_only(&path).unwrap());
    assert!(
        kept.iter().any(|line| line.contains(r#""lot":"L1""#) && line.contains(r#""response_c":18.9"#)),
        "{kept:?}"
    );
    let client = Connection::open(&path).unwrap();
    let mean: f64 = client.query_row("SELECT response_c FROM lot WHERE lot = 'L1'", [], |row| row.get(0)).unwrap();
    assert!((mean - 18.9).abs() < 1e-9);
    let day: String = client.query_row("SELECT min(day) FROM trial_reading", [], |row| row.get(0)).unwrap();
    assert!(day.starts_with("2026-1"), "{day}");
}

fn kinds(exported: &str) -> BTreeSet<String> {
    let lines = journal::read(exported).unwrap();
    let name = |line: &Line| if let Line::Entry(e) = line { Some(format!("{:?}", e.name())) } else { None };
    lines.iter().filter_map(name).collect()
}

#[test]
fn a_file_of_version_5_exports_the_same_before_and_after_and_knows_no_trial() {
    assert_eq!(kinds(V5.1).len(), 30, "every kind of that version");
    let (_folder, path) = is_the_same_before_and_after(V5, 5);
    let (plan, entries) = Store::open_read_only(&path).unwrap().load().unwrap();
    assert!(plan.trials.is_empty() && plan.plots.is_empty() && entries.iter().all(|e: &Entry| e.plot.is_none()));
}

#[test]
fn a_file_of_version_5_takes_a_trial_and_readings_of_its_plots() {
    let (_folder, path) = laid_down(V5.0);
    let before = records(&Store::open_read_only(&path).unwrap());
    let new: Vec<Line> = [
        r#"{"type":"trial","trial":"T1","lot":"R6","question":"rate","treatments":["0 g","8 g"],"design":"as-laid","reads":["greenness"],"from":"2026-10-12"}"#,
        r#"{"type":"plot","plot":"T1.1","trial":"T1","bench":"E1","row":1,"column":1,"treatment":"8 g","pots":1}"#,
        r#"{"type":"lot","lot":"L1","cultivar":"white","container":"5 in","cuttings_per_pot":1,"pots":10,"planted":"2026-08-20","pinch":"none","response_weeks":8,"nights":"natural","ready_by":"2026-12-01","next_release_g":8,"next_release_basis":"trial T1","rev":4}"#,
    ]
    .iter()
    .map(|line| benchwalk::record::codec::decode(line, benchwalk::record::codec::VERSION).unwrap())
    .chain([entry(201, "2026-10-12T07:00:00-04:00", r#""plot":"T1.1","kind":"greenness","class":4"#)])
    .collect();
    let mut store = Store::open(&path).unwrap();
    assert_eq!(store.append(&new).unwrap().new, 4);
    store.close().unwrap();
    let mut wanted = [before, sorted(new)].concat();
    wanted.sort();
    assert_eq!(records(&Store::open_read_only(&path).unwrap()), wanted);
    let client = Connection::open(&path).unwrap();
    let seen = "SELECT plot || ' ' || treatment || ' ' || kind || ' ' || value FROM trial_reading";
    let seen: String = client.query_row(seen, [], |row| row.get(0)).unwrap();
    assert!(seen.starts_with("T1.1 8 g greenness 4"), "{seen}");
}

#[test]
fn a_file_of_version_6_exports_the_same_before_and_after_with_its_trial() {
    assert_eq!(kinds(V6.1).len(), 32, "every kind of that version");
    let (_folder, path) = is_the_same_before_and_after(V6, 6);
    let (plan, entries) = Store::open_read_only(&path).unwrap().load().unwrap();
    let season = Season::new(plan, entries);
    let day = |d| chrono::NaiveDate::from_ymd_opt(2026, 10, d).unwrap();
    let readings = Readings::of(&season, "T1", day(9)).unwrap();
    assert_eq!(readings.trial.ended_because.as_deref(), Some("pots sold early"));
    assert_eq!(
        readings.plots.iter().map(|p| p.bench.as_str()).collect::<Vec<_>>(),
        ["E2", "E1", "E1", "E1", "E1", "E1"]
    );
    assert_eq!(season.on(day(7)).plot("T1.1").unwrap().bench, "E1", "where it stood before it was moved");
    assert_eq!(readings.value(0, TrialReading::Height, day(9)), Some(22.75));
    assert!(readings.is_lost(5, day(6)) && !readings.is_lost(5, day(5)));
    assert_eq!(season.lot("L1").unwrap().next_release_basis.as_deref(), Some("trial T1: 8 g"));
}

#[test]
fn a_file_of_version_7_exports_the_same_before_and_after_and_is_not_shared_by_that() {
    assert_eq!(kinds(V7.1).len(), 32, "every kind of that version");
    assert!(V7.1.contains(r#""response_c":18.9"#) && V7.1.contains(r#""plants":6"#));
    let (_folder, path) = is_the_same_before_and_after(V7, 7);
    let mut store = Store::open(&path).unwrap();
    assert!(!store.is_shared().unwrap());
    // Which laptop it is does not matter to a file that is not shared.
    store.sit([7; 16], "ann");
    store.append(&[entry(220, "2026-10-12T07:00:00-04:00", r#""kind":"water","level":4"#)]).unwrap();
    assert_eq!((store.own_lines().unwrap(), store.laptops().unwrap()), (0, Vec::new()));
    let id = store.load().unwrap().1[0].id;
    assert_eq!(store.who(id).unwrap(), None);
    store.close().unwrap();
    let client = Connection::open(&path).unwrap();
    for table in ["stream", "own", "log"] {
        let sql = format!("SELECT count(*) FROM {table}");
        assert_eq!(client.query_row(&sql, [], |row| row.get::<_, i64>(0)).unwrap(), 0, "{table}");
    }
}
