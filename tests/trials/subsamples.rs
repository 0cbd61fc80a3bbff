//! Pots within a plot are subsamples, however many are read.

use crate::field::{Field, date, near, outside};
use benchwalk::record::TrialReading;
use benchwalk::trials::{Over, Refused, Rules, analyze};

/// Six workers as blocks, three machines as treatments, three readings a plot (Milliken and Johnson 1984).
fn machines() -> Field {
    let set = outside("machines-subsamples");
    let mut field = Field::new();
    field.trial("randomized-blocks", &["A", "B", "C"], r#","reads":["height"]"#);
    let rows = set["data"].as_array().unwrap();
    let text = |value: &serde_json::Value| value.as_str().unwrap().to_owned();
    let mut n = 0;
    for block in 1..=6_u32 {
        for (treatment, column) in [("A", 1), ("B", 2), ("C", 3)] {
            n += 1;
            let of = |row: &&serde_json::Value| text(&row[0]) == block.to_string() && text(&row[1]) == treatment;
            let cm: Vec<f64> = rows.iter().filter(of).map(|row| row[2].as_f64().unwrap()).collect();
            assert_eq!(cm.len(), 3);
            field.plot_of(n, ("M4", block, column), Some(block), treatment, 3);
            field.height(date(10, 12), n, &cm);
        }
    }
    field
}

#[test]
fn three_pots_a_plot_do_not_tell_b_from_c_apart() {
    let analysis = machines().analysis(date(10, 12)).unwrap();
    assert_eq!((analysis.treatment.squares.df, analysis.rest.squares.df), (2, 10));
    near(analysis.treatment.f.unwrap(), 20.576_082_964_074_4, 1e-8);
    let of = |pair| analysis.verdict().iter().find(|d| d.pair == pair).unwrap().to_owned();
    let (b_a, c_a, c_b) = (of((1, 0)), of((2, 0)), of((2, 1)));
    assert!(b_a.is_found() && c_a.is_found() && !c_b.is_found());
    near(c_b.difference, 5.95, 1e-9);
    near(c_b.interval.0, -0.017_732_266_7, 1e-4);
}

#[test]
fn whole_benches_are_the_plots_however_many_pots_are_read() {
    // Each rate on its own bench, ten pots written as ten plots: nothing can be said.
    let mut field = Field::new();
    field.trial("completely-randomized", &["0 g", "4 g", "8 g"], r#","reads":["height"]"#);
    let mut n = 0;
    for (bench, rate) in [("M1", "0 g"), ("M2", "4 g"), ("M3", "8 g")] {
        for column in 1..=10 {
            n += 1;
            field.plot(n, (bench, 1, column), None, rate);
            field.height(date(10, 12), n, &[30.0 + f64::from(n % 7) / 2.0]);
        }
    }
    assert_eq!(field.analysis(date(10, 12)).unwrap_err(), Refused::OwnBench);
}

#[test]
fn each_rate_in_one_block_is_refused_and_has_no_p() {
    // The readings of a sound trial, as if every rate had stood in a row of its own.
    let set = outside("trial-t1");
    let mut field = Field::new();
    field.trial("as-laid", &["0 g", "4 g", "8 g", "12 g"], r#","reads":["height"]"#);
    let mut columns = [0; 4];
    for (n, row) in (1..).zip(set["data"].as_array().unwrap()) {
        let rate = row[3].as_u64().unwrap();
        let at = usize::try_from(rate / 4).unwrap();
        columns[at] += 1;
        let row_of = u32::try_from(at).unwrap() + 1;
        field.plot(n, ("M4", row_of, columns[at]), Some(row_of), &format!("{rate} g"));
        field.height(date(10, 12), n, &[row[4].as_f64().unwrap()]);
    }
    assert!(matches!(field.analysis(date(10, 12)).unwrap_err(), Refused::Together(_)));
}

#[test]
fn plots_that_were_not_read_are_counted_and_the_last_full_day_is_reported() {
    let mut field = machines();
    for n in 1..=14 {
        field.height(date(10, 19), n, &[60.0]);
    }
    let readings = field.readings(date(10, 20));
    assert_eq!(readings.reported(TrialReading::Height), Some(date(10, 12)));
    let data = readings.data(TrialReading::Height, Over::Day(date(10, 19)), false).unwrap();
    assert_eq!(analyze(&data, Rules::default()).unwrap_err(), Refused::NotRead(4, 18));
}
