//! A month of faults: thirty days of a season are walked by keys twice, once with faults every day and once without, and end
//! with the same review and the same export.
//!
//! The answers are those of a seed: the same for the same day, bench and check. The clock stands at a time of its own for each
//! of them, so that instants are the same too. After a fault the walker does what a person would: opens the season again,
//! takes the offer of what was not saved, and goes on with what the screen asks for.
//!
//! Compared at the end: the review of the last evening as text and JSON, to the letter; of the export every line with every
//! field, instants too, but for the ids of entries, which hold random bits: where a strike names one, what it struck stands in
//! its place. The order of lines of one instant follows the ids and is not compared, nor the checksum in the last line.

mod day;
mod trouble;

use crate::harness::{Run, is_full};
use crate::large::large;
use crate::preload::Preload;
use crate::rng::Rng;
use crate::season::{date, instant};
use crate::walker::begin;
use chrono::{DateTime, Days, FixedOffset, NaiveDate};
use day::walk_day;
use serde_json::Value;
use std::collections::{BTreeMap, HashMap};
use std::path::{Path, PathBuf};
use trouble::Trouble;

/// Days written before the month begins, from August 10 on.
const BEFORE: u32 = 45;
/// Who walks.
const BY: &str = "kt";

/// One of the two lives of the season.
struct Life {
    /// Home of the program: settings, state and data lie here.
    home: tempfile::TempDir,
    /// The faults of the folder the season lies in.
    preload: Preload,
    seed: u64,
    benches: usize,
    /// Faults struck so far, by name.
    struck: BTreeMap<&'static str, usize>,
}

impl Life {
    fn new(benches: u32, seed: u64) -> Self {
        let home = tempfile::tempdir().unwrap();
        let files = home.path().join("files");
        std::fs::create_dir(&files).unwrap();
        begin(&files.join("season.db"), &large(benches, BEFORE, 1).lines());
        let preload = Preload::new(&files);
        Self { home, preload, seed, benches: benches as usize, struck: BTreeMap::new() }
    }

    fn file(&self) -> PathBuf {
        self.home.path().join("files/season.db")
    }

    /// Sets the clock, and takes every fault away.
    fn stand_at(&self, at: DateTime<FixedOffset>) {
        self.preload.stand_at(at);
    }

    /// Runs a command on the season to its end.
    fn command(&self, arguments: &[&str], stdin: &str) -> crate::harness::Done {
        let file = self.file();
        let words = ["--season", file.to_str().unwrap(), "--by", BY].into_iter().chain(arguments.iter().copied());
        let words: Vec<&str> = words.collect();
        Run { stdin: stdin.as_bytes(), env: &self.preload.command_env(), ..Run::at(self.home.path()) }.go(&words)
    }
}

/// A day of the month.
fn day_of(n: u64) -> NaiveDate {
    date(8, 10) + Days::new(u64::from(BEFORE) + n)
}

/// What is read off an instrument in the evening, as a journal that another program made.
fn evening(n: u64, seed: u64) -> String {
    let mut rng = Rng::new(seed ^ (n << 8));
    let at = instant(day_of(n), (17, 0)).to_rfc3339();
    let (day_c, night_c) = (20 + rng.below(4), 16 + rng.below(3));
    format!(
        "{{\"type\":\"journal\",\"version\":2}}\n{{\"type\":\"entry\",\"at\":\"{at}\",\"by\":\"jo\",\"house\":\"H1\",\"kind\":\"climate\",\"day_c\":{day_c},\"night_c\":{night_c}}}\n"
    )
}

/// Lives the month through; gives the life at its end.
fn live(days: u64, benches: u32, seed: u64, troubled: bool) -> Life {
    let mut life = Life::new(benches, seed);
    let mut rng = Rng::new(seed ^ 0x000f_a017);
    for n in 0..days {
        let troubles = if troubled { Trouble::of_day(&mut rng, n) } else { Vec::new() };
        walk_day(&mut life, n, troubles, &mut rng);
    }
    life
}

/// What is compared at the end.
struct End {
    text: String,
    json: String,
    export: Vec<String>,
}

fn end(life: &Life, days: u64) -> End {
    life.stand_at(instant(day_of(days - 1), (20, 0)));
    let asked = |arguments: &[&str]| {
        let done = life.command(arguments, "");
        assert_eq!(done.code, Some(0), "{arguments:?}: {}", done.err());
        done.out()
    };
    End {
        text: asked(&["review"]),
        json: asked(&["review", "--format", "json"]),
        export: without_ids(&asked(&["export"])),
    }
}

/// The lines of an export without the ids of entries; what a strike names stands in its place.
fn without_ids(export: &str) -> Vec<String> {
    let lines: Vec<Value> =
        export.lines().filter(|line| line.starts_with('{')).map(|line| serde_json::from_str(line).unwrap()).collect();
    let is_entry = |line: &Value| line["type"] == "entry";
    let bare = |line: &Value| {
        let mut line = line.clone();
        line.as_object_mut().unwrap().remove("id");
        line
    };
    let by_id: HashMap<String, Value> = lines
        .iter()
        .filter(|line| is_entry(line))
        .filter_map(|line| Some((line["id"].as_str()?.to_owned(), bare(line))))
        .collect();
    let mut plain: Vec<String> = lines
        .iter()
        .map(|line| {
            if !is_entry(line) {
                return line.to_string();
            }
            let mut line = bare(line);
            if let Some(struck) = line["entry"].as_str().and_then(|id| by_id.get(id)) {
                line["entry"] = struck.clone();
            }
            line.to_string()
        })
        .collect();
    plain.sort();
    plain
}

/// Journals of what was not saved that nobody took.
fn left_behind(home: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut folders = vec![home.join("state")];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|extension| extension == "jsonl") {
                found.push(path);
            }
        }
    }
    found
}

#[test]
fn a_month_of_faults_ends_as_one_without() {
    let (days, benches) = if is_full() { (30, 24) } else { (4, 6) };
    let seed = std::env::var("BENCHWALK_SEED").ok().and_then(|seed| seed.parse().ok()).unwrap_or(1);
    let calm = end(&live(days, benches, seed, false), days);
    let life = live(days, benches, seed, true);
    let troubled = end(&life, days);
    let count: usize = life.struck.values().sum();
    println!("{days} days, {benches} benches, {count} faults: {:?}", life.struck);
    assert!(count >= days as usize, "only {count} faults in {days} days: this says too little");
    let gone: Vec<&String> = calm.export.iter().filter(|line| !troubled.export.contains(line)).collect();
    let new: Vec<&String> = troubled.export.iter().filter(|line| !calm.export.contains(line)).collect();
    assert!(
        gone.is_empty() && new.is_empty(),
        "seed {seed}; only without faults: {gone:#?}\nonly with faults: {new:#?}"
    );
    assert_eq!(calm.export, troubled.export, "seed {seed}: a line is there more than once");
    assert_eq!(calm.text, troubled.text, "seed {seed}: the review");
    assert_eq!(calm.json, troubled.json, "seed {seed}: the review as JSON");
    assert!(calm.export.len() > (days * u64::from(benches)) as usize, "nothing was walked");
    println!("month of faults: tried {count}, survived {count}");
}
