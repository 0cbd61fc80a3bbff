//! What a climate logger's days show: bands of day and night, hours over limits shaded, DIF below the heights; nothing of it in a
//! season without one.

use crate::pages::screen_of;
use crate::{demo, last_day};
use benchwalk::limits::Limits;
use benchwalk::record::{ClimateLog, Entry, Kind, Place};
use benchwalk::report::chart::{Chart, Layer};
use benchwalk::report::series::{self, Reach, Topic};
use benchwalk::report::{html, season as report};
use benchwalk::season::Season;
use chrono::{Days, NaiveDate};
use uuid::Uuid;

/// One day of a logger in a house: mean of the night, of the day, hours over 85%, readings.
fn logged(house: &str, day: NaiveDate, (night_c, day_c, humid_hours, readings): (f64, f64, f64, u32)) -> Entry {
    let log = ClimateLog {
        low_c: Some(night_c - 2.0),
        high_c: Some(day_c + 3.0),
        humid_hours: Some(humid_hours),
        humid_over: Some(85.0),
        vpd_kpa: Some(0.44),
        light_mol: Some(9.3),
        warm_h: Some((night_c - 20.0).max(0.0)),
        readings: Some(readings),
    };
    Entry {
        id: Uuid::from_u128(u128::from(readings) << 64 | u128::from(day.to_epoch_days().unsigned_abs())),
        at: format!("{day}T17:30:00-04:00").parse().unwrap(),
        by: "log-n".into(),
        place: Place::House(house.into()),
        plot: None,
        kind: Kind::Climate {
            day_c: Some(day_c),
            night_c: Some(night_c),
            humidity_percent: Some(72.0),
            log: Box::new(log),
        }
        .into(),
        note: None,
    }
}

/// The demo with a logger in the house of its first bench: 40 days up to the last but one, two of them missing.
fn with_logger() -> (Season, String, String) {
    let demo = demo();
    let bench = demo.benches()[0].clone();
    let last = last_day(&demo);
    let mut entries = demo.entries().to_vec();
    for back in (1..=40_u32).filter(|n| ![7, 8].contains(n)) {
        let day = last - Days::new(u64::from(back));
        let swing = f64::from(back % 7);
        entries.push(logged(&bench.house, day, (16.0 + swing, 21.0 + swing / 2.0, f64::from(back % 13), 288)));
    }
    (Season::new(demo.plan().clone(), entries), bench.bench, bench.house)
}

fn chart(season: &Season, bench: &str, topic: Topic) -> Chart {
    let on = last_day(season);
    let days = series::days(season, bench, (Reach::Season, on));
    series::bench(season, (bench, topic), on, days, &Limits::default())
}

fn names(chart: &Chart) -> Vec<&str> {
    chart.layers.iter().map(Layer::name).collect()
}

#[test]
fn the_climate_of_a_house_has_bands_of_day_and_night_and_hours_over_limits_shaded() {
    let (season, bench, house) = with_logger();
    let chart = chart(&season, &bench, Topic::Climate);
    assert_eq!(
        names(&chart),
        [
            "day, mean to highest",
            "night, lowest to mean",
            "day mean",
            "night mean",
            "warm nights above 71.6 \u{b0}F",
            "cold below 50 \u{b0}F",
            "hours over 85% humidity (full 24)",
            "warm-night \u{b0}F-hours (full 3.6)",
        ],
        "no lowest was under the limit, so there is no strip of it"
    );
    assert!(
        chart.text.contains("by a logger, 38 days") && chart.text.contains("2 between them missing"),
        "{}",
        chart.text
    );
    assert!(chart.text.contains("VPD 0.44 kPa, light 9.3 mol/m2, DIF +8.1 \u{b0}F."), "{}", chart.text);
    let all = series::climate(&season, last_day(&season), &Limits::default());
    assert_eq!(all.iter().map(|c| c.house.as_str()).collect::<Vec<_>>(), [house]);
    assert_eq!((all[0].table.heads.len(), all[0].table.rows.len()), (13, 38));
    assert!(all[0].table.rows.iter().all(|row| row.len() == 13));
}

#[test]
fn the_climate_on_the_screen_is_read_without_color() {
    let (season, ..) = with_logger();
    let keys = format!("{{Enter}}c{}", "{Tab}".repeat(8));
    insta::assert_snapshot!("climate_logged_80x24", screen_of(&season, &keys, (80, 24), false));
    let plain = screen_of(&season, &keys, (80, 24), true);
    assert!(plain.is_ascii(), "{plain}");
    insta::assert_snapshot!("climate_logged_ascii", plain);
    let wide = screen_of(&season, "{Enter}", (190, 50), true);
    assert!(wide.contains("CLIMATE") || wide.contains("CHARTS"), "{wide}");
}

#[test]
fn dif_stands_below_the_heights_day_by_day() {
    let (season, bench, _) = with_logger();
    let chart = chart(&season, &bench, Topic::Height);
    let dif = chart.layers.iter().find(|l| l.name().starts_with("DIF")).unwrap();
    let Layer::Strip { points, full, .. } = dif else { panic!("a strip") };
    assert_eq!(points.len(), 38);
    let yesterday = last_day(&season) - Days::new(1);
    let of = points.iter().find(|p| p.0 == yesterday).unwrap().1;
    assert!((of - 8.1).abs() < 1e-9, "21.5 by day less 17 by night are 4.5 \u{b0}C, 8.1 \u{b0}F: {of}");
    assert!((*full - 9.0).abs() < 1e-9, "the largest of all days: {full}");
}

#[test]
fn of_two_entries_of_a_day_the_one_with_more_readings_is_drawn_then_the_later() {
    let (season, bench, house) = with_logger();
    let day = last_day(&season) - Days::new(1);
    let night = |season: &Season| {
        let chart = chart(season, &bench, Topic::Climate);
        let line = chart.layers.into_iter().find(|l| l.name() == "night mean").unwrap();
        let Layer::Line { points, .. } = line else { panic!("a line") };
        points.iter().find(|p| p.0 == day).unwrap().1
    };
    let known = night(&season);
    let with = |readings: u32, later: bool| {
        let mut season = season.clone();
        let mut entry = logged(&house, day, (10.0, 21.5, 0.0, readings));
        if later {
            entry.id = Uuid::from_u128(7);
            entry.at += chrono::Duration::minutes(1);
        }
        assert!(season.insert(entry));
        night(&season)
    };
    assert!((with(287, true) - known).abs() < 1e-9, "fewer readings, though later");
    assert!((with(289, false) - 50.0).abs() < 1e-9, "more readings");
    assert!((with(288, true) - 50.0).abs() < 1e-9, "as many, and later");
}

#[test]
fn the_season_shows_the_climate_once_a_house_and_beside_it_that_of_a_bench_with_its_own_logger() {
    let (mut season, bench, house) = with_logger();
    let mut entry = logged("", last_day(&season) - Days::new(1), (12.0, 20.0, 2.0, 290));
    entry.place = Place::Bench(bench.as_str().into());
    entry.id = Uuid::from_u128(9);
    assert!(season.insert(entry));
    let limits = (&Limits::default(), "defaults".to_owned());
    let built = report::build(&season, last_day(&season), limits, report::Charted::All).unwrap();
    let page = html::season(&built);
    assert_eq!(page.matches(&format!("<figcaption>House {house} climate</figcaption>")).count(), 1);
    assert_eq!(page.matches(&format!("<figcaption>{bench} climate, lot")).count(), 1);
    assert!(page.contains("<a href=\"#climate\">Climate</a>") && page.contains("<h2 id=\"climate\">Climate</h2>"));
    assert!(report::text(&built).contains(&format!("Climate of house {house} by a logger, 38 days")));
}

#[test]
fn without_a_logger_there_is_no_climate_and_no_dif() {
    let season = demo();
    assert!(series::climate(&season, last_day(&season), &Limits::default()).is_empty());
    let bench = season.benches()[0].bench.clone();
    let empty = chart(&season, &bench, Topic::Climate);
    assert!(empty.is_empty() && empty.text.contains("No day of a climate logger yet"), "{}", empty.text);
    assert!(names(&chart(&season, &bench, Topic::Height)).iter().all(|name| !name.starts_with("DIF")));
}
