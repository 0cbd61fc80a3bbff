//! Nights: mirror images, the polar year, bad input.

use super::*;
use chrono::Datelike;
use proptest::prelude::*;

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn place(latitude: f64) -> Place {
    Place::new(latitude, 0.0).unwrap()
}

#[test]
fn polar_day_and_polar_night_are_told_apart() {
    for (latitude, day, expected) in [
        (70.0, "2026-06-21", Night::None),
        (70.0, "2026-12-21", Night::Unbroken),
        (-70.0, "2026-06-21", Night::Unbroken),
        (-70.0, "2026-12-21", Night::None),
        (90.0, "2026-07-01", Night::None),
        (90.0, "2026-12-01", Night::Unbroken),
        (-90.0, "2026-12-01", Night::None),
    ] {
        assert_eq!(
            night(&place(latitude), date(day), NightConvention::SunsetToSunrise).unwrap(),
            expected,
            "{latitude} {day}"
        );
    }
}

#[test]
fn a_white_night_has_a_sunset_but_no_dark() {
    let times = sun_times(&place(62.0), date("2026-06-21")).unwrap();
    assert!(matches!(times.sun, Sky::Crosses(_)));
    assert_eq!(times.civil, Sky::StaysUp);
    assert_eq!(night(&place(62.0), date("2026-06-21"), NightConvention::CivilTwilight).unwrap(), Night::None);
}

#[test]
fn the_polar_year_turns_once_each_way() {
    for latitude in [67.0, 75.0, 89.0, 89.99, -67.0, -80.0] {
        let kinds: Vec<u8> = date("2026-01-01")
            .iter_days()
            .take(365)
            .map(|d| match night(&place(latitude), d, NightConvention::SunsetToSunrise).unwrap() {
                Night::None => 0,
                Night::Minutes(_) => 1,
                Night::Unbroken => 2,
            })
            .collect();
        let turns = kinds.windows(2).filter(|w| w[0] != w[1]).count();
        assert!(turns <= 4, "{latitude}: {turns} turns");
        assert!(kinds.contains(&0), "{latitude}");
    }
}

#[test]
fn short_days_come_by_season_by_cloth_or_by_lamp() {
    let here = Place::new(44.1, -70.21).unwrap();
    let start = |nights| {
        start_of_short_days(&here, date("2026-08-17"), nights, CRITICAL_NIGHT_MINUTES, NightConvention::SunsetToSunrise)
            .unwrap()
            .unwrap()
    };
    let natural = start(Nights::Natural);
    assert_eq!(natural, date("2026-09-19"));
    assert_eq!(start(Nights::BlackoutFrom(date("2026-09-10"))), date("2026-09-10"));
    assert_eq!(start(Nights::LightsUntil(date("2026-10-04"))), date("2026-10-05"));
    assert_eq!(start(Nights::LightsUntil(date("2026-09-01"))), natural, "lamps out before the nights are long");
    let civil = start_of_short_days(
        &here,
        date("2026-08-17"),
        Nights::Natural,
        CRITICAL_NIGHT_MINUTES,
        NightConvention::CivilTwilight,
    );
    assert!(civil.unwrap().unwrap() > date("2026-10-01"));
}

#[test]
fn a_southern_crop_has_its_short_days_in_its_own_autumn() {
    let south = place(-35.0);
    let start = |planted| {
        start_of_short_days(&south, date(planted), Nights::Natural, 700.0, NightConvention::SunsetToSunrise)
            .unwrap()
            .unwrap()
    };
    assert!((3..=4).contains(&start("2027-02-10").month()) && start("2027-02-10").year() == 2027);
    assert_eq!(start("2026-11-20"), start("2027-02-10"), "planted before midsummer");
    assert_eq!(start("2027-05-01"), date("2027-05-01"), "planted into long nights");
}

#[test]
fn a_night_that_never_gets_so_long_is_none() {
    assert_eq!(first_night_reaching(&place(10.0), 2026, 840.0, NightConvention::SunsetToSunrise).unwrap(), None);
    assert!(first_night_reaching(&place(10.0), 2026, 1_500.0, NightConvention::SunsetToSunrise).is_err());
    assert!(first_night_reaching(&place(10.0), i32::MIN, 700.0, NightConvention::SunsetToSunrise).is_err());
    assert!(first_night_reaching(&place(-10.0), i32::MIN, 700.0, NightConvention::SunsetToSunrise).is_err());
}

#[test]
fn the_first_long_night_is_the_first_of_all() {
    for latitude in [-66.0, -50.0, -5.0, 0.0, 5.0, 25.0, 44.1, 60.0, 68.0, 80.0] {
        let start = if latitude < 0.0 { date("2025-12-21") } else { date("2026-06-21") };
        for minutes in [690.0, 700.0, 715.0, 720.0, 780.0, 860.0] {
            for convention in [NightConvention::SunsetToSunrise, NightConvention::CivilTwilight] {
                let found = first_night_reaching(&place(latitude), 2026, minutes, convention).unwrap();
                let reaches = |day: &NaiveDate| night(&place(latitude), *day, convention).unwrap().minutes() >= minutes;
                let plainly = start.iter_days().skip(1).take(183).find(reaches);
                assert_eq!(found, plainly, "{latitude}, {minutes} min, {convention:?}");
            }
        }
    }
}

#[test]
fn the_half_years_mirror_too() {
    for latitude in [10.0, 30.0, 45.0, 60.0] {
        let first =
            |l| first_night_reaching(&place(l), 2027, 700.0, NightConvention::SunsetToSunrise).unwrap().unwrap();
        let apart = (first(latitude) - first(-latitude)).num_days();
        // Half a year, give or take the days by which the earth's path is not a circle.
        assert!((178..=190).contains(&apart), "{latitude}: {apart}");
    }
}

proptest! {
    #[test]
    fn the_sun_keeps_its_own_time_at_every_longitude(longitude in -180.0f64..180.0, latitude in -60.0f64..60.0, ordinal in 1u32..365) {
        let day = NaiveDate::from_yo_opt(2026, ordinal).unwrap();
        let at = |l: f64| match sun_times(&Place::new(latitude, l).unwrap(), day).unwrap().sun {
            Sky::Crosses(light) => light.ends.timestamp() as f64 / 60.0 + l * 4.0,
            _ => f64::NAN,
        };
        prop_assert!((at(longitude) - at(0.0)).abs() < 3.0, "sunset by the sun's own clock");
    }

    #[test]
    fn nights_mirror_between_the_hemispheres(latitude in 0.0f64..60.0, day in 0i64..365, longitude in -180.0f64..180.0) {
        // North and south share one day: what is night in the one is day in the other, but for the refraction and the
        // sun's own width (about 7 minutes a day at the equator and more toward the poles) which lengthen both days.
        let day = date("2026-01-01") + chrono::TimeDelta::days(day);
        let length = |l| night(&Place::new(l, longitude).unwrap(), day, NightConvention::SunsetToSunrise).unwrap().minutes();
        let both = length(latitude) + length(-latitude);
        let widened = 1_440.0 - both;
        // 2 x 2 x 50' of arc over 15'/min, divided by the slope at which the sun sets: cos(latitude) at the equinox, less later.
        let declination = 23.44f64.to_radians().sin();
        let slope = (latitude.to_radians().cos().powi(2) - declination * declination).max(0.01).sqrt();
        let most = 4.0 * 50.0 / 15.0 / slope + 6.0;
        prop_assert!(widened > 8.0 && widened < most, "{both} at {latitude} on {day}: {widened} of {most}");
    }

    #[test]
    fn any_place_and_day_is_answered(latitude in proptest::num::f64::ANY, longitude in proptest::num::f64::ANY, year: i32, ordinal: u32, minutes in proptest::num::f64::ANY) {
        if let (Ok(place), Some(day)) = (Place::new(latitude, longitude), NaiveDate::from_yo_opt(year, ordinal)) {
            let _answered = night(&place, day, NightConvention::CivilTwilight).is_ok();
            let _answered = first_night_reaching(&place, year, minutes, NightConvention::SunsetToSunrise).is_ok();
        }
    }

    #[test]
    fn every_possible_night_is_finite(
        latitude in -90.0f64..=90.0, longitude in -180.0f64..=180.0, year in 1900i32..2200, ordinal in 1u32..=365, civil: bool,
    ) {
        let convention = if civil { NightConvention::CivilTwilight } else { NightConvention::SunsetToSunrise };
        let place = Place::new(latitude, longitude).unwrap();
        let day = NaiveDate::from_yo_opt(year, ordinal).unwrap();
        let minutes = night(&place, day, convention).unwrap().minutes();
        prop_assert!(minutes.is_finite() && (0.0..=1_440.0).contains(&minutes));
        prop_assert!(sun_times(&place, day).is_ok());
    }
}
