//! Position that no design held, and houses as blocks.

use crate::field::{Field, date};
use crate::rng::Rng;
use benchwalk::stats::Draw;
use benchwalk::trials::{Caution, Difference, completely_randomized, randomized_blocks};

const RATES: [&str; 4] = ["0 g", "4 g", "8 g", "12 g"];

#[test]
fn a_steep_trend_along_a_bench_laid_without_blocks_is_left_over_and_decides() {
    let mut field = Field::new();
    field.trial("completely-randomized", &RATES, r#","reads":["height"]"#);
    let dealt = completely_randomized(4, 6, &mut Draw::new("T1", "48213907", "layout"));
    let mut rng = Rng::new(7);
    for (n, rate) in (1..).zip(dealt) {
        let (row, column) = ((n - 1) / 6 + 1, (n - 1) % 6 + 1);
        field.plot(n, ("M4", row, column), None, RATES[rate]);
        let cm = 30.0 + 2.0 * f64::from(column) + 0.9 * rate as f64 + 0.5 * rng.normal();
        field.height(date(10, 12), n, &[(cm * 10.0).round() / 10.0]);
    }
    let analysis = field.analysis(date(10, 12)).unwrap();
    let found = |of: &[Difference]| of.iter().filter(|d| d.is_found()).count();
    assert!(analysis.checks.left_over.as_ref().unwrap().p < 0.001, "{:?}", analysis.checks.left_over);
    assert!(analysis.position_decides);
    assert_eq!(found(&analysis.comparisons.as_ref().unwrap().differences), 0, "the design's own intervals");
    assert_eq!(analysis.verdict(), analysis.with_position.as_ref().unwrap().differences);
    assert!(found(analysis.verdict()) >= 3, "{:?}", analysis.verdict());
}

#[test]
fn a_trial_over_two_houses_has_the_house_as_its_block() {
    let mut field = Field::new();
    field.trial("randomized-blocks", &RATES, r#","reads":["height"]"#);
    let blocks = randomized_blocks(&[2; 4], 2, &mut Draw::new("T1", "48213907", "layout"));
    let mut rng = Rng::new(11);
    let mut n = 0;
    for (block, (dealt, bench)) in (1..).zip(blocks.into_iter().zip(["M3", "E3"])) {
        for (column, rate) in (1..).zip(dealt) {
            n += 1;
            // The same rows and columns in both houses: the bench tells the places apart.
            field.plot(n, (bench, 1, column), Some(block), RATES[rate]);
            let cm = 40.0 - 6.0 * f64::from(block) + 1.5 * rate as f64 + 0.6 * rng.normal();
            field.height(date(10, 12), n, &[(cm * 10.0).round() / 10.0]);
        }
    }
    assert_eq!(n, 16);
    let analysis = field.analysis(date(10, 12)).unwrap();
    assert_eq!((analysis.position.squares.df, analysis.rest.squares.df), (1, 11));
    assert!(analysis.position.share > 0.5, "{:?}", analysis.position);
    let most = analysis.verdict().iter().find(|d| d.pair == (3, 0)).unwrap();
    assert!(most.is_found() && most.difference > 0.0);
    assert_eq!(analysis.cautions, []);
}

#[test]
fn one_plot_a_rate_in_each_of_two_houses_leaves_too_little_for_intervals() {
    let mut field = Field::new();
    field.trial("randomized-blocks", &RATES, r#","reads":["height"]"#);
    for n in 1..=8_u32 {
        let (bench, block) = if n < 5 { ("M3", 1) } else { ("E3", 2) };
        field.plot(n, (bench, 1, n), Some(block), RATES[(n as usize - 1) % 4]);
        field.height(date(10, 12), n, &[30.0 + f64::from(n * n % 5)]);
    }
    let analysis = field.analysis(date(10, 12)).unwrap();
    assert_eq!(analysis.refused, Some(benchwalk::trials::Refused::FewLeft(3)));
    assert!(analysis.verdict().is_empty() && analysis.means.iter().all(|mean| mean.interval.is_none()));
    assert_eq!(analysis.cautions, [Caution::FewDegrees(3)]);
}
