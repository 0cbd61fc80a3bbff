//! The calendar: back and forward agree, bad input is refused.

use super::*;
use crate::crop::color::Response;
use crate::crop::day_after;
use crate::units::{Length, Temperature};
use chrono::NaiveDate;
use proptest::prelude::*;

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn pinched(weeks: f64, days: f64) -> PinchPlan {
    PinchPlan::Pinched { weeks_before_sd: weeks, days_after_planting: days }
}

#[test]
fn back_from_a_sale() {
    let plan = BackwardPlan { ready_by: date("2026-11-27"), response_weeks: 9.5, pinch: pinched(4.0, 14.0) };
    let back = backward_from_sale(&plan).unwrap();
    assert_eq!(back.short_days, date("2026-09-21"));
    assert_eq!(back.pinch, Some(date("2026-08-24")));
    assert_eq!(back.planting, date("2026-08-10"));
    let straight = BackwardPlan { pinch: PinchPlan::Unpinched { plant_weeks_before_sd: 2.0 }, ..plan };
    assert_eq!(backward_from_sale(&straight).unwrap().planting, date("2026-09-07"));
}

#[test]
fn the_nights_are_lit_covered_or_left() {
    let natural = Some(date("2026-09-19"));
    let say = |day: &str| darkness(date(day), natural).unwrap();
    assert_eq!(say("2026-09-19"), Darkness::Natural);
    assert_eq!(say("2026-09-22"), Darkness::LightUntil { last: date("2026-09-21"), days: 3 });
    assert_eq!(say("2026-09-09"), Darkness::CoverFrom { first: date("2026-09-09"), days: 10 });
    let never = darkness(date("2026-09-09"), None).unwrap();
    assert_eq!(never, Darkness::CoverAlways { first: date("2026-09-09") });
}

#[test]
fn cuttings_and_room() {
    assert_eq!(cuttings_to_order(1_000, 1, 0.05).unwrap(), 1_050);
    assert_eq!(cuttings_to_order(1_001, 1, 0.05).unwrap(), 1_052);
    assert_eq!(cuttings_to_order(240, 3, 0.0).unwrap(), 720);
    assert!(cuttings_to_order(0, 1, 0.05).is_err() && cuttings_to_order(10, 0, 0.05).is_err());
    assert!(cuttings_to_order(10, 1, f64::NAN).is_err() && cuttings_to_order(10, 1, 1.5).is_err());
    let area = |layout| bench_area(100, Length::from_cm(30.0), layout).unwrap().m2();
    assert!((area(Layout::Square) - 9.0).abs() < 1e-9);
    assert!((area(Layout::Staggered) - 7.794_228_634).abs() < 1e-8);
    assert_eq!(usual_cuttings(Length::from_cm(6.5 * 2.54), true), Some((1, 1)));
    assert_eq!(usual_cuttings(Length::from_cm(20.32), true), Some((2, 3)));
    assert_eq!(usual_cuttings(Length::from_cm(f64::NAN), true), None);
    assert!(usual_centers(Length::from_cm(10.0)).is_none());
}

#[test]
fn forward_from_a_planting() {
    let plan = ForwardPlan {
        planted: date("2026-08-17"),
        pinched: true,
        pinched_on: None,
        short_days: Some(date("2026-09-19")),
        response: Response { weeks: 9.5, mean: None },
        days_c: &[],
        looks: &[],
    };
    let f = forward_from_planting(&plan).unwrap();
    let pinch = f.pinch.unwrap();
    assert_eq!((pinch.low, pinch.likely, pinch.high), (date("2026-08-29"), date("2026-08-31"), date("2026-09-07")));
    assert_eq!(f.first_growth_regulator.unwrap().likely, date("2026-09-14"));
    assert_eq!(
        (f.nutrients.low, f.nutrients.likely, f.nutrients.high),
        (date("2026-09-21"), date("2026-09-28"), date("2026-10-02"))
    );
    assert_eq!(f.color.unwrap().first_pollen.likely, date("2026-11-25"));
    let never = ForwardPlan { short_days: None, pinched: false, ..plan.clone() };
    let f = forward_from_planting(&never).unwrap();
    assert!(f.color.is_none() && f.pinch.is_none() && f.first_growth_regulator.is_none());
    let early = ForwardPlan { pinched_on: Some(date("2026-08-01")), ..plan.clone() };
    assert_eq!(
        forward_from_planting(&early).unwrap_err().to_string(),
        "a pinch on Sat Aug 1, 2026 and planting on Mon Aug 17, 2026 do not go together: the pinch comes after planting"
    );
    assert!(forward_from_planting(&ForwardPlan { pinched: false, pinched_on: Some(plan.planted), ..plan }).is_err());
}

proptest! {
    #[test]
    fn back_and_forward_meet(day in 0i64..3_000, weeks in 4.0f64..20.0, lead in 0.0f64..10.0, days in 0u8..40) {
        let ready_by = date("2026-01-01") + chrono::TimeDelta::days(day);
        let plan = BackwardPlan { ready_by, response_weeks: weeks, pinch: pinched(lead, f64::from(days)) };
        let back = backward_from_sale(&plan).unwrap();
        prop_assert_eq!(day_after("x", back.planting, f64::from(days)).unwrap(), back.pinch.unwrap());
        let again = day_after("x", back.short_days, weeks * 7.0).unwrap();
        prop_assert!((-1..=0).contains(&(again - ready_by).num_days()), "never after the sale");
        prop_assert!(back.planting <= back.pinch.unwrap() && back.pinch.unwrap() <= back.short_days);
    }

    #[test]
    fn any_input_is_answered(a in proptest::num::f64::ANY, b in proptest::num::f64::ANY, c in proptest::num::f64::ANY, year in -200_000i32..200_000, pots: u32, each: u32) {
        if let Some(day) = NaiveDate::from_yo_opt(year, 1) {
            let plan = BackwardPlan { ready_by: day, response_weeks: a, pinch: pinched(b, c) };
            let _answered = backward_from_sale(&plan).is_ok();
            let _answered = darkness(day, NaiveDate::from_yo_opt(2026, 200)).is_ok();
            let plan = ForwardPlan {
                planted: day, pinched: true, pinched_on: None, short_days: Some(day),
                response: Response { weeks: a, mean: Some(Temperature::from_c(c)) }, days_c: &[Some(b)], looks: &[],
            };
            let _answered = forward_from_planting(&plan).is_ok();
        }
        let _answered = cuttings_to_order(pots, each, a).is_ok();
        if let Ok(area) = bench_area(pots, Length::from_cm(a), Layout::Staggered) {
            prop_assert!(area.m2().is_finite());
        }
        let _answered = (usual_centers(Length::from_cm(b)), usual_cuttings(Length::from_cm(c), true));
    }

    #[test]
    fn room_and_cuttings_scale(pots in 1u32..100_000, cm in 5.0f64..100.0) {
        let one = bench_area(1, Length::from_cm(cm), Layout::Square).unwrap().m2();
        let all = bench_area(pots, Length::from_cm(cm), Layout::Square).unwrap().m2();
        prop_assert!((all - one * f64::from(pots)).abs() <= 1e-9 * all);
        prop_assert_eq!(cuttings_to_order(pots, 1, 0.0).unwrap(), u64::from(pots));
    }
}
