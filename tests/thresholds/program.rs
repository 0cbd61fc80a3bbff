//! The feed program of a lot: asked for on each feeding day with its totals, what was skipped said, and no bench on hold among it.

use crate::season::{Crop, date, lot};
use benchwalk::record::Kind;
use benchwalk::report::review::text;
use benchwalk::review::{Job, Review, build};
use benchwalk::warnings::{Act, assess_all};
use chrono::NaiveDate;

/// Lot R6 on E1 to E3, sold with its last water of October 13 on 3; a program of 150 ppm N every 3 days from October 1.
fn planned() -> Crop {
    let mut crop = Crop::bare().with_lot(lot("R6")).lot(|lot| {
        (lot.program_n_ppm, lot.program_from, lot.program_days) = (Some(150.0), Some(date(10, 1)), Some(3));
        lot.program_bag = Some("20-10-20".into());
    });
    for (n, bench) in (1..).zip(["E1", "E2", "E3"]) {
        crop = crop.bench_in(bench, "East", n).filled(bench, "R6", 100, 0).on(bench).pinched(14);
        crop = crop.waters(52, &[3, 2, 4, 3, 2, 3]);
    }
    crop
}

fn fed(crop: Crop, bench: &str, days: &[u32]) -> Crop {
    let kind = |ml| Kind::Fed { n_ppm: 150.0, mg_ppm: None, mo_ppm: None, ml_per_pot: Some(ml) };
    days.iter().fold(crop.on(bench), |crop, day| crop.work((10, *day), kind(118.3)))
}

fn evening(crop: &Crop, on: NaiveDate) -> Review {
    let season = crop.recorded();
    build(&season, on, assess_all(&season, on, &crop.limits).all().cloned().collect(), &[], "defaults".into()).unwrap()
}

fn feeding(review: &Review) -> Vec<Job> {
    review.jobs.iter().filter(|job| job.step.ends_with("as planned.")).cloned().collect()
}

#[test]
fn a_feeding_day_is_a_job_with_its_totals_and_what_was_skipped() {
    // Feeding days: Oct 1, 4, 7, 10, 13. The 4th was skipped, the 7th fed a day late.
    let crop = ["E1", "E2", "E3"].into_iter().fold(planned(), |crop, bench| fed(crop, bench, &[1, 8, 10]));
    let review = evening(&crop, date(10, 12));
    let jobs = feeding(&review);
    assert_eq!(jobs.len(), 1, "{}", text(&review));
    let said = jobs[0].text();
    assert!(said.starts_with("R6 (all of East; 300 pots): Feed as planned: 150 ppm N, 20-10-20; "), "{said}");
    assert!(said.contains(" lb") || said.contains(" oz"), "the bag is weighed: {said}");
    assert!(said.contains("for 300 pots at 4 fl oz"), "{said}");
    assert!(said.ends_with("Fed 3 of 4 planned since Oct 1, last Oct 10; skipped Oct 4."), "{said}");
    assert_eq!(jobs[0].planned_n, Some(150.0));
    // The next feeding day is the 16th: nothing is planned for the 15th once the 13th is fed.
    let done = ["E1", "E2", "E3"].into_iter().fold(crop, |crop, bench| fed(crop, bench, &[13]));
    assert!(feeding(&evening(&done, date(10, 13))).is_empty());
}

#[test]
fn only_the_benches_not_fed_yet_are_named_and_one_that_must_dry_down_waits() {
    let crop = fed(planned(), "E1", &[10]);
    let wet = crop.only(|e| !(e.place.code() == "E3" && matches!(*e.kind, Kind::Water { .. })));
    let wet = wet.on("E3").waters(46, &[5; 9]);
    let review = evening(&wet, date(10, 10));
    let jobs = feeding(&review);
    assert_eq!(jobs.len(), 1, "{}", text(&review));
    assert_eq!(jobs[0].benches, ["E2"], "{}", text(&review));
    assert!(jobs[0].text().contains("but E3 only when it reads 2"), "{}", jobs[0].text());
}

#[test]
fn every_third_turn_is_clear_water() {
    let crop = planned().lot(|lot| lot.program_clear = Some(3));
    let crop = ["E1", "E2", "E3"].into_iter().fold(crop, |crop, bench| fed(crop, bench, &[1, 4]));
    let review = evening(&crop, date(10, 6));
    let jobs = feeding(&review);
    assert_eq!(jobs.len(), 1, "{}", text(&review));
    assert_eq!((jobs[0].act, jobs[0].planned_n), (Act::Water, None));
    assert!(jobs[0].text().contains("Clear water as planned"), "{}", jobs[0].text());
    // A clear turn is no feed that was skipped.
    let after = evening(&crop, date(10, 9));
    assert!(feeding(&after)[0].text().contains("Fed 2 of 2 planned since Oct 1, last Oct 4."), "{}", text(&after));
}

#[test]
fn at_every_watering_the_drying_benches_are_named() {
    let crop = planned().lot(|lot| lot.program_days = None);
    let crop = fed(crop, "E1", &[12]);
    let review = evening(&crop, date(10, 13));
    let jobs = feeding(&review);
    assert_eq!(jobs.len(), 1, "{}", text(&review));
    assert!(jobs[0].text().contains("with the watering where it reads 2"), "{}", jobs[0].text());
    assert_eq!(jobs[0].benches, ["E1", "E2", "E3"]);
    let watered = crop.on("E2").watered((10, 13));
    assert_eq!(feeding(&evening(&watered, date(10, 13)))[0].benches, ["E1", "E3"]);
    assert!(
        feeding(&evening(&watered, date(10, 13)))[0].text().contains("skipped Oct 13"),
        "clear water instead of feed"
    );
}

#[test]
fn without_a_program_nothing_is_planned_and_no_strength_is_made_up() {
    let crop = planned().lot(|lot| {
        (lot.program_n_ppm, lot.program_from, lot.program_days, lot.program_bag) = (None, None, None, None);
    });
    let review = evening(&crop, date(10, 12));
    assert!(feeding(&review).is_empty() && !text(&review).contains("as planned"), "{}", text(&review));
    let to_come = planned().lot(|lot| lot.program_from = Some(date(10, 20)));
    assert!(feeding(&evening(&to_come, date(10, 12))).is_empty());
}
