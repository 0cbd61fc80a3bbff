//! The season file: what goes in comes out, what is in stays in, and what is not a season is left as it is.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test that cannot go on stops there"
)]

mod backup;
mod errors;
mod frozen;
mod hostile;
mod killed;
mod older;
mod once;
mod reading;
// Windows lets nobody remove, rename or replace a file that SQLite has open.
#[cfg(unix)]
mod replaced;
mod round;
#[path = "../common/strategies/mod.rs"]
mod strategies;
mod together;
mod unsound;
mod views;

use benchwalk::journal;
use benchwalk::record::Line;
use benchwalk::store::Store;
use std::path::PathBuf;
use tempfile::TempDir;

/// A season of two benches and one lot, as a journal.
const SMALL: &str = r#"{"type":"journal","version":1}
{"type":"site","name":"Thistlecot","latitude":44.10,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"R1","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}
{"type":"bench","bench":"E1","house":"East","order":1,"area_m2":12.0}
{"type":"bench","bench":"E2","house":"East","order":2}
{"type":"placement","bench":"E1","lot":"R1","pots":80,"from":"2026-08-17"}
{"type":"order","lot":"R1","date":"2026-11-27","pots":200}
"#;

/// The lines of a small season.
fn small() -> Vec<Line> {
    journal::read(SMALL).unwrap()
}

/// The line of one entry on E1.
fn entry(id: u8, at: &str, rest: &str) -> Line {
    let text = format!(
        r#"{{"type":"entry","id":"0199a000-0000-7000-8000-0000000000{id:02x}","at":"{at}","by":"kt","bench":"E1",{rest}}}"#
    );
    benchwalk::record::codec::decode(&text, benchwalk::record::codec::VERSION).unwrap()
}

/// A water score on E1 of a day in October 2026, 07:10 in New York; the day is also the id.
fn water(day: u8, level: u8) -> Line {
    entry(day, &format!("2026-10-{day:02}T07:10:00-04:00"), &format!(r#""kind":"water","level":{level}"#))
}

/// A folder of its own, and a new season file in it with the small season.
fn season() -> (TempDir, PathBuf, Store) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("season.db");
    let mut store = Store::create(&path).unwrap();
    store.append(&small()).unwrap();
    (folder, path, store)
}
