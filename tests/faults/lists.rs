//! Mutated lists of benches, limits files and settings: no panic, no hang, nothing written on a refusal, a clean message.

use crate::harness::{Campaign, DEMO_DAY, count, demo, judge, run};
use crate::mutants::{ask, keep, message_faults, other_breaks};
use crate::rng::Rng;
use std::ffi::OsStr;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};

const SHORT: usize = 45;
const FULL: usize = 1_500;

const CONFIG: &[u8] = b"by = \"kt\"\n";

/// Pieces put into a file: bytes that are no text, marks of CSV and TOML, nesting and names of more than any depth.
fn piece(rng: &mut Rng) -> Vec<u8> {
    const SMALL: [&[u8]; 21] = [
        b"\x00",
        b"\xff",
        b"\xef\xbb\xbf",
        b"\x1b[31m",
        "\u{202e}".as_bytes(),
        b"\"",
        b"\"\"",
        b"\n",
        b"\r",
        b",",
        b";",
        b"\t",
        b"=",
        b"[",
        b"[[",
        b"]",
        b"1e999",
        b"-1",
        b"nan",
        b"inf",
        b"'''",
    ];
    match rng.below(SMALL.len() + 7) {
        0 => b"9".repeat(40),
        1 => b"x".repeat(5_000),
        2 => b"[".repeat(3_000),
        3 => b"{".repeat(3_000),
        4 => b"a.".repeat(2_000),
        5 => b"=cmd|' /C calc'!A0".to_vec(),
        6 => b"<script>".to_vec(),
        n => SMALL[n - 7].to_vec(),
    }
}

fn mutant(text: &[u8], rng: &mut Rng) -> Vec<u8> {
    let mut data = text.to_vec();
    for _ in 0..*rng.pick(&[1, 1, 2, 8]) {
        let at = rng.below(data.len());
        match rng.below(5) {
            0 => data[at] ^= 1 << rng.below(8),
            1 => {
                let to = (at + 1 + rng.below(11)).min(data.len());
                let piece = piece(rng);
                data.splice(at..to, piece);
            }
            2 => {
                let piece = piece(rng);
                data.splice(at..at, piece);
            }
            3 => {
                let to = (at + 1 + rng.below(39)).min(data.len());
                data.drain(at..to);
            }
            _ => {
                let from = rng.below(data.len());
                let to = (from + 1 + rng.below(59)).min(data.len());
                let again = data[from..to].to_vec();
                data.splice(at..at, again);
            }
        }
        if data.is_empty() {
            data.push(b'x');
        }
    }
    if rng.chance(0.05) {
        data = other_breaks(&data);
    }
    data
}

/// What is given to the program.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum What {
    Benches,
    Limits,
    Settings,
}

/// Gives a file to the program: whether it was taken, and what is wrong with that.
fn give(what: What, data: &[u8]) -> (bool, Vec<String>) {
    let folder = tempfile::tempdir().unwrap();
    let (season, config) = (folder.path().join("s.db"), folder.path().join("config/benchwalk/config.toml"));
    let file = folder.path().join(if what == What::Benches { "m.csv" } else { "m.toml" });
    demo(&season);
    let benches = bench_lines(&season);
    fs::create_dir_all(config.parent().unwrap()).unwrap();
    fs::write(&config, if what == What::Settings { data } else { CONFIG }).unwrap();
    fs::write(&file, data).unwrap();
    let mut all: Vec<&OsStr> = vec!["--on".as_ref(), DEMO_DAY.as_ref()];
    match what {
        What::Benches => all.extend(["import".as_ref(), file.as_os_str()]),
        What::Limits => all.extend(["--limits".as_ref(), file.as_os_str(), "review".as_ref()]),
        What::Settings => all.push("review".as_ref()),
    }
    let done = ask(folder.path(), &season, &all, b"");
    let mut why = message_faults(&done);
    why.extend(judge(&season).bad);
    if done.code == Some(1) && bench_lines(&season) != benches {
        why.push("half written".to_owned());
    }
    if what == What::Settings && fs::read(&config).unwrap() != data {
        why.push("the settings were changed".to_owned());
    }
    (done.code == Some(0), why)
}

fn bench_lines(season: &Path) -> i64 {
    let file = rusqlite::Connection::open(season).unwrap();
    file.query_row("SELECT count(*) FROM bench_line", [], |row| row.get(0)).unwrap()
}

/// A good file of each sort.
fn good() -> [(What, Vec<u8>); 3] {
    let folder = tempfile::tempdir().unwrap();
    let mut benches = String::from("bench,house,lot,pots,area\n");
    for n in 0..12 {
        writeln!(benches, "Z{n},Zed,R1,{},{}.5 m2", 10 + n, 9 + n).unwrap();
    }
    benches.push_str("Y1,\"Zed\",,,\n");
    let limits = run(folder.path(), &["limits"]).stdout;
    [(What::Benches, benches.into_bytes()), (What::Limits, limits), (What::Settings, CONFIG.to_vec())]
}

#[test]
fn mutated_lists_limits_and_settings_are_taken_or_refused_in_clean_words() {
    let good = good();
    for (what, text) in &good {
        let (taken, why) = give(*what, text);
        assert!(taken && why.is_empty(), "the {what:?} to mutate are not good: {why:?}");
    }
    let mut campaign = Campaign::new("mutated lists, limits and settings");
    let mutants: Vec<(What, Vec<u8>)> = (0..count(SHORT, FULL))
        .map(|number| {
            let (what, text) = &good[number % good.len()];
            (*what, mutant(text, &mut campaign.rng(number)))
        })
        .collect();
    let taken = AtomicUsize::new(0);
    campaign.each(
        &mutants,
        |(what, _)| format!("{what:?}"),
        |number, (what, data)| {
            let (good, mut why) = give(*what, data);
            taken.fetch_add(usize::from(good), Ordering::SeqCst);
            if !why.is_empty() {
                why.push(keep(&format!("list-{number}"), data));
            }
            why
        },
    );
    let taken = taken.into_inner();
    println!("mutated lists, limits and settings: {taken} taken, {} refused", mutants.len() - taken);
    campaign.end();
}
