//! A walk whose every score is known, so that it can be looked for afterwards: in the file, in what was printed on leaving,
//! in the rescue journal.

use super::judge::Row;
use crate::terminal::{DEADLINE, Pty};
use serde_json::Value;
use std::path::Path;
use std::time::{Duration, Instant};

/// A check as the card names it, the kind and field its digit goes to (no field: the digit is a word there), and two digits.
const CHECKS: [(&str, &str, Option<&str>, [char; 2]); 6] = [
    ("water", "water", Some("level"), ['3', '2']),
    ("base", "water", Some("base"), ['3', '2']),
    ("roots", "roots", Some("score"), ['0', '1']),
    ("reach", "roots", None, ['2', '1']),
    ("bracts", "bracts", Some("stage"), ['1', '2']),
    ("whitefly", "pests", Some("infested"), ['0', '1']),
];

/// The bench and the check that are asked, read off the card: `Walk  M5`, `[water _]`.
pub(crate) fn asked(text: &str) -> Option<(String, String)> {
    let bench = text.lines().next()?.strip_prefix("Walk  ")?.split(' ').next()?.to_owned();
    let check = text.split('[').nth(1)?.trim_start_matches("re-check: ").split(' ').next()?.to_owned();
    Some((bench, check))
}

/// One score that was typed.
#[derive(Debug, Clone)]
pub(crate) struct Typed {
    bench: String,
    kind: &'static str,
    field: Option<&'static str>,
    digit: char,
}

/// Every score of a walk.
#[derive(Debug, Default)]
pub(crate) struct Scores {
    pub(crate) typed: Vec<Typed>,
    last: Option<char>,
    /// The longest time from a digit to the next check asked.
    pub(crate) slowest: Duration,
}

impl Scores {
    /// The scores that follow those of this walk.
    pub(crate) fn following(before: &Self) -> Self {
        Self { last: before.last, ..Self::default() }
    }

    /// Answers what the card asks, with another digit than the last one so that none is held back, and waits until it asks
    /// for something else. Heights are passed over.
    pub(crate) fn score(&mut self, pty: &mut Pty) {
        let mut text = pty.wait("a card", |text| asked(text).is_some());
        loop {
            let now = asked(&text).unwrap();
            let known = CHECKS.iter().find(|(check, ..)| *check == now.1);
            if let Some((_, kind, field, digits)) = known {
                let digit = digits.iter().copied().find(|digit| Some(*digit) != self.last).unwrap();
                self.last = Some(digit);
                self.typed.push(Typed { bench: now.0.clone(), kind, field: *field, digit });
                pty.send(&digit.to_string());
            } else {
                // The same key at once would be one held down.
                pty.pause(Duration::from_millis(350));
                pty.send("\r");
            }
            let since = Instant::now();
            text = pty.wait("the next check", |text| asked(text).is_some_and(|next| next != now));
            self.slowest = self.slowest.max(since.elapsed());
            if known.is_some() {
                return;
            }
        }
    }

    /// The scores that are not among these entries, each as its journal line or [`line`] has it.
    pub(crate) fn nowhere(&self, entries: &[Value]) -> Vec<String> {
        let is = |typed: &Typed, entry: &Value| {
            let digit = i64::from(typed.digit.to_digit(10).unwrap());
            entry["bench"] == typed.bench.as_str()
                && entry["kind"] == typed.kind
                && typed.field.is_none_or(|field| entry[field].as_i64() == Some(digit))
        };
        let lost = self.typed.iter().filter(|typed| !entries.iter().any(|entry| is(typed, entry)));
        lost.map(|typed| format!("typed and nowhere: {} {} {}", typed.bench, typed.kind, typed.digit)).collect()
    }
}

/// The rows of an author as their journal has them, as far as [`Scores::nowhere`] looks.
pub(crate) fn lines(rows: &[Row], author: &str) -> Vec<Value> {
    let mine = rows.iter().filter(|row| row.author == author);
    let line = |row: &Row| {
        let mut line = row.fields.clone();
        line["bench"] = row.place.as_str().into();
        line["kind"] = row.kind.as_str().into();
        line
    };
    mine.map(line).collect()
}

/// The entries of an author among the lines of a text: a journal, or what a terminal received.
pub(crate) fn entries(text: &str, author: &str) -> Vec<Value> {
    let found = text.lines().filter_map(|line| line.find("{\"type\":\"entry\"").map(|at| line[at..].trim_end()));
    let read = found.filter_map(|line| serde_json::from_str::<Value>(line).ok());
    read.filter(|entry| entry["by"] == author).collect()
}

/// The entries of an author in all journals below a folder.
pub(crate) fn rescued(folder: &Path, author: &str) -> Vec<Value> {
    let Ok(there) = std::fs::read_dir(folder) else { return Vec::new() };
    let inside = |path: std::path::PathBuf| {
        if path.is_dir() {
            return rescued(&path, author);
        }
        let journal = path.extension().is_some_and(|ending| ending == "jsonl");
        let text = if journal { std::fs::read_to_string(&path).unwrap_or_default() } else { String::new() };
        entries(&text, author)
    };
    there.flat_map(|entry| inside(entry.unwrap().path())).collect()
}

/// Leaves by Ctrl-Q, twice where something is not saved; gives the exit code.
pub(crate) fn leave(pty: &mut Pty) -> u32 {
    pty.send("\u{11}");
    let asked = |text: &str| text.contains("Press quit again");
    let until = Instant::now() + DEADLINE;
    while pty.ended_within(Duration::ZERO).is_none() && Instant::now() < until {
        if pty.comes(Duration::from_millis(200), asked) {
            pty.send("\u{11}");
            break;
        }
    }
    let code = pty.ended().0.exit_code();
    pty.drain();
    code
}
