//! What is refused, what is said beside a result, and that lost plots, gradients and layouts are treated as the design says.

use super::*;
use crate::stats::Draw;
use crate::terms::Design;

const RULES: Rules = Rules { alpha: 0.05, power: 0.8, least_df: 4, good_df: 10, shuffles: 9999 };

/// A trial of blocks (rows) by treatments (columns) with these values.
fn blocks(values: &[&[f64]]) -> Data {
    let treatments = (0..values[0].len()).map(|t| format!("{} g", 4 * t)).collect();
    let plots = values.iter().enumerate().flat_map(|(b, row)| {
        let block = u32::try_from(b).unwrap() + 1;
        row.iter().enumerate().map(move |(t, value)| Plot {
            number: block * 10 + u32::try_from(t).unwrap(),
            treatment: t,
            block: Some(block),
            bench: "M4".to_owned(),
            row: block,
            column: u32::try_from(t).unwrap() + 1,
            value: Some(*value),
            before: None,
            lost: false,
        })
    });
    let plots = plots.collect();
    Data { treatments, rates: None, control: None, design: Design::RandomizedBlocks, reading: Reading::Measured, plots }
}

fn sound() -> Data {
    blocks(&[
        &[10.1, 12.0, 14.2, 14.9],
        &[11.2, 12.9, 14.8, 16.3],
        &[9.3, 11.9, 13.1, 14.0],
        &[12.4, 13.5, 16.1, 16.8],
        &[10.7, 12.8, 13.9, 15.6],
    ])
}

#[test]
fn each_rate_in_one_spot_is_a_demonstration() {
    let once = blocks(&[&[10.0, 12.0, 14.0]]);
    assert_eq!(analyze(&once, RULES).unwrap_err(), Refused::Once);
}

#[test]
fn more_pots_on_a_bench_of_their_own_tell_nothing() {
    let mut data = sound();
    for plot in &mut data.plots {
        plot.bench = format!("M{}", plot.treatment);
        plot.block = None;
    }
    data.design = Design::CompletelyRandomized;
    assert_eq!(analyze(&data, RULES).unwrap_err(), Refused::OwnBench);
}

#[test]
fn two_benches_a_treatment_are_plots_and_their_pots_subsamples() {
    let mut data = sound();
    for plot in &mut data.plots {
        let side = if plot.row < 3 { "E" } else { "M" };
        plot.bench = format!("{side}{}", plot.treatment);
        plot.block = None;
    }
    data.design = Design::CompletelyRandomized;
    let analysis = analyze(&data, RULES).unwrap();
    assert_eq!(analysis.data().plots.len(), 8);
    assert_eq!(analysis.rest.squares.df, 4);
    assert!(analysis.cautions.contains(&Caution::Benches));
}

#[test]
fn treatment_that_stands_in_one_block_only_runs_together_with_it() {
    let mut data = sound();
    for plot in &mut data.plots {
        let odd = usize::from(plot.treatment % 2 == 1);
        plot.treatment = if plot.block == Some(2) { 2 + odd } else { odd };
    }
    assert!(matches!(analyze(&data, RULES).unwrap_err(), Refused::Together(_)));
}

#[test]
fn what_was_not_read_is_counted_and_the_lost_are_not() {
    let mut data = sound();
    for plot in data.plots.iter_mut().take(3) {
        plot.value = None;
    }
    assert_eq!(analyze(&data, RULES).unwrap_err(), Refused::NotRead(3, 20));
    for plot in data.plots.iter_mut().take(3) {
        plot.lost = true;
    }
    let analysis = analyze(&data, RULES).unwrap();
    assert!(analysis.cautions.contains(&Caution::Lost(vec![1, 1, 1, 0])));
    assert!(analysis.comparisons.unwrap().differences.iter().any(Difference::is_found));
}

#[test]
fn too_little_left_shows_means_without_intervals() {
    let data = blocks(&[&[10.0, 12.0], &[11.0, 12.5], &[9.0, 11.9]]);
    let analysis = analyze(&data, RULES).unwrap();
    assert_eq!(analysis.refused, Some(Refused::FewLeft(2)));
    assert!(analysis.means.iter().all(|m| m.interval.is_none()) && analysis.verdict().is_empty());
    let same = blocks(&[&[10.0, 12.0], &[10.0, 12.0], &[10.0, 12.0]]);
    assert_eq!(analyze(&same, RULES).unwrap_err(), Refused::NoSpread);
}

#[test]
fn a_gradient_along_the_bench_is_found_and_decides_where_no_design_held_it() {
    let mut data = sound();
    data.design = Design::CompletelyRandomized;
    let mut draw = Draw::new("T1", "00000007", "layout");
    let dealt = completely_randomized(4, 5, &mut draw);
    let noise = [0.3, -0.5, 0.1, 0.6, -0.2, 0.4, -0.6, 0.2, -0.1, 0.5];
    for (at, plot) in data.plots.iter_mut().enumerate() {
        let place = u32::try_from(at).unwrap();
        (plot.treatment, plot.row, plot.column, plot.block) = (dealt[at], 1, place + 1, None);
        plot.value = Some(20.0 + f64::from(place) + plot.treatment as f64 + noise[at % 10]);
    }
    let analysis = analyze(&data, RULES).unwrap();
    assert!(analysis.checks.left_over.as_ref().is_some_and(|l| l.p < 0.001));
    assert!(analysis.position_decides);
    let (plain, with) = (analysis.comparisons.clone().unwrap(), analysis.with_position.clone().unwrap());
    assert!(!plain.differences.iter().any(Difference::is_found));
    assert!(analysis.verdict() == with.differences && with.differences.iter().any(Difference::is_found));
}

#[test]
fn wide_counts_are_compared_as_ratios_or_pair_by_pair() {
    let mut data = blocks(&[
        &[2.0, 9.0, 40.0],
        &[1.0, 12.0, 90.0],
        &[3.0, 7.0, 60.0],
        &[2.0, 15.0, 150.0],
        &[1.0, 8.0, 45.0],
        &[3.0, 20.0, 210.0],
    ]);
    data.reading = Reading::Counted;
    let analysis = analyze(&data, RULES).unwrap();
    assert!(matches!(analysis.instead, Some(Instead::Ratios(_))), "{:?}", analysis.checks);
    // With a zero there are no logarithms.
    data.plots[0].value = Some(0.0);
    let analysis = analyze(&data, RULES).unwrap();
    assert!(matches!(analysis.instead, Some(Instead::Pairs(_))), "{:?}", analysis.checks);
}

#[test]
fn what_was_read_before_sharpens_the_comparison() {
    let mut data = sound();
    let start = [3.0, -2.0, 1.0, -1.0, 2.0, -3.0, 0.5, 2.5, -1.5, 0.0];
    for (at, plot) in data.plots.iter_mut().enumerate() {
        let own = start[(at * 7) % 10];
        plot.before = Some(5.0 + own);
        plot.value = plot.value.map(|v| v + 2.0 * own);
    }
    let with = analyze(&data, RULES).unwrap();
    for plot in &mut data.plots {
        plot.before = None;
    }
    let without = analyze(&data, RULES).unwrap();
    assert!(with.rest.squares.mean() < without.rest.squares.mean().map(|m| m / 5.0));
}

#[test]
fn a_square_has_every_treatment_once_in_every_row_and_column() {
    for size in 3..=8 {
        let square = latin_square(size, &mut Draw::new("T1", "48213907", "layout"));
        for line in 0..size {
            let mut row = square[line].clone();
            let mut column: Vec<usize> = square.iter().map(|r| r[line]).collect();
            row.sort_unstable();
            column.sort_unstable();
            let all: Vec<usize> = (0..size).collect();
            assert!(row == all && column == all, "{square:?}");
        }
    }
    let control_twice = randomized_blocks(&[2, 1, 1], 3, &mut Draw::new("T1", "48213907", "layout"));
    assert!(control_twice.iter().all(|b| b.len() == 4 && b.iter().filter(|t| **t == 0).count() == 2));
}

#[test]
fn a_drawn_square_is_reshuffled_as_squares_and_a_chosen_layout_not_at_all() {
    let mut data = blocks(&[
        &[10.1, 12.0, 14.2, 14.9],
        &[11.2, 12.9, 14.8, 16.3],
        &[9.3, 11.9, 13.1, 14.0],
        &[12.4, 13.5, 16.1, 16.8],
    ]);
    let square = latin_square(4, &mut Draw::new("T1", "48213907", "layout"));
    data.design = Design::LatinSquare;
    for plot in &mut data.plots {
        let value = plot.treatment as f64;
        plot.treatment = square[usize::try_from(plot.row).unwrap() - 1][usize::try_from(plot.column).unwrap() - 1];
        plot.value = Some(10.0 + 3.0 * plot.treatment as f64 + 0.2 * value + 0.1 * f64::from(plot.number % 3));
    }
    let analysis = analyze(&data, RULES).unwrap();
    let mut deal = analysis.reshuffle(Draw::new("T1", "48213907", "reshuffle height")).unwrap();
    deal.step(499);
    assert_eq!(deal.done(), 499);
    // A square of four has but eighteen deals that differ in more than the names of the treatments.
    assert!(deal.found().p < 0.1, "{:?}", deal.found());
    data.design = Design::AsLaid;
    let analysis = analyze(&data, RULES).unwrap();
    assert!(analysis.reshuffle(Draw::new("T1", "48213907", "reshuffle height")).is_none());
    assert!(analysis.cautions.contains(&Caution::NotDrawn));
}

#[test]
fn as_many_blocks_are_offered_as_show_what_matters() {
    let (rows, offered) = planned((Design::RandomizedBlocks, 4), (0.6, 1.0), Against::All, RULES).unwrap();
    let row = |blocks| rows.iter().find(|r| r.blocks == blocks).and_then(|r| r.seen).unwrap();
    assert!(row(offered) <= 1.0 && row(offered - 1) > 1.0, "{rows:?}");
    assert_eq!(planned((Design::RandomizedBlocks, 4), (10.0, 0.1), Against::All, RULES), None);
}

#[test]
fn the_limits_of_the_grower_are_the_rules_of_trials() {
    use crate::limits::Limits;
    assert_eq!(Rules::default(), RULES);
    let own = "[trial]\nalpha = 0.1\npower = 0.9\nshuffles = 999\nleast_error_df = 5\ngood_error_df = 20\n";
    let own = Rules::of(&Limits::parse(own).unwrap());
    assert_eq!(own, Rules { alpha: 0.1, power: 0.9, least_df: 5, good_df: 20, shuffles: 999 });
    // Twelve degrees of freedom are left: enough by the default, few for this grower.
    let few = |rules| analyze(&sound(), rules).unwrap().cautions.contains(&Caution::FewDegrees(12));
    assert!(!few(RULES) && few(own));
    let blocks =
        |rules| planned((Design::RandomizedBlocks, 4), (0.6, 3.0), Against::All, rules).map(|(_, blocks)| blocks);
    assert_eq!((blocks(RULES), blocks(own)), (Some(5), Some(8)));
    for line in ["alpha = 0.3", "alpha = 0.0005", "power = 0.4", "shuffles = 9.5", "least_error_df = 0"] {
        assert!(Limits::parse(&format!("[trial]\n{line}\n")).is_err(), "{line}");
    }
}
