//! Keys pressed before the season is read: held back, and played in their order once it is.

use crate::desk::{COLOR, Desk};
use crate::season::{at, bench, entry, sprayed};
use benchwalk::model::{Effect, Outcome};
use benchwalk::record::Entry;
use benchwalk::season::Season;

/// A desk whose plan is read and whose entries are not, and these entries; E1, the first bench, is closed.
fn unread() -> (Desk, Vec<Entry>) {
    let season = Season::of(benchwalk::journal::read(&crate::season::journal()).unwrap());
    let mut entries = season.entries().to_vec();
    entries.push(entry(0x77, at(10, 12, 6, 30), bench("E1"), sprayed("pyrethrins", 24.0)));
    let plan_only = Season::new(season.plan().clone(), Vec::new());
    let mut desk = Desk::of(&plan_only, COLOR, (80, 24));
    desk.app.model.wait_for_entries();
    (desk, entries)
}

#[test]
fn keys_before_the_season_is_read_open_the_same_bench_as_later() {
    for gap in [0, 30, 500] {
        let (mut early, entries) = unread();
        early.keys_every("w", gap);
        assert!(early.text().starts_with("Round"), "{}", early.text());
        assert!(early.text().contains("Reading the season. 1 key waits; Esc drops it."), "{}", early.text());
        early.answer(Outcome::Loaded(entries));
        let (mut late, entries) = unread();
        late.answer(Outcome::Loaded(entries)).keys("w");
        assert!(early.text().starts_with("Walk  E2"), "E1 is closed\n{}", early.text());
        assert_eq!(early.text(), late.text());
    }
}

#[test]
fn held_keys_are_played_in_their_order_with_their_times() {
    let (mut desk, entries) = unread();
    desk.keys("w4{Esc}").keys("e");
    assert!(desk.written().is_empty());
    desk.answer(Outcome::Loaded(entries.clone()));
    // Esc came before the season was there: it dropped what was before it.
    assert!(desk.written().is_empty(), "{:?}", desk.written());
    assert!(desk.text().starts_with("Evening review"), "{}", desk.text());

    let (mut desk, entries2) = unread();
    desk.keys("w4").keys("3");
    desk.answer(Outcome::Loaded(entries2));
    assert_eq!(desk.written(), ["E2 water 4", "W1 water 3"], "{}", desk.text());

    let (mut desk, entries) = (unread().0, entries);
    desk.keys("w4").keys_every("4", 40);
    desk.answer(Outcome::Loaded(entries));
    assert_eq!(desk.written(), ["E2 water 4"], "a key held down is one key, played late too");
}

#[test]
fn a_note_typed_ahead_is_a_note_though_it_holds_a_q() {
    let (mut desk, entries) = unread();
    desk.keys("wnquick{Space}dry{Enter}");
    assert!(!desk.outside.contains(&Effect::Quit), "{:?}", desk.outside);
    desk.answer(Outcome::Loaded(entries));
    assert_eq!(desk.written(), ["E2 note: quick dry"]);
}

#[test]
fn leaving_does_not_wait_for_the_season() {
    for keys in ["q", "{Ctrl-Q}", "w{Ctrl-Q}"] {
        let (mut desk, _) = unread();
        desk.keys(keys);
        assert_eq!(desk.outside, [Effect::Quit], "{keys}");
    }
}

#[test]
fn no_more_than_two_hundred_keys_are_held_and_the_rest_is_told() {
    let (mut desk, entries) = unread();
    desk.keys(&format!("w{}", "j".repeat(204)));
    assert!(desk.text().contains("200 keys wait, no more are kept; Esc drops them."), "{}", desk.text());
    desk.answer(Outcome::Loaded(entries));
    let said = "While the season was read 200 keys were kept; 5 more were ignored.";
    assert!(desk.text().contains(said), "{}", desk.text());
}

#[test]
fn the_cursor_of_the_round_moves_before_the_season_is_read() {
    let (mut early, entries) = unread();
    let cursor = |desk: &Desk| desk.text().lines().find(|line| line.starts_with('▸')).map(ToOwned::to_owned);
    let first = cursor(&early);
    early.keys("jj");
    assert!(!early.text().contains("wait"), "{}", early.text());
    assert_ne!(cursor(&early), first, "{}", early.text());
    // What opens a page waits for the record, and what comes after it waits with it.
    early.keys("{Enter}j");
    assert!(early.text().contains("2 keys wait"), "{}", early.text());
    early.answer(Outcome::Loaded(entries));
    let (mut late, entries) = unread();
    late.answer(Outcome::Loaded(entries)).keys("jj{Enter}j");
    assert!(late.text().starts_with("Bench E3"), "{}", late.text());
    assert_eq!(early.text(), late.text());
}

#[test]
fn a_season_indexed_on_another_thread_is_the_one_that_is_loaded() {
    let (mut early, entries) = unread();
    let indexing = early.app.model.indexing(entries);
    early.keys("w");
    let season = std::thread::spawn(indexing).join().unwrap();
    early.app.take_indexed(&season);
    early.event(benchwalk::input::Event::Idle);
    while let Some((event, now)) = early.app.released() {
        early.app.event(event, now);
    }
    let (mut late, entries) = unread();
    late.answer(Outcome::Loaded(entries)).keys("w");
    assert!(late.text().starts_with("Walk  E2"), "{}", late.text());
    assert_eq!(early.app.model.season.entries(), late.app.model.season.entries());
    assert_eq!(early.text(), late.text());
}

#[test]
fn what_is_not_known_yet_is_worked_out_without_a_wait() {
    let (mut desk, entries) = unread();
    assert_eq!(desk.app.patience(), None, "nothing can be worked out of a plan alone");
    let season = desk.app.model.indexing(entries)();
    desk.app.take_indexed(&season);
    assert_eq!(desk.app.patience(), Some(std::time::Duration::ZERO));
    while desk.app.idle() {}
    assert_eq!(desk.app.patience(), None);
    // From then on it waits until no key comes: each entry changes it.
    desk.keys("w3r");
    assert!(desk.app.patience().is_none_or(|patience| !patience.is_zero()));
    assert!(!desk.app.model.is_new());
}

#[test]
fn how_far_the_reading_got_is_to_be_seen() {
    let (mut desk, _) = unread();
    desk.app.model.reading(31_000, 100_000);
    assert!(desk.text().contains("Reading the season ━━━─────── 31%."), "{}", desk.text());
}

#[test]
fn a_season_that_cannot_be_read_is_not_walked() {
    let (mut desk, entries) = unread();
    desk.keys("w");
    desk.app.model.could_not_read("entry 7 is no entry.".into());
    desk.event(benchwalk::input::Event::Idle);
    while desk.app.released().is_some() {}
    desk.keys("w");
    assert!(desk.text().contains("No bench can be walked: the season could not be read"), "{}", desk.text());
    desk.keys("f");
    assert!(desk.text().starts_with("Round"), "{}", desk.text());
    assert!(desk.text().contains("E1 cannot be walked"), "{}", desk.text());
    // Read after all.
    desk.answer(Outcome::Loaded(entries)).keys("w");
    assert!(desk.text().starts_with("Walk  E2"), "{}", desk.text());
}
