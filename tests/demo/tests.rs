//! The file is what is made, and it shows what it is meant to show.

use crate::grow::date;
use crate::season as plain;
use crate::story::{DAY, season};
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::record::{Kind, KindName, Line, Pinch, Plan, Term};
use benchwalk::report::review;
use benchwalk::season::Season;
use benchwalk::warnings::{Severity, assess_all};
use chrono::NaiveDate;
use std::collections::BTreeMap;
use std::path::Path;

const HEAD: &str = "\
# A demo season. Everything in it is invented: the place, the people, the benches, every number, rate, dose and interval.
# It is made by a seeded model of a crop (tests/demo); make it again with: BENCHWALK_MAKE_DEMO=1 cargo test --test demo
# Its day is October 14, 2026: the day of its last entry, with three benches walked.
";

fn path() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data/demo.jsonl")
}

fn made() -> String {
    let (plan, entries) = season();
    let s = Season::new(plan, entries);
    format!("{HEAD}{}", journal::write(None, s.plan(), s.entries()))
}

fn on() -> NaiveDate {
    date(DAY.0, DAY.1)
}

/// The review of the evening of its day, as text.
fn its_review(s: &Season) -> String {
    let of = |day| assess_all(s, day, &Limits::default()).all().cloned().collect::<Vec<_>>();
    let before = of(on().pred_opt().unwrap());
    review::text(&benchwalk::review::build(s, on(), of(on()), &before, "defaults".to_owned()).unwrap())
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
    assert!(made == kept, "the demo differs from line {first:?} on; make it again with BENCHWALK_MAKE_DEMO=1");
}

#[test]
fn it_keeps_the_rules_across_lines() {
    let lines = journal::read(&std::fs::read_to_string(path()).unwrap()).unwrap();
    assert_eq!(Season::new(Plan::default(), vec![]).check(&lines), vec![]);
    assert!(lines.iter().filter(|l| matches!(l, Line::Bench(_))).count() == 24);
}

/// Every warning at a level or above on a day: (warning, benches, level).
fn flagged(season: &Season, day: NaiveDate, least: Severity) -> Vec<(String, String, &'static str)> {
    let all = assess_all(season, day, &Limits::default());
    let mut flagged: Vec<_> = all
        .all()
        .filter(|w| w.level >= least)
        .map(|w| (w.name.code().to_owned(), w.benches.join(" "), w.level.code()))
        .collect();
    flagged.sort();
    flagged
}

#[test]
fn one_bench_is_urgent_and_two_are_at_act_on_its_day() {
    let mut by_bench: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for (name, benches, level) in flagged(&read(), on(), Severity::Watch) {
        by_bench.entry(benches).or_default().push(format!("{name} {level}"));
    }
    insta::assert_debug_snapshot!(by_bench, @r#"
    {
        "D10": [
            "wet-base act",
        ],
        "D6": [
            "dry-base watch",
            "too-dry urgent",
        ],
        "M7": [
            "staying-wet act",
        ],
    }
    "#);
}

#[test]
fn a_warning_of_yesterday_has_cleared() {
    let s = read();
    let of = |day| flagged(&s, day, Severity::Act);
    let (before, now) = (of(on().pred_opt().unwrap()), of(on()));
    let cleared = before.iter().filter(|(name, benches, _)| !now.iter().any(|n| (&n.0, &n.1) == (name, benches)));
    assert_eq!(cleared.collect::<Vec<_>>(), [&("staying-wet".to_owned(), "M2".to_owned(), "act")]);
    let text = its_review(&s);
    assert!(text.contains("staying wet on M2"), "{text}");
}

#[test]
fn what_needs_work_through_the_season() {
    let s = read();
    let mut days = Vec::new();
    let mut day = date(8, 14);
    while day <= on() {
        for (name, benches, level) in flagged(&s, day, Severity::Act) {
            days.push(format!("{} {name} {level} {benches}", day.format("%m-%d")));
        }
        day = crate::grow::after(day, 1);
    }
    insta::assert_snapshot!(days.join("\n"), @r"
    10-06 wet-base act D10
    10-07 wet-base act D10
    10-08 wet-base act D10
    10-09 wet-base act D10
    10-09 wet-base act M2
    10-10 wet-base act D10
    10-10 wet-base act M2
    10-11 staying-wet act M2
    10-11 staying-wet act M7
    10-11 wet-base act D10
    10-11 wet-base act M2
    10-12 staying-wet act M2
    10-12 staying-wet act M7
    10-12 too-dry act D6
    10-12 wet-base act D10
    10-13 staying-wet act M2
    10-13 staying-wet act M7
    10-13 too-dry urgent D6
    10-13 wet-base act D10
    10-14 staying-wet act M7
    10-14 too-dry urgent D6
    10-14 wet-base act D10
    ");
}

#[test]
fn one_bench_is_closed_on_the_morning_of_its_day() {
    let s = read();
    let closed = |hour, minute| {
        let at = plain::at(DAY.0, DAY.1, hour, minute).to_utc();
        let benches = s.benches().iter().filter(|b| s.keep_out(&b.bench, at).is_some());
        benches.map(|b| b.bench.clone()).collect::<Vec<_>>()
    };
    assert_eq!(closed(6, 0), ["D3"]);
    assert_eq!(closed(8, 14), ["D3"]);
    assert_eq!(closed(8, 16), Vec::<String>::new());
}

/// The review of its evening fits two screens of 24 lines.
#[test]
fn its_review_is_short() {
    let text = its_review(&read());
    assert!(text.lines().count() <= 48, "{} lines:\n{text}", text.lines().count());
}

#[test]
fn it_is_the_season_it_promises() {
    let s = read();
    assert_eq!(s.houses(), ["Mill", "Dell"]);
    let lots = s.lots();
    let mut containers: Vec<_> = lots.iter().map(|l| (l.container.as_str(), l.cuttings_per_pot)).collect();
    containers.sort_unstable();
    containers.dedup();
    assert_eq!((lots.len(), containers), (5, vec![("10 in", 4), ("5 in", 1), ("6.5 in", 1)]));
    let unpinched: Vec<_> = lots.iter().filter(|l| l.pinch == Pinch::None).collect();
    assert!(matches!(&unpinched[..], [lot] if lot.cuttings_per_pot == 1), "{unpinched:?}");
    let single = &unpinched[0].lot;
    for e in s.entries().iter().filter(|e| e.name() == KindName::Pinched) {
        assert!(
            s.standing(e.place.code(), e.day()).is_some_and(|x| x.lot != *single),
            "{} was pinched",
            e.place.code()
        );
    }
    for bench in s.benches() {
        assert!(s.standing(&bench.bench, on()).is_some(), "{} stands empty", bench.bench);
    }
    for e in s.entries().iter().filter(|e| e.name() == KindName::Moved) {
        let from = s.standing(e.place.code(), e.day()).and_then(|x| s.lot(&x.lot)).unwrap();
        let week = (e.day() - from.planted).num_days() / 7 + 1;
        assert_eq!(week, 4, "moved on {}", e.day());
    }
    let last = s.entries().last().unwrap().day();
    assert_eq!(last, on(), "the demo's day is the day of its last entry");
}

#[test]
fn the_wet_bench_is_caught_before_its_leaves_yellow() {
    let s = read();
    assert_eq!(s.history("M7", on()).of(KindName::Leaves).count(), 0);
}

/// The doses of the trial examples, g per pot; a lot with none has no such entry.
#[test]
fn its_codes_doses_and_initials_cannot_be_misread() {
    let s = read();
    for bench in s.benches() {
        let letter = bench.bench.chars().next().unwrap();
        assert!(!"BNPKS".contains(letter), "{} reads as a nutrient or a product", bench.bench);
    }
    for lot in s.lots() {
        assert!(!lot.lot.starts_with(['B', 'N', 'P', 'K', 'S']), "{}", lot.lot);
    }
    for e in s.entries() {
        assert!(matches!(&*e.by, "jo" | "kel"), "{}: reads as a unit?", e.by);
        match &*e.kind {
            // None given is written of a trial's plots alone.
            Kind::Topdressed { g_per_pot, .. } if *g_per_pot > 0.0 || e.plot.is_none() => {
                assert!([4.0, 8.0, 12.0].contains(g_per_pot), "{g_per_pot} g");
            }
            Kind::Sprayed { ai, rei_h, .. } => {
                assert!(
                    ai.contains("not a real product") && rei_h % 12.0 != 0.0 && rei_h % 4.0 != 0.0,
                    "{ai} {rei_h} h"
                );
            }
            Kind::GrowthRegulator { .. } => panic!("an ingredient of a real product in the demo"),
            _ => {}
        }
    }
}
