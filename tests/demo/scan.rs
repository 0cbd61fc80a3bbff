//! No example anywhere names what could be misread: a bench that reads as a nutrient or a product, initials that are a unit, a
//! house or a container that the demo does not have.

use std::path::{Path, PathBuf};

/// Given from outside, or frozen: public cases, what an earlier version of the program wrote, the tests that look for old texts, and what a failed run leaves.
const KEPT: [&str; 10] = [
    "tests/cases",
    "tests/store/v1.jsonl",
    "tests/store/v3.jsonl",
    "tests/store/v1.db",
    "tests/store/v3.db",
    "tests/store/older.rs",
    "tests/store/killed.rs",
    "tests/outside/trial-sets.json",
    "tests/words",
    "tests/proptest-regressions",
];

const PLACES: [&str; 5] = ["src", "tests", "demo-data", "README.md", "DEVELOPERS.md"];

/// Whole texts that are in no example; in two pieces each, so that this file does not hold them.
const TEXTS: [(&str, &str); 12] = [
    ("\"Broo", "k\""),
    ("Alder H", "ollow"),
    ("house N", "orth"),
    ("house S", "outh"),
    ("\"container\":\"4.5", " in\""),
    ("\"container\":\"6", " in\""),
    ("\"container\":\"8", " in\""),
    ("red, 6", " in"),
    ("red, 8", " in"),
    ("\"by\":\"m", "l\""),
    ("by = \"m", "l\""),
    ("such as m", "l"),
];

fn files(path: &Path, found: &mut Vec<PathBuf>) {
    if path.is_dir() {
        for entry in std::fs::read_dir(path).unwrap() {
            files(&entry.unwrap().path(), found);
        }
    } else {
        found.push(path.to_owned());
    }
}

/// Every text file of the examples, by its path in the repository.
fn all() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    for place in PLACES {
        files(&root.join(place), &mut found);
    }
    let named =
        found.into_iter().map(|path| (path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/"), path));
    let wanted = named.filter(|(name, _)| !KEPT.iter().any(|kept| name.starts_with(kept)));
    wanted.filter_map(|(name, path)| Some((name, std::fs::read_to_string(path).ok()?))).collect()
}

/// `B`, `N`, `P`, `K` or `S` before a number, as a word of its own.
fn reads_as_a_nutrient(word: &str) -> bool {
    let rest = word.strip_prefix(['B', 'N', 'P', 'K', 'S']);
    rest.is_some_and(|number| (1..=3).contains(&number.len()) && number.bytes().all(|b| b.is_ascii_digit()))
}

fn faults(name: &str, text: &str) -> Vec<String> {
    let mut faults = Vec::new();
    for (number, line) in (1..).zip(text.lines()) {
        // An escape of a string literal ends a word.
        let plain = line.replace("\\n", " ").replace("\\t", " ");
        let words = plain.split(|c: char| !(c.is_alphanumeric() || c == '_'));
        faults.extend(words.filter(|word| reads_as_a_nutrient(word)).map(|word| format!("{name}:{number}: {word}")));
        let texts = TEXTS.iter().map(|(a, b)| format!("{a}{b}")).filter(|text| line.contains(text.as_str()));
        faults.extend(texts.map(|text| format!("{name}:{number}: {text}")));
    }
    faults
}

#[test]
fn no_example_names_a_bench_a_house_a_size_or_initials_that_could_be_misread() {
    let all = all();
    for name in ["demo-data/demo.jsonl", "README.md", "src/commands/help/sql.md", "tests/screens/walking.rs"] {
        assert!(all.iter().any(|(found, _)| found == name), "{name} is not looked at");
    }
    let found: Vec<String> = all.iter().flat_map(|(name, text)| faults(name, text)).collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn what_could_be_misread_is_found() {
    for (a, b) in [
        ("bench N", "1"),
        ("\"B", "12\","),
        ("N", "1-N"),
        ("a\\nS", "3,West"),
        ("P", "6{Tab}"),
        TEXTS[0],
        TEXTS[6],
        TEXTS[10],
    ] {
        assert!(!faults("", &format!("{a}{b}")).is_empty(), "{a}{b}");
    }
    for line in ["M1", "D12", "E1-E6", "lot R1", "20-10-20 N", "K2O", "P2O5", "\"container\":\"6.5 in\"", "NOTE1"] {
        assert_eq!(faults("", line), Vec::<String>::new(), "{line}");
    }
}
