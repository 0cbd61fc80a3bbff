//! The house, held against the sources: who may use whom, what every file opens with, what is left to which room.
//!
//! The table is the one in DEVELOPERS.md. A new module gets a row in both.

#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::format_collect,
    reason = "a test that cannot go on stops there"
)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// The ground: modules without clock, file or terminal, in reading order. `model` and what stands on it may use all of them.
const PURE: &[&str] = &[
    "dates",
    "characters",
    "progress",
    "units",
    "stats",
    "terms",
    "record",
    "limits",
    "season",
    "trials",
    "crop",
    "mix",
    "warnings",
    "compare",
    "journal",
    "exchange",
    "review",
    "totals",
    "report",
    "input",
];

/// Module, and the modules it may use.
const MAY_USE: &[(&str, &[&str])] = &[
    ("dates", &[]),
    ("characters", &[]),
    ("progress", &[]),
    ("units", &[]),
    ("stats", &[]),
    ("terms", &["units"]),
    ("record", &["units", "terms", "characters", "dates"]),
    ("limits", &["units", "terms", "characters"]),
    ("season", &["record", "terms", "dates", "units"]),
    ("trials", &["stats", "season", "record", "limits", "terms", "dates", "units"]),
    ("crop", &["limits", "terms", "stats", "dates", "units"]),
    ("mix", &["crop", "record", "limits", "terms", "dates", "units"]),
    ("warnings", &["season", "crop", "record", "limits", "terms", "dates", "units"]),
    ("compare", &["warnings", "season", "crop", "record", "limits", "stats", "dates"]),
    ("journal", &["crop", "record", "terms", "dates", "units", "progress"]),
    ("exchange", &[]),
    ("files", &["characters"]),
    ("store", &["files", "exchange", "record", "terms", "progress"]),
    ("folder", &["files", "exchange", "journal", "characters"]),
    ("hub", &["files", "exchange", "characters"]),
    ("review", &["trials", "warnings", "mix", "season", "crop", "record", "limits", "terms", "dates", "units"]),
    ("totals", &["warnings", "season", "crop", "record", "limits", "terms", "dates", "units"]),
    (
        "report",
        &[
            "totals", "review", "compare", "exchange", "trials", "stats", "mix", "warnings", "season", "crop",
            "record", "limits", "terms", "dates", "units",
        ],
    ),
    ("input", &[]),
    ("keys", &["input"]),
    ("controls", &["input", "keys", "characters"]),
    ("ui", &["input", "controls"]),
    ("model", &["keys", "controls"]),
    ("panes", &["model", "keys", "controls", "ui"]),
    ("screens", &["panes", "model", "keys", "controls", "ui"]),
    ("popups", &["panes", "model", "keys", "controls", "ui"]),
    ("app", &["screens", "popups", "panes", "model", "keys", "controls", "ui"]),
    ("term", &["input"]),
    ("clock", &["dates"]),
    ("run", &["*"]),
    (
        "session",
        &[
            "run",
            "model",
            "compare",
            "journal",
            "files",
            "exchange",
            "store",
            "folder",
            "hub",
            "season",
            "crop",
            "record",
            "limits",
            "dates",
            "units",
            "characters",
            "progress",
        ],
    ),
    ("commands", &["*"]),
    ("main", &["*"]),
    ("build", &[]),
];

/// Modules that may use every pure module beside what their row names.
const ON_THE_GROUND: [&str; 5] = ["model", "panes", "screens", "popups", "app"];

/// Words that belong to one room, and the rooms they may stand in.
const ROOMS: [(&str, &[&str]); 12] = [
    ("rusqlite", &["store"]),
    ("crossterm", &["term"]),
    ("Utc::now", &["clock"]),
    ("Local::now", &["clock"]),
    ("SystemTime::now", &["clock"]),
    ("postgres", &["hub"]),
    ("rustls", &["hub"]),
    ("windows_permissions", &["files"]),
    ("std::fs", &["files", "store", "folder", "hub", "term", "clock", "run", "session", "commands", "main", "build"]),
    ("std::env", &["store", "hub", "term", "clock", "run", "session", "commands", "main", "build"]),
    ("std::process", &["files", "store", "term", "run", "session", "commands", "main", "build"]),
    ("ratatui", &["ui", "panes", "screens", "popups", "app", "term", "run"]),
];

struct Source {
    path: PathBuf,
    /// Its path below `src`.
    inside: String,
    /// The top module it belongs to.
    module: String,
    /// Its code without tests and comments, each piece with the module it stands in: the file's own, and those opened in it.
    pieces: Vec<(Vec<String>, String)>,
    text: String,
}

impl Source {
    /// All its code without tests and comments.
    fn code(&self) -> String {
        self.pieces.iter().map(|(_, code)| code.as_str()).collect::<Vec<_>>().join("\n")
    }

    /// The code of the file itself, without modules opened in it.
    fn own_code(&self) -> &str {
        &self.pieces[0].1
    }
}

fn files(dir: &Path, ending: &str, all: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(dir).unwrap().map(Result::unwrap) {
        let path = entry.path();
        // What a fuzz target was built to is no source.
        if path.is_dir() && path.file_name().is_some_and(|name| name != "target") {
            files(&path, ending, all);
        } else if path.is_file() && path.to_string_lossy().ends_with(ending) {
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
            let pieces = pieces(&inside, &text);
            Source { path, inside, module, pieces, text }
        })
        .collect()
}

/// The module a file is: `popups/form/view.rs` is `popups::form::view`, `popups/mod.rs` is `popups`.
fn module_path(inside: &str) -> Vec<String> {
    let mut path: Vec<String> = inside.trim_end_matches(".rs").split('/').map(str::to_owned).collect();
    if path.last().is_some_and(|last| last == "mod") {
        path.pop();
    }
    path
}

/// The code of a file without comments and without what stands under `#[cfg(test)]`, parted by the modules opened in it.
fn pieces(inside: &str, text: &str) -> Vec<(Vec<String>, String)> {
    let file = module_path(inside);
    let mut pieces = vec![(file.clone(), String::new())];
    if file.iter().any(|name| name == "tests") {
        return pieces;
    }
    let mut lines = text.lines().filter(|l| !l.trim_start().starts_with("//"));
    let mut open = 0;
    while let Some(line) = lines.next() {
        if line == "#[cfg(test)]" {
            // An item in one line, or one that ends with a brace under its first letter.
            let item = lines.by_ref().find(|l| !l.starts_with("#[")).unwrap_or("");
            if !item.ends_with(';') {
                let _end = lines.by_ref().find(|l| *l == "}");
            }
            continue;
        }
        let opened =
            line.strip_suffix(" {").and_then(|l| l.split_once("mod ")).filter(|(before, _)| !before.starts_with(' '));
        if let Some((_, name)) = opened {
            let path = file.iter().cloned().chain([name.to_owned()]).collect();
            open = pieces.len();
            pieces.push((path, String::new()));
        }
        let code = &mut pieces[open].1;
        code.push_str(line);
        code.push('\n');
        if line == "}" {
            open = 0;
        }
    }
    pieces
}

/// The first names of a path, or of a list of paths in braces.
fn first_names(rest: &str) -> BTreeSet<String> {
    let name = |text: &str| text.trim_start().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
    let Some(list) = rest.strip_prefix('{') else { return BTreeSet::from([name(rest)]) };
    let (mut names, mut depth, mut item) = (BTreeSet::new(), 0, String::new());
    for c in list.chars() {
        match c {
            '}' if depth == 0 => break,
            ',' if depth == 0 => {
                names.insert(name(&item));
                item.clear();
                continue;
            }
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        item.push(c);
    }
    names.insert(name(&item));
    names
}

/// What code that stands in a module names of the modules below another one (of the crate, if that is empty): by
/// `crate::NAME`, by `super::NAME` as often as it takes, and in braces.
fn named_below(of: &[&str], path: &[String], code: &str) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    let part_of_a_name = |c: char| c.is_alphanumeric() || c == '_' || c == ':';
    for (start, word) in code.match_indices("crate::").chain(code.match_indices("super::")) {
        if code[..start].ends_with(part_of_a_name) {
            continue;
        }
        let mut at = if word == "crate::" { &[] } else { &path[..path.len().saturating_sub(1)] };
        let mut rest = &code[start + word.len()..];
        while let Some(further) = rest.strip_prefix("super::") {
            at = &at[..at.len().saturating_sub(1)];
            rest = further;
        }
        let at: Vec<&str> = at.iter().map(String::as_str).collect();
        if let Some(way) = of.strip_prefix(at.as_slice()) {
            let way: String = way.iter().map(|name| format!("{name}::")).collect();
            if let Some(rest) = rest.strip_prefix(way.as_str()) {
                names.extend(first_names(rest));
            }
        } else if let Some([name, ..]) = at.strip_prefix(of) {
            names.insert((*name).to_owned());
        }
    }
    names
}

/// The top modules that a file names.
fn used(source: &Source) -> BTreeSet<String> {
    let mut names: BTreeSet<String> =
        source.pieces.iter().flat_map(|(path, code)| named_below(&[], path, code)).collect();
    names.retain(|n| MAY_USE.iter().any(|(m, _)| m == n));
    names
}

#[test]
fn every_spelling_of_a_use_is_seen() {
    let path = |text: &str| text.split("::").map(str::to_owned).collect::<Vec<_>>();
    let seen =
        |of: &[&str], at: &str, code: &str| named_below(of, &path(at), code).into_iter().collect::<Vec<_>>().join(" ");
    for (at, code, names) in [
        ("crop::feed::dose", "use crate::units::Mass;", "units"),
        (
            "crop::feed::dose",
            "use crate::{limits::{Limits, Basis}, units, terms::Material as M};",
            "limits terms units",
        ),
        ("crop::feed::dose", "fn f() -> crate::store::Store", "store"),
        ("crop::feed::dose", "use super::super::super::store::Store;", "store"),
        ("crop::feed::dose", "use super::super::super::{store, clock};", "clock store"),
        ("crop::feed::dose", "use super::super::night;", "crop"),
        ("clock", "use super::store;", "store"),
        ("crop::feed::dose", "use othercrate::store; use core::super_::store;", ""),
    ] {
        assert_eq!(seen(&[], at, code), names, "{code} in {at}");
    }
    for (at, code, names) in [
        ("screens::walk::view", "use crate::screens::round::Round;", "round"),
        ("screens::walk::view", "use crate::screens::{chart_view, round::Round};", "chart_view round"),
        ("screens::walk::view", "use super::super::round::Round;", "round"),
        ("screens::walk::view", "use super::Walk;", "walk"),
        ("popups::form", "use super::super::screens::round;", "round"),
        ("popups::form", "use super::row;", ""),
    ] {
        assert_eq!(seen(&["screens"], at, code), names, "{code} in {at}");
    }
}

#[test]
fn tests_are_left_out_and_what_follows_them_is_not() {
    let text = "use a;\n#[cfg(test)]\nmod tests;\nuse b;\n// use c;\nmod view {\n    use d;\n}\n#[cfg(test)]\nmod more {\n    use e;\n}\nuse f;\n";
    let found = pieces("ui/big.rs", text);
    let expected = [("ui::big", "use a;\nuse b;\nuse f;\n"), ("ui::big::view", "mod view {\n    use d;\n}\n")];
    assert_eq!(
        found.iter().map(|(p, c)| (p.join("::"), c.clone())).collect::<Vec<_>>(),
        expected.map(|(p, c)| (p.to_owned(), c.to_owned()))
    );
    assert_eq!(module_path("popups/form/mod.rs"), ["popups", "form"]);
    assert_eq!(pieces("ui/charts/tests.rs", "use a;\n")[0].1, "");
}

#[test]
fn a_module_uses_only_what_its_row_names() {
    let mut faults = Vec::new();
    for source in sources().iter().filter(|s| s.module != "lib") {
        let Some((_, may)) = MAY_USE.iter().find(|(m, _)| *m == source.module) else {
            faults.push(format!("{} has no row in the table", source.path.display()));
            continue;
        };
        for name in used(source) {
            let ground = ON_THE_GROUND.contains(&source.module.as_str()) && PURE.contains(&name.as_str());
            if name != source.module && !may.contains(&name.as_str()) && !may.contains(&"*") && !ground {
                faults.push(format!("{} uses {name}", source.path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn arrows_point_down() {
    let place = |module: &str| MAY_USE.iter().position(|(m, _)| *m == module).unwrap();
    let mut faults = Vec::new();
    for (module, may) in MAY_USE {
        let up = may.iter().filter(|name| **name != "*" && place(name) >= place(module));
        faults.extend(up.map(|name| format!("the row of {module} names {name}, which stands below it")));
    }
    for source in sources().iter().filter(|s| s.module != "lib") {
        let up = used(source).into_iter().filter(|name| place(name) > place(&source.module));
        faults.extend(up.map(|name| format!("{} uses {name}, which stands below it", source.path.display())));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// A row of the page's map names what its row here names; `model` and what stands on it, every pure module too.
#[test]
fn the_developers_page_shows_this_table() {
    let page = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let map = page.split("| module |").nth(1).unwrap().split("\n\n").next().unwrap();
    let mut shown = BTreeSet::new();
    let mut faults = Vec::new();
    for row in map.lines().filter(|line| line.starts_with("| `")) {
        let cells: Vec<&str> = row.split('|').collect();
        let may = cells[cells.len() - 2];
        for module in quoted(cells[1]).map(|name| name.trim_end_matches('/')) {
            let Some((_, real)) = MAY_USE.iter().find(|(m, _)| *m == module) else {
                faults.push(format!("the page names {module}, which has no row here"));
                continue;
            };
            shown.insert(module);
            let words: BTreeSet<&str> =
                may.split([',', ';', ' ']).filter(|w| MAY_USE.iter().any(|(m, _)| m == w)).collect();
            let real: BTreeSet<&str> = real.iter().copied().filter(|name| *name != "*").collect();
            if words != real {
                faults.push(format!("{module}: the page says {words:?}, the table {real:?}"));
            }
            if may.contains("all") != MAY_USE.iter().any(|(m, may)| *m == module && may.contains(&"*"))
                || may.contains("pure modules") != ON_THE_GROUND.contains(&module)
            {
                faults.push(format!("{module}: the page says '{}'", may.trim()));
            }
        }
    }
    let silent = MAY_USE.iter().map(|(m, _)| *m).filter(|m| !["main", "build"].contains(m) && !shown.contains(m));
    faults.extend(silent.map(|module| format!("the page does not show {module}")));
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Beside the screens: what several of them share.
const SHARED: [&str; 1] = ["chart_view"];

/// Files beside the views that draw: the lists of all screens and popups name the types, the others are parts of a view.
const ALSO_DRAW: [&str; 4] = ["screens/mod.rs", "popups/mod.rs", "screens/chart_view.rs", "screens/bench/rows.rs"];

#[test]
fn a_screen_knows_no_other_screen() {
    let mut faults = Vec::new();
    for source in sources().iter().filter(|s| s.module == "screens" || s.module == "popups") {
        let own = module_path(&source.inside).get(1).cloned().unwrap_or_default();
        let screens: BTreeSet<String> =
            source.pieces.iter().flat_map(|(path, code)| named_below(&["screens"], path, code)).collect();
        for other in screens.iter().filter(|name| name.starts_with(char::is_lowercase)) {
            let allowed =
                source.module == "screens" && (*other == own || SHARED.contains(&other.as_str()) || own.is_empty());
            if !allowed {
                faults.push(format!("{} uses screen {other}", source.path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// A view is `view.rs`, a file in a folder `view`, or a `mod view` opened in the file of its screen.
#[test]
fn a_screen_draws_only_in_its_view() {
    let draws = |code: &str| code.contains("ratatui") || code.contains("crate::ui");
    let mut faults = Vec::new();
    for source in sources().iter().filter(|s| s.module == "screens" || s.module == "popups") {
        let is_view = module_path(&source.inside).iter().skip(1).any(|name| name == "view");
        let listed = ALSO_DRAW.contains(&source.inside.as_str());
        let own = draws(source.own_code());
        let elsewhere = source.pieces[1..].iter().any(|(path, code)| draws(code) && path.last().unwrap() != "view");
        if (own && !is_view && !listed) || elsewhere {
            faults.push(format!("{} draws outside its view", source.path.display()));
        }
        if listed && !own {
            faults.push(format!("{} draws nothing: take it off the list", source.path.display()));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn each_outside_thing_has_its_room() {
    let mut faults = Vec::new();
    for source in sources() {
        let code = source.code();
        for (word, rooms) in ROOMS {
            if code.contains(word) && !rooms.contains(&source.module.as_str()) {
                faults.push(format!("{} names {word}", source.path.display()));
            }
        }
        if code.contains("terminal.clear(") {
            faults.push(format!("{}: Terminal::clear asks the terminal and may block", source.path.display()));
        }
        if code.contains("Color::Rgb") || code.contains("Color::Indexed") {
            faults.push(format!("{}: only the 16 colors every terminal has", source.path.display()));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// A format of days that is wrong, or asks a day for its hour, ends the program where it is shown.
#[test]
fn formats_of_days_are_written_out_and_known() {
    use chrono::format::{Item, StrftimeItems};
    let mut seen = 0;
    for source in sources() {
        for piece in source.code().split(".format(").skip(1) {
            let written = piece.strip_prefix('"').and_then(|rest| rest.split('"').next());
            let format = written.unwrap_or_else(|| panic!("{}: a format that is not written out", source.inside));
            let known = StrftimeItems::new(format).all(|item| !matches!(item, Item::Error));
            assert!(known, "{}: {format:?} is no format", source.inside);
            seen += 1;
        }
    }
    assert!(seen > 5, "{seen} formats found");
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

/// True where a text has the word, or one that begins with it, by itself.
fn has_word(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(at, _)| !text[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_'))
}

#[test]
fn comments_use_the_words_of_library_documentation() {
    // Standard terms instead: calculate, report, show, again, separated, the caller.
    const NOT_IN_COMMENTS: [&str; 6] = ["told", "reckon", "anew", "whoever", "thumb", "parted"];
    let mut faults = Vec::new();
    for source in sources() {
        // Where options are defined `///` is what `--help` prints.
        let printed =
            ["Args", "Subcommand", "Parser"].iter().any(|d| source.text.contains(&format!("derive(Debug, {d})")))
                || source.text.contains("Default, Args)");
        for (number, line) in source.text.lines().enumerate() {
            let line = line.trim_start();
            if !line.starts_with("//") || printed && line.starts_with("///") {
                continue;
            }
            // The name of one basis of a number; what a trial says of two treatments.
            let lower = line.to_lowercase().replace("rule of thumb", "").replace("told apart", "");
            for word in NOT_IN_COMMENTS.iter().filter(|word| has_word(&lower, word)) {
                faults.push(format!("{}:{}: '{word}'", source.path.display(), number + 1));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// What stands between backquotes.
fn quoted(text: &str) -> impl Iterator<Item = &str> {
    text.split('`').skip(1).step_by(2)
}

#[test]
fn the_developers_page_names_files_and_types_that_are_there() {
    let page = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let mut faults = Vec::new();
    // A name in angle brackets is a place to fill in.
    let paths = page.lines().flat_map(quoted).filter(|p| ["src/", "tests/"].iter().any(|top| p.starts_with(top)));
    for path in paths.filter(|p| !p.contains('<')) {
        if !root().join(path).exists() {
            faults.push(format!("no file {path}"));
        }
    }
    let code: String = sources().iter().map(|source| source.code() + "\n").collect();
    let words: BTreeSet<&str> = code.split(|c: char| !c.is_alphanumeric() && c != '_').collect();
    let glossary = page.split("## Glossary").nth(1).unwrap().split("\n## ").next().unwrap();
    for row in glossary.lines().filter(|line| line.starts_with("| ")) {
        for name in row.split('|').nth(3).into_iter().flat_map(quoted) {
            if !name.split("::").all(|part| words.contains(part)) {
                faults.push(format!("no {name} in the code"));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_known_problem_is_held_by_a_test_that_is_there() {
    let page = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let section = page.split("\n## Known problems").nth(1).unwrap().split("\n## ").next().unwrap();
    let mut paths = Vec::new();
    for top in ["src", "tests"] {
        files(&root().join(top), ".rs", &mut paths);
    }
    let code: Vec<String> = paths.iter().map(|path| fs::read_to_string(path).unwrap()).collect();
    let rows: Vec<&str> =
        section.lines().filter(|line| line.starts_with("| ") && !line.starts_with("| -")).skip(1).collect();
    let mut faults = Vec::new();
    for (number, row) in (1..).zip(&rows) {
        if !row.starts_with(&format!("| {number}. ")) {
            faults.push(format!("row {number} is missing: {row}"));
        }
        let held = row.split('|').nth(2).unwrap();
        for name in quoted(held).filter(|name| name.contains('_') && !name.contains(['/', '.'])) {
            if !code.iter().any(|text| text.contains(&format!("fn {name}("))) {
                faults.push(format!("no test {name}"));
            }
        }
    }
    assert!(faults.is_empty() && rows.len() == 46, "{} rows\n{}", rows.len(), faults.join("\n"));
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
