//! A long import in a terminal: its count, and a way to stop it, on the command line and on the screens.

use crate::large::large;
use crate::terminal::{Pty, Start, query};
use benchwalk::journal;
use tempfile::TempDir;

const ENTRIES: &str = "SELECT count(*) FROM entry";

/// A folder with journals of the same season: one of few entries, one of so many that a quick machine has time to show how far it is.
/// With it how many thousand lines that one has.
fn journals() -> (TempDir, usize) {
    let (folder, crop) = (tempfile::tempdir().unwrap(), large(450, 110, 7));
    for (name, entries) in [("few.jsonl", &crop.entries[..200]), ("many.jsonl", &crop.entries)] {
        std::fs::write(folder.path().join(name), journal::write(None, &crop.plan, entries)).unwrap();
    }
    let lines = crop.plan.lines().len() + crop.entries.len();
    (folder, lines / 1000)
}

/// What a save that was cut short may leave beside the season.
fn left(folder: &TempDir) -> Vec<String> {
    let names = std::fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap());
    names.filter(|name| name.starts_with(".benchwalk") || name.starts_with("season.db-")).collect()
}

#[test]
fn a_long_import_shows_how_far_it_is_and_ctrl_c_stops_it_with_nothing_half_done() {
    let (folder, thousand) = journals();
    let of = format!(" of {thousand},");
    let season = folder.path().join("season.db");
    let start = || Start { folder: Some(folder.path()), ..Start::default() };
    let mut first = Pty::start_as(start(), &["import", "--season", "season.db", "few.jsonl"]);
    assert_eq!(first.ended().0.exit_code(), 0, "{}", first.text());
    assert_eq!(query(&season, ENTRIES), ["200"]);

    let mut pty = Pty::start_as(start(), &["import", "--season", "season.db", "many.jsonl"]);
    pty.wait("the count", |text| {
        let shows = |line: &str| line.starts_with("Importing: ") && line.contains(" lines  ━") && line.contains(&of);
        text.lines().any(shows)
    });
    pty.send("\u{3}");
    let (status, _) = pty.ended();
    assert_eq!(status.exit_code(), 130);
    pty.wait("what became of it", |text| {
        text.contains("benchwalk: stopped by Ctrl-C; no record was changed, no file is half written")
            && !text.contains("Importing")
    });
    assert_eq!(query(&season, ENTRIES), ["200"]);
    assert_eq!(query(&season, "PRAGMA integrity_check"), ["ok"]);
    assert!(left(&folder).is_empty(), "{:?}", left(&folder));
}

#[test]
fn on_the_screens_a_long_import_shows_how_far_it_is_and_esc_stops_it() {
    let (folder, _) = journals();
    let season = folder.path().join("season.db");
    let start = Start { folder: Some(folder.path()), ..Start::default() };
    let mut pty = Pty::start_as(start, &["--season", "season.db", "--by", "kt"]);
    pty.wait("the first page", |text| text.contains("There is no season file yet"));
    let import = |pty: &mut Pty, name: &str| {
        pty.send("i");
        pty.wait("the line", |text| text.contains("The path of the file"));
        pty.send(&format!("{name}\r"));
    };
    import(&mut pty, "many.jsonl");
    pty.wait("the count", |text| text.contains("Importing: ") && text.contains("%. Esc stops it."));
    pty.send("\u{1b}");
    pty.wait("what became of it", |text| {
        text.contains("stopped; no record was changed") && !text.contains("Esc stops")
    });
    assert!(!season.exists() && left(&folder).is_empty(), "{:?}", left(&folder));
    // The page goes on as if nothing had been asked.
    import(&mut pty, "few.jsonl");
    pty.wait("the Round", |text| text.starts_with("Round") && text.contains("walked "));
    assert_eq!(query(&season, ENTRIES), ["200"]);
    pty.send("\u{11}");
    assert_eq!(pty.ended().0.exit_code(), 0);
}
