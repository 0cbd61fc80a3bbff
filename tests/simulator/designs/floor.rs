//! Randomized blocks keep 5% of false findings along a steep gradient, and the power of the designs is as the help says.

use super::laid::{BLOCKS, Laid, TREATMENTS, by_f, trial};
use super::{TRIALS, all, allowance, share};
use benchwalk::stats::{Draw, median};
use benchwalk::terms::Design;
use benchwalk::trials::{Against, Rules, analyze, seen};

/// Four evenly spaced treatments, the outer ones 1.5 SD apart.
const EFFECTS: [f64; TREATMENTS] = [0.0, 0.5, 1.0, 1.5];

/// How often those are told apart by F: gradient, then by design in the order of [`Laid::ALL`]. Simulated elsewhere, in R.
const POWER: [(f64, [f64; 4]); 3] =
    [(0.0, [0.53, 0.50, 0.50, 0.51]), (2.0, [0.39, 0.50, 0.50, 0.35]), (3.0, [0.30, 0.50, 0.49, 0.26])];

#[test]
fn the_power_of_each_design_is_as_the_table_says() {
    let mut table =
        "design                     gradient   told of none   told of 1.5 SD   expected   rest\n".to_owned();
    for (gradient, expected) in POWER {
        for (laid, expected) in Laid::ALL.into_iter().zip(expected) {
            let none = share(|n| by_f(&trial(n, laid, gradient, [0.0; TREATMENTS])).0);
            let found = all(|n| by_f(&trial(n, laid, gradient, EFFECTS)));
            let told = found.iter().filter(|(told, _)| *told).count() as f64 / TRIALS as f64;
            let rest = found.iter().map(|(_, rest)| rest).sum::<f64>() / TRIALS as f64;
            table += &format!(
                "{:<26} {gradient:>5} SD {:>12.1} % {told:>14.2} {expected:>12.2} {rest:>8.2}\n",
                laid.text(),
                none * 100.0
            );
            assert!((told - expected).abs() <= allowance(), "{laid:?} at {gradient} SD: {told}, not {expected}");
            assert!(none <= 0.05 + allowance(), "{laid:?} at {gradient} SD finds {none} where nothing is");
        }
    }
    print!("{table}");
}

#[test]
fn blocks_across_a_steep_gradient_find_nothing_where_nothing_is() {
    let told = all(|n| {
        let data = trial(n, Laid::Blocks, 3.0, [0.0; TREATMENTS]);
        let analysis = analyze(&data, super::laid::f_alone()).unwrap();
        let mut reshuffle = analysis.reshuffle(Draw::new("T1", &format!("{n:08}"), "reshuffle height")).unwrap();
        reshuffle.step(199);
        (analysis.treatment.p.unwrap() < 0.05, reshuffle.found().p <= 0.05)
    });
    let of = |told: usize| told as f64 / TRIALS as f64;
    let by_f = of(told.iter().filter(|t| t.0).count());
    let by_reshuffling = of(told.iter().filter(|t| t.1).count());
    println!(
        "no effect, gradient 3 SD, {BLOCKS} blocks of {TREATMENTS}, {TRIALS} trials: told by F {:.1} %, by reshuffling {:.1} %",
        by_f * 100.0,
        by_reshuffling * 100.0
    );
    let wide = if cfg!(debug_assertions) { allowance() } else { 0.01 };
    for (told, by) in [(by_f, "F"), (by_reshuffling, "reshuffling")] {
        assert!((told - 0.05).abs() <= wide, "{told} told by {by}");
    }
}

#[test]
fn the_least_difference_is_found_in_four_of_five_trials() {
    let mut table = format!(
        "least difference, {BLOCKS} blocks of {TREATMENTS}, gradient 3 SD   D, SD   found   D after the trial, median\n"
    );
    for (against, text) in [(Against::All, "all pairs"), (Against::Control, "with the control")] {
        let rules = Rules::default();
        let planned = seen((Design::RandomizedBlocks, TREATMENTS, BLOCKS), 1.0, against, (rules.alpha, rules.power));
        let least = planned.seen.unwrap();
        let found = all(|n| {
            let mut data = trial(n, Laid::Blocks, 3.0, [0.0, least, least / 2.0, least / 2.0]);
            data.control = (against == Against::Control).then_some(0);
            let comparisons = analyze(&data, rules).unwrap().comparisons.unwrap();
            assert_eq!(comparisons.against, against);
            let pair = comparisons.differences.iter().find(|d| d.pair == (1, 0)).unwrap();
            (pair.is_found(), comparisons.seen.unwrap())
        });
        let told = found.iter().filter(|f| f.0).count() as f64 / TRIALS as f64;
        let after = median(&found.iter().map(|f| f.1).collect::<Vec<_>>()).unwrap();
        table += &format!("{text:<47} {least:>9.2} {:>6.1} % {after:>10.2}\n", told * 100.0);
        assert!((told - 0.8).abs() <= allowance(), "{text}: {least} found in {told}");
        assert!((after / least - 1.0).abs() < 0.1, "{text}: {after} after the trial, not {least}");
    }
    print!("{table}");
}
