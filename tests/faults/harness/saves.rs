//! Everything a screen ever showed as saved, frame by frame.

use super::judge::Row;
use crate::terminal::Pty;
use std::collections::BTreeSet;
use std::sync::{Arc, Mutex};

/// Rows at the bottom of the screen where "saved: " is said.
const BOTTOM: usize = 6;

/// Words of the status line, and the kind and field they speak of. A digit is that of the field where one is named.
const WORDS: [(&str, &str, Option<&str>); 8] = [
    ("water", "water", Some("level")),
    ("roots", "roots", Some("score")),
    ("bracts", "bracts", Some("stage")),
    ("whitefly", "pests", None),
    ("height", "height", None),
    ("leaves", "leaves", None),
    ("watered", "watered", None),
    ("note", "note", None),
];

/// One thing shown as saved.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Said {
    place: String,
    struck: bool,
    word: &'static str,
    digit: Option<i64>,
}

#[derive(Debug, Default, Clone)]
struct Seen {
    last: Option<String>,
    /// How often another "saved" was shown than just before.
    events: usize,
    said: BTreeSet<Said>,
}

/// What was shown as saved so far.
#[derive(Clone, Default)]
pub(crate) struct Saves(Arc<Mutex<Seen>>);

impl Saves {
    /// Watches every frame of a program from now on.
    pub(crate) fn watch(pty: &Pty) -> Self {
        let saves = Self::default();
        let theirs = saves.clone();
        pty.observe(move |screen| theirs.frame(screen));
        saves
    }

    /// Takes in a frame.
    pub(crate) fn frame(&self, screen: &vt100::Screen) {
        let mut seen = self.0.lock().unwrap();
        let rows: Vec<String> = screen.rows(0, screen.size().1.get()).collect();
        let (mut now, mut shown) = (None, Vec::new());
        for line in &rows[rows.len().saturating_sub(BOTTOM)..] {
            let unsaid = line.contains("not saved") || line.contains("NOT SAVED");
            let Some(at) = line.find("saved: ").filter(|_| !unsaid) else { continue };
            // A reason may have the word at the start of a line too: "nothing more is / saved: put it back".
            let Some(said) = said(&line[at + "saved: ".len()..]) else { continue };
            now = Some(line.trim_end().to_owned());
            shown.push(said);
        }
        if now.is_some() && now != seen.last {
            seen.events += 1;
            seen.said.extend(shown);
        }
        seen.last = now;
    }

    /// How many saves were shown.
    pub(crate) fn shown(&self) -> usize {
        self.0.lock().unwrap().events
    }

    /// What was shown until now, as it stays.
    pub(crate) fn so_far(&self) -> Self {
        Self(Arc::new(Mutex::new(self.0.lock().unwrap().clone())))
    }

    /// Counts only what is shown from now on; what stands on the screen now is not new.
    pub(crate) fn forget(&self) {
        let mut seen = self.0.lock().unwrap();
        seen.events = 0;
        seen.said.clear();
    }

    /// What was shown as saved and is not among the rows of this author.
    pub(crate) fn missing(&self, rows: &[Row], author: &str) -> Vec<String> {
        let seen = self.0.lock().unwrap();
        let mine: Vec<&Row> = rows.iter().filter(|row| row.author == author).collect();
        let gone = seen.said.iter().filter(|said| !mine.iter().any(|row| is(row, said)));
        let mut missing: Vec<String> = gone.map(|said| format!("shown as saved and gone: {said:?}")).collect();
        if mine.len() < seen.events {
            missing.push(format!("{} saves were shown, {} rows are there", seen.events, mine.len()));
        }
        missing
    }
}

/// `M5 water 3`, `M8 voided: water 5`, `M9 note: A note`.
fn said(text: &str) -> Option<Said> {
    let text = text.split_once(" entries, the last ").map_or(text, |(_, last)| last);
    let (place, rest) = text.split_once(' ')?;
    let (struck, rest) = rest.strip_prefix("voided: ").map_or((false, rest), |rest| (true, rest));
    let end = rest.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(rest.len());
    let (word, after) = rest.split_at(end);
    let (word, ..) = WORDS.iter().find(|(known, ..)| *known == word)?;
    let digit = after.strip_prefix(' ').and_then(|after| after.chars().next()).and_then(|c| c.to_digit(10));
    Some(Said { place: place.to_owned(), struck, word, digit: digit.map(i64::from) })
}

/// The row is what was shown.
fn is(row: &Row, said: &Said) -> bool {
    let Some((_, kind, field)) = WORDS.iter().find(|(word, ..)| *word == said.word) else { return false };
    if row.place != said.place {
        return false;
    }
    if said.struck {
        return row.kind == "strike";
    }
    let digit = field.zip(said.digit).is_none_or(|(field, digit)| row.fields[field].as_i64() == Some(digit));
    row.kind == *kind && digit
}
