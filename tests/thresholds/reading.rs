//! Method the rules read the record: strikes, tomorrow, moves, houses, revisions, order.

use crate::season::{ABSENT, ACT, Crop, URGENT, WATCH, day, holds, instant, lot};
use benchwalk::journal;
use benchwalk::limits::Limits;
use benchwalk::record::{Kind, LeafSign, Line, Material, Method, Place};
use benchwalk::season::Season;
use benchwalk::warnings::{Assessment, Warning, WarningName as N, assess, assess_all, assess_group, groups_on};
use chrono::NaiveDate;

#[test]
fn a_struck_out_entry_does_not_exist_from_the_strike_on() {
    let crop = Crop::new().roots(40, 3).struck(42);
    holds("before the strike", &crop, 41, N::RootsFailing, URGENT);
    holds("from the strike on", &crop, 42, N::RootsFailing, ABSENT);
    let over = Crop::new().roots(33, 3).roots(40, 0).struck(42);
    holds("what it had replaced speaks again", &over, 42, N::RootsFailing, URGENT);
}

#[test]
fn tomorrow_does_not_count() {
    let crop = Crop::new().roots(40, 3).roots(41, 0);
    holds("an entry from tomorrow", &crop, 40, N::RootsFailing, URGENT);
    holds("today", &crop, 41, N::RootsFailing, ABSENT);
}

#[test]
fn the_first_water_of_a_day_before_its_watering_counts() {
    let crop = |second: u8| {
        Crop::new().waters(46, &[4, 4, 4, 4]).water(50, 4).at(50, (15, 0), Kind::Water { level: second, base: None })
    };
    holds("a later reading of the day changes nothing", &crop(2), 50, N::StayingWet, ACT);
    let after = Crop::new().waters(46, &[4, 4, 4, 3]).at(50, (6, 0), Kind::Watered { ml_per_pot: None }).water(50, 5);
    holds("a reading after the day's watering does not count", &after, 50, N::StayingWet, ABSENT);
    let wilted = Crop::new().water(40, 1).leaves(40, &[LeafSign::Wilted], None).watered(40).at(
        40,
        (12, 0),
        Kind::Water { level: 5, base: None },
    );
    holds("wilted dry, watered, then read at 5", &wilted, 40, N::WiltingWet, ABSENT);
}

#[test]
fn two_entries_at_one_instant_are_ordered_by_their_ids() {
    let score = |score| Kind::Roots { score, pots: None, bad: None, signs: vec![], reach: None };
    let place = || Place::Bench("E1".into());
    let crop =
        Crop::new().write_at(instant(40, (7, 0)), place(), score(3)).write_at(instant(40, (7, 0)), place(), score(0));
    holds("the greater id is the later", &crop, 40, N::RootsFailing, ABSENT);
    let mut lines = crop.lines();
    lines.reverse();
    let told = assess_all(&Season::of(lines), day(40), &Limits::default());
    assert!(told.all().all(|w| w.name != N::RootsFailing), "whatever the order of the lines");
}

#[test]
fn history_follows_the_pots() {
    let crop = Crop::new()
        .bench_in("E2", "East", 2)
        .nutrient(40, Material::MagnesiumSulfate, 118.0, Method::Drench)
        .roots(40, 3)
        .work(45, Kind::Moved { to: "E2".into(), pots: 50 })
        .roots(47, 0);
    let on = |bench: &str, n, name| {
        assess(&crop.season(), bench, day(n), &Limits::default()).into_iter().find(|w| w.name == name)
    };
    assert!(on("E2", 46, N::MagnesiumMissed).is_none(), "what was given before the move counts");
    assert!(on("E2", 46, N::RootsFailing).is_some(), "what was seen before the move counts");
    assert!(on("E1", 48, N::RootsFailing).is_none(), "checked since");
    assert!(on("E2", 48, N::RootsFailing).is_some(), "a check on the bench they left is not theirs");
    assert!(on("E2", 44, N::RootsFailing).is_none(), "nothing stood there yet");
}

#[test]
fn what_is_written_of_a_house_counts_only_for_benches_with_pots() {
    let roots = Kind::Roots { score: 3, pots: None, bad: None, signs: vec![], reach: None };
    let crop = Crop::new()
        .bench_in("E2", "East", 2)
        .write_at(instant(40, (7, 0)), Place::House("East".into()), roots)
        .filled("E2", "L1", 50, 41);
    let has = |bench: &str| {
        assess(&crop.season(), bench, day(42), &Limits::default()).iter().any(|w| w.name == N::RootsFailing)
    };
    assert!(has("E1"), "stood with pots that day");
    assert!(!has("E2"), "was filled the day after");
}

#[test]
fn a_revised_lot_holds_for_every_day() {
    let crop = Crop::new();
    let mut later = lot("L1");
    (later.revision.rev, later.feed_mg_ppm) = (2, Some(35.0));
    holds("as first planned", &crop, 50, N::MagnesiumMissed, ACT);
    let mut lines = crop.lines();
    lines.insert(0, Line::Lot(later));
    let told = assess_all(&Season::of(lines), day(50), &Limits::default());
    assert!(told.all().all(|w| w.name != N::MagnesiumMissed), "the highest revision holds");
}

/// The warnings of lots and houses, each assessed by itself.
fn one_by_one(season: &Season, on: NaiveDate, limits: &Limits, all: &Assessment) -> Vec<Warning> {
    let group = |place: &Place| assess_group(season, (place, on), limits, &all.by_bench);
    let mut groups: Vec<Warning> = groups_on(season, on).iter().flat_map(group).collect();
    groups.sort_by_key(|w| w.name);
    groups
}

#[test]
fn lots_and_houses_one_by_one_say_what_all_of_them_say() {
    let season = Season::of(journal::read(include_str!("../../demo-data/demo.jsonl")).unwrap());
    let limits = Limits::default();
    let mut found = 0;
    for on in ["2026-09-14", "2026-10-24", "2026-11-20"] {
        let on = on.parse().unwrap();
        let all = assess_all(&season, on, &limits);
        found += all.groups.len();
        assert_eq!(all.groups, one_by_one(&season, on, &limits, &all), "{on}");
    }
    assert!(found > 0);
}

#[test]
fn the_parts_make_the_whole() {
    let crop =
        Crop::new().bench_in("E2", "East", 2).filled("E2", "L1", 50, 0).roots(40, 3).on("E2").waters(46, &[4; 5]);
    let (season, limits) = (crop.season(), Limits::default());
    let all = assess_all(&season, day(50), &limits);
    for (bench, told) in &all.by_bench {
        assert_eq!(told, &assess(&season, bench, day(50), &limits), "{bench}");
    }
    assert_eq!(all.groups, one_by_one(&season, day(50), &limits, &all));
    assert!(all.is_flagged("E1") && all.is_flagged("E2"));
    holds("benches without a finding for 10 days", &crop, 50, N::NotWalked, ACT);
    holds("two benches are no trouble of the house", &crop, 50, N::HouseTrouble, ABSENT);
    holds("unmeasured only from the pinch on", &crop, 50, N::Unmeasured, ABSENT);
    holds("untested", &crop, 50, N::RootZoneUntested, WATCH);
}
