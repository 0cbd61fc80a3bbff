//! What the rules take of a climate logger's days: the lowest, the humid hours, every night; and which of two entries of a day decides.
//! Short days start on day 33; the sale is on day 102.

use crate::season::{ABSENT, ACT, Crop, URGENT, WATCH, day, holds, instant};
use benchwalk::limits::Limits;
use benchwalk::record::{ClimateLog, Entry, Kind, Place};
use benchwalk::report::series::{self, Reach, Topic};
use benchwalk::warnings::{Evidence, Figure, WarningName as N, bench_view, light_differs};

const COLD: &str = "UMass, Purdue 2012, Delaware: harm under 50 F (10 C)";
const HEAT: &str = "R. Kobayashi: 79 F (26 C); nights of 24 and 22 C and days are house rules";
const DAMP: &str = "12 hours over 85% on 2 of 3 days: house rule";
const LIGHT: &str = "5 and 10 mol/m2 a day over 14 days: house rule";

/// A day of a logger.
fn log(readings: u32) -> ClimateLog {
    ClimateLog { readings: Some(readings), ..ClimateLog::default() }
}

fn climate(day_c: Option<f64>, night_c: Option<f64>, humidity_percent: Option<f64>, log: ClimateLog) -> Kind {
    Kind::Climate { day_c, night_c, humidity_percent, log: Box::new(log) }
}

/// Written of the house at sunset, as a logger's day is.
fn house(crop: Crop, n: i64, kind: Kind) -> Crop {
    crop.write_at(instant(n, (17, 30)), Place::House("East".into()), kind)
}

fn night(crop: Crop, n: i64, night_c: f64, readings: u32) -> Crop {
    house(crop, n, climate(None, Some(night_c), None, log(readings)))
}

fn dip(low_c: f64, readings: Option<u32>) -> Crop {
    let log = ClimateLog { low_c: Some(low_c), readings, ..ClimateLog::default() };
    house(Crop::new(), 40, climate(None, Some(16.0), None, log))
}

#[test]
fn a_dip_inside_a_mild_night_is_a_cold_night() {
    holds(COLD, &dip(10.1, Some(144)), 40, N::ColdNights, ABSENT);
    holds(COLD, &dip(10.0, Some(144)), 40, N::ColdNights, ABSENT);
    holds(COLD, &dip(9.9, Some(144)), 40, N::ColdNights, URGENT);
    holds("while the reading counts", &dip(9.9, Some(144)), 43, N::ColdNights, URGENT);
    holds("and no longer", &dip(9.9, Some(144)), 44, N::ColdNights, ABSENT);
    holds("a thermometer read by hand goes by its night", &dip(9.9, None), 40, N::ColdNights, ABSENT);
}

#[test]
fn the_entry_with_more_readings_decides_then_the_later() {
    let two =
        |first: (f64, u32), second: (f64, u32)| night(night(Crop::new(), 40, first.0, first.1), 40, second.0, second.1);
    holds("fewer readings", &two((16.0, 144), (9.0, 143)), 40, N::ColdNights, ABSENT);
    holds("as many, and later", &two((16.0, 144), (9.0, 144)), 40, N::ColdNights, URGENT);
    holds("more", &two((16.0, 144), (9.0, 145)), 40, N::ColdNights, URGENT);
    holds("fewer, before it", &two((9.0, 143), (16.0, 144)), 40, N::ColdNights, ABSENT);
    holds("as many, before it", &two((9.0, 144), (16.0, 144)), 40, N::ColdNights, ABSENT);
    let by_hand = climate(None, Some(9.0), None, ClimateLog::default());
    let typed = |time| Crop::new().at(40, time, by_hand.clone());
    for time in [(7, 0), (20, 0)] {
        holds("a night typed counts where there is no logger", &typed(time), 40, N::ColdNights, URGENT);
        holds("of the same day the logger decides", &night(typed(time), 40, 16.0, 144), 40, N::ColdNights, ABSENT);
    }
    holds("on another day both count", &night(typed((7, 0)), 41, 16.0, 144), 41, N::ColdNights, URGENT);
    let only_air = house(typed((7, 0)), 40, climate(Some(20.0), None, Some(60.0), log(144)));
    holds("a logger without nights leaves the night typed", &only_air, 40, N::ColdNights, URGENT);
}

#[test]
fn every_night_of_a_logger_counts_for_heat() {
    let nights = |count: i64, c: f64| (0..count).fold(Crop::new(), |crop, n| night(crop, 38 + n, c, 144));
    holds(HEAT, &nights(2, 24.0), 40, N::HeatDelay, WATCH);
    holds(HEAT, &nights(3, 24.0), 40, N::HeatDelay, ACT);
    holds(HEAT, &nights(3, 23.9), 40, N::HeatDelay, WATCH);
    holds(HEAT, &nights(3, 22.0), 40, N::HeatDelay, ABSENT);
    // Two nights typed hot are not made three by the same nights of a logger.
    let typed = (38..40)
        .fold(nights(2, 24.0), |crop, n| crop.at(n, (7, 0), climate(None, Some(25.0), None, ClimateLog::default())));
    holds(HEAT, &typed, 40, N::HeatDelay, WATCH);
}

/// Two days of a logger with so many hours over a humidity.
fn humid(hours: f64, over: f64, percent: f64) -> Crop {
    let of = || ClimateLog { humid_hours: Some(hours), humid_over: Some(over), ..log(144) };
    let crop = house(Crop::new().bracts(84, 4), 86, climate(None, None, Some(percent), of()));
    house(crop, 87, climate(None, None, Some(percent), of()))
}

#[test]
fn humid_hours_are_mold_weather() {
    holds(DAMP, &humid(11.9, 85.0, 75.0), 87, N::MoldWeather, ABSENT);
    holds(DAMP, &humid(12.0, 85.0, 75.0), 87, N::MoldWeather, ACT);
    holds(DAMP, &humid(12.1, 85.0, 75.0), 87, N::MoldWeather, ACT);
    holds("hours over a lower humidity say nothing", &humid(20.0, 84.0, 75.0), 87, N::MoldWeather, ABSENT);
    holds("hours over a higher one do", &humid(12.0, 90.0, 75.0), 87, N::MoldWeather, ACT);
    holds("the rule as it is", &humid(0.0, 85.0, 85.1), 87, N::MoldWeather, ACT);
    holds("the rule as it is", &humid(0.0, 85.0, 85.0), 87, N::MoldWeather, ABSENT);
    let crop = humid(13.5, 85.0, 75.0);
    let mold = crop.warning(87, N::MoldWeather).unwrap();
    let hours = |e: &Evidence| matches!(e, Evidence::Figure { figure: Figure::HumidHours, value, .. } if (*value - 13.5).abs() < 1e-9);
    assert!(mold.evidence.iter().any(hours), "{mold:?}");
}

#[test]
fn the_forecast_goes_by_every_day_of_a_logger() {
    let warm = |readings: Option<u32>| {
        (33..47).fold(Crop::new(), |crop, n| {
            let log = ClimateLog { readings, ..ClimateLog::default() };
            house(crop, n, climate(Some(18.0), Some(15.0), None, log))
        })
    };
    let color = |crop: &Crop| {
        let season = crop.season();
        bench_view(&season, "E1", day(47), &Limits::default()).unwrap().color.unwrap()
    };
    let (none, cool) = (color(&Crop::new()), color(&warm(Some(144))));
    assert_eq!(cool.temperatures.written, 14, "{:?}", cool.temperatures);
    assert!(cool.full_color.likely > none.full_color.likely, "two cool weeks hold the color back");
    // A mean typed for the same days does not count beside it.
    let both = (33..47).fold(warm(Some(144)), |crop, n| {
        crop.at(n, (7, 0), climate(Some(30.0), Some(28.0), None, ClimateLog::default()))
    });
    assert_eq!(color(&both).full_color, cool.full_color);
}

#[test]
fn where_the_light_and_the_list_of_low_light_houses_disagree_it_is_said() {
    let entries = |mol: f64, days: i64| -> Vec<Entry> {
        let crop = (0..days).fold(Crop::new(), |crop, n| {
            house(crop, 40 + n, climate(None, None, None, ClimateLog { light_mol: Some(mol), ..log(144) }))
        });
        crop.entries
    };
    let says = |mol: f64, days: i64, listed: bool| {
        let all = entries(mol, days);
        light_differs(&all.iter().collect::<Vec<_>>(), listed, &Limits::default()).is_some()
    };
    for (mol, days, listed, told) in [
        (4.9, 14, false, true),
        (5.0, 14, false, false),
        (5.1, 14, false, false),
        (4.9, 13, false, false),
        (10.1, 14, true, true),
        (10.0, 14, true, false),
        (9.9, 14, true, false),
        (10.1, 14, false, false),
        (4.9, 14, true, false),
    ] {
        assert_eq!(says(mol, days, listed), told, "{LIGHT}: {mol} mol, {days} days, listed: {listed}");
    }
    // It stands with the climate of the bench.
    let crop = (0..14).fold(Crop::new().site(|s| s.low_light_houses = vec!["East".into()]), |crop, n| {
        house(crop, 40 + n, climate(None, Some(17.0), None, ClimateLog { light_mol: Some(12.0), ..log(144) }))
    });
    let season = crop.season();
    let days = series::days(&season, "E1", (Reach::Season, day(54)));
    let text = series::bench(&season, ("E1", Topic::Climate), day(54), days, &Limits::default()).text;
    assert!(
        text.contains("House East is listed as low in light, but its logger gave 12.0 mol/m2 a day over 14 days"),
        "{text}"
    );
}
