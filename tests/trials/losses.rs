//! Plots that are lost and readings that are voided.

use crate::field::{Field, date, near, outside};
use benchwalk::record::TrialReading;
use benchwalk::stats::range_quantile;
use benchwalk::trials::{Caution, Data, DayRead, Over, Rules, analyze};
use std::f64::consts::SQRT_2;

/// The 32 plots of the strawberry trial (Mead 1988) in tenths of a unit as cm, read twice.
fn strawberries() -> (Field, Vec<(String, String)>) {
    let set = outside("strawberry-blocks");
    let mut field = Field::new();
    field.trial(
        "randomized-blocks",
        &["E", "F", "G", "M", "P", "R1", "Re", "V"],
        r#","reads":["height"],"control":"G""#,
    );
    let text = |value: &serde_json::Value| value.as_str().unwrap().to_owned();
    let number = |value: &serde_json::Value| u32::try_from(value.as_u64().unwrap()).unwrap();
    let rows: Vec<_> = set["data"].as_array().unwrap().iter().map(|r| r.as_array().unwrap().clone()).collect();
    for (n, row) in (1..).zip(&rows) {
        let block = text(&row[0]).trim_start_matches('B').parse().unwrap();
        field.plot(n, ("M4", number(&row[2]), number(&row[3])), Some(block), &text(&row[1]));
    }
    for (on, share) in [(date(10, 5), 0.5), (date(10, 12), 1.0)] {
        for (n, row) in (1..).zip(&rows) {
            let lost = on == date(10, 12)
                && matches!((text(&row[0]).trim_start_matches('B'), &*text(&row[1])), ("3", "Re") | ("4", "R1"));
            if lost {
                field.entry(date(10, 9), n, r#""kind":"losses","pots":1,"cause":"stem broken""#);
            } else {
                field.height(on, n, &[row[4].as_f64().unwrap() * 10.0 * share]);
            }
        }
    }
    let plots = rows.iter().map(|row| (text(&row[0]), text(&row[1])));
    (field, plots.collect())
}

/// The means without the plots of Re in block 3 and R1 in block 4, computed from the normal equations beside the program.
const MEANS: [(f64, f64); 8] = [
    (65.5, 5.191_187_73),
    (56.25, 5.191_187_73),
    (65.5, 5.191_187_73),
    (55.5, 5.191_187_73),
    (65.0, 5.191_187_73),
    (40.265_909_09, 6.102_280_77),
    (53.665_909_09, 6.102_280_77),
    (63.0, 5.191_187_73),
];

fn is_as_computed(data: &Data) {
    let analysis = analyze(data, Rules::default()).unwrap();
    assert_eq!(analysis.rest.squares.df, 19);
    near(analysis.rest.squares.mean().unwrap(), 107.793_720_095_7, 1e-6);
    for (mean, (expected, error)) in analysis.means.iter().zip(MEANS) {
        near(mean.mean, expected, 1e-6);
        near(mean.error, error, 1e-6);
    }
    // Tukey and Kramer: every pair by its own standard error, at the one critical value.
    let pairs = analysis.compare(benchwalk::trials::Against::All, Rules::default()).unwrap();
    let critical = range_quantile(0.05, 8, 19.0).unwrap() / SQRT_2;
    for (pair, difference, error) in
        [((5, 0), -25.234_090_91, 8.011_632_83), ((6, 5), 13.4, 8.686_518_52), ((6, 2), -11.834_090_91, 8.011_632_83)]
    {
        let found = pairs.differences.iter().find(|d| d.pair == pair).unwrap();
        near(found.difference, difference, 1e-6);
        near(found.error, error, 1e-6);
        near(found.interval.1 - found.difference, critical * error, 1e-6);
    }
    assert!(analysis.cautions.contains(&Caution::Lost(vec![0, 0, 0, 0, 0, 1, 1, 0])), "{:?}", analysis.cautions);
}

#[test]
fn two_lost_plots_leave_means_over_all_blocks_and_pairs_by_their_own_error() {
    let (field, _) = strawberries();
    is_as_computed(&field.data(date(10, 12)));
}

#[test]
fn a_voided_reading_counts_for_nothing_and_the_one_written_instead_does() {
    let (mut field, plots) = strawberries();
    let slip =
        1 + u32::try_from(plots.iter().position(|p| (p.0.trim_start_matches('B'), &*p.1) == ("1", "E")).unwrap())
            .unwrap();
    let id = "0199a000-0000-7000-8000-000000000001";
    field.entry(date(10, 12), slip, &format!(r#""kind":"height","cm":[96],"id":"{id}""#));
    let wrong = analyze(&field.data(date(10, 12)), Rules::default()).unwrap();
    assert!((wrong.means[0].mean - 65.5).abs() > 5.0, "the slip counts until it is voided");
    field.entry(date(10, 12), slip, &format!(r#""kind":"strike","entry":"{id}","why":"digits swapped""#));
    // What was read before stands again.
    is_as_computed(&field.data(date(10, 12)));
    // The last reading of a plot and day counts.
    field.height(date(10, 12), slip, &[68.0]);
    assert_eq!(field.data(date(10, 12)).plots[slip as usize - 1].value, Some(68.0));
}

#[test]
fn a_lost_plot_stays_in_the_days_before_it_was_lost() {
    let (field, _) = strawberries();
    let readings = field.readings(date(10, 12));
    let full = |day, read| DayRead { day, read, living: read };
    assert_eq!(readings.days(TrialReading::Height), [full(date(10, 5), 32), full(date(10, 12), 30)]);
    let before = readings.data(TrialReading::Height, Over::Day(date(10, 5)), false).unwrap();
    assert!(before.plots.iter().all(|plot| plot.value.is_some() && !plot.lost));
    let analysis = analyze(&before, Rules::default()).unwrap();
    assert_eq!((analysis.rest.squares.df, analysis.cautions.as_slice()), (21, [].as_slice()));
    let after = field.data(date(10, 12));
    assert_eq!(after.plots.iter().filter(|plot| plot.lost && plot.value.is_none()).count(), 2);
    // The pots also leave the count of their bench.
    let season = field.season();
    let pots = |on| season.standing("M4", on).unwrap().pots;
    assert_eq!((pots(date(10, 8)), pots(date(10, 9))), (60, 58));
}

#[test]
fn a_plot_of_several_pots_lives_until_its_last_pot_is_lost() {
    let mut field = Field::new();
    field.trial("as-laid", &["0 g", "8 g"], r#","reads":["height"]"#);
    field.plot_of(1, ("M4", 1, 1), None, "0 g", 3);
    field.entry(date(10, 6), 1, r#""kind":"losses","pots":2"#);
    field.entry(date(10, 8), 1, r#""kind":"losses","pots":1"#);
    let readings = field.readings(date(10, 12));
    let lost = [6, 7, 8].map(|day| readings.is_lost(0, date(10, day)));
    assert_eq!(lost, [false, false, true]);
}
