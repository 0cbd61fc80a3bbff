//! Every way in has one door: what is refused keeps what was typed and says field, value and what would be right, whole, at
//! 80 columns and in the site's units; the same bad entry is refused in the same words by form and by journal.

use crate::desk::{COLOR, Desk};
use benchwalk::journal;
use benchwalk::record::{Line, Site};
use benchwalk::season::Season;
use benchwalk::units::System;

/// The text of a frame as one line, so that what is wrapped reads through.
fn flowed(desk: &Desk) -> String {
    desk.text().split_whitespace().collect::<Vec<_>>().join(" ")
}

fn metric() -> Desk {
    Desk::with(&crate::season::journal().replace("\"units\":\"us\"", "\"units\":\"metric\""), COLOR, (80, 24))
}

#[test]
fn a_refused_height_keeps_the_line_and_says_which_in_inches() {
    let mut desk = Desk::new();
    desk.keys("wmn9.5{Space}400{Enter}");
    assert!(desk.kept.is_empty(), "{:?}", desk.written());
    assert!(desk.text().contains("> 9.5 400"), "{}", desk.text());
    let text = flowed(&desk);
    assert!(text.contains("! heights: number 2 is 400 in; give 0.4 to 190 in"), "{}", desk.text());
    assert!(!text.contains(" cm"), "{}", desk.text());
    desk.keys("{Backspace}");
    assert!(!desk.text().contains("! heights"), "{}", desk.text());
    desk.keys("{Backspace}{Backspace}9.8{Enter}");
    assert!(desk.written()[0].starts_with("E1 height 9.65 in"), "{:?}", desk.written());
}

#[test]
fn a_refused_height_is_said_in_centimeters_at_a_metric_site() {
    let mut desk = metric();
    desk.keys("wmn25{Space}4000{Enter}");
    assert!(desk.kept.is_empty());
    assert!(flowed(&desk).contains("! heights: number 2 is 4000 cm; give 1 to 500 cm"), "{}", desk.text());
}

#[test]
fn a_refused_amount_keeps_the_line_and_says_the_range_in_the_units_of_the_site() {
    let mut desk = Desk::new();
    desk.keys("wmc999999999{Enter}");
    assert!(desk.kept.is_empty(), "{:?}", desk.written());
    assert!(desk.text().contains("> 999999999"), "{}", desk.text());
    assert!(flowed(&desk).contains("! amount per pot: is 999999999; give 0 to 3300 fl oz"), "{}", desk.text());
    desk.keys("{Esc}mc");
    assert!(desk.text().contains("> 999999999"), "kept when left: {}", desk.text());

    let mut desk = metric();
    desk.keys("wmc999999999{Enter}");
    assert!(flowed(&desk).contains("! amount per pot: is 999999999; give 0 to 100000 mL"), "{}", desk.text());
}

#[test]
fn a_count_beyond_its_range_keeps_the_line() {
    let mut desk = Desk::new();
    desk.keys("wme1000001{Space}rot{Enter}");
    assert!(desk.kept.is_empty(), "{:?}", desk.written());
    assert!(desk.text().contains("> 1000001 rot"), "{}", desk.text());
    assert!(flowed(&desk).contains("! pots: is 1000001; give a whole number, 1 or more"), "{}", desk.text());
}

#[test]
fn a_refused_digit_writes_nothing_and_the_check_stays() {
    let mut desk = Desk::new();
    desk.keys("w7");
    assert!(desk.kept.is_empty());
    assert!(desk.text().contains("! water is 1 to 5; 7 was ignored."), "{}", desk.text());
    assert!(desk.text().contains("[water _]"), "{}", desk.text());
}

#[test]
fn one_undo_takes_back_all_that_was_recorded_together() {
    let mut desk = Desk::new();
    // Watered by form for E1 and E2, selected on the Round.
    desk.keys("{Home}{Space}{Space}aa{Tab}{Tab}{Enter}");
    assert_eq!(desk.written().len(), 2, "{:?}\n{}", desk.written(), desk.text());
    desk.keys("u");
    assert_eq!(desk.written().len(), 4, "{:?}", desk.written());
    assert!(desk.written()[2..].iter().all(|line| line.contains("voided")), "{:?}", desk.written());
    desk.keys("u");
    assert!(desk.text().contains("Nothing left to undo in this session."), "{}", desk.text());
    assert_eq!(desk.written().len(), 4);
}

#[test]
fn form_and_journal_refuse_a_bad_entry_in_the_same_words() {
    let season = Season::of(journal::read(&crate::season::journal()).unwrap());
    let bad = concat!(
        r#"{"type":"journal","version":1}"#,
        "\n",
        r#"{"type":"entry","at":"2026-10-12T07:10:00-04:00","by":"kt","bench":"E1","kind":"sold","pots":500}"#
    );
    let lines = journal::read(bad).unwrap();
    let told = season.admit(&lines, System::Metric).unwrap_err().remove(0);
    assert!(told.text.contains("but 80 are there"), "{}", told.text);

    let mut desk = Desk::new();
    desk.keys("am500{Enter}");
    assert!(desk.kept.is_empty(), "{:?}", desk.written());
    assert!(desk.text().contains("500"), "{}", desk.text());
    assert!(flowed(&desk).contains(&told.text), "no {:?} in\n{}", told.text, desk.text());
}

#[test]
fn lines_of_the_plan_are_checked_by_the_same_rules() {
    let season = Season::of(journal::read(&crate::season::journal()).unwrap());
    let site = season.site().unwrap().clone();
    let wrong = Line::Site(Site { latitude: 99.0, ..site });
    let told = season.admit(&[wrong], System::Us).unwrap_err().remove(0);
    assert_eq!(told.field.as_deref(), Some("latitude"));
    assert!(told.text.starts_with("is 99"), "{}", told.text);
}

#[test]
fn fields_that_contradict_each_other_are_named_as_the_form_names_them() {
    let mut desk = Desk::new();
    desk.keys("g{Down}{Enter}");
    let low = "finished ht, min";
    for _ in 0..30 {
        if desk.text().lines().any(|line| line.starts_with('▸') && line.contains(low)) {
            break;
        }
        desk.keys("{Tab}");
    }
    desk.keys("{Ctrl-U}40{Enter}");
    assert!(desk.kept.is_empty(), "{:?}", desk.written());
    assert!(desk.text().contains("> 40 "), "the text stays: {}", desk.text());
    let text = flowed(&desk);
    assert!(
        text.contains("! finished ht, min is more than the maximum finished height; give that or less"),
        "{}",
        desk.text()
    );
    assert!(!text.contains("_cm"), "{}", desk.text());
}
