//! Every page at every size of window.

use crate::desk::{COLOR, Desk, all_drawn_at_every_size};
use crate::pages::PAGES;

#[test]
fn every_page_at_every_size() {
    all_drawn_at_every_size(PAGES.iter().map(|(name, keys)| {
        let mut desk = Desk::new();
        desk.keys(keys);
        (*name, desk)
    }));
}

#[test]
fn the_first_run_at_every_size() {
    all_drawn_at_every_size([("first run", ""), ("how to start", "h")].map(|(name, keys)| {
        let mut desk = Desk::empty(COLOR, (80, 24));
        desk.keys(keys);
        (name, desk)
    }));
}

#[test]
fn a_window_too_small_says_so() {
    let mut desk = Desk::new();
    for (columns, rows, small) in [(39, 12, true), (40, 11, true), (40, 12, false)] {
        desk.resize(columns, rows);
        let text = desk.text();
        assert_eq!(text.contains("Window too small."), small, "{columns} x {rows}\n{text}");
        assert_eq!(text.contains("Round"), !small, "{columns} x {rows}\n{text}");
    }
}
