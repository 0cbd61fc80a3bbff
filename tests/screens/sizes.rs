//! Every page at every size of window.

use crate::desk::{COLOR, Desk};
use crate::pages::PAGES;
use crate::season;

/// Draws a page at every size.
fn everywhere(name: &str, mut desk: Desk, keys: &str) {
    desk.keys(keys);
    for columns in 0..=130 {
        for rows in 0..=45 {
            desk.resize(columns, rows);
            let (buffer, _) = desk.draw();
            if columns >= 40 && rows >= 12 {
                let empty = buffer.content.iter().all(|cell| cell.symbol() == " ");
                assert!(!empty, "{name} at {columns} x {rows}");
            }
        }
    }
}

fn pages(from: usize, to: usize) {
    for (name, keys) in PAGES.iter().take(to).skip(from) {
        everywhere(name, Desk::with(&season::journal(), COLOR, (80, 24)), keys);
    }
}

// Four tests, so that they run side by side.
#[test]
fn the_round_and_the_walk_card_at_every_size() {
    pages(0, 4);
}

#[test]
fn the_review_at_every_size() {
    pages(4, 6);
}

#[test]
fn the_bench_page_and_what_lies_over_at_every_size() {
    pages(6, 7);
    pages(15, PAGES.len());
}

#[test]
fn the_charts_of_a_bench_at_every_size() {
    pages(7, 9);
    pages(10, 12);
}

#[test]
fn the_season_page_at_every_size() {
    pages(12, 15);
}

#[test]
fn the_first_run_at_every_size() {
    for keys in ["", "h"] {
        everywhere("first run", Desk::empty(COLOR, (80, 24)), keys);
    }
}

#[test]
fn a_window_too_small_says_so() {
    let mut desk = Desk::new();
    desk.resize(39, 12);
    assert!(desk.text().contains("Window too small."), "{}", desk.text());
    desk.resize(40, 12);
    assert!(desk.text().contains("Round"), "{}", desk.text());
}
