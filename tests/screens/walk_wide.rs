//! The Walk card in a wide window: the code in tall letters, which benches come next, and what is known of the bench beside
//! what is asked.

use crate::desk::{ASCII, COLOR, Desk, PLAIN, all_drawn_at_every_size, same_in_every_dress};
use crate::season;
use benchwalk::input::{Look, Palette};
use ratatui::style::Modifier;

fn walk(size: (u16, u16), keys: &str) -> Desk {
    let mut desk = Desk::with(&season::journal(), COLOR, size);
    desk.keys("w").keys(keys);
    desk
}

/// The rows of the large code: made of its own characters alone.
fn letters(text: &str, code: &str) -> Vec<String> {
    let card = text.lines().skip(1).map(|line| line.split(['│', '|']).next().unwrap_or_default());
    let of_code = |row: &str| {
        let first = row.split("   ").next().unwrap_or_default();
        !row.trim().is_empty()
            && first.chars().all(|c| c == ' ' || code.contains(c))
            && first.contains(&code[..1].repeat(2))
    };
    card.filter(|row| of_code(row)).map(str::to_owned).collect()
}

#[test]
fn the_code_is_seven_rows_tall_from_34_rows_on() {
    for (size, rows) in [((120, 34), 7), ((120, 40), 7), ((190, 50), 7), ((120, 33), 5), ((110, 24), 5)] {
        let text = walk(size, "").text();
        // Of the E of E1 every row but those of its bars shows two cells at least: in tall letters all of them do.
        let tall = letters(&text, "E1").len();
        assert_eq!(tall == 7, rows == 7, "{size:?}: {tall}\n{text}");
        assert!(text.contains("EEEEE"), "{size:?}\n{text}");
    }
}

#[test]
fn at_109_columns_it_is_the_card_of_before() {
    let (narrow, wide) = (walk((109, 40), "").text(), walk((110, 40), "").text());
    assert!(narrow.contains("water, last 6 days: 3 2 5 4 3 2  (yesterday last)"), "{narrow}");
    assert!(!narrow.contains("next  E2") && wide.contains("next  E2"), "{narrow}\n{wide}");
    assert!(narrow.contains("  1  dry: feather-light, gap at the pot wall"), "{narrow}");
}

#[test]
fn next_follows_the_walk_and_passes_over_closed_benches() {
    // E2 stays wet (act), E3 was sprayed and is closed to 08:00, W3 is empty.
    let mut desk = walk((120, 40), "");
    assert!(desk.text().contains("next  E2!  E3 x  W1  W2"), "{}", desk.text());
    assert!(!desk.text().contains("W3"), "an empty bench is not walked\n{}", desk.text());
    desk.keys("{Right}");
    assert!(desk.text().starts_with("Walk  E2") && desk.text().contains("next  E3 x  W1  W2  E1"), "{}", desk.text());
    desk.keys("{Tab}");
    let at = desk.text().lines().next().unwrap_or_default().to_owned();
    assert!(at.starts_with("Walk  W1"), "E3 was passed over\n{at}");
    // What is walked to its end is no longer ahead.
    let mut desk = walk((120, 40), "3201");
    assert!(desk.text().starts_with("Walk  E2"), "{}", desk.text());
    let next = desk.text().lines().find(|line| line.contains("next  ")).unwrap_or_default().to_owned();
    assert!(!next.contains("E1"), "E1 is walked\n{next}");
    // The hours are over: it is walked like the others.
    desk.pass(chrono::Duration::hours(1));
    assert!(desk.text().contains("next  E3  W1"), "{}", desk.text());
}

#[test]
fn digits_work_with_all_panels_on_and_the_cursor_stands_where_the_answer_is_typed() {
    let mut desk = walk((190, 50), "");
    for (key, asked) in [("3", "[base _]"), ("2", "[roots _]"), ("0", "[bracts _]"), ("1", "[water _]")] {
        desk.keys(key);
        assert!(desk.text().contains(asked), "after {key}\n{}", desk.text());
        let (buffer, cursor) = desk.draw();
        let at = cursor.unwrap();
        assert_eq!(buffer[(at.x, at.y)].symbol(), "_", "after {key}\n{}", desk.text());
        assert!(buffer[(at.x, at.y)].modifier.contains(Modifier::REVERSED), "what is asked now stands out");
    }
    assert_eq!(desk.written(), ["E1 water 3", "E1 water 3, base 2", "E1 roots 0", "E1 bracts 1"]);
    // Heights are typed on their line.
    let mut desk = walk((190, 50), "mn9.5{Space}9.8");
    let (_, cursor) = desk.draw();
    let row = usize::from(cursor.unwrap().y);
    assert!(desk.text().lines().nth(row).unwrap_or_default().starts_with("> 9.5 9.8"), "{}", desk.text());
    desk.keys("{Enter}");
    assert!(desk.written()[0].starts_with("E1 height"), "{:?}", desk.written());
}

#[test]
fn the_two_weeks_of_the_bench_stand_beside_what_is_asked() {
    let desk = walk((120, 40), "{Right}");
    let text = desk.text();
    let right: Vec<&str> = text.lines().filter_map(|line| line.split_once('│')).map(|(_, right)| right).collect();
    let right = right.join("\n");
    for piece in ["WATER", "HEIGHT", "staying wet", "Do not water until it reads 2", "LOG"] {
        assert!(right.contains(piece), "{piece}\n{text}");
    }
    let wide = walk((190, 50), "").text();
    let day = wide.lines().filter_map(|line| line.rsplit_once('│')).any(|(_, day)| day.contains("TODAY"));
    assert!(day, "{wide}");
}

#[test]
fn in_sunlight_the_code_is_made_of_solid_cells() {
    for (palette, solid) in [(Palette::Usual, false), (Palette::Sunlight, true), (Palette::Night, false)] {
        let look = Look { palette, ..COLOR };
        let mut desk = Desk::with(&season::journal(), look, (120, 40));
        desk.keys("w");
        let (buffer, _) = desk.draw();
        let y = desk.text().lines().position(|line| line.starts_with("EEEEEEEEEE")).unwrap();
        let row = &buffer.content[y * 120..y * 120 + 10];
        let reversed = row.iter().all(|cell| cell.symbol() == "E" && cell.modifier.contains(Modifier::REVERSED));
        assert_eq!(reversed, solid, "{palette:?}");
        // The code of a narrow window as well.
        desk.resize(80, 24);
        let (buffer, _) = desk.draw();
        let y = desk.text().lines().position(|line| line.starts_with("EEEEE")).unwrap();
        let row = &buffer.content[y * 80..y * 80 + 5];
        assert_eq!(row.iter().all(|cell| cell.modifier.contains(Modifier::REVERSED)), solid, "{palette:?}");
    }
}

/// The season with another code for E1.
fn named(code: &str) -> String {
    season::journal().replace("\"E1\"", &format!("\"{code}\""))
}

#[test]
fn long_codes_and_wide_scripts_fall_back_and_nothing_is_cut() {
    for (code, large) in
        [("E1", true), ("EAST-1", true), ("EAST-1.02", true), ("EAST-BENCH-10.02", false), ("東1", false)]
    {
        for size in [(110, 24), (120, 40), (190, 50)] {
            let mut desk = Desk::with(&named(code), COLOR, size);
            desk.keys("w");
            // A wide letter takes two cells of the frame.
            let text = desk.text().replace("東 ", "東");
            assert!(text.starts_with(&format!("Walk  {code}")), "{text}");
            let plain = text.contains(&format!(">> {code} <<"));
            // In a low window a long code is no longer drawn large: what is asked comes first.
            assert!(plain || large, "{code} {size:?}\n{text}");
            assert!(plain != large || size.1 < 34, "{code} {size:?}\n{text}");
            assert!(text.contains("[water _]") && text.contains("5  soaked"), "{code} {size:?}\n{text}");
            assert!(text.contains("lot") || text.contains("L1  mid red, 6.5 in"), "{code} {size:?}\n{text}");
        }
    }
}

#[test]
fn of_long_codes_as_many_come_next_as_have_room() {
    let codes = ["E1", "E2", "E3", "W1", "W2", "W3"];
    let long = |text: String, code: &&str| text.replace(&format!("\"{code}\""), &format!("\"{code}-LONG-BENCH-01\""));
    let mut desk = Desk::with(&codes.iter().fold(season::journal(), long), COLOR, (110, 24));
    desk.keys("w");
    let text = desk.text();
    let head = text.lines().find(|line| line.contains("next  ")).unwrap_or_default();
    assert!(head.contains("EAST  ") && head.contains("next  E2-LONG-BENCH-01!"), "{text}");
    assert!(!head.contains("W2-LONG"), "{text}");
}

#[test]
fn every_digit_is_in_words_whatever_is_asked_in_a_low_window() {
    // Bracts have the longest scale.
    let mut desk = walk((110, 24), "320");
    assert!(desk.text().contains("[bracts _]"), "{}", desk.text());
    assert!(desk.text().contains("  7  setting seed"), "{}", desk.text());
    desk.keys("-").resize(120, 24).keys("{Tab}");
    assert!(desk.text().contains("5  soaked"), "{}", desk.text());
}

#[test]
fn a_closed_card_keeps_its_band_and_shows_the_bench() {
    let mut desk = walk((120, 40), "afsoap{Tab}mites{Tab}a{Tab}12{Tab}now{Enter}");
    let text = desk.text();
    assert!(text.contains(" CLOSED UNTIL Mon Oct 12 19:10"), "{text}");
    assert!(text.contains("EEEEEEEEEE") && text.contains("Enter: E2, the next open bench."), "{text}");
    assert!(text.contains("WATER") && text.contains("next  E2!"), "{text}");
    desk.keys("3");
    assert!(desk.text().contains("Not logged: E1 is closed until 19:10"), "{}", desk.text());
}

#[test]
fn a_card_with_nothing_due_says_so_beside_what_is_known() {
    let mut desk = walk((120, 40), "3201");
    desk.keys("{Left}");
    let text = desk.text();
    assert!(text.contains("Nothing more is due here today."), "{text}");
    assert!(text.contains("Tab: next bench.") && text.contains("n: note.") && text.contains("WATER"), "{text}");
}

#[test]
fn the_wide_card_at_every_size_and_in_every_dress() {
    let open = |look| {
        let mut desk = Desk::with(&season::journal(), look, (120, 40));
        desk.keys("w");
        desk
    };
    all_drawn_at_every_size([("wide card", open(COLOR))]);
    same_in_every_dress("wide card", open);
    for look in [PLAIN, ASCII] {
        let mut desk = open(look);
        let (buffer, _) = desk.resize(190, 50).draw();
        assert!(!look.ascii || buffer.content.iter().all(|cell| cell.symbol().is_ascii()));
    }
}
