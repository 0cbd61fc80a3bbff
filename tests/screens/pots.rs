//! Moves and counts: two benches swapped in one step, a lot sold over its benches, whose history is shown, room on a bench.

use crate::desk::{COLOR, Desk};

/// The card of a bench, its list of more, and the line with this letter.
fn more(desk: &mut Desk, bench: &str, letter: char) {
    desk.keys("r{Home}");
    for _ in 0..8 {
        if desk
            .text()
            .lines()
            .any(|line| line.trim_start_matches('▸').trim_start().starts_with(bench) && line.starts_with('▸'))
        {
            break;
        }
        desk.keys("{Down}");
    }
    desk.keys("{Enter}m");
    desk.keys(&letter.to_string());
}

fn stands(desk: &Desk, bench: &str) -> String {
    let standing = desk.app.model.season.standing(bench, desk.app.model.day);
    standing.map_or_else(|| "empty".to_owned(), |s| format!("{} {}", s.lot, s.pots))
}

#[test]
fn two_benches_are_swapped_in_one_step_and_one_undo_takes_it_back() {
    let mut desk = Desk::new();
    more(&mut desk, "E1", 'o');
    assert!(desk.text().contains("Swap E1 with another bench"), "{}", desk.text());
    desk.keys("w1");
    assert!(desk.text().contains("W1: 30 pots of L2"), "{}", desk.text());
    desk.keys("{Enter}");
    assert_eq!(desk.written(), ["E1 moved 80 pots to W1", "W1 moved 30 pots to E1"], "{}", desk.text());
    assert_eq!((stands(&desk, "E1"), stands(&desk, "W1")), ("L2 30".to_owned(), "L1 80".to_owned()));
    assert!(desk.app.model.season.to_settle().is_empty());
    // Each history goes along with its pots.
    let season = &desk.app.model.season;
    let waters = |bench: &str| season.history(bench, desk.app.model.day).of(benchwalk::record::KindName::Water).count();
    assert_eq!((waters("E1"), waters("W1")), (10, 10));
    let pinched =
        |bench: &str| season.history(bench, desk.app.model.day).last(benchwalk::record::KindName::Pinched).is_some();
    assert!(pinched("W1") && !pinched("E1"));
    assert!(desk.text().contains("history of L2 before Oct 12: from W1"), "{}", desk.text());
    desk.keys("u");
    assert_eq!((stands(&desk, "E1"), stands(&desk, "W1")), ("L1 80".to_owned(), "L2 30".to_owned()), "{}", desk.text());
}

#[test]
fn a_bench_changes_places_with_an_empty_one_by_the_same_form() {
    let mut desk = Desk::new();
    more(&mut desk, "E1", 'o');
    desk.keys("E1{Enter}");
    assert!(desk.text().contains("is no other bench"), "{}", desk.text());
    desk.keys("{Backspace}{Backspace}W3{Enter}");
    assert_eq!(desk.written(), ["E1 moved 80 pots to W3"], "{}", desk.text());
}

#[test]
fn one_lot_is_sold_over_its_benches_in_one_form_with_the_total_shown() {
    let mut desk = Desk::new();
    more(&mut desk, "E1", 'p');
    let text = desk.text();
    assert!(text.contains("Sold: lot L1, by bench") && text.contains("of 80 pots of L1"), "{text}");
    desk.keys("12{Tab}20");
    assert!(desk.text().contains("Total: 32 pots from 2 of 3 benches."), "{}", desk.text());
    desk.keys("{Enter}");
    assert_eq!(desk.written(), ["E1 sold 12 pots", "E2 sold 20 pots"], "{}", desk.text());
    desk.keys("u");
    assert_eq!((stands(&desk, "E1"), stands(&desk, "E2")), ("L1 80".to_owned(), "L1 80".to_owned()));
}

#[test]
fn more_sold_than_stand_are_refused_and_the_numbers_stay() {
    let mut desk = Desk::new();
    more(&mut desk, "E1", 'p');
    desk.keys("12{Tab}99{Enter}");
    assert!(desk.written().is_empty());
    assert!(desk.text().contains("99 sold from bench E2") && desk.text().contains("> 99"), "{}", desk.text());
    desk.keys("{Backspace}{Backspace}9{Enter}");
    assert_eq!(desk.written().len(), 2, "{}", desk.text());
}

#[test]
fn a_bench_over_its_room_is_asked_about_once_more() {
    let text = crate::season::journal()
        .replace(r#""bench":"W3","house":"West","order":6"#, r#""bench":"W3","house":"West","order":6,"area_m2":5"#);
    let spaced = r#"{"type":"entry","id":"01990000-0000-7000-9000-000000000001","at":"2026-10-05T08:00:00-04:00","by":"kt","bench":"E1","kind":"spaced","centers_cm":30}"#;
    let mut desk = Desk::with(&format!("{text}{spaced}\n"), COLOR, (80, 24));
    more(&mut desk, "E1", 'o');
    desk.keys("W3{Enter}");
    assert!(desk.written().is_empty(), "{}", desk.text());
    let said = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("80 pots on W3, but at the spacing of L1 its area holds 55. Enter again saves."), "{said}");
    desk.keys("{Enter}");
    assert_eq!(desk.written(), ["E1 moved 80 pots to W3"], "{}", desk.text());
}

#[test]
fn benches_that_are_empty_now_are_offered_for_a_lot() {
    let mut desk = Desk::new();
    more(&mut desk, "E1", 'o');
    desk.keys("W3{Enter}");
    desk.keys("{Esc}{Esc}gap");
    let text = desk.text();
    assert!(
        text.lines().any(|line| line.contains("benches") && line.contains("E1") && line.contains("empty now")),
        "{text}"
    );
}

#[test]
fn more_pots_lost_than_stand_are_asked_about_once() {
    let mut desk = Desk::new();
    more(&mut desk, "E1", 'e');
    desk.keys("99{Enter}");
    assert!(desk.written().is_empty(), "{}", desk.text());
    assert!(desk.text().contains("99 pots, but 80 stand on E1"), "{}", desk.text());
    desk.keys("{Enter}");
    assert_eq!(desk.written(), ["E1 lost 99 pots"], "{}", desk.text());
}
