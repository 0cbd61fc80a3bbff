//! Every command cut at the system calls that change something: killed at the call (SIGKILL), or given an error of the disk.
//!
//! After a cut the season file is as before or whole and is sound, no target is half written, a success is a success, and the
//! same command then does its work and takes what the cut one left beside the files.

use crate::harness::{
    Campaign, Done, call, demo, demo_journal, have_strace, is_full, judge, judge_in_place, run, traced,
};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicUsize, Ordering};

/// The calls that change something, or that it rests on.
const CALLS: &[&str] = &[
    "openat",
    "write",
    "pwrite64",
    "fsync",
    "fdatasync",
    "ftruncate",
    "rename",
    "renameat",
    "renameat2",
    "link",
    "linkat",
    "unlink",
    "mkdir",
    "fchmod",
    "fcntl",
    "copy_file_range",
];

/// The way of a cut that ends the program.
const KILLED: &str = "killed";

/// What a command leaves, given how it ended and that it may not have come to its end.
type Check = fn(&Path, &Done, bool) -> Vec<String>;

/// A command, what is there before it, and what is right after it.
struct Case {
    name: &'static str,
    setup: fn(&Path),
    arguments: &'static [&'static str],
    check: Check,
    /// The exit codes of the same command once more.
    again: &'static [i32],
    /// Names that may lie in the folder after it.
    leaves: &'static [&'static str],
}

const CASES: &[Case] = &[
    Case {
        name: "import into a new file",
        setup: |_| (),
        arguments: &["--season", "s.db", "import", "all.jsonl"],
        check: |folder, done, cut| season(folder, done, cut, &[None, Some(0), whole()], whole()),
        again: &[0],
        leaves: &["s.db"],
    },
    Case {
        name: "import into a season",
        setup: with_half,
        arguments: &["--season", "s.db", "import", "all.jsonl"],
        check: |folder, done, cut| season(folder, done, cut, &[half(), whole()], whole()),
        again: &[0],
        leaves: &["s.db"],
    },
    Case {
        name: "demo",
        setup: |_| (),
        arguments: &["--season", "s.db", "demo", "--no-open"],
        check: |folder, done, cut| season(folder, done, cut, &[None, Some(0), whole()], whole()),
        // A demo that fails leaves the empty file, and never writes over one that is there.
        again: &[0, 1],
        leaves: &["s.db"],
    },
    Case {
        name: "backup",
        setup: with_demo,
        arguments: &["--season", "s.db", "backup", "b.db"],
        check: backup,
        again: &[0, 1],
        leaves: &["s.db", "b.db"],
    },
    Case {
        name: "export",
        setup: with_demo,
        arguments: &["--season", "s.db", "export", "out.jsonl"],
        check: |folder, done, cut| exported(folder, done, cut, None),
        again: &[0],
        leaves: &["s.db", "out.jsonl"],
    },
    Case {
        name: "export over a file",
        setup: |folder| {
            with_demo(folder);
            fs::write(folder.join("out.jsonl"), "precious\n").unwrap();
        },
        arguments: &["--season", "s.db", "export", "out.jsonl"],
        check: |folder, done, cut| exported(folder, done, cut, Some("precious\n")),
        again: &[1],
        leaves: &["s.db", "out.jsonl"],
    },
    Case {
        name: "a file without version brought up",
        setup: version_zero,
        arguments: &["--season", "s.db", "import", "all.jsonl"],
        check: |folder, done, cut| season(folder, done, cut, &[Some(0), whole()], whole()),
        again: &[0],
        leaves: &["s.db"],
    },
    Case {
        name: "a file of version 1 brought up",
        setup: version_one,
        arguments: &["--season", "s.db", "import", "v1.jsonl"],
        check: brought_up,
        again: &[0],
        // Where the first copy could not be read back a second one is made beside it.
        leaves: &["s.db", "s.v1.db", "s.v1-2.db"],
    },
    Case {
        // Nothing is new to the season, but the copy of the day is made before.
        name: "copy of the day",
        setup: with_demo,
        arguments: &["--season", "s.db", "import", "all.jsonl"],
        check: |folder, done, cut| season(folder, done, cut, &[whole()], whole()),
        again: &[0],
        leaves: &["s.db"],
    },
    Case {
        name: "restore",
        setup: |folder| {
            with_demo(folder);
            demo(&folder.join("2026-10-13.db"));
        },
        arguments: &["--season", "s.db", "restore", "2026-10-13.db"],
        check: restored,
        again: &[0],
        leaves: &["s.db", "2026-10-13.db"],
    },
    Case {
        name: "review",
        setup: with_demo,
        arguments: &["--season", "s.db", "--on", "2026-10-14", "review"],
        check: |folder, done, cut| season(folder, done, cut, &[whole()], whole()),
        again: &[0],
        leaves: &["s.db"],
    },
];

/// Entries of the file of version 1.
const OF_VERSION_1: usize = 37;

fn entries(journal: &str) -> usize {
    journal.lines().filter(|line| line.contains("\"type\":\"entry\"")).count()
}

fn whole() -> Option<usize> {
    Some(entries(demo_journal()))
}

/// The demo with every other entry, and without those that name another.
fn half_journal() -> String {
    let kept = demo_journal().lines().filter(|line| !line.contains("\"kind\":\"strike\"")).enumerate();
    let kept = kept.filter(|(n, line)| (!line.contains("\"type\":\"entry\"") || n % 2 == 1) && !line.starts_with('#'));
    let text: Vec<&str> = kept.map(|(_, line)| line).collect();
    text.join("\n").replacen(",\"ends\":true", "", 1) + "\n"
}

fn half() -> Option<usize> {
    Some(entries(&half_journal()))
}

fn with_demo(folder: &Path) {
    demo(&folder.join("s.db"));
}

fn with_half(folder: &Path) {
    static MADE: OnceLock<Vec<u8>> = OnceLock::new();
    let bytes = MADE.get_or_init(|| {
        let own = tempfile::tempdir().unwrap();
        fs::write(own.path().join("half.jsonl"), half_journal()).unwrap();
        let done = run(own.path(), &["--season", "half.db", "import", "half.jsonl"]);
        assert_eq!(done.code, Some(0), "{}", done.err());
        fs::read(own.path().join("half.db")).unwrap()
    });
    fs::write(folder.join("s.db"), bytes).unwrap();
}

/// A file that says it is a season and holds nothing.
fn version_zero(folder: &Path) {
    let connection = rusqlite::Connection::open(folder.join("s.db")).unwrap();
    connection.execute_batch("PRAGMA application_id = 1113017419; CREATE TABLE x (y); DROP TABLE x;").unwrap();
}

fn version_one(folder: &Path) {
    let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/store");
    fs::copy(kept.join("v1.db"), folder.join("s.db")).unwrap();
    fs::copy(kept.join("v1.jsonl"), folder.join("v1.jsonl")).unwrap();
}

/// The season file has one of these counts of entries (`None`: is not there), and the last of them after a success.
fn season(folder: &Path, done: &Done, cut: bool, counts: &[Option<usize>], after: Option<usize>) -> Vec<String> {
    let file = folder.join("s.db");
    let succeeded = !cut || done.code == Some(0);
    if !file.exists() {
        let fine = counts.contains(&None) && !succeeded;
        return if fine { vec![] } else { vec!["the season file is not there".to_owned()] };
    }
    let mut judged = judge(&file);
    if counts.contains(&Some(0)) && judged.bad.iter().all(|why| why.contains("no such table")) {
        judged.bad.clear();
    }
    let found = Some(judged.rows.len());
    if !counts.contains(&found) {
        judged.bad.push(format!("{found:?} entries, not one of {counts:?}"));
    }
    if succeeded && found != after {
        judged.bad.push(format!("a success, but {found:?} entries, not {after:?}"));
    }
    for copy in files(&folder.join("data")).into_iter().filter(|path| is_dated(path)) {
        let kept = judge_in_place(&copy);
        judged.bad.extend(kept.bad);
        if !counts.contains(&Some(kept.rows.len())) {
            judged.bad.push(format!("the copy of the day has {} entries", kept.rows.len()));
        }
    }
    judged.bad
}

/// All files below a folder.
fn files(folder: &Path) -> Vec<PathBuf> {
    let Ok(there) = fs::read_dir(folder) else { return Vec::new() };
    let paths = there.map(|entry| entry.unwrap().path());
    paths.flat_map(|path| if path.is_dir() { files(&path) } else { vec![path] }).collect()
}

/// `2026-10-14.db`.
fn is_dated(path: &Path) -> bool {
    let name = path.file_stem().unwrap().to_str().unwrap();
    path.extension().is_some_and(|ending| ending == "db") && name.parse::<chrono::NaiveDate>().is_ok()
}

/// The copies that were put back beside the season.
fn put_back(folder: &Path) -> Vec<PathBuf> {
    let there = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    there
        .filter(|path| {
            path.extension().is_some_and(|ending| ending == "db")
                && !is_dated(path)
                && !path.ends_with("s.db")
                && !path.ends_with("s-last-year.db")
        })
        .collect()
}

fn restored(folder: &Path, done: &Done, cut: bool) -> Vec<String> {
    let mut why = season(folder, done, cut, &[whole()], whole());
    let copies = put_back(folder);
    for copy in &copies {
        let judged = judge_in_place(copy);
        why.extend(judged.bad);
        if Some(judged.rows.len()) != whole() {
            why.push(format!("{} has {} entries", copy.display(), judged.rows.len()));
        }
    }
    if done.code == Some(0) && copies.is_empty() {
        why.push("a success, but nothing was put back".to_owned());
    }
    why
}

fn backup(folder: &Path, done: &Done, cut: bool) -> Vec<String> {
    let mut why = season(folder, done, cut, &[whole()], whole());
    let copy = folder.join("b.db");
    if copy.exists() {
        let judged = judge_in_place(&copy);
        why.extend(judged.bad);
        if Some(judged.rows.len()) != whole() {
            why.push(format!("the backup has {} entries", judged.rows.len()));
        }
    } else if done.code == Some(0) {
        why.push("a success, but no backup".to_owned());
    }
    why
}

fn exported(folder: &Path, done: &Done, cut: bool, before: Option<&str>) -> Vec<String> {
    let mut why = season(folder, done, cut, &[whole()], whole());
    let text = fs::read_to_string(folder.join("out.jsonl")).ok();
    let is_whole = text.as_deref() == Some(demo_journal());
    if !is_whole && text.as_deref() != before {
        why.push(format!("the export is half written: {} bytes", text.map_or(0, |text| text.len())));
    }
    if done.code == Some(0) && !is_whole {
        why.push("a success, but no export".to_owned());
    }
    why
}

fn brought_up(folder: &Path, done: &Done, cut: bool) -> Vec<String> {
    let mut why = season(folder, done, cut, &[Some(OF_VERSION_1)], Some(OF_VERSION_1));
    for copy in ["s.v1.db", "s.v1-2.db"].map(|name| folder.join(name)).iter().filter(|copy| copy.exists()) {
        let judged = judge(copy);
        why.extend(judged.bad);
        if judged.rows.len() != OF_VERSION_1 {
            why.push(format!("the copy of the older file has {} entries", judged.rows.len()));
        }
    }
    why
}

/// One cut.
struct Cut {
    case: &'static Case,
    call: String,
    nth: usize,
    way: (&'static str, &'static str),
}

/// A folder with what the case starts from.
fn fresh(case: &Case) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("all.jsonl"), demo_journal()).unwrap();
    (case.setup)(folder.path());
    folder
}

/// The calls of a command that can be cut: how often each is made, without those of the loader, which finds the libraries.
fn calls_of(case: &Case) -> BTreeMap<String, Vec<usize>> {
    let folder = fresh(case);
    let (done, trace) = traced(folder.path(), &["-e", &format!("trace={}", known())], case.arguments);
    let why = (case.check)(folder.path(), &done, true);
    assert!(why.is_empty(), "{} without a cut: {why:?}", case.name);
    let mut counted: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    let mut calls: BTreeMap<String, BTreeSet<usize>> = BTreeMap::new();
    for line in trace.lines() {
        let Some((pid, name)) = call(line) else { continue };
        // strace counts the calls of each thread by themselves.
        let nth = counted.entry((pid, name)).or_default();
        *nth += 1;
        if CALLS.contains(&name) && !line.contains(".so") {
            calls.entry(name.to_owned()).or_default().insert(*nth);
        }
    }
    calls.into_iter().map(|(name, nths)| (name, nths.into_iter().collect())).collect()
}

/// The calls this strace knows, as it wants them listed: one that a machine does not have is passed over by `?`.
fn known() -> String {
    CALLS.iter().map(|name| format!("?{name}")).collect::<Vec<_>>().join(",")
}

/// At most so many of them, spread evenly from the first to the last.
fn spread(of: &[usize], most: usize) -> BTreeSet<usize> {
    if of.len() <= most {
        return of.iter().copied().collect();
    }
    (0..most).map(|n| of[n * (of.len() - 1) / (most - 1)]).collect()
}

/// Cuts one command once, and tries the same command again.
fn cut(cut: &Cut, struck: &AtomicUsize) -> Vec<String> {
    let folder = fresh(cut.case);
    let home = folder.path();
    let inject = format!("inject={}:{}:when={}", cut.call, cut.way.1, cut.nth);
    let (done, trace) = traced(home, &["-e", &format!("trace={}", cut.call), "-e", &inject], cut.case.arguments);
    let took_place = trace.contains("INJECTED") || trace.contains("killed by SIGKILL");
    struck.fetch_add(usize::from(took_place), Ordering::SeqCst);
    let mut why = if cut.way.0 == KILLED { vec![] } else { done.unsound() };
    for internal in [".new-", ".part-", ".benchwalk-", "not saved yet"] {
        if done.err().contains(internal) {
            why.push(format!("the reason reads: {}", done.err().trim()));
        }
    }
    why.extend((cut.case.check)(home, &done, true));
    // The copy of the day is made once more, or what is left of the first would be taken only tomorrow.
    for copy in files(&home.join("data")).into_iter().filter(|path| is_dated(path)) {
        fs::remove_file(copy).unwrap();
    }
    let again = run(home, cut.case.arguments);
    if !again.code.is_some_and(|code| cut.case.again.contains(&code)) {
        why.push(format!("again: code {:?}, {}", again.code, again.err().trim()));
    }
    let refused = again.code == Some(1);
    why.extend((cut.case.check)(home, &again, refused).into_iter().map(|why| format!("again: {why}")));
    // Where the command had nothing to write again, what is left goes with the next file that is written there.
    if !strays(home, cut.case).is_empty() {
        run(home, &["--season", "s.db", "export", "last.jsonl"]);
    }
    let strays = strays(home, cut.case);
    if !strays.is_empty() {
        why.push(format!("beside the files stay {strays:?}"));
    }
    why
}

/// What lies in the folder and does not belong there. The log of a season file goes with it.
fn strays(folder: &Path, case: &Case) -> Vec<String> {
    let names = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let known = ["last.jsonl", "all.jsonl", "v1.jsonl", "data", "config", "state", "s-last-year.db"];
    let back = put_back(folder);
    let belongs = |name: &String| {
        known.contains(&name.as_str())
            || case.leaves.contains(&name.as_str())
            || ["-wal", "-shm", "-journal"]
                .iter()
                .find_map(|end| name.strip_suffix(end))
                .is_some_and(|of| folder.join(of).exists())
            || (case.name == "restore" && back.contains(&folder.join(name)))
    };
    let unfinished = files(&folder.join("data")).into_iter().filter(|path| !is_dated(path));
    let unfinished = unfinished.map(|path| path.to_string_lossy().into_owned());
    names.filter(|name| !belongs(name)).chain(unfinished).collect()
}

/// Cuts every command in one way; at the short form's count eight cuts of all of them, chosen by the seed.
fn campaign(name: &'static str, way: (&'static str, &'static str), most: usize) {
    static CALLED: OnceLock<Vec<BTreeMap<String, Vec<usize>>>> = OnceLock::new();
    if !have_strace() {
        return;
    }
    let mut campaign = Campaign::new(name);
    let called = CALLED.get_or_init(|| CASES.iter().map(calls_of).collect());
    let mut cuts: Vec<Cut> = Vec::new();
    for (case, calls) in CASES.iter().zip(called) {
        for (call, nths) in calls.iter().filter(|(call, _)| way.0 == KILLED || *call != "fcntl") {
            cuts.extend(spread(nths, most).into_iter().map(|nth| Cut { case, call: call.clone(), nth, way }));
        }
    }
    if !is_full() {
        campaign.rng(0).shuffle(&mut cuts);
        cuts.truncate(8);
    }
    let struck = AtomicUsize::new(0);
    let name = |cut: &Cut| format!("{}, {} at {} number {}", cut.case.name, cut.way.0, cut.call, cut.nth);
    campaign.each(&cuts, name, |_, one| cut(one, &struck));
    let struck = struck.into_inner();
    println!("{struck} of {} cuts took place", cuts.len());
    if struck * 10 < cuts.len() * 9 {
        campaign.fail("most cuts did not take place: can strace inject here?");
    }
    campaign.end();
}

#[test]
fn killed_at_a_call_nothing_is_half_done() {
    campaign("cuts by kill", (KILLED, "signal=SIGKILL"), 14);
}

#[test]
fn without_room_at_a_call_nothing_is_half_done() {
    campaign("cuts by a full disk", ("no room", "error=ENOSPC"), 6);
}

#[test]
fn with_a_disk_error_at_a_call_nothing_is_half_done() {
    campaign("cuts by disk errors", ("disk error", "error=EIO"), 6);
}
