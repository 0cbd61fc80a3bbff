//! How the pages look: text and styles of every page in color at 80 x 24, of a few also without color and in a large window;
//! the same words in every dress.

use crate::desk::{ASCII, COLOR, Desk, PLAIN, same_in_every_dress};
use crate::season;
use benchwalk::input::Look;
use ratatui::buffer::Cell;
use ratatui::style::Modifier;

const SMALL: (u16, u16) = (80, 24);
const LARGE: (u16, u16) = (120, 40);

/// Every page by the keys that lead to it.
pub(crate) const PAGES: [(&str, &str); 20] = [
    ("round", ""),
    ("walk_water", "w"),
    ("walk_roots", "w32"),
    ("walk_heights", "w{Tab}mn9.5{Space}9.8"),
    ("review", "e"),
    ("review_basis", "ejm"),
    ("bench", "j{Enter}"),
    ("chart_height", "{Enter}c"),
    ("chart_water_3_weeks", "{Enter}cz{Tab}"),
    ("chart_bracts", "{Enter}c{Tab}{Tab}{Tab}"),
    ("chart_nothing_yet", "{Enter}c{Tab}{Tab}{Tab}{Tab}"),
    ("chart_a_week_back", "{Enter}c,,"),
    ("season_calendar", "s"),
    ("season_nights", "s{Tab}"),
    ("season_pots", "s{Tab}{Tab}"),
    ("season_end", "s{Shift-Tab}"),
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
    desk.keys("wndrip{Space}at{Space}20{Space}°C{Space}caf\u{e9}");
    assert!(desk.text().contains("20 °C caf\u{e9}"), "typed as it is\n{}", desk.text());
    desk.keys("{Enter}");
    assert!(desk.text().contains("20 C caf\u{e9}"), "{}", desk.text());
}

#[test]
fn a_long_record_saved_is_cut_at_a_word_and_what_is_said_after_it_stays() {
    let mut desk = Desk::new();
    desk.keys("wn").event(benchwalk::input::Event::Paste("a slow drip ".repeat(12))).keys("{Enter}");
    let text = desk.text();
    assert!(text.contains("saved: E1 note: a slow drip") && text.contains(" .."), "{text}");
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
    desk.app.model.all_stale();
    let text = desk.text();
    assert!(text.contains("E1") && text.contains("W3") && text.contains('…'), "{text}");
}

/// The rows the cursor stands on: on a page such a row opens with ▸, in a list over a page it is shown reversed.
fn under_the_cursor(desk: &Desk) -> Vec<String> {
    let (buffer, _) = desk.draw();
    let rows = buffer.content.chunks(usize::from(buffer.area.width));
    let here = rows.filter(|row| {
        let listed = row[0].symbol().starts_with(|c: char| c.is_ascii_lowercase());
        row[0].symbol() == "▸" || (listed && row[0].modifier.contains(Modifier::REVERSED))
    });
    here.map(|row| row.iter().map(Cell::symbol).collect()).collect()
}

#[test]
fn a_move_takes_the_cursor_to_the_next_row_in_color_and_without() {
    for (keys, from, more, to) in [
        ("", "▸ E1 ", "j", "▸ E2 "),
        ("", "▸ E1 ", "{End}", "▸ W3 "),
        ("e", "▸ 1 [ ] hold   E2: ", "j", "▸ 2 [ ] check  E2: "),
        ("wl", "a [ ] lower leaves yellow", "{Down}", "b [ ] leaves rolled"),
        ("wm", "a  leaves", "{Down}", "b  note"),
    ] {
        for look in [COLOR, PLAIN] {
            let mut desk = opened(look, SMALL, keys);
            for (row, expected) in [(under_the_cursor(&desk), from), (under_the_cursor(desk.keys(more)), to)] {
                assert_eq!(row.len(), 1, "{keys} {more}: {row:?}");
                assert!(row[0].starts_with(expected), "{keys} {more}: {row:?} is not {expected:?}");
            }
        }
    }
}

#[test]
fn every_level_is_told_by_a_sign_on_the_round_and_a_word_in_the_review() {
    // Roots of class 3 are urgent; E2 stays wet (act); the others wait for magnesium (watch).
    let text = season::hollow().on("W1").roots((10, 12), 3).journal();
    let mut desk = Desk::with(&text, PLAIN, LARGE);
    let wide = desk.text();
    desk.resize(100, 40);
    let row = |text: &str, start: &str| {
        text.lines().find(|l| l.trim_start_matches('▸').trim_start().starts_with(start)).unwrap_or_default().to_owned()
    };
    for (bench, told) in [("E1 ", " ? Mg"), ("E2 ", " ! wet 8 d"), ("W1 ", " !! roots")] {
        assert!(row(&wide, bench).contains(told), "{bench}{told}\n{wide}");
    }
    let round = desk.text();
    for (bench, told) in [("E1 ", " ? magnesium due"), ("E2 ", " ! staying wet"), ("W1 ", " !! roots failing")] {
        assert!(row(&round, bench).contains(told), "{bench}{told}\n{round}");
    }
    let review = desk.keys("e").text();
    for (place, level, told) in [
        ("W1 (L2)", " urgent ", "roots failing"),
        ("E2 (L1)", " act ", "staying wet"),
        ("L1 (all of East; 240 pots)", " watch ", "magnesium due"),
    ] {
        let line = row(&review, place);
        assert!(line.contains(level) && line.ends_with(told), "{place}{level}{told}\n{review}");
    }
}
