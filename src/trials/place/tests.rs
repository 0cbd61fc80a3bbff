//! Blocks are compact, every treatment stands in each, squares are squares, and what does not fit is refused.

use super::*;
use std::collections::BTreeSet;

fn wanted(benches: &[(&str, &str)], (rows, columns): (u32, u32), blocks: usize) -> Wanted {
    let stand = |(bench, house): &(&str, &str)| Stand { bench: (*bench).to_owned(), house: (*house).to_owned() };
    Wanted {
        trial: "T1".to_owned(),
        treatments: ["0 g", "4 g", "8 g", "12 g"].map(str::to_owned).to_vec(),
        shares: vec![1; 4],
        design: Design::RandomizedBlocks,
        seed: "48213907".to_owned(),
        benches: benches.iter().map(stand).collect(),
        rows,
        columns,
        blocks,
        differ: Differ::Unknown,
        pots: 1,
    }
}

fn of_block(plots: &[Plot], block: u32) -> Vec<&Plot> {
    plots.iter().filter(|p| p.block == Some(block)).collect()
}

/// The treatments of some plots, in order.
fn treatments<'a>(plots: impl IntoIterator<Item = &'a Plot>) -> Vec<&'a str> {
    let mut all: Vec<&str> = plots.into_iter().map(|p| p.treatment.as_str()).collect();
    all.sort_unstable();
    all
}

const ALL: [&str; 4] = ["0 g", "12 g", "4 g", "8 g"];

#[test]
fn the_published_seed_lays_the_published_blocks() {
    let plots = place(&wanted(&[("M4", "Mill")], (6, 4), 6)).unwrap();
    let drawn = [[1, 2, 3, 0], [0, 1, 3, 2], [1, 0, 3, 2], [3, 1, 0, 2], [2, 0, 1, 3], [1, 2, 0, 3]];
    let names = ["0 g", "4 g", "8 g", "12 g"];
    for plot in &plots {
        let at = |n: u32| usize::try_from(n).unwrap() - 1;
        assert_eq!(plot.treatment, names[drawn[at(plot.row)][at(plot.column)]], "{plot:?}");
        assert_eq!(plot.block, Some(plot.row));
    }
}

#[test]
fn plots_are_numbered_as_they_are_walked_and_each_has_its_own_place() {
    let plots = place(&wanted(&[("M4", "Mill"), ("M5", "Mill")], (3, 4), 6)).unwrap();
    let numbers: Vec<u32> = plots.iter().map(Plot::number).collect();
    assert_eq!(numbers, (1..=24).collect::<Vec<_>>());
    for pair in plots.windows(2).filter(|pair| pair[0].bench == pair[1].bench) {
        assert_eq!(pair[0].row.abs_diff(pair[1].row) + pair[0].column.abs_diff(pair[1].column), 1, "{pair:?}");
    }
    let places: BTreeSet<_> = plots.iter().map(|p| (p.bench.clone(), p.row, p.column)).collect();
    assert_eq!(places.len(), 24);
}

#[test]
fn every_block_holds_every_treatment_and_is_one_compact_stretch() {
    for (rows, columns, blocks, differ) in [
        (6, 4, 6, Differ::Rows),
        (6, 4, 6, Differ::Columns),
        (4, 6, 6, Differ::Unknown),
        (4, 6, 6, Differ::Rows),
        (8, 3, 6, Differ::Rows),
        (2, 10, 5, Differ::Columns),
        (5, 4, 5, Differ::Columns),
    ] {
        let plots = place(&Wanted { differ, ..wanted(&[("M4", "Mill")], (rows, columns), blocks) }).unwrap();
        for block in 1..=u32::try_from(blocks).unwrap() {
            let own = of_block(&plots, block);
            assert_eq!(treatments(own.iter().copied()), ALL, "{rows} x {columns}, {differ:?}");
            // One stretch: from any of its plots the others are reached by steps to neighbors.
            let mut reached = vec![own[0]];
            for _ in &own {
                let near = |p: &&Plot| reached.iter().any(|r| r.row.abs_diff(p.row) + r.column.abs_diff(p.column) < 2);
                reached = own.iter().copied().filter(near).collect();
            }
            assert_eq!(reached.len(), own.len(), "{rows} x {columns}, {differ:?}: {own:?}");
        }
    }
}

#[test]
fn blocks_lie_across_the_way_the_places_differ() {
    let across = |differ| {
        let plots = place(&Wanted { differ, ..wanted(&[("M4", "Mill")], (4, 4), 4) }).unwrap();
        let own = of_block(&plots, 2);
        (
            own.iter().map(|p| p.row).collect::<BTreeSet<_>>().len(),
            own.iter().map(|p| p.column).collect::<BTreeSet<_>>().len(),
        )
    };
    assert_eq!(across(Differ::Rows), (1, 4));
    assert_eq!(across(Differ::Columns), (4, 1));
}

#[test]
fn two_houses_are_blocks_and_no_block_lies_in_both() {
    let benches = [("M4", "Mill"), ("E1", "Orchard"), ("M5", "Mill"), ("E2", "Orchard")];
    let plots = place(&Wanted { differ: Differ::Houses, ..wanted(&benches, (2, 2), 4) }).unwrap();
    for block in 1..=4 {
        let own = of_block(&plots, block);
        assert_eq!(treatments(own.iter().copied()), ALL);
        assert_eq!(own.iter().map(|p| &p.bench[..1]).collect::<BTreeSet<_>>().len(), 1, "{own:?}");
    }
    let odd = place(&Wanted { differ: Differ::Houses, ..wanted(&benches[..3], (2, 4), 6) }).unwrap();
    assert_eq!(odd.len(), 24);
    let halves = Wanted { differ: Differ::Houses, ..wanted(&[("M4", "Mill"), ("E1", "Orchard")], (3, 2), 3) };
    let house = NotCompact::House { house: "Mill".to_owned(), block: 4, places: 6 };
    assert_eq!(place(&halves), Err(NotLaid::Block(house)));
}

#[test]
fn whole_benches_are_plots_in_blocks_of_neighbors() {
    let benches: Vec<(String, &str)> = (1..=8).map(|n| (format!("M{n}"), "Mill")).collect();
    let benches: Vec<(&str, &str)> = benches.iter().map(|(bench, house)| (bench.as_str(), *house)).collect();
    let plots = place(&Wanted { differ: Differ::Benches, pots: 60, ..wanted(&benches, (1, 1), 2) }).unwrap();
    assert_eq!(treatments(of_block(&plots, 1)), ALL);
    assert!(of_block(&plots, 1).iter().all(|p| ["M1", "M2", "M3", "M4"].contains(&p.bench.as_str()) && p.pots == 60));
    // One bench a treatment cannot be told apart from the bench.
    assert_eq!(place(&wanted(&benches[..4], (1, 1), 1)), Err(NotLaid::OwnBench));
    assert_eq!(place(&wanted(&benches[..1], (2, 2), 1)), Err(NotLaid::Once));
}

#[test]
fn a_square_has_each_treatment_once_in_every_row_and_column() {
    let square = Wanted { design: Design::LatinSquare, ..wanted(&[("M4", "Mill")], (4, 4), 4) };
    let plots = place(&square).unwrap();
    for line in 1..=4 {
        assert_eq!(treatments(plots.iter().filter(|p| p.row == line)), ALL);
        assert_eq!(treatments(plots.iter().filter(|p| p.column == line)), ALL);
    }
    assert!(plots.iter().all(|p| p.block.is_none()));
    assert_eq!(place(&Wanted { rows: 2, columns: 8, ..square }), Err(NotLaid::Square(4)));
}

#[test]
fn the_control_may_stand_more_often_in_blocks_and_there_only() {
    let twice = Wanted { shares: vec![2, 1, 1, 1], ..wanted(&[("M4", "Mill")], (6, 5), 6) };
    let plots = place(&twice).unwrap();
    for block in 1..=6 {
        assert_eq!(treatments(of_block(&plots, block)), ["0 g", "0 g", "12 g", "4 g", "8 g"]);
    }
    assert_eq!(place(&Wanted { design: Design::CompletelyRandomized, ..twice }), Err(NotLaid::Shares));
}

#[test]
fn a_completely_randomized_layout_is_dealt_row_by_row() {
    let anywhere = Wanted { design: Design::CompletelyRandomized, ..wanted(&[("M4", "Mill")], (3, 4), 3) };
    let mut plots = place(&anywhere).unwrap();
    plots.sort_by_key(|p| (p.row, p.column));
    let names = ["0 g", "4 g", "8 g", "12 g"];
    let drawn = [3, 2, 1, 0, 1, 2, 1, 3, 0, 3, 2, 0].map(|t: usize| names[t]);
    assert_eq!(plots.iter().map(|p| p.treatment.as_str()).collect::<Vec<_>>(), drawn);
}

#[test]
fn what_does_not_fit_is_refused() {
    let short = wanted(&[("M4", "Mill")], (5, 4), 6);
    assert_eq!(place(&short), Err(NotLaid::Places { plots: 24, places: 20, block: 4 }));
    let over = wanted(&[("M4", "Mill"), ("M5", "Mill")], (2, 3), 3);
    assert_eq!(place(&over), Err(NotLaid::Block(NotCompact::Benches { block: 4, places: 6 })));
    assert_eq!(place(&wanted(&[("M4", "Mill")], (400, 4), 400)), Err(NotLaid::Many(1600)));
    assert_eq!(
        place(&Wanted { design: Design::AsLaid, ..wanted(&[("M4", "Mill")], (6, 4), 6) }),
        Err(NotLaid::NotDrawn)
    );
}
