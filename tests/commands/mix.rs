//! `benchwalk mix`: answers as they print, and what is refused with its reason.

use crate::Laptop;
use serde_json::Value;

fn mix(line: &[&str]) -> String {
    Laptop::new().done(&[&["mix"], line].concat())
}

fn json(line: &[&str]) -> Value {
    serde_json::from_str(&mix(&[line, &["--format", "json"]].concat())).unwrap()
}

/// The exit code must be that of wrong use, and nothing is printed as an answer.
fn refused(line: &[&str]) -> String {
    let said = Laptop::new().run(&[&["mix"], line].concat());
    assert_eq!((said.code, said.out.as_str()), (2, ""), "{line:?}");
    said.err
}

const DRENCH: &[&str] = &[
    "growth-regulator",
    "--ai",
    "paclobutrazol",
    "--ppm",
    "0.1",
    "--strength",
    "4 g/L",
    "--how",
    "drench",
    "--pots",
    "1000",
    "--per-pot",
    "4floz",
];
const TANK: &[&str] = &[
    "growth-regulator",
    "--ai",
    "daminozide",
    "--ppm",
    "1500",
    "--strength",
    "85% solid",
    "--ai",
    "chlormequat",
    "--ppm",
    "1000",
    "--strength",
    "120 g/L",
    "--how",
    "spray",
    "--area",
    "500ft2",
    "--short-days",
    "2026-09-22",
    "--sale",
    "2026-11-27",
    "--on",
    "2026-09-25",
];

#[test]
fn a_drench() {
    insta::assert_snapshot!(mix(DRENCH));
}

#[test]
fn a_tank_of_two_with_its_last_safe_days() {
    insta::assert_snapshot!(mix(TANK));
}

#[test]
fn an_extra_nutrient_in_a_tank() {
    insta::assert_snapshot!(mix(&[
        "nutrient",
        "--material",
        "magnesium-sulfate",
        "--ppm",
        "118",
        "--volume",
        "100gal"
    ]));
}

#[test]
fn a_trace_through_an_injector_goes_by_two_steps() {
    let line = ["nutrient", "--material", "sodium-molybdate", "--ppm", "0.1", "--injector", "1:100", "--stock", "20L"];
    insta::assert_snapshot!(mix(&[&line[..], &["--units", "metric"]].concat()));
}

#[test]
fn a_feed_through_an_injector() {
    let line = ["feed", "--analysis", "15-5-15", "--n", "200", "--injector", "1:100", "--stock", "50gal"];
    let chart = ["--chart-ec", "0.74", "--chart-n", "100", "--water-ec", "0.3", "--feed-ec", "1.5mS"];
    insta::assert_snapshot!(mix(&[&line[..], &chart[..]].concat()));
}

#[test]
fn json_carries_the_same_numbers() {
    let drench = json(DRENCH);
    let part = &drench["parts"][0];
    let near = |value: &Value, wanted: f64| (value.as_f64().unwrap() - wanted).abs() < wanted * 1e-3;
    assert!(near(&drench["solution_ml"], 118_294.0), "{drench}");
    assert!(near(&part["exact_ml"], 2.957) && near(&part["measured_ml"], 3.0) && near(&part["mg_per_pot"], 0.01183));
    let tank = json(TANK);
    assert!(near(&tank["parts"][0]["exact_g"], 16.7), "{tank}");
    assert_eq!(tank["parts"][0]["last_safe"]["day"], "2026-09-21");
    assert_eq!(tank["parts"][0]["last_safe"]["late"], true);
    assert_eq!(tank["parts"][1]["last_safe"]["late"], false);
    let feed = json(&["feed", "--analysis", "20-10-20", "--n", "250ppm", "--volume", "100gal"]);
    assert!(near(&feed["exact_g"], 473.2) && near(&feed["feed_k_ppm"], 207.5), "{feed}");
}

#[test]
fn every_growth_regulator_answer_shows_the_cautions() {
    for line in [DRENCH, TANK] {
        let text = mix(line).replace("\n    ", " ");
        for words in [
            "product label is the law",
            "certified or licensed applicator",
            "restricted-entry interval (REI) from the label",
        ] {
            assert!(text.contains(words), "{words} in {text}");
        }
        let ids: Vec<String> =
            json(line)["cautions"].as_array().unwrap().iter().map(|c| c["caution"].to_string()).collect();
        assert!(["\"label\"", "\"rei\"", "\"clothing\""].iter().all(|id| ids.contains(&(*id).to_owned())), "{ids:?}");
    }
}

#[test]
fn nutrients_and_feeds_tell_their_cautions_to_other_programs_too() {
    let ids = |line: &[&str]| -> Vec<String> {
        let answer = json(line);
        answer["cautions"].as_array().unwrap().iter().map(|c| c["caution"].as_str().unwrap().to_owned()).collect()
    };
    let magnesium = ["nutrient", "--material", "magnesium-sulfate", "--ppm", "118", "--volume", "100gal"];
    assert_eq!(ids(&magnesium), ["bag-label", "dust", "few-plants", "dissolve"]);
    assert!(json(&magnesium)["never_with"].as_str().unwrap().contains("calcium"));
    let feed = ["feed", "--analysis", "15-5-15", "--n", "200", "--injector", "1:100", "--stock", "50gal"];
    assert_eq!(ids(&feed), ["bag-label", "dust", "few-plants", "bucket", "backflow"]);
}

#[test]
fn a_pack_ten_times_as_strong_is_told() {
    let line = [
        "growth-regulator",
        "--ai",
        "paclobutrazol",
        "--ppm",
        "0.1",
        "--strength",
        "4% liquid",
        "--how",
        "drench",
        "--pots",
        "100",
        "--rim",
        "6in",
    ];
    let answer = json(&line);
    let told = answer["parts"][0]["pack"].as_str().unwrap();
    assert!(told.contains("about 10 times what common labels of this ingredient say"), "{told}");
    assert!(mix(&line).contains("READ THE LABEL"));
    assert!(mix(&line).contains("TOO LITTLE"), "0.03 mL cannot be measured out");
    assert_eq!(json(DRENCH)["parts"][0]["pack"], Value::Null);
}

#[test]
fn the_inverse_says_what_was_made() {
    let line =
        ["growth-regulator", "--ai", "chlormequat", "--measured", "1floz", "--strength", "120 g/L", "--how", "spray"];
    let answer = json(&[&line[..], &["--volume", "1gal"]].concat());
    assert!((answer["parts"][0]["ppm"].as_f64().unwrap() - 937.5).abs() < 0.1, "{answer}");
    let line = [
        "growth-regulator",
        "--ai",
        "uniconazole",
        "--mg-per-pot",
        "0.04",
        "--strength",
        "0.55 g/L",
        "--how",
        "drench",
    ];
    let answer = json(&[&line[..], &["--pots", "100", "--per-pot", "4floz"]].concat());
    assert!((answer["parts"][0]["ppm"].as_f64().unwrap() - 0.338).abs() < 0.001, "{answer}");
}

#[test]
fn what_cannot_be_is_refused_with_the_reason() {
    let with = |ai: &str, ppm: &str, strength: &str, more: &[&str]| {
        refused(&[&["growth-regulator", "--ai", ai, "--ppm", ppm, "--strength", strength], more].concat())
    };
    let spray = ["--how", "spray", "--area", "50m2"];
    let told = [
        (with("paclobutrazol", "0.1", "85%", &spray), "'% solid' for a powder"),
        (with("paclobutrazol", "0.1", "0 g/L", &spray), "the strength of the liquid is 0 g/L"),
        (with("paclobutrazol", "0", "4 g/L", &spray), "the concentration is 0 ppm"),
        (with("paclobutrazol", "0.1 oz", "4 g/L", &spray), "unknown unit 'oz'"),
        (with("paclobutrazol", "5000", "4 g/L", &spray), "no solution is stronger than the product"),
        (with("seaweed", "5", "4 g/L", &spray), "unknown ingredient 'seaweed'; known are ancymidol"),
        (with("paclobutrazol", "5", "4 g/L", &["--how", "spray"]), "give --area, or --volume"),
        (with("paclobutrazol", "5", "4 g/L", &["--how", "spray", "--area", "3 lb"]), "an area may be typed in"),
        (with("paclobutrazol", "5", "4 g/L", &["--how", "drench", "--pots", "9"]), "give the volume per pot"),
        (
            with("paclobutrazol", "5", "4 g/L", &["--how", "drench", "--pots", "9", "--rim", "10in"]),
            "give the volume per pot",
        ),
        (
            with("paclobutrazol", "5", "4 g/L", &["--how", "spray", "--area", "5m2", "--rate", "9L/m2"]),
            "0.196 to 19.6 qt per 100 sq ft",
        ),
        (
            refused(&["growth-regulator", "--ai", "paclobutrazol", "--ppm", "5", "--how", "spray", "--area", "9m2"]),
            "--strength <STRENGTH>",
        ),
        (
            refused(&[
                "growth-regulator",
                "--ai",
                "paclobutrazol",
                "--strength",
                "4 g/L",
                "--how",
                "spray",
                "--area",
                "9m2",
            ]),
            "--ppm <PPM>",
        ),
        (refused(&["feed", "--analysis", "15-5", "--n", "200", "--volume", "1gal"]), "three numbers"),
        (refused(&["feed", "--analysis", "15-5-15", "--n", "0", "--volume", "1gal"]), "plain water"),
        (
            refused(&["feed", "--analysis", "15-5-15", "--n", "200", "--injector", "1:300", "--stock", "1gal"]),
            "15 to 200",
        ),
        (refused(&["feed", "--analysis", "15-5-15", "--n", "200"]), "--volume <VOLUME>"),
        (
            refused(&["nutrient", "--material", "magnesium-sulfate", "--ppm", "9", "--volume", "1in"]),
            "a volume may be typed in",
        ),
    ];
    for (said, reason) in &told {
        assert!(said.contains(reason), "'{reason}' in {said}");
    }
}

#[test]
fn a_growers_own_last_safe_days_hold_here_too() {
    let laptop = Laptop::new();
    laptop.file("config/limits.toml", "[growth]\nchlormequat_after = 20\nchlormequat_october = 31\n");
    let text = laptop.done(&[&["mix"], TANK].concat());
    assert!(text.contains("last safe day  Sun Oct 11, 2026"), "{text}");
}
