//! Vapor pressure, dew point, light and mean temperatures against their sources.

use crate::basis::{Basis, Row};
use benchwalk::crop::Estimate;
use benchwalk::crop::climate::day::{Counting, Division, Figures, Lead, Reading, figures};
use benchwalk::crop::climate::{
    LightSource, average_daily_temperature, daily_light, daily_light_from_radiation, dew_point, dif_c,
    leaf_vapor_pressure_deficit, photons_from_lux, photons_from_radiation, saturation_vapor_pressure,
    vapor_pressure_deficit,
};
use benchwalk::dates::Tz;
use benchwalk::units::{Illuminance, Irradiance, System, Temperature, parse};

const EXAMPLE: Basis = Basis::Published("FAO-56 (Allen et al. 1998), example 3");
const EQUATION: Basis = Basis::Computed("FAO-56 equations 11, 12 and 14, evaluated by hand");
const LIGHT: Basis = Basis::Published("grower light-conversion notes: PPFD x 3,600 x hours / 1,000,000");
const MAPS: Basis = Basis::Published("Logan, Sams and Faust 2016, mapping daily light: 7.058 mol a kWh");
const FACTORS: Basis = Basis::Published("Thimijan and Heins 1983, HortScience 18:818-822");

pub(crate) fn rows() -> Vec<Row> {
    let mut rows = vapor();
    rows.extend(air());
    rows.extend(light());
    rows.extend(means());
    rows.extend(logged());
    rows
}

fn c(value: f64) -> Temperature {
    Temperature::from_c(value)
}

fn es(value: f64) -> f64 {
    saturation_vapor_pressure(c(value)).unwrap()
}

fn vapor() -> Vec<Row> {
    let row = |basis, t: f64, expected, tolerance| {
        Row::new(format!("saturation vapor pressure at {t} °C, kPa"), basis, expected, tolerance, es(t))
    };
    let mean = f64::midpoint(es(24.5), es(15.0));
    let wrong = Basis::Computed("equation 11 at the mean temperature of 19.75 °C: the error FAO-56 warns of");
    let doubling =
        Basis::Published("Prenger and Ling, Ohio State AEX-804: the water air can hold doubles about every 11 °C");
    vec![
        row(EQUATION, 1.0, 0.657, 0.001),
        row(EQUATION, 5.0, 0.872, 0.001),
        row(EQUATION, 10.0, 1.228, 0.001),
        row(EXAMPLE, 15.0, 1.705, 0.001),
        row(EQUATION, 20.0, 2.338, 0.001),
        row(EXAMPLE, 24.5, 3.075, 0.001),
        row(EQUATION, 25.0, 3.168, 0.001),
        row(EQUATION, 30.0, 4.243, 0.001),
        row(EQUATION, 35.0, 5.623, 0.002),
        row(EQUATION, 40.0, 7.376, 0.01),
        Row::new("mean of 24.5 and 15 °C, kPa", EXAMPLE, 2.390, 0.001, mean),
        Row::new("mean of 24.5 and 15 °C, the wrong way, kPa", wrong, 2.302, 0.02, mean).refuted(),
        Row::new("pressure at 27 °C over that at 16 °C", doubling, 2.0, 0.06, es(27.0) / es(16.0)),
        Row::new("the same, exactly", EQUATION, 1.96, 0.02, es(27.0) / es(16.0)),
    ]
}

fn air() -> Vec<Row> {
    let vpd = |t: f64, rh: f64, expected, tolerance| {
        let got = vapor_pressure_deficit(c(t), rh).unwrap();
        Row::new(format!("vapor pressure deficit at {t} °C and {rh}%, kPa"), EQUATION, expected, tolerance, got)
    };
    let dew = |t: f64, rh: f64, expected| {
        let got = dew_point(c(t), rh).unwrap().c();
        Row::new(format!("dew point at {t} °C and {rh}%, °C"), EQUATION, expected, 0.05, got)
    };
    let leaf = leaf_vapor_pressure_deficit(c(22.0), c(24.0), 70.0).unwrap();
    vec![
        vpd(20.0, 70.0, 0.701, 0.002),
        vpd(20.0, 90.0, 0.234, 0.002),
        vpd(25.0, 60.0, 1.267, 0.002),
        vpd(28.0, 50.0, 1.890, 0.002),
        vpd(18.0, 95.0, 0.103, 0.002),
        vpd(22.0, 100.0, 0.0, 0.0),
        Row::new("leaf 22 °C in air of 24 °C and 70%, kPa", EQUATION, 0.555, 0.002, leaf),
        dew(20.0, 90.0, 18.31),
        dew(25.0, 50.0, 13.86),
        dew(18.0, 85.0, 15.44),
    ]
}

fn light() -> Vec<Row> {
    let dli = |umol: f64, hours: f64, expected, tolerance| {
        let got = daily_light(Irradiance::from_umol(umol), hours).unwrap();
        Row::new(format!("{umol} µmol for {hours} h, mol"), LIGHT, expected, tolerance, got)
    };
    let mj = |mj: f64| daily_light_from_radiation(mj, 1.0).unwrap();
    let from = |typed: &str, source| -> Estimate<f64> {
        let reading: Illuminance = parse(typed, System::Metric).unwrap();
        let umol = photons_from_lux(reading, source).unwrap();
        Estimate::new(umol.low.umol(), umol.likely.umol(), umol.high.umol())
    };
    let maker = Basis::Published("instrument maker's conversion: foot-candles x 0.20 (divide by 5.01)");
    let biologist = Basis::Published("photobiologist's factors: foot-candles x 0.195 (divide by 5.13)");
    let michigan =
        Basis::Published("E. Runkle (Michigan State), Light It Up: foot-candles of sodium light divided by 7.6");
    let mut rows = vec![
        dli(200.0, 12.0, 8.64, 0.01),
        dli(1.0, 24.0, 0.0864, 0.0001),
        dli(150.0, 10.0, 5.40, 0.01),
        Row::new("10 MJ, least, mol", MAPS, 19.6, 0.1, mj(10.0).low),
        Row::new("10 MJ at 45% plant light, mol", FACTORS, 20.6, 0.1, mj(10.0).likely),
        Row::new("10 MJ at 50% plant light, mol", FACTORS, 22.9, 0.1, mj(10.0).high),
        Row::new("1 kWh, mol", MAPS, 7.058, 0.002, mj(3.6).low),
        Row::new("50,000 lux of sun, µmol", FACTORS, 926.0, 1.0, from("50000 lux", LightSource::Sun).likely),
        Row::new("10,020 fc of sun, µmol", maker, 2_000.0, 5.0, from("10020 fc", LightSource::Sun).likely),
        Row::new("10,020 fc of sun, most, µmol", maker, 2_000.0, 5.0, from("10020 fc", LightSource::Sun).high),
        Row::new("5,130 fc of sun, least, µmol", biologist, 1_000.0, 2.0, from("5130 fc", LightSource::Sun).low),
        Row::new(
            "500 fc of sodium light, µmol",
            michigan,
            65.8,
            0.2,
            from("500 fc", LightSource::HighPressureSodium).likely,
        ),
    ];
    let watts = |w: f64| photons_from_radiation(w).unwrap();
    rows.push(Row::new("100 W/m2 of sun, least, µmol", MAPS, 196.1, 0.1, watts(100.0).low.umol()));
    rows.push(Row::new("100 W/m2 of sun at 45% plant light, µmol", FACTORS, 205.7, 0.5, watts(100.0).likely.umol()));
    rows.push(Row::new("100 W/m2 of sun at 50% plant light, µmol", FACTORS, 228.5, 0.6, watts(100.0).high.umol()));
    for (source, factor) in [
        (LightSource::BlueSky, 52.0),
        (LightSource::HighPressureSodium, 82.0),
        (LightSource::MetalHalide, 71.0),
        (LightSource::CoolWhite, 74.0),
        (LightSource::Incandescent, 50.0),
    ] {
        let got = from("10000 lux", source).likely;
        rows.push(Row::new(format!("10,000 lux of {source:?}, µmol"), FACTORS, 10_000.0 / factor, 0.1, got));
    }
    rows
}

fn means() -> Vec<Row> {
    let f = |typed: &str| -> Temperature { parse(typed, System::Us).unwrap() };
    let adt = average_daily_temperature(f("75F"), 10.0, f("60F")).unwrap();
    let celsius = |d, h, n| average_daily_temperature(c(d), h, c(n)).unwrap().c();
    let extension =
        Basis::Published("eXtension, temperature changes: 75 °F for 10 h, 60 °F for 14 h (printed rounded to 66.3)");
    let hand = Basis::Computed("(day x its hours + night x its hours) / 24, by hand");
    vec![
        Row::new("75 °F for 10 h and 60 °F for 14 h, mean in °F", extension, 66.25, 0.05, adt.c() * 1.8 + 32.0),
        Row::new("24 °C for 12 h and 21 °C for 12 h, mean in °C", hand, 22.5, 1e-9, celsius(24.0, 12.0, 21.0)),
        Row::new("22 °C for 11 h and 19 °C for 13 h, mean in °C", hand, 20.375, 0.001, celsius(22.0, 11.0, 19.0)),
        Row::new("24 °C by day, 21 °C by night: DIF", hand, 3.0, 1e-9, dif_c(c(24.0), c(21.0)).unwrap()),
    ]
}

/// A day of readings every ten minutes, 24.5 °C by day and 15 °C by night at half of what the air can hold, 200 µmol from 06:00 to
/// 18:00.
fn logged_day() -> Figures {
    let zone = Tz::utc();
    let time = |hour| chrono::NaiveTime::from_hms_opt(hour, 0, 0).unwrap();
    let day = chrono::NaiveDate::from_ymd_opt(2026, 10, 12).unwrap();
    let parts = Division::Hours(time(6), time(18), zone).parts(day).unwrap();
    let first = parts.begins - chrono::TimeDelta::minutes(115);
    let read = |n: i32| {
        let at = first + chrono::TimeDelta::minutes(10) * n;
        let light = parts.dawn < at && at < parts.ends;
        Reading {
            at,
            air: Some(c(if light { 24.5 } else { 15.0 })),
            humidity_percent: Some(if light { 50.0 } else { 90.0 }),
            light: Some(Irradiance::from_umol(if light { 200.0 } else { 0.0 })),
        }
    };
    let readings: Vec<Reading> = (0..170).map(read).collect();
    let counting = Counting { humid_over: 85.0, damp_hour: 10, warm_night_c: 12.0, zone };
    figures(&readings, day, &parts, &counting, Lead::Air).unwrap()
}

fn logged() -> Vec<Row> {
    let found = logged_day();
    let hand = Basis::Computed("steady readings, by hand");
    let number = |value: Option<f64>| value.unwrap();
    vec![
        Row::new("a logger's day of 200 µmol for 12 h, mol", LIGHT, 8.64, 0.05, number(found.light_mol)),
        Row::new(
            "half of what air of 24.5 °C holds is lacking, kPa",
            EXAMPLE,
            3.075 / 2.0,
            0.01,
            number(found.vpd_kpa),
        ),
        Row::new("a logger's day and night, °C", hand, 24.5 - 15.0, 1e-9, number(found.day_c) - number(found.night_c)),
        Row::new("twelve hours over 85%, h", hand, 12.0, 1e-9, number(found.humid_hours)),
        Row::new("a night of 12 h three degrees over the limit, °C h", hand, 36.0, 1e-9, number(found.warm_h)),
    ]
}
