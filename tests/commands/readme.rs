//! Every `$ benchwalk …` of the README is run, and what stands below it is what it prints.
//!
//! `BENCHWALK_README=1 cargo test --test commands readme` writes the answers anew.

use crate::Laptop;
use std::path::Path;

/// The words of a line, quoted ones kept together.
fn words(line: &str) -> Vec<String> {
    let mut all = Vec::new();
    for (i, piece) in line.split('\'').enumerate() {
        if i % 2 == 1 {
            all.push(piece.to_owned());
        } else {
            all.extend(piece.split_whitespace().map(str::to_owned));
        }
    }
    all
}

#[test]
fn every_command_shown_says_what_the_readme_says() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let mut readme = std::fs::read_to_string(&path).unwrap();
    let anew = std::env::var_os("BENCHWALK_README").is_some();
    let laptop = Laptop::new();
    let (mut at, mut shown) = (0, 0);
    while let Some(found) = readme[at..].find("$ benchwalk ") {
        let line_start = at + found;
        let line_end = line_start + readme[line_start..].find('\n').unwrap();
        let end = line_end + 1 + readme[line_end..].find("\n```").unwrap();
        let arguments = words(&readme[line_start + "$ benchwalk ".len()..line_end]);
        let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
        let said = laptop.done(&arguments);
        if anew {
            readme.replace_range(line_end + 1..end, &said);
        } else {
            assert_eq!(&readme[line_end + 1..end], said, "$ benchwalk {}", arguments.join(" "));
        }
        shown += 1;
        at = line_end + 1 + said.len();
    }
    assert!(shown >= 6, "night, calendar, climate and three of mix are shown: {shown}");
    if anew {
        std::fs::write(&path, readme).unwrap();
    }
}
