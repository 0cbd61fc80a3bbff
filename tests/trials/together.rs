//! Two laptops on one trial.

use crate::field::{Field, date};
use benchwalk::journal;
use benchwalk::record::{Line, TrialReading};
use benchwalk::season::Season;
use benchwalk::store::Store;
use benchwalk::trials::{Over, Readings, Rules, analyze};

/// A trial of four plots as both laptops have it.
fn shared() -> Field {
    let mut field = Field::new();
    field.trial("randomized-blocks", &["0 g", "8 g"], r#","reads":["height"]"#);
    for n in 1..=12 {
        field.plot(n, ("M4", n.div_ceil(2), 2 - n % 2), Some(n.div_ceil(2)), if n % 2 == 0 { "8 g" } else { "0 g" });
    }
    field
}

/// The one reads the first seven plots, the other the last seven: two plots are read by both.
fn laptops() -> (Field, Field) {
    let (mut one, mut other) = (shared(), shared());
    for n in 1..=7 {
        one.height(date(10, 12), n, &[30.0 + f64::from(n * n % 7)]);
    }
    for n in 6..=12 {
        // A while later than on the first.
        other.entry(date(10, 12), n, &format!(r#""kind":"height","cm":[{}],"note":"second""#, 40 + n * n % 5));
    }
    for n in 6..=12 {
        other.height(date(10, 12), n, &[35.0 + f64::from(n * n % 5)]);
    }
    (one, other)
}

fn values(season: &Season) -> Vec<f64> {
    let readings = Readings::of(season, "T1", date(10, 12)).unwrap();
    (0..12).map(|n| readings.value(n, TrialReading::Height, date(10, 12)).unwrap()).collect()
}

#[test]
fn readings_of_one_plot_from_two_laptops_come_to_the_same_in_either_order() {
    let (one, other) = laptops();
    let of = |first: &Field, second: &Field| Season::of([first.lines(), second.lines()].concat());
    let (here, there) = (of(&one, &other), of(&other, &one));
    assert_eq!(values(&here), values(&there));
    // The last reading of a plot and day counts, whoever made it.
    assert!((values(&here)[5] - 36.0).abs() < 1e-9);
    assert!((values(&here)[4] - 34.0).abs() < 1e-9, "read by the first laptop only");
    let data = |season: &Season| {
        Readings::of(season, "T1", date(10, 12))
            .unwrap()
            .data(TrialReading::Height, Over::Day(date(10, 12)), false)
            .unwrap()
    };
    let analysis = analyze(&data(&here), Rules::default()).unwrap();
    assert_eq!(analysis.rest.squares.df, 5, "a plot that was read twice is one plot");
}

#[test]
fn their_files_take_in_each_others_lines_and_lose_none() {
    let (one, other) = laptops();
    let folder = tempfile::tempdir().unwrap();
    let mut files = Vec::new();
    for (name, mine, theirs) in [("one.db", &one, &other), ("other.db", &other, &one)] {
        let mut store = Store::create(&folder.path().join(name)).unwrap();
        store.append(&mine.lines()).unwrap();
        store.append(&theirs.lines()).unwrap();
        assert_eq!(store.append(&theirs.lines()).unwrap().new, 0, "a second time nothing is new");
        let (plan, entries) = store.load().unwrap();
        assert_eq!(entries.len(), 7 + 14);
        files.push((journal::write(None, &plan, &entries), Season::new(plan, entries)));
        store.close().unwrap();
    }
    assert_eq!(files[0].0, files[1].0);
    assert_eq!(values(&files[0].1), values(&files[1].1));
}

#[test]
fn a_trial_that_both_laptops_changed_is_to_be_settled_and_its_readings_stay() {
    let (one, other) = laptops();
    let mut season = Season::of([one.lines(), other.lines()].concat());
    let before = values(&season);
    let trial = Line::Trial(season.trial("T1").unwrap().clone());
    let replaced = trial.id();
    for (n, until) in [(1, "2026-10-19"), (2, "2026-10-26")] {
        let line = format!(
            r#"{{"type":"trial","trial":"T1","lot":"R6","question":"slow-release rate","treatments":["0 g","8 g"],"design":"randomized-blocks","seed":"48213907","reads":["height"],"from":"2026-10-05","until":"{until}","id":"0199a000-0000-7000-8000-00000000000{n}","at":"2026-10-13T08:0{n}:00-04:00","by":"kt","replaces":["{replaced}"]}}"#
        );
        let line = benchwalk::record::codec::decode(&line, benchwalk::record::codec::VERSION).unwrap();
        assert_eq!(season.check_join(&[&line]), vec![]);
        season.revise(line);
    }
    assert_eq!(season.heads(&trial.key()).len(), 2, "both stand until one is taken");
    assert_eq!(values(&season), before);
}
