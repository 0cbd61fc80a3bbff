//! A long import in a terminal: its count, and Ctrl-C.

use crate::large::large;
use crate::terminal::{Pty, Start, query};
use benchwalk::journal;

const ENTRIES: &str = "SELECT count(*) FROM entry";

#[test]
fn a_long_import_shows_how_far_it_is_and_ctrl_c_stops_it_with_nothing_half_done() {
    let folder = tempfile::tempdir().unwrap();
    let (season, crop) = (folder.path().join("season.db"), large(150, 110, 7));
    let few = &crop.entries[..200];
    for (name, entries) in [("few.jsonl", few), ("many.jsonl", &crop.entries)] {
        std::fs::write(folder.path().join(name), journal::write(None, &crop.plan, entries)).unwrap();
    }
    let start = || Start { folder: Some(folder.path()), ..Start::default() };
    let mut first = Pty::start_as(start(), &["import", "--season", "season.db", "few.jsonl"]);
    assert_eq!(first.ended().0.exit_code(), 0, "{}", first.text());
    assert_eq!(query(&season, ENTRIES), ["200"]);

    let mut pty = Pty::start_as(start(), &["import", "--season", "season.db", "many.jsonl"]);
    pty.wait("the count", |text| {
        let shows =
            |line: &str| line.starts_with("Importing: ") && line.contains(" lines  ━") && line.contains(" of 28,");
        text.lines().any(shows)
    });
    pty.send("\u{3}");
    let (status, _) = pty.ended();
    assert_eq!(status.exit_code(), 130);
    pty.wait("what became of it", |text| {
        text.contains("benchwalk: stopped by Ctrl-C: no records were changed, and no file is half written")
            && !text.contains("Importing")
    });
    assert_eq!(query(&season, ENTRIES), ["200"]);
    assert_eq!(query(&season, "PRAGMA integrity_check"), ["ok"]);
    let names = std::fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap());
    let left: Vec<String> =
        names.filter(|name| name.starts_with(".benchwalk") || name.starts_with("season.db-")).collect();
    assert!(left.is_empty(), "{left:?}");
}
