//! The temperature of a house: asked once a day on the first bench walked there, in one line that may be left blank.

use crate::desk::{COLOR, Desk};
use crate::season::{Crop, house, instant};
use benchwalk::limits::Limits;
use benchwalk::model::Walked;
use benchwalk::record::{ClimateLog, Entry, Kind, Line, Place};
use benchwalk::report::sheet;
use benchwalk::units::System;

/// Two houses of two benches, watered as needed; the site has the temperature asked.
fn two_houses() -> Crop {
    let mut crop = Crop::bare().site(|site| site.no_temperature = false).with_lot(crate::season::lot("R6"));
    crop = crop.lot(|lot| (lot.height_low_cm, lot.height_high_cm) = (None, None));
    for (n, (bench, house)) in (1..).zip([("E1", "East"), ("E2", "East"), ("W1", "West"), ("W2", "West")]) {
        crop =
            crop.bench_in(bench, house, n).filled(bench, "R6", 100, 0).on(bench).pinched(14).roots(54, 0).bracts(54, 1);
        crop = crop.plants(54, benchwalk::record::PestName::Whitefly, 20, 0).waters(53, &[3, 2, 3]);
    }
    crop
}

fn climates(desk: &Desk) -> Vec<Entry> {
    let entries =
        desk.kept.iter().filter_map(|line| if let Line::Entry(entry) = line { Some(entry.clone()) } else { None });
    entries.filter(|entry| matches!(*entry.kind, Kind::Climate { .. })).collect()
}

#[test]
fn it_is_asked_once_a_house_and_logged_for_the_house() {
    let mut desk = Desk::of(&two_houses().recorded(), COLOR, (80, 24));
    desk.keys("w3");
    let text = desk.text();
    assert!(text.contains("[house temp _]") && text.contains("72/64"), "{text}");
    desk.keys("72/64 80%{Enter}");
    let all = climates(&desk);
    assert_eq!(all.len(), 1, "{}", desk.text());
    assert_eq!(all[0].place, Place::House("East".into()));
    let Kind::Climate { day_c: Some(day), night_c: Some(night), humidity_percent: Some(humid), .. } =
        Kind::clone(&all[0].kind)
    else {
        panic!("{:?}", all[0].kind)
    };
    assert!(
        (day - 22.2).abs() < 0.1 && (night - 17.8).abs() < 0.1 && (humid - 80.0).abs() < 0.1,
        "{day} {night} {humid}"
    );
    assert!(
        desk.text().contains("[water _]") && !desk.text().contains("house temp"),
        "E2 asks nothing more\n{}",
        desk.text()
    );
    desk.keys("3");
    assert!(desk.text().contains("house temp"), "the other house asks\n{}", desk.text());
    let walked = desk.app.model.cache.bench("W1").unwrap().walked();
    assert_eq!(walked, Walked::No, "a reading of the house walks no bench");
    desk.keys("3").keys("{Enter}");
    assert!(desk.text().contains("[water _]") && !desk.text().contains("house temp"), "blank skips\n{}", desk.text());
    desk.keys("3");
    assert_eq!(climates(&desk).len(), 1);
    assert!(desk.text().contains("The round is done"), "{}", desk.text());
}

#[test]
fn left_blank_it_is_not_asked_again_that_day_and_asked_the_next() {
    let mut desk = Desk::of(&two_houses().recorded(), COLOR, (80, 24));
    desk.keys("w3{Enter}{Esc}").keys("f");
    assert!(!desk.text().contains("house temp"), "{}", desk.text());
    desk.pass(chrono::Duration::hours(24));
    desk.keys("{Esc}w");
    assert!(desk.text().contains("house temp _"), "{}", desk.text());
}

#[test]
fn a_bench_is_walked_without_it_and_what_is_mistyped_is_told_beside_the_line() {
    let mut desk = Desk::of(&two_houses().recorded(), COLOR, (80, 24));
    desk.keys("w3");
    assert_eq!(desk.app.model.cache.bench("E1").unwrap().walked(), Walked::Yes);
    desk.keys("72{Enter}");
    assert!(desk.text().contains("! house temperature: type day and night"), "{}", desk.text());
    assert!(climates(&desk).is_empty());
    desk.keys("{Ctrl-U}min 58 max 84{Enter}");
    let all = climates(&desk);
    let Kind::Climate { log, .. } = &*all[0].kind else { panic!("{:?}", all[0].kind) };
    assert!((log.low_c.unwrap() - 14.4).abs() < 0.1 && (log.high_c.unwrap() - 28.9).abs() < 0.1);
}

#[test]
fn it_is_not_asked_where_it_stands_already_or_where_the_site_has_it_switched_off() {
    let climate = Kind::Climate { day_c: Some(21.0), night_c: Some(18.0), humidity_percent: None, log: Box::default() };
    let logged = two_houses().write_at(instant((10, 12), (6, 0)), house("East"), climate);
    let mut desk = Desk::of(&logged.recorded(), COLOR, (80, 24));
    desk.keys("w");
    assert!(!desk.text().contains("house temp"), "a logger filled it in\n{}", desk.text());
    let log = Box::new(ClimateLog { readings: Some(144), ..ClimateLog::default() });
    let climate = Kind::Climate { day_c: Some(21.0), night_c: Some(18.0), humidity_percent: None, log };
    for (day, asked) in [(5, false), (3, true)] {
        let logged = two_houses().write_at(instant((10, day), (18, 0)), house("East"), climate.clone());
        let mut desk = Desk::of(&logged.recorded(), COLOR, (80, 24));
        desk.keys("w");
        assert_eq!(desk.text().contains("house temp"), asked, "a logger's last day is Oct {day}\n{}", desk.text());
    }
    let mut off = Desk::of(&two_houses().site(|site| site.no_temperature = true).recorded(), COLOR, (80, 24));
    off.keys("w");
    assert!(!off.text().contains("house temp"), "{}", off.text());
}

#[test]
fn a_metric_site_types_celsius_and_the_paper_has_a_line_a_house() {
    let crop = two_houses().site(|site| site.units = System::Metric);
    let mut desk = Desk::of(&crop.recorded(), COLOR, (80, 24));
    desk.keys("w3");
    assert!(desk.text().contains("22/18"), "{}", desk.text());
    desk.keys("/18{Enter}");
    assert!(
        matches!(*climates(&desk)[0].kind, Kind::Climate { day_c: None, night_c: Some(c), .. } if (c - 18.0).abs() < 0.01)
    );
    let on = crate::season::date(10, 12);
    let paper = sheet::text(&sheet::build(&crop.season(), on, &Limits::default()).unwrap());
    assert_eq!(paper.matches("house temperature: day ____ night ____ °C").count(), 2, "{paper}");
    let off = sheet::build(&crop.site(|site| site.no_temperature = true).season(), on, &Limits::default()).unwrap();
    assert!(!sheet::text(&off).contains("house temperature"));
}

/// Half typed when another label is scanned, it is there again on the next bench of the house that asks for it.
#[test]
fn half_typed_it_waits_while_another_bench_is_looked_at() {
    let mut desk = Desk::of(&two_houses().recorded(), COLOR, (80, 24));
    desk.keys("w3");
    assert!(desk.text().contains("72/64"), "{}", desk.text());
    let first = desk.app.screen.bench(&desk.app.model).unwrap();
    desk.keys("70").keys_every("=W1{Enter}", 1);
    assert!(desk.text().starts_with("Walk  W1"), "{}", desk.text());
    desk.keys_every(&format!("={first}{{Enter}}"), 1);
    desk.keys("/64{Enter}");
    let [entry] = climates(&desk).try_into().unwrap();
    assert!(
        matches!(*entry.kind, benchwalk::record::Kind::Climate { day_c: Some(day), .. } if day > 21.0 && day < 21.2),
        "{entry:?}"
    );
}
