//! Keys held down outside text fields, undo and redo: a slip costs one entry at most, and nothing is lost for good.

use crate::desk::{COLOR, Desk};
use crate::season::{Crop, bench, date, lot};
use benchwalk::input::{Code, Event, Key};
use benchwalk::record::{Kind, Lot, PestCount, PestName, Pinch};

/// So many benches of a young lot on which the water alone is due.
fn young(benches: u32) -> Desk {
    let young = Lot {
        planted: date(10, 5),
        pots: 10 * benches,
        pinch: Pinch::None,
        height_low_cm: None,
        height_high_cm: None,
        ..lot("L1")
    };
    let scouted = PestCount::Plants { inspected: 20, infested: 0 };
    let crop = (1..=benches).fold(Crop::bare().with_lot(young), |crop, n| {
        let code = format!("E{n}");
        crop.bench_in(&code, "East", n)
            .filled(&code, "L1", 10, (10, 5))
            .on(&code)
            .at((10, 10), (7, 0), Kind::Pests { pest: PestName::Whitefly, count: scouted.clone() })
            .at((10, 10), (7, 1), Kind::Bracts { stage: 1 })
            .at((10, 11), (7, 0), Kind::Water { level: 3, base: None })
    });
    Desk::of(&crop.season(), COLOR, (80, 24))
}

/// Walks every bench by digits in turn; gives how many keys that took.
fn walk(desk: &mut Desk) -> usize {
    let mut keys = 0;
    while desk.text().starts_with("Walk") {
        desk.keys(if keys % 2 == 0 { "3" } else { "4" });
        keys += 1;
    }
    keys
}

/// Holds a key down for so many milliseconds, as a keyboard sends it: once, then after a while again and again.
fn hold(desk: &mut Desk, key: &str, delay: u64, every: u64, long: u64) {
    desk.keys(key).keys_every(key, delay);
    let mut held = delay;
    while held < long {
        desk.keys_every(key, every);
        held += every;
    }
}

/// Benches with a water reading of today that stands.
fn walked(desk: &Desk) -> usize {
    let (season, day) = (&desk.app.model.season, desk.app.model.day);
    let has = |code: &str| season.history(code, day).on(day).any(|e| matches!(*e.kind, Kind::Water { .. }));
    season.benches().iter().filter(|b| has(&b.bench)).count()
}

#[test]
fn twenty_four_benches_with_water_due_take_twenty_four_keys() {
    let mut desk = young(24);
    desk.keys("w");
    assert_eq!(walk(&mut desk), 24);
    assert!(desk.text().contains("walked 24 of 24"), "{}", desk.text());
    assert_eq!(desk.written().len(), 24);
}

#[test]
fn undo_held_for_two_seconds_over_fourteen_walked_benches_leaves_thirteen() {
    for (delay, every) in [(250, 30), (500, 33), (660, 40), (1_000, 90), (33, 33)] {
        let mut desk = young(14);
        desk.keys("w");
        walk(&mut desk);
        assert_eq!(walked(&desk), 14);
        hold(&mut desk, "u", delay, every, 2_000);
        assert_eq!(walked(&desk), 13, "{delay} ms, then every {every} ms\n{}", desk.text());
        desk.keys("{Esc}y");
        assert_eq!(walked(&desk), 14, "brought back\n{}", desk.text());
    }
}

#[test]
fn a_second_undo_within_three_seconds_asks_and_is_not_answered_by_u() {
    let mut desk = young(3);
    desk.keys("w343u");
    assert_eq!(walked(&desk), 2);
    desk.keys("u");
    assert!(desk.text().contains("Undo one more?"), "{}", desk.text());
    assert!(desk.text().contains("E2 water 4, logged Oct 12 07:10"), "{}", desk.text());
    desk.keys("uuu");
    assert_eq!(walked(&desk), 2, "u is no answer\n{}", desk.text());
    desk.keys("{Esc}");
    assert_eq!(walked(&desk), 2);
    desk.keys("u{Enter}");
    assert_eq!(walked(&desk), 1, "{}", desk.text());
    // Later than three seconds it is asked no more.
    desk.keys_every("u", 3_100);
    assert_eq!(walked(&desk), 0, "{}", desk.text());
}

#[test]
fn redo_brings_back_what_was_voided_by_new_entries() {
    let mut desk = young(3);
    desk.keys("w34").keys_every("u", 3_500).keys_every("u", 3_500);
    assert_eq!(walked(&desk), 0, "{}", desk.text());
    desk.keys("y");
    assert_eq!(walked(&desk), 1);
    assert!(desk.text().contains("Brought back."), "{}", desk.text());
    desk.keys("y");
    assert_eq!(walked(&desk), 2);
    assert!(desk.text().starts_with("Walk  E2"), "{}", desk.text());
    // Nothing was deleted: two scores, two strikes, two scores again.
    let written = desk.written();
    assert_eq!(written.len(), 6, "{written:?}");
    assert_eq!(written[4..], ["E1 water 3", "E2 water 4"]);
    desk.keys("y");
    assert!(desk.text().contains("Nothing to bring back"), "{}", desk.text());
    // And undo takes back what was brought back.
    desk.keys_every("u", 3_500);
    assert_eq!(walked(&desk), 1, "{}", desk.text());
    // What was scored in its place meanwhile is not doubled.
    desk.keys("5y");
    assert_eq!(walked(&desk), 2);
    let today = desk.app.model.season.history("E2", desk.app.model.day);
    assert_eq!(today.on(desk.app.model.day).count(), 1);
}

#[test]
fn what_was_voided_by_its_form_is_brought_back_too() {
    let mut desk = young(2);
    desk.keys("w3{Esc}{Home}{Enter}x{Enter}wrong{Space}pot{Enter}");
    assert_eq!(walked(&desk), 0, "{}", desk.text());
    desk.keys("{Esc}y");
    assert_eq!(walked(&desk), 1, "{}", desk.text());
}

#[test]
fn the_undo_of_a_second_score_gives_back_the_first() {
    let mut desk = young(2);
    desk.keys("w3{Left}").keys("b2");
    let shown = |desk: &Desk| desk.app.model.cache.bench("E1").and_then(|s| s.week[0]);
    assert_eq!(shown(&desk), Some(2), "{}", desk.text());
    desk.keys("u");
    assert_eq!(shown(&desk), Some(3), "{}", desk.text());
    desk.keys("y");
    assert_eq!(shown(&desk), Some(2), "{}", desk.text());
    desk.keys_every("u", 3_500).keys_every("u", 3_500);
    assert_eq!(shown(&desk), None, "{}", desk.text());
    desk.keys("yy");
    assert_eq!(shown(&desk), Some(2), "{}", desk.text());
}

#[test]
fn every_key_that_writes_or_skips_counts_once_while_it_is_held() {
    // Watered, skip, next bench, mark, Enter in a list and its letters.
    let mut desk = young(6);
    desk.keys("w");
    for _ in 0..40 {
        desk.keys_every("d", 33);
    }
    assert_eq!(desk.written(), ["E1 watered"]);
    for key in ["-", "{Right}", "{Tab}"] {
        let mut desk = young(6);
        desk.keys("w").keys(key);
        for _ in 0..40 {
            desk.keys_every(key, 33);
        }
        assert!(desk.text().starts_with("Walk  E2"), "{key}\n{}", desk.text());
        assert!(desk.text().contains(" is held down: ignored."), "{key}\n{}", desk.text());
    }
    let mut desk = young(6);
    desk.keys("{Space}");
    for _ in 0..40 {
        desk.keys_every("{Space}", 33);
    }
    assert_eq!(desk.text().matches("* E1").count(), 1, "{}", desk.text());
    let mut desk = young(6);
    desk.keys("wm{Down}{Down}").keys("{Enter}");
    for _ in 0..40 {
        desk.keys_every("{Enter}", 33);
    }
    assert!(desk.written().is_empty(), "{:?}", desk.written());
    assert!(desk.text().contains("Watered E1"), "{}", desk.text());
    let mut desk = young(6);
    desk.keys("wla");
    for _ in 0..41 {
        desk.keys_every("a", 33);
    }
    desk.keys("{Enter}");
    assert_eq!(desk.written(), ["E1 leaves: lower leaves yellow"]);
}

#[test]
fn a_repeat_the_terminal_reports_writes_and_skips_nothing() {
    let mut desk = young(6);
    desk.keys("w3");
    for code in ['u', 'd', '-', 'y'] {
        desk.ms += 1_000;
        desk.event(Event::Key(Key { repeat: true, ..Key::new(Code::Char(code)) }));
    }
    for code in [Code::Right, Code::Tab] {
        desk.ms += 1_000;
        desk.event(Event::Key(Key { repeat: true, ..Key::new(code) }));
    }
    assert_eq!(desk.written(), ["E1 water 3"]);
    assert!(desk.text().starts_with("Walk  E2"), "{}", desk.text());
}

#[test]
fn a_treatment_is_still_undone_by_its_form_alone() {
    let mut desk = young(2);
    desk.keys("wafsoap{Tab}mites{Tab}a{Tab}12{Tab}now{Enter}uu");
    assert!(desk.text().contains("reason"), "{}", desk.text());
    assert!(desk.app.model.season.keep_out("E1", desk.app.model.now.at.to_utc()).is_some());
    assert_eq!(desk.app.model.season.entries().iter().filter(|e| e.place == bench("E1")).count(), 4);
}
