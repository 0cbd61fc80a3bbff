//! Rows of keys on the Walk card, and what they write.

use crate::desk::{Desk, Keeping, check};
use benchwalk::input::{Code, Event, Key};
use benchwalk::model::{Effect, Setting};
use benchwalk::record::{Kind, Line};
use chrono::Duration;

#[test]
fn a_bench_costs_as_many_keys_as_it_has_digits_due() {
    // E1 is due for water, base, roots and bracts; E2 for water alone.
    let e1 = ["E1 water 3", "E1 water 3, base 2", "E1 roots 0", "E1 bracts 1"];
    check("w3201", &e1, "Walk  E2");
}

#[test]
fn the_next_bench_comes_after_the_last_digit_its_code_large() {
    let mut desk = Desk::new();
    desk.keys("w3201");
    assert!(desk.text().contains("EEEEE  2222"), "{}", desk.text());
    desk.keys("4");
    assert_eq!(desk.written().last().map(String::as_str), Some("E2 water 4"));
}

#[test]
fn a_closed_bench_is_passed_over_with_a_word() {
    // E3 was sprayed at 18:00 and is closed for 14 hours.
    let mut desk = Desk::new();
    desk.keys("w32014");
    assert!(desk.text().contains("E3 closed: skipped"), "{}", desk.text());
    assert!(desk.text().starts_with("Walk  W1"), "{}", desk.text());
    desk.keys("{Esc}{Home}jjf");
    assert!(desk.text().contains("E3 is closed until 08:00 (by this log; follow the posted sign)."), "{}", desk.text());
}

#[test]
fn a_closed_bench_opens_by_itself() {
    let mut desk = Desk::new();
    assert!(desk.text().contains("1 closed, not counted"), "{}", desk.text());
    desk.pass(Duration::minutes(51));
    assert!(!desk.text().contains("closed"), "{}", desk.text());
    desk.keys("jjf4");
    assert_eq!(desk.written(), ["E3 water 4"]);
}

#[test]
fn the_whole_round_by_digits_alone() {
    let mut desk = Desk::new();
    let keys = "w3201".to_owned() + "4" + "3201" + "5";
    desk.keys(&keys);
    assert!(desk.text().contains("The round is done"), "{}", desk.text());
    assert!(desk.text().contains("walked 4 of 4; 1 closed, not counted"), "{}", desk.text());
    assert_eq!(desk.written().len(), keys.len() - 1);
    desk.keys("w");
    assert!(desk.text().contains("All open benches walked; closed: E3."), "{}", desk.text());
}

#[test]
fn watered_is_one_key_and_is_not_written_twice() {
    check("w{Tab}dd4", &["E2 watered", "E2 water 4"], "Walk  W1");
}

#[test]
fn undo_strikes_out_and_goes_back() {
    let mut desk = Desk::new();
    desk.keys("w3201u");
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    assert!(desk.text().contains("[bracts _]"), "{}", desk.text());
    assert!(desk.written().last().unwrap().contains("voided"), "{:?}", desk.written());
    desk.keys("u{Enter}u{Enter}u{Enter}u");
    assert!(desk.text().contains("[water _]"), "{}", desk.text());
    assert!(desk.text().contains("Nothing left to undo in this walk."), "{}", desk.text());
    assert_eq!(desk.app.model.season.history("E1", desk.app.model.day).on(desk.app.model.day).count(), 0);
}

#[test]
fn a_check_scored_again_strikes_the_first_score() {
    let mut desk = Desk::new();
    desk.keys("w32b5");
    let written = desk.written();
    assert_eq!(written.len(), 4, "{written:?}");
    assert_eq!(written[3], "E1 water 3, base 5");
    let struck = match &desk.kept[2] {
        Line::Entry(entry) => matches!(*entry.kind, Kind::Strike { .. }),
        _ => false,
    };
    assert!(struck, "{written:?}");
    assert!(desk.text().contains("base 5"), "{}", desk.text());
}

#[test]
fn skip_writes_nothing_and_the_check_stays_due() {
    let mut desk = Desk::new();
    desk.keys("w----");
    assert!(desk.text().starts_with("Walk  E2"), "{}", desk.text());
    assert!(desk.kept.is_empty());
    desk.keys("43201");
    desk.keys("5");
    // Round once: back at the bench passed over.
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
}

#[test]
fn a_digit_beyond_the_scale_is_not_taken() {
    check("w90", &[], "water is 1 to 5; 0 was ignored.");
}

#[test]
fn the_same_digit_right_after_the_bench_changed_is_not_taken() {
    let mut desk = Desk::new();
    desk.keys("w{Tab}");
    desk.keys_every("4", 500).keys_every("4", 200);
    assert_eq!(desk.written(), ["E2 water 4"]);
    assert!(desk.text().contains("4 ignored: now at W1."), "{}", desk.text());
    desk.keys_every("4", 400);
    assert_eq!(desk.written(), ["E2 water 4", "W1 water 4"]);
}

#[test]
fn a_key_held_down_writes_one_score() {
    let mut desk = Desk::new();
    desk.keys("w{Tab}4");
    for _ in 0..50 {
        desk.keys_every("4", 33);
    }
    assert_eq!(desk.written(), ["E2 water 4"]);
    let held = Key { repeat: true, ..Key::new(Code::Char('4')) };
    desk.ms += 1_000;
    desk.event(Event::Key(held));
    assert_eq!(desk.written(), ["E2 water 4"], "a repeat told by the terminal");
}

#[test]
fn a_note_is_written_and_what_is_half_typed_is_kept() {
    let mut desk = Desk::new();
    desk.keys("wndrip at the post{Esc}");
    assert!(desk.kept.is_empty());
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    // What a split escape leaves behind does nothing either.
    desk.keys("[A");
    desk.keys("n");
    assert!(desk.text().contains("> drip at the post"), "{}", desk.text());
    desk.keys("{Space}5{Enter}");
    assert_eq!(desk.written(), ["E1 note: drip at the post 5"]);
}

#[test]
fn a_paste_played_as_keys_loses_nothing() {
    // Some terminals play a paste as plain keys, Enter among them.
    let mut desk = Desk::new();
    desk.keys("wnline1{Enter}t{Enter}q");
    assert_eq!(desk.written(), ["E1 note: line1"]);
    // The last key quits; what was saved before it stays.
    assert_eq!(desk.outside, [Effect::Quit]);
}

#[test]
fn pasted_text_is_cleaned() {
    let mut desk = Desk::new();
    desk.keys("wn");
    desk.event(Event::Paste("a\nb\tc\u{1b}[31m\u{202e}d".into()));
    desk.keys("{Enter}");
    assert_eq!(desk.written(), ["E1 note: a b c[31md"]);
}

#[test]
fn leaves_are_letters_and_one_enter() {
    check("wlab1{Enter}", &["E1 leaves: lower leaves yellow, leaves rolled (old leaves)"], "[water _]");
    check("wl{Enter}", &["E1 leaves: no symptoms"], "[water _]");
    check("wlab{Esc}", &[], "[water _]");
}

#[test]
fn a_branch_that_hangs_on_three_plants_is_a_letter_and_a_number() {
    check("wlrz3{Enter}", &["E1 leaves: branch broken or hanging, 3 plants"], "[water _]");
    // Digits are places until the number is begun, and a letter ends it.
    check(
        "wl1z12{Backspace}4qy{Enter}",
        &["E1 leaves: brown or haloed spots, newest leaves pale (old leaves), 14 plants"],
        "",
    );
    check("wlz05zw3{Enter}", &["E1 leaves: buds yellow or dropped (young leaves), 5 plants"], "");
}

#[test]
fn brown_spots_typed_on_the_card_stand_on_it_and_in_the_evening() {
    let mut desk = Desk::new();
    desk.keys("wlq{Enter}").settle();
    assert!(desk.text().contains("act: leaf signs (brown or haloed spots)"), "{}", desk.text());
    desk.keys("{Esc}e").settle();
    let evening = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(evening.contains("act (new) leaf signs (brown or haloed spots)"), "{evening}");
    assert!(evening.contains("no overhead water; send a sample to a lab"), "{evening}");
}

#[test]
fn more_opens_each_further_check() {
    check("wmd200{Space}30{Enter}", &["E1 fed 200 ppm N, 30 ppm Mg"], "[water _]");
    check("wme2{Space}rot{Enter}", &["E1 lost 2 pots (rot)"], "[water _]");
    check("wmg12{Enter}", &["E1 whitefly on 12 of 20 plants"], "[water _]");
    check("wmg21{Enter}", &[], "! plants infested: is 21, more than inspected (20)");
    check("wmm3", &["E1 whitefly on 3 of 20 plants"], "Walk  E1");
}

#[test]
fn heights_are_one_line() {
    let mut desk = Desk::new();
    desk.keys("wmn9.5{Space}9.8,{Space}24cm");
    assert!(desk.kept.is_empty());
    desk.keys("{Enter}");
    assert_eq!(desk.written().len(), 1);
    assert!(desk.written()[0].starts_with("E1 height 9.5"), "{:?}", desk.written());
    desk.keys("{Left}mnninety{Enter}");
    assert!(desk.text().contains("'ninety' is not a number"), "{}", desk.text());
    desk.keys("{Esc}f");
    assert!(desk.kept.len() == 1);
}

#[test]
fn nothing_is_called_saved_before_it_is() {
    let mut desk = Desk::new();
    desk.keeping = Keeping::Silent;
    desk.keys("w3");
    assert!(desk.text().contains("water 3*"), "{}", desk.text());
    assert!(desk.text().contains("1 NOT YET SAVED"), "{}", desk.text());
    assert!(!desk.text().contains("saved: E1"), "{}", desk.text());
    desk.keeping = Keeping::Well;
    desk.keys("2");
    assert!(desk.text().contains("saved: 2 entries, the last E1 water 3"), "{}", desk.text());
    assert!(!desk.text().contains("NOT YET"), "{}", desk.text());
    assert_eq!(desk.written(), ["E1 water 3", "E1 water 3, base 2"]);
}

#[test]
fn a_busy_file_keeps_the_entry_waiting_and_a_refusal_takes_it_off() {
    let mut desk = Desk::new();
    desk.keeping = Keeping::Busy;
    desk.keys("w3");
    assert!(desk.text().contains("1 NOT YET SAVED: another program is writing."), "{}", desk.text());
    assert!(desk.text().contains("water 3*"), "{}", desk.text());
    desk.keeping = Keeping::Refusing;
    desk.keys("2");
    assert!(desk.text().contains("NOT SAVED: the record breaks a rule."), "{}", desk.text());
    assert!(desk.text().contains("water _"), "{}", desk.text());
    assert!(desk.kept.is_empty());
}

#[test]
fn past_midnight_new_entries_go_to_the_new_day_and_it_says_so() {
    let mut desk = Desk::new();
    desk.keys("w{Tab}");
    desk.pass(Duration::hours(17));
    assert!(desk.text().contains("It is now Tue Oct 13, 2026. New entries go to this day."), "{}", desk.text());
    desk.keys("3");
    let Some(Line::Entry(entry)) = desk.kept.last() else { panic!("nothing written") };
    assert_eq!(entry.day().to_string(), "2026-10-13");
}

#[test]
fn who_writes_is_asked_once() {
    let mut desk = Desk::new();
    desk.app.model.set_by("");
    desk.keys("w");
    assert!(desk.text().contains("Your initials?"), "{}", desk.text());
    desk.keys("much too long{Enter}");
    assert!(desk.text().contains("1 to 8 characters"), "{}", desk.text());
    for _ in 0..20 {
        desk.keys("{Backspace}");
    }
    desk.keys("jo{Enter}3");
    let Some(Line::Entry(entry)) = desk.kept.last() else { panic!("nothing written: {}", desk.text()) };
    assert_eq!(entry.by, "jo".into());
    assert!(desk.outside.contains(&Effect::KeepSetting(Setting::By("jo".into()))));
}

#[test]
fn who_writes_is_asked_before_the_first_line_of_the_plan() {
    let mut desk = Desk::empty(crate::desk::COLOR, (80, 24));
    desk.app.model.set_by("");
    desk.keys("s");
    assert!(desk.text().contains("Your initials?"), "{}", desk.text());
    desk.keys("jo{Enter}Thistlecot{Tab}a{Enter}");
    let Some(Line::Site(site)) = desk.kept.last() else { panic!("nothing written: {}", desk.text()) };
    assert_eq!(site.revision.by.as_deref(), Some("jo"));
}

#[test]
fn the_cursor_stands_in_the_cell_keys_act_on() {
    let mut desk = Desk::new();
    for key in [
        "w", "3", "2", "n", "a", "{Esc}", "m", "{Esc}", "l", "{Down}", "{Esc}", "{Esc}", "j", "{Enter}", "{Esc}", "e",
        "?",
    ] {
        desk.keys(key);
        let (buffer, cursor) = desk.draw();
        let at = cursor.unwrap_or_else(|| panic!("no cursor after {key}\n{}", desk.text()));
        assert!(buffer.area.contains(at), "{key}");
        assert!(at.y > 0, "after {key} at {at}\n{}", desk.text());
    }
}

#[test]
fn keys_in_a_storm_of_resizes_all_arrive() {
    let mut desk = Desk::new();
    desk.keys("wn");
    for i in 0..200_u16 {
        desk.keys("x").resize(20 + i, 10 + i % 40);
    }
    desk.keys("{Enter}");
    assert_eq!(desk.written(), [format!("E1 note: {}", "x".repeat(200))]);
}

#[test]
fn records_do_not_double_a_base_or_reach_typed_later_completes_the_entry() {
    let mut desk = Desk::new();
    let log = |desk: &Desk| {
        let all = desk.app.model.season.written("E1");
        let today = all.iter().filter(|one| one.entry.day() == desk.app.model.day && one.struck_by.is_none());
        let system = desk.app.model.system();
        let lines = today.filter(|one| one.entry.name() != benchwalk::record::KindName::Strike);
        lines.map(|one| benchwalk::report::entry::line(one.entry, system)).collect::<Vec<_>>()
    };
    desk.keys("w32");
    assert_eq!(log(&desk), ["water 3, base 2"], "one line of the look");
    desk.keys("1mk2");
    assert_eq!(log(&desk).iter().filter(|line| line.starts_with("roots")).count(), 1, "{:?}", log(&desk));
    assert!(log(&desk).iter().any(|line| line.contains("roots 1") && line.contains("wall")), "{:?}", log(&desk));
    desk.keys("c");
    let shown = desk.text().lines().filter(|line| line.contains("Oct 12") && line.contains("water 3")).count();
    assert!(shown <= 1, "{}", desk.text());
    // The undo of the reach, and of the roots, and of the base: the former is back.
    desk.keys("{Esc}u{Esc}").keys_every("u", 3_500).keys_every("u", 3_500);
    assert_eq!(log(&desk), ["water 3"], "{:?}", desk.written());
    desk.keys("y");
    assert_eq!(log(&desk), ["water 3, base 2"]);
    // Voided from the log, the look is gone as a whole.
    desk.keys("{Esc}{Home}{Enter}x{Enter}wrong{Space}pot{Enter}");
    assert!(log(&desk).is_empty(), "{:?}", log(&desk));
}
