//! How forms look: text and styles, in color and without, in a small and a large window, and at every size.

use crate::desk::{ASCII, COLOR, Desk, PLAIN};
use crate::season;

const SMALL: (u16, u16) = (80, 24);
const LARGE: (u16, u16) = (120, 40);

/// Forms by the keys that lead to them.
const FORMS: [(&str, &str); 8] = [
    ("add", "a"),
    ("nutrient", "ada<tab>118<tab>a"),
    ("growth_regulator", "aedaminozide<space>1500<tab>b<tab>12<tab>06:40"),
    ("fog", "afsoap<tab>thrips<tab>c<ret>"),
    ("pests", "aub<tab><tab><tab>2<tab>90<ret>"),
    ("leaves", "awbc"),
    ("several", "<space><space>ab150<s-tab>"),
    ("strike", "afsoap<tab>mites<tab>a<tab>12<tab>now<ret>u"),
];

#[test]
fn forms_in_color_and_without() {
    for (name, keys) in FORMS {
        for (look, size, how) in [(COLOR, SMALL, "80x24"), (COLOR, LARGE, "120x40"), (PLAIN, SMALL, "no_color")] {
            let mut desk = Desk::with(&season::journal(), look, size);
            desk.keys(keys);
            insta::assert_snapshot!(format!("{name}_{how}"), desk.dump());
        }
    }
}

#[test]
fn forms_in_ascii() {
    for (name, keys) in FORMS {
        let mut desk = Desk::with(&season::journal(), ASCII, SMALL);
        desk.keys(keys);
        assert!(desk.text().is_ascii(), "{name}\n{}", desk.text());
    }
}

#[test]
fn every_form_at_every_size_with_its_cursor_inside() {
    for (name, keys) in FORMS {
        let mut desk = Desk::new();
        desk.keys(keys);
        for columns in 0..=130 {
            for rows in 0..=45 {
                desk.resize(columns, rows);
                let (_, cursor) = desk.draw();
                if let Some(at) = cursor {
                    assert!(at.x < columns && at.y < rows, "{name} at {columns} x {rows}: {at:?}");
                }
            }
        }
    }
}

#[test]
fn a_form_in_the_least_window() {
    let mut desk = Desk::with(&season::journal(), PLAIN, (40, 12));
    desk.keys("afsoap<tab>thrips<tab>a<ret>");
    insta::assert_snapshot!(desk.text());
}

#[test]
fn moving_on_moves_the_cursor() {
    let mut desk = Desk::new();
    desk.keys("af");
    let mut seen = Vec::new();
    for _ in 0..9 {
        let at = desk.draw().1.unwrap();
        assert!(!seen.contains(&at), "{at:?}\n{}", desk.text());
        seen.push(at);
        desk.keys("<tab>");
    }
    assert_eq!(desk.draw().1.unwrap(), seen[0], "round at the end");
}
