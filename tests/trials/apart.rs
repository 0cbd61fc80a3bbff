//! A trial stands apart from the crop: what is written of its plots says nothing of the bench to the rules.

use crate::field::{Field, date};
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::record::{Entry, KindName, Line, Place};
use benchwalk::season::Season;
use benchwalk::warnings::assess_all;
use chrono::{Days, NaiveDate};

/// The demo with its trial and without it.
fn demo() -> (Season, Season) {
    let lines = journal::read(include_str!("../../demo-data/demo.jsonl")).unwrap();
    let of_trial = |line: &&Line| match line {
        Line::Trial(_) | Line::Plot(_) => true,
        Line::Entry(entry) => entry.plot.is_some(),
        _ => false,
    };
    let without: Vec<Line> = lines.iter().filter(|line| !of_trial(line)).cloned().collect();
    assert!(lines.len() >= without.len() + 1 + 24 + 24 * 8, "the demo has a trial and its readings");
    (Season::of(lines), Season::of(without))
}

fn days() -> impl Iterator<Item = NaiveDate> {
    (0..62).map(|n| date(8, 14) + Days::new(n))
}

#[test]
fn the_rules_say_the_same_of_the_demo_with_its_trial_and_without() {
    let (with, without) = demo();
    let limits = Limits::default();
    let said = |season: &Season, on| format!("{:?}", assess_all(season, on, &limits).all().collect::<Vec<_>>());
    for on in days().skip(30).step_by(3).chain([date(10, 12), date(10, 13), date(10, 14)]) {
        assert_eq!(said(&with, on), said(&without, on), "{on}");
    }
}

#[test]
fn the_record_of_the_demos_benches_is_the_same_with_its_trial_and_without() {
    let (with, without) = demo();
    for bench in without.benches() {
        for on in days() {
            let entries =
                |season: &Season| season.history(&bench.bench, on).all().iter().map(|e| e.id).collect::<Vec<_>>();
            assert_eq!(entries(&with), entries(&without), "{} on {on}", bench.bench);
            let standing = |season: &Season| season.standing(&bench.bench, on);
            assert_eq!(standing(&with), standing(&without), "{} on {on}", bench.bench);
        }
    }
}

/// A trial of four plots on M4.
fn small() -> Field {
    let mut field = Field::new();
    field.trial("as-laid", &["0 g", "8 g"], r#","reads":["height"]"#);
    for n in 1..=4 {
        field.plot(n, ("M4", 1, n), None, if n % 2 == 0 { "8 g" } else { "0 g" });
    }
    field
}

#[test]
fn a_reading_of_a_plot_is_not_the_benchs_and_its_losses_are() {
    let mut field = small();
    field.height(date(10, 12), 1, &[30.0]);
    field.entry(date(10, 12), 2, r#""kind":"topdressed","g_per_pot":8"#);
    field.entry(date(10, 12), 3, r#""kind":"losses","pots":1"#);
    let season = field.season();
    let history = season.history("M4", date(10, 12));
    let names: Vec<KindName> = history.all().iter().map(|entry: &&Entry| entry.name()).collect();
    assert_eq!(names, [KindName::Losses]);
    assert_eq!(season.standing("M4", date(10, 12)).unwrap().pots, 59);
}

#[test]
fn a_spray_on_a_plot_closes_its_whole_bench_and_no_other() {
    let mut field = small();
    field.entry(date(10, 12), 1, r#""kind":"sprayed","ai":"soap","against":"whitefly","how":"spray","rei_h":12"#);
    let season = field.season();
    let noon = date(10, 12).and_hms_opt(16, 0, 0).unwrap().and_utc();
    assert!(season.keep_out("M4", noon).is_some());
    assert!(season.keep_out("M5", noon).is_none());
}

#[test]
fn an_older_season_has_no_plot_anywhere_and_reads_as_ever() {
    let older = Season::of(journal::read(include_str!("../store/v3.jsonl")).unwrap());
    assert!(older.trials().is_empty() && older.plots_on("E1").is_empty());
    assert!(older.entries().iter().all(|entry| entry.plot.is_none() && entry.is_of_whole_place()));
    let of_e1 = older.entries().iter().filter(|entry| entry.place == Place::Bench("E1".into()));
    assert!(of_e1.count() > 10);
}
