//! A closed bench takes no digits, however it was closed while its card was open.

use crate::desk::{COLOR, Desk, all_drawn_at_every_size, same_in_every_dress};
use crate::season::{at, bench, entry, house, sprayed, strike};
use benchwalk::model::Outcome;
use benchwalk::record::{Entry, Place, Plan};

/// Soap on the bench of the card by its form, closed for 12 hours.
const TREATED: &str = "afsoap{Tab}mites{Tab}a{Tab}12{Tab}now{Enter}";

/// A treatment that ended ten minutes ago.
fn fog(id: u128, place: Place) -> Entry {
    entry(id, at(10, 12, 7, 0), place, sprayed("pyrethrins", 24.0))
}

/// Another program wrote these entries.
fn by_another(desk: &mut Desk, entries: Vec<Entry>) {
    let plan: Plan = desk.app.model.season.plan().clone();
    desk.app.model.wait_for_entries();
    desk.answer(Outcome::Joined { plan, entries });
}

#[test]
fn a_treatment_from_the_card_closes_it_and_only_the_next_open_bench_is_offered() {
    let mut desk = Desk::new();
    desk.keys("w").keys(TREATED);
    let text = desk.text();
    assert!(text.starts_with("Walk  E1"), "{text}");
    assert!(text.contains(" CLOSED UNTIL Mon Oct 12 19:10"), "{text}");
    assert!(text.contains("next open bench") && !text.contains("score") && !text.contains("[water"), "{text}");
    let before = desk.written();
    desk.keys("3");
    assert!(desk.text().contains("Not logged: E1 is closed until 19:10"), "{}", desk.text());
    desk.keys("wnlma0");
    assert_eq!(desk.written(), before);
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    desk.keys("{Enter}");
    assert!(desk.text().starts_with("Walk  E2") && desk.text().contains("[water _]"), "{}", desk.text());
    desk.keys("{Esc}");
    assert!(desk.text().contains("walked 0 of 3; 2 closed, not counted"), "{}", desk.text());
    assert!(desk.text().contains("closed to 19:10"), "{}", desk.text());
}

#[test]
fn the_band_is_as_wide_as_the_window() {
    for columns in [60, 80, 120] {
        let mut desk = Desk::new();
        desk.resize(columns, 24).keys("w").keys(TREATED);
        let (buffer, _) = desk.draw();
        let rows: Vec<_> = buffer.content.chunks(usize::from(columns)).collect();
        let text = |row: &&[ratatui::buffer::Cell]| row.iter().map(|c| c.symbol().to_owned()).collect::<String>();
        let band = rows.iter().find(|row| text(row).contains("CLOSED UNTIL")).unwrap();
        let reversed = band.iter().all(|cell| cell.modifier.contains(ratatui::style::Modifier::REVERSED));
        assert!(reversed, "{columns}\n{}", desk.text());
    }
}

#[test]
fn the_treatment_itself_is_taken_back_with_its_code_typed_and_the_card_asks_again() {
    let mut desk = Desk::new();
    desk.keys("w").keys(TREATED).keys("u");
    assert!(desk.text().contains("reason"), "{}", desk.text());
    desk.keys("slip{Enter}");
    assert!(desk.text().contains("CLOSED UNTIL"), "a strike alone opens nothing\n{}", desk.text());

    let mut desk = Desk::new();
    desk.keys("w").keys(TREATED).keys("uslip{Tab}e1{Enter}");
    assert!(desk.text().contains("[water _]") && !desk.text().contains("CLOSED"), "{}", desk.text());
    desk.keys("3");
    assert_eq!(desk.written().last().map(String::as_str), Some("E1 water 3"));
}

#[test]
fn a_score_is_not_taken_back_on_a_closed_card() {
    let mut desk = Desk::new();
    desk.keys("w3");
    by_another(&mut desk, vec![fog(0x77, bench("E1"))]);
    desk.keys("u");
    assert_eq!(desk.written(), ["E1 water 3"], "{}", desk.text());
    assert!(desk.text().contains("The last entry is not a treatment."), "{}", desk.text());
}

#[test]
fn a_fog_of_the_house_by_another_program_closes_the_open_card() {
    let mut desk = Desk::new();
    desk.keys("w3");
    by_another(&mut desk, vec![fog(0x77, house("East"))]);
    let text = desk.text();
    assert!(text.contains(" CLOSED UNTIL Tue Oct 13 07:00"), "{text}");
    assert!(text.contains("1 entry from another program loaded."), "{text}");
    desk.keys("2");
    assert_eq!(desk.written(), ["E1 water 3"]);
    desk.keys("{Tab}");
    assert!(desk.text().starts_with("Walk  W1"), "{}", desk.text());
    desk.keys("{Esc}");
    assert!(desk.text().contains("walked 0 of 2; 3 closed, not counted"), "{}", desk.text());
}

#[test]
fn lines_and_lists_over_a_card_that_is_closed_go_away_and_what_was_typed_is_kept() {
    for keys in ["l", "m", "mg1", "ndrip"] {
        let mut desk = Desk::new();
        desk.keys("w").keys(keys);
        by_another(&mut desk, vec![fog(0x77, house("East"))]);
        assert!(desk.app.popups.is_empty(), "after {keys}\n{}", desk.text());
        desk.keys("{Enter}");
        assert!(desk.written().is_empty(), "after {keys}: {:?}", desk.written());
    }
    let mut desk = Desk::new();
    desk.keys("wndrip at post");
    by_another(&mut desk, vec![fog(0x77, bench("E1"))]);
    let strike = entry(0x78, at(10, 12, 7, 5), bench("E1"), strike(0x77, true));
    by_another(&mut desk, vec![strike]);
    desk.keys("n");
    assert!(desk.text().contains("> drip at post"), "{}", desk.text());
}

#[test]
fn heights_half_typed_are_kept_when_the_bench_is_closed() {
    let mut desk = Desk::new();
    desk.keys("wmn9.5{Space}9.8");
    by_another(&mut desk, vec![fog(0x77, bench("E1"))]);
    desk.keys("{Space}10{Enter}");
    assert!(desk.written().is_empty(), "{:?}", desk.written());
    assert!(desk.text().starts_with("Walk  E2"), "{}", desk.text());
    assert_eq!(
        desk.app.model.draft(&benchwalk::model::DraftKey::Heights("E1".into())).map(str::to_owned),
        Some("9.5 9.8".into())
    );
}

#[test]
fn a_card_opens_again_by_itself_when_the_hours_are_over() {
    let mut desk = Desk::new();
    desk.keys("w").keys(TREATED);
    desk.pass(chrono::Duration::minutes(719));
    assert!(desk.text().contains("CLOSED UNTIL"), "{}", desk.text());
    desk.pass(chrono::Duration::minutes(1));
    assert!(!desk.text().contains("CLOSED UNTIL") && desk.text().contains("[water _]"), "{}", desk.text());
    desk.keys("3");
    assert_eq!(desk.written().last().map(String::as_str), Some("E1 water 3"));
}

#[test]
fn benches_walked_before_they_were_closed_are_told_apart() {
    let mut desk = Desk::new();
    desk.keys("w3201");
    by_another(&mut desk, vec![fog(0x77, house("East"))]);
    desk.keys("{Esc}");
    assert!(desk.text().contains("walked 1 of 3; 3 closed, 1 of them walked before"), "{}", desk.text());
    assert_eq!(desk.text().matches("closed to").count(), 3, "{}", desk.text());
    desk.keys("w32015");
    assert!(desk.text().contains("The round is done: all open benches walked; closed: E2 E3."), "{}", desk.text());
}

#[test]
fn the_round_says_until_when_a_bench_is_closed_in_any_window_of_60_columns_or_more() {
    for columns in [60, 66, 74, 75, 80, 120] {
        let desk = Desk::with(&crate::season::journal(), crate::desk::COLOR, (columns, 24));
        let text = desk.text();
        let row = text.lines().find(|line| line.trim_start().starts_with("E3 ")).unwrap_or_default();
        let wide = columns >= 110;
        assert!(row.contains(if wide { "closed 08:00" } else { "closed to 08:00" }), "{columns} columns\n{text}");
        let heads = text.lines().find(|line| line.contains("bench ")).unwrap_or_default();
        let narrow = ["lot", "crop wk", "today", "6 days", "ht", "walked"];
        let all = ["lot", "day", "last 6 days", "today", "root", "height"];
        assert!(if wide { all } else { narrow }.iter().all(|h| heads.contains(h)), "{text}");
    }
}

#[test]
fn an_emptied_bench_takes_nothing_either() {
    let mut desk = Desk::new();
    desk.keys("w");
    let sold = benchwalk::record::Kind::Sold { pots: 80 };
    by_another(&mut desk, vec![entry(0x77, at(10, 12, 7, 0), bench("E1"), sold)]);
    assert!(desk.text().contains("E1 IS EMPTY"), "{}", desk.text());
    desk.keys("3");
    assert!(desk.written().is_empty(), "{:?}", desk.written());
    desk.keys("{Enter}");
    assert!(desk.text().starts_with("Walk  E2"), "{}", desk.text());
}

#[test]
fn an_empty_bench_of_a_closed_house_reads_as_closed() {
    let mut desk = Desk::new();
    by_another(&mut desk, vec![fog(0x77, house("West"))]);
    let row = desk.text().lines().find(|line| line.contains("W3")).unwrap_or_default().to_owned();
    assert!(row.contains("empty") && row.contains("closed to Oct 13"), "{}", desk.text());
}

#[test]
fn what_another_program_wrote_leaves_own_work_as_it_is() {
    let mut desk = Desk::new();
    desk.keys("w3").keys("nhalf typed{Esc}");
    let own: Vec<Entry> = desk.app.model.season.entries().to_vec();
    desk.keeping = crate::desk::Keeping::Silent;
    desk.keys("2");
    let other = entry(0x77, at(10, 12, 6, 0), bench("W1"), benchwalk::record::Kind::Water { level: 2, base: None });
    let count = desk.app.model.season.entries().len();
    by_another(&mut desk, own.into_iter().chain([other]).collect());
    assert_eq!(desk.app.model.season.entries().len(), count + 1, "own entries are not doubled");
    assert!(desk.text().contains("1 NOT YET SAVED"), "{}", desk.text());
    assert!(desk.text().contains("1 entry from another program loaded."), "{}", desk.text());
    let w1 = desk.app.model.cache.fresh("W1").unwrap();
    assert_eq!(w1.week.first(), Some(&Some(2)), "the touched bench is assessed again");
    desk.keys("n");
    assert!(desk.text().contains("> half typed"), "{}", desk.text());
    desk.keeping = crate::desk::Keeping::Well;
    desk.keys("{Esc}u");
    assert!(desk.written().last().is_some_and(|line| line.contains("voided")), "{:?}", desk.written());
}

#[test]
fn a_bench_added_by_another_program_is_there_at_once() {
    let mut desk = Desk::new();
    let mut plan: Plan = desk.app.model.season.plan().clone();
    let line = crate::season::bench_line("W9", "West", 99);
    plan.keep(benchwalk::record::Line::Bench(line));
    desk.app.model.wait_for_entries();
    desk.answer(Outcome::Joined { plan, entries: Vec::new() });
    assert!(desk.text().contains("W9"), "{}", desk.text());
    assert!(desk.text().contains("Another program changed the plan; it is loaded."), "{}", desk.text());
}

#[test]
fn the_closed_card_at_every_size_and_in_every_dress() {
    let keys = format!("w{TREATED}");
    let open = |look| {
        let mut desk = Desk::with(&crate::season::journal(), look, (80, 24));
        desk.keys(&keys);
        desk
    };
    all_drawn_at_every_size([("closed card", open(COLOR))]);
    same_in_every_dress("closed card", open);
}

/// A desk whose first bench was sprayed by another program while its card was open.
fn shut() -> Desk {
    let mut desk = Desk::new();
    desk.keys("w3");
    by_another(&mut desk, vec![fog(0x77, bench("E1"))]);
    desk
}

#[test]
fn a_closed_bench_takes_no_digits() {
    let mut desk = shut();
    let text = desk.text();
    assert!(text.contains("CLOSED UNTIL Tue Oct 13 07:00"), "{text}");
    assert!(text.contains("Enter: E2, the next open bench."), "{text}");
    desk.keys("32017d-{Space}");
    assert_eq!(desk.written(), ["E1 water 3"], "{}", desk.text());
    // Popups from the card, the line of heights, and the Bench page are refused in the same words.
    for keys in ["n", "l", "m"] {
        desk.keys(keys);
        assert!(desk.app.popups.is_empty(), "{keys}\n{}", desk.text());
    }
    desk.keys("c");
    for keys in ["n", "m"] {
        desk.keys(keys);
        assert!(desk.app.popups.is_empty(), "{keys} on the Bench page\n{}", desk.text());
        assert!(desk.text().contains("E1 is closed until Oct 13 07:00"), "{}", desk.text());
    }
    assert_eq!(desk.written(), ["E1 water 3"]);
}

/// The letter of a kind in the list of forms.
fn form(desk: &mut Desk, kind: &str) {
    desk.keys("a");
    let text = desk.text();
    let at = text.find(&format!("  {kind}")).unwrap_or_else(|| panic!("no {kind}\n{text}"));
    let letter = text[..at].chars().last().unwrap();
    desk.keys(&letter.to_string());
}

#[test]
fn forms_of_observations_are_refused_while_it_is_closed_and_taken_of_the_time_before() {
    let mut desk = shut();
    desk.keys("c");
    form(&mut desk, "note");
    desk.keys("drip{Enter}");
    assert!(desk.text().contains("E1 is closed until Oct 13 07:00"), "{}", desk.text());
    assert_eq!(desk.written(), ["E1 water 3"]);
    // It was at half past six, before the fog.
    desk.keys("{Tab}6:30{Enter}");
    assert_eq!(desk.written().last().map(String::as_str), Some("E1 note: drip"), "{}", desk.text());
}

#[test]
fn a_treatment_is_logged_on_a_closed_bench() {
    let mut desk = shut();
    desk.keys("c").keys("afsoap{Tab}mites{Tab}a{Tab}48{Tab}now{Enter}");
    assert!(desk.written().last().is_some_and(|line| line.contains("soap")), "{}", desk.text());
    assert!(desk.text().contains("Oct 14"), "{}", desk.text());
}
