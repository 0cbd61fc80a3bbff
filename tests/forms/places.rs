//! Where a form is about, and when it was.

use crate::desk::Desk;
use benchwalk::input::{Event, Key};
use benchwalk::model::{Effect, Now};
use benchwalk::record::{Line, Place};

fn places(desk: &Desk) -> Vec<String> {
    let entries = desk.kept.iter().filter_map(|line| match line {
        Line::Entry(entry) => Some(format!("{} {}", entry.place.field(), entry.place.code())),
        _ => None,
    });
    entries.collect()
}

fn after(keys: &str) -> Vec<String> {
    let mut desk = Desk::new();
    desk.keys(keys);
    places(&desk)
}

#[test]
fn one_several_a_house_its_rest_a_lot() {
    assert_eq!(after("aa{Enter}"), ["bench E1"]);
    assert_eq!(after("aa{Shift-Tab}c{Enter}"), ["house East"]);
    assert_eq!(after("aa{Shift-Tab}e{Enter}"), ["lot L1"]);
    assert_eq!(after("aa{Shift-Tab}b{Tab}{Space}e3{Enter}"), ["bench E1", "bench E3"], "codes in any case");
    assert_eq!(
        after("aa{Shift-Tab}d{Enter}"),
        ["bench E2", "bench E3"],
        "all of the house but the bench it was opened on"
    );
    assert_eq!(after("aa{Shift-Tab}d{Tab}{Space}E2{Enter}"), ["bench E3"]);
    assert_eq!(
        after("aa{Shift-Tab}d{Tab}{Backspace}{Backspace}{Enter}"),
        ["bench E1", "bench E2", "bench E3"],
        "none left out: one each"
    );
}

#[test]
fn benches_marked_on_the_round_are_written_to_together() {
    let mut desk = Desk::new();
    desk.keys("{Space}j{Space}");
    assert!(desk.text().contains("* E1") && desk.text().contains("* E3"), "{}", desk.text());
    desk.keys("ab150{Enter}");
    assert_eq!(places(&desk), ["bench E1", "bench E3"]);
    desk.keys("u");
    assert_eq!(desk.written().len(), 4, "one undo takes all of it back\n{}", desk.text());
    assert!(desk.written()[2..].iter().all(|w| w.contains("undone")));
    assert_eq!(desk.text().matches("voided").count(), 1, "said once\n{}", desk.text());
    assert!(!desk.text().contains("undone"), "{}", desk.text());
    desk.keys("u");
    assert_eq!(desk.written().len(), 4, "{}", desk.text());
}

#[test]
fn several_entries_go_to_the_file_in_one_transaction() {
    let mut desk = Desk::new();
    desk.keys("aa{Shift-Tab}d");
    let stamp = Now { id: uuid::Uuid::from_u128(7 << 40), ..desk.app.model.now };
    let effects = desk.app.event(Event::Key(Key::row("{Enter}").unwrap()[0]), stamp);
    let [Effect::Append(lines)] = effects.as_slice() else { panic!("{effects:?}") };
    assert_eq!(lines.len(), 2);
}

#[test]
fn a_bench_that_is_none_is_told_beside_its_field_and_nothing_is_written() {
    let mut desk = Desk::new();
    desk.keys("aa{Shift-Tab}b{Tab}{Space}Q7{Enter}");
    assert!(desk.text().contains("Q7 is not a bench, house or lot"), "{}", desk.text());
    assert!(desk.written().is_empty());
    let mut desk = Desk::new();
    desk.keys("aa{Shift-Tab}d{Tab}{Space}E2{Space}E3{Enter}");
    assert!(desk.text().contains("leaves no bench"), "{}", desk.text());
    assert!(desk.written().is_empty());
}

#[test]
fn pots_are_sold_and_counted_by_bench_only() {
    for letter in ["m", "s", "r", "t"] {
        let mut desk = Desk::new();
        desk.keys("a").keys(letter).keys("{Shift-Tab}");
        assert!(!desk.text().contains("house East\n") && !desk.text().contains("lot L1"), "{letter}\n{}", desk.text());
    }
}

#[test]
fn a_fog_closes_the_house_unless_less_is_chosen_after_it() {
    let mut desk = Desk::new();
    desk.keys("afsoap{Tab}thrips{Tab}c");
    assert!(desk.text().contains("close the whole house"), "{}", desk.text());
    desk.keys("{Tab}6{Tab}now{Enter}");
    assert_eq!(places(&desk), ["house East"]);
    let model = &desk.app.model;
    for bench in ["E1", "E2", "E3"] {
        assert!(model.closed_until(bench).is_some(), "{bench}");
    }
    assert!(model.closed_until("W1").is_none());
    let mut desk = Desk::new();
    desk.keys("afsoap{Tab}thrips{Tab}c{Tab}6{Tab}now{Shift-Tab}{Shift-Tab}{Shift-Tab}{Shift-Tab}{Shift-Tab}a{Enter}");
    assert_eq!(places(&desk), ["bench E1"], "{}", desk.text());
}

#[test]
fn re_entry_hours_are_never_filled_in_and_zero_only_where_typed() {
    let mut desk = Desk::new();
    desk.keys("afsoap{Tab}mites{Tab}a{Enter}");
    assert!(desk.written().is_empty() && desk.text().contains("REI, hours is missing"), "{}", desk.text());
    desk.keys("0{Tab}now{Enter}0{Enter}");
    assert_eq!(desk.written(), ["E1 soap spray against mites, closed 0 h"]);
    assert!(desk.app.model.closed_until("E1").is_none());
}

#[test]
fn hours_run_from_the_end_as_typed() {
    let mut desk = Desk::new();
    desk.keys("afsoap{Tab}mites{Tab}a{Tab}4{Tab}06:40{Enter}");
    let until = desk.app.model.closed_until("E1").unwrap();
    assert_eq!(until.to_rfc3339(), "2026-10-12T10:40:00-04:00");
    let mut desk = Desk::new();
    desk.keys("afsoap{Tab}mites{Tab}a{Tab}4{Tab}18:00{Enter}");
    assert!(desk.text().contains("in the future") && desk.written().is_empty(), "{}", desk.text());
    desk.keys("{Home}2026-10-11{Space}{Enter}");
    assert_eq!(desk.written().len(), 1, "{}", desk.text());
    assert!(desk.app.model.closed_until("E1").is_none(), "those hours are over");
}

#[test]
fn the_end_of_an_application_is_typed_and_never_left_to_the_clock() {
    for (kind, keys) in [("f", "soap{Tab}mites{Tab}a{Tab}12"), ("e", "daminozide{Space}1500{Tab}b{Tab}12")] {
        let mut desk = Desk::new();
        desk.keys("a").keys(kind).keys(keys).keys("{Enter}");
        assert!(desk.written().is_empty() && desk.text().contains("ended at is missing; type when"), "{}", desk.text());
        desk.keys("soon{Enter}");
        assert!(desk.written().is_empty() && desk.text().contains("is \"soon\"; give a time"), "{}", desk.text());
        // Left and opened again, now would be another minute: it is typed anew.
        desk.keys("{Backspace}{Backspace}{Backspace}{Backspace}now{Esc}")
            .pass(chrono::Duration::minutes(90))
            .keys("a")
            .keys(kind)
            .keys("{Enter}");
        assert!(desk.written().is_empty() && desk.text().contains("ended at is missing"), "{}", desk.text());
        desk.keys("now{Enter}");
        assert_eq!(desk.written().len(), 1, "{}", desk.text());
        let until = desk.app.model.closed_until("E1").unwrap();
        assert_eq!(until - desk.app.model.now.at, chrono::Duration::hours(12));
    }
}

#[test]
fn what_stays_closed_afterwards_is_told_before_it_is_saved() {
    let mut desk = Desk::new();
    desk.keys("afsoap{Tab}mites{Tab}a{Tab}4{Tab}06:40");
    let told = |desk: &Desk| desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    let closed = "Closed until Mon Oct 12 10:40: E1. By this log; follow the posted sign.";
    assert!(told(&desk).contains(closed), "{}", desk.text());
    // A shorter one after it does not shorten it.
    desk.keys("{Enter}afsoap{Tab}mites{Tab}a{Tab}1{Tab}now");
    assert!(
        told(&desk).contains("! E1 stays closed until Mon Oct 12 10:40 by an earlier treatment."),
        "{}",
        desk.text()
    );
    let mut desk = Desk::new();
    desk.keys("afsoap{Tab}thrips{Tab}c{Tab}4{Tab}06:40");
    assert!(told(&desk).contains("Closed until Mon Oct 12 10:40: house East."), "{}", desk.text());
    desk.keys("{Shift-Tab}{Backspace}0");
    assert!(told(&desk).contains("! 0 h: no bench is closed"), "{}", desk.text());
    desk.keys("{Backspace}4{Tab}{Home}2026-10-11{Space}");
    assert!(told(&desk).contains("This REI is already over; nothing is closed."), "{}", desk.text());
}

#[test]
fn the_last_safe_days_of_the_lots_stand_on_the_form_as_on_the_mixing_page() {
    let mut desk = Desk::with(&crate::season::journal(), crate::desk::COLOR, (100, 60));
    desk.keys("aedaminozide{Space}1500{Tab}b");
    let told = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("! daminozide: past the last safe day for L1, see below."), "{told}");
    let from = told
        .find("Last safe day, daminozide, L1: the last safe day was Fri Sep 18, 2026")
        .unwrap_or_else(|| panic!("{told}"));
    let day = &told[from + "Last safe day, daminozide, ".len()..][.."L1: the last safe day was Fri Sep 18, 2026".len()];
    desk.keys("{Esc}i");
    for (label, text) in
        [("method", "b"), ("area", "500ft2"), ("ingredient", "d"), ("strength", "85%solid"), ("ppm", "1500")]
    {
        for _ in 0..20 {
            let marked = desk.text().lines().skip(3).find(|l| l.starts_with('▸')).unwrap_or_default().to_owned();
            if marked.trim_start_matches('▸').trim().starts_with(label) {
                break;
            }
            desk.keys("{Tab}");
        }
        desk.keys("{End}{Backspace}{Backspace}{Backspace}{Backspace}{Backspace}{Backspace}").keys(text);
    }
    let mixing = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(mixing.contains(&format!("TOO LATE {day}")), "{day}\n{}", desk.text());
    // A drench of paclobutrazol has no cut-off.
    let mut desk = Desk::with(&crate::season::journal(), crate::desk::COLOR, (120, 60));
    desk.keys("aepaclobutrazol{Space}1{Tab}a");
    let told = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        told.contains("Last safe day, paclobutrazol, L1: no cut-off date published")
            && !told.contains("! paclobutrazol"),
        "{told}"
    );
}

#[test]
fn pests_of_a_house_are_counted_by_cards_or_by_a_wedge() {
    let mut desk = Desk::new();
    desk.keys(
        "aub{Tab}{Tab}{Tab}4{Tab}120{Tab}7{Shift-Tab}{Shift-Tab}{Shift-Tab}{Shift-Tab}{Shift-Tab}{Shift-Tab}c{Enter}",
    );
    assert_eq!(places(&desk), ["house East"], "{}", desk.text());
    assert_eq!(desk.written(), ["East thrips 120 on 4 cards in 7 days"]);
    let mut desk = Desk::new();
    desk.keys("auc{Tab}{Tab}{Tab}{Tab}{Tab}{Tab}6{Tab}{Tab}{Tab}c{Enter}");
    assert_eq!(places(&desk), ["house East"], "{}", desk.text());
    assert!(
        desk.written()[0].starts_with("East fungus gnats") && desk.written()[0].contains('6'),
        "{:?}",
        desk.written()
    );
}

#[test]
fn heights_of_a_lot_are_measured_across_its_benches() {
    let mut desk = Desk::new();
    desk.keys("ax12{Space}12.5{Space}11.8{Shift-Tab}e{Enter}");
    assert_eq!(places(&desk), ["lot L1"], "{}", desk.text());
    let model = &desk.app.model;
    for bench in ["E1", "E2", "E3"] {
        let last = model.season.history(bench, model.day).last(benchwalk::record::KindName::Height).cloned().unwrap();
        assert_eq!(last.place, Place::Lot("L1".into()));
    }
}

#[test]
fn from_the_walk_card_and_the_bench_page_too() {
    let mut desk = Desk::new();
    desk.keys("wab180{Enter}");
    assert_eq!(desk.written(), ["E1 fed 180 ppm N"]);
    assert!(desk.text().contains("Walk  E1"), "back on the card\n{}", desk.text());
    let mut desk = Desk::new();
    desk.keys("j{Enter}ab180{Enter}");
    assert_eq!(desk.written(), ["E2 fed 180 ppm N"]);
    assert!(desk.text().contains("Bench E2"), "{}", desk.text());
}

#[test]
fn the_first_cautions_and_the_hours_are_seen_in_a_small_window_and_a_strong_dose_is_told() {
    let mut desk = Desk::new();
    desk.keys("aechlormequat{Space}3000{Tab}b");
    let text = desk.text();
    for seen in ["label is the law", "posted sign", "above the usual maximum of 1500"] {
        assert!(text.contains(seen), "no {seen:?} in\n{text}");
    }
}

#[test]
fn an_enter_held_down_from_before_saves_nothing() {
    let mut desk = Desk::new();
    desk.keys("a").keys_every("{Enter}{Enter}{Enter}{Enter}", 40);
    assert!(desk.written().is_empty(), "{:?}", desk.written());
    desk.keys("118{Enter}");
    assert_eq!(desk.written(), ["E1 magnesium sulfate drench at 118 ppm"], "{}", desk.text());
}

#[test]
fn zero_hours_are_asked_about_and_saved_only_when_they_are_typed_again() {
    for (open, log) in [
        ("afsoap{Tab}thrips{Tab}a{Tab}", "E1 soap spray against thrips, "),
        ("aedaminozide{Space}1500{Tab}b{Tab}", "E1 daminozide 1500 ppm spray, "),
    ] {
        let mut desk = Desk::new();
        desk.keys(open);
        let told = |desk: &Desk| desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
        let asked = "is 0: that means the label states no restricted entry. Read the label; type 0 again to save";
        desk.keys("0{Tab}now");
        assert!(told(&desk).contains("! 0 h: no bench is closed"), "{}", desk.text());
        desk.keys("{Enter}");
        assert!(desk.written().is_empty() && told(&desk).contains(asked), "{}", desk.text());
        desk.keys("{Enter}");
        assert!(desk.written().is_empty() && told(&desk).contains("REI, hours is missing"), "{}", desk.text());
        // Another length in between is no answer to the question.
        desk.keys("13{Backspace}{Backspace}0{Enter}");
        assert!(desk.written().is_empty() && told(&desk).contains(asked), "{}", desk.text());
        desk.keys("0{Enter}");
        let written = desk.written();
        assert!(written.len() == 1 && written[0].starts_with(log), "{written:?}\n{}", desk.text());
        assert!(desk.app.model.closed_until("E1").is_none(), "0 hours close nothing");
    }
}

#[test]
fn zero_hours_of_a_form_that_was_left_are_asked_about_again() {
    let mut desk = Desk::new();
    desk.keys("afsoap{Tab}thrips{Tab}a{Tab}0{Tab}06:40{Enter}0{Esc}af{Enter}");
    assert!(desk.written().is_empty() && desk.text().contains("type 0 again"), "{}", desk.text());
    desk.keys("0{Enter}");
    assert_eq!(desk.written().len(), 1, "{}", desk.text());
}
