//! Any bench at once: found by a part of its name, shown by views and orders; no flagged bench looks clean in any window.

use crate::desk::{COLOR, Desk, PLAIN};
use crate::large::named;
use benchwalk::input::Key;
use benchwalk::record::Line;
use benchwalk::review::build;
use benchwalk::season::Season;
use benchwalk::warnings::Severity;
use chrono::Duration;

const DEMO: &str = include_str!("../../demo-data/demo.jsonl");

/// The morning of the demo's last day.
fn morning(size: (u16, u16)) -> Desk {
    let mut desk = Desk::with(DEMO, COLOR, size);
    desk.pass(Duration::days(2));
    desk
}

/// The benches on the Round, top to bottom, as far as they are in sight: without heads of houses.
fn benches(desk: &Desk) -> Vec<String> {
    let codes: Vec<String> = desk.app.model.season.benches().iter().map(|b| b.bench.clone()).collect();
    let text = desk.text();
    let first = text.lines().filter_map(|line| line.trim_start_matches(['▸', ' ', '*']).split(' ').next());
    first.filter(|word| codes.iter().any(|code| code == word)).map(str::to_owned).collect()
}

/// 500 benches in ten houses, H1 to H500: H317 is shown six keys or fewer after any page, popup or half-typed line.
#[test]
fn any_bench_is_found_in_six_keys() {
    let crop = named(500, 1, 7, |n| format!("H{}", n + 1));
    let season = Season::new(crop.plan, crop.entries);
    let mut desk = Desk::of(&season, PLAIN, (80, 24));
    let start = desk.app.clone();
    let text = |desk: &Desk| desk.text();
    for (keys, back) in [
        ("", ""),
        ("w", ""),
        ("e", ""),
        ("{Enter}", ""),
        ("{Enter}c", ""),
        ("s", ""),
        ("g", ""),
        ("?", "{Esc}"),
        ("a", "{Esc}"),
        ("wm", "{Esc}"),
        ("wnhalf", "{Esc}"),
        ("wmn12", "{Esc}"),
        ("i", "{Esc}"),
        ("aa", "{Esc}"),
    ] {
        desk.app = start.clone();
        desk.keys(keys);
        let way = format!("{back}/317{{Enter}}");
        assert!(Key::row(&way).unwrap().len() <= 6, "{way}");
        desk.keys(&way);
        let shown = text(&desk);
        let there = shown.contains("▸ H317 ") || shown.contains("Bench H317") || shown.contains("Walk  H317");
        assert!(there, "after {keys:?} and {way}\n{shown}");
    }
}

#[test]
fn the_list_narrows_while_one_types_and_esc_leaves_all_as_it_was() {
    let mut desk = morning((80, 24));
    desk.keys("jj");
    let before = desk.dump();
    desk.keys("/");
    assert!(desk.text().contains("(24 of 24 benches)"), "{}", desk.text());
    desk.keys("m1");
    // M1 itself, then M10 to M12.
    assert!(desk.text().contains("(4 of 24 benches)"), "{}", desk.text());
    assert!(desk.text().contains("▸ M1 "), "{}", desk.text());
    desk.keys("{Down}{Down}{Esc}");
    assert_eq!(desk.dump(), before);
    desk.keys("/m1{Down}{Down}{Enter}");
    assert_eq!(desk.app.screen.bench(&desk.app.model).as_deref(), Some("M11"));
    desk.keys("/nowhere{Enter}");
    assert!(desk.text().contains("No bench has that in its code, house or lot."), "{}", desk.text());
    desk.keys("{Esc}/HOUSE{Space}dell{Enter}");
    assert_eq!(desk.app.screen.bench(&desk.app.model).as_deref(), Some("D1"), "a house by its name\n{}", desk.text());
}

#[test]
fn from_the_card_it_goes_to_the_card_of_the_bench_found() {
    let mut desk = Desk::new();
    desk.keys("w/w2{Enter}");
    assert!(desk.text().starts_with("Walk  W2"), "{}", desk.text());
    desk.keys("4");
    assert_eq!(desk.written(), ["W2 water 4"]);
    // After the water of W2 the card is at E1. E3 is closed: the card stays where it is and says why.
    desk.keys("/e3{Enter}");
    assert!(desk.text().starts_with("Walk  E1"), "{}", desk.text());
    assert!(desk.text().contains("E3 is closed until 08:00"), "{}", desk.text());
    desk.keys("c/e2{Enter}");
    assert!(desk.text().starts_with("Bench E2"), "{}", desk.text());
    desk.keys("e/e2{Enter}");
    assert!(desk.text().starts_with("Bench E2"), "{}", desk.text());
    desk.keys("{Esc}");
    assert!(desk.text().starts_with("Evening review"), "{}", desk.text());
}

#[test]
fn views_show_a_part_of_the_benches_and_say_so() {
    let mut desk = Desk::new();
    assert!(desk.text().contains("Showing all benches, in walking order"), "{}", desk.text());
    desk.keys("vn");
    assert_eq!(benches(&desk), ["E1", "E2", "W1", "W2"], "closed and empty benches are not to be walked");
    assert!(desk.text().contains("Showing not walked (4 of 6 benches), in walking order"), "{}", desk.text());
    // A bench walked leaves the view; the card comes back to it.
    desk.keys("w3201{Esc}");
    assert_eq!(benches(&desk), ["E2", "W1", "W2"], "{}", desk.text());
    desk.keys("vf");
    assert_eq!(benches(&desk), ["E2"], "{}", desk.text());
    desk.keys("vc");
    assert_eq!(benches(&desk), ["E3"], "{}", desk.text());
    desk.keys("vhb");
    assert_eq!(benches(&desk), ["W1", "W2", "W3"], "{}", desk.text());
    desk.keys("vla");
    assert_eq!(benches(&desk), ["E1", "E2", "E3"], "{}", desk.text());
    desk.keys("vr");
    assert_eq!(benches(&desk), ["W1"], "roots due and not done\n{}", desk.text());
    desk.keys("va");
    assert_eq!(benches(&desk).len(), 6, "{}", desk.text());
}

#[test]
fn an_empty_view_says_so_and_how_to_get_back() {
    let mut desk = Desk::new();
    desk.keys("vc").pass(Duration::hours(2));
    let text = desk.text();
    assert!(text.contains("no bench is in this view (closed). Press v, then a: all"), "{text}");
    desk.keys("f{Enter}{Space}a");
    assert!(desk.kept.is_empty());
    // A bench that the view does not show is found all the same.
    desk.keys("/w1{Enter}");
    let text = desk.text();
    assert!(text.contains("▸ W1") && text.contains("Showing all benches"), "{text}");
    assert!(text.contains("The view (closed) does not show W1: all benches are shown now."), "{text}");
}

#[test]
fn the_order_of_the_round_can_be_changed_and_is_said() {
    let mut desk = Desk::new();
    desk.keys("os");
    assert_eq!(benches(&desk).first().map(String::as_str), Some("E2"), "{}", desk.text());
    assert!(desk.text().contains("Showing all benches, most severe first"), "{}", desk.text());
    desk.keys("od");
    assert_eq!(benches(&desk)[..2], ["E3", "E2"], "{}", desk.text());
    // Today's reading makes a bench seen today.
    desk.keys("ow/e1{Enter}f4{Esc}ol");
    let unseen = benches(&desk);
    assert_eq!(unseen[4..], ["E1", "W3"], "seen today, and without pots\n{}", desk.text());
    assert!(desk.text().contains("longest not seen first"), "{}", desk.text());
}

#[test]
fn every_house_is_headed_by_its_own_counts() {
    let mut desk = Desk::new();
    desk.keys("w3201{Esc}");
    let text = desk.text();
    assert!(text.contains("house East  walked 1 of 2, 1 flagged, 1 closed"), "{text}");
    assert!(text.contains("house West  walked 0 of 2\n"), "{text}");
}

/// The pages where a flagged bench is seen, at the widths windows have: never without a sign, and every check due is whole.
#[test]
fn no_flagged_bench_looks_clean_at_any_width() {
    for columns in [40, 60, 80, 100, 120, 190] {
        let mut desk = morning((columns, 50));
        let levels: Vec<(String, Severity)> =
            desk.app.model.levels().into_iter().map(|(code, level)| (code.to_owned(), level)).collect();
        assert!(levels.iter().any(|(_, level)| *level >= Severity::Act));
        let signs = |level: Severity| match level {
            Severity::Watch => "?",
            Severity::Act => "!",
            Severity::Urgent => "!!",
        };
        let start = desk.app.clone();
        for closed in [false, true] {
            desk.app = start.clone();
            if closed {
                // The house with most warnings is treated.
                desk.keys("afsoap{Tab}mites{Tab}a{Tab}12{Tab}now{Tab}{Tab}{Tab}{Enter}");
            }
            let text = desk.text();
            for (code, level) in &levels {
                let row = text.lines().find(|l| l.trim_start_matches(['▸', ' ']).starts_with(&format!("{code} ")));
                let row = row.unwrap_or_else(|| panic!("no {code} at {columns}\n{text}"));
                assert!(row.contains(signs(*level)), "{code} looks clean at {columns}: {row}\n{text}");
            }
        }
        for (code, level) in &levels {
            desk.app = start.clone();
            desk.keys(&format!("/{code}{{Enter}}{{Enter}}"));
            assert!(desk.text().contains(level.code()), "Bench {code} at {columns}\n{}", desk.text());
            desk.keys("f");
            assert!(desk.text().contains(&format!("{}: ", level.code())), "Walk {code} at {columns}\n{}", desk.text());
            let text = desk.text();
            for check in desk.app.model.cache.bench(code).unwrap().due.iter().filter(|c| !c.done) {
                let name = check.what.text();
                let whole = text.contains(&format!(" {name} _ ")) || text.contains(&format!("{name} _]"));
                assert!(whole || text.contains(&format!(" {name} _\n")), "{name} of {code} at {columns}\n{text}");
            }
        }
        desk.app = start;
        desk.resize(columns, 300);
        desk.keys("e");
        all_flagged_are_named(&desk, columns);
    }
}

/// The evening names the place of every flagged problem whole, with its level.
fn all_flagged_are_named(desk: &Desk, columns: u16) {
    let model = &desk.app.model;
    let raised = model.cache.warnings(&model.season).cloned().collect();
    let review = build(&model.season, model.day, raised, &[], String::new()).unwrap();
    // In a wide window the list is the left region, and its rows begin with the sign of the level.
    let wide = columns >= 110;
    let cells = usize::from(if wide { (columns * 47 / 100).min(72) } else { columns });
    let text: String = desk.text().lines().map(|line| line.chars().take(cells).collect::<String>() + "\n").collect();
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let flagged: Vec<_> = review.flagged().map(|(problem, _)| problem).collect();
    assert!(!flagged.is_empty());
    for problem in flagged {
        assert!(words.contains(&problem.place), "{} at {columns}\n{text}", problem.place);
        let start: String = problem.place.chars().take(10).collect();
        let heads = text.lines().filter(|l| l.trim_start_matches(['▸', ' ', '!', '?']).starts_with(&start));
        let sign = match problem.level {
            Severity::Urgent => "!! ",
            Severity::Act => "! ",
            Severity::Watch => "? ",
        };
        let level = if wide { sign } else { problem.level.code() };
        assert!(heads.clone().any(|l| l.contains(level)), "{} without {level} at {columns}\n{text}", problem.place);
    }
}

/// Yesterday's sheet is typed in after breakfast: F6, the day, the walk, and F6 again.
#[test]
fn another_day_and_another_writer_without_leaving() {
    let mut desk = Desk::new();
    desk.keys("{F6}");
    assert!(desk.text().contains("Log for another day"), "{}", desk.text());
    desk.keys("+1{Enter}");
    assert!(desk.text().contains("is Tue Oct 13, 2026, which is still to come"), "{}", desk.text());
    desk.keys("{Ctrl-U}{Backspace}{Backspace}Sun{Enter}");
    let band = "LOGGING FOR SUN OCT 11 \u{2014} F6 goes back to today";
    assert!(desk.text().contains(band), "{}", desk.text());
    // On every page and popup, also without color.
    for keys in ["w", "wn", "wm", "e", "{Enter}", "s", "g", "i", "?", "a", "aa", "v", "/"] {
        desk.app.popups.clear();
        desk.keys("{Esc}r{Esc}").keys(keys);
        assert!(desk.text().contains(band), "{keys}\n{}", desk.text());
        desk.app.model.resize((80, 24));
    }
    desk.app.popups.clear();
    desk.keys("{Esc}{Esc}r{Home}fnwet{Enter}");
    let Some(Line::Entry(entry)) = desk.kept.last() else { panic!("nothing kept") };
    assert_eq!(entry.at.to_rfc3339(), "2026-10-11T07:10:00-04:00", "that day, at the present time of day");
    desk.keys("{F6}");
    assert!(!desk.text().contains("LOGGING FOR"), "{}", desk.text());
    assert!(desk.text().contains("Back to today: entries go to Mon Oct 12, 2026."), "{}", desk.text());
    assert!(desk.text().contains("[water _]"), "today's water is still due\n{}", desk.text());
    desk.keys("4{F7}");
    assert!(desk.text().contains("1 "), "{}", desk.text());
    desk.keys("ml{Enter}2");
    let by = |line: &Line| if let Line::Entry(entry) = line { entry.by.to_string() } else { String::new() };
    let by: Vec<String> = desk.kept.iter().rev().take(2).map(by).collect();
    assert_eq!(by, ["ml", "kt"], "{}", desk.text());
    // Back to the first by her number.
    desk.keys("{F7}");
    assert!(desk.text().contains("1 kt"), "{}", desk.text());
    desk.keys("1");
    assert!(desk.text().contains("kt is scouting"), "{}", desk.text());
    assert_eq!(desk.app.model.by, "kt");
}

/// What was logged today is not voided by an undo on an earlier day; what was logged on that day is, also afterwards.
#[test]
fn undo_keeps_to_its_day() {
    let mut desk = Desk::new();
    desk.keys("w3{F6}-1{Enter}u");
    assert!(desk.text().contains("The last entry is of Mon Oct 12: press F6 first, then u."), "{}", desk.text());
    assert_eq!(desk.written(), ["E1 water 3"]);
    desk.keys("nwet{Enter}").keys("{F6}");
    assert_eq!(desk.written(), ["E1 water 3", "E1 note: wet"], "{}", desk.text());
    desk.keys("u");
    assert_eq!(desk.written().len(), 3, "{}", desk.text());
    assert!(desk.text().contains("voided: note: wet"), "{}", desk.text());
}

/// The band is words over the whole width, reversed, in a window without color too; at midnight it stays.
#[test]
fn the_band_is_loud_without_color_and_outlasts_midnight() {
    let mut desk = Desk::with(&crate::season::journal(), PLAIN, (60, 24));
    desk.keys("{F6}-1{Enter}");
    let (buffer, _) = desk.draw();
    let reversed = (0..60).all(|x| buffer[(x, 1)].modifier.contains(ratatui::style::Modifier::REVERSED));
    assert!(reversed, "{}", desk.dump());
    desk.pass(Duration::hours(20));
    assert!(desk.text().contains("LOGGING FOR SUN OCT 11"), "{}", desk.text());
    desk.keys("{F6}");
    assert!(desk.text().contains("Back to today: entries go to Tue Oct 13, 2026."), "{}", desk.text());
}
