//! The evening review on the command line.

use crate::{Laptop, SMALL, arg, water};

/// A laptop with a bench scored wet for a week.
fn wet() -> Laptop {
    let laptop = Laptop::new();
    let days: Vec<String> = (5..=12).map(|day| water(day, 5)).collect();
    let journal = laptop.file("season.jsonl", &format!("{SMALL}{}\n", days.join("\n")));
    laptop.done(&["import", arg(&journal)]);
    laptop
}

#[test]
fn the_review_is_of_today_at_the_site_or_of_the_day_given() {
    let laptop = wet();
    let today = laptop.done(&["review"]);
    assert!(today.contains("Thistlecot, evening of Mon Oct 12, 2026"), "{today}");
    assert!(today.contains("1 of 1 benches walked"), "{today}");
    assert!(today.contains("limits: defaults"), "{today}");
    // At 03:30 UTC it is still the 12th in New York.
    laptop.clock.set("2026-10-13T03:30:00Z".parse().unwrap());
    assert_eq!(laptop.done(&["review"]), today);
    let before = laptop.done(&["review", "--on", "2026-10-05"]);
    assert!(before.contains("evening of Mon Oct 5, 2026"), "{before}");
}

#[test]
fn as_json_it_is_one_object() {
    let laptop = wet();
    let text = laptop.done(&["review", "--format", "json"]);
    let review: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(review["on"], "2026-10-12");
    assert_eq!(review["site"], "Thistlecot");
    assert_eq!((&review["benches"], &review["walked"]), (&1.into(), &1.into()));
    let warnings = review["warnings"].as_array().unwrap();
    assert!(warnings.iter().any(|w| w["warning"] == "staying-wet" && w["benches"][0] == "E1"), "{text}");
    assert!(laptop.done(&["review", "--format", "html"]).to_lowercase().starts_with("<!doctype html>"));
}

#[test]
fn the_review_names_the_limits_file_and_changes_nothing() {
    let laptop = wet();
    laptop.file("config/limits.toml", "");
    let season = std::fs::read(laptop.path("data/season.db")).unwrap();
    let text = laptop.done(&["review"]);
    assert!(text.replace('\n', " ").contains("limits.toml"), "{text}");
    let own = laptop.file("own.toml", "");
    assert!(laptop.done(&["review", "--limits", arg(&own)]).replace('\n', " ").contains("own.toml"));
    assert!(std::fs::read(laptop.path("data/season.db")).unwrap() == season);
}

#[test]
fn a_backup_is_a_season_too() {
    let laptop = wet();
    let to = laptop.path("b.db");
    assert_eq!(laptop.done(&["backup", arg(&to)]), "[root]/b.db: 8 entries, verified\n");
    assert_eq!(laptop.done(&["export", "--season", arg(&to)]), laptop.done(&["export"]));
    assert_eq!(laptop.run(&["backup", arg(&to)]).code, 1);
}

#[test]
fn the_season_prints_as_text_and_as_one_page() {
    let laptop = wet();
    let text = laptop.done(&["season"]);
    assert!(text.starts_with("Thistlecot, season as of Mon Oct 12, 2026\nlimits: defaults\n"), "{text}");
    for line in ["R1  mid red, 6.5 in", "  planting           done      Aug 17", "E1  lot R1, 80 pots"] {
        assert!(text.contains(line), "no {line:?} in {text}");
    }
    assert!(text.lines().all(|l| l.chars().count() <= 100), "{text}");
    let before = laptop.done(&["season", "--on", "2026-08-10"]);
    assert!(before.contains("planting           planned   Aug 17"), "{before}");
    let page = laptop.done(&["season", "--format", "html"]);
    assert!(page.starts_with("<!DOCTYPE html>") && page.contains("<svg") && page.contains("As a table"), "{page}");
    assert!(Laptop::new().run(&["season"]).code != 0);
}
