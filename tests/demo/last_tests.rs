//! The season of the year before is what is made, keeps the rules, and differs from the demo as it is meant to.

use crate::last::season;
use benchwalk::compare::{Courses, Judge, LastYear, Pairs, costliest, is_year_before, last_day};
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::record::{Line, Plan, Term};
use benchwalk::season::Season;
use std::path::{Path, PathBuf};

const HEAD: &str = "\
# The demo's season of the year before. Everything in it is invented: the place, the people, the benches, every number and interval.
# It is made by a seeded model of a crop (tests/demo); make it again with: BENCHWALK_MAKE_DEMO=1 cargo test --test demo
";

fn path(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data").join(name)
}

fn lines(name: &str) -> Vec<Line> {
    journal::read(&std::fs::read_to_string(path(name)).unwrap()).unwrap()
}

#[test]
fn last_years_file_is_what_is_made() {
    let (plan, entries) = season();
    let s = Season::new(plan, entries);
    let made = format!("{HEAD}{}", journal::write(None, s.plan(), s.entries()));
    if std::env::var_os("BENCHWALK_MAKE_DEMO").is_some() {
        std::fs::write(path("last-year.jsonl"), &made).unwrap();
    }
    let kept = std::fs::read_to_string(path("last-year.jsonl")).unwrap();
    let first = made.lines().zip(kept.lines()).position(|(a, b)| a != b);
    assert!(made == kept, "it differs from line {first:?} on; make it again with BENCHWALK_MAKE_DEMO=1");
    assert!(kept.len() < 300_000, "{} bytes are part of the program", kept.len());
}

#[test]
fn last_year_keeps_the_rules_across_lines_and_is_sold_out() {
    let lines = lines("last-year.jsonl");
    assert_eq!(Season::new(Plan::default(), vec![]).check(&lines), vec![]);
    let s = Season::of(lines);
    let last = last_day(&s).unwrap();
    assert!(s.benches().iter().all(|bench| s.standing(&bench.bench, last).is_none()), "pots left on {last}");
}

#[test]
fn every_lot_of_the_demo_stands_beside_one_of_last_year() {
    let (last, this) = (Season::of(lines("last-year.jsonl")), Season::of(lines("demo.jsonl")));
    assert!(is_year_before(&last, &this).is_some() && is_year_before(&this, &last).is_none());
    let pairs = Pairs::of(&last, &this, &[]);
    let beside: Vec<_> = pairs.pairs.iter().map(|pair| (pair.this.as_str(), pairs.beside(&pair.this))).collect();
    let wanted = [("C1", "C6"), ("R1", "R6"), ("R2", "R7"), ("R3", "R8"), ("W1", "W6")];
    assert_eq!(beside, wanted.map(|(this, last)| (this, Some(last))));
}

#[test]
fn what_cost_most_last_year() {
    let s = Season::of(lines("last-year.jsonl"));
    let (limits, last) = (Limits::default(), last_day(&s).unwrap());
    let mut judge = Judge::new(&s, last, &limits);
    while judge.step_day() {}
    let mut courses = Courses::new(&s, last, &limits);
    while courses.step() {}
    let courses = courses.read();
    let costs = costliest(judge.judged(), &courses).into_iter().map(|cost| {
        let benches = cost.benches.join(" ");
        format!(
            "{} {} {}: {} days from {}, {} pots",
            cost.name.code(),
            cost.of.code(),
            benches,
            cost.days,
            cost.began,
            cost.pots
        )
    });
    let costs = costs.collect::<Vec<_>>().join("\n");
    println!("{costs}");
    for wanted in ["staying-wet R6 M1 M2: 52 days from 2025-10-04, 13 pots", "too-dry C6 D3: "] {
        assert!(costs.contains(wanted), "{costs}");
    }
    let last_year = LastYear {
        file: "last-year.db".into(),
        chosen: benchwalk::compare::Chosen::Named,
        season: s,
        courses,
        judged: Some(judge.into_judged()),
        by_hand: Vec::new(),
    };
    assert!(last_year.course("R6").is_some() && last_year.course("R1").is_none());
}
