//! The end of a season, and the start of the next: what is printed, what is written, and that the season stays as it is.

use crate::{Laptop, arg};
use benchwalk::limits::Limits;
use rusqlite::Connection;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// A short season that ended: two lots, orders met late and not at all, losses, a grading, walked rounds.
const ENDED: &str = r#"{"type":"journal","version":2}
{"type":"site","name":"Thistlecot","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"R6","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":160,"planted":"2026-08-17","pinch":"soft","response_weeks":9,"nights":"natural","ready_by":"2026-11-24","next_release_g":2.5,"next_release_basis":"trial T1"}
{"type":"lot","lot":"L1","cultivar":"white","container":"6.5 in","cuttings_per_pot":1,"pots":80,"planted":"2026-08-19","pinch":"soft","response_weeks":8,"nights":"blackout","blackout_from":"2026-09-25","ready_by":"2026-11-20","feed_n_ppm":200}
{"type":"bench","bench":"E1","house":"East","order":1}
{"type":"bench","bench":"E2","house":"East","order":2}
{"type":"bench","bench":"E3","house":"East","order":3}
{"type":"placement","bench":"E1","lot":"R6","pots":80,"from":"2026-08-17"}
{"type":"placement","bench":"E2","lot":"R6","pots":80,"from":"2026-08-17"}
{"type":"placement","bench":"E3","lot":"L1","pots":80,"from":"2026-08-19"}
{"type":"order","lot":"R6","date":"2026-11-24","pots":100}
{"type":"order","lot":"R6","date":"2026-12-01","pots":60}
{"type":"order","lot":"L1","date":"2026-11-20","pots":70}
{"type":"entry","at":"2026-09-07T07:00:00-04:00","by":"kt","bench":"E1","kind":"water","level":3}
{"type":"entry","at":"2026-09-07T07:01:00-04:00","by":"kt","bench":"E2","kind":"water","level":3}
{"type":"entry","at":"2026-09-07T07:02:00-04:00","by":"kt","bench":"E3","kind":"water","level":3}
{"type":"entry","at":"2026-09-08T07:00:00-04:00","by":"kt","bench":"E1","kind":"water","level":3}
{"type":"entry","at":"2026-09-08T07:00:30-04:00","by":"kt","bench":"E2","kind":"water","level":3}
{"type":"entry","at":"2026-09-08T07:20:00-04:00","by":"kt","bench":"E3","kind":"water","level":3}
{"type":"entry","at":"2026-09-09T12:00:00-04:00","by":"kt","bench":"E1","kind":"water","level":3}
{"type":"entry","at":"2026-09-09T12:00:00-04:00","by":"kt","bench":"E2","kind":"water","level":3}
{"type":"entry","at":"2026-09-10T09:00:00-04:00","by":"kt","bench":"E1","kind":"growth-regulator","parts":[{"ai":"paclobutrazol","ppm":2}],"how":"drench","rei_h":12,"ml_per_pot":100,"product":"as labeled","amount_used":"4 fl oz"}
{"type":"entry","at":"2026-09-10T09:00:00-04:00","by":"kt","bench":"E2","kind":"growth-regulator","parts":[{"ai":"paclobutrazol","ppm":2}],"how":"drench","rei_h":12,"ml_per_pot":100,"product":"as labeled","amount_used":"4 fl oz"}
{"type":"entry","at":"2026-09-20T09:00:00-04:00","by":"kt","bench":"E1","kind":"growth-regulator","parts":[{"ai":"paclobutrazol","ppm":1}],"how":"drench","rei_h":12,"product":"as labeled","amount_used":"a little"}
{"type":"entry","at":"2026-09-11T09:00:00-04:00","by":"kt","lot":"R6","kind":"fed","n_ppm":250,"ml_per_pot":200}
{"type":"entry","at":"2026-09-12T09:00:00-04:00","by":"kt","lot":"R6","kind":"fed","n_ppm":250}
{"type":"entry","at":"2026-09-13T09:00:00-04:00","by":"kt","bench":"E3","kind":"watered","ml_per_pot":250}
{"type":"entry","at":"2026-09-22T08:20:00-04:00","by":"kt","bench":"E1","kind":"losses","pots":3,"cause":"Root rot"}
{"type":"entry","at":"2026-09-29T08:20:00-04:00","by":"kt","bench":"E2","kind":"losses","pots":2,"cause":"root  rot"}
{"type":"entry","at":"2026-09-30T08:20:00-04:00","by":"kt","bench":"E3","kind":"losses","pots":1}
{"type":"entry","at":"2026-11-18T08:00:00-05:00","by":"kt","bench":"E3","kind":"grade","sell":70,"second":5,"dump":4}
{"type":"entry","at":"2026-11-20T09:00:00-05:00","by":"kt","bench":"E3","kind":"sold","pots":60}
{"type":"entry","at":"2026-11-24T09:00:00-05:00","by":"kt","bench":"E1","kind":"sold","pots":77}
{"type":"entry","at":"2026-11-27T09:00:00-05:00","by":"kt","bench":"E2","kind":"sold","pots":40}
{"type":"entry","at":"2026-12-02T09:00:00-05:00","by":"kt","bench":"E2","kind":"counted","pots":30}
"#;

const ON: [&str; 2] = ["--on", "2026-12-05"];

fn ended() -> Laptop {
    let laptop = Laptop::new();
    laptop.done(&["import", arg(&laptop.file("ended.jsonl", ENDED))]);
    laptop
}

/// Rows of each table, and the bytes of the file.
fn held(path: &Path) -> (BTreeMap<String, i64>, Vec<u8>) {
    let file = Connection::open_with_flags(path, rusqlite::OpenFlags::SQLITE_OPEN_READ_ONLY).unwrap();
    let mut names = file.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").unwrap();
    let names: Vec<String> = names.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect();
    let many =
        |name: &String| file.query_row(&format!("SELECT count(*) FROM \"{name}\""), [], |row| row.get(0)).unwrap();
    (names.iter().map(|name| (name.clone(), many(name))).collect(), fs::read(path).unwrap())
}

#[test]
fn the_season_ends_in_figures_that_the_record_says() {
    let laptop = ended();
    let text = laptop.done(&["close", ON[0], ON[1]]);
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    insta::assert_snapshot!("close", text);
}

#[test]
fn closing_writes_nothing_into_the_season() {
    let laptop = ended();
    let season = laptop.path("data/season.db");
    let before = held(&season);
    assert!(before.0["entry"] > 0, "{:?}", before.0);
    for format in ["text", "json", "html"] {
        laptop.done(&["close", "--format", format, ON[0], ON[1]]);
    }
    let folder = laptop.path("next");
    laptop.done(&["close", "--next", arg(&folder), "--orders", ON[0], ON[1]]);
    assert!(held(&season) == before, "the file's bytes and rows are the same");
}

#[test]
fn the_json_has_the_figures_and_says_what_could_not_be_summed() {
    let laptop = ended();
    let json: serde_json::Value =
        serde_json::from_str(&laptop.done(&["close", "--format", "json", ON[0], ON[1]])).unwrap();
    // 2 ppm of 100 mL on 160 pots: 0.032 g; the treatment without an amount is not in it.
    let drench = &json["materials"]["regulators"][0];
    assert!((drench["grams"][0]["grams"].as_f64().unwrap() - 0.032).abs() < 1e-9, "{drench}");
    assert_eq!((drench["times"].as_u64(), drench["without_amount"].as_u64()), (Some(3), Some(1)));
    // The form writes the amount of a treatment into the entry of each bench: it is one amount.
    let product = &json["materials"]["products"][0];
    assert_eq!(product["treatments"], 2);
    assert!((product["used"]["fl oz"].as_f64().unwrap() - 4.0).abs() < 1e-9, "{product}");
    assert_eq!(product["not_summed"][0], "a little");
    // Two benches in 2 min and one in 30 s; the way after the pause and the two typed at noon do not count.
    assert!((json["benches_a_minute"].as_f64().unwrap() - 3.0 / 2.5).abs() < 1e-9, "{}", json["labor"]);
    assert_eq!((json["labor"]["typed_together"].as_u64(), json["pause_over_min"].as_u64()), (Some(2), Some(5)));
    let lot = |code: &str| {
        let lots = json["lots"].as_array().unwrap();
        lots.iter().find(|lot| lot["lot"] == code).unwrap().clone()
    };
    let (red, white) = (lot("R6"), lot("L1"));
    let order = |of: &serde_json::Value| (of["on_time"].as_u64(), of["late"].as_u64(), of["last"].clone());
    assert_eq!(order(&red["orders"][0]), (Some(77), Some(23), "2026-11-27".into()));
    assert_eq!(order(&red["orders"][1]), (Some(17), Some(0), "2026-11-27".into()));
    assert_eq!(white["orders"][0]["on_time"], 60);
    assert_eq!(red["not_accounted"], 8, "the count found fewer than the record says");
    assert_eq!(json["losses"][0]["pots"], 5, "causes are one whatever their capitals and blanks");
    assert_eq!(json["losses"][1]["cause"], serde_json::Value::Null);
}

#[test]
fn the_next_season_starts_from_the_plan_of_this_one() {
    let laptop = ended();
    let limits = laptop.file("own.toml", "[water]\ngrown_act = 6\n");
    let folder = laptop.path("next");
    let said = laptop.done(&["close", "--next", arg(&folder), "--limits", arg(&limits), ON[0], ON[1]]);
    assert!(said.contains("Lot R6: planted Mon Aug 16, 2027, ready Tue Nov 23, 2027 (52 weeks on)."), "{said}");
    assert!(said.contains("Lot L1: planted Wed Aug 18, 2027, ready Fri Nov 19, 2027 (52 weeks on)."), "{said}");
    let plan = folder.join("plan.jsonl");
    let new = laptop.path("new.db");
    laptop.done(&["import", arg(&plan), "--season", arg(&new)]);
    let export = laptop.done(&["export", "--season", arg(&new)]);
    for there in [
        r#""lot":"R6","cultivar":"mid red""#,
        r#""ready_by":"2027-11-23","slow_release_g":2.5,"#,
        r#""blackout_from":"2027-09-24""#,
        r#"{"type":"placement","bench":"E3","lot":"L1","pots":80,"from":"2027-08-18""#,
    ] {
        assert!(export.contains(there), "{there}: {export}");
    }
    assert!(
        !export.contains("next_release") && !export.contains("\"order\",") && !export.contains("\"entry\""),
        "{export}"
    );
    // Another season with ids of its own, which this one does not take.
    let own = laptop.done(&["export"]);
    let season = |text: &str| text.lines().next().unwrap().split("\"season\":\"").nth(1).unwrap()[..36].to_owned();
    assert_ne!(season(&own), season(&export));
    let kept = Limits::parse(&fs::read_to_string(folder.join("limits.toml")).unwrap()).unwrap();
    assert_eq!(kept, Limits::parse("[water]\ngrown_act = 6\n").unwrap());
    assert!(
        fs::read_to_string(folder.join("limits.toml"))
            .unwrap()
            .contains("# Lot R6: 2.5 g of slow-release per pot next season (trial T1).")
    );
    laptop.done(&["season", "--season", arg(&new)]);
    // Nothing is ever written over.
    let again = laptop.run(&["close", "--next", arg(&folder), "--weeks", "53", ON[0], ON[1]]);
    assert!(again.code == 1 && again.err.contains("already exists"), "{again:?}");
}

#[test]
fn a_new_sale_date_moves_its_lot_by_days_and_says_what_the_nights_need() {
    let laptop = ended();
    let folder = laptop.path("next");
    let said = laptop.done(&["close", "--next", arg(&folder), "--ready", "R6=2027-11-18", "--orders", ON[0], ON[1]]);
    assert!(said.contains("Lot R6: planted Wed Aug 11, 2027, ready Thu Nov 18, 2027 (359 days on)."), "{said}");
    assert!(said.contains("Short days must begin Sep 16; as planned they begin"), "{said}");
    let plan = fs::read_to_string(folder.join("plan.jsonl")).unwrap();
    assert!(plan.contains(r#"{"type":"order","lot":"R6","date":"2027-11-18","pots":100"#), "{plan}");
    for (typed, wanted) in [
        ("R7=2027-11-18", "there is no lot 'R7'; lots: L1, R6"),
        ("R6", "'R6' is not a lot and its new sale date, such as R6=2027-11-23"),
        ("R6=soon", "--ready"),
    ] {
        let said = laptop.run(&["close", "--next", arg(&laptop.path("none")), "--ready", typed]);
        assert!(said.code == 2 && said.err.contains(wanted), "{typed}: {said:?}");
    }
    assert!(!laptop.path("none").exists());
}

#[test]
fn a_second_lot_on_a_bench_is_left_out_of_the_next_plan_and_said() {
    let laptop = ended();
    let second = r#"{"type":"journal","version":2}
{"type":"lot","lot":"R8","cultivar":"early red","container":"5 in","cuttings_per_pot":1,"pots":20,"planted":"2026-08-25","pinch":"soft","response_weeks":8.5,"nights":"natural","ready_by":"2026-12-20"}
{"type":"placement","bench":"E1","lot":"R8","pots":20,"from":"2026-11-25"}
"#;
    laptop.done(&["import", arg(&laptop.file("second.jsonl", second))]);
    let folder = laptop.path("next");
    let said = laptop.done(&["close", "--next", arg(&folder), ON[0], ON[1]]);
    assert!(said.contains("Left out: lot R8 on bench E1 from Nov 24:"), "{said}");
    laptop.done(&["import", arg(&folder.join("plan.jsonl")), "--season", arg(&laptop.path("new.db"))]);
}
