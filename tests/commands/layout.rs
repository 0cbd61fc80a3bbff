//! A trial laid on paper before a pot is moved: drawn by a seed, imported, exported, printed as maps and labels.

use crate::{Laptop, arg};

const SEASON: &str = r#"{"type":"journal","version":2}
{"type":"site","name":"Quillby Rise","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"R6","cultivar":"red","container":"6 in pot","cuttings_per_pot":1,"pots":400,"planted":"2026-08-10","pinch":"soft","response_weeks":8,"nights":"natural","ready_by":"2026-12-01"}
{"type":"bench","bench":"M4","house":"Mill","order":1}
{"type":"bench","bench":"E1","house":"Orchard","order":2}
{"type":"placement","bench":"M4","lot":"R6","pots":200,"from":"2026-08-10"}
{"type":"placement","bench":"E1","lot":"R6","pots":200,"from":"2026-08-10"}
"#;

const LAYOUT: [&str; 18] = [
    "trial",
    "layout",
    "--trial",
    "T1",
    "--lot",
    "R6",
    "--rates",
    "0,4,8,12",
    "--blocks",
    "6",
    "--bench",
    "M4",
    "--grid",
    "6x4",
    "--seed",
    "48213907",
    "--from",
    "2026-09-07",
];

/// A laptop with a season of one lot on two benches in two houses.
fn with_season() -> Laptop {
    let laptop = Laptop::new();
    let journal = laptop.file("season.jsonl", SEASON);
    laptop.done(&["import", arg(&journal)]);
    laptop
}

#[test]
fn a_layout_is_drawn_imported_exported_and_imported_again_the_same() {
    let laptop = with_season();
    let more = ["--guard", "--near", "aisle", "--far", "wall", "--matters", "1in"];
    let lines = laptop.done(&[LAYOUT.as_slice(), more.as_slice()].concat());
    assert_eq!(lines.lines().filter(|line| line.contains(r#""type":"plot""#)).count(), 24);
    let seventh = lines.lines().find(|line| line.contains(r#""plot":"T1.6""#)).unwrap();
    for field in [r#""row":2,"column":3,"block":2"#, r#""treatment":"12 g""#] {
        assert!(seventh.contains(field), "{seventh}");
    }
    let journal = laptop.file("t1.jsonl", &lines);
    laptop.done(&["import", arg(&journal)]);
    let exported = laptop.done(&["export"]);
    for line in lines.lines().filter(|line| line.contains(r#""type":"plot""#)) {
        let plot = line.split('"').nth(7).unwrap();
        assert!(exported.contains(&format!(r#""plot":"{plot}""#)), "{line}\n{exported}");
    }
    // Imported into another season, and exported from there: the same text.
    let other = Laptop::new();
    let journal = other.file("all.jsonl", &exported);
    other.done(&["import", arg(&journal)]);
    let again = other.done(&["export"]);
    let records = |text: &str| {
        text.lines()
            .filter(|l| !l.contains(r#""type":"journal""#))
            .filter(|l| !l.contains(r#""type":"end""#))
            .map(str::to_owned)
            .collect::<Vec<_>>()
    };
    assert_eq!(records(&again), records(&exported));
    assert_eq!(records(&exported).iter().filter(|l| l.contains(r#""trial":"T1""#)).count(), 25);
}

#[test]
fn without_a_seed_one_is_drawn_and_shown_and_draws_the_same_again() {
    let laptop = with_season();
    let asked: Vec<&str> = LAYOUT.iter().copied().filter(|a| !["--seed", "48213907"].contains(a)).collect();
    let said = laptop.run(&asked);
    assert_eq!(said.code, 0, "{said:?}");
    let seed = said.err.split("--seed ").nth(1).unwrap().split(' ').next().unwrap();
    assert!(seed.len() == 8 && said.out.contains(&format!(r#""seed":"{seed}""#)), "{said:?}");
    let again = laptop.done(&[asked.as_slice(), &["--seed", seed]].concat());
    assert_eq!(again, said.out);
    assert_ne!(laptop.run(&asked).out, said.out, "another draw");
}

#[test]
fn two_houses_are_blocks_of_one_trial() {
    let laptop = with_season();
    let lines = laptop.done(&[
        "trial",
        "layout",
        "--trial",
        "T2",
        "--treatments",
        "peat,bark",
        "--lot",
        "R6",
        "--blocks",
        "4",
        "--bench",
        "M4 E1",
        "--grid",
        "2x2",
        "--differ",
        "houses",
        "--seed",
        "00000001",
        "--reads",
        "greenness,height",
    ]);
    for block in 1..=4 {
        let bench = if block < 3 { "M4" } else { "E1" };
        let own: Vec<&str> = lines.lines().filter(|l| l.contains(&format!(r#""block":{block}"#))).collect();
        assert!(own.len() == 2 && own.iter().all(|l| l.contains(&format!(r#""bench":"{bench}""#))), "{own:?}");
        assert!(own.iter().any(|l| l.contains("peat")) && own.iter().any(|l| l.contains("bark")), "{own:?}");
    }
    assert!(!lines.contains("rate") && lines.contains(r#""reads":["greenness","height"]"#), "{lines}");
}

#[test]
fn what_cannot_be_laid_is_refused_in_plots_and_places() {
    let laptop = with_season();
    let mut all = String::new();
    let with = |more: &[(&'static str, &'static str)]| -> Vec<&str> {
        let mut arguments = LAYOUT.to_vec();
        for (option, value) in more {
            match arguments.iter().position(|a| a == option) {
                Some(at) => arguments[at + 1] = value,
                None => arguments.extend([*option, *value]),
            }
        }
        arguments
    };
    for more in [
        &[("--grid", "5x4")][..],
        &[("--grid", "six")],
        &[("--blocks", "1")],
        &[("--bench", "M4,E1"), ("--grid", "3x3")],
        &[("--bench", "M9")],
        &[("--design", "latin-square")],
        &[("--design", "as-laid")],
        &[("--rates", "0,8,4,12")],
        &[("--seed", "42")],
        &[("--trial", "T.1")],
        &[("--treatments", "none,some")],
    ] {
        let said = laptop.run(&with(more));
        assert_eq!((said.code, said.out.as_str()), (2, ""), "{more:?}: {said:?}");
        all += &format!("{more:?}\n{}", said.err);
    }
    insta::assert_snapshot!("layout-refused", all);
}

#[test]
fn maps_and_labels_are_printed_and_readers_see_no_treatment() {
    let laptop = with_season();
    let lines = laptop.done(&[LAYOUT.as_slice(), ["--guard", "--near", "aisle", "--far", "wall"].as_slice()].concat());
    let journal = laptop.file("t1.jsonl", &lines);
    laptop.done(&["import", arg(&journal)]);
    let giving = laptop.done(&["trial", "T1", "--map"]);
    let reading = laptop.done(&["trial", "T1", "--map", "reading"]);
    insta::assert_snapshot!("layout-map-giving", giving);
    insta::assert_snapshot!("layout-map-reading", reading);
    let labels = laptop.done(&["trial", "T1", "--labels"]);
    insta::assert_snapshot!("layout-labels", labels.lines().take(18).collect::<Vec<_>>().join("\n"));
    for paper in [
        reading,
        labels,
        laptop.done(&["trial", "T1", "--map", "reading", "--format", "html"]),
        laptop.done(&["trial", "T1", "--labels", "--format", "html"]),
    ] {
        for treatment in ["0 g", "4 g", "8 g", "12 g"] {
            assert!(!paper.contains(treatment), "{treatment}\n{paper}");
        }
    }
    assert!(laptop.done(&["trial", "T1", "--map", "--format", "html"]).contains("12 g: plots"));
    let said = laptop.run(&["trial", "T7", "--map"]);
    assert!(said.code == 2 && said.err.contains("there is no trial 'T7'; the season has T1"), "{said:?}");
}
