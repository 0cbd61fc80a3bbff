//! What is not saved yet: said on every page while it lasts, and offered at the next start.

use crate::desk::{Desk, Keeping};
use benchwalk::model::{About, Effect, Rescued};
use benchwalk::record::Line;
use std::path::Path;

/// What an earlier run could not save: three scores of the season's benches.
pub(crate) fn left_behind() -> Vec<Rescued> {
    let mut desk = Desk::new();
    desk.keys("w3");
    let entries = desk.kept.iter().filter(|line| matches!(line, Line::Entry(_))).cloned();
    vec![Rescued {
        path: "/home/me/.local/state/benchwalk/unsaved/season.jsonl".into(),
        lines: entries.collect(),
        refused: false,
    }]
}

/// The rows below the page.
fn foot(desk: &Desk) -> String {
    let text = desk.text();
    let rows: Vec<&str> = text.lines().collect();
    rows[rows.len().saturating_sub(7)..].join("\n")
}

#[test]
fn what_is_not_saved_is_said_on_every_page_and_over_every_popup() {
    let mut desk = Desk::new();
    desk.keeping = Keeping::Busy;
    desk.keys("w3");
    for keys in
        ["", "m", "{Esc}", "a", "{Esc}", "{Esc}", "e", "r", "{Enter}", "x", "{Esc}", "s", "i", "{Esc}", "g", "?"]
    {
        desk.keys(keys);
        let text = desk.text();
        assert!(text.contains("! 1 NOT YET SAVED: another program is writing."), "after {keys:?}\n{text}");
    }
    desk.keeping = Keeping::Well;
    desk.keys("{Esc}rw4");
    assert!(!desk.text().contains("NOT YET"), "{}", desk.text());
    assert_eq!(desk.app.model.notices.get(&About::Saving), None);
}

#[test]
fn the_help_says_that_everything_is_saved_only_while_it_is() {
    let mut desk = Desk::with(&crate::season::journal(), crate::desk::COLOR, (80, 320));
    desk.keys("?");
    let (saved, unsaved) = ("Quit; everything is already saved.", "Quit; what is not saved yet is kept or printed.");
    assert_eq!((desk.text().matches(saved).count(), desk.text().matches(unsaved).count()), (2, 0), "{}", desk.text());
    desk.keeping = Keeping::Busy;
    desk.keys("{Esc}w3?");
    assert_eq!((desk.text().matches(saved).count(), desk.text().matches(unsaved).count()), (0, 3), "{}", desk.text());
    desk.keeping = Keeping::Well;
    desk.keys("{Esc}2?");
    assert!(desk.text().contains(saved) && !desk.text().contains(unsaved), "{}", desk.text());
}

#[test]
fn a_line_of_the_plan_that_waits_holds_and_is_counted() {
    let mut desk = Desk::new();
    desk.keeping = Keeping::Busy;
    let benches = desk.app.model.season.benches().len();
    desk.keys("gab");
    desk.keys("Q1-Q2{Tab}East{Enter}");
    assert_eq!(desk.app.model.season.benches().len(), benches + 2, "{}", desk.text());
    assert!(desk.text().contains("! 2 NOT YET SAVED: "), "{}", desk.text());
    assert!(desk.app.popups.is_empty(), "the form is closed");
    desk.keeping = Keeping::Well;
    desk.keys("{Esc}w3");
    assert!(!desk.text().contains("NOT YET"), "{}", desk.text());
    assert_eq!(desk.kept.len(), 3);
}

#[test]
fn an_old_message_is_not_shown_on_the_next_page() {
    let mut desk = Desk::new();
    desk.keys("w3");
    assert!(foot(&desk).contains("saved: "), "{}", desk.text());
    desk.keys("{Esc}e");
    assert!(!foot(&desk).contains("saved: "), "{}", desk.text());
}

#[test]
fn what_the_program_could_not_save_is_offered_in_words_and_saved_by_enter() {
    let mut desk = Desk::new();
    let rescued = left_behind();
    let path = rescued[0].path.clone();
    assert!(Path::new(&path).is_absolute());
    desk.app.offer(rescued);
    let text = desk.text();
    assert!(text.contains("1 entry of Oct 12 was not saved when the program ended: "), "{text}");
    assert!(text.contains(" water 3") && text.contains("Enter saves this now"), "{text}");
    assert!(text.contains(&path), "{text}");
    desk.keys("w");
    assert!(desk.text().contains("Enter saves this now"), "only Enter and Esc mean something: {}", desk.text());
    desk.keys("{Enter}");
    assert_eq!(desk.outside, [Effect::TakeRescued(path)]);
    assert!(desk.app.popups.is_empty());
}

#[test]
fn what_the_program_could_not_save_can_be_left_for_later() {
    let mut desk = Desk::new();
    desk.app.offer(left_behind());
    desk.keys("{Esc}");
    assert!(desk.app.popups.is_empty() && desk.outside.is_empty());
}
