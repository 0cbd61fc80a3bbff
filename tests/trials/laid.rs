//! Layouts that were not drawn here: what of the places goes into the model, and plots that were moved.

use crate::field::{Field, date};
use benchwalk::record::TrialReading;
use benchwalk::stats::Draw;
use benchwalk::trials::{Analysis, Caution, Over, randomized_blocks};

const RATES: [&str; 4] = ["0 g", "4 g", "8 g", "12 g"];

/// A trial laid by hand: `places` says of each plot its row, column and block.
fn by_hand(places: impl Fn(u32) -> (u32, u32, Option<u32>)) -> Field {
    let mut field = Field::new();
    field.trial("as-laid", &RATES, r#","reads":["height"]"#);
    let rates = randomized_blocks(&[1; 4], 6, &mut Draw::new("T9", "00000042", "layout")).concat();
    for (n, rate) in (1..).zip(rates) {
        let (row, column, block) = places(n - 1);
        field.plot(n, ("M4", row, column), block, RATES[rate]);
        field.height(date(10, 12), n, &[30.0 + rate as f64 + f64::from(n * 7 % 11) / 5.0]);
    }
    field
}

fn analyzed(field: &Field) -> Analysis {
    let analysis = field.analysis(date(10, 12)).unwrap();
    assert!(analysis.cautions.contains(&Caution::NotDrawn), "{:?}", analysis.cautions);
    assert!(analysis.reshuffle(Draw::new("T1", "00000001", "reshuffle height")).is_none());
    analysis
}

#[test]
fn an_imported_layout_whose_plots_carry_a_block_goes_by_the_block() {
    let analysis = analyzed(&by_hand(|n| (n / 4 + 1, n % 4 + 1, Some(n / 4 + 1))));
    assert_eq!(analysis.position.squares.df, 5);
}

#[test]
fn without_a_block_row_and_column_count_where_each_level_has_two_plots() {
    let analysis = analyzed(&by_hand(|n| (n / 4 + 1, n % 4 + 1, None)));
    assert_eq!(analysis.position.squares.df, 5 + 3);
    // Two rows of twelve: a column has two plots.
    assert_eq!(analyzed(&by_hand(|n| (n / 12 + 1, n % 12 + 1, None))).position.squares.df, 1 + 11);
}

#[test]
fn a_single_row_of_pots_has_no_position_to_take_out() {
    // One row is no level, and every column has one plot.
    assert_eq!(analyzed(&by_hand(|n| (1, n + 1, None))).position.squares.df, 0);
    // Where a single column stands alone, columns are left out and rows are not.
    let odd = analyzed(&by_hand(|n| if n == 23 { (4, 9, None) } else { (n / 6 + 1, n % 6 + 1, None) }));
    assert_eq!(odd.position.squares.df, 3);
}

#[test]
fn a_block_that_some_plots_lack_is_no_block() {
    let analysis = analyzed(&by_hand(|n| (1, n + 1, (n != 5).then_some(n / 4 + 1))));
    assert_eq!(analysis.position.squares.df, 0);
}

#[test]
fn moved_pots_are_said_from_the_day_they_were_moved() {
    let mut field = by_hand(|n| (n / 4 + 1, n % 4 + 1, None));
    let treatment = field.readings(date(10, 12)).plots[0].treatment.clone();
    field.moved(1, ("M5", 1, 1), &treatment, date(10, 14));
    for n in 1..=24 {
        field.height(date(10, 19), n, &[31.0 + f64::from(n * 5 % 13) / 4.0]);
    }
    let season = field.season();
    let moved = |on| {
        let readings = benchwalk::trials::Readings::of(&season, "T1", on).unwrap();
        (readings.plots[0].bench.clone(), readings.cautions().contains(&Caution::Moved(date(10, 14))))
    };
    assert_eq!(moved(date(10, 12)), ("M4".to_owned(), false));
    assert_eq!(moved(date(10, 19)), ("M5".to_owned(), true));
    // It is the same plot: what was read of it before stays with it.
    let readings = field.readings(date(10, 19));
    assert_eq!(readings.days(TrialReading::Height).len(), 2);
    let before = readings.data(TrialReading::Height, Over::Day(date(10, 12)), false).unwrap();
    assert_eq!(before.plots[0].value, field.data(date(10, 12)).plots[0].value);
    assert!(before.plots.iter().all(|plot| plot.value.is_some()));
}
