//! How forms look: text and styles, the same words in every dress, and every size of window.

use crate::desk::{COLOR, Desk, PLAIN, all_drawn_at_every_size, same_in_every_dress};
use crate::season;
use benchwalk::input::Look;

/// Forms by the keys that lead to them.
const FORMS: [(&str, &str); 8] = [
    ("add", "a"),
    ("nutrient", "ada{Tab}118{Tab}a"),
    ("growth_regulator", "aedaminozide{Space}1500{Tab}b{Tab}12{Tab}06:40"),
    ("fog", "afsoap{Tab}thrips{Tab}c{Enter}"),
    ("pests", "aub{Tab}{Tab}{Tab}2{Tab}90{Enter}"),
    ("leaves", "awbc"),
    ("several", "{Space}{Space}ab150{Shift-Tab}"),
    ("strike", "afsoap{Tab}mites{Tab}a{Tab}12{Tab}now{Enter}u"),
];

fn opened(look: Look, keys: &str) -> Desk {
    let mut desk = Desk::with(&season::journal(), look, (80, 24));
    desk.keys(keys);
    desk
}

#[test]
fn forms_in_color() {
    for (name, keys) in FORMS {
        insta::assert_snapshot!(format!("{name}_80x24"), opened(COLOR, keys).dump());
    }
}

#[test]
fn a_form_says_the_same_in_every_dress() {
    for (name, keys) in FORMS {
        same_in_every_dress(name, |look| opened(look, keys));
    }
}

#[test]
fn every_form_at_every_size_with_its_cursor_inside() {
    all_drawn_at_every_size(FORMS.map(|(name, keys)| (name, opened(COLOR, keys))));
}

#[test]
fn a_form_in_the_least_window() {
    let mut desk = Desk::with(&season::journal(), PLAIN, (40, 12));
    desk.keys("afsoap{Tab}thrips{Tab}a{Enter}");
    insta::assert_snapshot!(desk.text());
}

/// The label of the row the cursor stands in: the form grows and shrinks with what is said of a field.
fn under_cursor(desk: &Desk) -> String {
    let row = usize::from(desk.draw().1.unwrap().y);
    desk.text().lines().nth(row).unwrap_or_default().chars().take(20).collect()
}

#[test]
fn moving_on_moves_the_cursor() {
    let mut desk = Desk::new();
    desk.keys("af");
    let mut seen = Vec::new();
    for _ in 0..16 {
        let at = under_cursor(&desk);
        assert!(!seen.contains(&at), "{at:?}\n{}", desk.text());
        seen.push(at);
        desk.keys("{Tab}");
    }
    assert_eq!(under_cursor(&desk), seen[0], "round at the end");
}
