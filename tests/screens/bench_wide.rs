//! The Bench page in a wide window: the record left, several charts at once beside it, in the widest windows what is wrong
//! and what grows between them.

use crate::desk::{ASCII, COLOR, Desk, PLAIN};
use crate::season;
use ratatui::style::Modifier;

/// The page of E2, which stays wet.
fn page(size: (u16, u16)) -> Desk {
    let mut desk = Desk::with(&season::journal(), COLOR, size);
    desk.keys("j{Enter}");
    desk
}

/// The headings of charts that are shown, from the top.
fn charts(text: &str) -> Vec<&'static str> {
    let named = ["WATER", "HEIGHT", "ROOTS", "ROOT ZONE PH", "ROOT ZONE EC", "BRACTS", "TEMPERATURE", "HUMIDITY"];
    let rows = text.lines().filter_map(|line| line.split('│').next_back());
    rows.filter_map(|row| named.into_iter().find(|name| row.trim_start().starts_with(&format!("{name}  ")))).collect()
}

#[test]
fn several_charts_stand_beside_the_log_at_once() {
    let text = page((120, 40)).text();
    assert_eq!(charts(&text), ["WATER", "HEIGHT", "ROOTS", "BRACTS"], "{text}");
    assert!(text.contains("Log, newest first") && text.contains("staying wet since Oct 4"), "{text}");
    // One axis of days below all of them.
    assert_eq!(text.matches("Sep 7 ").count(), 1, "{text}");
    // In a low window two rather than crushed ones.
    let low = page((120, 24)).text();
    assert_eq!(charts(&low), ["WATER", "HEIGHT"], "{low}");
}

#[test]
fn at_109_columns_it_is_the_page_of_before() {
    let (narrow, wide) = (page((109, 40)).text(), page((110, 40)).text());
    assert!(charts(&narrow).is_empty() && !charts(&wide).is_empty(), "{narrow}\n{wide}");
    assert!(narrow.contains("mid red, 6.5 in  day 56 since Aug 17  sale Nov 27 in 46 days"), "{narrow}");
}

#[test]
fn from_160_columns_every_step_to_take_stands_in_a_column_of_its_own() {
    let text = page((160, 50)).text();
    let row = |piece: &str| text.lines().find(|line| line.contains(piece)).unwrap_or_default().to_owned();
    let columns: Vec<String> = row("staying wet").split('│').map(str::to_owned).collect();
    assert_eq!(columns.len(), 4, "record, warnings, charts and their axis\n{text}");
    assert!(columns[1].contains("staying wet"), "{text}");
    assert!(!row("Log, newest first").split('│').next().unwrap_or_default().is_empty(), "{text}");
    // The page of before gives the first step; here is room for all.
    let steps = desk_steps();
    assert!(steps.len() > 1, "{steps:?}");
    let middle: Vec<&str> = text.lines().filter_map(|line| line.split('│').nth(1)).map(str::trim).collect();
    let middle = middle.join(" ");
    for step in steps {
        assert!(middle.contains(&step), "{step}\n{middle}");
    }
}

/// What is to be done about E2 staying wet.
fn desk_steps() -> Vec<String> {
    let desk = page((160, 50));
    let warnings = desk.app.model.standing_warnings("E2");
    warnings
        .iter()
        .find(|w| w.name.title() == "staying wet")
        .map(benchwalk::warnings::Warning::next)
        .unwrap_or_default()
}

#[test]
fn one_key_gives_the_charts_the_whole_width_and_one_the_weeks() {
    let mut desk = page((190, 50));
    desk.keys("z");
    assert!(desk.text().contains("CHARTS  3 weeks, Sep 22 to Oct 12"), "{}", desk.text());
    desk.keys("zc");
    let text = desk.text();
    assert!(text.contains("chart 1 of 9: height  full season"), "{text}");
    let both = text.lines().any(|line| line.contains("E2 height, lot L1 (in)") && line.contains("E2 water, lot L1"));
    assert!(both, "two columns of charts\n{text}");
    assert!(!text.contains("Log, newest first"), "{text}");
    desk.keys("{Tab}");
    assert!(desk.text().contains("chart 2 of 9: water"), "{}", desk.text());
    desk.keys("c");
    assert!(desk.text().contains("Log, newest first") && !charts(&desk.text()).is_empty(), "{}", desk.text());
    // A week back is said beside the record too.
    desk.keys("c,c");
    assert!(desk.text().contains("as known on Oct 5"), "{}", desk.text());
}

#[test]
fn the_weeks_are_chosen_in_a_narrow_window_too_for_the_charts_a_key_away() {
    let mut desk = page((80, 24));
    desk.keys("z");
    assert!(desk.text().contains("Charts: 3 weeks."), "{}", desk.text());
    desk.keys("c");
    assert!(desk.text().contains("3 weeks, Sep 22 to Oct 12"), "{}", desk.text());
}

#[test]
fn what_is_logged_is_in_the_charts_of_the_next_frame() {
    let mut desk = page((120, 40));
    let fives = |desk: &Desk| {
        let text = desk.text();
        let row = text.lines().find_map(|line| line.split_once("5 │"));
        row.map_or(0, |(_, row)| row.matches('5').count())
    };
    let before = fives(&desk);
    desk.keys("f5").keys("{Esc}{Home}j{Enter}");
    assert_eq!(desk.written(), ["E2 water 5"]);
    assert_eq!(fives(&desk), before + 1, "{}", desk.text());
}

#[test]
fn soaked_and_dry_stand_out_of_the_water_without_color() {
    let mut desk = Desk::with(&season::journal(), PLAIN, (120, 40));
    desk.keys("j{Enter}");
    let (buffer, _) = desk.draw();
    let rows: Vec<_> = buffer.content.chunks(120).collect();
    let text = |row: &&[ratatui::buffer::Cell]| row.iter().map(|cell| cell.symbol().to_owned()).collect::<String>();
    // In the chart and in the table: every 5 is reversed, no 4 is.
    let chart = rows.iter().find(|row| text(row).contains("5 │")).unwrap();
    let table = rows.iter().find(|row| text(row).starts_with("water ")).unwrap();
    let soaked = chart[66..].iter().chain(&table[..60]).filter(|cell| cell.symbol() == "5");
    let soaked: Vec<bool> = soaked.map(|cell| cell.modifier.contains(Modifier::REVERSED | Modifier::BOLD)).collect();
    assert!(soaked.len() > 4 && soaked.iter().all(|is| *is), "{soaked:?}\n{}", desk.text());
    assert!(
        table[..60].iter().filter(|cell| cell.symbol() == "4").all(|cell| cell.modifier.is_empty()),
        "{}",
        desk.text()
    );
}

#[test]
fn series_are_kept_apart_by_sign_without_color_and_in_ascii() {
    let base = r#"{"type":"entry","at":"2026-10-10T07:30:00-04:00","by":"kt","bench":"E2","kind":"water","level":4,"base":3}
"#;
    for look in [PLAIN, ASCII] {
        let mut desk = Desk::with(&(season::journal() + base), look, (120, 40));
        desk.keys("j{Enter}");
        let text = desk.text();
        for sign in ["digits water", "x pot base", "^ watered", "o measured mean"] {
            assert!(text.contains(sign), "{sign}\n{text}");
        }
        assert!(!look.ascii || text.is_ascii(), "{text}");
    }
}

#[test]
fn a_long_log_is_scrolled_to_its_end_beside_the_charts() {
    for size in [(120, 24), (160, 24)] {
        let mut desk = page(size);
        assert!(!desk.text().contains("height 7.51 in"), "{}", desk.text());
        desk.keys("{End}");
        assert!(desk.text().contains("height 7.51 in") && !charts(&desk.text()).is_empty(), "{}", desk.text());
    }
}

#[test]
fn a_bench_without_readings_says_that_nothing_can_be_drawn() {
    let mut desk = Desk::with(&season::journal(), COLOR, (120, 40));
    desk.keys("{End}{Enter}");
    assert!(desk.text().contains("Nothing to draw yet."), "{}", desk.text());
}
