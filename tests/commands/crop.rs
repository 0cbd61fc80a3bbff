//! The commands that calculate: night, calendar, climate.

use crate::{Laptop, SMALL, arg};

const NIGHT: &[&str] = &["night", "--at", "44.10,-70.21", "--zone", "America/New_York"];
const CALENDAR: &[&str] = &["calendar", "--response", "9.5"];

/// One command with more arguments.
fn with<'a>(base: &[&'a str], more: &[&'a str]) -> Vec<&'a str> {
    base.iter().chain(more).copied().collect()
}

fn json(laptop: &Laptop, arguments: &[&str]) -> serde_json::Value {
    serde_json::from_str(&laptop.done(&with(arguments, &["--format", "json"]))).unwrap()
}

#[test]
fn a_night_is_told_with_both_ways_of_counting() {
    let laptop = Laptop::new();
    insta::assert_snapshot!("crop-night", laptop.done(&with(NIGHT, &["--on", "2026-10-12", "--missed", "3"])));
    let night = json(&laptop, &with(NIGHT, &["--on", "2026-10-12", "--missed", "1"]));
    assert_eq!(night["short_days"]["sunset_to_sunrise"], "2026-09-19");
    assert_eq!(night["sun"]["night_begins"].as_str().unwrap().get(..14), Some("2026-10-12T18:"));
    assert_eq!(night["missed_nights"]["delay_days"], serde_json::json!([1, 2]));
    assert_eq!(night["on"], "2026-10-12");
    assert_eq!(json(&laptop, NIGHT)["on"], "2026-10-12", "without --on it is today there");
}

#[test]
fn polar_nights_are_told_in_words() {
    let laptop = Laptop::new();
    let far = |day| laptop.done(&["night", "--at", "70N,25E", "--on", day]);
    assert!(far("2026-12-20").contains("no day: the sun does not come up"), "{}", far("2026-12-20"));
    assert!(far("2026-06-20").contains("no night: the sun does not go down"), "{}", far("2026-06-20"));
}

#[test]
fn the_limits_file_picks_the_way_of_counting() {
    let laptop = Laptop::new();
    let limits = laptop.file("mine.toml", "[choices]\nnight = \"civil-twilight\"\n");
    let text = laptop.done(&with(NIGHT, &["--on", "2026-10-12", "--limits", arg(&limits)]));
    assert!(
        text.contains("Short days start Thu Oct 8, 2026: first night of 11 h 40 min, civil dusk to dawn"),
        "{text}"
    );
}

#[test]
fn the_season_gives_the_place_the_zone_and_the_units() {
    let laptop = Laptop::new();
    let metric = SMALL.replace("\"units\":\"us\"", "\"units\":\"metric\"");
    laptop.done(&["import", arg(&laptop.file("small.jsonl", &metric))]);
    assert!(laptop.done(&["night"]).starts_with("Night of Mon Oct 12, 2026 at 44.10, -70.21 (America/New_York)\n"));
    assert!(laptop.done(&["climate", "--air", "20", "--humidity", "70"]).starts_with("Air at 20.0 °C (68.0 °F)"));
    assert!(laptop.done(&with(CALENDAR, &["--planted", "2026-08-17"])).contains("short days start       Sep 19"));
    let said = laptop.run(&["night", "--season", "nowhere.db"]);
    assert_eq!(said.code, 1, "a file that was named must be there: {said:?}");
}

#[test]
fn a_damaged_season_file_is_no_hindrance_to_reckoning() {
    let laptop = Laptop::new();
    laptop.file("data/season.db", "not a season");
    assert!(laptop.done(&["climate", "--air", "68F", "--humidity", "70"]).starts_with("Air at 68.0 °F (20.0 °C)"));
}

#[test]
fn a_calendar_goes_back_and_forward() {
    let laptop = Laptop::new();
    let back = json(&laptop, &with(CALENDAR, &["--ready-by", "2026-11-27", "--rim", "6.5in", "--pots", "1000"]));
    assert_eq!(back["back"]["short_days"], "2026-09-21");
    assert_eq!((&back["order"]["cuttings"], &back["back"]["pinch"]), (&1_050.into(), &"2026-08-24".into()));
    assert!((back["room"]["centers_cm"].as_f64().unwrap() - 30.48).abs() < 1e-9);
    let planted = with(CALENDAR, &["--planted", "2026-08-17", "--ready-by", "2026-11-27", "--at", "44.10,-70.21"]);
    let seen = with(&planted, &["--mean", "65F", "--seen", "2026-11-02=1", "--seen", "2026-11-09=2"]);
    insta::assert_snapshot!("crop-calendar-seen", laptop.done(&seen));
    let lit = json(&laptop, &with(&planted, &["--lights-until", "2026-10-04"]));
    assert_eq!(lit["forward"]["short_days"], "2026-10-05");
    let covered = with(CALENDAR, &["--planted", "2026-08-17", "--blackout-from", "2026-09-10"]);
    assert_eq!(json(&laptop, &covered)["forward"]["short_days"], "2026-09-10", "cloth needs no place");
}

#[test]
fn climate_answers_what_was_asked() {
    let laptop = Laptop::new();
    let asked = [
        "climate",
        "--air",
        "18C",
        "--humidity",
        "95%",
        "--leaf",
        "16C",
        "--day",
        "64F",
        "--night",
        "70F",
        "--meter",
        "2000fc",
        "--light-hours",
        "10",
        "--radiation",
        "10MJ",
        "--let-through",
        "60%",
    ];
    insta::assert_snapshot!("crop-climate", laptop.done(&asked));
    let answer = json(&laptop, &["climate", "--ppfd", "200", "--light-hours", "12h"]);
    assert!((answer["light"]["mol_m2_d"][1].as_f64().unwrap() - 8.64).abs() < 1e-9);
    assert!(answer.get("air").is_none(), "what was not asked for is left out");
}

#[test]
fn answers_fit_a_narrow_screen() {
    let laptop = Laptop::new();
    let lot = ["--planted", "2026-08-17", "--ready-by", "2026-11-27", "--rim", "8in", "--pots", "9000"];
    let planted = with(CALENDAR, &lot);
    let sun = ["climate", "--meter", "5000fc", "--light-hours", "12", "--radiation", "12.5", "--let-through", "62.5%"];
    let air = ["climate", "--air", "18C", "--humidity", "95%", "--leaf", "16C", "--day", "64F", "--night", "64F"];
    for arguments in [
        with(NIGHT, &["--missed", "30"]),
        with(&planted, &["--at", "44.1,-70.2"]),
        with(&planted, &["--at", "44.1,-70.2", "--mean", "60F"]),
        with(&planted, &["--at", "44.1,-70.2", "--mean", "80F"]),
        with(&planted, &["--at", "44.1,-70.2", "--mean", "65F"]),
        with(&planted, &["--at", "5,-70.2"]),
        sun.to_vec(),
        air.to_vec(),
    ] {
        for line in laptop.done(&arguments).lines() {
            assert!(line.chars().count() <= 80, "{arguments:?}: {line}");
        }
    }
}

/// Arguments that are refused, with the exit code 2 and the reason.
#[test]
fn impossible_values_and_unknown_units_are_refused_with_the_reason() {
    let laptop = Laptop::new();
    let mut all = String::new();
    let refused: &[&[&str]] = &[
        &["climate", "--air", "68F", "--humidity", "120%"],
        &["climate", "--air", "68F", "--humidity", "-1"],
        &["climate", "--air", "68K", "--humidity", "80"],
        &["climate", "--air", "680F", "--humidity", "80"],
        &["climate", "--air", "68F", "--humidity", "80 grains"],
        &["climate", "--day", "70F", "--night", "60F", "--day-hours", "25"],
        &["climate", "--ppfd", "-5"],
        &["climate", "--ppfd", "99999"],
        &["climate", "--meter", "10 candles"],
        &["climate", "--light-hours", "10"],
        &["climate", "--radiation", "10", "--let-through", "150%"],
        &["climate", "--radiation", "500"],
        &["climate"],
        &["night"],
        &["night", "--at", "44.10"],
        &["night", "--at", "97,0"],
        &["night", "--at", "44.1N,270W"],
        &["night", "--at", "44,-70", "--zone", "Maine"],
        &["night", "--at", "44,-70", "--reach", "long"],
        &["night", "--at", "44,-70", "--reach", "30h"],
        &["calendar", "--ready-by", "2026-11-27", "--response", "0"],
        &["calendar", "--ready-by", "2026-11-27", "--response", "9 moons"],
        &["calendar", "--ready-by", "2026-11-27", "--response", "9", "--unpinched"],
        &["calendar", "--ready-by", "2026-11-27", "--response", "9", "--pinch-weeks", "-2"],
        &["calendar", "--ready-by", "2026-11-27", "--response", "9", "--rim", "6 hands"],
        &["calendar", "--ready-by", "2026-11-27", "--response", "9", "--rim", "6in", "--pots", "0"],
        &["calendar", "--ready-by", "2026-11-27", "--response", "9", "--rim", "6in", "--pots", "9", "--spare", "200"],
        &["calendar", "--ready-by", "2026-11-27", "--response", "9", "--pots", "9", "--centers", "0"],
        &["calendar", "--planted", "2026-08-17", "--response", "9"],
        &["calendar", "--planted", "2026-08-17", "--response", "9", "--at", "44,-70", "--seen", "2026-11-02=9"],
        &["calendar", "--planted", "2026-08-17", "--response", "9", "--at", "44,-70", "--mean", "warm"],
        &["calendar", "--planted", "2026-08-17", "--response", "9", "--at", "44,-70", "--pinched-on", "2026-08-01"],
    ];
    for arguments in refused {
        let said = laptop.run(arguments);
        assert_eq!((said.code, said.out.as_str()), (2, ""), "{arguments:?}: {said:?}");
        all += &format!("$ {}\n{}", arguments.join(" "), said.err);
    }
    insta::assert_snapshot!("crop-refused", all);
}

#[test]
fn a_trial_is_planned_by_what_matters_and_by_the_growers_own_spread() {
    let laptop = Laptop::new();
    let plan = ["trial", "plan", "--treatments", "4", "--matters", "1in", "--sd", "0.6in"];
    insta::assert_snapshot!("crop-trial-plan", laptop.done(&plan));
    let answer = json(&laptop, &with(&plan, &["--compare", "control"]));
    assert!(answer["offered_blocks"].as_u64() < json(&laptop, &plan)["offered_blocks"].as_u64());
    let said = laptop.run(&["trial", "plan", "--treatments", "4", "--matters", "1in", "--sd", "0.6"]);
    assert_eq!(said.code, 2);
    assert!(said.err.contains("--sd: '0.6' is in another unit than --matters '1in'; give both in one"), "{}", said.err);
    let said = laptop.run(&["trial", "plan", "--treatments", "4", "--matters", "0", "--sd", "0.6"]);
    assert!(said.err.contains("--matters: '0' is not above zero"), "{}", said.err);
}

#[test]
fn a_trial_is_planned_by_the_growers_own_limits() {
    let laptop = Laptop::new();
    laptop.file("config/limits.toml", "[trial]\nalpha = 0.1\npower = 0.93\ngood_error_df = 60\n");
    let text = laptop.done(&["trial", "plan", "--treatments", "4", "--matters", "1in", "--sd", "0.6in"]);
    for said in ["found 93 times in 100", "leave 60 degrees of freedom: 84 plots", "At most 1 in 10 trials"] {
        assert!(text.contains(said), "{said}: {text}");
    }
}
