//! Where a form is about, and when it was.

use crate::desk::Desk;
use benchwalk::input::{Event, Key};
use benchwalk::model::{Effect, Stamp};
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
    assert_eq!(after("aa<ret>"), ["bench N1"]);
    assert_eq!(after("aa<s-tab>c<ret>"), ["house North"]);
    assert_eq!(after("aa<s-tab>e<ret>"), ["lot P6"]);
    assert_eq!(after("aa<s-tab>b<tab><space>n3<ret>"), ["bench N1", "bench N3"], "codes in any case");
    assert_eq!(after("aa<s-tab>d<ret>"), ["bench N2", "bench N3"], "all of the house but the bench it was opened on");
    assert_eq!(after("aa<s-tab>d<tab><space>N2<ret>"), ["bench N3"]);
    assert_eq!(after("aa<s-tab>d<tab><bs><bs><ret>"), ["bench N1", "bench N2", "bench N3"], "none left out: one each");
}

#[test]
fn benches_marked_on_the_round_are_written_to_together() {
    let mut desk = Desk::new();
    desk.keys("<space>j<space>");
    assert!(desk.text().contains("*N1") && desk.text().contains("*N3"), "{}", desk.text());
    desk.keys("ab150<ret>");
    assert_eq!(places(&desk), ["bench N1", "bench N3"]);
    desk.keys("u");
    assert_eq!(desk.written().len(), 4, "one undo takes all of it back\n{}", desk.text());
    assert!(desk.written()[2..].iter().all(|w| w.contains("taken back")));
    desk.keys("u");
    assert_eq!(desk.written().len(), 4, "{}", desk.text());
}

#[test]
fn several_entries_go_to_the_file_in_one_transaction() {
    let mut desk = Desk::new();
    desk.keys("aa<s-tab>d");
    let stamp = Stamp { id: uuid::Uuid::from_u128(7 << 40), ..desk.app.shared.stamp };
    let effects = desk.app.event(Event::Key(Key::row("<ret>").unwrap()[0]), stamp);
    let [Effect::Append(lines)] = effects.as_slice() else { panic!("{effects:?}") };
    assert_eq!(lines.len(), 2);
}

#[test]
fn a_bench_that_is_none_is_told_beside_its_field_and_nothing_is_written() {
    let mut desk = Desk::new();
    desk.keys("aa<s-tab>b<tab><space>Q7<ret>");
    assert!(desk.text().contains("Q7 is no bench of this season"), "{}", desk.text());
    assert!(desk.written().is_empty());
    let mut desk = Desk::new();
    desk.keys("aa<s-tab>d<tab><space>N2<space>N3<ret>");
    assert!(desk.text().contains("leaves no bench"), "{}", desk.text());
    assert!(desk.written().is_empty());
}

#[test]
fn pots_are_sold_and_counted_by_bench_only() {
    for letter in ["m", "s", "r", "t"] {
        let mut desk = Desk::new();
        desk.keys("a").keys(letter).keys("<s-tab>");
        assert!(!desk.text().contains("house North\n") && !desk.text().contains("lot P6"), "{letter}\n{}", desk.text());
    }
}

#[test]
fn a_fog_closes_the_house_unless_less_is_chosen_after_it() {
    let mut desk = Desk::new();
    desk.keys("afsoap<tab>thrips<tab>c");
    assert!(desk.text().contains("A fog closes the whole house"), "{}", desk.text());
    desk.keys("<tab>6<ret>");
    assert_eq!(places(&desk), ["house North"]);
    let shared = &desk.app.shared;
    for bench in ["N1", "N2", "N3"] {
        assert!(shared.closed_until(bench).is_some(), "{bench}");
    }
    assert!(shared.closed_until("S1").is_none());
    let mut desk = Desk::new();
    desk.keys("afsoap<tab>thrips<tab>c<tab>6<tab><tab><tab><tab><tab>a<ret>");
    assert_eq!(places(&desk), ["bench N1"], "{}", desk.text());
}

#[test]
fn re_entry_hours_are_never_filled_in_and_zero_only_where_typed() {
    let mut desk = Desk::new();
    desk.keys("afsoap<tab>mites<tab>a<ret>");
    assert!(desk.written().is_empty() && desk.text().contains("re-entry hours is missing"), "{}", desk.text());
    desk.keys("0<ret>");
    assert_eq!(desk.written(), ["N1 soap spray against mites, closed 0 h"]);
    assert!(desk.app.shared.closed_until("N1").is_none());
}

#[test]
fn hours_run_from_the_end_as_typed() {
    let mut desk = Desk::new();
    desk.keys("afsoap<tab>mites<tab>a<tab>4<tab><tab><tab>06:40<ret>");
    let until = desk.app.shared.closed_until("N1").unwrap();
    assert_eq!(until.to_rfc3339(), "2026-10-12T10:40:00-04:00");
    let mut desk = Desk::new();
    desk.keys("afsoap<tab>mites<tab>a<tab>4<tab><tab><tab>18:00<ret>");
    assert!(desk.text().contains("still to come") && desk.written().is_empty(), "{}", desk.text());
    desk.keys("<home>2026-10-11<space><ret>");
    assert_eq!(desk.written().len(), 1, "{}", desk.text());
    assert!(desk.app.shared.closed_until("N1").is_none(), "those hours are over");
}

#[test]
fn heights_of_a_lot_are_measured_across_its_benches() {
    let mut desk = Desk::new();
    desk.keys("ax12<space>12.5<space>11.8<s-tab>e<ret>");
    assert_eq!(places(&desk), ["lot P6"], "{}", desk.text());
    let shared = &desk.app.shared;
    for bench in ["N1", "N2", "N3"] {
        let last = shared.season.history(bench, shared.day).last(benchwalk::record::KindName::Height).cloned().unwrap();
        assert_eq!(last.place, Place::Lot("P6".to_owned()));
    }
}

#[test]
fn from_the_walk_card_and_the_bench_page_too() {
    let mut desk = Desk::new();
    desk.keys("wab180<ret>");
    assert_eq!(desk.written(), ["N1 fed 180 ppm N"]);
    assert!(desk.text().contains("Walk  N1"), "back on the card\n{}", desk.text());
    let mut desk = Desk::new();
    desk.keys("j<ret>ab180<ret>");
    assert_eq!(desk.written(), ["N2 fed 180 ppm N"]);
    assert!(desk.text().contains("Bench N2"), "{}", desk.text());
}

#[test]
fn the_first_cautions_and_the_hours_are_seen_in_a_small_window_and_a_strong_dose_is_told() {
    let mut desk = Desk::new();
    desk.keys("aechlormequat<space>3000<tab>b");
    let text = desk.text();
    for seen in
        ["label and local rules decide", "licensed applicator", "posted sign decides", "above the usual top of 1500"]
    {
        assert!(text.contains(seen), "no {seen:?} in\n{text}");
    }
}

#[test]
fn an_enter_held_down_from_before_saves_nothing() {
    let mut desk = Desk::new();
    desk.keys("a").keys_every("<ret><ret><ret><ret>", 40);
    assert!(desk.written().is_empty(), "{:?}", desk.written());
    desk.keys("<ret>");
    assert_eq!(desk.written(), ["N1 magnesium sulfate drench at 118 ppm"], "{}", desk.text());
}
