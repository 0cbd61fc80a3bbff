//! Any bytes as cells of a season file that is otherwise one of ours: it opens or is refused, what is read of it goes out as a
//! clean journal, and what can be salvaged does too.
//!
//! Input: pieces of a table, a column, a row and a value, a byte each for the first three, then the type of the value and its
//! length.
#![no_main]

use benchwalk::characters::hidden;
use benchwalk::journal::{self, Faults};
use benchwalk::limits::Limits;
use benchwalk::record::{Entry, Line, Plan};
use benchwalk::season::Season;
use benchwalk::store::Store;
use benchwalk::warnings::assess_all;
use libfuzzer_sys::fuzz_target;
use rusqlite::config::DbConfig;
use rusqlite::types::Value;
use rusqlite::{Connection, params};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;
use uuid::Uuid;

#[path = "../../common/season/mod.rs"]
#[allow(dead_code)]
mod season;

/// Where the file of a run lies, and the bytes of a good one.
static GOOD: LazyLock<(PathBuf, Vec<u8>, Vec<(String, Vec<String>)>)> = LazyLock::new(|| {
    let memory = Path::new("/dev/shm");
    let place = if memory.is_dir() { memory.to_owned() } else { std::env::temp_dir() };
    let folder = tempfile::tempdir_in(place).expect("a folder").keep();
    let path = folder.join("season.db");
    let lines = journal::read(&season::journal()).expect("the journal is read");
    let (store, _) = Store::create_with(&path, &lines, None).expect("a season is made");
    store.close().expect("it is closed");
    let bytes = fs::read(&path).expect("it is read");
    let file = Connection::open(&path).expect("it opens");
    let mut tables = file.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").expect("tables");
    let names: Vec<String> = tables.query_map([], |row| row.get(0)).expect("tables").flatten().collect();
    let columns = |table: &String| {
        let mut columns = file.prepare("SELECT name FROM pragma_table_info(?1)").expect("columns");
        let names = columns.query_map([table], |row| row.get(0)).expect("columns").flatten().collect();
        (table.clone(), names)
    };
    let tables = names.iter().map(columns).collect();
    (path, bytes, tables)
});

/// Puts the cells of the input into the file; how many were taken.
fn put(path: &Path, mut data: &[u8]) -> usize {
    let file = Connection::open(path).expect("it opens");
    // Triggers and checks refuse changes; what another program does to a file they do not stop.
    file.set_db_config(DbConfig::SQLITE_DBCONFIG_ENABLE_TRIGGER, false).expect("it is set");
    file.execute_batch("PRAGMA ignore_check_constraints = ON; PRAGMA foreign_keys = OFF; PRAGMA synchronous = OFF;")
        .expect("it is set");
    let mut taken = 0;
    for _ in 0..8 {
        let [table, column, row, kind, length, rest @ ..] = data else { break };
        let (table, columns) = &GOOD.2[usize::from(*table) % GOOD.2.len()];
        let Some(column) = columns.get(usize::from(*column) % columns.len().max(1)) else { break };
        let (bytes, rest) = rest.split_at(usize::from(*length).min(rest.len()));
        data = rest;
        let mut eight = [0; 8];
        for (to, from) in eight.iter_mut().zip(bytes) {
            *to = *from;
        }
        let value = match kind % 5 {
            0 => Value::Null,
            1 => Value::Integer(i64::from_le_bytes(eight)),
            2 => Value::Real(f64::from_le_bytes(eight)),
            3 => Value::Text(String::from_utf8_lossy(bytes).into_owned()),
            _ => Value::Blob(bytes.to_vec()),
        };
        let sql = format!(
            "UPDATE \"{table}\" SET \"{column}\" = ?1 WHERE rowid = \
             (SELECT rowid FROM \"{table}\" LIMIT 1 OFFSET (SELECT ?2 % max(count(*), 1) FROM \"{table}\"))"
        );
        taken += file.execute(&sql, params![value, row]).unwrap_or(0);
    }
    file.close().expect("it is closed");
    taken
}

/// What was read goes out as a journal without hidden characters. It is read again, but for values that another program put out of
/// their range: those are named with the line they stand in, and the words of the import, as the journal is written.
fn goes_out(season: Option<Uuid>, plan: &Plan, entries: &[Entry]) {
    let (text, told) = journal::write_judged(season, plan, entries);
    assert!(!text.chars().any(|c| c != '\n' && hidden(c)), "not clean: {text:?}");
    let refused = journal::read(&text).err().unwrap_or_default();
    for fault in refused.iter() {
        let said = fault.to_string();
        assert!(!said.chars().any(hidden), "not clean: {said:?}");
    }
    let lines = |faults: &Faults| faults.iter().map(|fault| fault.line).collect::<BTreeSet<_>>();
    assert_eq!(lines(&told), lines(&refused), "told {told:?}\nrefused {refused:?}\n{text}");
}

fuzz_target!(|data: &[u8]| {
    let (path, bytes, _) = &*GOOD;
    fs::write(path, bytes).expect("it is written");
    if put(path, data) == 0 {
        return;
    }
    let Ok(store) = Store::open_read_only(path) else { return };
    let loaded = store.load();
    let salvaged = store.salvage();
    let id = store.season_id().ok().flatten();
    drop(store.close());
    if let Ok((plan, entries)) = loaded {
        goes_out(id, &plan, &entries);
        let season = Season::new(plan, entries);
        if let Some(last) = season.entries().iter().map(Entry::day).max() {
            drop(assess_all(&season, last, &Limits::default()));
        }
    }
    if let Ok(salvaged) = salvaged {
        let entries: Vec<Entry> = salvaged.entries.into_iter().map(|(_, entry)| entry).collect();
        goes_out(salvaged.season, &salvaged.plan, &entries);
        drop(entries.into_iter().map(Line::Entry).collect::<Vec<_>>());
    }
});
