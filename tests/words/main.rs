//! Texts that were replaced do not come back: a fixed list, looked for in sources, README, help, snapshots and reports.
//!
//! `cargo test --test words` prints file, line and text of each that is found. With `BENCHWALK_WORDS=src/report` before it
//! only what lies below that path is looked at.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, reason = "a test that cannot go on stops there")]

mod guard;
mod pattern;
mod pieces;
mod program;

use pattern::{Pattern, Where};
use pieces::Piece;
use program::Program;
use std::collections::{BTreeSet, HashSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The fixed list.
const REPLACED: &str = include_str!("replaced.txt");

/// What the list holds: the texts looked for, each with its group, and those kept on purpose with their reasons.
struct List {
    replaced: Vec<(String, Pattern)>,
    kept: Vec<(String, String)>,
}

impl List {
    fn read(text: &str) -> Self {
        let mut list = Self { replaced: Vec::new(), kept: Vec::new() };
        let mut group = String::new();
        for line in text.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
            if let Some(name) = line.strip_prefix('[').and_then(|line| line.strip_suffix(']')) {
                name.clone_into(&mut group);
            } else if let Some(kept) = line.strip_prefix("kept: ") {
                let (text, reason) = kept.split_once(" | ").unwrap_or((kept, ""));
                list.kept.push((text.to_owned(), reason.to_owned()));
            } else {
                list.replaced.push((group.clone(), Pattern::new(line)));
            }
        }
        list
    }

    /// What is found of the list in these pieces: `path:line: 'text' (group)`.
    fn found_in(&self, pieces: &[Piece]) -> BTreeSet<String> {
        let mut found = BTreeSet::new();
        for piece in pieces {
            let of_tests = piece.of_tests;
            let words: HashSet<&str> = pattern::words(&piece.lower).collect();
            for (group, pattern) in self.replaced.iter().filter(|(_, p)| !of_tests || p.place == Where::AlsoTests) {
                if pattern.word.as_deref().is_some_and(|word| !words.contains(word)) {
                    continue;
                }
                let line = match pattern.place {
                    Where::Cell if !piece.printed => None,
                    Where::Label | Where::Cell => {
                        piece.cells.iter().find(|(_, cell)| pattern.is(cell)).map(|(line, _)| *line)
                    }
                    _ => pattern.find(&piece.text, &piece.lower).map(|at| piece.line(at)),
                };
                found.extend(line.map(|line| format!("{}:{line}: '{}' ({group})", piece.path, pattern.text)));
            }
        }
        found
    }
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The files below a folder with one of these endings, as paths below the root.
fn files(folder: &str, endings: &[&str]) -> Vec<String> {
    let mut found = Vec::new();
    let mut folders = vec![root().join(folder)];
    while let Some(folder) = folders.pop() {
        for path in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            if path.is_dir() {
                folders.push(path);
            } else if endings.iter().any(|ending| path.to_string_lossy().ends_with(ending)) {
                found.push(below_root(&path));
            }
        }
    }
    found.sort();
    found
}

fn below_root(path: &Path) -> String {
    path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/")
}

/// Everything that is looked at and lies below this path.
fn everything(program: &Program, below: &str) -> Vec<Piece> {
    let read = |path: &str| fs::read_to_string(root().join(path)).unwrap();
    let mut pieces = Vec::new();
    for path in files("src", &[".rs"]).iter().chain(&files("tests", &[".rs"])) {
        if !path.starts_with("tests/words/") {
            let text = read(path);
            let tests = path.starts_with("tests/") || path.ends_with("/tests.rs") || path.contains("/tests/");
            let code = if tests { 0 } else { text.find("#[cfg(test)]\nmod tests {").unwrap_or(text.len()) };
            pieces.extend(pieces::of_source(path, &text[..code], path.starts_with("src/commands/")));
            // The lines before them stay, so that the others keep their numbers.
            let rest = "\n".repeat(text[..code].lines().count()) + &text[code..];
            pieces.extend(pieces::of_source(path, &rest, false).into_iter().map(Piece::in_tests));
        }
    }
    for path in ["README.md".to_owned(), "Cargo.toml".to_owned()].into_iter().chain(files("src", &[".md"])) {
        pieces.push(Piece::page(&path, &read(&path)));
    }
    for path in files("src", &[".snap"]).into_iter().chain(files("tests", &[".snap"])) {
        // The head names the test; its lines stay, so that those below keep their numbers.
        let text = read(&path);
        let head = text.match_indices("---\n").nth(1).map_or(0, |(at, _)| at);
        let blank = "\n".repeat(text[..head].lines().count());
        pieces.push(Piece::page(&path, &format!("{blank}{}", &text[head..])));
    }
    pieces.extend(program.help());
    pieces.extend(program.topics());
    pieces.extend(program.reports());
    pieces.retain(|piece| piece.path.starts_with(below));
    pieces
}

#[test]
fn replaced_texts_do_not_come_back() {
    let below = std::env::var("BENCHWALK_WORDS").unwrap_or_default();
    let found = List::read(REPLACED).found_in(&everything(&Program::new(), &below));
    let lines: Vec<&str> = found.iter().map(String::as_str).collect();
    assert!(found.is_empty(), "{} found:\n{}", lines.len(), lines.join("\n"));
}

#[test]
fn the_list_is_long_enough_and_says_nothing_twice() {
    let list = List::read(REPLACED);
    let distinct: BTreeSet<String> = list.replaced.iter().map(|(_, p)| p.text.to_lowercase()).collect();
    assert_eq!(distinct.len(), list.replaced.len(), "a text stands twice in the list");
    assert!(distinct.len() >= 400, "{} texts are looked for", distinct.len());
    assert!(list.kept.iter().all(|(text, reason)| !text.is_empty() && reason.len() > 10), "{:?}", list.kept);
}

/// Each text of the list is found where it is planted, whatever the form: so the scan can fail for each.
#[test]
fn every_text_of_the_list_is_found_where_it_is_planted() {
    let list = List::read(REPLACED);
    for (group, pattern) in &list.replaced {
        let text = pattern.text.trim_end_matches('*').replace("{}", " {count} ");
        let literal = text.replace('\\', "\\\\").replace('"', "\\\"");
        let one = List { replaced: vec![(group.clone(), pattern.clone())], kept: Vec::new() };
        let source =
            format!("//! A file.\nfn f<'a>() -> &'a str {{\n    // 'x'\n    g('\"', r#\"raw\"#, \"{literal}\")\n}}\n");
        let found = one.found_in(&pieces::of_source("src/planted.rs", &source, false));
        let expected = format!("src/planted.rs:4: '{}' ({group})", pattern.text);
        assert_eq!(found.into_iter().next(), Some(expected).filter(|_| pattern.place != Where::Cell));
        let page = Piece::page("planted.snap", &format!("a page\n│  {}  │ yes\n", text.replace("{count}", "12")));
        assert_eq!(one.found_in(&[page]).len(), 1, "{}", pattern.text);
    }
}

#[test]
fn a_text_is_found_across_lines_and_only_as_words_of_its_own() {
    let list = |text: &str| List::read(&format!("[here]\n{text}\n"));
    let source = |text: &str, source: &str| list(text).found_in(&pieces::of_source("src/a.rs", source, false));
    let broken = "\n\nconst A: &str = \"Roots \\\"in\\\" wet \\\n    mix get no air\";\n";
    assert!(source("wet mix get", broken).contains("src/a.rs:3: 'wet mix get' (here)"));
    assert_eq!(source("wet mix", "// wet mix\n").len(), 0, "a comment is no literal");
    assert_eq!(source("et mix", broken).len(), 0, "part of a word");
    assert_eq!(source("reckon*", "f(\"as Reckoned\")").len(), 1);
    assert_eq!(source("label: now", "f(\"now and then\")").len(), 0);
    assert_eq!(source("label: now", "f(\"now\")").len(), 1);
    assert_eq!(source("exact: In all", "f(\"in all\")").len(), 0);
    assert_eq!(source("for {} days, limit", "f(\"for {days} days, limit 5\")").len(), 1);
    assert_eq!(source("for {} days, limit", "f(\"for days, limit 5\")").len(), 0);
    let page = Piece::page("a.snap", "why   they brown first, and the lower leaves\n      tell it late\n");
    assert_eq!(list("the lower leaves tell it late").found_in(&[page]).len(), 1);
    assert_eq!(
        pieces::of_source("src/commands/a.rs", "/// Read a journal,\n/// all or nothing.\nfn f() {}\n", true)[0]
            .text
            .trim(),
        "Read a journal, all or nothing."
    );
}
