//! Benches that dry down slower than their lot: named before any rule speaks, and only where there is a lot to compare with.

use crate::season::{Crop, day, lot};
use benchwalk::crop::dry_down::Drying;
use benchwalk::limits::Limits;
use benchwalk::record::{Place, Term};
use benchwalk::report::review::{json, text};
use benchwalk::report::words;
use benchwalk::review::{Review, build};
use benchwalk::season::Season;
use benchwalk::warnings::{assess_all, benches_now, slower_on};
use chrono::NaiveDate;

/// Lot R6 on E1 to E4 from day 40 on: the first three go 5, 4, 3, 2 and are watered, E4 the same once and then as given.
fn lot_of_four(fourth: &[u8]) -> Crop {
    let mut crop = Crop::bare().with_lot(lot("R6"));
    for (n, bench) in (1..).zip(["E1", "E2", "E3", "E4"]) {
        crop = crop.bench_in(bench, "East", n).filled(bench, "R6", 100, 0).on(bench).pinched(14);
        crop = crop.water(39, 2).watered(39).waters(40, &[5, 4, 3, 2]).watered(43);
        crop = if bench == "E4" { crop.waters(44, fourth) } else { crop.waters(44, &[5, 4, 3, 2]).watered(47) };
    }
    crop
}

fn evening(crop: &Crop, n: i64) -> Review {
    let (season, on) = (crop.recorded(), day(n));
    let today = assess_all(&season, on, &crop.limits).all().cloned().collect();
    build(&season, on, today, &[], "defaults".into()).unwrap().with_slower(slower_on(&season, on, &crop.limits))
}

#[test]
fn the_bench_that_dries_slower_is_named_before_any_rule_speaks() {
    let crop = lot_of_four(&[5, 4, 3, 3, 3]);
    let review = evening(&crop, 48);
    let said = text(&review);
    assert!(said.contains("Dries slower than its lot: E4 (5 days or more, lot 3)."), "{said}");
    let own = review.warnings.iter().filter(|w| w.place == Place::Bench("E4".into()));
    let wet: Vec<_> = own.filter(|w| w.name.code().contains("wet")).collect();
    assert!(wet.is_empty(), "no rule speaks yet: {wet:?}");
    let whole: serde_json::Value = serde_json::from_str(&json(&review).unwrap()).unwrap();
    let first = &whole["dries_slower"][0];
    assert_eq!(
        (first["bench"].as_str(), first["days"].as_i64(), first["lot_days"].as_f64()),
        (Some("E4"), Some(5), Some(3.0))
    );
    assert!(
        !text(&evening(&lot_of_four(&[5, 4, 3, 3]), 47)).contains("Dries slower"),
        "four days at least is no sign yet"
    );
}

#[test]
fn dried_at_last_it_is_named_for_a_week_with_the_days_it_took() {
    let crop = lot_of_four(&[5, 4, 3, 3, 3, 3, 2]);
    assert!(text(&evening(&crop, 50)).contains("E4 (6 days, lot 3)"));
    assert!(text(&evening(&crop, 57)).contains("E4 (6 days, lot 3)"));
    assert!(!text(&evening(&crop, 58)).contains("Dries slower"));
}

/// How E4 dried up to a day.
fn drying(season: &Season, on: NaiveDate) -> Drying {
    benches_now(season, &["E4".to_owned()], on, &Limits::default()).remove(0).outlook.drying
}

#[test]
fn a_bench_says_how_fast_it_dries_beside_its_lot_and_the_time_before() {
    let season = lot_of_four(&[5, 4, 3, 3, 2]).recorded();
    let own = drying(&season, day(48));
    let said = words::dries(&own, Some(3.0), day(48));
    assert_eq!(said.as_deref(), Some("dries 5 to 2 in 4 days, its lot in 3; before 3"));
    let young = drying(&season, day(41));
    assert_eq!(words::dries(&young, None, day(41)).as_deref(), Some("now 2 days or more"));
}

#[test]
fn a_bench_that_is_alone_in_its_lot_has_nothing_to_be_slower_than() {
    let crop = Crop::new().pinched(14).water(39, 2).watered(39).waters(40, &[5, 4, 3, 3, 3, 3, 2]);
    assert!(slower_on(&crop.recorded(), day(46), &crop.limits).is_empty());
}
