//! Last year beside this one: its line in the charts of a bench, and the part of the Season page, by keys.

use crate::desk::{ASCII, COLOR, Desk};
use benchwalk::compare::{Chosen, Courses, Judge, LastYear, last_day};
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::model::Effect;
use benchwalk::season::Season;
use std::sync::LazyLock;

const LAST: &str = include_str!("../../demo-data/last-year.jsonl");
const DEMO: &str = include_str!("../../demo-data/demo.jsonl");

/// The season of the demo's year before, assessed.
static WHOLE: LazyLock<LastYear> = LazyLock::new(|| {
    let season = Season::of(journal::read(LAST).unwrap());
    let (limits, until) = (Limits::default(), last_day(&season).unwrap());
    let mut courses = Courses::new(&season, until, &limits);
    while courses.step() {}
    let mut judge = Judge::new(&season, until, &limits);
    while judge.step_day() {}
    let judged = Some(judge.into_judged());
    let (file, by_hand) = ("demo-1-last-year.db".to_owned(), Vec::new());
    LastYear { file, chosen: Chosen::Found, season, courses: courses.read(), judged, by_hand }
});

/// The same, with or without its warnings.
fn last_year(assessed: bool) -> LastYear {
    let judged = WHOLE.judged.clone().filter(|_| assessed);
    LastYear { judged, ..WHOLE.clone() }
}

/// The demo on the morning of its last day, last year not read yet.
fn demo(size: (u16, u16)) -> Desk {
    let mut desk = Desk::with(DEMO, COLOR, size);
    desk.pass(chrono::Duration::days(2));
    desk.settle();
    desk
}

fn shows(desk: &Desk, pieces: &[&str]) {
    let text = desk.text();
    for piece in pieces {
        assert!(text.contains(piece), "no {piece:?} in\n{text}");
    }
}

#[test]
fn charts_draw_last_years_line_once_it_is_read() {
    let mut desk = demo((100, 40));
    desk.keys("{Enter}c");
    assert!(!desk.text().contains("last year"), "{}", desk.text());
    desk.app.set_last_year(Ok(last_year(false)));
    shows(&desk, &["last year (R6)", "Last year, lot R6:"]);
    desk.keys("{Tab}");
    shows(&desk, &["chart 2 of", "last year (R6)"]);
    // In ASCII it has a sign of its own.
    let mut plain = Desk::with(DEMO, ASCII, (100, 40));
    plain.app.set_last_year(Ok(last_year(false)));
    plain.keys("{Enter}c");
    shows(&plain, &["~~~ last year (R6)"]);
    assert!(plain.text().is_ascii());
}

#[test]
fn the_season_page_tells_lot_by_lot_what_differs() {
    let mut desk = demo((80, 24));
    desk.keys("s{Tab}{Tab}{Tab}{Tab}");
    shows(&desk, &["Season  last year", "No season of last year beside this one", "--beside FILE"]);
    desk.app.set_last_year(Ok(last_year(false)));
    desk.settle();
    shows(&desk, &["demo-1-last-year.db, found in the folder", "Last year's warnings are being worked out"]);
    desk.app.set_last_year(Ok(last_year(true)));
    shows(&desk, &["What to do differently", "1  staying wet, lot R6 (M1, M2): began Sat Oct 4"]);
    let mut seen = desk.text();
    for _ in 0..20 {
        desk.keys("{PgDn}");
        seen.push_str(&desk.text());
    }
    for piece in [
        "R1 beside R6 of last year",
        "matched by cultivar",
        "earlier",
        "later",
        "taller",
        "drier",
        "dried out",
        "staying wet",
    ] {
        assert!(seen.contains(piece), "no {piece:?} in\n{seen}");
    }
    // The last row stays in sight.
    assert!(desk.text().contains("W1") || desk.text().contains("warning"), "{}", desk.text());
}

#[test]
fn in_a_wide_window_the_lots_are_a_list_with_the_chosen_one_beside_it() {
    let mut desk = demo((160, 50));
    desk.app.set_last_year(Ok(last_year(true)));
    desk.keys("s{Tab}{Tab}{Tab}{Tab}");
    desk.settle();
    shows(&desk, &["C1 beside C6 of last year", "What to do differently", "C1 height by crop week"]);
    desk.keys("{Down}");
    shows(&desk, &["R1 height by crop week", "13 root"]);
}

#[test]
fn the_comparison_is_written_as_a_file() {
    let mut desk = demo((80, 24));
    desk.keys("s{Tab}{Tab}{Tab}{Tab}h");
    shows(&desk, &["Last year beside this one", "such as compare.html"]);
    desk.keys("c.html{Enter}");
    shows(&desk, &["the comparison is not worked out yet"]);
    desk.keys("{Esc}");
    desk.app.set_last_year(Ok(last_year(true)));
    desk.settle();
    desk.keys("h{Enter}");
    let [Effect::WriteFile(path, html)] = desk.outside.as_slice() else { panic!("{:?}", desk.outside) };
    assert!(path == "c.html" && html.contains("R1 beside R6 of last year") && html.contains("<svg"), "{html}");
}

#[test]
fn a_file_that_cannot_be_read_is_said_and_stops_nothing() {
    let mut desk = demo((80, 24));
    desk.app.set_last_year(Err("Last year's season is not shown: no season file: notes.db".to_owned()));
    shows(&desk, &["! Last year's season is not shown: no season file: notes.db"]);
    desk.keys("w3");
    assert_eq!(desk.written().len(), 1, "{}", desk.text());
}
