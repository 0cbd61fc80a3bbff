//! The house, held against the sources: who may use whom, what every file opens with, what is left to which room.
//!
//! The table is the one in DEVELOPERS.md. A new module gets a row in both.

#![expect(clippy::unwrap_used, reason = "a test: a source that cannot be read is a failure")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// The ground: modules without clock, file or terminal, in reading order. `model` and what stands on it may use all of them.
const PURE: &[&str] = &[
    "dates", "units", "terms", "record", "limits", "season", "crop", "mix", "warnings", "journal", "review", "report",
    "input",
];

/// Module, and the modules it may use.
const MAY_USE: &[(&str, &[&str])] = &[
    ("dates", &[]),
    ("units", &[]),
    ("terms", &["units"]),
    ("record", &["units", "terms"]),
    ("limits", &["units", "terms"]),
    ("season", &["record", "terms", "units"]),
    ("crop", &["limits", "terms", "dates", "units"]),
    ("mix", &["crop", "record", "limits", "terms", "dates", "units"]),
    ("warnings", &["season", "crop", "record", "limits", "terms", "dates", "units"]),
    ("journal", &["record", "terms"]),
    ("store", &["record", "terms"]),
    ("review", &["warnings", "mix", "season", "crop", "record", "limits", "terms", "dates", "units"]),
    ("report", &["review", "mix", "warnings", "season", "crop", "record", "limits", "terms", "dates", "units"]),
    ("input", &[]),
    ("keys", &["input"]),
    ("controls", &["input", "keys"]),
    ("ui", &["input", "controls"]),
    ("model", &["keys", "controls"]),
    ("screens", &["model", "keys", "controls", "ui"]),
    ("popups", &["model", "keys", "controls", "ui"]),
    ("app", &["screens", "popups", "model", "keys", "controls", "ui"]),
    ("term", &["input"]),
    ("clock", &[]),
    ("run", &["*"]),
    ("session", &["run", "model", "journal", "store", "season", "record", "units"]),
    ("commands", &["*"]),
    ("main", &["*"]),
];

/// Modules that may use every pure module beside what their row names.
const ON_THE_GROUND: [&str; 4] = ["model", "screens", "popups", "app"];

/// Words that belong to one room, and the rooms they may stand in.
const ROOMS: [(&str, &[&str]); 9] = [
    ("rusqlite", &["store"]),
    ("crossterm", &["term"]),
    ("Utc::now", &["clock"]),
    ("Local::now", &["clock"]),
    ("SystemTime::now", &["clock"]),
    ("std::fs", &["store", "term", "clock", "run", "session", "commands", "main"]),
    ("std::env", &["term", "clock", "run", "session", "commands", "main"]),
    ("std::process", &["term", "run", "session", "commands", "main"]),
    ("ratatui", &["ui", "screens", "popups", "app", "term", "run"]),
];

struct Source {
    path: PathBuf,
    /// The top module it belongs to.
    module: String,
    /// Everything before its tests, comments taken out.
    code: String,
    text: String,
}

fn files(dir: &Path, ending: &str, all: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(dir).unwrap().map(Result::unwrap) {
        let path = entry.path();
        if path.is_dir() {
            files(&path, ending, all);
        } else if path.to_string_lossy().ends_with(ending) {
            all.push(path);
        }
    }
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn sources() -> Vec<Source> {
    let src = root().join("src");
    let mut paths = Vec::new();
    files(&src, ".rs", &mut paths);
    paths.sort();
    paths
        .into_iter()
        .map(|path| {
            let text = fs::read_to_string(&path).unwrap();
            let inside = path.strip_prefix(&src).unwrap().to_string_lossy().replace('\\', "/");
            let module = inside.split('/').next().unwrap().trim_end_matches(".rs").to_owned();
            let tests = inside.ends_with("tests.rs") || inside.contains("/tests/");
            let before_tests = if tests { "" } else { text.split("#[cfg(test)]").next().unwrap() };
            let code =
                before_tests.lines().filter(|l| !l.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
            Source { path, module, code, text }
        })
        .collect()
}

/// Modules named as `crate::NAME` in the code, in braces too.
fn used(code: &str) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    for rest in code.split("crate::").skip(1) {
        if let Some(list) = rest.strip_prefix('{') {
            let list = list.split(';').next().unwrap_or("");
            let mut depth = 0;
            let mut name = String::new();
            for c in list.chars() {
                match c {
                    '{' => depth += 1,
                    '}' if depth == 0 => break,
                    '}' => depth -= 1,
                    ',' | ':' if depth == 0 => {
                        names.insert(std::mem::take(&mut name));
                        depth = if c == ':' { depth } else { 0 };
                    }
                    c if depth == 0 && (c.is_alphanumeric() || c == '_') => name.push(c),
                    _ => {}
                }
            }
            names.insert(name);
        } else {
            names.insert(rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect());
        }
    }
    names.retain(|n| MAY_USE.iter().any(|(m, _)| m == n));
    names
}

#[test]
fn a_module_uses_only_what_its_row_names() {
    let mut faults = Vec::new();
    for source in sources().iter().filter(|s| s.module != "lib") {
        let Some((_, may)) = MAY_USE.iter().find(|(m, _)| *m == source.module) else {
            faults.push(format!("{} has no row in the table", source.path.display()));
            continue;
        };
        for name in used(&source.code) {
            let ground = ON_THE_GROUND.contains(&source.module.as_str()) && PURE.contains(&name.as_str());
            if name != source.module && !may.contains(&name.as_str()) && !may.contains(&"*") && !ground {
                faults.push(format!("{} uses {name}", source.path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Beside the screens: what several of them share.
const SHARED: [&str; 1] = ["chart_view"];

#[test]
fn a_screen_knows_no_other_screen_and_draws_only_in_its_view() {
    let mut faults = Vec::new();
    for source in sources().iter().filter(|s| s.module == "screens" || s.module == "popups") {
        let inside = source.path.to_string_lossy().replace('\\', "/");
        let own = inside.split(&format!("/{}/", source.module)).nth(1).unwrap().split('/').next().unwrap();
        let own = own.trim_end_matches(".rs");
        for other in source.code.split("crate::screens::").skip(1) {
            let other: String = other.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
            if source.module == "popups" || (other != own && !SHARED.contains(&other.as_str())) {
                faults.push(format!("{} uses screen {other}", source.path.display()));
            }
        }
        // A file draws where it is a view, or below its own `mod view {`; the lists of all screens and popups name the types.
        let name = inside.rsplit('/').next().unwrap();
        let view = inside.contains("/view/") || name.contains("view") || own == "mod";
        let state = source.code.split("\nmod view {").next().unwrap();
        if !view && (state.contains("ratatui") || state.contains("crate::ui")) {
            faults.push(format!("{} draws outside its view", source.path.display()));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn each_outside_thing_has_its_room() {
    let mut faults = Vec::new();
    for source in sources() {
        for (word, rooms) in ROOMS {
            if source.code.contains(word) && !rooms.contains(&source.module.as_str()) {
                faults.push(format!("{} names {word}", source.path.display()));
            }
        }
        if source.code.contains("terminal.clear(") {
            faults.push(format!("{}: Terminal::clear asks the terminal and may block", source.path.display()));
        }
        if source.code.contains("Color::Rgb") || source.code.contains("Color::Indexed") {
            faults.push(format!("{}: only the 16 colors every terminal has", source.path.display()));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_file_says_what_lives_there() {
    let silent: Vec<String> =
        sources().iter().filter(|s| !s.text.starts_with("//!")).map(|s| s.path.display().to_string()).collect();
    assert!(silent.is_empty(), "these do not open with //!:\n{}", silent.join("\n"));
}

#[test]
fn reading_order_in_lib_is_the_order_of_the_table() {
    let lib = fs::read_to_string(root().join("src/lib.rs")).unwrap();
    let listed: Vec<&str> =
        lib.lines().filter_map(|l| l.strip_prefix("pub mod ")).map(|l| l.trim_end_matches(';')).collect();
    let order: Vec<&str> = MAY_USE.iter().map(|(m, _)| *m).filter(|m| listed.contains(m)).collect();
    assert_eq!(listed, order);
}

#[test]
fn us_spelling_and_no_foreign_hosts() {
    // Each with the letter that would make it another word left out by the list itself.
    const NOT_OURS: [&str; 20] = [
        "colour",
        "fertiliser",
        "fertilise",
        "grey ",
        "centre",
        "centimetre",
        "millimetre",
        "litre",
        "metre ",
        "mould",
        "labelled",
        "programme",
        "behaviour",
        "favour",
        "judgement",
        "vapour",
        "organise",
        "recognis",
        "randomis",
        "summaris",
    ];
    let mut paths = vec![root().join("README.md"), root().join("DEVELOPERS.md")];
    for (dir, ending) in [("src", ".rs"), ("tests", ".rs")] {
        files(&root().join(dir), ending, &mut paths);
    }
    let mut faults = Vec::new();
    for path in paths.iter().filter(|p| p.exists() && !p.ends_with("architecture.rs")) {
        for (number, line) in fs::read_to_string(path).unwrap().lines().enumerate() {
            let lower = line.to_lowercase();
            for word in NOT_OURS.iter().filter(|w| lower.contains(**w)) {
                faults.push(format!("{}:{}: '{}'", path.display(), number + 1, word.trim()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_top_of_the_house_holds_only_what_belongs_there() {
    const TOP: [&str; 9] =
        ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "LICENSE", "src", "tests", "demo-data", "target"];
    let foreign: Vec<String> = fs::read_dir(root())
        .unwrap()
        .map(|e| e.unwrap().file_name().to_string_lossy().into_owned())
        .filter(|n| !n.starts_with('.') && !TOP.contains(&n.as_str()))
        .collect();
    assert!(foreign.is_empty(), "{foreign:?}");
}

#[test]
fn one_terminal_library_only() {
    let lock = fs::read_to_string(root().join("Cargo.lock")).unwrap();
    let copies = lock.lines().filter(|l| *l == "name = \"crossterm\"").count();
    assert_eq!(copies, 1, "two copies would be two event queues");
}
