//! Power loss while walking: what a disk may hold at any moment opens whole and holds what was shown as saved.
//!
//! One walk is recorded call by call. From it the states of the disk are built as the power may leave them: only what was
//! synced is sure; of the rest there may be any part, torn in sectors, in any order. The name of a file is sure once its
//! folder was synced. As a control the same is done with every second sync left out: then saves must be found lost, or the
//! check would find nothing at all.

use crate::harness::{
    Campaign, DEMO_DAY, Saves, count, demo, have_strace, judge_in_place, strace_words, together, walk,
};
use crate::rng::Rng;
use crate::terminal::{Out, Pty, Start};
use std::collections::BTreeMap;
use std::num::NonZero;
use std::path::Path;
use std::time::Duration;

/// What a sector of a disk holds; it is written whole or not at all.
const SECTOR: usize = 512;

/// What happened, in the order it came to its end.
enum Event {
    Screen(Vec<u8>),
    Create(String),
    Change(String, Op),
    Sync(String),
    SyncFolder,
    Unlink(String),
}

/// A change of a file that is not yet sure.
#[derive(Clone)]
enum Op {
    Write(usize, Vec<u8>),
    Size(usize),
}

impl Op {
    fn apply(&self, data: &mut Vec<u8>) {
        match self {
            Self::Write(at, bytes) => {
                let end = at + bytes.len();
                if data.len() < end {
                    data.resize(end, 0);
                }
                data[*at..end].copy_from_slice(bytes);
            }
            Self::Size(size) => data.resize(*size, 0),
        }
    }

    /// Any sectors of it.
    fn torn(&self, rng: &mut Rng) -> Vec<Self> {
        match self {
            Self::Write(at, bytes) if rng.chance(0.6) => {
                let sectors = bytes.chunks(SECTOR).enumerate().filter(|_| rng.chance(0.5));
                sectors.map(|(n, sector)| Self::Write(at + n * SECTOR, sector.to_vec())).collect()
            }
            whole => vec![whole.clone()],
        }
    }
}

/// A file on the disk.
#[derive(Clone, Default)]
struct Kept {
    /// What was synced.
    sure: Vec<u8>,
    /// What was changed since.
    open: Vec<Op>,
    /// Its name was synced.
    named: bool,
    /// It was removed.
    gone: bool,
}

/// Walks in the demo under strace, and gives what it did to the season file and the screen.
fn recorded(folder: &Path) -> (Vec<Event>, Vec<u8>) {
    let file = folder.join("s.db");
    demo(&file);
    let before = std::fs::read(&file).unwrap();
    let trace = folder.join("trace");
    let calls = "trace=openat,pwrite64,write,fsync,fdatasync,ftruncate,close,unlink";
    let words = strace_words(&trace, &["-xx", "-s", "1000000", "-e", calls]);
    let words: Vec<&str> = words.iter().map(|word| word.to_str().unwrap()).collect();
    let start = Start { folder: Some(folder), prefix: &words, ..Start::default() };
    let mut pty = walk(start, &file, DEMO_DAY, "pl");
    pty.send("w").wait("the card", |text| text.contains('['));
    type_scores(&mut pty, count(16, 40));
    pty.send("\u{1b}").wait("the Round", |text| text.starts_with("Round"));
    pty.send("q");
    pty.ended();
    let trace = String::from_utf8(std::fs::read(trace).unwrap()).unwrap();
    (events(&trace, folder.to_str().unwrap()), before)
}

/// Types so many scores and notes, and waits for each to be answered.
fn type_scores(pty: &mut Pty, keys: usize) {
    let mut last = 0;
    for n in 0..keys {
        let text = pty.text();
        last = last % 5 + 1;
        let key = if text.contains("[heights") {
            "\r".to_owned()
        } else if n % 9 == 8 {
            format!("nWet corner {n}\r")
        } else {
            last.to_string()
        };
        pty.send(&key);
        pty.comes(Duration::from_secs(10), |now| now != text && !now.contains("Enter save"));
        pty.settle(Duration::from_millis(60));
    }
}

/// The events of a trace: of files whose name begins with `s.db` in the folder, and of standard output.
fn events(trace: &str, folder: &str) -> Vec<Event> {
    let (mut events, mut open) = (Vec::new(), BTreeMap::<i64, String>::new());
    for (name, arguments, result) in calls(trace) {
        let first = arguments.split(',').next().and_then(|fd| fd.trim().parse::<i64>().ok());
        let text = || text(&arguments);
        let inside = |path: &[u8]| {
            let path = String::from_utf8_lossy(path).into_owned();
            path.strip_prefix(folder)?.strip_prefix('/').filter(|name| name.starts_with("s.db")).map(str::to_owned)
        };
        let of_first = first.and_then(|fd| open.get(&fd).cloned());
        match (name.as_str(), of_first) {
            ("openat", _) => {
                let path = text();
                if path == folder.as_bytes() {
                    open.insert(result, ".".to_owned());
                } else if let Some(name) = inside(&path) {
                    if arguments.contains("O_CREAT") {
                        events.push(Event::Create(name.clone()));
                    }
                    open.insert(result, name);
                } else {
                    open.remove(&result);
                }
            }
            ("close", _) => {
                first.and_then(|fd| open.remove(&fd));
            }
            ("write", None) if first == Some(1) => events.push(Event::Screen(text())),
            ("pwrite64", Some(name)) => {
                let at = arguments.rsplit(',').next().and_then(|at| at.trim().parse().ok()).unwrap();
                events.push(Event::Change(name, Op::Write(at, text())));
            }
            ("ftruncate", Some(name)) => {
                let size = arguments.rsplit(',').next().and_then(|size| size.trim().parse().ok()).unwrap();
                events.push(Event::Change(name, Op::Size(size)));
            }
            ("fsync" | "fdatasync", Some(name)) if name == "." => events.push(Event::SyncFolder),
            ("fsync" | "fdatasync", Some(name)) => events.push(Event::Sync(name)),
            ("unlink", _) => events.extend(inside(&text()).map(Event::Unlink)),
            _ => {}
        }
    }
    events
}

/// The calls that succeeded: name, arguments, result. A call that another thread's broke in two is put together again.
fn calls(trace: &str) -> Vec<(String, String, i64)> {
    let (mut calls, mut begun) = (Vec::new(), BTreeMap::<&str, &str>::new());
    for line in trace.lines() {
        let Some((pid, rest)) = line.split_once(' ') else { continue };
        let rest = rest.trim_start();
        if let Some(start) = rest.strip_suffix(" <unfinished ...>") {
            begun.insert(pid, start);
            continue;
        }
        let whole = match rest.strip_prefix("<... ").and_then(|resumed| resumed.split_once(" resumed>")) {
            Some((_, end)) => format!("{}{end}", begun.remove(pid).unwrap_or_default()),
            None => rest.to_owned(),
        };
        let Some((name, rest)) = whole.split_once('(') else { continue };
        let Some((arguments, result)) = rest.rsplit_once('=') else { continue };
        let result = result.split_whitespace().next().and_then(|result| result.parse::<i64>().ok());
        let arguments = arguments.trim_end().trim_end_matches(')');
        if let Some(result) = result.filter(|result| *result >= 0) {
            calls.push((name.to_owned(), arguments.to_owned(), result));
        }
    }
    calls
}

/// The bytes of the first text among arguments: `"\x1b\x5b"`.
fn text(arguments: &str) -> Vec<u8> {
    let quoted = arguments.split('"').nth(1).unwrap_or_default();
    quoted.split("\\x").skip(1).map(|hex| u8::from_str_radix(hex, 16).unwrap()).collect()
}

/// One disk as it may be; the `worst` has only what is sure.
fn disk<'a>(files: &'a BTreeMap<String, Kept>, worst: bool, rng: &mut Rng) -> BTreeMap<&'a str, Vec<u8>> {
    let mut disk = BTreeMap::new();
    for (name, kept) in files {
        if name.ends_with("-shm") || !(kept.named || (!worst && rng.chance(0.5))) {
            continue;
        }
        let mut data = kept.sure.clone();
        if !worst {
            let most = if rng.chance(0.5) { kept.open.len() } else { rng.below(kept.open.len() + 1) };
            let some = rng.chance(0.5);
            let mut ops: Vec<&Op> = kept.open[..most].iter().filter(|_| !some || rng.chance(0.7)).collect();
            if rng.chance(0.3) {
                rng.shuffle(&mut ops);
            }
            ops.iter().flat_map(|op| op.torn(rng)).for_each(|part| part.apply(&mut data));
        }
        if !(kept.gone && !worst && rng.chance(0.5)) {
            disk.insert(name.as_str(), data);
        }
    }
    disk
}

/// What one event makes of the files.
fn happen(files: &mut BTreeMap<String, Kept>, event: &Event) {
    match event {
        Event::Screen(_) => {}
        Event::Create(name) => {
            if files.get(name).is_none_or(|kept| kept.gone) {
                files.insert(name.clone(), Kept::default());
            }
        }
        Event::Change(name, op) => {
            if let Some(kept) = files.get_mut(name) {
                kept.open.push(op.clone());
            }
        }
        Event::Sync(name) => {
            if let Some(kept) = files.get_mut(name) {
                let ops = std::mem::take(&mut kept.open);
                for op in &ops {
                    op.apply(&mut kept.sure);
                }
            }
        }
        Event::SyncFolder => files.values_mut().for_each(|kept| kept.named = true),
        Event::Unlink(name) => {
            if let Some(kept) = files.get_mut(name) {
                kept.gone = true;
            }
        }
    }
}

/// The states tried after each event: so many at a save newly shown, so many at every `stride`th other event.
#[derive(Clone, Copy)]
struct Plan {
    at_saves: usize,
    elsewhere: usize,
    stride: usize,
}

/// Tries the states of this lane, every other one of two; gives name and what did not hold, and how many saves were shown.
fn lane(
    (events, before): (&[&Event], &[u8]),
    plan: Plan,
    campaign: &Campaign,
    lane: usize,
) -> (Vec<(String, Vec<String>)>, usize) {
    let here = tempfile::tempdir().unwrap();
    let mut out = Out::new(NonZero::new(24).unwrap(), NonZero::new(80).unwrap());
    let saves = Saves::default();
    let theirs = saves.clone();
    out.observe(move |screen| theirs.frame(screen));
    let first = Kept { sure: before.to_vec(), named: true, ..Kept::default() };
    let mut files = BTreeMap::from([("s.db".to_owned(), first)]);
    let mut found = Vec::new();
    let mut changes = 0;
    for (at, event) in events.iter().enumerate() {
        let shown = saves.shown();
        happen(&mut files, event);
        let states = if let Event::Screen(bytes) = event {
            out.feed(bytes);
            if saves.shown() > shown { plan.at_saves } else { 0 }
        } else {
            changes += 1;
            if changes % plan.stride == 0 { plan.elsewhere } else { 0 }
        };
        for n in (0..states).filter(|n| (at + n) % 2 == lane) {
            let disk = disk(&files, n == 0, &mut campaign.rng(at * 64 + n));
            for entry in std::fs::read_dir(here.path()).unwrap() {
                std::fs::remove_file(entry.unwrap().path()).unwrap();
            }
            for (name, data) in disk {
                std::fs::write(here.path().join(name), data).unwrap();
            }
            let judged = judge_in_place(&here.path().join("s.db"));
            let mut why = judged.bad;
            why.extend(saves.missing(&judged.rows, "pl"));
            let sure = if n == 0 { ", only what was synced" } else { "" };
            found.push((format!("power lost after event {at} of {}, state {n}{sure}", events.len()), why));
        }
    }
    (found, saves.shown())
}

#[test]
fn whatever_a_power_loss_leaves_of_the_disk_holds_what_was_shown_as_saved() {
    if !have_strace() {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let (events, before) = recorded(folder.path());
    let changes = events.iter().filter(|event| !matches!(event, Event::Screen(_))).count();
    let mut campaign = Campaign::new("power losses");
    // At full count as many states as make 4,514 and more; in short about 150.
    let plan = Plan {
        at_saves: count(3, 4),
        elsewhere: count(1, (4514 / changes + 1).min(60)),
        stride: count((changes / 50).max(1), 1),
    };
    let all: Vec<&Event> = events.iter().collect();
    let tried = together(&[0, 1], |_, n| lane((&all, &before), plan, &campaign, *n));
    let shown = tried[0].1;
    for (what, why) in tried.iter().flat_map(|(found, _)| found) {
        campaign.case(what, why);
    }
    println!("power losses: {shown} saves were shown in {} events", all.len());
    if shown < count(8, 20) {
        campaign.fail(format!("only {shown} saves were shown: this says too little"));
    }
    // The control: without every second sync of a file.
    let mut syncs = 0;
    let half: Vec<&Event> = events
        .iter()
        .filter(|event| {
            syncs += usize::from(matches!(event, Event::Sync(_)));
            !matches!(event, Event::Sync(_)) || syncs % 2 == 0
        })
        .collect();
    let plan = Plan { at_saves: count(1, 4), elsewhere: 1, stride: count(changes, 3) };
    let control = together(&[0, 1], |_, n| lane((&half, &before), plan, &campaign, *n).0);
    let bad = control.iter().flatten().filter(|(_, why)| !why.is_empty()).count();
    println!(
        "power losses, control without half of the syncs: {bad} of {} found bad",
        control.iter().flatten().count()
    );
    if bad == 0 {
        campaign.fail("without half of the syncs nothing was found lost: the check finds nothing");
    }
    campaign.end();
}
