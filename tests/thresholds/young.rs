//! Heat, drought and damp on young plants, bracts nobody looked at, whitefly on cards, and the late dry-down.

use crate::season::{ABSENT, ACT, Crop, WATCH, day, holds, instant};
use benchwalk::record::{Kind, PestCount, PestName, Place, Reach};
use benchwalk::warnings::{Step, WarningName as N};

fn hot(crop: Crop, n: i64, day_c: f64) -> Crop {
    let kind = Kind::Climate { day_c: Some(day_c), night_c: None, humidity_percent: None, log: Box::default() };
    crop.at(n, (15, 0), kind)
}

#[test]
fn hot_days_on_young_plants_are_watched_for_a_week() {
    const HEAT: &str = "32 C on 2 of the last 3 logged days to day 21: house rule between 90 F and 35 C";
    let two = |a, b| hot(hot(Crop::new(), 5, a), 6, b);
    holds(HEAT, &two(32.0, 31.9), 6, N::HeatEarly, ABSENT);
    holds(HEAT, &two(32.0, 32.0), 6, N::HeatEarly, WATCH);
    holds(HEAT, &two(33.0, 35.0), 5, N::HeatEarly, ABSENT);
    holds("7 days", &two(33.0, 35.0), 13, N::HeatEarly, WATCH);
    holds("8 days", &two(33.0, 35.0), 14, N::HeatEarly, ABSENT);
    holds("two of three logged days", &hot(hot(hot(Crop::new(), 5, 33.0), 7, 25.0), 9, 33.0), 9, N::HeatEarly, WATCH);
    let far = hot(hot(hot(hot(Crop::new(), 5, 33.0), 7, 25.0), 8, 25.0), 9, 33.0);
    holds("two of four", &far, 9, N::HeatEarly, ABSENT);
    let late = |n| hot(hot(Crop::new(), n - 1, 33.0), n, 33.0);
    holds("to day 21", &late(21), 21, N::HeatEarly, WATCH);
    holds("from day 22", &late(22), 22, N::HeatEarly, ABSENT);
    holds("one day read twice is one day", &hot(hot(Crop::new(), 5, 33.0), 5, 34.0), 5, N::HeatEarly, ABSENT);
}

#[test]
fn a_plug_that_dried_out_once_is_watched_for_a_week() {
    const DRY: &str = "water 1 in the first 14 days: house rule";
    holds(DRY, &Crop::new().water(9, 2), 9, N::DryYoung, ABSENT);
    holds(DRY, &Crop::new().water(9, 1), 9, N::DryYoung, WATCH);
    holds("watered at once, too", &Crop::new().water(9, 1).watered(9), 9, N::DryYoung, WATCH);
    holds("7 days", &Crop::new().water(9, 1).watered(9), 16, N::DryYoung, WATCH);
    holds("8 days", &Crop::new().water(9, 1).watered(9), 17, N::DryYoung, ABSENT);
    holds(DRY, &Crop::new().water(14, 1), 14, N::DryYoung, WATCH);
    holds("from day 15", &Crop::new().water(15, 1), 15, N::DryYoung, ABSENT);
}

#[test]
fn damp_air_before_color_is_watched_and_from_color_on_is_mold_weather() {
    const DAMP: &str = "over 85% after 10:00 on 2 of 3 days";
    let damp = |percent, hour: u32| Crop::new().humid(40, (hour, 1), percent).humid(42, (hour, 1), percent);
    holds(DAMP, &damp(85.0, 10), 42, N::HumidLeaves, ABSENT);
    holds(DAMP, &damp(86.0, 10), 42, N::HumidLeaves, WATCH);
    holds("read in the morning", &damp(95.0, 9), 42, N::HumidLeaves, ABSENT);
    holds("one day", &Crop::new().humid(42, (11, 0), 95.0), 42, N::HumidLeaves, ABSENT);
    holds("a reading counts 3 days", &damp(90.0, 11), 45, N::HumidLeaves, WATCH);
    holds("a reading counts 3 days", &damp(90.0, 11), 46, N::HumidLeaves, ABSENT);
    holds("stage 1", &damp(90.0, 11).bracts(41, 1), 42, N::HumidLeaves, WATCH);
    holds("from color on", &damp(90.0, 11).bracts(41, 2), 42, N::HumidLeaves, ABSENT);
    holds("from color on", &damp(90.0, 11).bracts(41, 2), 42, N::MoldWeather, ACT);
}

/// The first day of color by the plan: that on which `bracts-unchecked` is watched, less a week.
fn color() -> i64 {
    (60..102).find(|n| Crop::new().warning(*n, N::BractsUnchecked).is_some()).expect("it is watched") - 7
}

#[test]
fn bracts_that_nobody_looks_at_are_not_silent_to_the_sale() {
    const LOOK: &str = "house rule: 7 days after first color watch, 14 act";
    let first = color();
    assert!((65..75).contains(&first), "first color at 30/54 of 66.5 days after day 33: {first}");
    holds(LOOK, &Crop::new(), first + 6, N::BractsUnchecked, ABSENT);
    holds(LOOK, &Crop::new(), first + 13, N::BractsUnchecked, WATCH);
    holds(LOOK, &Crop::new(), first + 14, N::BractsUnchecked, ACT);
    holds(LOOK, &Crop::new(), 102, N::BractsUnchecked, ACT);
    holds("after the sale", &Crop::new(), 103, N::BractsUnchecked, ABSENT);
    holds("one early look", &Crop::new().bracts(first - 8, 1), first + 14, N::BractsUnchecked, ACT);
    holds("a look since", &Crop::new().bracts(first - 7, 1), first + 14, N::BractsUnchecked, ABSENT);
    holds("looked at now", &Crop::new().bracts(first + 20, 3), first + 20, N::BractsUnchecked, ABSENT);
    let north = Crop::new().lot(|l| l.ready_by = day(20));
    holds("sold before short days", &north, 20, N::BractsUnchecked, ABSENT);
}

#[test]
fn cards_alone_say_look_under_the_leaves_and_are_no_scouting() {
    const CARDS: &str = "house rule: any adult on a card, no plants looked at in 8 days";
    let cards = |crop: Crop, n, count| crop.cards(n, PestName::Whitefly, 2, count, 7);
    holds(CARDS, &cards(Crop::new(), 40, 0), 40, N::Whitefly, ABSENT);
    let one = cards(Crop::new(), 40, 1);
    holds(CARDS, &one, 40, N::Whitefly, WATCH);
    let told = one.warning(40, N::Whitefly).expect("told");
    assert_eq!(told.place, Place::House("East".into()));
    assert!(told.steps.contains(&Step::LOOK_UNDER));
    let looked = |n| cards(Crop::new().plants(n, PestName::Whitefly, 5, 0), 40, 1);
    holds("looked at 8 days ago", &looked(32), 40, N::Whitefly, ABSENT);
    holds("looked at 9 days ago", &looked(31), 40, N::Whitefly, WATCH);
    let weekly = [12, 19, 26, 33, 40].into_iter().fold(Crop::new(), |crop, n| cards(crop, n, 0));
    holds("cards are no look at plants", &weekly, 40, N::Unscouted, WATCH);
    holds("only plants are", &weekly.plants(35, PestName::Whitefly, 20, 0), 40, N::Unscouted, ABSENT);
}

#[test]
fn catches_that_rise_three_times_are_watched_by_the_house() {
    const RISE: &str = "house rule: three counts, each higher per card and week";
    let looked = || Crop::new().plants(38, PestName::Whitefly, 5, 0);
    let read = |counts: &[(i64, u32, u32)]| {
        counts.iter().fold(looked(), |crop, (n, count, days)| crop.cards(*n, PestName::Whitefly, 2, *count, *days))
    };
    holds(RISE, &read(&[(26, 1, 7), (33, 2, 7), (40, 3, 7)]), 40, N::Whitefly, WATCH);
    holds("two counts", &read(&[(33, 2, 7), (40, 3, 7)]), 40, N::Whitefly, ABSENT);
    holds("not higher", &read(&[(26, 1, 7), (33, 3, 7), (40, 3, 7)]), 40, N::Whitefly, ABSENT);
    holds("a card left 14 days counts half", &read(&[(26, 2, 7), (33, 3, 7), (40, 6, 14)]), 40, N::Whitefly, ABSENT);
    let risen = read(&[(26, 1, 7), (33, 2, 7), (40, 3, 7)]).cards(47, PestName::Whitefly, 2, 3, 7);
    holds("the next is not higher", &risen.plants(46, PestName::Whitefly, 5, 0), 47, N::Whitefly, ABSENT);
    let house = |crop: Crop, n, count| {
        let count = PestCount::Cards { cards: 4, count, days: 7 };
        let kind = Kind::Pests { pest: PestName::Whitefly, count };
        crop.write_at(instant(n, (7, 5)), Place::House("East".into()), kind)
    };
    let whole = house(house(house(looked(), 26, 1), 33, 4), 40, 9);
    holds("cards of the whole house", &whole, 40, N::Whitefly, WATCH);
}

#[test]
fn a_late_dry_down_is_given_two_days_more() {
    const LATE: &str = "house rule: two days more in the last 35 days before the sale";
    // Day 67 is 35 days before the sale of day 102.
    let wet = |last: i64, days: i64| Crop::new().waters(last - days + 1, &vec![4; usize::try_from(days).unwrap()]);
    holds(LATE, &wet(66, 3), 66, N::StayingWet, WATCH);
    holds(LATE, &wet(66, 5), 66, N::StayingWet, ACT);
    holds(LATE, &wet(67, 4), 67, N::StayingWet, ABSENT);
    holds(LATE, &wet(67, 5), 67, N::StayingWet, WATCH);
    holds(LATE, &wet(67, 6), 67, N::StayingWet, WATCH);
    holds(LATE, &wet(67, 7), 67, N::StayingWet, ACT);
    let dull = |days| wet(80, days).site(|s| s.low_light_houses = vec!["East".into()]);
    holds("of late and low light the greater counts", &dull(7), 80, N::StayingWet, ACT);
    let wide = |crop: Crop| crop.lot(|l| l.rim_cm = Some(20.0));
    holds("one more for wide rims", &wide(dull(7)), 80, N::StayingWet, WATCH);
    holds("three at most", &wide(dull(8)), 80, N::StayingWet, ACT);
}

#[test]
fn a_pinch_is_overdue_from_day_15_with_roots_at_the_wall() {
    const PURDUE: &str = "Purdue 2008: 14 days from planting is the most recommended";
    let wall = |n| Crop::new().reach(n, Reach::Wall);
    holds(PURDUE, &wall(10), 14, N::PinchOverdue, ABSENT);
    holds(PURDUE, &wall(10), 14, N::PinchDue, WATCH);
    holds(PURDUE, &wall(10), 15, N::PinchOverdue, ACT);
    holds("overdue replaces due", &wall(10), 15, N::PinchDue, ABSENT);
    assert_eq!(wall(10).warning(20, N::PinchOverdue).expect("told").since, day(15));
    assert_eq!(wall(17).warning(20, N::PinchOverdue).expect("told").since, day(17));
    holds("no reach logged", &Crop::new(), 20, N::PinchOverdue, ABSENT);
    holds("in the center", &Crop::new().reach(14, Reach::Center), 20, N::PinchOverdue, ABSENT);
    holds("whatever the roots", &Crop::new().reach(14, Reach::Center), 21, N::PinchOverdue, ACT);
    holds("its level counts from day 21 in both cases", &wall(10), 28, N::PinchOverdue, ACT);
    holds("its level counts from day 21 in both cases", &wall(10), 29, N::PinchOverdue, WATCH);
}

#[test]
fn a_lot_that_is_not_fed_is_not_told_to_feed_less() {
    let bare = || Crop::new().lot(|l| l.slow_release_g = None);
    let fed = bare().fed(79, 200.0, None, None);
    holds("the last feed over 100 ppm", &fed, 85, N::TaperFeed, WATCH);
    holds("no feed for 14 days", &fed, 93, N::Unfed, WATCH);
    holds("no feed for 14 days", &fed, 93, N::TaperFeed, ABSENT);
}

#[test]
fn a_short_crop_is_told_what_can_still_be_done_and_no_strength_is_filled_in() {
    let short: String = N::TooShort.rule().next.iter().map(|step| step.text).collect::<Vec<_>>().join(" ");
    for part in
        ["BA plus GA4+7", "first color", "trial plants first", "label decides", "3 to 5 ppm once", "enlarges bracts"]
    {
        assert!(short.contains(part), "{part}: {short}");
    }
    assert!(N::TooShort.rule().answers.iter().all(|answer| !answer.title.contains("regulator")));
}

#[test]
fn what_is_read_of_a_whole_house_walks_no_bench() {
    let place = || Place::House("East".into());
    let read = |crop: Crop| {
        let climate =
            Kind::Climate { day_c: Some(20.0), night_c: Some(18.0), humidity_percent: None, log: Box::default() };
        let hose = Kind::FeedCheck { ec_ms_cm: Some(1.5), ph: None, alkalinity_ppm: None, mg_ppm: None };
        let at = instant(42, (7, 0));
        let crop = crop.write_at(at, place(), climate).write_at(at, place(), Kind::NightLight { lux: 1.0 });
        crop.write_at(at, place(), hose)
    };
    let crop = read(Crop::new().water(40, 3));
    let season = crop.season();
    assert!(!benchwalk::review::is_walked(&season, "E1", day(42)), "the evening");
    holds("the rule", &crop, 42, N::NotWalked, WATCH);
    let card = benchwalk::model::Summary::of_all(&season, &["E1".to_owned()], day(42), &crop.limits).remove(0);
    assert!(!card.seen && card.last_seen == Some(day(40)), "the overview and the walk");
    let water = crop.water(42, 3);
    assert!(benchwalk::review::is_walked(&water.season(), "E1", day(42)));
}
