//! Every sentence that a trial may say: refusals, cautions, the response, checks, ratios, units.

use crate::trial::{Story, rates, t1};
use benchwalk::report::trial::{Found, Words};
use benchwalk::season::Season;
use benchwalk::store::Store;
use benchwalk::trials::{Caution, Over, Readings, Refused, Rules};
use benchwalk::units::System;
use chrono::NaiveDate;
use serde_json::json;

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// The main reading of a story on October 12.
fn found(story: &Story) -> Found {
    let laptop = story.told();
    let store = Store::open_read_only(&laptop.path("data/season.db")).unwrap();
    let (plan, entries) = store.load().unwrap();
    store.close().unwrap();
    let readings = Readings::of(&Season::new(plan, entries), "T1", day("2026-10-12")).unwrap();
    Found::of(&readings, readings.trial.reads[0], Over::Day(day("2026-10-12")), Rules::default())
}

/// A trial of six blocks: the heights of the treatments in cm, and how plots differ in turn.
fn in_blocks(heights: &[f64], noise: &[f64], trial: &serde_json::Value) -> Story {
    let mut story = Story::new(trial.clone());
    let names: Vec<String> =
        trial["treatments"].as_array().unwrap().iter().map(|name| name.as_str().unwrap().to_owned()).collect();
    let count = heights.len();
    for at in 0..6 * count {
        let (block, of) = (at / count + 1, at % count);
        story.plot(at + 1, json!({"row": block, "column": of + 1, "block": block, "treatment": names[of]}));
    }
    for at in 0..6 * count {
        let block = (at / count) as f64;
        story.height(at + 1, "2026-10-12", &json!(heights[at % count] + block + noise[at % noise.len()]));
    }
    story
}

const NOISE: [f64; 7] = [0.3, -0.5, 0.1, 0.6, -0.2, 0.4, -0.6];

#[test]
fn every_refusal_says_why_in_its_own_words() {
    let mut found = found(&t1());
    let mut says = |refused| {
        found.analysis = Err(refused);
        Words::of(&found, System::Us).refused().unwrap()
    };
    assert_eq!(
        says(Refused::Once),
        "Each treatment stands once: this is a demonstration. It cannot separate treatment from position; the readings are shown, \
         nothing is told apart."
    );
    assert_eq!(
        says(Refused::OwnBench),
        "Each treatment has its own bench. The pots on a bench are subsamples: bench and treatment cannot be told apart. Two benches per \
         treatment are the least, four are fair."
    );
    assert_eq!(
        says(Refused::Together(2)),
        "Treatment and position run together here. Their difference cannot be separated."
    );
    assert_eq!(
        says(Refused::FewLeft(3)),
        "Only 3 degrees of freedom are left for the rest: no intervals. Means are shown."
    );
    assert_eq!(says(Refused::NoSpread), "All readings of a treatment are equal: nothing to judge by.");
    assert_eq!(
        says(Refused::NotRead(5, 24)),
        "5 of 24 plots are not read on Oct 12; the last day read in full is Oct 5."
    );
    assert_eq!(
        says(Refused::Thin(3)),
        "Fewer than 2 plots are read at 12 g on Oct 12; the last day read in full is Oct 5."
    );
    assert!(found.verdict().is_none() && found.chance().is_none(), "nothing is told apart, no chance is named");
}

#[test]
fn every_caution_says_what_to_keep_in_mind() {
    let found = found(&t1());
    let words = Words::of(&found, System::Us);
    let cases = [
        (Caution::FewDegrees(6), "Few degrees of freedom (6): only big differences can show."),
        (
            Caution::NotDrawn,
            "Not drawn by lot: someone chose the places. The intervals hold only if places were as good as drawn.",
        ),
        (
            Caution::Lost(vec![0, 1, 0, 2]),
            "3 plots lost, 1 of them at 4 g, 2 at 12 g. If the treatment killed them, the means flatter it.",
        ),
        (Caution::Lost(vec![0, 0, 0, 1]), "1 plot lost at 12 g. If the treatment killed it, the means flatter it."),
        (
            Caution::Benches,
            "Every bench has one treatment: the benches are compared, the pots on a bench are subsamples.",
        ),
        (
            Caution::Moved(day("2026-09-20")),
            "Pots were moved on Sep 20: blocks before and after are not the same places.",
        ),
        (Caution::SharedFeed, "Feed runs together on this bench: rates cannot differ from pot to pot."),
        (Caution::Readings(6), "6 readings were compared; about 1 in 20 would show a difference by chance."),
    ];
    for (caution, said) in cases {
        assert_eq!(words.caution(&caution), said);
    }
    assert_eq!(words.not_given().unwrap(), "Not yet logged as given: 6 plots at 4 g, 6 plots at 8 g, 6 plots at 12 g.");
}

#[test]
fn a_plateau_a_highest_rate_and_no_response_have_their_sentences() {
    let says = |heights: &[f64]| {
        let found = found(&in_blocks(heights, &NOISE, &rates(&json!({}))));
        Words::of(&found, System::Us).response().unwrap_or_default()
    };
    let plateau = says(&[20.0, 30.0, 30.1, 30.0]);
    assert!(plateau.starts_with("Beyond about 4 g (") && plateau.ends_with(") more does nothing here."), "{plateau}");
    let peak = says(&[20.0, 27.0, 30.0, 24.0]);
    assert!(peak.starts_with("Most at about ") && peak.ends_with(" g."), "{peak}");
    assert_eq!(says(&[20.0, 20.1, 19.9, 20.0]), "No rise or fall with the rate was found.");
    assert_eq!(
        says(&[30.0, 26.0, 23.0, 19.0]),
        "Up to 12 g more gives less: no rate was found beyond which it does nothing."
    );
}

#[test]
fn where_none_is_told_apart_it_is_said_with_what_would_have_been_missed() {
    let found =
        found(&in_blocks(&[20.0, 20.3, 19.9, 20.1], &[1.3, -2.5, 0.4, 2.6, -1.2, 0.9, -1.6], &rates(&json!({}))));
    let words = Words::of(&found, System::Us);
    let said = words.result().join(" ");
    assert!(said.starts_with("No treatment is told apart from another (p 0."), "{said}");
    assert!(said.contains("; a difference under ") && said.contains(" in would often have been missed."), "{said}");
    assert!(!said.contains("effect") && !said.contains("significant"), "{said}");
}

#[test]
fn an_odd_pot_is_named_and_left_in() {
    let mut story = in_blocks(&[20.0, 24.0, 28.0, 31.0], &NOISE, &rates(&json!({})));
    story.height(10, "2026-10-12", &json!(60.0));
    story.lines.last_mut().unwrap()["at"] = json!("2026-10-12T11:00:00-04:00");
    let found = found(&story);
    let words = Words::of(&found, System::Us);
    let line = words.checks_line();
    assert!(line.contains("plot 10 is odd: look at the pot and the entry; void it only for a mistake"), "{line}");
    let without = words.without_odd().unwrap();
    assert!(without.starts_with("Without plot 10 other pairs are told apart: 12 g is "), "{without}");
}

#[test]
fn wide_readings_are_compared_as_ratios() {
    let trial = json!({"treatments": ["A", "B", "C"], "design": "randomized-blocks", "seed": "48213907"});
    let mut story = in_blocks(&[20.0, 24.0, 28.0], &NOISE, &trial);
    let wide = [2, 9, 40, 1, 12, 90, 3, 7, 60, 2, 15, 150, 1, 8, 45, 3, 20, 210];
    for (at, cm) in wide.iter().enumerate() {
        story.height(at + 1, "2026-10-12", &json!(cm));
        story.lines.last_mut().unwrap()["at"] = json!(format!("2026-10-12T12:{at:02}:00-04:00"));
    }
    let found = found(&story);
    let words = Words::of(&found, System::Us);
    let verdict = found.verdict().unwrap();
    let told = words.told(&verdict).join("; ");
    assert!(told.contains("C is ") && told.contains(" times A ("), "{told}");
    assert_eq!(words.by(&verdict).unwrap(), "The spread grows with the readings: they are compared as ratios.");
}

#[test]
fn lengths_stand_in_the_units_of_the_site_and_no_finer_than_readings() {
    let found = found(&t1());
    let words = Words::of(&found, System::Metric);
    let told = words.told(&found.verdict().unwrap());
    assert_eq!(told[0], "12 g is 8.0 cm taller than 0 g (5.0 to 11.0)");
    assert_eq!(told[3], "4 g is 3.5 cm taller than 0 g (0.5 to 6.5)");
    assert_eq!(words.seen().unwrap(), "With 6 blocks a difference under 4.0 cm would often have been missed.");
    assert!(words.scale.head() == "height (cm)" && Words::of(&found, System::Us).scale.head() == "height (in)");
}
