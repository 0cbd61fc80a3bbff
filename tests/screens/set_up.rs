//! The Setup page: from no season to a first walk by keys; what each form writes, refuses, offers; what a change does.

use crate::desk::{COLOR, Desk, Keeping, all_drawn_at_every_size, cases, same_in_every_dress};
use benchwalk::input::{Code, Event, Key};
use benchwalk::journal;
use benchwalk::record::{Line, codec};
use benchwalk::season::Season;
use proptest::prelude::*;

/// The site, by its own form.
const SITE: &str = "sThistlecot{Tab}a{Tab}44.1{Tab}-70.2{Enter}";
/// A lot, its planting day as offered.
const LOT_OPEN: &str = "alL1{Tab}mid red{Tab}6.5 in{Tab}{Tab}4.5{Tab}a{Tab}{Tab}240{Tab}2026-11-27{Tab}9";
/// The same saved; of what was done before the record nothing is said.
const LOT: &str = "alL1{Tab}mid red{Tab}6.5 in{Tab}{Tab}4.5{Tab}a{Tab}{Tab}240{Tab}2026-11-27{Tab}9{Enter}{Esc}";
const BENCHES: &str = "abE1-E6{Tab}East{Enter}";
const DOWN: &str = "ap{Enter}";

/// The plan lines kept, as a journal writes them.
fn lines(desk: &Desk) -> Vec<String> {
    desk.kept.iter().map(codec::encode).collect()
}

fn empty() -> Desk {
    Desk::empty(COLOR, (80, 24))
}

fn set_up(keys: &[&str]) -> Desk {
    let mut desk = empty();
    for row in keys {
        desk.keys(row);
    }
    desk
}

#[test]
fn from_no_season_to_a_scored_bench() {
    let mut desk = set_up(&[SITE, LOT, BENCHES, DOWN, "w"]);
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    desk.keys("3");
    assert_eq!(desk.written(), ["E1 water 3"]);
    insta::assert_snapshot!(lines(&desk).join("\n"));
}

#[test]
fn the_round_of_a_season_without_benches_says_where_they_are_made() {
    let mut desk = set_up(&[SITE, "r"]);
    assert!(desk.text().contains("No benches yet: press g to set them up."), "{}", desk.text());
    desk.keys("g");
    assert!(desk.text().starts_with("Setup"), "{}", desk.text());
    desk.keys("{Esc}{Esc}");
    assert!(desk.text().starts_with("Round"), "never back to the first-run page\n{}", desk.text());
}

#[test]
fn what_was_set_up_is_a_sound_journal() {
    let desk = set_up(&[SITE, LOT, BENCHES, DOWN]);
    let text = journal::write(None, Season::of(desk.kept.clone()).plan(), &[]);
    assert_eq!(journal::read(&text).unwrap(), desk.kept);
}

#[test]
fn nothing_is_written_before_the_site() {
    let mut desk = set_up(&["s{Esc}", "al"]);
    assert!(desk.text().contains("The site comes first"), "{}", desk.text());
    desk.keys("bpomc{Esc}wreis");
    assert!(desk.kept.is_empty() && desk.outside.is_empty(), "{:?}", desk.outside);
    assert!(desk.text().starts_with("Setup"), "{}", desk.text());
    desk.keys("{Esc}");
    assert!(desk.text().contains("There is no season file yet"), "{}", desk.text());
}

#[test]
fn a_wrong_value_is_told_beside_its_field_and_can_be_corrected() {
    let mut desk = set_up(&["sThistlecot{Tab}{Tab}91{Tab}-70.2{Enter}"]);
    assert!(desk.kept.is_empty());
    assert!(desk.text().contains("! is 91; give -90 to 90"), "{}", desk.text());
    // The mark is on the field that is wrong.
    desk.keys("44 06 N{Enter}");
    assert_eq!(lines(&desk).len(), 1, "{}", desk.text());
    assert!(
        lines(&desk)[0].contains(r#""latitude":44.1,"longitude":-70.2,"time_zone":"America/New_York","units":"us""#)
    );
}

#[test]
fn what_is_missing_is_told_and_gone_to() {
    let mut desk = set_up(&["s{Enter}"]);
    assert!(desk.text().contains("! is missing; give"), "{}", desk.text());
    desk.keys("Thistlecot{Tab}x{Enter}");
    let sydney = r#""latitude":-33.9,"longitude":151.2,"time_zone":"Australia/Sydney","units":"metric""#;
    assert!(lines(&desk)[0].contains(sydney), "{:?}", lines(&desk));
}

#[test]
fn a_zone_is_found_by_a_part_of_its_name() {
    let mut desk = set_up(&["sHere{Tab}{Tab}44.1{Tab}-70.2{Tab}"]);
    assert!(desk.text().contains("suggested: Boston; check"), "{}", desk.text());
    desk.keys("halif");
    assert!(desk.text().contains("America/Halifax"), "{}", desk.text());
    desk.keys("{Tab}{Enter}");
    assert!(lines(&desk)[0].contains("America/Halifax"), "{:?}", lines(&desk));
}

#[test]
fn a_file_that_refuses_a_line_leaves_the_form_open() {
    let mut desk = empty();
    desk.keeping = Keeping::Refusing;
    desk.keys(SITE);
    assert!(desk.text().contains("NOT SAVED: the record breaks a rule."), "{}", desk.text());
    assert!(desk.app.model.season.site().is_none());
    desk.keeping = Keeping::Well;
    desk.keys("{Enter}");
    assert_eq!(lines(&desk).len(), 1);
    assert!(desk.text().contains("saved: site Thistlecot"), "{}", desk.text());
}

#[test]
fn the_planting_day_is_offered_back_from_the_sale() {
    let desk = set_up(&[SITE, LOT_OPEN]);
    // UF/IFAS 2004 and 2011: 9 weeks before 27 November, 4 weeks and 14 days before that.
    let text = desk.text();
    let told =
        "Counted back from the sale: short days from Fri Sep 25, pinch about Fri Aug 28,\nplanting Fri Aug 14 (UF/IFAS";
    assert!(text.contains(told), "{text}");
    assert!(text.contains("2026-08-14") && text.contains("suggested: from the ready date"), "{text}");
    insta::assert_snapshot!(text);
}

#[test]
fn another_day_may_be_typed_over_the_offer() {
    let desk = set_up(&[SITE, LOT_OPEN, "{Tab}{Tab}2026-08-17{Enter}"]);
    assert!(lines(&desk)[1].contains(r#""planted":"2026-08-17""#), "{:?}", lines(&desk));
}

#[test]
fn rim_and_pot_height_are_asked_once_for_each_container() {
    let mut desk = set_up(&[SITE, LOT]);
    desk.keys("alL2{Tab}white{Tab}6.5 IN");
    assert!(desk.text().contains("suggested: as for lot L1"), "{}", desk.text());
    desk.keys("{Tab}{Tab}{Tab}a{Tab}{Tab}80{Tab}2026-12-04{Tab}8.5{Enter}");
    assert!(lines(&desk)[2].contains(r#""rim_cm":16.51,"pot_height_cm":11.43"#), "{:?}", lines(&desk));
}

#[test]
fn lamps_and_cloth_ask_for_their_day_and_offer_it() {
    let mut desk = set_up(&[SITE, LOT_OPEN, "{Tab}{Tab}{Tab}b"]);
    assert!(desk.text().contains("cloth from"), "{}", desk.text());
    desk.keys("{Enter}");
    assert!(lines(&desk)[1].contains(r#""nights":"blackout","blackout_from":"2026-09-25""#), "{:?}", lines(&desk));
}

#[test]
fn benches_are_made_in_rows_after_those_there_are() {
    let mut desk = set_up(&[SITE, BENCHES]);
    let first = r#"{"type":"bench","bench":"E1","house":"East","order":1,"id":"#;
    assert!(lines(&desk)[1].starts_with(first), "{:?}", lines(&desk));
    desk.keys("abE4-E9{Enter}");
    assert!(desk.text().contains("makes E4, which is a bench already"), "{}", desk.text());
    desk.keys("E7-E9{Enter}");
    assert_eq!(lines(&desk).len(), 10, "{}", desk.text());
    let last = r#"{"type":"bench","bench":"E9","house":"East","order":9,"id":"#;
    assert!(lines(&desk)[9].starts_with(last), "{:?}", lines(&desk));
    let ids: std::collections::BTreeSet<_> = desk.kept.iter().map(benchwalk::record::Line::id).collect();
    assert_eq!(ids.len(), 10, "lines written together have ids of their own");
}

#[test]
fn a_lot_is_set_down_on_some_benches_and_the_rest_later() {
    let mut desk = set_up(&[SITE, LOT, BENCHES]);
    desk.keys("ap{Tab}E1-E2{Tab}200{Enter}");
    // Asked about once; Enter again would take it.
    assert!(desk.text().contains("400 pots, but lot L1 has 240."), "{}", desk.text());
    assert!(!lines(&desk).iter().any(|line| line.contains("placement")), "{:?}", lines(&desk));
    desk.keys("40{Enter}");
    assert!(desk.text().contains("80 of 240 placed"), "{}", desk.text());
    desk.keys("ap");
    let text = desk.text();
    assert!(text.contains("E3-E6") && text.contains("4 benches with 40 pots: 160; then 0 left"), "{text}");
}

#[test]
fn an_order_is_promised_and_taken_back() {
    let mut desk = set_up(&[SITE, LOT, "ao{Tab}{Tab}100{Enter}"]);
    let promised = r#"{"type":"order","lot":"L1","date":"2026-11-27","pots":100,"id":"#;
    assert!(lines(&desk)[2].starts_with(promised), "{:?}", lines(&desk));
    assert!(lines(&desk)[2].ends_with(r#""replaces":[]}"#), "the first of its key: {:?}", lines(&desk));
    desk.keys("ao{Tab}{Tab}50{Enter}");
    assert!(desk.text().contains("100 pots are committed for it already"), "{}", desk.text());
    desk.keys("{Esc}jj{Enter}0{Enter}");
    let taken_back = r#"{"type":"order","lot":"L1","date":"2026-11-27","pots":0,"id":"#;
    assert!(lines(&desk)[3].starts_with(taken_back), "{:?}", lines(&desk));
    let replaced = format!(r#""replaces":["{}"]}}"#, desk.kept[2].id());
    assert!(lines(&desk)[3].ends_with(&replaced), "in the place of the first: {:?}", lines(&desk));
    assert!(!desk.text().contains("Orders"), "{}", desk.text());
}

#[test]
fn a_change_is_a_new_revision_and_tells_what_it_does_to_the_warnings() {
    let mut desk = Desk::new();
    desk.keys("gj{Enter}");
    assert!(desk.text().contains("Change lot L1"), "{}", desk.text());
    // Finished heights out of reach of what was measured.
    desk.keys(&"{Tab}".repeat(12));
    desk.keys("20 in{Tab}24 in{Enter}");
    let text = desk.text();
    assert!(text.contains("Enter again saves.") && text.contains("Today"), "{text}");
    assert!(desk.kept.is_empty());
    insta::assert_snapshot!(text);
    desk.keys("{Enter}");
    assert_eq!(lines(&desk).len(), 1);
    let line = &lines(&desk)[0];
    assert!(line.contains(r#""at":"20"#) && line.contains(r#""replaces":[""#), "{line}");
    assert!(!line.contains("corrects"), "heights are a change from today on: {line}");
    assert_eq!(desk.app.model.season.plan().lots.len(), 3, "the line before it stays");
}

#[test]
fn a_planting_after_its_pots_were_set_down_is_told() {
    let mut desk = Desk::new();
    desk.keys("gj{Enter}");
    desk.keys(&"{Tab}".repeat(10));
    desk.keys("2026-08-20");
    assert!(desk.text().contains("placed on E1 on Mon Aug 17, before that planting"), "{}", desk.text());
}

#[test]
fn a_change_that_changes_nothing_writes_nothing() {
    let mut desk = Desk::new();
    desk.keys("g{Enter}{Enter}");
    assert!(desk.text().contains("No change."), "{}", desk.text());
    assert!(desk.kept.is_empty());
}

#[test]
fn what_was_half_typed_is_there_again() {
    let mut desk = set_up(&[SITE, "alL1{Tab}mid red{Esc}", "al"]);
    assert!(desk.text().contains("mid red"), "{}", desk.text());
    desk.keys("{Esc}{Esc}");
    assert!(desk.kept.len() == 1);
}

#[test]
fn pots_are_moved_and_spaced_from_the_plan() {
    let mut desk = Desk::new();
    // Site, two lots, then the benches.
    desk.keys("gjjjam");
    assert!(desk.text().contains("Moved"), "{}", desk.text());
    desk.keys("W3{Tab}40{Enter}");
    assert_eq!(desk.written(), ["E1 moved 40 pots to W3"]);
    assert!(desk.text().contains("40 pots of L1"), "{}", desk.text());
    desk.keys("ac");
    assert!(desk.text().contains("Spaced"), "{}", desk.text());
}

#[test]
fn pages_of_the_set_up() {
    let steps: [(&str, &[&str]); 8] = [
        ("nothing", &["s{Esc}"]),
        ("site", &["s"]),
        ("site_filled", &["sThistlecot{Tab}a"]),
        ("lot", &[SITE, "al"]),
        (
            "lot_filled",
            &[SITE, "alL1{Tab}mid red{Tab}6.5 in{Tab}{Tab}4.5{Tab}a{Tab}{Tab}240{Tab}2026-11-27{Tab}9{Tab}{Tab}{Tab}"],
        ),
        ("benches", &[SITE, LOT, "abE1-E6{Tab}East"]),
        ("down", &[SITE, LOT, BENCHES, "ap"]),
        ("done", &[SITE, LOT, BENCHES, DOWN]),
    ];
    for (name, keys) in steps {
        let open = |look| {
            let mut desk = Desk::empty(look, (80, 24));
            for row in keys {
                desk.keys(row);
            }
            desk
        };
        insta::assert_snapshot!(format!("set_up_{name}_80x24"), open(COLOR).dump());
        same_in_every_dress(name, open);
    }
}

#[test]
fn the_set_up_at_every_size() {
    let mut full = Desk::new();
    full.keys("g{End}{Enter}");
    all_drawn_at_every_size(vec![
        ("nothing set up", set_up(&["s{Esc}"])),
        ("site", set_up(&["s{Tab}"])),
        ("all set up", set_up(&[SITE, LOT, BENCHES, DOWN])),
        ("lot", set_up(&[SITE, LOT, BENCHES, "al{Tab}{Tab}{Tab}{Tab}{Tab}"])),
        ("a line of a full set-up", full),
    ]);
}

fn any_key() -> impl Strategy<Value = Key> {
    let codes = prop_oneof![
        4 => prop::char::range('0', '9').prop_map(Code::Char),
        6 => prop::char::range('a', 'z').prop_map(Code::Char),
        1 => any::<char>().prop_map(Code::Char),
        8 => prop::sample::select(vec![
            Code::Enter, Code::Esc, Code::Backspace, Code::Tab, Code::BackTab, Code::Up, Code::Down, Code::Left, Code::Right,
        ]),
    ];
    codes.prop_map(Key::new)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases(48), ..ProptestConfig::default() })]

    #[test]
    fn any_row_of_keys_leaves_a_sound_plan(
        keys in prop::collection::vec(any_key(), 1..80), from in 0_usize..4, pages in prop::collection::vec(0_usize..6, 0..4),
    ) {
        let mut desk = set_up(&[SITE, LOT, BENCHES, DOWN][..from]);
        if from == 0 {
            desk.keys("s{Esc}");
        }
        let mut keys = keys.into_iter();
        for page in pages {
            desk.keys(["s", "l", "b", "d", "o", "{Enter}"][page]);
            for key in keys.by_ref().take(20) {
                desk.event(Event::Key(key));
            }
            desk.keys("{Esc}{Esc}g");
            desk.draw();
        }
        // What was kept is what a journal may hold.
        for line in desk.kept.iter().filter(|l| !matches!(l, Line::Entry(_))) {
            prop_assert_eq!(codec::decode(&codec::encode(line), codec::VERSION), Ok(line.clone()));
        }
        if !desk.kept.is_empty() {
            prop_assert!(desk.app.model.season.site().is_some());
        }
    }
}

#[test]
fn facts_of_the_past_are_corrected_and_the_rest_counts_from_today() {
    let mut desk = Desk::new();
    desk.keys("gj{Enter}");
    assert!(!desk.text().contains("applies"), "nothing was changed yet");
    // The cultivar is a fact of the past, pots of the lot are a plan: one change of both is written as two lines.
    desk.keys("late red");
    for _ in 0..6 {
        desk.keys("{Tab}");
    }
    desk.keys("300");
    desk.keys("{Enter}");
    if desk.text().contains("Enter again saves.") {
        desk.keys("{Enter}");
    }
    let written = lines(&desk);
    assert_eq!(written.len(), 2, "{written:?}\n{}", desk.text());
    assert!(written[0].contains(r#""corrects":true"#) && written[0].contains("late red"), "{}", written[0]);
    assert!(!written[0].contains(r#""pots":300"#), "{}", written[0]);
    assert!(!written[1].contains("corrects") && written[1].contains(r#""pots":300"#), "{}", written[1]);
    let before = format!(r#""replaces":["{}"]}}"#, desk.kept[0].id());
    assert!(written[1].ends_with(&before), "the change stands on the correction: {}", written[1]);
}

#[test]
fn the_form_of_a_line_that_is_to_settle_says_what_contradicts_and_saving_it_settles_it() {
    let bench = |by: &str, house: &str| {
        format!(
            r#"{{"type":"bench","bench":"Z1","house":"{house}","order":90,"at":"2026-10-11T08:00:00-04:00","by":"{by}","replaces":[]}}"#
        )
    };
    let text = format!("{}{}\n{}\n", crate::season::journal(), bench("ann", "East"), bench("jo", "West"));
    let mut desk = Desk::with(&text, COLOR, (80, 24));
    desk.keys("g");
    for _ in 0..60 {
        if desk.text().lines().any(|line| line.starts_with("▸ Z1")) {
            break;
        }
        desk.keys("{Down}");
    }
    desk.keys("{Enter}");
    let said = desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("To settle: bench Z1: house") && said.contains("(ann,") && said.contains("(jo,"), "{said}");
    desk.keys("{Enter}{Enter}");
    assert_eq!(desk.kept.len(), 1, "{:?}", desk.written());
    desk.keys("{Esc}e");
    assert!(!desk.text().contains("To settle"), "{}", desk.text());
}

/// What is pressed, and how many characters of it are typed names and numbers.
const TWO_HOUSES: &[(&str, usize)] = &[
    ("s", 0),
    ("Thistlecot{Tab}a{Enter}", 10),
    // Three lots, each form after the other; the second and third take container, pinch and sale over.
    ("al", 0),
    ("R1{Tab}mid red{Tab}6.5 in{Tab}{Tab}4.5{Tab}a{Tab}{Tab}240{Tab}2026-12-18{Tab}9{F2}", 2 + 7 + 6 + 3 + 3 + 10 + 1),
    ("R2{Tab}late red{Tab}{Tab}{Tab}{Tab}{Tab}{Tab}160{Tab}{Tab}9.5{F2}", 2 + 8 + 3 + 3),
    ("W1{Tab}white{Tab}{Tab}{Tab}{Tab}{Tab}{Tab}80{Tab}{Tab}8.5{Enter}", 2 + 5 + 2 + 3),
    // Eight benches in two houses.
    ("ab", 0),
    ("M1-M5{Tab}Mill{F2}", 5 + 4),
    ("D1-D3{Tab}Dell{Enter}", 5 + 4),
    // Three placements, one after another.
    ("ap", 0),
    ("{Tab}M1-M4{Enter}", 5),
    ("{Tab}M5 D1{Enter}", 5),
    ("{Enter}", 0),
];

#[test]
fn setting_up_two_houses_three_lots_and_eight_benches_takes_at_most_120_keys() {
    let mut desk = Desk::empty(COLOR, (80, 24));
    let mut counted = 0;
    for (row, typed) in TWO_HOUSES {
        let keys = Key::row(row).unwrap().len();
        counted += keys - typed;
        desk.keys(row);
        while desk.text().contains("before the record began") {
            desk.keys("{Enter}");
            counted += 1;
        }
    }
    println!("{counted} keys beyond typed names and numbers");
    let season = &desk.app.model.season;
    assert_eq!((season.lots().len(), season.benches().len(), season.houses().len()), (3, 8, 2), "{}", desk.text());
    let placed: u32 = season.all_placements().iter().map(|p| p.pots).sum();
    assert_eq!(placed, 480, "every pot has its bench\n{}", desk.text());
    assert!(desk.app.popups.is_empty(), "{}", desk.text());
    assert!(counted <= 120, "{counted}");
}
