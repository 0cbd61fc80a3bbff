//! Last year's season beside this one, on the command line.

use crate::{Laptop, SMALL, arg, water};

/// The demo with its season of the year before.
fn demo() -> Laptop {
    let laptop = Laptop::new();
    laptop.done(&["--season", arg(&laptop.path("demo.db")), "demo", "--no-open"]);
    laptop
}

/// A season of one lot, with a year and a lot of its own.
fn season(laptop: &Laptop, name: &str, (year, lot): (&str, &str), more: &str) -> std::path::PathBuf {
    let text = (SMALL.to_owned() + more).replace("2026", year).replace("\"R1\"", &format!("\"{lot}\""));
    let journal = laptop.file(&format!("{name}.jsonl"), &text);
    let db = laptop.path(&format!("data/{name}.db"));
    laptop.done(&["--season", arg(&db), "--by", "kt", "import", arg(&journal)]);
    db
}

#[test]
fn a_grower_compares_two_seasons_lot_by_lot() {
    let laptop = demo();
    let last = laptop.path("demo-last-year.db");
    let before = std::fs::read(&last).unwrap();
    let this = laptop.path("demo.db");
    let text = laptop.done(&["--on", "2026-10-14", "compare", arg(&last), arg(&this)]);
    // Where the line breaks depends on the length of the path.
    let first = text.split_inclusive('\n').take(3).collect::<String>().replace("\n           ", " ");
    assert!(first.contains("last year  [root]/demo-last-year.db, as named on the command line"), "{text}");
    for wanted in [
        "R1 beside R6 of last year",
        "day 57 of the crop, week 9; matched by cultivar and container",
        "Aug 18; last year Aug 21: 3 days earlier",
        "warmer",
        "drier",
        "13 root rot",
        "began 10 days later",
        "What to do differently",
        "1  staying wet, lot R6 (M1, M2): began Sat Oct 4",
        "Day 44 of the crop; in R1 that is Thu Oct 1.",
        "First: Do not water until it reads 2.",
    ] {
        assert!(text.contains(wanted), "no {wanted:?} in\n{text}");
    }
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    assert_eq!(std::fs::read(&last).unwrap(), before, "last year's file is as it was");
    // The one beside the season is found, and that is said.
    let found = laptop.done(&["--season", arg(&this), "--on", "2026-10-14", "compare"]);
    assert!(found.replace("\n           ", " ").contains("found in the folder of the season"), "{found}");
}

#[test]
fn the_same_comes_as_json_and_as_html_with_both_years_drawn() {
    let laptop = demo();
    let this = laptop.path("demo.db");
    let of = |format| laptop.done(&["--season", arg(&this), "--on", "2026-10-14", "compare", "--format", format]);
    let json: serde_json::Value = serde_json::from_str(&of("json")).unwrap();
    assert_eq!(json["lots"].as_array().unwrap().len(), 5);
    assert_eq!((&json["lots"][1]["this"], &json["lots"][1]["last"]), (&"R1".into(), &"R6".into()));
    assert_eq!(json["cost_most_last_year"][0]["warning"], "staying-wet");
    assert_eq!(json["cost_most_last_year"][0]["began"], "2025-10-04");
    let html = of("html");
    assert!(html.contains("R1 height by crop week, beside R6 of last year") && html.contains("last year (R6)"));
    assert!(
        html.contains("class=\"line last\"") && html.contains(".last{stroke-dasharray") && !html.contains("<script")
    );
    // The season's own report draws last year's line too, unless nobody wants it.
    let season = |more: &[&str]| {
        let first = ["--season", arg(&this), "--on", "2026-10-14", "season", "--format", "html", "--benches"];
        laptop.done(&first.iter().chain(more).copied().collect::<Vec<_>>())
    };
    assert!(season(&[]).contains("last year (R6)"));
    assert!(!season(&["--beside", "none"]).contains("last year"));
}

#[test]
fn last_year_is_found_named_or_configured_and_a_bad_file_stops_nothing() {
    let laptop = Laptop::new();
    let scored = water(2, 3);
    season(&laptop, "old", ("2025", "R6"), &(scored.clone() + "\n"));
    let this = season(&laptop, "season", ("2026", "R1"), &(scored + "\n"));
    let compare = |more: &[&str]| laptop.run(&[&["compare"], more].concat());
    assert!(compare(&[]).out.contains("[root]/data/old.db, found in the folder"), "{:?}", compare(&[]));
    // A season of another place, or of the same year, is none of last year.
    let (named, bad) = (laptop.path("data/old.db"), laptop.file("notes.db", "no season"));
    std::fs::rename(&named, laptop.path("old.db")).unwrap();
    let none = compare(&[]);
    assert!(none.code == 1 && none.err.contains("no season of last year is found"), "{none:?}");
    laptop.file("config/config.toml", &format!("beside = '{}'\n", laptop.path("old.db").display()));
    assert!(compare(&[]).out.contains("[root]/old.db, as named in config.toml"), "{:?}", compare(&[]));
    // What was typed comes before what is configured; the report of the season does without it.
    let said = laptop.run(&["--beside", arg(&bad), "season", "--format", "html", "--benches"]);
    assert!(said.code == 0 && said.out.contains("</html>"), "{said:?}");
    assert!(said.err.contains("Last year's season is not shown") && said.err.contains("notes.db"), "{}", said.err);
    let own = laptop.run(&["--beside", arg(&this), "compare"]);
    assert!(own.code == 1 && own.err.contains("this is the season itself"), "{own:?}");
    for (text, wanted) in [
        ("beside = \"old.db\"", "is not a full path"),
        ("match = [\"R6\"]", "line 1: match: 'R6' is not two lots"),
        ("match = 3", "give a list of pairs"),
    ] {
        laptop.file("config/config.toml", text);
        let said = compare(&[]);
        assert!(said.code == 1 && said.err.contains(wanted) && said.err.contains("config.toml"), "{text}: {said:?}");
    }
}

#[test]
fn lots_that_changed_their_name_or_pot_are_matched_by_hand() {
    let laptop = Laptop::new();
    let scored = water(2, 3) + "\n";
    let old = season(&laptop, "old", ("2025", "R6"), &scored);
    let other = laptop.file("new.jsonl", &(SMALL.to_owned() + &scored).replace("mid red", "late red"));
    laptop.done(&["--by", "kt", "import", arg(&other)]);
    let alone = laptop.done(&["compare", arg(&old)]);
    assert!(alone.contains("Lot R1 has no lot of the same cultivar and container last year."), "{alone}");
    assert!(alone.contains("Lot R6 of last year has no such lot this year."), "{alone}");
    let by_hand = laptop.done(&["--match", "R6=R1", "--match", "R6=R9", "compare", arg(&old)]);
    let by_hand = by_hand.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(by_hand.contains("R1 beside R6 of last year") && by_hand.contains("matched by hand"), "{by_hand}");
    assert!(by_hand.contains("R6=R9 was not used"), "{by_hand}");
    assert_eq!(laptop.run(&["--match", "R6", "compare"]).code, 2);
}
