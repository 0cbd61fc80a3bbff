//! The built program as a process of its own, on every system: what it reads and writes byte for byte, its exit codes, its folders,
//! and that one killed in the middle leaves a season as it was or with everything in it.

use crate::{Laptop, SMALL, arg, water};
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::time::{Duration, Instant};

/// The program in the laptop's root folder, with folders of its own there.
fn program(laptop: &Laptop, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_benchwalk"));
    command.args(arguments).current_dir(laptop.root.path()).stdin(Stdio::null());
    for (name, folder) in [
        ("HOME", "."),
        ("XDG_DATA_HOME", "local"),
        ("XDG_CONFIG_HOME", "roaming"),
        ("XDG_STATE_HOME", "state"),
        ("USERPROFILE", "."),
        ("LOCALAPPDATA", "local"),
        ("APPDATA", "roaming"),
    ] {
        command.env(name, laptop.path(folder));
    }
    command
}

fn run(laptop: &Laptop, arguments: &[&str]) -> Output {
    program(laptop, arguments).output().unwrap()
}

/// Runs a command that must succeed; what it printed, as bytes.
fn done(laptop: &Laptop, arguments: &[&str]) -> Vec<u8> {
    let ended = run(laptop, arguments);
    assert!(ended.status.success(), "{arguments:?}: {ended:?}");
    ended.stdout
}

/// Where the season is when none is named.
fn season(laptop: &Laptop) -> PathBuf {
    laptop.path(if cfg!(windows) { "local/benchwalk/data/season.db" } else { "local/benchwalk/season.db" })
}

fn names(folder: &Path) -> Vec<String> {
    fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect()
}

#[test]
fn what_is_read_and_written_is_the_same_byte_for_byte() {
    let laptop = Laptop::new();
    // Line ends as an editor on Windows leaves them, and its mark at the start of the file.
    let journal = format!("\u{feff}{SMALL}{}\n{}\n", water(10, 4), water(11, 3)).replace('\n', "\r\n");
    laptop.file("in.jsonl", &journal);
    done(&laptop, &["import", "in.jsonl"]);
    assert!(season(&laptop).is_file());
    let here = Laptop::new();
    here.done(&["import", arg(&laptop.path("in.jsonl"))]);
    let lines = |text: &[u8]| -> Vec<String> {
        // The id of a season is drawn by lot.
        String::from_utf8(text.to_vec()).unwrap().split_inclusive('\n').skip(1).map(str::to_owned).collect()
    };
    let exported = done(&laptop, &["export"]);
    assert_eq!(lines(&exported), lines(here.done(&["export"]).as_bytes()));
    assert!(!exported.contains(&b'\r'));
    done(&laptop, &["export", "out.jsonl"]);
    assert_eq!(fs::read(laptop.path("out.jsonl")).unwrap(), exported);
    for words in
        [&["review", "--on", "2026-10-12"][..], &["night", "--on", "2026-10-12"], &["limits"], &["help", "journal"]]
    {
        assert_eq!(String::from_utf8(done(&laptop, words)).unwrap(), here.done(words), "{words:?}");
    }
    done(&laptop, &["export", "--format", "csv", "tables"]);
    here.done(&["export", "--format", "csv", arg(&here.path("tables"))]);
    let mut tables = names(&laptop.path("tables"));
    tables.sort();
    assert!(!tables.is_empty());
    for table in tables {
        let read = |of: &Laptop| fs::read(of.path("tables").join(&table)).unwrap();
        assert_eq!(read(&laptop), read(&here), "{table}");
    }
}

#[test]
fn tables_with_the_line_ends_of_windows_are_read() {
    let laptop = Laptop::new();
    laptop.file("in.jsonl", SMALL);
    done(&laptop, &["import", "in.jsonl"]);
    laptop.file("benches.csv", "\u{feff}bench,house,lot,pots,area\r\nE2,East,R1,40,8\r\n\"E3\",East,R1,40,8\r\n");
    done(&laptop, &["import", "benches.csv"]);
    let exported = String::from_utf8(done(&laptop, &["export"])).unwrap();
    assert!(exported.contains(r#""bench":"E2""#) && exported.contains(r#""bench":"E3""#), "{exported}");
}

#[test]
fn the_exit_codes_and_the_streams_are_those_of_the_readme() {
    let laptop = Laptop::new();
    laptop.file("bad.jsonl", "nonsense\n");
    for (arguments, code) in [
        (&["review"][..], 1),
        (&["import", "bad.jsonl"], 1),
        (&["import", "none.jsonl"], 1),
        (&["nonsense"], 2),
        (&["-V"], 0),
    ] {
        let ended = run(&laptop, arguments);
        assert_eq!(ended.status.code(), Some(code), "{arguments:?}: {ended:?}");
        assert_eq!(
            (ended.stdout.is_empty(), ended.stderr.is_empty()),
            (code != 0, code == 0),
            "{arguments:?}: {ended:?}"
        );
    }
    // Without a terminal the screens say so.
    laptop.file("in.jsonl", SMALL);
    done(&laptop, &["import", "in.jsonl"]);
    let ended = run(&laptop, &["--by", "kt"]);
    assert_eq!(ended.status.code(), Some(1), "{ended:?}");
    assert!(String::from_utf8_lossy(&ended.stderr).contains("terminal"), "{ended:?}");
}

#[test]
fn a_reader_that_has_read_enough_is_no_failure() {
    use std::io::Read;
    let laptop = Laptop::new();
    let mut child = program(&laptop, &["man"]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    // Of more than any pipe holds.
    let mut output = child.stdout.take().unwrap();
    output.read_exact(&mut [0; 10]).unwrap();
    drop(output);
    let ended = child.wait_with_output().unwrap();
    assert_eq!((ended.status.code(), ended.stderr.as_slice()), (Some(0), &b""[..]), "{ended:?}");
}

/// Windows keeps a path of more than 260 characters only where it is spelled out.
#[test]
fn a_season_may_lie_deep() {
    let laptop = Laptop::new();
    let mut deep = laptop.root.path().to_owned();
    while deep.to_str().unwrap().len() < 400 {
        deep.push("a-folder-with-a-long-name-in-a-folder-with-a-long-name");
    }
    fs::create_dir_all(&deep).unwrap();
    fs::write(deep.join("in.jsonl"), format!("{SMALL}{}\n", water(10, 4))).unwrap();
    let at = |name: &str| deep.join(name).to_str().unwrap().to_owned();
    let season = at("season.db");
    done(&laptop, &["--season", &season, "import", &at("in.jsonl")]);
    laptop.file("more.jsonl", &format!("{SMALL}{}\n", water(11, 3)));
    done(&laptop, &["--season", &season, "import", "more.jsonl"]);
    done(&laptop, &["--season", &season, "backup", &at("copy.db")]);
    let exported = done(&laptop, &["--season", &season, "export"]);
    assert_eq!(done(&laptop, &["--season", &at("copy.db"), "export"]), exported);
    assert_eq!(String::from_utf8(exported).unwrap().matches(r#""type":"entry""#).count(), 2);
    let mut left = names(&deep);
    left.sort();
    assert_eq!(left, ["copy.db", "in.jsonl", "season.db"]);
}

/// A season under such a name would be found by nobody, or be written to a device.
#[cfg(windows)]
#[test]
fn names_that_windows_keeps_for_itself_are_refused() {
    let laptop = Laptop::new();
    laptop.file("in.jsonl", SMALL);
    done(&laptop, &["import", "in.jsonl"]);
    for name in ["NUL", "con.db", "COM1.jsonl", "season.", "season ", "season.db:hidden", "a?b"] {
        for arguments in [
            &["export", name][..],
            &["backup", name],
            &["import", name],
            &["--season", name, "import", "in.jsonl"],
            &["--season", name, "demo", "--no-open"],
            &["--season", name, "review"],
            &["--season", name, "share", "on", "--folder", "local"],
        ] {
            let ended = run(&laptop, arguments);
            assert_eq!(ended.status.code(), Some(1), "{arguments:?}: {ended:?}");
            assert!(String::from_utf8_lossy(&ended.stderr).contains("Windows"), "{arguments:?}: {ended:?}");
        }
    }
    let mut left = names(laptop.root.path());
    left.sort();
    assert_eq!(left, ["in.jsonl", "local"]);
}

/// A journal that takes a while: water of both days on E1, minute by minute.
fn long_journal() -> String {
    let mut text = SMALL.to_owned();
    for n in 0..LONG {
        let (day, hour, minute) = (1 + n / 1200, 2 + n % 1200 / 60, n % 60);
        writeln!(
            text,
            r#"{{"type":"entry","at":"2026-09-{day:02}T{hour:02}:{minute:02}:00-04:00","by":"kt","bench":"E1","kind":"water","level":3}}"#
        )
        .unwrap();
    }
    text
}

/// Entries of the long journal.
const LONG: usize = 5_000;

fn entries(laptop: &Laptop) -> usize {
    let exported = String::from_utf8(done(laptop, &["export"])).unwrap();
    exported.matches(r#""type":"entry""#).count()
}

#[expect(clippy::disallowed_methods, reason = "the kill comes at any time of the writing, which no event marks")]
fn killed_after(mut child: Child, most: Duration) {
    std::thread::sleep(most);
    // One that is done cannot be killed any more.
    child.kill().ok();
    child.wait().unwrap();
}

#[test]
fn killed_while_it_imports_the_season_is_as_it_was_or_whole() {
    let laptop = Laptop::new();
    laptop.file("small.jsonl", &format!("{SMALL}{}\n", water(10, 4)));
    laptop.file("long.jsonl", &long_journal());
    let quiet =
        |arguments: &[&str]| program(&laptop, arguments).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
    let fresh = || {
        for ending in ["", "-wal", "-shm"] {
            fs::remove_file(season(&laptop).with_file_name(format!("season.db{ending}"))).ok();
        }
        done(&laptop, &["import", "small.jsonl"]);
    };
    fresh();
    let start = Instant::now();
    done(&laptop, &["import", "long.jsonl"]);
    let whole = start.elapsed();
    assert_eq!(entries(&laptop), LONG + 1);
    let mut kept = [0, 0];
    for part in 1..=8 {
        fresh();
        killed_after(quiet(&["import", "long.jsonl"]), whole * part / 10);
        let there = entries(&laptop);
        assert!(there == 1 || there == LONG + 1, "{there} entries after a kill at {part} tenths");
        kept[usize::from(there > 1)] += 1;
        done(&laptop, &["import", "long.jsonl"]);
        assert_eq!(entries(&laptop), LONG + 1);
        let left: Vec<String> = names(season(&laptop).parent().unwrap());
        assert!(!left.iter().any(|name| name.starts_with(".benchwalk-")), "{left:?}");
    }
    assert!(kept[0] > 0, "none was killed on the way: {kept:?}");
}

#[test]
fn killed_while_it_makes_a_season_there_is_none_or_a_whole_one() {
    let laptop = Laptop::new();
    laptop.file("long.jsonl", &long_journal());
    let start = Instant::now();
    done(&laptop, &["import", "long.jsonl"]);
    let whole = start.elapsed();
    let mut none = 0;
    for part in 1..=6 {
        fs::remove_file(season(&laptop)).unwrap();
        let child = program(&laptop, &["import", "long.jsonl"]).stdout(Stdio::null()).stderr(Stdio::null()).spawn();
        killed_after(child.unwrap(), whole * part / 8);
        if season(&laptop).exists() {
            assert_eq!(entries(&laptop), LONG);
        } else {
            none += 1;
            done(&laptop, &["import", "long.jsonl"]);
        }
        let left = names(season(&laptop).parent().unwrap());
        assert!(!left.iter().any(|name| name.starts_with(".benchwalk-")), "{left:?}");
    }
    assert!(none > 0, "none was killed on the way");
}
