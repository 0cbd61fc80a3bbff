//! A walk by digits alone, and what is in the file after it.

use crate::terminal::{Pty, query};
use std::collections::BTreeMap;

/// The bench and the check that are asked, read off the card: `Walk  M5`, `[water _]`.
fn asked(text: &str) -> Option<(String, String)> {
    let bench = text.lines().next()?.strip_prefix("Walk  ")?.split(' ').next()?.to_owned();
    let check = text.split('[').nth(1)?.trim_start_matches("re-check: ").split(' ').next()?.to_owned();
    Some((bench, check))
}

/// The view, its column and the digit for a check; a digit never follows the same digit, so that none is held back.
fn answer(check: &str, last: char) -> Option<(&'static str, &'static str, char)> {
    let (view, column, digits) = match check {
        "water" => ("water", "level", ['3', '2']),
        "base" => ("water", "base", ['3', '2']),
        "roots" => ("roots", "score", ['0', '1']),
        "reach" => ("roots", "reach", ['2', '1']),
        "bracts" => ("bracts", "stage", ['1', '2']),
        "whitefly" => ("pests", "infested", ['0', '1']),
        _ => return None,
    };
    Some((view, column, digits.into_iter().find(|d| *d != last)?))
}

#[test]
fn benches_are_walked_by_digits_alone_and_every_score_is_in_the_file() {
    let mut pty = Pty::demo();
    pty.send("w");
    let mut scores: BTreeMap<String, Vec<(&str, &str, char)>> = BTreeMap::new();
    let (mut keys, mut last) = (0, ' ');
    let mut text = pty.wait("the card", |text| asked(text).is_some());
    while scores.len() < 5 || keys < 6 {
        let now = asked(&text).unwrap_or_else(|| panic!("no check asked:\n{text}"));
        if let Some((view, column, digit)) = answer(&now.1, last) {
            pty.send(&digit.to_string());
            scores.entry(now.0.clone()).or_default().push((view, column, digit));
            (keys, last) = (keys + 1, digit);
        } else {
            // Heights are typed as a line; an empty one passes them over.
            pty.send("\r");
        }
        text =
            pty.wait("the next check", |text| asked(text).is_some_and(|next| next != now) || text.starts_with("Round"));
        if text.starts_with("Round") {
            break;
        }
    }
    assert!(scores.len() >= 3, "{scores:?}");
    // A digit more than asked would show as a row more than digits pressed.
    let digits: usize = scores.values().map(Vec::len).sum();
    assert_eq!(digits, keys);
    pty.wait("the last one saved", |text| text.contains("saved:") && !text.contains("NOT YET"));
    pty.send("\u{1b}");
    pty.wait("the Round", |text| text.starts_with("Round"));
    pty.send("q");
    assert_eq!(pty.ended().0.exit_code(), 0);
    let file = pty.path("season.db");
    for (bench, given) in &scores {
        for (view, column, digit) in given {
            let want = match (*column, digit) {
                ("reach", '1') => "center".to_owned(),
                ("reach", _) => "wall".to_owned(),
                _ => digit.to_string(),
            };
            let sql = format!(
                "SELECT {column} FROM {view} WHERE bench = '{bench}' AND day = '2026-10-14' AND {column} IS NOT NULL"
            );
            let found = query(&file, &sql);
            assert!(found.contains(&want), "{bench} {view}.{column}: wanted {want}, found {found:?}");
        }
    }
    let sql = "SELECT count(*) FROM written WHERE author = 'demo'";
    assert_eq!(query(&file, sql), [keys.to_string()], "one row a digit");
}

#[test]
fn what_was_shown_as_saved_outlives_a_kill() {
    let mut pty = Pty::demo();
    pty.send("w");
    let text = pty.wait("the card", |text| text.contains("[water _]"));
    let (bench, _) = asked(&text).unwrap();
    pty.send("4");
    pty.wait("saved", |text| text.contains(&format!("saved: {bench} water 4")));
    pty.signal("KILL");
    pty.ended();
    let sql = format!("SELECT level FROM water WHERE bench = '{bench}' AND day = '2026-10-14'");
    assert_eq!(query(&pty.path("season.db"), &sql), ["4"]);
    assert_eq!(query(&pty.path("season.db"), "PRAGMA integrity_check"), ["ok"]);
}

#[test]
fn an_own_journal_is_imported_from_the_first_run_page() {
    let mut pty = Pty::start(&["--season", "own.db", "--on", "2026-10-12", "--by", "me"]);
    pty.wait("the first-run page", |text| text.contains("There is no season file yet."));
    let journal = concat!(
        "{\"type\":\"journal\",\"version\":1}\n",
        "{\"type\":\"site\",\"name\":\"Two Benches\",\"latitude\":44.1,\"longitude\":-70.2,\"time_zone\":\"America/New_York\",\"units\":\"us\"}\n",
        "{\"type\":\"lot\",\"lot\":\"L1\",\"cultivar\":\"mid red\",\"container\":\"6.5 in\",\"cuttings_per_pot\":1,\"pots\":160,\"planted\":\"2026-08-17\",\"pinch\":\"soft\",\"response_weeks\":9,\"nights\":\"natural\",\"ready_by\":\"2026-11-27\"}\n",
        "{\"type\":\"bench\",\"bench\":\"E1\",\"house\":\"East\",\"order\":1}\n",
        "{\"type\":\"bench\",\"bench\":\"E2\",\"house\":\"East\",\"order\":2}\n",
        "{\"type\":\"placement\",\"bench\":\"E1\",\"lot\":\"L1\",\"pots\":80,\"from\":\"2026-08-17\"}\n",
        "{\"type\":\"placement\",\"bench\":\"E2\",\"lot\":\"L1\",\"pots\":80,\"from\":\"2026-08-17\"}\n",
    );
    let bad = pty.path("bad.jsonl");
    std::fs::write(&bad, journal.replace("\"pots\":80", "\"pots\":-1")).unwrap();
    std::fs::write(pty.path("good.jsonl"), journal).unwrap();
    pty.send("i");
    pty.wait("the question", |text| text.contains("The path of the file"));
    pty.send("bad.jsonl\r");
    pty.wait("the faults", |text| text.contains("Not imported") && text.contains("line 6") && text.contains("line 7"));
    assert!(!pty.path("own.db").exists(), "nothing is written");
    pty.send("\u{1b}");
    pty.wait("the first-run page", |text| {
        text.contains("There is no season file yet.") && !text.contains("Not imported")
    });
    pty.send("i");
    pty.wait("the question", |text| text.contains("The path of the file"));
    pty.send("good.jsonl\r");
    pty.wait("the Round", |text| text.contains("Two Benches") && text.contains("walked 0 of 2"));
    pty.send("w");
    pty.wait("the card", |text| text.starts_with("Walk  E1"));
    pty.send("3");
    pty.wait("saved", |text| text.contains("saved: E1 water 3"));
    pty.send("\u{11}");
    assert_eq!(pty.ended().0.exit_code(), 0);
    assert_eq!(query(&pty.path("own.db"), "SELECT bench, level, author FROM water"), ["E1 3 me"]);
}
