//! The Round of a wide window, as a grower uses it: the map of the walk, the list, the bench under the cursor, the day.

use crate::desk::{ASCII, COLOR, Desk, PLAIN};
use crate::season;
use ratatui::buffer::Cell;
use ratatui::style::Modifier;

const WIDE: (u16, u16) = (120, 40);
const WIDEST: (u16, u16) = (190, 50);

fn desk(size: (u16, u16)) -> Desk {
    Desk::with(&season::journal(), COLOR, size)
}

/// The rows of the page right of the first rule, without what is left of it.
fn panel(desk: &Desk) -> String {
    let text = desk.text();
    let right = |line: &str| line.split_once(['\u{2502}', '|']).map(|(_, right)| right.trim().to_owned());
    text.lines().filter_map(right).collect::<Vec<_>>().join("\n")
}

/// The row of a bench in the list.
fn row(desk: &Desk, bench: &str) -> String {
    let text = desk.text();
    let starts = |line: &&str| line.trim_start_matches(['*', '>', '\u{25b8}', ' ']).starts_with(&format!("{bench} "));
    text.lines().find(starts).unwrap_or_else(|| panic!("no {bench}\n{text}")).to_owned()
}

#[test]
fn the_panel_follows_the_cursor() {
    let mut desk = desk(WIDE);
    let first = panel(&desk);
    assert!(first.starts_with("E1   L1 "), "{}", desk.text());
    for part in ["WATER", "oldest left, today last", "LOG"] {
        assert!(first.contains(part), "no {part}\n{}", desk.text());
    }
    desk.keys("j");
    let second = panel(&desk);
    assert!(second.starts_with("E2   L1 "), "{}", desk.text());
    assert!(second.contains("!  act") && second.contains("staying wet since"), "{}", desk.text());
    assert!(second.contains("Do not water until it reads 2"), "what to do\n{}", desk.text());
    desk.keys("{End}");
    assert!(panel(&desk).starts_with("W3   empty"), "{}", desk.text());
}

#[test]
fn what_is_written_on_the_card_stands_in_the_panel_and_in_the_row() {
    let mut desk = desk(WIDE);
    desk.keys("w3201{Esc}{Home}");
    let text = desk.text();
    assert!(row(&desk, "E1").contains(" done"), "{text}");
    assert!(panel(&desk).contains("07:10 kt   water 3"), "{text}");
    assert!(panel(&desk).contains("07:10 kt   roots 0"), "{text}");
}

#[test]
fn the_map_shows_what_is_walked_what_is_flagged_and_what_is_closed() {
    let mut desk = desk(WIDE);
    assert!(desk.text().contains("EAST  .!x  0 of 3    WEST  ..  0 of 2"), "{}", desk.text());
    desk.keys("w3201{Esc}");
    assert!(desk.text().contains("EAST  #!x  1 of 3    WEST  ..  0 of 2"), "{}", desk.text());
}

#[test]
fn a_closed_bench_shows_its_hour() {
    let mut desk = desk(WIDEST);
    assert!(row(&desk, "E3").contains("closed 08:00"), "{}", desk.text());
    assert!(desk.text().contains("closed E3 to 08:00"), "in the head\n{}", desk.text());
    assert!(
        desk.text().contains("CLOSED  until, by this log") && desk.text().contains(" 08:00  E3"),
        "{}",
        desk.text()
    );
    desk.keys("jj");
    assert!(panel(&desk).contains("CLOSED until 08:00 (by this log; follow the posted sign)"), "{}", desk.text());
    desk.pass(chrono::Duration::minutes(50));
    assert!(!desk.text().to_lowercase().contains("closed"), "{}", desk.text());
}

#[test]
fn at_109_columns_it_is_the_page_of_one_column() {
    let narrow = desk((109, 40));
    let text = narrow.text();
    assert!(text.contains("walked 0 of 4; 1 closed, not counted") && text.contains("house East"), "{text}");
    assert!(!text.contains('\u{2502}') && !text.contains("WATER"), "{text}");
    let wide = desk((110, 40));
    assert!(wide.text().contains('\u{2502}') && panel(&wide).contains("WATER"), "{}", wide.text());
    assert!(!wide.text().contains("TODAY"), "{}", wide.text());
    assert!(desk((160, 40)).text().contains("TODAY  done of due"), "{}", desk((160, 40)).text());
}

#[test]
fn the_day_stands_in_the_third_column() {
    let desk = desk(WIDEST);
    let text = desk.text();
    for part in
        ["TODAY", "walked", "FLAGGED", "!  act", "NIGHTS", "night length", "first long night", "LOTS", "seen", "sale"]
    {
        assert!(text.contains(part), "no {part}\n{text}");
    }
}

#[test]
fn the_row_under_the_cursor_is_reversed_over_the_whole_list_and_a_marked_one_opens_with_a_star() {
    for look in [COLOR, PLAIN, ASCII] {
        let mut desk = Desk::with(&season::journal(), look, WIDE);
        desk.keys("{Space}");
        let (buffer, cursor) = desk.draw();
        let rows: Vec<&[Cell]> = buffer.content.chunks(usize::from(WIDE.0)).collect();
        let at = cursor.unwrap();
        let here = rows[usize::from(at.y)];
        let width = here.iter().position(|cell| ["\u{2502}", "|"].contains(&cell.symbol())).unwrap() - 1;
        assert!(width >= 60, "{}", desk.text());
        let reversed = |cell: &Cell| cell.modifier.contains(Modifier::REVERSED);
        // A soaked day stands out of it the other way round.
        assert!(here[..width].iter().all(|cell| reversed(cell) || cell.symbol() == "5"), "{}", desk.text());
        assert!(!here[width..].iter().any(reversed), "{}", desk.text());
        assert!(row(&desk, "E1").starts_with('*'), "{}", desk.text());
        assert!(row(&desk, "E2").starts_with(if look.ascii { '>' } else { '\u{25b8}' }), "{}", desk.text());
    }
}

#[test]
fn dry_and_soaked_days_stand_out_without_a_color() {
    for size in [(80, 24), WIDE] {
        let desk = Desk::with(&season::journal(), PLAIN, size);
        let (buffer, _) = desk.draw();
        let rows: Vec<&[Cell]> = buffer.content.chunks(usize::from(size.0)).collect();
        let text = |row: &&&[Cell]| row.iter().map(Cell::symbol).collect::<String>();
        let wet = rows.iter().find(|row| text(row).trim_start().starts_with("E2 ")).unwrap();
        let digits = wet.windows(3).take(60).filter(|cells| cells[0].symbol() == " " && cells[2].symbol() == " ");
        let fives: Vec<&Cell> = digits.map(|cells| &cells[1]).filter(|cell| cell.symbol() == "5").collect();
        let heavy = Modifier::BOLD.union(Modifier::REVERSED);
        assert!(fives.len() >= 4 && fives.iter().all(|cell| cell.modifier.contains(heavy)), "{}", desk.text());
    }
}

#[test]
fn while_the_season_is_read_and_before_anything_is_set_up_the_regions_say_so() {
    let mut desk = desk(WIDEST);
    desk.app.model.wait_for_entries();
    assert_eq!(desk.text().matches("The season is being read.").count(), 2, "{}", desk.text());
    desk.app.model.could_not_read("it is damaged".into());
    assert_eq!(desk.text().matches("The season could not be read.").count(), 2, "{}", desk.text());
}

#[test]
fn a_view_and_marks_are_said_above_the_list() {
    let mut desk = desk(WIDE);
    desk.keys("vf");
    assert!(desk.text().contains("Showing flagged (1 of 6 benches), in walking order"), "{}", desk.text());
    assert!(panel(&desk).starts_with("E2 "), "{}", desk.text());
    desk.keys("va{Space}");
    assert!(desk.text().contains("; 1 marked"), "{}", desk.text());
}

/// The sizes around each change of layout.
const SIZES: [(u16, u16); 6] = [(110, 24), (120, 40), (159, 34), (160, 34), (190, 50), (250, 60)];

#[test]
fn hundreds_of_benches_with_long_codes_stay_in_their_regions() {
    let crop = crate::large::named(300, 2, 7, |n| format!("Long-Bench-{n:05}"));
    let mut desk = Desk::with(&crop.journal(), COLOR, WIDE);
    for (columns, rows) in SIZES {
        desk.resize(columns, rows);
        inside(&desk, columns);
        let text = desk.text();
        assert!(text.contains("  0 of ") && !text.contains("Long-Bench-00000Long"), "{text}");
    }
}

#[test]
fn names_in_wide_letters_and_ascii_signs_stay_in_their_regions() {
    let lot = season::lot("\u{7d05}\u{82b1}1");
    let crop = season::Crop::bare().with_lot(lot);
    let codes: Vec<String> = (1..=12).map(|n| format!("\u{6eab}\u{5ba4}-{n}")).collect();
    let crop = codes.iter().zip(1..).fold(crop, |crop, (code, n)| {
        crop.bench_in(code, "\u{5317}\u{306e}\u{6e29}\u{5ba4}\u{3068}\u{6771}\u{306e}\u{6e29}\u{5ba4}", n)
    });
    let crop = codes.iter().fold(crop, |crop, code| crop.filled(code, "\u{7d05}\u{82b1}1", 80, (8, 17)));
    for look in [COLOR, PLAIN] {
        let mut desk = Desk::with(&crop.journal(), look, WIDE);
        for (columns, rows) in SIZES {
            desk.resize(columns, rows);
            inside(&desk, columns);
        }
    }
}

/// The rules stand in every row of the body, so nothing was written over them.
fn inside(desk: &Desk, columns: u16) {
    let (buffer, _) = desk.draw();
    let lines: Vec<&[Cell]> = buffer.content.chunks(usize::from(columns)).collect();
    let rule = lines.iter().position(|row| row[0].symbol() == "\u{2500}").unwrap_or_else(|| panic!("{}", desk.text()));
    let body: Vec<&&[Cell]> =
        lines[rule + 1..].iter().take_while(|row| row.iter().any(|c| c.symbol() == "\u{2502}")).collect();
    let upright = |column: usize| body.iter().filter(|row| row[column].symbol() == "\u{2502}").count();
    let rules = (0..usize::from(columns)).filter(|column| upright(*column) == body.len()).count();
    assert_eq!(rules, if columns < 160 { 1 } else { 2 }, "{columns}\n{}", desk.text());
}
