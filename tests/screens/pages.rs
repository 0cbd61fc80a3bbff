//! How the pages look: text and styles of every page in color at 80 x 24, of a few also without color and in a large window;
//! the same words in every dress.

use crate::desk::{ASCII, COLOR, Desk, PLAIN, same_in_every_dress};
use crate::season;
use benchwalk::input::Look;

const SMALL: (u16, u16) = (80, 24);
const LARGE: (u16, u16) = (120, 40);

/// Every page by the keys that lead to it.
pub(crate) const PAGES: [(&str, &str); 19] = [
    ("round", ""),
    ("walk_water", "w"),
    ("walk_roots", "w32"),
    ("walk_heights", "w<tab>mn9.5<space>9.8"),
    ("review", "e"),
    ("review_basis", "ejb"),
    ("bench", "j<ret>"),
    ("chart_height", "<ret>c"),
    ("chart_water_3_weeks", "<ret>cz<tab>"),
    ("chart_bracts", "<ret>c<tab><tab><tab>"),
    ("chart_nothing_yet", "<ret>c<tab><tab><tab><tab>"),
    ("chart_a_week_back", "<ret>c,,"),
    ("season_calendar", "s"),
    ("season_nights", "s<tab>"),
    ("season_pots", "s<s-tab>"),
    ("help", "?"),
    ("leaves", "wlb2"),
    ("more", "wm"),
    ("note", "wnfound a drip"),
];

/// Pages shown in three dresses: each has other columns, colors and signs.
const IN_THREE_DRESSES: [&str; 4] = ["round", "walk_water", "review", "bench"];

fn opened(look: Look, size: (u16, u16), keys: &str) -> Desk {
    let mut desk = Desk::with(&season::journal(), look, size);
    desk.keys(keys);
    desk
}

#[test]
fn pages_in_color() {
    for (name, keys) in PAGES {
        insta::assert_snapshot!(format!("{name}_80x24"), opened(COLOR, SMALL, keys).dump());
    }
}

#[test]
fn four_pages_in_a_large_window_and_without_color() {
    for (name, keys) in PAGES.iter().filter(|(name, _)| IN_THREE_DRESSES.contains(name)) {
        insta::assert_snapshot!(format!("{name}_120x40"), opened(COLOR, LARGE, keys).dump());
        insta::assert_snapshot!(format!("{name}_no_color"), opened(PLAIN, SMALL, keys).dump());
    }
}

#[test]
fn a_page_says_the_same_in_every_dress() {
    for (name, keys) in PAGES {
        same_in_every_dress(name, |look| opened(look, SMALL, keys));
    }
    for keys in ["", "h", "s"] {
        same_in_every_dress(&format!("first run {keys}"), |look| {
            let mut desk = Desk::empty(look, SMALL);
            desk.keys(keys);
            desk
        });
    }
}

#[test]
fn in_ascii_a_degree_leaves_no_gap_and_a_note_keeps_its_letters() {
    let mut desk = Desk::with(&season::journal(), ASCII, (120, 40));
    desk.keys("wndrip<space>at<space>20<space>°C<space>caf\u{e9}");
    assert!(desk.text().contains("20 °C caf\u{e9}"), "typed as it is\n{}", desk.text());
    desk.keys("<ret>");
    assert!(desk.text().contains("20 C caf\u{e9}"), "{}", desk.text());
}

#[test]
fn a_long_record_saved_is_cut_at_a_word_and_what_is_said_after_it_stays() {
    let mut desk = Desk::new();
    desk.keys("wn").event(benchwalk::input::Event::Paste("a slow drip ".repeat(12))).keys("<ret>");
    let text = desk.text();
    assert!(text.contains("saved: N1 note: a slow drip") && text.contains(" .."), "{text}");
    assert!(!text.contains("slow d .."), "{text}");
}

#[test]
fn the_first_run() {
    let mut desk = Desk::empty(COLOR, SMALL);
    insta::assert_snapshot!("first_80x24", desk.dump());
    desk.keys("h");
    insta::assert_snapshot!("how_to_start_80x24", desk.dump());
}

#[test]
fn the_first_frame_shows_the_benches_before_anything_is_worked_out() {
    let mut desk = Desk::new();
    desk.app.shared.all_stale();
    let text = desk.text();
    assert!(text.contains("N1") && text.contains("S3") && text.contains('…'), "{text}");
}

#[test]
fn moving_the_mark_changes_the_frame() {
    for (keys, more) in [("", "j"), ("e", "j"), ("wl", "<down>"), ("wm", "<down>")] {
        let (mut one, mut other) = (Desk::new(), Desk::new());
        one.keys(keys);
        other.keys(keys).keys(more);
        assert_ne!(one.dump(), other.dump(), "{keys} {more}");
        let mut plain = Desk::with(&season::journal(), PLAIN, SMALL);
        plain.keys(keys);
        let before = plain.dump();
        plain.keys(more);
        assert_ne!(before, plain.dump(), "{keys} {more} without color");
    }
}

#[test]
fn every_level_is_told_by_a_word_or_a_sign() {
    let mut desk = Desk::with(&season::journal(), PLAIN, LARGE);
    let round = desk.text();
    assert!(round.contains("! ") && round.contains("? "), "{round}");
    desk.keys("e");
    assert!(desk.text().contains("act"), "{}", desk.text());
}
