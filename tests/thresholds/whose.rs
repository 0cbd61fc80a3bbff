//! Whose trouble a warning is: a bench is flagged for what is its own; what half of a lot's benches share is the lot's, and one.

use crate::season::{Crop, day, lot};
use benchwalk::record::{Kind, Material, Method, Place};
use benchwalk::report::review::text;
use benchwalk::report::{html, words};
use benchwalk::review::{Review, build, is_walked};
use benchwalk::warnings::assess_all;

/// Lot R6 on E1 to E4, its drench of the sixth week given on the first `given` of them.
fn drenched(given: usize) -> Crop {
    let mut crop = Crop::bare().with_lot(lot("R6"));
    for (n, bench) in (1..).zip(["E1", "E2", "E3", "E4"]) {
        crop = crop.bench_in(bench, "East", n).filled(bench, "R6", 100, 0).on(bench).pinched(14);
        crop = crop.waters(48, &[3, 2, 3, 2]);
        if usize::try_from(n).unwrap() <= given {
            crop = crop.nutrient(38, Material::MagnesiumSulfate, 118.0, Method::Drench);
        }
    }
    crop
}

fn evening(crop: &Crop, n: i64) -> Review {
    let season = crop.recorded();
    build(&season, day(n), assess_all(&season, day(n), &crop.limits).all().cloned().collect(), &[], "defaults".into())
        .unwrap()
}

/// The flagged problems about magnesium, and what the head counts of them and of the lot's other troubles.
fn magnesium(review: &Review) -> Vec<String> {
    let of = review.flagged().filter(|(problem, _)| problem.title().contains("magnesium missed"));
    of.map(|(problem, _)| problem.place.clone()).collect()
}

#[test]
fn a_forgotten_drench_is_one_trouble_of_the_lot_and_flags_no_bench() {
    let review = evening(&drenched(0), 51);
    assert_eq!(magnesium(&review), ["R6 (all of East; 400 pots)"], "{}", text(&review));
    let (benches, lots, _) = review.flags().counts();
    assert_eq!((benches, lots), (0, 1), "{}", text(&review));
    let counted = words::flagged(&review.flags());
    assert!(counted.starts_with("1 lot") && counted.ends_with("flagged"), "{counted}");
    assert!(text(&review).contains(&counted) && html::review(&review).contains(&counted), "{}", text(&review));
}

#[test]
fn on_half_of_the_benches_it_is_the_lots_and_on_fewer_their_own() {
    let half = evening(&drenched(2), 51);
    assert_eq!(
        (magnesium(&half), half.flags().counts().0),
        (vec!["R6 (E3 E4; 200 pots)".to_owned()], 0),
        "{}",
        text(&half)
    );
    let one = evening(&drenched(3), 51);
    assert_eq!((magnesium(&one), one.flags().counts().0), (vec!["E4".to_owned()], 1), "{}", text(&one));
}

#[test]
fn a_bench_alone_in_its_lot_is_flagged_itself() {
    let crop = Crop::new().pinched(14).waters(48, &[3, 2, 3, 2]);
    let review = evening(&crop, 51);
    assert_eq!((magnesium(&review), review.flags().counts().0), (vec!["E1".to_owned()], 1), "{}", text(&review));
}

#[test]
fn a_bench_that_is_soaked_beside_the_lots_trouble_is_the_one_that_is_flagged() {
    let read = drenched(0).only(|e| e.place != Place::Bench("E3".into()) || !matches!(*e.kind, Kind::Water { .. }));
    let review = evening(&read.on("E3").waters(44, &[5; 8]), 51);
    assert_eq!(review.flags().counts().0, 1, "{}", text(&review));
    let counted = words::flagged(&review.flags());
    assert!(counted.starts_with("1 bench and 1 lot") || counted.starts_with("1 bench, 1 lot"), "{counted}");
}

#[test]
fn two_levels_of_one_matter_are_one_block_of_the_lot() {
    // Yellow leaves on E4 are a matter of that bench, the missed drench stays the lot's.
    let yellow = [benchwalk::record::LeafSign::BetweenVeins];
    let crop = drenched(0).on("E4").leaves(50, &yellow, Some(benchwalk::record::PlantPart::Old));
    let review = evening(&crop, 51);
    assert_eq!(magnesium(&review).len(), 1, "{}", text(&review));
}

#[test]
fn what_is_read_for_a_whole_house_walks_no_bench() {
    let climate = Kind::Climate { day_c: Some(21.0), night_c: Some(18.0), humidity_percent: None, log: Box::default() };
    let east = || Place::House("East".into());
    let crop = drenched(4).write_at(crate::season::instant(52, (19, 0)), east(), climate.clone());
    let crop = crop.write_at(crate::season::instant(52, (21, 0)), east(), Kind::NightLight { lux: 0.5 });
    let season = crop.recorded();
    assert!(!is_walked(&season, "E1", day(52)));
    assert_eq!(evening(&crop, 52).walked, 0);
    assert!(is_walked(&crop.on("E1").at(52, (7, 0), climate).recorded(), "E1", day(52)), "read on the bench itself");
}
