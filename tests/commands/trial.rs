//! A trial on the command line: what it says of the data sets of `tests/outside`, brought in as seasons.

use crate::{Laptop, arg};
use serde_json::{Value, json};

const SETS: &str = include_str!("../outside/trial-sets.json");

/// The data of a set.
fn data(id: &str) -> Vec<Value> {
    let all: Value = serde_json::from_str(SETS).unwrap();
    let set = all["sets"].as_array().unwrap().iter().find(|set| set["id"] == id).unwrap();
    set["data"].as_array().unwrap().clone()
}

const HEAD: &str = r#"{"type":"journal","version":2}
{"type":"site","name":"Thistlecot","latitude":44.1,"longitude":-70.21,"time_zone":"America/New_York","units":"us"}
{"type":"lot","lot":"R6","cultivar":"mid red","container":"6.5 in","cuttings_per_pot":1,"pots":240,"planted":"2026-08-17","pinch":"soft","response_weeks":9.5,"nights":"natural","ready_by":"2026-11-27"}
"#;

fn fields(value: Value) -> serde_json::Map<String, Value> {
    match value {
        Value::Object(fields) => fields,
        other => panic!("{other} has no fields"),
    }
}

/// A trial of one lot, told line by line.
pub(crate) struct Story {
    pub(crate) lines: Vec<Value>,
}

impl Story {
    pub(crate) fn new(trial: Value) -> Self {
        let mut line = json!({"type": "trial", "trial": "T1", "lot": "R6", "question": "slow-release rate", "reads": ["height"],
            "from": "2026-09-07", "until": "2026-11-20"});
        line.as_object_mut().unwrap().extend(fields(trial));
        line.as_object_mut().unwrap().retain(|_, value| !value.is_null());
        let bench = |code: &str, order: u32| json!({"type": "bench", "bench": code, "house": "Mill", "order": order});
        let stands =
            |code: &str| json!({"type": "placement", "bench": code, "lot": "R6", "pots": 30, "from": "2026-08-17"});
        let benches = (1..=8).flat_map(|n| [bench(&format!("M{n}"), n), stands(&format!("M{n}"))]);
        Self { lines: benches.chain([line]).collect() }
    }

    pub(crate) fn plot(&mut self, number: usize, place: Value) {
        let mut line = json!({"type": "plot", "plot": format!("T1.{number}"), "trial": "T1", "bench": "M4", "pots": 1});
        line.as_object_mut().unwrap().extend(fields(place));
        self.lines.push(line);
    }

    pub(crate) fn entry(&mut self, number: usize, day: &str, entry: Value) -> &mut Value {
        let bench = self.lines.iter().find(|line| line["plot"] == format!("T1.{number}")).unwrap()["bench"].clone();
        let mut line = json!({"type": "entry", "at": format!("{day}T07:{:02}:00-04:00", number % 60), "by": "kt", "bench": bench,
            "plot": format!("T1.{number}")});
        line.as_object_mut().unwrap().extend(fields(entry));
        self.lines.push(line);
        self.lines.last_mut().unwrap()
    }

    pub(crate) fn height(&mut self, number: usize, day: &str, cm: &Value) {
        let cm = if cm.is_array() { cm.clone() } else { json!([cm]) };
        self.entry(number, day, json!({"kind": "height", "cm": cm}));
    }

    /// A laptop whose season is this story.
    pub(crate) fn told(&self) -> Laptop {
        let laptop = Laptop::new();
        let lines: Vec<String> = self.lines.iter().map(Value::to_string).collect();
        let journal = laptop.file("trial.jsonl", &format!("{HEAD}{}\n", lines.join("\n")));
        laptop.done(&["import", arg(&journal)]);
        laptop
    }
}

/// Four rates in six blocks, as drawn with seed 48213907.
pub(crate) fn rates(more: &Value) -> Value {
    let mut trial = json!({"treatments": ["0 g", "4 g", "8 g", "12 g"], "rates": [0, 4, 8, 12], "rate_unit": "g per pot", "control": "0 g",
        "design": "randomized-blocks", "seed": "48213907", "drawn": 3, "matters": 2.5});
    trial.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    trial
}

/// The trial of set `trial-t1`, read on October 12 and on the two Mondays before, when every plot was lower by a part of its height.
pub(crate) fn t1() -> Story {
    let mut story = Story::new(rates(&json!({})));
    for row in data("trial-t1") {
        let number = usize::try_from(row[0].as_u64().unwrap()).unwrap();
        let treatment = format!("{} g", row[3]);
        story.plot(number, json!({"row": row[1], "column": row[2], "block": row[1], "treatment": treatment}));
    }
    for row in data("trial-t1") {
        let (number, cm) = (usize::try_from(row[0].as_u64().unwrap()).unwrap(), row[4].as_f64().unwrap());
        for (day, share) in [("2026-09-28", 0.75), ("2026-10-05", 0.9), ("2026-10-12", 1.0)] {
            story.height(number, day, &json!((cm * share * 2.0).round() / 2.0));
        }
    }
    story
}

/// A text in one line.
fn joined(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn four_pairs_are_told_apart_and_two_are_not() {
    let laptop = t1().told();
    let text = laptop.done(&["trial", "T1"]);
    insta::assert_snapshot!("trial-t1", text);
    let said = joined(&text);
    for sentence in [
        "12 g is 3.1 in taller than 0 g (2.0 to 4.3)",
        "12 g is 1.7 in taller than 4 g (0.6 to 2.9)",
        "8 g is 2.5 in taller than 0 g (1.3 to 3.6)",
        "4 g is 1.4 in taller than 0 g (0.2 to 2.5)",
        "Not told apart: 8 g and 4 g, 12 g and 8 g",
        "Position explains a quarter of the spread, treatment 62%, the rest 13%.",
        "With 6 blocks a difference under 1.5 in would often have been missed.",
        "Up to 12 g more gives more: no rate was found beyond which it does nothing.",
        "By reshuffling: 1 in 10,000. Checks: nothing speaks.",
        "Design: randomized blocks, drawn by lot with seed 48213907, drawn 3 times.",
    ] {
        assert!(said.contains(sentence), "no {sentence:?} in {text}");
    }
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
    assert!(!said.contains("Beyond about") && !said.contains("significant"), "{text}");
}

#[test]
fn as_json_a_trial_is_one_object_with_exact_numbers() {
    let laptop = t1().told();
    let answer: Value = serde_json::from_str(&laptop.done(&["trial", "T1", "--format", "json"])).unwrap();
    assert!((answer["position"]["share"].as_f64().unwrap() - 0.2525).abs() < 5e-5, "{answer}");
    assert_eq!((&answer["position"]["df"], &answer["rest"]["df"]), (&json!(5), &json!(15)));
    assert!((answer["treatment"]["reshuffled"].as_f64().unwrap() - 0.0001).abs() < 1e-9);
    assert!((answer["seen"].as_f64().unwrap() - 3.81939).abs() < 1e-4);
    let told = answer["comparisons"].as_array().unwrap().iter().filter(|of| of["told"] == true).count();
    assert_eq!((told, answer["comparisons"].as_array().unwrap().len()), (4, 6));
    assert_eq!(
        (&answer["trial"], &answer["day"], &answer["reading"]),
        (&json!("T1"), &json!("2026-10-12"), &json!("height"))
    );
    assert_eq!((&answer["seed"], &answer["plots"], &answer["lost"]), (&json!("48213907"), &json!(24), &json!(0)));
    assert!(answer.get("refused").is_none() && answer["response"]["plateau"]["said"] == false, "{answer}");
}

#[test]
fn the_page_alone_says_what_was_done_drawn_found_and_not_seen() {
    let laptop = t1().told();
    let page = laptop.done(&["trial", "T1", "--format", "html"]);
    assert!(page.starts_with("<!DOCTYPE html>") && page.matches("<svg").count() == 3, "{page}");
    for heading in
        ["What was done", "How it was drawn", "What was found", "What could not have been seen", "Day by day", "Layout"]
    {
        assert!(page.contains(&format!("<h3>{heading}")), "no {heading}");
    }
    for said in [
        "12 g is 3.1 in taller than 0 g (2.0 to 4.3)",
        "seed 48213907, drawn 3 times",
        "under 1.5 in",
        "relative efficiency",
    ] {
        assert!(page.contains(said), "no {said}");
    }
    assert!(!page.contains("style=") && !page.contains("<script"), "one style sheet, nothing that runs");
    let season = laptop.done(&["season", "--format", "html"]);
    assert!(
        season.contains("Trial T1: slow-release rate") && season.contains("12 g is 3.1 in taller than 0 g"),
        "{season}"
    );
}

#[test]
fn each_rate_in_one_spot_is_shown_and_nothing_is_told_apart() {
    let mut story = Story::new(rates(&json!({"design": "as-laid", "seed": null, "drawn": null})));
    for (at, treatment) in ["0 g", "4 g", "8 g", "12 g"].iter().enumerate() {
        story.plot(at + 1, json!({"row": 1, "column": at + 1, "treatment": treatment, "pots": 6}));
    }
    for (at, cm) in [29.0, 32.5, 35.0, 37.0].iter().enumerate() {
        story.height(at + 1, "2026-10-12", &json!([cm, cm + 1.0, cm - 0.5]));
    }
    let laptop = story.told();
    let text = laptop.done(&["trial", "T1"]);
    insta::assert_snapshot!("trial-one-spot-a-rate", text);
    assert!(joined(&text).contains("Each treatment stands once: this is a demonstration."), "{text}");
    // The same pots as plots, in blocks of one rate each.
    let mut story = Story::new(rates(&json!({"design": "as-laid", "seed": null, "drawn": null})));
    for at in 0..12 {
        let treatment = ["0 g", "4 g", "8 g", "12 g"][at / 3];
        story.plot(
            at + 1,
            json!({"row": at / 3 + 1, "column": at % 3 + 1, "block": at / 3 + 1, "treatment": treatment}),
        );
    }
    for at in 0..12 {
        story.height(at + 1, "2026-10-12", &json!(29.0 + (at * 7 % 5) as f64 + at as f64));
    }
    let spots = story.told();
    let said = joined(&spots.done(&["trial", "T1"]));
    assert!(said.contains("Treatment and position run together here (4 g stands only in block 2)."), "{said}");
    for laptop in [&laptop, &spots] {
        let json: Value = serde_json::from_str(&laptop.done(&["trial", "T1", "--format", "json"])).unwrap();
        assert!(json.get("treatment").is_none() && json["comparisons"] == json!([]), "{json}");
        for format in ["text", "html"] {
            let text = laptop.done(&["trial", "T1", "--format", format]);
            for p in ["p 0", "p under", "chance<", "in 10,000"] {
                assert!(!text.contains(p), "{p} in {text}");
            }
        }
    }
}

#[test]
fn a_voided_reading_does_not_count_and_lost_plots_are_counted_by_treatment() {
    let mut story = t1();
    let voided = "0192f000-0000-7000-8000-000000000001";
    story.entry(5, "2026-10-12", json!({"kind": "height", "cm": [80.0]}))["id"] = json!(voided);
    story.lines.last_mut().unwrap()["at"] = json!("2026-10-12T09:00:00-04:00");
    let wild = story.told();
    assert!(!wild.done(&["trial", "T1"]).contains("0 g                11.5"));
    story
        .lines
        .push(json!({"type": "entry", "at": "2026-10-12T09:01:00-04:00", "by": "kt", "bench": "M4", "kind": "strike",
        "entry": voided, "why": "wrong pot"}));
    let right = story.told().done(&["trial", "T1"]);
    assert_eq!(right, t1().told().done(&["trial", "T1"]));
    for plot in [3, 7] {
        story.entry(plot, "2026-10-10", json!({"kind": "losses", "pots": 1}));
    }
    story.lines.retain(|line| {
        !(["T1.3", "T1.7"].contains(&line["plot"].as_str().unwrap_or_default())
            && line["at"].as_str().is_some_and(|at| at.starts_with("2026-10-12")))
    });
    let text = story.told().done(&["trial", "T1"]);
    insta::assert_snapshot!("trial-two-lost", text);
    assert!(
        joined(&text).contains("2 plots lost at 12 g. If the treatment killed them, the means flatter it."),
        "{text}"
    );
}

#[test]
fn pots_of_a_plot_are_subsamples_and_b_and_c_are_not_told_apart() {
    let mut story =
        Story::new(json!({"treatments": ["A", "B", "C"], "design": "randomized-blocks", "seed": "48213907"}));
    let rows = data("machines-subsamples");
    let plots: Vec<&[Value]> = rows.chunks(3).collect();
    for (at, pots) in plots.iter().enumerate() {
        let block: u32 = pots[0][0].as_str().unwrap().parse().unwrap();
        story.plot(
            at + 1,
            json!({"row": block, "column": at / 6 + 1, "block": block, "treatment": pots[0][1], "pots": 3}),
        );
    }
    for (at, pots) in plots.iter().enumerate() {
        story.height(at + 1, "2026-10-12", &json!([pots[0][2], pots[1][2], pots[2][2]]));
    }
    let said = joined(&story.told().done(&["trial", "T1"]));
    assert!(said.contains("Not told apart: B and C"), "{said}");
    assert!(
        said.contains("C is 5.5 in taller than A (3.1 to 7.8)") && said.contains("18 plots of 3 pots, 6 blocks of 3"),
        "{said}"
    );
}

#[test]
fn a_steep_trend_along_a_bench_without_blocks_is_told_and_decides() {
    let mut story = Story::new(rates(&json!({"design": "completely-randomized"})));
    let places = [1, 0, 3, 2, 0, 2, 1, 3, 2, 3, 0, 1, 3, 1, 2, 0, 1, 2, 0, 3, 0, 3, 2, 1];
    let noise = [0.3, -0.5, 0.1, 0.6, -0.2, 0.4, -0.6, 0.2, -0.1, 0.5, -0.3, 0.05];
    for (at, treatment) in places.iter().enumerate() {
        let name = ["0 g", "4 g", "8 g", "12 g"][*treatment];
        story.plot(at + 1, json!({"row": 1, "column": at + 1, "treatment": name}));
    }
    for (at, treatment) in places.iter().enumerate() {
        let cm = 25.0 + at as f64 + *treatment as f64 + noise[at % 12];
        story.height(at + 1, "2026-10-12", &json!(cm));
    }
    let text = story.told().done(&["trial", "T1"]);
    insta::assert_snapshot!("trial-steep", text);
    let said = joined(&text);
    assert!(said.contains("Plots differ along the bench, and the design did not take that up. Without the place on the bench: no treatment is told apart."), "{text}");
    assert!(said.contains("12 g is ") && said.contains("taller than 0 g"), "{text}");
}

#[test]
fn trials_are_listed_and_an_unknown_one_names_those_there_are() {
    let laptop = t1().told();
    let list = laptop.done(&["trial"]);
    assert_eq!(
        list,
        "T1         R6     slow-release rate; randomized blocks, 24 plots, 4 treatments; read on 3 days, last Oct 12\n"
    );
    let rows: Value = serde_json::from_str(&laptop.done(&["trial", "--format", "json"])).unwrap();
    assert_eq!((&rows[0]["trial"], &rows[0]["plots"], &rows[0]["days_read"]), (&json!("T1"), &json!(24), &json!(3)));
    let unknown = laptop.run(&["trial", "T9"]);
    assert_eq!((unknown.code, unknown.out.as_str()), (2, ""));
    assert!(unknown.err.contains("there is no trial 'T9'; the season has T1"), "{}", unknown.err);
    let other = laptop.run(&["trial", "T1", "--reading", "roots"]);
    assert_eq!(other.code, 2);
    assert!(other.err.contains("'roots' is not read in T1; it reads height"), "{}", other.err);
    assert_eq!(laptop.run(&["trial", "--csv"]).code, 2);
    let before = laptop.done(&["trial", "T1", "--on", "2026-09-30"]);
    assert!(before.contains("height (in), Sep 28") && !before.contains("Oct 12"), "{before}");
}

#[test]
fn readings_come_out_one_line_a_plot_and_day() {
    let laptop = t1().told();
    let table = laptop.done(&["trial", "T1", "--csv"]);
    let lines: Vec<&str> = table.lines().collect();
    assert_eq!(lines.len(), 1 + 3 * 24);
    assert_eq!(lines[0], "trial,plot,bench,row,column,block,treatment,rate,pots,day,height_cm,lost");
    assert_eq!(lines[49], "T1,1,M4,1,1,1,4 g,4,1,2026-10-12,35,false");
}

#[test]
fn a_day_read_in_part_is_named_and_the_last_full_one_is_shown() {
    let mut story = t1();
    story.lines.retain(|line| {
        let late = line["at"].as_str().is_some_and(|at| at.starts_with("2026-10-12"));
        !(late && ["T1.1", "T1.2", "T1.3", "T1.4", "T1.5"].contains(&line["plot"].as_str().unwrap_or_default()))
    });
    let said = joined(&story.told().done(&["trial", "T1"]));
    assert!(said.contains("height (in), Oct 5"), "{said}");
    assert!(said.contains("5 of 24 plots are not read on Oct 12; the last day read in full is Oct 5."), "{said}");
}

#[test]
fn scores_are_said_as_counts_and_go_by_reshuffling() {
    let mut story = Story::new(rates(&json!({"reads": ["roots", "height"]})));
    let roots = [[0, 1, 1, 3], [0, 0, 2, 3], [1, 1, 1, 2], [0, 1, 1, 4], [0, 0, 2, 3], [1, 1, 2, 2]];
    for (block, of) in roots.iter().enumerate() {
        for (at, treatment) in ["0 g", "4 g", "8 g", "12 g"].iter().enumerate() {
            let place = json!({"row": block + 1, "column": at + 1, "block": block + 1, "treatment": treatment});
            story.plot(block * 4 + at + 1, place);
        }
        for (at, score) in of.iter().enumerate() {
            story.entry(block * 4 + at + 1, "2026-10-12", json!({"kind": "roots", "score": score}));
        }
    }
    let text = story.told().done(&["trial", "T1"]);
    insta::assert_snapshot!("trial-scores", text);
    let said = joined(&text);
    assert!(said.contains("12 g is worse than 0 g (roots 2 or worse: 0 of 6 pots at 0 g, 6 of 6 at 12 g)"), "{text}");
    assert!(said.contains("Scores are compared by rank and by reshuffling"), "{text}");
}

#[test]
fn a_trial_ended_early_keeps_its_readings_and_says_why() {
    let mut story = t1();
    let line = story.lines.iter_mut().find(|line| line["type"] == "trial").unwrap();
    line["until"] = json!("2026-10-12");
    line["ended_because"] = json!("the boiler failed");
    let said = joined(&story.told().done(&["trial", "T1"]));
    assert!(said.contains("Ended early on Oct 12: the boiler failed. The readings up to then stand."), "{said}");
    assert!(said.contains("12 g is 3.1 in taller than 0 g (2.0 to 4.3)"), "{said}");
}
