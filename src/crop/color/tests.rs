//! The forecast: ranges, looks that move it, bad input.

use super::*;
use crate::units::Temperature;
use chrono::TimeDelta;
use proptest::prelude::*;

const F: fn(f64) -> f64 = |f| (f - 32.0) / 1.8;

fn weeks(weeks: f64) -> Response {
    Response { weeks, mean: None }
}

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn looks(list: &[(&str, u8)]) -> Vec<Look> {
    list.iter().map(|(day, stage)| Look { day: date(day), stage: *stage }).collect()
}

fn mids(f: &Forecast) -> [String; 4] {
    Milestone::ALL.map(|m| f.of(m).likely.format("%m-%d").to_string())
}

#[test]
fn without_looks_the_shares_are_counted_from_short_days() {
    let f = forecast(date("2026-10-01"), weeks(10.0), &[], &[]).unwrap();
    assert_eq!(mids(&f), ["11-09", "11-15", "11-30", "12-10"]);
    assert!(f.first_color.low < f.first_color.likely && f.first_color.likely < f.first_color.high);
}

#[test]
fn a_stage_seen_moves_what_comes_after_it() {
    let f = forecast(date("2026-10-01"), weeks(10.0), &[], &looks(&[("2026-11-19", 2), ("2026-10-20", 1)])).unwrap();
    assert_eq!(mids(&f), ["11-19", "11-25", "12-10", "12-20"], "ten days later than without");
    assert_eq!(f.first_color.low, f.first_color.high);
}

#[test]
fn a_stage_still_missing_moves_the_forecast_past_the_look() {
    let f = forecast(date("2026-10-01"), weeks(10.0), &[], &looks(&[("2026-11-18", 1)])).unwrap();
    assert_eq!(mids(&f), ["11-19", "11-25", "12-10", "12-20"]);
    assert_eq!(f.first_color.low, date("2026-11-19"), "it was not there yesterday");
    let early = forecast(date("2026-10-01"), weeks(10.0), &[], &looks(&[("2026-10-10", 1)])).unwrap();
    assert_eq!(mids(&early)[0], "11-09", "a look before it was due says nothing");
}

#[test]
fn looks_before_short_days_do_not_count() {
    let f = forecast(date("2026-10-01"), weeks(10.0), &[], &looks(&[("2026-08-01", 5)])).unwrap();
    assert_eq!(mids(&f)[0], "11-09");
}

#[test]
fn a_crop_of_another_usual_temperature_takes_its_weeks_there() {
    let sd = date("2026-10-01");
    let cool = Response { weeks: 10.0, mean: Some(Temperature::from_c(18.0)) };
    assert_eq!(mids(&forecast(sd, cool, &[], &[]).unwrap()), mids(&forecast(sd, weeks(10.0), &[], &[]).unwrap()));
    let at_18 = vec![Some(18.0); 100];
    assert_eq!(mids(&forecast(sd, cool, &at_18, &[]).unwrap())[3], "12-10", "ten weeks");
    assert_eq!(
        mids(&forecast(sd, weeks(10.0), &at_18, &[]).unwrap())[3],
        "12-25",
        "ten weeks at 70 F are longer at 18 C"
    );
}

#[test]
fn what_the_forecast_goes_by_is_said() {
    let by = |days_c: &[Option<f64>]| forecast(date("2026-10-01"), weeks(9.0), days_c, &[]).unwrap().temperatures;
    let nothing = by(&[]);
    assert_eq!((nothing.written, nothing.carried, nothing.assumed, nothing.beyond), (0, None, true, false));
    let week = by(&[Some(18.0), None, Some(19.0), Some(18.0), Some(19.0)]);
    assert_eq!((week.written, week.carried.map(Temperature::c)), (4, Some(18.5)));
    assert!(by(&[Some(11.9)]).beyond && by(&[Some(30.1)]).beyond && !by(&[Some(30.0)]).beyond);
}

#[test]
fn after_a_hot_start_first_color_is_looked_for_after_the_cyathia() {
    let (sd, hot) = (date("2007-09-30"), vec![Some(F(80.0)); 37]);
    let of = |seen: &[(&str, u8)]| mids(&forecast(sd, weeks(54.0 / 7.0), &hot, &looks(seen)).unwrap());
    assert_eq!(of(&[]), ["11-16", "11-13", "11-25", "12-03"]);
    assert_eq!(of(&[("2007-11-05", 1)]), of(&[]), "on day 36 no color is due yet");
    // A look without color on day 48: color comes later, of the cyathia nothing is known.
    assert_eq!(of(&[("2007-11-17", 1)])[..2], ["11-18", "11-13"]);
    // Once color is seen the crop is well on its way.
    assert_eq!(of(&[("2007-11-05", 1), ("2007-11-16", 2)])[3], "12-03");
}

#[test]
fn impossible_values_are_refused() {
    let day = date("2026-10-01");
    assert_eq!(
        forecast(day, weeks(0.0), &[], &[]).unwrap_err().to_string(),
        "the response is 0 weeks; it must be 4 to 20 weeks"
    );
    assert!(forecast(day, weeks(f64::NAN), &[], &[]).is_err());
    assert!(forecast(day, weeks(9.0), &[], &[Look { day, stage: 8 }]).is_err());
    assert!(forecast(day, weeks(9.0), &[Some(f64::INFINITY)], &[]).is_err());
    let warm = Response { weeks: 9.0, mean: Some(Temperature::from_c(24.1)) };
    assert_eq!(
        forecast(day, warm, &[], &[]).unwrap_err().to_string(),
        "the temperature of the response is 24.1 °C; it must be 16 to 24 °C"
    );
    assert!(forecast(NaiveDate::MAX, weeks(9.0), &[], &[]).is_err());
}

proptest! {
    #[test]
    fn ranges_are_in_order_whatever_was_seen_and_written(
        w in 4.0f64..20.0, usual in proptest::option::of(16.0f64..24.0),
        days in proptest::collection::vec(proptest::option::of(5.0f64..36.0), 0..90),
        seen in proptest::collection::vec((0i64..150, 1u8..=7), 0..8),
    ) {
        let sd = date("2026-09-20");
        let looks: Vec<Look> = seen.iter().map(|(d, s)| Look { day: sd + TimeDelta::days(*d), stage: *s }).collect();
        let f = forecast(sd, Response { weeks: w, mean: usual.map(Temperature::from_c) }, &days, &looks).unwrap();
        for m in Milestone::ALL {
            let d = f.of(m);
            prop_assert!(d.low <= d.likely && d.likely <= d.high, "{m:?} {d:?}");
        }
        let early = f.first_color.likely.max(f.cyathia.likely);
        prop_assert!(early <= f.full_color.likely && f.full_color.likely <= f.first_pollen.likely, "{f:?}");
    }

    #[test]
    fn any_input_is_answered(w in proptest::num::f64::ANY, c in proptest::num::f64::ANY, usual in proptest::num::f64::ANY, year in -200_000i32..200_000, stage: u8) {
        if let Some(day) = NaiveDate::from_yo_opt(year, 200) {
            let response = Response { weeks: w, mean: Some(Temperature::from_c(usual)) };
            let _answered = forecast(day, response, &[Some(c)], &[Look { day, stage }]).is_ok();
            let _answered = forecast(day, weeks(9.0), &[None, Some(c)], &[Look { day, stage: 1 }]).is_ok();
        }
    }
}
