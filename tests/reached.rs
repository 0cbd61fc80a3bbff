//! Nothing of the agronomy is there for tests alone: what `src/crop` offers is reached from a screen, a warning, a report or a
//! command.
//!
//! By names: an item is reached where its name stands in code outside `src/crop`, or in the code of an item of `src/crop` that is
//! reached. A method is reached with its type only. A name that stands for two items reaches both, so that the test can miss an
//! item, and never blames one that is used.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, reason = "a test that cannot go on stops there")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Items that only tests name, each with the reason.
const ONLY_TESTED: [(&str, &str); 0] = [];

/// An item of `src/crop`: a function, a constant or a type.
#[derive(Debug)]
struct Item {
    name: String,
    /// The type whose method it is.
    of: Option<String>,
    is_public: bool,
    /// Its code, without that of methods.
    words: BTreeSet<String>,
    file: String,
}

fn files(dir: &Path, all: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(dir).unwrap().map(Result::unwrap) {
        let path = entry.path();
        if path.is_dir() {
            files(&path, all);
        } else if path.extension().is_some_and(|e| e == "rs") && path.file_name().is_some_and(|n| n != "tests.rs") {
            all.push(path);
        }
    }
}

/// The lines of code: no comments, no tests.
fn code(text: &str) -> Vec<String> {
    let end = text.find("#[cfg(test)]\nmod tests {").unwrap_or(text.len());
    let line = |line: &str| line.split("//").next().unwrap_or_default().trim_end().to_owned();
    text[..end].lines().map(line).collect()
}

fn words(text: &str) -> BTreeSet<String> {
    let split = text.split(|c: char| !(c.is_alphanumeric() || c == '_'));
    split.filter(|word| !word.is_empty()).map(str::to_owned).collect()
}

/// What a line opens: the word it is opened with, its name, and whether it is public.
fn opened(line: &str) -> Option<(&str, String, bool)> {
    let line = line.trim_start();
    let is_public = line.starts_with("pub ");
    let bare = line.strip_prefix("pub").map_or(line, |rest| {
        let rest = rest.trim_start();
        rest.strip_prefix('(').and_then(|rest| rest.split_once(')')).map_or(rest, |(_, rest)| rest)
    });
    let bare = bare.trim_start().replace("const fn ", "fn ");
    let word = ["fn ", "const ", "static ", "struct ", "enum ", "type ", "trait "]
        .into_iter()
        .find(|w| bare.starts_with(w))?;
    let name =
        bare[word.len()..].trim_start_matches("mut ").split(|c: char| !(c.is_alphanumeric() || c == '_')).next()?;
    // The name of what a macro makes is none.
    (!name.is_empty()).then(|| (word.trim_end(), name.to_owned(), is_public))
}

/// The type an `impl` is for.
fn implemented(line: &str) -> Option<String> {
    let rest = line.strip_prefix("impl")?;
    let rest = if rest.starts_with('<') { rest.split_once("> ")?.1 } else { rest.strip_prefix(' ')? };
    let of = rest.split_once(" for ").map_or(rest, |(_, of)| of);
    of.split(|c: char| !(c.is_alphanumeric() || c == '_')).next().map(str::to_owned)
}

/// The last line of what opens on a line: the first of its own indentation that ends it.
fn end(lines: &[String], at: usize) -> usize {
    let mut depth = 0_i64;
    for (number, line) in lines.iter().enumerate().skip(at) {
        let count = |signs: [char; 3]| i64::try_from(line.matches(signs).count()).unwrap();
        depth += count(['{', '(', '[']) - count(['}', ')', ']']);
        if depth <= 0 && (line.ends_with(';') || line.ends_with('}')) {
            return number;
        }
    }
    lines.len().saturating_sub(1)
}

/// The items of a file.
fn items(file: &str, lines: &[String]) -> Vec<Item> {
    let mut all = Vec::new();
    let mut at = 0;
    let mut inside: Option<(String, usize)> = None;
    while at < lines.len() {
        let line = &lines[at];
        if inside.as_ref().is_some_and(|(_, last)| at > *last) {
            inside = None;
        }
        if let Some(of) = implemented(line) {
            inside = Some((of, end(lines, at)));
        } else if let Some((_, name, is_public)) = opened(line) {
            let last = end(lines, at);
            let of = inside.as_ref().map(|(of, _)| of.clone());
            all.push(Item { name, of, is_public, words: words(&lines[at..=last].join("\n")), file: file.to_owned() });
            at = last;
        }
        at += 1;
    }
    all
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// The items of the agronomy, and every word of the code outside it.
fn read() -> (Vec<Item>, BTreeSet<String>) {
    let mut paths = Vec::new();
    files(&root(), &mut paths);
    let (mut all, mut outside) = (Vec::new(), BTreeSet::new());
    for path in paths {
        let name = path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
        let lines = code(&fs::read_to_string(&path).unwrap());
        if name.starts_with("crop/") {
            all.extend(items(&name, &lines));
        } else {
            outside.extend(words(&lines.join("\n")));
        }
    }
    (all, outside)
}

/// Which items are not reached.
fn not_reached<'i>(items: &'i [Item], outside: &BTreeSet<String>) -> Vec<&'i Item> {
    let mut known = outside.clone();
    let mut is_reached = vec![false; items.len()];
    loop {
        let mut grown = false;
        for (item, reached) in items.iter().zip(&mut is_reached) {
            let of = item.of.as_ref().is_none_or(|of| known.contains(of));
            if !*reached && of && known.contains(&item.name) {
                *reached = true;
                grown = true;
                known.extend(item.words.iter().cloned());
            }
        }
        if !grown {
            break;
        }
    }
    items.iter().zip(is_reached).filter(|(_, reached)| !reached).map(|(item, _)| item).collect()
}

#[test]
fn nothing_of_the_agronomy_is_there_for_tests_alone() {
    let (items, outside) = read();
    assert!(items.iter().filter(|item| item.is_public).count() > 150, "the items are read");
    let mut blamed: Vec<String> = Vec::new();
    let mut excused: BTreeSet<&str> = BTreeSet::new();
    for item in not_reached(&items, &outside).into_iter().filter(|item| item.is_public) {
        match ONLY_TESTED.iter().find(|(name, _)| *name == item.name) {
            Some((name, _)) => drop(excused.insert(name)),
            None => blamed.push(format!("{}: {}", item.file, item.name)),
        }
    }
    assert!(blamed.is_empty(), "reached by tests only; use it or take it out:\n{}", blamed.join("\n"));
    let idle = ONLY_TESTED.iter().filter(|(name, _)| !excused.contains(name));
    assert_eq!(idle.count(), 0, "an exception that is none");
}

#[test]
fn what_nothing_names_is_found() {
    let text = "pub fn used() -> Answer {\n    helper()\n}\nfn helper() -> Answer {\n    Answer { n: MOST }\n}\n\
                pub const MOST: u8 = 3;\npub struct Answer {\n    n: u8,\n}\nimpl Answer {\n    pub fn n(self) -> u8 {\n        self.n\n    }\n\
                    pub fn odd(self) -> Odd {\n        Odd\n    }\n}\npub struct Odd;\nimpl Odd {\n    pub fn n(self) {}\n}\n\
                pub fn lonely() {\n    lonely_helper(); // used\n}\nfn lonely_helper() {}\n";
    let items = items("crop/x.rs", &code(text));
    let outside = words("fn page() { used().n() }");
    let found: Vec<&str> = not_reached(&items, &outside).iter().map(|item| item.name.as_str()).collect();
    assert_eq!(found, ["odd", "Odd", "n", "lonely", "lonely_helper"]);
}
