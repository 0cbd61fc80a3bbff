//! The file is what is made, and it tells what it is meant to tell.

use crate::grow::date;
use crate::story::{DAY, season};
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::record::{KindName, Line, Pinch, Plan, Term};
use benchwalk::report::review;
use benchwalk::season::Season;
use benchwalk::warnings::{Severity, assess_all};
use std::collections::BTreeMap;
use std::path::Path;

const HEAD: &str = "\
# A demo season. Everything in it is invented: the place, the people, the benches and every number.
# It is made by a seeded model of a crop (tests/demo); make it anew with: BENCHWALK_MAKE_DEMO=1 cargo test --test demo
# Its day is October 14, 2026: the day of its last entry, with four benches walked.
";

fn path() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data/demo.jsonl")
}

fn made() -> String {
    let (plan, entries) = season();
    let s = Season::new(plan, entries);
    format!("{HEAD}{}", journal::write(None, s.plan(), s.entries()))
}

fn read() -> Season {
    let text = std::fs::read_to_string(path()).unwrap();
    Season::of(journal::read(&text).unwrap())
}

#[test]
fn the_file_is_what_is_made() {
    let made = made();
    if std::env::var_os("BENCHWALK_MAKE_DEMO").is_some() {
        std::fs::write(path(), &made).unwrap();
    }
    let kept = std::fs::read_to_string(path()).unwrap();
    let first = made.lines().zip(kept.lines()).position(|(a, b)| a != b);
    assert!(made == kept, "the demo differs from line {first:?} on; make it anew with BENCHWALK_MAKE_DEMO=1");
}

#[test]
fn it_keeps_the_rules_across_lines() {
    let lines = journal::read(&std::fs::read_to_string(path()).unwrap()).unwrap();
    assert_eq!(Season::new(Plan::default(), vec![]).check(&lines), vec![]);
    assert!(lines.iter().filter(|l| matches!(l, Line::Bench(_))).count() == 24);
}

/// Everything told at a level or above on a day: (warning, benches, level).
fn told(season: &Season, month: u32, day: u32, least: Severity) -> Vec<(String, String, &'static str)> {
    let all = assess_all(season, date(month, day), &Limits::default());
    let mut told: Vec<_> = all
        .all()
        .filter(|w| w.level >= least)
        .map(|w| (w.name.code().to_owned(), w.benches.join(" "), w.level.code()))
        .collect();
    told.sort();
    told
}

#[test]
fn three_benches_are_flagged_on_its_day() {
    let s = read();
    let mut by_bench: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (name, benches, level) in told(&s, DAY.0, DAY.1, Severity::Act) {
        by_bench.entry(benches).or_default().push(format!("{name} {level}"));
    }
    insta::assert_debug_snapshot!(by_bench, @r#"
    {
        "B10": [
            "wet-base act",
        ],
        "B6": [
            "too-dry act",
        ],
        "M7": [
            "staying-wet act",
        ],
    }
    "#);
}

#[test]
fn an_earlier_warning_has_passed_by_itself() {
    let s = read();
    let mut days = Vec::new();
    let mut day = date(8, 17);
    while day <= date(DAY.0, DAY.1) {
        for (name, benches, level) in
            told(&s, chrono::Datelike::month(&day), chrono::Datelike::day(&day), Severity::Act)
        {
            days.push(format!("{} {name} {level} {benches}", day.format("%m-%d")));
        }
        day = crate::grow::after(day, 1);
    }
    insta::assert_snapshot!(days.join("\n"), @r#"
    09-05 wet-base act M3
    09-06 wet-base act M3
    09-07 wet-base act M3
    09-10 staying-wet act M3
    09-11 staying-wet act M3
    09-11 staying-wet act M4
    09-12 staying-wet act M3
    09-12 staying-wet act M4
    09-13 staying-wet act M3
    09-13 staying-wet act M4
    10-06 wet-base act B10
    10-07 wet-base act B10
    10-08 wet-base act B10
    10-08 wet-base act M7
    10-09 wet-base act M7
    10-10 staying-wet act M7
    10-10 wet-base act M7
    10-11 staying-wet act M7
    10-12 staying-wet act M7
    10-13 staying-wet act M7
    10-13 too-dry act B6
    10-13 wet-base act B10
    10-14 staying-wet act M7
    10-14 too-dry act B6
    10-14 wet-base act B10
    "#);
}

/// The review of its evening fits one screen of 24 lines and a half.
#[test]
fn its_review_is_short() {
    let (s, limits, on) = (read(), Limits::default(), date(DAY.0, DAY.1));
    let of = |day| assess_all(&s, day, &limits).all().cloned().collect::<Vec<_>>();
    let before = of(on.pred_opt().unwrap());
    let text = review::text(&benchwalk::review::build(&s, on, of(on), &before, "defaults".to_owned()).unwrap());
    assert!(text.lines().count() <= 36, "{} lines:\n{text}", text.lines().count());
}

#[test]
fn it_is_the_season_it_promises() {
    let s = read();
    assert_eq!(s.houses(), ["Mill", "Brook"]);
    let lots = s.lots();
    let mut containers: Vec<&str> = lots.iter().map(|l| l.container.as_str()).collect();
    containers.sort_unstable();
    containers.dedup();
    assert_eq!((lots.len(), containers), (5, vec!["4.5 in", "6 in", "8 in"]));
    let big: Vec<_> = lots.iter().filter(|l| l.container == "8 in").collect();
    assert!(big.iter().all(|l| l.cuttings_per_pot == 7 && l.pinch == Pinch::None) && !big.is_empty());
    for bench in s.benches() {
        assert!(s.standing(&bench.bench, date(DAY.0, DAY.1)).is_some(), "{} stands empty", bench.bench);
    }
    for e in s.entries().iter().filter(|e| e.name() == KindName::Moved) {
        let from = s.standing(e.place.code(), e.day()).and_then(|x| s.lot(&x.lot)).unwrap();
        let week = (e.day() - from.planted).num_days() / 7 + 1;
        assert_eq!(week, 4, "moved on {}", e.day());
    }
    let last = s.entries().last().unwrap().day();
    assert_eq!(last, date(DAY.0, DAY.1), "the demo's day is the day of its last entry");
}

#[test]
fn the_wet_bench_is_caught_before_its_leaves_yellow() {
    let s = read();
    assert_eq!(s.history("M7", date(DAY.0, DAY.1)).of(KindName::Leaves).count(), 0);
}
