//! Dates and times as people type them, in the forms.

use crate::desk::{COLOR, Desk};
use crate::season;
use benchwalk::record::Line;

/// When the last entry kept was.
fn at(desk: &Desk) -> String {
    match desk.kept.last() {
        Some(Line::Entry(entry)) => entry.at.format("%m-%d %H:%M").to_string(),
        other => panic!("{other:?}\n{}", desk.text()),
    }
}

/// The first bench's page, and the form of what was watered, at its field "when".
fn watered(desk: &mut Desk) {
    desk.keys("{Home}{Enter}a");
    let row = desk.text().lines().find_map(|row| row.trim().strip_suffix("watered").map(str::to_owned));
    let letter = row.and_then(|row| row.trim().chars().next()).unwrap_or('a');
    desk.keys(&letter.to_string());
    for _ in 0..8 {
        if desk.text().lines().any(|row| row.trim_start().starts_with("\u{25b8} when")) {
            return;
        }
        desk.keys("{Tab}");
    }
    panic!("no field \"when\" in\n{}", desk.text());
}

#[test]
fn times_are_typed_as_people_type_them_and_echoed_beside_the_field() {
    // The desk stands on Monday, October 12, 2026, 7:00.
    for (typed, echo, written) in [
        ("yesterday 2:30p", "= Sun Oct 11, 2026 14:30", "10-11 14:30"),
        ("-1 14:30", "= Sun Oct 11, 2026 14:30", "10-11 14:30"),
        ("10/9 1430", "= Fri Oct 9, 2026 14:30", "10-09 14:30"),
        ("Fri 2:30 pm", "= Fri Oct 9, 2026 14:30", "10-09 14:30"),
        ("oct9 7:05a", "= Fri Oct 9, 2026 07:05", "10-09 07:05"),
        ("6:15", "= Mon Oct 12, 2026 06:15", "10-12 06:15"),
        ("Oct 9", "= Fri Oct 9, 2026 12:00", "10-09 12:00"),
    ] {
        let mut desk = Desk::new();
        watered(&mut desk);
        desk.keys(typed);
        assert!(desk.text().contains(echo), "{typed}: no {echo:?} in\n{}", desk.text());
        desk.keys("{Enter}");
        assert_eq!(at(&desk), written, "{typed}");
    }
}

#[test]
fn what_is_no_date_in_the_order_of_the_site_is_refused_with_examples() {
    let metric = season::journal().replace("\"units\":\"us\"", "\"units\":\"metric\"");
    for (journal, typed, said) in [
        (season::journal(), "25/9 14:30", "(month first)"),
        (metric.clone(), "9/25 14:30", "(day first)"),
        (season::journal(), "2:30p", "read as Mon Oct 12, 2026 14:30: in the future"),
    ] {
        let mut desk = Desk::with(&journal, COLOR, (80, 24));
        watered(&mut desk);
        desk.keys(typed).keys("{Enter}");
        assert!(desk.kept.is_empty(), "{typed}");
        let shown = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(shown.contains(said), "{typed}: no {said:?} in\n{}", desk.text());
    }
    let mut desk = Desk::with(&metric, COLOR, (80, 24));
    watered(&mut desk);
    desk.keys("9/10 14:30{Enter}");
    assert_eq!(at(&desk), "10-09 14:30");
}

#[test]
fn a_time_that_may_have_been_meant_for_the_afternoon_is_asked_about() {
    let mut desk = Desk::new();
    watered(&mut desk);
    desk.keys("yesterday 2:30");
    let text = desk.text();
    assert!(text.contains("That is 2:30 in the morning; for the afternoon type 2:30p."), "{text}");
    desk.keys("p");
    assert!(!desk.text().contains("in the morning"), "{}", desk.text());
}

#[test]
fn a_weekday_is_the_next_one_for_what_is_to_come_and_says_so() {
    let mut desk = Desk::new();
    // A warning of the first bench is postponed.
    desk.keys("ejjp");
    assert!(desk.text().contains("Postpone"), "{}", desk.text());
    desk.keys("Fri");
    assert!(desk.text().contains("= next Fri Oct 16, 2026"), "{}", desk.text());
    desk.keys("{Backspace}{Backspace}{Backspace}25/11");
    assert!(!desk.text().contains("= "), "{}", desk.text());
    desk.keys("{Enter}");
    assert!(desk.text().contains("month first"), "{}", desk.text());
    assert!(desk.kept.is_empty());
}
