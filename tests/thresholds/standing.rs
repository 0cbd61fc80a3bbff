//! How long warnings last unanswered: a state stands until a newer look of its kind and says since when nobody looked, an event
//! fades, a date stands until it is done or no use any more.

use crate::season::{ABSENT, ACT, Crop, URGENT, WATCH, day, holds};
use benchwalk::record::{How, Kind, LeafSign, Material, Method, PestName, PlantPart, TestMethod};
use benchwalk::report::review::{json, text};
use benchwalk::review::{Review, build};
use benchwalk::warnings::{Class, RULES, WarningName as N, assess_all};

const STANDS: &str = "a state stands until a newer look of its kind";

fn evening(crop: &Crop, n: i64) -> Review {
    let season = crop.recorded();
    let today = assess_all(&season, day(n), &crop.limits).all().cloned().collect();
    build(&season, day(n), today, &[], "defaults".into()).unwrap()
}

fn said(crop: &Crop, n: i64) -> String {
    text(&evening(crop, n)).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Since when nobody checked, as the warning says it.
fn unchecked(crop: &Crop, n: i64, name: N) -> Option<chrono::NaiveDate> {
    crop.warning(n, name).expect("it stands").not_checked_since()
}

#[test]
fn roots_found_failing_stand_at_urgent_until_somebody_knocks_out_a_pot_again() {
    let crop = Crop::new().roots(40, 3).waters(60, &[3; 5]);
    holds(STANDS, &crop, 61, N::RootsFailing, URGENT);
    assert_eq!(unchecked(&crop, 61, N::RootsFailing), None, "the check still counts");
    holds(STANDS, &crop, 80, N::RootsFailing, URGENT);
    assert_eq!(unchecked(&crop, 62, N::RootsFailing), Some(day(40)));
    let evening = evening(&crop, 62);
    assert!(said(&crop, 62).contains("not checked since Sep 26"), "{}", text(&evening));
    assert!(json(&evening).unwrap().contains("\"not checked since Sep 26\""), "in the JSON, too");
    holds("checked again", &crop.clone().roots(63, 1), 63, N::RootsFailing, ABSENT);
    holds("up to the sale", &crop, 102, N::RootsFailing, URGENT);
    holds("what is left after the sale is no crop", &crop, 103, N::RootsFailing, ABSENT);
}

#[test]
fn what_is_watched_says_too_since_when_nobody_checked() {
    let crop = Crop::new().root_zone(40, TestMethod::PourThrough, Some(6.4), None, 4).waters(55, &[3; 3]);
    holds(STANDS, &crop, 57, N::PhHigh, WATCH);
    assert!(said(&crop, 57).contains("pH high, not checked since Sep 26, recheck"), "{}", said(&crop, 57));
}

#[test]
fn a_bench_that_was_emptied_and_filled_anew_starts_without_the_states_of_the_old_pots() {
    let crop = Crop::new().roots(40, 3).leaves(41, &[LeafSign::GrayFuzz], None).base(42, 2, 5);
    let crop = crop.with_lot(benchwalk::record::Lot { planted: day(50), ..crate::season::lot("L2") });
    let crop = crop.work(45, Kind::Sold { pots: 100 }).filled("E1", "L2", 80, 50);
    for name in [N::RootsFailing, N::GrayMold, N::WetBase] {
        holds("still there", &crop, 44, name, if name == N::RootsFailing { URGENT } else { ACT });
        holds("an empty bench", &crop, 47, name, ABSENT);
        holds("other pots", &crop, 52, name, ABSENT);
    }
}

#[test]
fn a_wet_run_stands_while_the_bench_is_walked_and_else_not_walked_says_it() {
    let wet = || Crop::new().waters(46, &[4; 5]);
    let walked = (51..=58).fold(wet(), |crop, n| crop.finding(n, Kind::Bracts { stage: 1 }));
    holds(STANDS, &walked, 52, N::StayingWet, ACT);
    assert_eq!(unchecked(&walked, 52, N::StayingWet), None);
    holds(STANDS, &walked, 58, N::StayingWet, ACT);
    assert_eq!(unchecked(&walked, 58, N::StayingWet), Some(day(50)));
    holds("read again", &walked.clone().water(58, 3), 58, N::StayingWet, ABSENT);
    holds("nobody walks it", &walked, 60, N::StayingWet, ABSENT);
    holds("nobody walks it", &walked, 60, N::NotWalked, WATCH);
    let dry = || (42..=46).fold(Crop::new().waters(40, &[1, 1]), |crop, n| crop.finding(n, Kind::Bracts { stage: 1 }));
    holds(STANDS, &dry(), 46, N::TooDry, ACT);
    holds("watered", &dry().watered(45), 46, N::TooDry, ABSENT);
}

#[test]
fn a_base_found_soaked_is_ended_by_no_reading_of_the_top() {
    let crop = Crop::new().base(40, 3, 5).waters(41, &[3, 2, 2, 1, 3, 2, 1, 2, 2, 2]);
    holds("only a newer base reading ends it", &crop, 50, N::WetBase, ACT);
    assert_eq!(unchecked(&crop, 50, N::WetBase), Some(day(40)));
    holds("felt again", &crop.base(51, 2, 3), 51, N::WetBase, ABSENT);
}

#[test]
fn salts_and_ph_end_only_by_a_newer_test() {
    let test =
        |n, ph, ec| Crop::new().root_zone(n, TestMethod::PourThrough, ph, ec, 4).lot(|l| l.slow_release_g = None);
    let high = || test(40, None, Some(5.0));
    holds(STANDS, &high().watered(45).watered(50), 70, N::SaltsHigh, ACT);
    let tested = high().root_zone(60, TestMethod::PourThrough, None, Some(3.0), 4);
    holds("tested", &tested, 60, N::SaltsHigh, ABSENT);
    let low = || test(40, None, Some(0.8));
    holds(STANDS, &low(), 70, N::SaltsLow, ACT);
    holds("clear water is no feed", &low().fed(45, 0.0, None, None), 46, N::SaltsLow, ACT);
    holds("fed: watch until tested", &low().fed(45, 200.0, None, None), 45, N::SaltsLow, WATCH);
    holds("fed: watch until tested", &low().fed(45, 200.0, None, None), 70, N::SaltsLow, WATCH);
    let topdressed = low().work(45, Kind::Topdressed { g_per_pot: 6.0, n_percent: None });
    holds("topdressed: watch until tested", &topdressed, 46, N::SaltsLow, WATCH);
    holds("fed before the test", &low().fed(39, 200.0, None, None), 46, N::SaltsLow, ACT);
}

#[test]
fn leaves_that_show_it_raise_a_watch_of_the_root_zone() {
    const SHOWN: &str = "house rule: a watch is act with leaves that show it";
    type Case = (Option<f64>, Option<f64>, N, &'static [LeafSign]);
    let zone = |ph, ec, sign: &[LeafSign]| {
        let crop = Crop::new().root_zone(40, TestMethod::PourThrough, ph, ec, 4);
        if sign.is_empty() { crop } else { crop.leaves(41, sign, None) }
    };
    let cases: [Case; 4] = [
        (Some(6.4), None, N::PhHigh, &[LeafSign::BetweenVeins, LeafSign::EdgeYellow, LeafSign::PaleNew]),
        (Some(5.45), None, N::PhLow, &[LeafSign::EdgeYellow, LeafSign::EdgeBrown, LeafSign::BetweenVeins]),
        (None, Some(4.5), N::SaltsHigh, &[LeafSign::EdgeBrown, LeafSign::EdgeYellow, LeafSign::Wilted]),
        (None, Some(1.5), N::SaltsLow, &[LeafSign::LowerYellow, LeafSign::PaleNew]),
    ];
    for (ph, ec, name, signs) in cases {
        holds(SHOWN, &zone(ph, ec, &[]), 41, name, WATCH);
        holds(SHOWN, &zone(ph, ec, &[LeafSign::Crinkled]), 41, name, WATCH);
        for sign in signs {
            holds(SHOWN, &zone(ph, ec, &[*sign]), 41, name, ACT);
            holds("a sign counts 7 days", &zone(ph, ec, &[*sign]), 49, name, WATCH);
        }
    }
}

#[test]
fn whitefly_found_stands_until_that_bench_is_looked_at_again() {
    let two = Crop::new().bench_in("E2", "East", 2).filled("E2", "L1", 100, 0);
    let found = two.plants(30, PestName::Whitefly, 20, 8).on("E2").plants(30, PestName::Whitefly, 20, 0);
    let other = found.clone().plants(38, PestName::Whitefly, 20, 0);
    holds("a clean look at the other bench", &other, 38, N::Whitefly, ACT);
    let told = other.warning(38, N::Whitefly).expect("told");
    assert_eq!((told.benches, told.evidence.is_empty()), (vec!["E1".to_owned()], false));
    assert_eq!(unchecked(&other, 38, N::Whitefly), Some(day(30)));
    holds("looked at again", &other.on("E1").plants(39, PestName::Whitefly, 20, 0), 39, N::Whitefly, ABSENT);
    let spray = Kind::Sprayed {
        ai: "oil".into(),
        against: "whitefly".into(),
        how: How::Spray,
        rei_h: 4.0,
        product: None,
        rate: None,
        application: Box::default(),
    };
    holds("sprayed: watch until the next look", &found.on("E1").work(31, spray), 50, N::Whitefly, WATCH);
}

#[test]
fn missed_magnesium_is_watched_in_the_last_three_weeks_while_the_leaves_show_it() {
    const LATE: &str = "the last 21 days: what was missed before them, while leaves show it";
    let yellow = |n| Crop::new().leaves(n, &[LeafSign::BetweenVeins], Some(PlantPart::Old));
    holds(LATE, &yellow(81), 81, N::MagnesiumMissed, URGENT);
    holds(LATE, &yellow(81), 82, N::MagnesiumMissed, WATCH);
    holds("the sign counts 7 days", &yellow(81), 89, N::MagnesiumMissed, ABSENT);
    holds("no sign", &Crop::new(), 82, N::MagnesiumMissed, ABSENT);
    let unsaid = Crop::new().leaves(85, &[LeafSign::BetweenVeins], None);
    holds("nobody said which leaves", &unsaid, 85, N::MagnesiumMissed, WATCH);
    holds(
        "young leaves",
        &Crop::new().leaves(85, &[LeafSign::BetweenVeins], Some(PlantPart::Young)),
        85,
        N::MagnesiumMissed,
        ABSENT,
    );
    let given = yellow(90).nutrient(75, Material::MagnesiumSulfate, 118.0, Method::Drench);
    holds("given", &given, 90, N::MagnesiumMissed, ABSENT);
    holds("at the sale", &yellow(100), 102, N::MagnesiumMissed, WATCH);
    holds("after the sale", &yellow(100), 103, N::MagnesiumMissed, ABSENT);
}

#[test]
fn an_event_fades_and_a_state_at_act_is_never_cleared_by_the_calendar() {
    let lamp = Crop::new().at(40, (22, 0), Kind::NightLight { lux: 48.0 });
    holds(STANDS, &lamp, 70, N::NightLight, URGENT);
    assert_eq!(unchecked(&lamp, 70, N::NightLight), Some(day(40)));
    let lost = Crop::new().lost(40, 2, Some("rot"));
    holds("an event", &lost, 47, N::LossesRising, ACT);
    holds("an event", &lost, 48, N::LossesRising, ABSENT);
    assert!(RULES.iter().any(|rule| rule.class == Class::Date && rule.name == N::MagnesiumMissed));
}
