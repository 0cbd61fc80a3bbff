//! A clock that is wrong is told on every page, and opens no bench.

use crate::desk::Desk;
use benchwalk::record::Line;
use chrono::Duration;

/// A text with its line breaks taken out, as it wraps with the window.
fn flowed(desk: &Desk) -> String {
    desk.text().split_whitespace().collect::<Vec<_>>().join(" ")
}

const BEHIND: &str = "This laptop's clock says Sun Oct 11, 2026 16:10, before the last entry (Sun Oct 11, 2026 18:00). Set the clock, or entries get the wrong day.";

#[test]
fn a_bench_sprayed_later_than_the_clock_says_stays_closed() {
    // E3 was sprayed on Oct 11 at 18:00, for 14 hours.
    let mut desk = Desk::new();
    desk.pass(-Duration::hours(15));
    assert!(desk.app.model.closed_until("E3").is_some());
    desk.keys("{Home}jjf");
    assert!(desk.text().starts_with("Round"), "{}", desk.text());
    assert!(desk.text().contains("E3 is closed until Oct 12 08:00"), "{}", desk.text());
    for hours in [1, 24, 24 * 300] {
        desk.pass(-Duration::hours(hours));
        assert!(desk.app.model.closed_until("E3").is_some(), "{hours}");
    }
    desk.app.model.set_replayed(true);
    assert!(desk.app.model.closed_until("E3").is_none(), "on a day asked for, it was not sprayed yet");
}

#[test]
fn a_clock_before_the_last_entry_is_told_on_every_page_while_it_lasts() {
    let mut desk = Desk::new();
    assert!(!desk.text().contains("The clock of this laptop"), "{}", desk.text());
    desk.pass(-Duration::hours(15));
    for keys in ["", "w", "{Esc}e", "{Esc}s", "{Esc}{Enter}", "{Esc}i", "{Esc}g"] {
        desk.keys(keys);
        assert!(flowed(&desk).contains(BEHIND), "after {keys}\n{}", desk.text());
    }
    desk.app.model.set_replayed(true);
    assert!(!flowed(&desk).contains("The clock of this laptop"), "{}", desk.text());
    desk.app.model.set_replayed(false);
    desk.pass(Duration::hours(15));
    assert!(!flowed(&desk).contains("The clock of this laptop"), "{}", desk.text());
}

#[test]
fn minutes_between_two_laptops_are_no_wrong_clock() {
    let mut desk = Desk::new();
    desk.pass(-(Duration::hours(13) + Duration::minutes(25)));
    assert!(!flowed(&desk).contains("The clock of this laptop"), "{}", desk.text());
}

#[test]
fn a_clock_a_year_ahead_is_told_and_every_page_shows_the_year() {
    let mut desk = Desk::new();
    assert!(desk.text().starts_with("Round") && !desk.text().lines().next().unwrap().contains("2026"));
    desk.pass(Duration::days(100));
    assert!(desk.text().lines().next().unwrap().contains("Wed Jan 20, 2027"), "{}", desk.text());
    assert!(!flowed(&desk).contains("The clock of this laptop"), "{}", desk.text());
    desk.pass(Duration::days(265));
    assert!(flowed(&desk).contains("a year or more after the last entry (Sun Oct 11, 2026 18:00)"), "{}", desk.text());
    for keys in ["", "e", "{Esc}s", "{Esc}{Enter}", "{Esc}i", "{Esc}g"] {
        desk.keys(keys);
        assert!(desk.text().lines().next().unwrap().contains("Tue Oct 12, 2027"), "after {keys}\n{}", desk.text());
    }
}

#[test]
fn a_wrong_entry_struck_out_does_not_keep_the_line_standing() {
    let mut desk = Desk::new();
    desk.pass(Duration::days(200)).keys("w3");
    assert_eq!(desk.written().len(), 1, "{}", desk.text());
    desk.pass(-Duration::days(200));
    assert!(flowed(&desk).contains("before the last entry"), "{}", desk.text());
    desk.keys("u");
    assert!(!flowed(&desk).contains("before the last entry"), "{}", desk.text());
}

#[test]
fn two_days_back_between_two_entries_the_second_gets_its_own_day_and_it_is_said() {
    let mut desk = Desk::new();
    desk.keys("w3");
    desk.pass(-Duration::days(2));
    assert!(
        flowed(&desk).contains("The clock went back: it is now Sat Oct 10, 2026. New entries go to this day."),
        "{}",
        desk.text()
    );
    assert!(flowed(&desk).contains("before the last entry (Mon Oct 12, 2026 07:10)"), "{}", desk.text());
    desk.keys("nlate{Enter}");
    let days: Vec<String> = desk
        .kept
        .iter()
        .filter_map(|line| match line {
            Line::Entry(entry) => Some(entry.day().to_string()),
            _ => None,
        })
        .collect();
    assert_eq!(days, ["2026-10-12", "2026-10-10"], "in the order they were written");
}
