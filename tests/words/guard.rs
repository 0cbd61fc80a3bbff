//! Words that must not come back, wherever they would stand: archaisms, British forms, units said two ways, codes that can be
//! read as a product or a nutrient.

use crate::pieces::Piece;
use crate::{Pattern, everything, pieces, program::Program};
use std::collections::BTreeSet;

/// Words, and what is said instead.
const WORDS: &[(&str, &str)] = &[
    ("reckon*", "calculate, work out"),
    ("anew", "again"),
    ("afresh", "again"),
    ("whoever", "anybody who"),
    ("whosoever", "anybody who"),
    ("heeded", "respected"),
    ("parted by", "separated by"),
    ("blanks between", "spaces between"),
    ("passed over", "skipped"),
    ("passes over", "skips"),
    ("want of magnesium", "magnesium deficiency"),
    ("want of molybdenum", "molybdenum deficiency"),
    ("want of calcium", "lack of calcium"),
    ("tells it late", "shows late"),
    ("is told", "is reported"),
    ("struck out", "voided"),
    ("strike out", "void"),
    ("strikes out", "voids"),
    ("put off", "postponed"),
    ("puts off", "postpones"),
    ("set down", "placed"),
    ("write down", "log"),
    ("written down", "logged"),
    ("house rule", "Benchwalk's rule of thumb"),
    ("autumn*", "fall"),
    ("oedema", "edema"),
    ("adviser", "advisor"),
    ("fortnight", "two weeks"),
    ("afterwards", "afterward"),
    ("towards", "toward"),
    ("lamps", "lights"),
    ("second grade", "seconds"),
    ("thrown out", "dumped"),
    ("saturated to", "soaked"),
    ("re-entry interval", "restricted-entry interval (REI)"),
    ("re-entry hours", "REI, hours"),
    ("from the pack", "from the label"),
    ("the pack", "the label"),
];

/// Per pot, per gallon: never `mg a pot`. What stands before the article of a rate, and what it is counted by.
const AMOUNTS: &[&str] =
    &["mg", "g", "kg", "ml", "l", "fl oz", "oz", "lb", "cuttings", "larvae", "solution", "water", "dose", "digit"];
const COUNTED_BY: &[&str] = &["pot", "gallon", "liter", "card", "wedge", "cutting", "check"];

/// What is wrong with a piece: the line, and what was found.
fn wrong(piece: &Piece, words: &[(Pattern, &str)]) -> BTreeSet<(usize, String)> {
    let mut found = BTreeSet::new();
    for (pattern, instead) in words {
        if let Some(at) = pattern.find(&piece.text, &piece.lower) {
            found.insert((piece.line(at), format!("'{}': {instead}", pattern.text)));
        }
    }
    // By cells: a number and the unit of its axis are two of them.
    for (line, cell) in &piece.cells {
        let spaced = cell.match_indices(" %").any(|(at, _)| {
            let number = cell[..at].ends_with(|c: char| c.is_ascii_digit() || c == '}');
            // A format of days has a letter after the sign.
            number && !cell[at + 2..].starts_with(|c: char| c.is_alphanumeric() || c == '-')
        });
        if spaced {
            found.insert((*line, "a space before %: 85%".to_owned()));
        }
    }
    found.extend(code(piece));
    found
}

/// Bench codes that can be read as a nutrient, an element or a product: B, K, N, P or S and a number.
fn code(piece: &Piece) -> Option<(usize, String)> {
    let in_word = |c: char| c.is_alphanumeric() || c == '_' || c == '.';
    let starts =
        piece.text.char_indices().filter(|(at, c)| "BKNPS".contains(*c) && !piece.text[..*at].ends_with(in_word));
    for (at, _) in starts {
        let rest = &piece.text[at + 1..];
        let digits = rest.len() - rest.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let word_ends = !rest[digits..].starts_with(|c: char| c.is_alphanumeric() || c == '_');
        if (1..=2).contains(&digits) && word_ends {
            let read = &piece.text[at..=at + digits];
            return Some((piece.line(at), format!("'{read}': a code that can be read as a nutrient or a product")));
        }
    }
    None
}

fn patterns() -> Vec<(Pattern, &'static str)> {
    let rates = AMOUNTS.iter().flat_map(|what| COUNTED_BY.iter().map(move |by| format!("{what} a {by}")));
    let words = WORDS.iter().map(|(word, instead)| (Pattern::new(word), *instead));
    words.chain(rates.map(|rate| (Pattern::new(&rate), "per pot, per gal, per L, per card"))).collect()
}

#[test]
fn words_that_must_not_come_back() {
    let below = std::env::var("BENCHWALK_WORDS").unwrap_or_default();
    let words = patterns();
    let mut found = BTreeSet::new();
    for piece in everything(&Program::new(), &below) {
        // Seasons of tests have codes of their own.
        if !piece.of_tests {
            found
                .extend(wrong(&piece, &words).into_iter().map(|(line, what)| format!("{}:{line}: {what}", piece.path)));
        }
    }
    let lines: Vec<&str> = found.iter().map(String::as_str).collect();
    assert!(found.is_empty(), "{} found:\n{}", lines.len(), lines.join("\n"));
}

#[test]
fn the_guard_finds_what_it_is_there_for() {
    let words = patterns();
    let count = |text: &str| wrong(&Piece::page("a.snap", text), &words).len();
    for bad in ["as reckoned", "cool autumns", "85 %", "{spare} % spare", "4 mg a pot", "B9 closed", "oz a gallon"] {
        assert_eq!(count(bad), 1, "{bad}");
    }
    for good in ["85% solid", "%b %-d", "Oct 5 %H", "P2O5 and K2O", "Dell D9", "5 in a pot of mix", "mg per pot"] {
        assert_eq!(count(good), 0, "{good}");
    }
    let source = "const A: &str = \"want of \\\n    calcium\";\n";
    let literals = pieces::of_source("src/a.rs", source, false);
    assert_eq!(literals.iter().map(|piece| wrong(piece, &words).len()).sum::<usize>(), 1);
}
