//! Odd names, and files that are no files: names that SQLite, the shell or another system reads as its own; FIFOs, devices,
//! sockets, folders, dangling links; input without end. Each is bounded in time and memory, does what it says or says why not, and
//! leaves nothing beside.

use crate::harness::{Campaign, DEMO_DAY, Done, Run, demo, demo_journal, is_full, judge};
use crate::mutants::{controls, patience};
use crate::terminal::program;
use std::collections::BTreeSet;
use std::ffi::{OsStr, OsString};
use std::fs;
use std::os::unix::ffi::OsStringExt;
use std::os::unix::fs::symlink;
use std::os::unix::net::UnixListener;
use std::path::Path;
use std::process::Command;
use std::sync::OnceLock;

/// The season that is read or copied; no odd name is this one.
const SOURCE: &str = "source.db";
/// What a name in the form of an address would lead to: another season.
const DECOY: &str = "b.db";

/// A gigabyte of address space: what is read without end ends there.
const BOUNDED: [&str; 2] = ["prlimit", "--as=1000000000"];

/// Names a file may have, and some it may not.
fn names() -> Vec<OsString> {
    let mut names: Vec<OsString> = [
        "file:b.db",
        "file:b.db?mode=memory",
        "file:///tmp/b.db",
        ":memory:",
        "?",
        "#",
        "b.db#1",
        "%41",
        "%00.db",
        "it's.db",
        "\"q\".db",
        "two\nlines.db",
        "-b.db",
        "--help",
        " a b ",
        "..db",
        ".hidden",
        "👩\u{200d}🌾.db",
        "日本.db",
        "con",
        "nul.db",
        "*",
        "$HOME",
        "~",
        "a\\b.db",
        "\u{1b}[31mred.db",
        "\u{9b}31m.db",
        "\u{202e}bd.db",
        "x.db-wal",
        "x.db-journal",
        "x.new-1",
    ]
    .into_iter()
    .map(OsString::from)
    .collect();
    names.push(OsString::from_vec(b"\xff\xfe.db".to_vec()));
    names.push("l".repeat(240).into());
    names.push("l".repeat(255).into());
    names.push("l".repeat(256).into());
    names.push("l/".repeat(2_100).into());
    names.push("".into());
    names.push(".".into());
    names.push("/".into());
    names.push("b.db/".into());
    names
}

/// What is done with a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Deed {
    Demo,
    Backup,
    Export,
    ImportInto,
    Review,
    ImportFrom,
    Limits,
}

const DEEDS: [Deed; 7] =
    [Deed::Demo, Deed::Backup, Deed::Export, Deed::ImportInto, Deed::Review, Deed::ImportFrom, Deed::Limits];

impl Deed {
    /// The arguments: names that begin with a dash are given so that they are no options.
    fn arguments(self, name: &OsStr) -> Vec<OsString> {
        let option = |option: &str, value: &OsStr| {
            let mut all = OsString::from(option);
            all.push("=");
            all.push(value);
            all
        };
        let season = option("--season", if self.names_season() { name } else { SOURCE.as_ref() });
        let on = option("--on", DEMO_DAY.as_ref());
        match self {
            Self::Demo => vec![season, "demo".into(), "--no-open".into()],
            Self::Backup => vec![season, "backup".into(), "--".into(), name.into()],
            Self::Export => vec![season, "export".into(), "--".into(), name.into()],
            Self::ImportInto => vec![season, "import".into(), "-".into()],
            Self::Review => vec![season, on, "review".into()],
            Self::ImportFrom => vec![season, "import".into(), "--".into(), name.into()],
            Self::Limits => vec![season, on, option("--limits", name), "review".into()],
        }
    }

    fn names_season(self) -> bool {
        matches!(self, Self::Demo | Self::ImportInto | Self::Review)
    }

    /// It makes a new file of that name.
    fn makes(self) -> bool {
        matches!(self, Self::Demo | Self::Backup | Self::Export | Self::ImportInto)
    }
}

/// Names in a folder, but for those of the program's own folders.
fn listed(folder: &Path) -> BTreeSet<OsString> {
    let names = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name());
    names.filter(|name| !["state", "data", "config"].iter().any(|own| name == own)).collect()
}

/// The program may say a name, but not pass on what would turn the terminal, and it must say more than that.
fn said_badly(done: &Done, name: &OsStr) -> Vec<String> {
    let mut why = done.unsound();
    let said = done.err();
    if controls(said.as_bytes()) || done.out().contains('\u{1b}') {
        why.push(format!("control characters in the message: {said:.300?}"));
    }
    let words = said.replace(&*name.to_string_lossy(), "");
    let letters = words.replace("benchwalk", "").chars().filter(|c| c.is_alphabetic()).count();
    if done.code != Some(0) && letters < 15 {
        why.push(format!("failed without a reason: {said:.300?}"));
    }
    why
}

/// A season without entries, of another site.
fn decoy() -> &'static [u8] {
    static MADE: OnceLock<Vec<u8>> = OnceLock::new();
    MADE.get_or_init(|| {
        let folder = tempfile::tempdir().unwrap();
        let journal = "{\"type\":\"journal\",\"version\":2}\n{\"type\":\"site\",\"name\":\"Decoy\",\"latitude\":43.2,\
                       \"longitude\":-73.1,\"time_zone\":\"America/New_York\",\"units\":\"us\"}\n";
        let made = Run { stdin: journal.as_bytes(), ..Run::at(folder.path()) }.go(&["--season", DECOY, "import", "-"]);
        assert_eq!(made.code, Some(0), "{}", made.err());
        fs::read(folder.path().join(DECOY)).unwrap()
    })
}

/// Does it with a name, in a folder of its own.
fn name_faults(deed: Deed, name: &OsStr) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    let here = folder.path();
    demo(&here.join(SOURCE));
    fs::write(here.join(DECOY), decoy()).unwrap();
    let path = here.join(name);
    // What is to be read is put there first, where a file can have that name.
    let there = !deed.makes() && !name.is_empty() && !path.exists() && {
        match deed {
            Deed::Review => fs::copy(here.join(SOURCE), &path).is_ok(),
            Deed::ImportFrom => fs::write(&path, demo_journal()).is_ok(),
            _ => fs::write(&path, "").is_ok(),
        }
    };
    let before = listed(here);
    let stdin = if deed == Deed::ImportInto { demo_journal().as_bytes() } else { b"" };
    let deadline = patience();
    let done = Run { prefix: &BOUNDED.map(OsStr::new), stdin, deadline, ..Run::at(here) }.go(&deed.arguments(name));
    let mut why = said_badly(&done, name);
    let new: BTreeSet<OsString> = listed(here).difference(&before).cloned().collect();
    if deed.makes() && done.code == Some(0) {
        // Of a name with folders in it the first one is what is new here.
        let first = Path::new(name).components().next().map(|first| first.as_os_str().to_owned());
        let last_year = (deed == Deed::Demo).then(|| demo_of_last_year(Path::new(name))).flatten();
        if new != first.into_iter().chain(last_year).collect() {
            why.push(format!("said to be made, and these are new: {new:?}"));
        }
        why.extend(content_faults(deed, here, &path));
    } else if !new.is_empty() {
        why.push(format!("left beside: {new:?}"));
    }
    if there && done.code != Some(0) {
        why.push(format!("a good file of that name was not taken: {:.300}", done.err()));
    }
    if deed == Deed::Review && done.code == Some(0) && (!there || !done.out().contains("Quillby Rise")) {
        why.push("another season was read".to_owned());
    }
    if judge(&here.join(DECOY)).rows.len() + judge(&here.join(SOURCE)).rows.len() != demo_entries() {
        why.push("another file was changed".to_owned());
    }
    why
}

/// The name of last year's season beside a demo, where both are new in this folder itself.
fn demo_of_last_year(demo: &Path) -> Option<OsString> {
    let mut name = demo.file_stem().filter(|_| demo.components().count() == 1)?.to_owned();
    name.push("-last-year.db");
    Some(name)
}

fn demo_entries() -> usize {
    demo_journal().lines().filter(|line| line.contains("\"kind\":")).count()
}

/// What was made is the whole season.
fn content_faults(deed: Deed, here: &Path, path: &Path) -> Vec<String> {
    let whole = if deed == Deed::Export {
        fs::read_to_string(path).is_ok_and(|text| text == demo_journal())
    } else {
        // Under a plain name no reader can take it for something else.
        let plain = here.join("plain.db");
        fs::copy(path, &plain).is_ok() && {
            let judged = judge(&plain);
            judged.bad.is_empty() && judged.rows.len() == demo_entries()
        }
    };
    if whole { Vec::new() } else { vec!["said to be made, and does not hold the season".to_owned()] }
}

#[test]
fn a_file_of_any_name_is_that_file_or_refused_with_a_reason() {
    let names = names();
    let mut campaign = Campaign::new("odd file names");
    let mut tries: Vec<(Deed, &OsStr)> = Vec::new();
    for (number, name) in names.iter().enumerate() {
        let deeds = if is_full() { DEEDS.len() } else { 1 };
        // In turn; the first names, which SQLite would take for its own, are tried in every way.
        let deeds = if number < 2 { DEEDS.len() } else { deeds };
        tries.extend((0..deeds).map(|n| (DEEDS[(number + n) % DEEDS.len()], name.as_os_str())));
    }
    campaign.each(
        &tries,
        |(deed, name)| format!("{deed:?} of {:.40?}", name.to_string_lossy()),
        |_, (deed, name)| name_faults(*deed, name),
    );
    campaign.end();
}

/// Puts what is no file at a path.
type Put = fn(&Path);

/// Files that are none.
fn specials() -> Vec<(&'static str, Put)> {
    let special: Vec<(&str, Put)> = vec![
        ("a FIFO", |path| {
            assert!(Command::new("mkfifo").arg(path).status().unwrap().success());
        }),
        ("/dev/zero", |path| symlink("/dev/zero", path).unwrap()),
        ("/dev/full", |path| symlink("/dev/full", path).unwrap()),
        ("/dev/null", |path| symlink("/dev/null", path).unwrap()),
        ("/dev/stdin", |path| symlink("/dev/stdin", path).unwrap()),
        ("/dev/stdout", |path| symlink("/dev/stdout", path).unwrap()),
        ("a socket", |path| drop(UnixListener::bind(path).unwrap())),
        ("a folder", |path| fs::create_dir(path).unwrap()),
        ("a dangling link", |path| symlink("nowhere", path).unwrap()),
        ("a link to itself", |path| symlink(path.file_name().unwrap(), path).unwrap()),
        ("a sparse terabyte", |path| fs::File::create(path).unwrap().set_len(1 << 40).unwrap()),
    ];
    special
}

/// Does it with what is no file; it must be refused.
fn special_faults(deed: Deed, put: Put) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    let here = folder.path();
    demo(&here.join(SOURCE));
    let name = OsStr::new("odd");
    put(&here.join(name));
    let before = listed(here);
    let stdin = if deed == Deed::ImportInto { demo_journal().as_bytes() } else { b"" };
    let run = Run { prefix: &BOUNDED.map(OsStr::new), stdin, deadline: patience(), ..Run::at(here) };
    let done = run.go(&deed.arguments(name));
    let mut why = said_badly(&done, name);
    if done.code == Some(0) {
        why.push("taken for a file".to_owned());
    }
    let after = listed(here);
    if after != before {
        why.push(format!("before {before:?}, after {after:?}"));
    }
    why
}

#[test]
fn what_is_no_file_is_refused_at_once() {
    let specials = specials();
    let mut campaign = Campaign::new("special files");
    let mut tries: Vec<(&str, Put, Deed)> = Vec::new();
    for (number, (name, put)) in specials.iter().enumerate() {
        let deeds = if is_full() || number == 0 { DEEDS.len() } else { 1 };
        tries.extend((0..deeds).map(|n| (*name, *put, DEEDS[(number + n) % DEEDS.len()])));
    }
    campaign.each(
        &tries,
        |(name, _, deed)| format!("{deed:?} of {name}"),
        |_, (_, put, deed)| special_faults(*deed, *put),
    );
    campaign.end();
}

/// Input without end, as a shell's left side of a pipe, and what reads it.
const ENDLESS: [(&str, &str); 6] = [
    ("yes", "--season new.db import -"),
    ("cat /dev/zero", "--season new.db import -"),
    ("yes '{\"type\":\"journal\",\"version\":2}'", "--season source.db import -"),
    (
        "yes '{\"type\":\"entry\",\"at\":\"2026-10-10T07:10:00-04:00\",\"by\":\"kt\",\"bench\":\"M1\",\"kind\":\"water\",\"level\":3}'",
        "--season source.db import -",
    ),
    ("yes", "--season source.db import /dev/stdin"),
    ("yes 'bench,house,lot'", "--season source.db --limits /dev/stdin review"),
];

#[test]
fn input_without_end_is_refused_in_bounds() {
    let mut campaign = Campaign::new("endless input");
    campaign.each(
        &ENDLESS,
        |(from, to)| format!("{from:.30} | {to}"),
        |_, (from, to)| {
            let folder = tempfile::tempdir().unwrap();
            let here = folder.path();
            demo(&here.join(SOURCE));
            let before = listed(here);
            let shell = format!("{from} | {} '{}' {to}", BOUNDED.join(" "), program().display());
            let words = ["sh", "-c", &shell].map(OsString::from);
            let done = Run { deadline: patience(), ..Run::at(here) }.go_words(&words);
            let mut why = said_badly(&done, OsStr::new(""));
            if done.code != Some(1) {
                why.push(format!("exit {:?}", done.code));
            }
            if done.stderr.len() > 100_000 {
                why.push(format!("{} bytes of messages", done.stderr.len()));
            }
            let after = listed(here);
            if after != before {
                why.push(format!("before {before:?}, after {after:?}"));
            }
            why
        },
    );
    campaign.end();
}
