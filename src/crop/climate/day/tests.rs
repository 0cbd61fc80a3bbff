//! The day by hand: steady readings, uneven steps, gaps, and what lies beyond the readings.

use super::*;

fn at(text: &str) -> DateTime<Utc> {
    text.parse().unwrap()
}

fn october() -> (NaiveDate, Parts) {
    let hours = Division::Hours(time(6), time(18), new_york());
    let day = NaiveDate::from_ymd_opt(2026, 10, 12).unwrap();
    (day, hours.parts(day).unwrap())
}

fn time(hour: u32) -> NaiveTime {
    NaiveTime::from_hms_opt(hour, 0, 0).unwrap()
}

fn new_york() -> Tz {
    "America/New_York".parse().unwrap()
}

fn counting() -> Counting {
    Counting { humid_over: 85.0, damp_hour: 10, warm_night_c: 22.0, zone: new_york() }
}

/// Every so many minutes over three days around October 12: 18 °C and 90 % by night, 25 °C, 60 % and 300 µmol by day.
fn steady(minutes: usize) -> Vec<Reading> {
    let (_, parts) = october();
    let first = at("2026-10-11T00:00:00Z");
    let times = (0..3 * 1440).step_by(minutes).map(|n| first + TimeDelta::minutes(i64::from(n)));
    let read = |at: DateTime<Utc>| {
        let is_day = (parts.dawn..parts.ends).contains(&at);
        Reading {
            at,
            air: Some(Temperature::from_c(if is_day { 25.0 } else { 18.0 })),
            humidity_percent: Some(if is_day { 60.0 } else { 90.0 }),
            light: Some(Irradiance::from_umol(if is_day { 300.0 } else { 0.0 })),
        }
    };
    times.map(read).collect()
}

fn of(readings: &[Reading]) -> Result<Figures, Short> {
    let (day, parts) = october();
    figures(readings, day, &parts, &counting(), Lead::Air)
}

#[test]
fn fixed_hours_are_those_of_the_site_clock() {
    let (_, parts) = october();
    assert_eq!(
        (parts.begins, parts.dawn, parts.ends),
        (at("2026-10-11T22:00:00Z"), at("2026-10-12T10:00:00Z"), at("2026-10-12T22:00:00Z"))
    );
    // The night in which clocks are put back has an hour more.
    let day = NaiveDate::from_ymd_opt(2026, 11, 1).unwrap();
    let back = Division::Hours(time(6), time(18), new_york()).parts(day).unwrap();
    assert_eq!((back.dawn - back.begins).num_hours(), 13);
}

#[test]
fn a_steady_day_is_what_it_was_at_any_step() {
    for minutes in [1, 5, 10, 30] {
        let found = of(&steady(minutes)).unwrap();
        let twelve_hours = 300.0 * 12.0 * 3_600.0 / 1e6;
        assert_eq!((found.low_c, found.high_c), (Some(18.0), Some(25.0)), "{minutes}");
        // The reading at dawn stands for half a step of the night too.
        let share = minutes as f64 / 2.0 / 720.0;
        assert_eq!(found.night_c, Some(rounded(18.0 + 7.0 * share, 0.1)), "{minutes}");
        assert_eq!(found.day_c, Some(rounded(25.0 - 7.0 * share, 0.1)), "{minutes}");
        assert!((found.light_mol.unwrap() - twelve_hours).abs() < 0.11, "{minutes}: {found:?}");
        assert!((found.humid_hours.unwrap() - 12.0).abs() < 0.11, "{minutes}: {found:?}");
        assert_eq!(found.humidity_percent, Some(rounded(60.0 + 30.0 * minutes as f64 / 2.0 / 480.0, 1.0)));
        assert_eq!(found.readings, u32::try_from(1440 / minutes).unwrap());
    }
}

#[test]
fn a_burst_of_readings_weighs_no_more_than_its_time() {
    let mut readings = steady(10);
    let burst = at("2026-10-12T16:00:01Z");
    let hot = |n: i64| Reading {
        at: burst + TimeDelta::seconds(n),
        air: Some(Temperature::from_c(40.0)),
        humidity_percent: None,
        light: None,
    };
    readings.extend((0..100).map(hot));
    readings.sort_by_key(|r| r.at);
    let found = of(&readings).unwrap();
    assert!((found.day_c.unwrap() - 25.0).abs() < 0.4, "{found:?}");
    assert_eq!(found.high_c, Some(40.0));
}

#[test]
fn each_part_needs_nine_tenths_and_light_needs_more() {
    let without = |from: &str, to: &str| -> Vec<Reading> {
        steady(10).into_iter().filter(|r| r.at < at(from) || r.at > at(to)).collect()
    };
    // 72 minutes are a tenth of twelve hours; the readings on both sides of a gap stand for half an hour each.
    assert!(of(&without("2026-10-12T03:00:00Z", "2026-10-12T04:50:00Z")).is_ok());
    assert_eq!(
        of(&without("2026-10-12T03:00:00Z", "2026-10-12T05:10:00Z")).unwrap_err(),
        Short::Gaps { part: Part::Night, percent: 87 }
    );
    assert_eq!(
        of(&without("2026-10-12T12:00:00Z", "2026-10-12T16:00:00Z")).unwrap_err(),
        Short::Gaps { part: Part::Light, percent: 72 }
    );
    let noon = of(&without("2026-10-12T15:00:00Z", "2026-10-12T16:40:00Z")).unwrap();
    assert!(noon.day_c.is_some() && noon.light_mol.is_none(), "{noon:?}");
}

#[test]
fn a_day_that_the_readings_do_not_go_beyond_is_left_for_the_next_file() {
    let cut = |from: &str, to: &str| -> Vec<Reading> {
        steady(10).into_iter().filter(|r| r.at >= at(from) && r.at <= at(to)).collect()
    };
    assert_eq!(of(&[]).unwrap_err(), Short::Begins);
    assert_eq!(of(&cut("2026-10-11T21:10:00Z", "2026-10-13T20:00:00Z")).unwrap_err(), Short::Begins);
    assert!(of(&cut("2026-10-11T21:00:00Z", "2026-10-12T23:00:00Z")).is_ok());
    assert_eq!(
        of(&cut("2026-10-11T21:00:00Z", "2026-10-12T05:00:00Z")).unwrap_err(),
        Short::Ends { part: Part::Night, percent: 62 }
    );
    assert_eq!(
        of(&cut("2026-10-11T21:00:00Z", "2026-10-12T22:50:00Z")).unwrap_err(),
        Short::Ends { part: Part::Light, percent: 100 }
    );
}

#[test]
fn what_a_logger_does_not_read_is_left_out() {
    let mut readings = steady(10);
    for reading in &mut readings {
        (reading.humidity_percent, reading.light) = (None, None);
    }
    let found = of(&readings).unwrap();
    assert_eq!((found.humidity_percent, found.humid_hours, found.vpd_kpa, found.light_mol), (None, None, None, None));
    let (day, parts) = october();
    let bright: Vec<Reading> =
        steady(10).into_iter().map(|r| Reading { air: None, humidity_percent: None, ..r }).collect();
    let found = figures(&bright, day, &parts, &counting(), Lead::Light).unwrap();
    assert!((found.light_mol.unwrap() - 13.0).abs() < 0.2 && found.night_c.is_none(), "{found:?}");
}

#[test]
fn the_deficit_is_the_mean_of_the_readings_not_of_the_mean_air() {
    let (day, parts) = october();
    let mut readings = steady(10);
    for (n, reading) in readings.iter_mut().enumerate() {
        let warm = n % 2 == 0;
        reading.air = Some(Temperature::from_c(if warm { 30.0 } else { 20.0 }));
        reading.humidity_percent = Some(if warm { 40.0 } else { 80.0 });
    }
    let found = figures(&readings, day, &parts, &counting(), Lead::Air).unwrap();
    let own = |c: f64, percent: f64| vapor_pressure_deficit(Temperature::from_c(c), percent).unwrap();
    let wanted = rounded(f64::midpoint(own(30.0, 40.0), own(20.0, 80.0)), 0.01);
    assert!((found.vpd_kpa.unwrap() - wanted).abs() < 0.021, "{found:?}, {wanted}");
    assert!(wanted - own(25.0, 60.0) > 0.1, "the deficit at the mean air is too low");
}

#[test]
fn degree_hours_are_counted_over_the_warm_night() {
    let mut readings = steady(10);
    for reading in &mut readings {
        reading.air = reading.air.map(|air| Temperature::from_c(air.c() + 5.5));
    }
    // 23.5 °C for a night of twelve hours, and five minutes of the light.
    assert!((of(&readings).unwrap().warm_h.unwrap() - 18.0).abs() < 0.8);
}
