//! Maps show what they are for; readers never see a treatment.

use super::*;
use crate::record::{Line, codec};
use crate::report::trial::labels;
use crate::terms::Design;
use crate::trials::{Differ, Stand, Wanted, place};

fn trial(more: &str) -> crate::record::Trial {
    let line = format!(
        r#"{{"type":"trial","trial":"T1","lot":"R6","question":"does 8 g do","treatments":["0 g","4 g","8 g","12 g"],"rates":[0,4,8,12],"rate_unit":"g per pot","control":"0 g","design":"randomized-blocks","seed":"48213907","drawn":3,"reads":["height"],"from":"2026-09-07"{more}}}"#
    );
    match codec::decode(&line, codec::VERSION).unwrap() {
        Line::Trial(trial) => trial,
        other => panic!("{other:?}"),
    }
}

fn plots(rows: u32, columns: u32) -> Vec<Plot> {
    let blocks = usize::try_from(rows * columns / 4).unwrap();
    place(&Wanted {
        trial: "T1".to_owned(),
        treatments: trial("").treatments,
        shares: vec![1; 4],
        design: Design::RandomizedBlocks,
        seed: "48213907".to_owned(),
        benches: vec![Stand { bench: "M4".to_owned(), house: "Mill".to_owned() }],
        rows,
        columns,
        blocks,
        differ: Differ::Unknown,
        pots: 1,
    })
    .unwrap()
}

#[test]
fn the_map_for_giving_says_what_each_treatment_needs() {
    let (trial, plots) = (trial(r#","guard":true,"near_side":"aisle","far_side":"wall""#), plots(6, 4));
    let laid = Laid { trial: &trial, plots: plots.iter().collect(), on: "2026-09-01".parse().unwrap() };
    let text = text(&laid, Purpose::Giving);
    for said in [
        "12 g: plots 3, 6, 11, 16, 20, 21; 6 pots, 72 g",
        "0 g: plots 4, 8, 10, 14, 18, 22; 6 pots, nothing to give",
        "guard pots (o): 24, treated as 0 g",
        "seed 48213907, drawn 3 times",
        "blocks and their plots: 1: 1-4; 2: 5-8",
        "aisle",
        "wall",
    ] {
        assert!(text.contains(said), "{said}\n{text}");
    }
    // The ring of six rows of four: six pots above, six below, one at each end of a row.
    let all_guards = |line: &&str| !line.trim().is_empty() && line.split_whitespace().all(|word| word == "o");
    let above_and_below: usize = text.lines().filter(all_guards).map(|line| line.split_whitespace().count()).sum();
    assert_eq!((above_and_below, text.matches("o|").count(), text.matches("|o").count()), (12, 6, 6), "{text}");
    let page = html(&laid, Purpose::Giving);
    assert_eq!(page.matches("<circle").count(), 24);
    assert!(page.contains("6 pots, 72 g") && page.contains(">aisle<"));
}

#[test]
fn whoever_reads_sees_no_treatment_neither_on_the_map_nor_on_a_label() {
    let (trial, plots) = (trial(r#","guard":true"#), plots(6, 4));
    let laid = Laid { trial: &trial, plots: plots.iter().collect(), on: "2026-09-01".parse().unwrap() };
    for paper in
        [text(&laid, Purpose::Reading), html(&laid, Purpose::Reading), labels::text(&laid), labels::html(&laid)]
    {
        for hidden in ["0 g", "4 g", "8 g", "12 g", "treated", "does", "block 1"] {
            assert!(!paper.contains(hidden), "{hidden}\n{paper}");
        }
        assert!(paper.contains("24") && paper.contains("T1"), "{paper}");
    }
    assert_eq!(labels::html(&laid).matches("aria-label=\"plot ").count(), 24);
    assert_eq!(labels::text(&laid).matches("T1.").count(), 24);
}

#[test]
fn a_wide_bench_is_printed_in_parts_no_line_over_80_columns() {
    let (trial, plots) = (trial(r#","guard":true"#), plots(2, 40));
    let laid = Laid { trial: &trial, plots: plots.iter().collect(), on: "2026-09-01".parse().unwrap() };
    for purpose in [Purpose::Giving, Purpose::Reading] {
        let text = text(&laid, purpose);
        assert!(text.lines().all(|line| line.width() <= WIDTH), "{text}");
        assert!(text.contains("  80") && text.contains("  41"), "{text}");
    }
    assert!(labels::text(&laid).lines().all(|line| line.width() <= WIDTH));
}
