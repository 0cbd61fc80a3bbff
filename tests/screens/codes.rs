//! Labels scanned on every screen: the bench is shown, nothing is scored, nothing that was typed is lost.

use crate::desk::Desk;
use benchwalk::input::Event;
use benchwalk::keys::Context;

/// A scanner: every key after a millisecond.
fn scan(desk: &mut Desk, code: &str) {
    desk.keys_every(&format!("={code}{{Enter}}"), 1);
}

fn head(desk: &Desk) -> String {
    desk.text().lines().next().unwrap_or_default().split("  ").take(2).collect::<Vec<_>>().join(" ")
}

#[test]
fn a_label_scanned_on_any_page_shows_its_bench_and_scores_nothing() {
    for (way, page) in [
        ("", "Bench W2"),
        ("w", "Walk W2"),
        // The card asks for heights: a line of numbers.
        ("wmn12 1", "Walk W2"),
        ("e", "Bench W2"),
        ("{Enter}", "Bench W2"),
        ("{Enter}c", "Bench W2"),
        ("s", "Bench W2"),
        ("g", "Bench W2"),
        ("t", "Bench W2"),
        ("i", "Bench W2"),
        ("?", "Bench W2"),
        ("/e", "Bench W2"),
        ("v", "Bench W2"),
        ("a", "Bench W2"),
        ("wl", "Walk W2"),
        ("wm", "Walk W2"),
        ("wnhalf a note", "Walk W2"),
        ("aa", "Bench W2"),
        ("gal", "Bench W2"),
        ("=", "Bench W2"),
    ] {
        let mut desk = Desk::new();
        desk.keys(way);
        scan(&mut desk, "W2");
        assert!(head(&desk).starts_with(page), "after {way:?}: {}", desk.text());
        assert!(desk.app.popups.is_empty(), "after {way:?}: {}", desk.text());
        assert!(desk.kept.is_empty(), "after {way:?}: {:?}", desk.written());
        assert!(desk.outside.is_empty(), "after {way:?}: {:?}", desk.outside);
    }
}

/// Scanners end a code with Enter, a line feed, or both.
#[test]
fn a_line_feed_ends_a_code_too() {
    for end in ["{Enter}", "{Ctrl-J}", "{Enter}{Ctrl-J}"] {
        let mut desk = Desk::new();
        desk.keys("w").keys_every(&format!("=W2{end}"), 1);
        assert!(head(&desk).starts_with("Walk W2"), "{end}: {}", desk.text());
        assert!(!desk.text().contains("has no use here"), "{end}: {}", desk.text());
        assert!(desk.kept.is_empty());
    }
}

/// Before a second undo Enter voids: a scan there goes to the bench.
#[test]
fn a_scan_answers_no_question() {
    let mut desk = Desk::new();
    desk.keys("w32uu");
    assert_eq!(desk.app.context(), Context::Question);
    let written = desk.kept.len();
    scan(&mut desk, "W2");
    assert!(head(&desk).starts_with("Walk W2"), "{}", desk.text());
    assert_eq!(desk.kept.len(), written);
}

#[test]
fn scanned_benches_are_walked_one_after_the_other() {
    let mut desk = Desk::new();
    desk.keys("w");
    scan(&mut desk, "W2");
    desk.keys("4");
    scan(&mut desk, "E1");
    desk.keys("3");
    // The same digits and Enter within a tenth of a second of the next scan.
    scan(&mut desk, "E2");
    scan(&mut desk, "e1");
    assert!(head(&desk).starts_with("Walk E1"), "{}", desk.text());
    assert_eq!(desk.written(), ["W2 water 4", "E1 water 3"]);
    scan(&mut desk, "E3");
    assert!(desk.text().contains("E3 is closed until 08:00"), "{}", desk.text());
    assert!(head(&desk).starts_with("Walk E1"), "{}", desk.text());
}

#[test]
fn an_unknown_code_says_so_and_the_next_scan_begins_again() {
    let mut desk = Desk::new();
    desk.keys("w");
    scan(&mut desk, "X77");
    assert!(desk.text().contains("code: "), "{}", desk.text());
    assert!(desk.text().contains("X77 is no bench or plot of this season; nothing was logged"), "{}", desk.text());
    scan(&mut desk, "W1");
    assert!(head(&desk).starts_with("Walk W1"), "{}", desk.text());
    // By hand: corrected, and left.
    desk.keys("=w9{Backspace}2{Enter}");
    assert!(head(&desk).starts_with("Walk W2"), "{}", desk.text());
    let before = desk.dump();
    desk.keys("=e1{Esc}");
    assert_eq!(desk.dump(), before);
    desk.keys("={Enter}");
    assert!(desk.text().contains("type or scan the code of a bench or plot, such as E3"), "{}", desk.text());
    assert!(desk.kept.is_empty(), "{:?}", desk.written());
}

/// Some terminals deliver a scan as a paste, with its Enter or before it.
#[test]
fn a_scan_that_comes_as_a_paste_is_a_scan() {
    for way in ["", "w", "wmn12", "e", "{Enter}", "wm", "wnhalf a note", "="] {
        let mut desk = Desk::new();
        desk.keys(way);
        desk.event(Event::Paste("=W2\n".into()));
        assert_eq!(desk.app.screen.bench(&desk.app.model).as_deref(), Some("W2"), "after {way:?}\n{}", desk.text());
        assert!(desk.app.popups.is_empty() && desk.kept.is_empty(), "after {way:?}\n{}", desk.text());
    }
    for way in ["", "w", "wmn12", "e", "wm", "="] {
        let mut desk = Desk::new();
        desk.keys(way);
        desk.event(Event::Paste("=W2".into()));
        assert!(desk.text().contains("code: "), "after {way:?}\n{}", desk.text());
        desk.keys_every("{Enter}", 1);
        assert_eq!(desk.app.screen.bench(&desk.app.model).as_deref(), Some("W2"), "after {way:?}\n{}", desk.text());
        assert!(desk.kept.is_empty(), "{:?}", desk.written());
    }
    // Text that is pasted into a note is text.
    let mut desk = Desk::new();
    desk.keys("wn");
    desk.event(Event::Paste("=W2 was dry".into()));
    desk.keys("{Enter}");
    assert_eq!(desk.written(), ["E1 note: =W2 was dry"]);
}

/// What was half typed is there again where it was left, without the scan.
#[test]
fn a_scan_into_a_text_leaves_the_text_as_it_was() {
    let mut desk = Desk::new();
    desk.keys("wnleak at the e");
    scan(&mut desk, "W2");
    scan(&mut desk, "E1");
    desk.keys("n");
    assert!(desk.text().contains("leak at the e") && !desk.text().contains('='), "{}", desk.text());
    desk.keys("nd{Enter}");
    assert_eq!(desk.written(), ["E1 note: leak at the end"]);
    // By hand a sign is a sign.
    desk.keys("npH =6{Enter}");
    assert_eq!(desk.written().last().map(String::as_str), Some("E1 note: pH =6"));
}

#[test]
fn a_scan_while_the_season_is_read_waits_for_it() {
    let season = benchwalk::season::Season::of(benchwalk::journal::read(&crate::season::journal()).unwrap());
    let mut desk = Desk::of(&season, crate::desk::PLAIN, (80, 24));
    desk.app.model.wait_for_entries();
    scan(&mut desk, "W2");
    assert!(head(&desk).starts_with("Round"), "{}", desk.text());
    desk.answer(benchwalk::model::Outcome::Loaded(Vec::new()));
    assert!(head(&desk).starts_with("Bench W2"), "{}", desk.text());
}

#[test]
fn without_a_site_there_is_no_code() {
    let mut desk = Desk::empty(crate::desk::PLAIN, (80, 24));
    desk.event(Event::Paste("=W2\n".into()));
    desk.keys("=");
    assert!(desk.text().contains("The site comes first"), "{}", desk.text());
}
