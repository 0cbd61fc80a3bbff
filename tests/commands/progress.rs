//! How far long work got, on standard error of a terminal, and Ctrl-C at every moment of it.

use crate::{Laptop, SMALL, Said, arg, water};
use benchwalk::commands::ProgressLine;
use benchwalk::commands::progress::Stops;
use benchwalk::store::NEWEST;
use std::cell::{Cell, RefCell};
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::time::Duration;

/// A season file of version 1, as `tests/store` has it.
const OLD: &[u8] = include_bytes!("../store/v1.db");

/// What was drawn, where it can be read again.
#[derive(Clone, Default)]
struct Drawn(Rc<RefCell<Vec<u8>>>);

impl Write for Drawn {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.borrow_mut().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Ctrl-C after so many looks.
struct After(Cell<usize>);

impl Stops for After {
    fn asked(&self) -> Option<i32> {
        self.0.set(self.0.get().saturating_sub(1));
        (self.0.get() == 0).then_some(2)
    }
}

const NEVER: usize = usize::MAX;

/// Runs a command in a terminal whose clock goes on by `pace` at every look, with Ctrl-C after so many looks; gives what was drawn
/// too.
fn run(laptop: &Laptop, arguments: &[&str], pace: Duration, stop: usize) -> (Said, String) {
    let (drawn, looks) = (Drawn::default(), Cell::new(0_u32));
    let time = move || {
        looks.set(looks.get() + 1);
        pace * looks.get()
    };
    let line = ProgressLine::new(Some(Box::new(drawn.clone())), time, After(Cell::new(stop)));
    let said = laptop.run_on(arguments, "", line);
    let bytes = drawn.0.borrow().clone();
    (said, String::from_utf8(bytes).unwrap())
}

/// What a command draws where every look takes half a second.
pub(crate) fn drawn(laptop: &Laptop, arguments: &[&str]) -> String {
    let (said, drawn) = run(laptop, arguments, Duration::from_millis(500), NEVER);
    assert_eq!(said.code, 0, "{said:?}");
    drawn
}

/// A journal of the small season with so many water scores.
fn journal(scores: u32) -> String {
    let lines = (0..scores).map(|n| {
        let at = format!("\"at\":\"2026-09-{:02}T{:02}:{:02}:00-04:00\"", 1 + n / 600, 7 + n % 600 / 60, n % 60);
        water(11, 3).replace("\"at\":\"2026-10-11T07:10:00-04:00\"", &at) + "\n"
    });
    SMALL.to_owned() + &lines.collect::<String>()
}

/// A laptop with the season of `benches` scores, and a journal of 300 more.
fn laptop() -> (Laptop, PathBuf) {
    let laptop = Laptop::new();
    laptop.file("first.jsonl", &journal(200));
    laptop.done(&["import", arg(&laptop.path("first.jsonl"))]);
    let more = laptop.file("more.jsonl", &journal(500));
    (laptop, more)
}

/// Names of all files below a folder.
fn files(folder: &Path) -> Vec<String> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        if entry.path().is_dir() {
            names.extend(files(&entry.path()));
        } else {
            names.push(entry.file_name().to_string_lossy().into_owned());
        }
    }
    names.sort();
    names
}

/// The rows drawn over one another, without the blanks that clear what was longer.
fn rows(drawn: &str) -> Vec<String> {
    drawn.split('\r').map(|row| row.trim_end().to_owned()).filter(|row| !row.is_empty()).collect()
}

#[test]
fn an_import_shows_its_count_after_half_a_second_and_clears_it() {
    let (laptop, more) = laptop();
    let (said, drawn) = run(&laptop, &["--ascii", "import", arg(&more)], Duration::from_millis(200), NEVER);
    assert_eq!((said.code, said.err.as_str()), (0, ""));
    assert_eq!(said.out, "[root]/data/season.db: 300 records imported, 204 already there\n");
    let rows = rows(&drawn);
    for wanted in [
        "Importing: 256 of 505 lines  ##########---------- 50%",
        "Importing: 448 of 505 lines  #################--- 88%",
    ] {
        assert!(rows.iter().any(|row| row == wanted), "{wanted}\n{}", rows.join("\n"));
    }
    // The first look at the third tick of the clock after it began.
    assert_eq!(rows[0], "Reading the season: 128 of 200 entries  ############-------- 64%");
    assert!(drawn.ends_with('\r') && !drawn.contains('\n'), "{drawn:?}");
    assert!(rows.iter().all(|row| row.len() < 80), "{rows:?}");
}

#[test]
fn quick_work_and_a_stream_that_is_no_terminal_show_nothing() {
    let (laptop, more) = laptop();
    let (said, drawn) = run(&laptop, &["import", arg(&more)], Duration::from_micros(100), NEVER);
    assert_eq!((said.code, said.err.as_str(), drawn.as_str()), (0, "", ""));
    // Whatever the clock says: no terminal, no count.
    for arguments in [&["export"][..], &["review", "--format", "json"], &["backup", arg(&laptop.path("copy.db"))]] {
        let time = || Duration::from_hours(1);
        let said = laptop.run_on(arguments, "", ProgressLine::new(None, time, After(Cell::new(NEVER))));
        assert_eq!((said.code, said.err.as_str()), (0, ""), "{arguments:?}");
        assert!(!said.out.contains('\r'), "{arguments:?}");
    }
}

#[test]
fn every_long_command_says_what_it_does() {
    let (laptop, _) = laptop();
    let (html, copy) = (["review", "--format", "html"], laptop.path("copy.db"));
    for (arguments, wanted) in [
        (&["export"][..], &["Checking the season file", "Reading the season: ", "Writing the journal: "][..]),
        (&html, &["Reading the season: ", "Working out the warnings"]),
        (&["season"], &["Reading the season: "]),
        (&["sheet", "--tomorrow"], &["Reading the season: ", "Working out the warnings"]),
        (&["backup", arg(&copy)], &["Reading the season: ", "Checking the season file", "Copying the season file"]),
    ] {
        let (said, drawn) = run(&laptop, arguments, Duration::from_secs(1), NEVER);
        assert_eq!((said.code, said.err.as_str()), (0, ""), "{arguments:?}");
        let rows = rows(&drawn);
        for wanted in wanted {
            assert!(rows.iter().any(|row| row.starts_with(wanted)), "{arguments:?}: {wanted}\n{}", rows.join("\n"));
        }
        // What is printed is the same as without a terminal.
        if arguments[0] != "backup" {
            assert_eq!(laptop.done(arguments), said.out, "{arguments:?}");
        }
    }
}

const STOPPED: &str = "benchwalk: stopped by Ctrl-C; no record was changed, no file is half written\n";

/// Runs a command with Ctrl-C after one look, two, three and so on, until it comes through; gives how often it was stopped.
fn stopped_everywhere(laptop: &Laptop, arguments: &[&str], unchanged: impl Fn(usize)) -> usize {
    for looks in 1..10_000 {
        let (said, drawn) = run(laptop, arguments, Duration::from_secs(1), looks);
        assert!(drawn.is_empty() || drawn.ends_with('\r'), "{looks}: {drawn:?}");
        if said.code == 0 {
            return looks - 1;
        }
        assert_eq!((said.code, said.out.as_str(), said.err.as_str()), (130, "", STOPPED), "after {looks} looks");
        let left: Vec<String> =
            files(laptop.root.path()).into_iter().filter(|name| name.starts_with(".benchwalk")).collect();
        assert!(left.is_empty(), "after {looks} looks: {left:?}");
        unchanged(looks);
    }
    panic!("{arguments:?} never comes through");
}

#[test]
fn an_import_that_is_stopped_leaves_the_season_as_it_was() {
    let (laptop, more) = laptop();
    let season = laptop.path("data/season.db");
    let before = laptop.done(&["export"]);
    let times = stopped_everywhere(&laptop, &["import", arg(&more)], |looks| {
        assert!(laptop.done(&["export"]) == before, "after {looks} looks");
    });
    assert!(times > 6, "{times}");
    assert_eq!(
        laptop.done(&["import", arg(&more)]).split(": ").nth(1),
        Some("nothing new, 504 records already there\n")
    );
    // A season that is begun by it: there is none until there is all of it.
    fs::remove_file(&season).unwrap();
    let times = stopped_everywhere(&laptop, &["import", arg(&more)], |looks| {
        assert!(!season.exists(), "after {looks} looks");
    });
    assert!(times > 6, "{times}");
}

#[test]
fn a_file_that_is_written_is_whole_or_absent() {
    let (laptop, _) = laptop();
    let (journal, copy) = (laptop.path("out.jsonl"), laptop.path("copy.db"));
    let times = stopped_everywhere(&laptop, &["export", arg(&journal)], |looks| {
        assert!(!journal.exists(), "after {looks} looks");
    });
    assert!(times > 5 && fs::read_to_string(&journal).unwrap() == laptop.done(&["export"]), "{times}");
    let times = stopped_everywhere(&laptop, &["backup", arg(&copy)], |looks| {
        assert!(!copy.exists(), "after {looks} looks");
    });
    assert!(times > 2 && laptop.done(&["--season", arg(&copy), "export"]) == laptop.done(&["export"]), "{times}");
    // What is printed is printed whole or not at all.
    assert!(stopped_everywhere(&laptop, &["review"], |_| ()) > 1);
}

#[test]
fn a_file_of_version_1_is_brought_here_whole_or_stays_as_it_is() {
    let laptop = Laptop::new();
    let season = laptop.path("data/season.db");
    fs::create_dir_all(season.parent().unwrap()).unwrap();
    fs::write(&season, OLD).unwrap();
    let file = || rusqlite::Connection::open(&season).unwrap();
    let version = || file().query_row("PRAGMA user_version", [], |row| row.get::<_, i64>(0)).unwrap();
    let more = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 300)
                INSERT INTO entry (id, bench, day, at, offset, \"by\", kind, a)
                SELECT randomblob(16), bench, day, at, offset, \"by\", kind, a
                FROM n, (SELECT * FROM entry WHERE kind = 1 LIMIT 1)";
    file().execute_batch(more).unwrap();
    let before = laptop.done(&["export"]);
    let empty = laptop.file("empty.jsonl", "{\"type\":\"journal\",\"version\":2}\n");
    let half = Cell::new(0);
    stopped_everywhere(&laptop, &["import", arg(&empty)], |looks| {
        let is_old = version() == 1;
        assert!(is_old || version() == NEWEST, "after {looks} looks: {}", version());
        assert!(laptop.done(&["export"]) == before, "after {looks} looks");
        half.set(half.get() + u32::from(is_old));
    });
    assert!(half.get() > 20 && version() == NEWEST, "{half:?}");
    assert!(laptop.done(&["export"]) == before);
}
