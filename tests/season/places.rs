//! Benches as people name them.

use crate::season::{Crop, date, lot};
use benchwalk::season::Season;
use benchwalk::season::places::{Meant, NoPlace, code, read, short};
use proptest::prelude::*;

fn now() -> Meant {
    Meant::WithPots(date(9, 1))
}

/// E1 to E3 and E-4 in East, W1 and W2 in West range; lot A on E1 and E2, lot B on W2, from August 17.
fn season() -> Season {
    let crop = Crop::bare().with_lot(lot("A")).with_lot(lot("B"));
    let crop = crop.bench_in("E1", "East", 1).bench_in("E2", "East", 2).bench_in("E3", "East", 3);
    let crop = crop.bench_in("E-4", "East", 4).bench_in("W1", "West range", 5).bench_in("W2", "West range", 6);
    crop.filled("E1", "A", 50, 0).filled("E2", "A", 50, 0).filled("W2", "B", 50, 0).season()
}

#[test]
fn codes_rows_houses_and_lots_are_read_in_walking_order() {
    let season = season();
    for (typed, codes) in [
        ("", vec![]),
        (" ,; ", vec![]),
        ("E2 e1", vec!["E1", "E2"]),
        ("e1-e3", vec!["E1", "E2", "E3"]),
        ("E3-E1", vec!["E1", "E2", "E3"]),
        ("E1 to E-4, W1", vec!["E1", "E2", "E3", "E-4", "W1"]),
        ("E3..W1", vec!["E3", "E-4", "W1"]),
        ("E2 - E3", vec!["E2", "E3"]),
        ("E2-E-4", vec!["E2", "E3", "E-4"]),
        ("e-4", vec!["E-4"]),
        ("east", vec!["E1", "E2"]),
        ("West range", vec!["W2"]),
        ("E1, west range", vec!["E1", "W2"]),
        ("E3 West range E1", vec!["E1", "E3", "W2"]),
        ("b", vec!["W2"]),
        ("a W1 E1", vec!["E1", "E2", "W1"]),
    ] {
        assert_eq!(read(&season, typed, now()).unwrap(), codes, "{typed}");
    }
}

#[test]
fn a_house_without_a_day_is_all_its_benches_and_a_lot_is_none() {
    let season = season();
    assert_eq!(read(&season, "east", Meant::EveryBench).unwrap(), ["E1", "E2", "E3", "E-4"]);
    assert_eq!(read(&season, "A", Meant::EveryBench), Err(NoPlace::Unknown("A".to_owned())));
}

#[test]
fn a_fault_names_the_part_that_is_wrong() {
    let season = season();
    let fault = |typed: &str| read(&season, typed, now()).unwrap_err();
    assert_eq!(fault("E1 Q7 Q8"), NoPlace::Unknown("Q7".to_owned()));
    assert_eq!(fault("E1-E9"), NoPlace::RowEnd { row: "E1-E9".to_owned(), end: "E9".to_owned() });
    assert_eq!(fault("E0 to E2"), NoPlace::RowEnd { row: "E0-E2".to_owned(), end: "E0".to_owned() });
    assert_eq!(fault("Q1-Q9"), NoPlace::Unknown("Q1-Q9".to_owned()));
    let before = Meant::WithPots(date(8, 16));
    assert_eq!(read(&season, "East", before), Err(NoPlace::NoPots("East".to_owned())));
    assert_eq!(read(&season, "B", before), Err(NoPlace::NoPots("B".to_owned())));
    for typed in ["Q7", "E1-E9", "Q1 to Q2"] {
        let text = fault(typed).to_string();
        assert!(text.contains("is not a bench") && text.contains("in this season") && text.contains("E1-E6"), "{text}");
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
    assert_eq!(code(&season(), " e-4 ").as_deref(), Some("E-4"));
    assert_eq!(code(&season(), "E1-E3"), None);
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
    fn what_is_read_is_in_the_walk_once_and_in_its_order(text in "([EWQewq]?[0-9-]{0,2}|east|west range| |,|;|to|\\.\\.){0,9}") {
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
