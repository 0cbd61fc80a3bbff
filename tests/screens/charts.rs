//! Turning through charts and the season's parts by keys; the causes to check on a bench's page.

use crate::desk::{COLOR, Desk};
use crate::season;
use benchwalk::model::Effect;

fn shows(desk: &Desk, pieces: &[&str]) {
    let text = desk.text();
    for piece in pieces {
        assert!(text.contains(piece), "no {piece:?} in\n{text}");
    }
}

#[test]
fn charts_are_stepped_through_round_and_round() {
    let mut desk = Desk::new();
    desk.keys("{Enter}c");
    shows(&desk, &["chart 1 of 9: height", "full season, Aug 17 to Nov 27", "top of window", "expected"]);
    desk.keys("{Tab}");
    shows(&desk, &["chart 2 of 9: water", "wet at 4 and up", "watered"]);
    desk.keys("{Shift-Tab}{Shift-Tab}");
    shows(&desk, &["chart 9 of 9: climate", "No day of a climate logger yet"]);
    desk.keys("j");
    shows(&desk, &["chart 1 of 9: height"]);
    desk.keys("c");
    shows(&desk, &["house East", "base"]);
    desk.keys("c{Esc}");
    shows(&desk, &["house East", "base"]);
}

#[test]
fn time_goes_back_to_the_planting_and_on_to_today() {
    let mut desk = Desk::new();
    desk.keys("{Enter}c{Tab}z");
    shows(&desk, &["3 weeks, Sep 22 to Oct 12", "as known on Oct 12", "Last 2 on Oct 11"]);
    desk.keys(",");
    shows(&desk, &["3 weeks, Sep 15 to Oct 5", "as known on Oct 5", "Last 4 on Oct 5"]);
    desk.keys("..");
    shows(&desk, &["as known on Oct 12", "nothing later"]);
    desk.keys(&",".repeat(20));
    shows(&desk, &["Nothing was planted before this."]);
    desk.keys("{End}z");
    shows(&desk, &["full season, Aug 17 to Nov 27", "as known on Oct 12"]);
}

#[test]
fn the_next_bench_comes_in_the_same_view() {
    let mut desk = Desk::new();
    desk.keys("{Enter}c{Tab}z{Right}");
    shows(&desk, &["Bench E2", "chart 2 of 9: water", "3 weeks"]);
}

#[test]
fn two_charts_stand_on_a_large_screen() {
    let mut desk = Desk::with(&season::journal(), COLOR, (120, 40));
    desk.keys("{Enter}c");
    shows(&desk, &["E1 height, lot L1 (in)", "E1 water, lot L1 (1 dry to 5 soaked)"]);
}

#[test]
fn one_key_leads_to_the_season_and_one_back() {
    let mut desk = Desk::new();
    desk.keys("s");
    shows(&desk, &["Season  calendar", "planting", "done Aug 17", "short days", "# done"]);
    desk.keys("{Tab}");
    shows(&desk, &["Season  nights", "critical night 11.7 h", "(sunset to sunrise)", "(civil twilight)"]);
    desk.keys("{Tab}");
    shows(&desk, &["Season  pots", "placed", "L2"]);
    desk.keys("{Esc}");
    shows(&desk, &["walked 0 of"]);
}

#[test]
fn the_season_is_written_as_a_file() {
    let mut desk = Desk::new();
    desk.keys("sh");
    shows(&desk, &["Report of the season", "such as season.html"]);
    desk.keys("{Enter}");
    shows(&desk, &["type the path of a new file"]);
    desk.keys("s.html{Enter}");
    let [Effect::WriteFile(path, html)] = desk.outside.as_slice() else { panic!("{:?}", desk.outside) };
    assert!(path == "s.html" && html.starts_with("<!DOCTYPE html>") && html.contains("Calendar of lot L1"), "{html}");
}

#[test]
fn what_is_written_changes_the_charts() {
    let mut desk = Desk::new();
    desk.keys("w5{Esc}{Home}{Enter}c{Tab}");
    shows(&desk, &["Last 5 on Oct 12"]);
}

#[test]
fn causes_to_check_are_possibilities_with_how_to_confirm_them() {
    let sick = r#"{"type":"entry","at":"2026-10-11T07:20:00-04:00","by":"kt","bench":"E2","kind":"roots","score":4,"signs":["sleeve-off"]}
{"type":"entry","at":"2026-10-11T07:21:00-04:00","by":"kt","bench":"E2","kind":"leaves","signs":["wilted","lower-yellow"],"where":"old"}
"#;
    let mut desk = Desk::with(&(season::journal() + sick), COLOR, (100, 90));
    desk.keys("j{Enter}");
    shows(
        &desk,
        &[
            "Causes to check, the most likely first (possibilities, not a diagnosis)",
            "1  Pythium root rot",
            "seen     ",
            "the outer sleeve of roots slides off",
            "confirm  pull a root",
            "or       Phytophthora",
        ],
    );
    // A bench on which nothing points anywhere has no such list.
    desk.keys("{Left}");
    assert!(!desk.text().contains("Causes to check"), "{}", desk.text());
}

#[test]
fn growth_regulators_are_marked_on_the_axis_and_in_the_calendar() {
    let sprayed = r#"{"type":"entry","at":"2026-09-10T18:00:00-04:00","by":"kt","bench":"E1","kind":"growth-regulator","parts":[{"ai":"chlormequat","ppm":1000}],"how":"spray","rei_h":12}
"#;
    let mut desk = Desk::with(&(season::journal() + sprayed), COLOR, (80, 24));
    desk.keys("{Enter}c");
    // The pinch has a sign of its own beside it.
    shows(&desk, &["^ growth regulator", "* pinched", "*──────^"]);
    desk.resize(140, 40).keys("rs");
    shows(&desk, &["applied, last Sep 10"]);
}
