//! What is refused of a trial across lines, in which words: unknown names, places taken twice, layouts changed after the first reading,
//! entries where the plot does not stand.

use crate::field::{Field, date};
use benchwalk::record::{Line, codec};
use benchwalk::season::Season;
use std::fmt::Write;

/// Two plots on M4.
fn laid() -> Field {
    let mut field = Field::new();
    field.trial("randomized-blocks", &["0 g", "8 g"], r#","reads":["height"]"#);
    field.plot(1, ("M4", 1, 1), Some(1), "0 g");
    field.plot(2, ("M4", 1, 2), Some(1), "8 g");
    field
}

/// What is said of new lines, by line and field.
fn said(kept: &Season, new: &[&str]) -> String {
    let lines: Vec<Line> = new.iter().map(|line| codec::decode(line, codec::VERSION).unwrap()).collect();
    let mut text = String::new();
    for fault in kept.check(&lines) {
        writeln!(text, "{} {}: {}", fault.index, fault.field.as_deref().unwrap_or("-"), fault.text).unwrap();
    }
    text
}

fn revised(line: &str) -> String {
    line.replace('}', r#","at":"2026-10-14T08:00:00-04:00","by":"kt"}"#)
}

const TRIAL: &str = r#"{"type":"trial","trial":"T1","lot":"R6","question":"slow-release rate","treatments":["0 g","8 g"],"design":"randomized-blocks","seed":"48213907","from":"2026-10-05","reads":["height"]}"#;
const FIRST: &str = r#"{"type":"plot","plot":"T1.1","trial":"T1","bench":"M4","row":1,"column":1,"block":1,"treatment":"0 g","pots":1}"#;

#[test]
fn names_that_are_not_known() {
    let new = [
        r#"{"type":"trial","trial":"T2","lot":"R9","question":"rate","treatments":["0 g","8 g"],"design":"as-laid","reads":["height"],"from":"2026-10-05"}"#,
        r#"{"type":"plot","plot":"T3.1","trial":"T3","bench":"M4","row":9,"column":1,"treatment":"8 g","pots":1}"#,
        r#"{"type":"plot","plot":"T1.3","trial":"T1","bench":"M14","row":1,"column":3,"treatment":"9 g","pots":1}"#,
        r#"{"type":"entry","at":"2026-10-12T07:00:00-04:00","by":"kt","bench":"M4","plot":"T1.9","kind":"height","cm":[30]}"#,
    ];
    insta::assert_snapshot!("names_that_are_not_known", said(&laid().season(), &new));
}

#[test]
fn a_place_is_taken_once() {
    let new = [
        r#"{"type":"plot","plot":"T1.3","trial":"T1","bench":"M4","row":1,"column":2,"treatment":"8 g","pots":1}"#,
        r#"{"type":"plot","plot":"T1.4","trial":"T1","bench":"M5","row":1,"column":2,"treatment":"8 g","pots":1}"#,
    ];
    insta::assert_snapshot!("a_place_is_taken_once", said(&laid().season(), &new));
}

#[test]
fn two_plots_may_change_places_at_once() {
    let places = [(1, 2, "0 g"), (2, 1, "8 g")].map(|(n, column, treatment)| {
        revised(&format!(
            r#"{{"type":"plot","plot":"T1.{n}","trial":"T1","bench":"M4","row":1,"column":{column},"block":1,"treatment":"{treatment}","pots":1}}"#
        ))
    });
    assert_eq!(said(&laid().season(), &[&places[0], &places[1]]), "");
}

#[test]
fn a_layout_may_change_until_something_is_written_of_its_plots() {
    let (trial, plot) = (revised(&TRIAL.replace("48213907", "00000001")), revised(&FIRST.replace("0 g", "8 g")));
    let new = [trial.as_str(), plot.as_str()];
    assert_eq!(said(&laid().season(), &new), "");
    let mut given = laid();
    given.entry(date(10, 1), 1, r#""kind":"topdressed","g_per_pot":0"#);
    insta::assert_snapshot!("a_layout_whose_treatments_were_given", said(&given.season(), &new));
}

#[test]
fn after_the_first_reading_a_new_layout_is_a_new_trial() {
    let mut read = laid();
    read.entry(date(10, 1), 1, r#""kind":"topdressed","g_per_pot":0"#);
    read.height(date(10, 5), 1, &[30.0]);
    let new = [
        TRIAL.replace(r#"["0 g","8 g"]"#, r#"["0 g","8 g","12 g"]"#),
        TRIAL.replace("randomized-blocks", "completely-randomized"),
        TRIAL.replace("48213907", "00000001"),
        FIRST.replace(r#""0 g""#, r#""8 g""#),
        FIRST.replace(r#""block":1"#, r#""block":2"#),
        FIRST.replace("T1.1", "T1.3").replace(r#""column":1"#, r#""column":3"#),
    ]
    .map(|line| revised(&line));
    let season = read.season();
    let text: String = new.iter().map(|line| said(&season, &[line])).collect();
    insta::assert_snapshot!("a_layout_after_the_first_reading", text);
    // What is read, how long, and where a pot stands may change.
    let new = [
        TRIAL.replace(r#"["height"]"#, r#"["height","greenness"]"#),
        TRIAL.replace(r#""reads""#, r#""until":"2026-10-12","ended_because":"pots sold","reads""#),
        FIRST.replace("M4", "M5"),
    ]
    .map(|line| revised(&line));
    for line in &new {
        assert_eq!(said(&season, &[line]), "");
    }
}

#[test]
fn a_trial_whose_only_reading_was_voided_may_change() {
    let mut field = laid();
    let id = "0199a000-0000-7000-8000-000000000001";
    field.entry(date(10, 5), 1, &format!(r#""kind":"height","cm":[30],"id":"{id}""#));
    field.entry(date(10, 5), 1, &format!(r#""kind":"strike","entry":"{id}","why":"wrong pot""#));
    assert_eq!(said(&field.season(), &[&revised(&TRIAL.replace("48213907", "00000001"))]), "");
}

#[test]
fn an_entry_is_made_where_the_plot_stands_that_day() {
    let mut field = laid();
    field.moved(2, ("M5", 1, 1), "8 g", date(10, 14));
    let season = field.season();
    let on = |day: &str, bench: &str| {
        format!(
            r#"{{"type":"entry","at":"2026-10-{day}T07:00:00-04:00","by":"kt","bench":"{bench}","plot":"T1.2","kind":"height","cm":[30]}}"#
        )
    };
    assert_eq!(said(&season, &[&on("12", "M4"), &on("19", "M5")]), "");
    insta::assert_snapshot!("where_the_plot_does_not_stand", said(&season, &[&on("12", "M5"), &on("19", "M4")]));
}
