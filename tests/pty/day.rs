//! A whole day in the real program: walk, warning, mix, treat, keep-out, evening, and the two mornings after it.

use crate::terminal::{Pty, is_round, query};
use benchwalk::clock::{Clock, Real};
use chrono::Timelike;

/// The day, its morning after, and the one after that.
const DAYS: [&str; 3] = ["2026-09-28", "2026-09-29", "2026-09-30"];

/// Typed as from a label. Past the next morning's walk, over before the one after: at any time of day.
const RE_ENTRY: &str = "26";

/// Every check of a bench with the keys that answer it; `TALL` and `IN` stand for heights above the window and in it.
const CHECKS: [(&str, &str); 6] =
    [("water", "3"), ("base", "2"), ("roots", "0"), ("bracts", "1"), ("whitefly", "0"), ("heights", "")];
const TALL: &str = "12 12.2 11.9 12.1\r";
const IN: &str = "9 9.1 8.9 9\r";

/// A zone where it is ten in the morning or soon after: the program takes the time of day from the clock, and no midnight
/// comes between two starts.
fn zone_in_the_forenoon() -> String {
    let utc_hour = i64::from(Real.now().hour());
    let ahead = (10 - utc_hour).max(-12);
    // These zones are named the other way about: Etc/GMT+5 is five hours behind.
    if ahead > 0 { format!("Etc/GMT-{ahead}") } else { format!("Etc/GMT+{}", -ahead) }
}

/// Three benches of one lot, pinched, fed and never treated.
fn journal() -> String {
    let zone = zone_in_the_forenoon();
    let mut lines = vec![
        r#"{"type":"journal","version":1}"#.to_owned(),
        format!(
            r#"{{"type":"site","name":"Thistlecot","latitude":44.1,"longitude":-70.2,"time_zone":"{zone}","units":"us","no_temperature":true}}"#
        ),
        concat!(
            r#"{"type":"lot","lot":"L1","cultivar":"mid red","container":"6.5 in","rim_cm":16.5,"pot_height_cm":11.4,"#,
            r#""cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9,"nights":"natural","#,
            r#""height_low_cm":35.6,"height_high_cm":40.6,"ready_by":"2026-11-27","slow_release_g":4}"#
        )
        .to_owned(),
        r#"{"type":"entry","at":"2026-08-31T12:00:00Z","by":"kt","lot":"L1","kind":"pinched","how":"soft","nodes_left":6}"#
            .to_owned(),
    ];
    for (order, bench) in ["E1", "E2", "E3"].into_iter().enumerate() {
        lines.push(format!(r#"{{"type":"bench","bench":"{bench}","house":"East","order":{order},"area_m2":12}}"#));
        lines.push(format!(r#"{{"type":"placement","bench":"{bench}","lot":"L1","pots":80,"from":"2026-08-17"}}"#));
    }
    lines.join("\n")
}

/// Answers every check of a bench, each only when it is the one asked.
fn walk(pty: &mut Pty, bench: &str, heights: &str) {
    for (check, keys) in CHECKS {
        pty.wait(&format!("{bench} {check}"), |text| {
            text.starts_with(&format!("Walk  {bench} ")) && text.contains(&format!("[{check} _]"))
        });
        pty.send(if check == "heights" { heights } else { keys });
    }
}

fn leave(mut pty: Pty) {
    pty.send("\u{11}");
    assert_eq!(pty.ended().0.exit_code(), 0);
}

/// The season of the first day, opened on another.
fn morning(season: &str, day: &str) -> Pty {
    let mut pty = Pty::start(&["--season", season, "--on", day, "--by", "me"]);
    pty.wait("the Round", is_round);
    pty
}

#[test]
fn a_day_with_a_treatment_and_the_two_mornings_after() {
    let mut pty = Pty::start(&["--season", "own.db", "--on", DAYS[0], "--by", "me"]);
    pty.wait("the first-run page", |text| text.contains("There is no season file yet."));
    std::fs::write(pty.path("own.jsonl"), journal()).unwrap();
    pty.send("i");
    pty.wait("the question", |text| text.contains("The path of the file"));
    pty.send("own.jsonl\r");
    pty.wait("the Round", |text| text.contains("walked 0 of 3") && is_round(text));
    pty.send("w");
    walk(&mut pty, "E1", TALL);
    walk(&mut pty, "E2", TALL);
    walk(&mut pty, "E3", IN);
    pty.wait("the round is done", |text| text.starts_with("Round") && text.contains("walked 3 of 3"));
    the_evening(&mut pty);
    let file = pty.path("own.db");
    let season = file.to_str().unwrap();

    // The next morning two benches are closed: they are no part of the round and the walk passes them.
    let mut next = morning(season, DAYS[1]);
    next.wait("two benches closed", |text| text.contains("walked 0 of 1; 2 closed, not counted"));
    next.send("w");
    next.wait("the only open bench", |text| text.starts_with("Walk  E3 ") && text.contains("[water _]"));
    next.send("2");
    next.wait("the round is done without them", |text| {
        text.starts_with("Round") && text.contains("walked 1 of 1; 2 closed, not counted")
    });
    leave(next);

    // The morning after that the interval is over: they are walked again.
    let mut after = morning(season, DAYS[2]);
    after.wait("all open", |text| text.contains("walked 0 of 3") && !text.contains("closed"));
    after.send("w");
    after.wait("the first bench again", |text| text.starts_with("Walk  E1 ") && text.contains("[water _]"));
    after.send("3");
    after.wait("saved", |text| text.contains("saved: E1 water 3"));
    leave(after);

    let treated = query(&file, "SELECT bench FROM growth_regulator ORDER BY bench");
    assert_eq!(treated, ["E1", "E2"]);
    let water = query(&file, "SELECT DISTINCT day, bench, level FROM water ORDER BY day, bench");
    assert_eq!(water, ["2026-09-28 E1 3", "2026-09-28 E2 3", "2026-09-28 E3 3", "2026-09-29 E3 2", "2026-09-30 E1 3"]);
}

/// From the warning to the treated benches, and the program left.
fn the_evening(pty: &mut Pty) {
    pty.send("e");
    pty.wait("the warning", |text| {
        text.contains("Tomorrow") && text.contains("L1 (E1 E2; 160 pots)") && text.contains("too tall")
    });
    pty.send("i");
    pty.wait("the Mixing page", |text| text.starts_with("Mixing") && text.contains("E1 E2 "));
    pty.send("paclobutrazol\t4 g/L\t0.1");
    pty.wait("what to measure out", |text| text.contains("measure out") && text.contains("160 pots"));
    pty.send("\r");
    pty.wait("the form", |text| text.contains("REI, hours*"));
    // Nothing is supplied: without the hours from the label it is not written. The same key at once would be one held down.
    pty.send("x");
    pty.wait("a slip", |text| text.contains("> x"));
    pty.send("\u{7f}\r");
    pty.wait("the hours asked for", |text| text.contains("REI, hours is missing"));
    assert_eq!(query(&pty.path("own.db"), "SELECT count(*) FROM growth_regulator"), ["0"]);
    pty.send(RE_ENTRY);
    // Nor is the end of the application left to the clock: the word is typed.
    pty.send("\r");
    pty.wait("the end asked for", |text| text.contains("ended at is missing"));
    pty.send("now\r");
    pty.wait("closed on the Mixing page", |text| text.contains("CLOSED: E1 E2") && text.contains("saved:"));
    pty.send("\u{1b}");
    pty.wait("closed in the review", |text| {
        text.starts_with("Evening review") && text.contains("closed") && text.contains("follow the posted sign")
    });
    pty.send("r");
    let round = pty.wait("closed in the Round", |text| text.starts_with("Round") && text.contains("closed to Sep 29"));
    let shut = |bench: &str| round.lines().any(|l| l.contains(&format!(" {bench} ")) && l.contains("closed to Sep 29"));
    assert!(shut("E1") && shut("E2") && !shut("E3"), "{round}");
    pty.send("\u{11}");
    assert_eq!(pty.ended().0.exit_code(), 0);
}
