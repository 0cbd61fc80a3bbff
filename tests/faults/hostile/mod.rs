//! Season files made to harm: views that never end, triggers that swallow what is saved, values out of every range, text with
//! escape sequences and markup. Whatever is done with them, nothing hangs, panics or eats the memory, nothing of them reaches the
//! terminal raw or runs in a page, and nothing is shown as saved that is not in the file.
//!
//! Where the file's triggers had to be taken off for a change, the file is tried once as it then is and once with all of them put
//! back, so that by its tables and triggers it is one of ours.

mod cases;

use crate::damaged::change;
use crate::harness::{Campaign, DEMO_DAY, demo, is_full, judge};
use crate::mutants::{BOUNDED, ask, controls, message_faults, patience};
use crate::screens::{Screens, given_back, raw_controls};
use crate::terminal::is_round;
use cases::Case;
use rusqlite::Connection;
use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};

/// What is done with a file: the arguments of a command, or none for the screens. `backup` gets the name of its copy.
const WAYS: [&[&str]; 11] = [
    &["export"],
    &["export", "--format", "csv"],
    &["review"],
    &["review", "--format", "html"],
    &["review", "--format", "json"],
    &["season"],
    &["season", "--format", "html"],
    &["sheet"],
    &["sheet", "--format", "html"],
    &["backup"],
    &[],
];

/// Ways tried in the short form for each file.
const SHORT: usize = 2;

/// A file made to harm, where it lies.
struct Made {
    case: Case,
    path: PathBuf,
    triggers_back: bool,
}

/// Makes every file; one that cannot be made is a failure.
fn make_all(folder: &Path) -> Vec<Made> {
    let whole = folder.join("whole.db");
    demo(&whole);
    let triggers: Vec<(String, String)> = {
        let file = Connection::open(&whole).unwrap();
        let mut rows = file.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").unwrap();
        rows.query_map([], |row| Ok((row.get(0)?, row.get(1)?))).unwrap().map(Result::unwrap).collect()
    };
    assert!(triggers.len() > 40, "the file has lost its triggers");
    let off = triggers.iter().map(|(name, _)| format!("DROP TRIGGER {name};")).collect::<Vec<_>>().concat();
    let bare = folder.join("bare.db");
    fs::copy(&whole, &bare).unwrap();
    change(&bare, &off, "SELECT count(*) = 0 FROM sqlite_schema WHERE type = 'trigger'");
    let on = triggers.iter().map(|(_, sql)| format!("{sql};")).collect::<Vec<_>>().concat();
    let all = cases::all();
    assert_eq!(all.len(), 34);
    let twice = cases::all().into_iter().filter(|case| case.without_triggers && case.may_have_triggers_back());
    let all = all.into_iter().map(|case| (case, false)).chain(twice.map(|case| (case, true)));
    all.enumerate()
        .map(|(number, (case, triggers_back))| {
            let path = folder.join(format!("{number}.db"));
            fs::copy(if case.without_triggers { &bare } else { &whole }, &path).unwrap();
            let after = if triggers_back { on.as_str() } else { "" };
            change(&path, &[case.sql.as_str(), after].concat(), &case.made);
            Made { case, path, triggers_back }
        })
        .collect()
}

#[test]
fn a_file_made_to_harm_harms_nobody() {
    let folder = tempfile::tempdir().unwrap();
    let files = make_all(folder.path());
    let mut tries: Vec<(&Made, &[&str])> = Vec::new();
    for (number, made) in files.iter().enumerate() {
        // In the short form a file with its triggers taken off is tried once so, and once with them put back.
        let has_twin = made.case.without_triggers && made.case.may_have_triggers_back();
        let ways = if is_full() { WAYS.len() } else { SHORT - usize::from(has_twin) };
        // In turn, so that over all files every way is tried.
        tries.extend((0..ways).map(|n| (made, WAYS[(number * SHORT + n) % WAYS.len()])));
    }
    let name = |(made, way): &(&Made, &[&str])| {
        let back = if made.triggers_back { ", triggers put back" } else { "" };
        let way = if way.is_empty() { "screens".to_owned() } else { way.join(" ") };
        format!("{}{back}; {way}", made.case.name)
    };
    let mut campaign = Campaign::new("hostile files");
    campaign.each(&tries, name, |_, (made, way)| {
        let folder = tempfile::tempdir().unwrap();
        let season = folder.path().join("s.db");
        fs::copy(&made.path, &season).unwrap();
        if way.is_empty() { screens(folder.path(), &season, &made.case) } else { command(folder.path(), &season, way) }
    });
    campaign.end();
}

fn command(folder: &Path, season: &Path, way: &[&str]) -> Vec<String> {
    let copy = folder.join("copy.db");
    let mut all: Vec<&OsStr> = vec!["--on".as_ref(), DEMO_DAY.as_ref()];
    all.extend(way.iter().map(OsStr::new));
    if way == ["backup"] {
        all.push(copy.as_os_str());
    }
    let done = ask(folder, season, &all, b"");
    let mut why = message_faults(&done);
    let out = done.out();
    // The rows of a table for a spreadsheet end in both.
    if controls(out.replace("\r\n", "\n").as_bytes()) {
        let at = out.find(|c: char| c.is_control() && !"\r\n\t".contains(c)).unwrap_or(0);
        let near: String = out.chars().skip(out[..at].chars().count().saturating_sub(40)).take(90).collect();
        why.push(format!("control characters in the output: {near:?}"));
    }
    if way.contains(&"html") && ["<script>alert", "<img src=x", "<b>\u{1b}"].iter().any(|markup| out.contains(markup)) {
        why.push("markup of the season in the page".to_owned());
    }
    why
}

/// Opens the screens, walks a little, looks at the pages, and leaves.
fn screens(folder: &Path, season: &Path, case: &Case) -> Vec<String> {
    let mut why = Vec::new();
    let mut screens = Screens::open(folder, season, "hz", &BOUNDED);
    screens.pty.comes(patience() / 3, is_round);
    for key in ["w", "3", "5", "\u{1b}", "e", "\r", "c", "\t", "r", "s", "\t", "\t", "g", "r"] {
        screens.press(key);
    }
    if screens.is_running() {
        let frames = screens.pty.frames();
        screens.pty.resize(90, 25);
        if !screens.more_frames(frames, patience() / 3) && screens.is_running() {
            why.push(format!("the screen stands still:\n{}", screens.pty.text()));
        }
    }
    // What is not saved puts leaving off once.
    for key in ["\u{1b}", "\u{1b}", "\u{1b}", "q", "q", "q"] {
        if screens.is_running() {
            screens.press(key);
        }
    }
    match screens.code(patience()) {
        None => why.push(format!("does not leave on q:\n{}", screens.pty.text())),
        Some(0 | 1) => {}
        Some(code) => why.push(format!("exit {code}")),
    }
    let raw = screens.pty.raw();
    if let Some(at) = raw.find("panicked") {
        why.push(format!("panics: {:.300}", &raw[at..]));
    }
    why.extend(raw_controls(&raw).into_iter().map(|what| format!("{what} reached the terminal")));
    why.extend(given_back(&raw));
    if !case.no_entries {
        why.extend(screens.saves.missing(&judge(season).rows, "hz"));
    }
    why
}
