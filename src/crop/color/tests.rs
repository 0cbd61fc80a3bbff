//! The forecast: ranges, looks that move it, bad input.

use super::*;
use crate::units::Temperature;
use chrono::TimeDelta;
use proptest::prelude::*;

const F: fn(f64) -> Temperature = |f| Temperature::from_c((f - 32.0) / 1.8);

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
    let f = forecast(date("2026-10-01"), 10.0, None, &[]).unwrap();
    assert_eq!(mids(&f), ["11-09", "11-16", "11-30", "12-10"]);
    assert!(f.first_color.low < f.first_color.likely && f.first_color.likely < f.first_color.high);
}

#[test]
fn a_stage_seen_moves_what_comes_after_it() {
    let f = forecast(date("2026-10-01"), 10.0, None, &looks(&[("2026-11-19", 2), ("2026-10-20", 1)])).unwrap();
    assert_eq!(mids(&f), ["11-19", "11-25", "12-10", "12-20"], "ten days later than without");
    assert_eq!(f.first_color.low, f.first_color.high);
}

#[test]
fn a_stage_still_missing_moves_the_forecast_past_the_look() {
    let f = forecast(date("2026-10-01"), 10.0, None, &looks(&[("2026-11-18", 1)])).unwrap();
    assert_eq!(mids(&f), ["11-19", "11-25", "12-10", "12-20"]);
    assert_eq!(f.first_color.low, date("2026-11-19"), "it was not there yesterday");
    let early = forecast(date("2026-10-01"), 10.0, None, &looks(&[("2026-10-10", 1)])).unwrap();
    assert_eq!(mids(&early)[0], "11-09", "a look before it was due says nothing");
}

#[test]
fn looks_before_short_days_do_not_count() {
    let f = forecast(date("2026-10-01"), 10.0, None, &looks(&[("2026-08-01", 5)])).unwrap();
    assert_eq!(mids(&f)[0], "11-09");
}

#[test]
fn the_table_is_read_between_its_rows_and_never_beyond() {
    let p = |f: f64| pace(9.5, Some(F(f))).unwrap();
    assert!((p(66.0).likely - 1.0).abs() < 1e-9);
    assert!((p(70.0).likely - 8.5 / 9.5).abs() < 1e-9);
    assert!((p(68.0).likely - 9.0 / 9.5).abs() < 1e-9);
    assert!((p(63.0).likely - 11.0 / 9.5).abs() < 1e-9);
    assert!((p(80.0).likely - p(70.0).likely).abs() < 1e-9 && (p(50.0).likely - p(63.0).likely).abs() < 1e-9);
    assert_eq!((p(80.0).basis, p(50.0).basis), (PaceBasis::Warmer, PaceBasis::Cooler));
    assert_eq!((p(63.0).basis, p(70.0).basis), (PaceBasis::Known, PaceBasis::Known));
    let unknown = pace(9.5, None).unwrap();
    assert!((unknown.low - p(70.0).likely).abs() < 1e-9 && (unknown.high - p(63.0).likely).abs() < 1e-9);
}

#[test]
fn impossible_values_are_refused() {
    let day = date("2026-10-01");
    assert_eq!(
        forecast(day, 0.0, None, &[]).unwrap_err().to_string(),
        "the response is 0 weeks; it must be 4 to 20 weeks"
    );
    assert!(forecast(day, f64::NAN, None, &[]).is_err());
    assert!(forecast(day, 9.0, None, &[Look { day, stage: 8 }]).is_err());
    assert!(forecast(day, 9.0, Some(Temperature::from_c(f64::INFINITY)), &[]).is_err());
    assert!(forecast(NaiveDate::MAX, 9.0, None, &[]).is_err());
}

proptest! {
    #[test]
    fn ranges_are_in_order_whatever_was_seen(
        weeks in 4.0f64..20.0, f in 40.0f64..95.0, known: bool,
        seen in proptest::collection::vec((0i64..150, 1u8..=7), 0..8),
    ) {
        let sd = date("2026-09-20");
        let looks: Vec<Look> = seen.iter().map(|(d, s)| Look { day: sd + TimeDelta::days(*d), stage: *s }).collect();
        let f = forecast(sd, weeks, known.then(|| F(f)), &looks).unwrap();
        for m in Milestone::ALL {
            let d = f.of(m);
            prop_assert!(d.low <= d.likely && d.likely <= d.high, "{m:?} {d:?}");
        }
        for pair in Milestone::ALL.windows(2) {
            prop_assert!(f.of(pair[0]).likely <= f.of(pair[1]).likely, "{f:?}");
        }
    }

    #[test]
    fn warmer_is_never_later(weeks in 4.0f64..20.0, a in 40.0f64..95.0, b in 40.0f64..95.0) {
        let (cool, warm) = if a < b { (a, b) } else { (b, a) };
        prop_assert!(pace(weeks, Some(F(warm))).unwrap().likely <= pace(weeks, Some(F(cool))).unwrap().likely + 1e-12);
    }

    #[test]
    fn any_input_is_answered(weeks in proptest::num::f64::ANY, c in proptest::num::f64::ANY, year in -200_000i32..200_000, stage: u8) {
        if let Some(day) = NaiveDate::from_yo_opt(year, 200) {
            let _answered = forecast(day, weeks, Some(Temperature::from_c(c)), &[Look { day, stage }]).is_ok();
        }
        if let Ok(p) = pace(weeks, Some(Temperature::from_c(c))) {
            prop_assert!(p.low.is_finite() && p.low > 0.0 && p.high.is_finite());
        }
    }
}
