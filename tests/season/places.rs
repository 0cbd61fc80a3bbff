//! Benches as people name them.

use crate::season::{Crop, date, lot};
use benchwalk::season::Season;
use benchwalk::season::places::{Meant, NoPlace, code, read, short};
use proptest::prelude::*;

fn now() -> Meant {
    Meant::WithPots(date(9, 1))
}

/// N1 to N3 and N-4 in North, E1 and E2 in East range; lot A on N1 and N2, lot B on E2, from August 17.
fn season() -> Season {
    let crop = Crop::bare().with_lot(lot("A")).with_lot(lot("B"));
    let crop = crop.bench_in("N1", "North", 1).bench_in("N2", "North", 2).bench_in("N3", "North", 3);
    let crop = crop.bench_in("N-4", "North", 4).bench_in("E1", "East range", 5).bench_in("E2", "East range", 6);
    crop.filled("N1", "A", 50, 0).filled("N2", "A", 50, 0).filled("E2", "B", 50, 0).season()
}

#[test]
fn codes_rows_houses_and_lots_are_read_in_walking_order() {
    let season = season();
    for (typed, codes) in [
        ("", vec![]),
        (" ,; ", vec![]),
        ("N2 n1", vec!["N1", "N2"]),
        ("n1-n3", vec!["N1", "N2", "N3"]),
        ("N3-N1", vec!["N1", "N2", "N3"]),
        ("N1 to N-4, E1", vec!["N1", "N2", "N3", "N-4", "E1"]),
        ("N3..E1", vec!["N3", "N-4", "E1"]),
        ("N2 - N3", vec!["N2", "N3"]),
        ("N2-N-4", vec!["N2", "N3", "N-4"]),
        ("n-4", vec!["N-4"]),
        ("north", vec!["N1", "N2"]),
        ("East range", vec!["E2"]),
        ("N1, east range", vec!["N1", "E2"]),
        ("N3 East range N1", vec!["N1", "N3", "E2"]),
        ("b", vec!["E2"]),
        ("a E1 N1", vec!["N1", "N2", "E1"]),
    ] {
        assert_eq!(read(&season, typed, now()).unwrap(), codes, "{typed}");
    }
}

#[test]
fn a_house_without_a_day_is_all_its_benches_and_a_lot_is_none() {
    let season = season();
    assert_eq!(read(&season, "north", Meant::EveryBench).unwrap(), ["N1", "N2", "N3", "N-4"]);
    assert_eq!(read(&season, "A", Meant::EveryBench), Err(NoPlace::Unknown("A".to_owned())));
}

#[test]
fn a_fault_names_the_part_that_is_wrong() {
    let season = season();
    let fault = |typed: &str| read(&season, typed, now()).unwrap_err();
    assert_eq!(fault("N1 Q7 Q8"), NoPlace::Unknown("Q7".to_owned()));
    assert_eq!(fault("N1-N9"), NoPlace::RowEnd { row: "N1-N9".to_owned(), end: "N9".to_owned() });
    assert_eq!(fault("N0 to N2"), NoPlace::RowEnd { row: "N0-N2".to_owned(), end: "N0".to_owned() });
    assert_eq!(fault("Q1-Q9"), NoPlace::Unknown("Q1-Q9".to_owned()));
    let before = Meant::WithPots(date(8, 16));
    assert_eq!(read(&season, "North", before), Err(NoPlace::NoPots("North".to_owned())));
    assert_eq!(read(&season, "B", before), Err(NoPlace::NoPots("B".to_owned())));
    for typed in ["Q7", "N1-N9", "Q1 to Q2"] {
        let text = fault(typed).to_string();
        assert!(text.contains("is no bench") && text.contains("of this season") && text.contains("N1-N6"), "{text}");
    }
}

#[test]
fn a_bench_comes_before_a_house_and_a_house_before_a_lot() {
    let crop = Crop::bare().with_lot(lot("A")).with_lot(lot("B"));
    let crop = crop.bench_in("A", "B", 1).bench_in("M", "B", 2);
    let season = crop.filled("A", "B", 5, 0).filled("M", "A", 5, 0).season();
    assert_eq!(read(&season, "A", now()).unwrap(), ["A"]);
    assert_eq!(read(&season, "B", now()).unwrap(), ["A", "M"]);
}

#[test]
fn one_code_is_spelled_as_the_season_does() {
    assert_eq!(code(&season(), " n-4 ").as_deref(), Some("N-4"));
    assert_eq!(code(&season(), "N1-N3"), None);
    assert_eq!(code(&season(), ""), None);
}

proptest! {
    #[test]
    fn benches_written_short_are_read_again(which in prop::collection::vec(any::<bool>(), 6)) {
        let season = season();
        let all = season.benches();
        let codes: Vec<String> =
            all.iter().zip(which).filter(|(_, on)| *on).map(|(b, _)| b.bench.clone()).collect();
        prop_assert_eq!(read(&season, &short(&season, &codes), now()).unwrap(), codes);
    }

    #[test]
    fn what_is_read_is_in_the_walk_once_and_in_its_order(text in "([NEQneq]?[0-9-]{0,2}|north|east range| |,|;|to|\\.\\.){0,9}") {
        let season = season();
        let walk: Vec<String> = season.benches().iter().map(|b| b.bench.clone()).collect();
        if let Ok(codes) = read(&season, &text, now()) {
            let places: Vec<usize> = codes.iter().map(|c| walk.iter().position(|w| w == c).unwrap()).collect();
            prop_assert!(places.windows(2).all(|pair| pair[0] < pair[1]), "{text}: {codes:?}");
            // The same names in another order and other letters are the same benches.
            let turned: Vec<String> = codes.iter().rev().map(|c| c.to_lowercase()).collect();
            prop_assert_eq!(read(&season, &turned.join(", "), now()).unwrap(), codes);
        }
    }
}
