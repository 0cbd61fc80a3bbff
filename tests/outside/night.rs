//! Nights against an independent astronomy library, and the start of short days against the trade's dates.

use crate::basis::{Basis, Row};
use benchwalk::crop::night::{
    CRITICAL_NIGHT_MINUTES, Nights, Place, Sky, delay_of_missed_nights, first_night_reaching, night,
    start_of_short_days, sun_times,
};
use benchwalk::terms::NightConvention;
use chrono::{Datelike, NaiveDate, NaiveTime, Timelike};

const EPHEM: Basis = Basis::Computed("ephem 4.2.1 (PyEphem), see night_table.csv");
const GEOMETRY: Basis = Basis::Computed("sun geometry worked out apart for 2026, night as 24 h less the day");
const KOBAYASHI: Basis = Basis::Published("R. Kobayashi, Poinsettia flower initiation, trade press");
const SUN: NightConvention = NightConvention::SunsetToSunrise;
const CIVIL: NightConvention = NightConvention::CivilTwilight;

pub(crate) fn rows() -> Vec<Row> {
    let mut rows = table();
    rows.extend(first_long_nights());
    rows.extend(known_nights());
    rows.extend(trade_dates());
    rows
}

fn place(latitude: f64) -> Place {
    Place::new(latitude, 0.0).unwrap()
}

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn minutes(latitude: f64, day: NaiveDate, convention: NightConvention) -> f64 {
    night(&place(latitude), day, convention).unwrap().minutes()
}

/// Minutes on a 24-hour clock, counted from the expected instant's side of midnight.
fn clock(text: &str) -> f64 {
    let time: NaiveTime = text.parse().unwrap();
    f64::from(time.num_seconds_from_midnight()) / 60.0
}

/// Every line of the table: sunset, sunrise, night, civil night, each within one minute.
fn table() -> Vec<Row> {
    let mut rows = Vec::new();
    for line in include_str!("night_table.csv").lines().filter(|l| !l.starts_with('#')) {
        let [latitude, day, sunset, sunrise, night, civil] = line.split(',').collect::<Vec<_>>()[..] else {
            panic!("night_table.csv: {line}");
        };
        let (at, on) = (latitude.parse().unwrap(), date(day));
        let name = |what: &str| format!("{what} at {latitude} on {day}");
        rows.push(Row::new(name("night"), EPHEM, night.parse().unwrap(), 1.0, minutes(at, on, SUN)));
        let civil = if civil.is_empty() { 0.0 } else { civil.parse().unwrap() };
        rows.push(Row::new(name("civil night"), EPHEM, civil, 1.0, minutes(at, on, CIVIL)));
        let Sky::Crosses(today) = sun_times(&place(at), on).unwrap().sun else { panic!("no sun: {line}") };
        let Sky::Crosses(next) = sun_times(&place(at), on.succ_opt().unwrap()).unwrap().sun else { panic!("{line}") };
        rows.push(Row::new(name("sunset"), EPHEM, clock(sunset), 1.0, clock(&today.ends.time().to_string())));
        rows.push(Row::new(name("sunrise"), EPHEM, clock(sunrise), 1.0, clock(&next.begins.time().to_string())));
    }
    rows
}

fn first(latitude: f64, year: i32, minutes: f64, convention: NightConvention) -> f64 {
    first_night_reaching(&place(latitude), year, minutes, convention)
        .unwrap()
        .map_or(f64::NAN, |d| f64::from(d.ordinal()))
}

fn ordinal(text: &str) -> f64 {
    f64::from(date(text).ordinal())
}

/// The first night of 11 h 40 min and of 12 h in 2026 by latitude, to the day.
fn first_long_nights() -> Vec<Row> {
    let mut rows = Vec::new();
    for (latitude, sun, civil, twelve) in [
        (25.0, "2026-09-14", "2026-10-16", "2026-09-28"),
        (29.7, "2026-09-16", "2026-10-13", "2026-09-27"),
        (34.7, "2026-09-17", "2026-10-11", "2026-09-27"),
        (35.8, "2026-09-18", "2026-10-11", "2026-09-27"),
        (40.4, "2026-09-19", "2026-10-09", "2026-09-26"),
        (42.5, "2026-09-19", "2026-10-09", "2026-09-26"),
        (45.0, "2026-09-20", "2026-10-08", "2026-09-26"),
        (51.5, "2026-09-21", "2026-10-08", "2026-09-26"),
    ] {
        let row = |name: &str, day, m, c| {
            Row::new(format!("{name} at {latitude} N"), GEOMETRY, ordinal(day), 1.0, first(latitude, 2026, m, c))
        };
        rows.push(row("11 h 40 min, sunset to sunrise,", sun, 700.0, SUN));
        rows.push(row("11 h 40 min, civil,", civil, 700.0, CIVIL));
        rows.push(row("12 h, sunset to sunrise,", twelve, 720.0, SUN));
    }
    rows
}

/// Nights of the places and days trials were run at.
fn known_nights() -> Vec<Row> {
    let row = |latitude: f64, day: &str, convention, h: f64, m: f64| {
        let name = format!("night at {latitude} on {day}, {convention:?}");
        Row::new(name, GEOMETRY, h * 60.0 + m, 2.0, minutes(latitude, date(day), convention))
    };
    let mut rows = vec![
        row(34.7, "2019-09-04", SUN, 11.0, 12.0),
        row(34.7, "2019-09-04", CIVIL, 10.0, 20.0),
        row(42.4, "1956-10-10", SUN, 12.0, 40.0),
        row(42.4, "1956-10-10", CIVIL, 11.0, 44.0),
        row(29.65, "2011-10-04", SUN, 12.0, 12.0),
    ];
    let gain = minutes(34.7, date("2019-09-14"), SUN) - minutes(34.7, date("2019-09-04"), SUN);
    let clemson = Basis::Published("Millar et al. 2023, HortScience 58(8):825: nights simulated at 2 min longer a day");
    rows.push(Row::new("minutes a night gains at 34.7 N in September", clemson, 2.0, 0.2, gain / 10.0));
    // The mean of a year's nights is half the time, less the refraction and the sun's own width, on the equator all year.
    let dip = 4.0 * 50.0 / 15.0 / 2.0;
    let memory = Basis::FromMemory;
    rows.push(Row::new(
        "night on the equator at the equinox",
        memory,
        720.0 - dip,
        2.0,
        minutes(0.0, date("2026-03-20"), SUN),
    ));
    rows
}

/// What the trade says of natural dates, and of nights missed.
fn trade_dates() -> Vec<Row> {
    let mut rows = vec![Row::new("night that starts flowers, minutes", KOBAYASHI, 700.0, 0.0, CRITICAL_NIGHT_MINUTES)];
    for latitude in [25.0, 30.0, 35.0, 40.0, 45.0, 50.0] {
        let name = format!("natural start at {latitude} N: some time in September");
        let got = first(latitude, 2026, CRITICAL_NIGHT_MINUTES, SUN);
        rows.push(Row::new(name, KOBAYASHI, ordinal("2026-09-15"), 15.0, got));
    }
    let old = Basis::Published("Poinsettia Pointers, New York State Flower Growers Bulletin 129: about 10 October");
    rows.push(Row::new(
        "old New York date fits civil twilight",
        old,
        ordinal("1956-10-10"),
        2.0,
        first(42.4, 1956, 700.0, CIVIL),
    ));
    let old = Row::new("and not sunset to sunrise", old, ordinal("1956-10-10"), 2.0, first(42.4, 1956, 700.0, SUN));
    rows.push(old.refuted());
    let florida = Basis::Published("UF/IFAS 2011 delayed crop: lights out 4 October, natural nights after it");
    let gainesville = Place::new(29.65, -82.32).unwrap();
    let lit = Nights::LightsUntil(date("2011-10-03"));
    let sd = start_of_short_days(&gainesville, date("2011-08-23"), lit, CRITICAL_NIGHT_MINUTES, SUN).unwrap().unwrap();
    rows.push(Row::new(
        "lit to 3 October: first dark night",
        florida,
        ordinal("2011-10-04"),
        0.0,
        f64::from(sd.ordinal()),
    ));
    let (least, most) = delay_of_missed_nights(3);
    let column = Basis::Published("newspaper garden column 2020: one day a missed night");
    let kansas = Basis::Published("W. Upham, Kansas State, Reblooming Poinsettias: two days a missed night");
    rows.push(Row::new("3 missed nights, least", column, 3.0, 0.0, f64::from(least)));
    rows.push(Row::new("3 missed nights, most", kansas, 6.0, 0.0, f64::from(most)));
    rows
}
