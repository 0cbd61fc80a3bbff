//! Feed and root zone.

use crate::season::{ABSENT, ACT, Crop, URGENT, WATCH, holds};
use benchwalk::crop::root_zone::{PhBounds, SaltBounds};
use benchwalk::limits::Limits;
use benchwalk::record::{LeafSign, Material, Method, PlantPart, TestMethod};
use benchwalk::warnings::{Step, WarningName as N};

const WEEK_6: &str = "common practice: six weeks; shown from day 35, missed from day 46 (house rule)";
const PURDUE: &str = "Purdue: every 4 to 6 weeks";
const MSU: &str = "Michigan State: 30 to 40 ppm Mg, feed and water together";
const WHIPKER: &str = "Whipker and others 2002: low under 1.0 / 0.75 / 0.25";
const UMASS: &str = "UMass classes: high over 4.6 / 3.5 / 1.3, extreme over 7.8 / 6.0 / 2.3";
const NEWSLETTER: &str = "university newsletter range by pour-through: 2.0 to 4.3";

fn drenched(n: i64, ppm: f64) -> Crop {
    Crop::new().nutrient(n, Material::MagnesiumSulfate, ppm, Method::Drench)
}

#[test]
fn magnesium_in_the_sixth_week() {
    holds(WEEK_6, &Crop::new(), 34, N::MagnesiumDue, ABSENT);
    holds(WEEK_6, &Crop::new(), 35, N::MagnesiumDue, WATCH);
    holds(WEEK_6, &Crop::new(), 45, N::MagnesiumDue, WATCH);
    holds(WEEK_6, &Crop::new(), 45, N::MagnesiumMissed, ABSENT);
    holds(WEEK_6, &Crop::new(), 46, N::MagnesiumMissed, ACT);
    holds("missed replaces due", &Crop::new(), 46, N::MagnesiumDue, ABSENT);
    holds("21 days before the sale", &Crop::new(), 81, N::MagnesiumMissed, ACT);
    holds("under 21 days before the sale", &Crop::new(), 82, N::MagnesiumMissed, ABSENT);
}

#[test]
fn magnesium_again() {
    holds(PURDUE, &drenched(42, 118.0), 69, N::MagnesiumDue, ABSENT);
    holds(PURDUE, &drenched(42, 118.0), 70, N::MagnesiumDue, WATCH);
    let early_sale = |n| drenched(30, 118.0).lot(|l| l.ready_by = crate::season::day(n));
    holds(PURDUE, &early_sale(102), 71, N::MagnesiumDue, WATCH);
    holds(PURDUE, &early_sale(102), 72, N::MagnesiumMissed, ACT);
    holds("a dose before day 35 counts from its own day", &drenched(20, 118.0), 47, N::MagnesiumDue, ABSENT);
    holds("a dose before day 35 counts from its own day", &drenched(20, 118.0), 48, N::MagnesiumDue, WATCH);
}

#[test]
fn what_meets_magnesium() {
    holds("1 lb in 100 gal is 118 ppm; from 100 ppm on", &drenched(40, 100.0), 46, N::MagnesiumMissed, ABSENT);
    holds("under 100 ppm", &drenched(40, 99.0), 46, N::MagnesiumMissed, ACT);
    let sprayed = Crop::new().nutrient(40, Material::MagnesiumSulfate, 118.0, Method::Spray);
    holds("a spray is no drench", &sprayed, 46, N::MagnesiumMissed, ACT);
    holds(MSU, &Crop::new().lot(|l| l.feed_mg_ppm = Some(30.0)), 46, N::MagnesiumMissed, ABSENT);
    holds(MSU, &Crop::new().lot(|l| l.feed_mg_ppm = Some(29.0)), 46, N::MagnesiumMissed, ACT);
    let fed = |mg: [Option<f64>; 4]| {
        mg.into_iter().zip([36, 38, 40, 42]).fold(Crop::new(), |c, (mg, n)| c.fed(n, 200.0, mg, None))
    };
    let (yes, no) = (Some(30.0), Some(29.0));
    holds("three of the last four fed", &fed([no, yes, yes, yes]), 46, N::MagnesiumMissed, ABSENT);
    holds("two of the last four fed", &fed([no, yes, yes, no]), 46, N::MagnesiumMissed, ACT);
    holds("not said is not given", &fed([yes, yes, None, None]), 46, N::MagnesiumMissed, ACT);
}

#[test]
fn missed_magnesium_that_shows() {
    let yellow = |w| Crop::new().leaves(50, &[LeafSign::BetweenVeins], w);
    holds(
        "Michigan State: between the veins, old leaves first",
        &yellow(Some(PlantPart::Old)),
        50,
        N::MagnesiumMissed,
        URGENT,
    );
    holds("middle leaves too", &yellow(Some(PlantPart::Middle)), 50, N::MagnesiumMissed, URGENT);
    holds("young leaves point at iron", &yellow(Some(PlantPart::Young)), 50, N::MagnesiumMissed, ACT);
    let wet = Crop::new().water(50, 4).warning(50, N::MagnesiumMissed).expect("told");
    assert!(wet.steps.contains(&Step::WAIT_UNTIL_DRY));
    let dry = Crop::new().water(50, 3).warning(50, N::MagnesiumMissed).expect("told");
    assert!(!dry.steps.contains(&Step::WAIT_UNTIL_DRY));
}

#[test]
fn molybdenum_once() {
    const MO: &str = "0.1 ppm Mo: Purdue, trade article by university authors";
    holds(WEEK_6, &Crop::new(), 35, N::MolybdenumDue, WATCH);
    holds(WEEK_6, &Crop::new(), 46, N::MolybdenumMissed, WATCH);
    holds(MO, &Crop::new().lot(|l| l.feed_mo_ppm = Some(0.1)), 46, N::MolybdenumMissed, ABSENT);
    holds(MO, &Crop::new().lot(|l| l.feed_mo_ppm = Some(0.09)), 46, N::MolybdenumMissed, WATCH);
    holds(MO, &Crop::new().fed(40, 200.0, None, Some(0.1)), 46, N::MolybdenumMissed, ABSENT);
    let drench = Crop::new().nutrient(40, Material::SodiumMolybdate, 59.4, Method::Drench);
    holds("2 oz in 100 gal is 59 ppm; once is enough", &drench, 80, N::MolybdenumMissed, ABSENT);
    let edges = Crop::new().leaves(50, &[LeafSign::EdgeYellow], None);
    holds("yellow edges", &edges, 50, N::MolybdenumMissed, ACT);
    let acid = |ph| Crop::new().root_zone(50, TestMethod::Sme, Some(ph), None, 4);
    holds("held back under pH 5.5", &acid(5.4), 50, N::MolybdenumMissed, ACT);
    holds("held back under pH 5.5", &acid(5.5), 50, N::MolybdenumMissed, WATCH);
}

#[test]
fn unfed_crops() {
    const FEED: &str = "common practice: the starter charge lasts about a week";
    let bare = || Crop::new().lot(|l| l.slow_release_g = None);
    holds(FEED, &bare(), 6, N::Unfed, ABSENT);
    holds(FEED, &bare(), 7, N::Unfed, ACT);
    holds("slow-release in the lot", &Crop::new(), 7, N::Unfed, ABSENT);
    holds("constant feed", &bare().lot(|l| l.feed_n_ppm = Some(200.0)), 7, N::Unfed, ABSENT);
    let topdressed = bare().work(0, benchwalk::record::Kind::Topdressed { g_per_pot: 8.0, n_percent: None });
    holds("topdressed", &topdressed, 40, N::Unfed, ABSENT);
    holds("14 days without", &bare().fed(20, 200.0, None, None), 33, N::Unfed, ABSENT);
    holds("14 days without", &bare().fed(20, 200.0, None, None), 34, N::Unfed, WATCH);
    holds("clear water is no feed", &bare().fed(6, 0.0, None, None), 7, N::Unfed, ACT);
}

fn ec(n: i64, method: TestMethod, ec: f64) -> Crop {
    Crop::new().lot(|l| l.slow_release_g = None).root_zone(n, method, None, Some(ec), 4)
}

#[test]
fn salts_low_by_method() {
    for (method, low) in [(TestMethod::PourThrough, 1.0), (TestMethod::Sme, 0.75), (TestMethod::OneToTwo, 0.25)] {
        holds(WHIPKER, &ec(40, method, low - 0.01), 40, N::SaltsLow, ACT);
        let at = if method == TestMethod::PourThrough { WATCH } else { ABSENT };
        holds(WHIPKER, &ec(40, method, low), 40, N::SaltsLow, at);
    }
    holds(NEWSLETTER, &ec(40, TestMethod::PourThrough, 1.9), 40, N::SaltsLow, WATCH);
    holds(NEWSLETTER, &ec(40, TestMethod::PourThrough, 2.0), 40, N::SaltsLow, ABSENT);
    holds("not in the first 14 days", &ec(14, TestMethod::PourThrough, 1.9), 14, N::SaltsLow, ABSENT);
    holds("not in the first 14 days", &ec(15, TestMethod::PourThrough, 1.9), 15, N::SaltsLow, WATCH);
    holds("not in the last 21 days", &ec(80, TestMethod::PourThrough, 1.9), 81, N::SaltsLow, ABSENT);
    holds("not in the last 21 days", &ec(80, TestMethod::PourThrough, 1.9), 80, N::SaltsLow, WATCH);
}

#[test]
fn salts_high_by_method() {
    let bounds = [(TestMethod::PourThrough, 4.6, 7.8), (TestMethod::Sme, 3.5, 6.0), (TestMethod::OneToTwo, 1.3, 2.3)];
    for (method, high, extreme) in bounds {
        let at = if method == TestMethod::PourThrough { WATCH } else { ABSENT };
        holds(UMASS, &ec(40, method, high), 40, N::SaltsHigh, at);
        holds(UMASS, &ec(40, method, high + 0.01), 40, N::SaltsHigh, ACT);
        holds(UMASS, &ec(40, method, extreme), 40, N::SaltsHigh, ACT);
        holds(UMASS, &ec(40, method, extreme + 0.01), 40, N::SaltsHigh, URGENT);
    }
    holds(NEWSLETTER, &ec(40, TestMethod::PourThrough, 4.3), 40, N::SaltsHigh, ABSENT);
    holds(NEWSLETTER, &ec(40, TestMethod::PourThrough, 4.31), 40, N::SaltsHigh, WATCH);
    holds(
        "Penn State: sick samples at 6 to 10 by saturated extract",
        &ec(40, TestMethod::Sme, 7.0),
        40,
        N::SaltsHigh,
        URGENT,
    );
}

#[test]
fn salts_high_on_dry_and_wet_benches() {
    let high = || ec(40, TestMethod::Sme, 4.1);
    holds("dry roots in strong salts", &high().water(40, 2), 40, N::SaltsHigh, URGENT);
    holds("dry roots in strong salts", &high().water(40, 3), 40, N::SaltsHigh, ACT);
    holds("watered since", &high().water(40, 2).watered(40), 40, N::SaltsHigh, ACT);
    let steps = |crop: Crop| crop.warning(40, N::SaltsHigh).expect("told").steps;
    assert!(steps(high().water(40, 4)).contains(&Step::NO_LEACHING_WET), "never leach a wet bench");
    assert!(!steps(high().water(40, 3)).contains(&Step::NO_LEACHING_WET));
    let slow = high().lot(|l| l.slow_release_g = Some(8.0));
    assert!(steps(slow).contains(&Step::NO_LEACHING_SLOW_RELEASE), "Penn State 2012: leaching frees more salt");
    let few = Crop::new().root_zone(40, TestMethod::Sme, None, Some(4.1), 2);
    holds("under 3 pots: test again", &few, 40, N::SaltsHigh, WATCH);
    assert!(steps(few).contains(&Step::TEST_AGAIN));
}

#[test]
fn ph_bands() {
    const EDGE: &str = "university newsletter: act under 5.4; Whipker 2002: act over 6.5";
    let ph = |n, ph| Crop::new().root_zone(n, TestMethod::PourThrough, Some(ph), None, 4);
    holds(EDGE, &ph(40, 5.39), 40, N::PhLow, ACT);
    holds(EDGE, &ph(40, 5.4), 40, N::PhLow, WATCH);
    holds(EDGE, &ph(40, 5.5), 40, N::PhLow, WATCH);
    holds(EDGE, &ph(40, 5.51), 40, N::PhLow, ABSENT);
    holds("starting mix 5.2 to 5.5: the first 21 days", &ph(21, 5.2), 21, N::PhLow, ABSENT);
    holds("starting mix 5.2 to 5.5: the first 21 days", &ph(21, 5.19), 21, N::PhLow, ACT);
    holds("from day 22", &ph(22, 5.2), 22, N::PhLow, ACT);
    holds("short of iron at 6.3 to 6.4", &ph(40, 6.29), 40, N::PhHigh, ABSENT);
    holds("short of iron at 6.3 to 6.4", &ph(40, 6.3), 40, N::PhHigh, WATCH);
    holds(EDGE, &ph(40, 6.5), 40, N::PhHigh, WATCH);
    holds(EDGE, &ph(40, 6.51), 40, N::PhHigh, ACT);
    holds("a test speaks 14 days", &ph(40, 6.6), 54, N::PhHigh, ACT);
    holds("only a newer test ends it", &ph(40, 6.6), 55, N::PhHigh, ACT);
    let newer = ph(40, 6.6).root_zone(60, TestMethod::PourThrough, Some(6.0), None, 4);
    holds("only a newer test ends it", &newer, 59, N::PhHigh, ACT);
    holds("only a newer test ends it", &newer, 60, N::PhHigh, ABSENT);
}

#[test]
fn told_of_the_lot() {
    const CALCIUM: &str = "weekly (suppliers) to every two weeks (Maryland) from first color";
    const TAPER: &str = "80 to 100 ppm N in the last 2 to 3 weeks";
    const TEST: &str = "Ontario: every two weeks";
    holds(TEST, &Crop::new(), 14, N::RootZoneUntested, ABSENT);
    holds(TEST, &Crop::new(), 15, N::RootZoneUntested, WATCH);
    holds(TEST, &ec(40, TestMethod::Sme, 2.5), 54, N::RootZoneUntested, ABSENT);
    holds(TEST, &ec(40, TestMethod::Sme, 2.5), 55, N::RootZoneUntested, WATCH);

    let constant = |ppm| Crop::new().lot(|l| l.feed_n_ppm = Some(ppm));
    holds(TAPER, &constant(200.0), 80, N::TaperFeed, ABSENT);
    holds(TAPER, &constant(200.0), 81, N::TaperFeed, WATCH);
    holds(TAPER, &constant(100.0), 81, N::TaperFeed, ABSENT);
    holds(TAPER, &Crop::new().fed(79, 101.0, None, None), 85, N::TaperFeed, WATCH);
    holds(TAPER, &Crop::new().fed(79, 101.0, None, None).fed(84, 90.0, None, None), 85, N::TaperFeed, ABSENT);
    holds("stepped down by hand", &constant(200.0).fed(83, 90.0, None, None), 85, N::TaperFeed, ABSENT);

    let wanted = |stage| Crop::new().lot(|l| l.calcium = true).bracts(75, stage);
    holds(CALCIUM, &wanted(1), 75, N::CalciumDue, ABSENT);
    holds(CALCIUM, &wanted(2), 75, N::CalciumDue, WATCH);
    holds(CALCIUM, &wanted(5), 75, N::CalciumDue, ABSENT);
    holds("not wanted", &Crop::new().bracts(75, 3), 75, N::CalciumDue, ABSENT);
    let sprayed = |n| Crop::new().bracts(75, 3).nutrient(n, Material::CalciumChloride, 300.0, Method::Spray);
    holds("a first spray switches it on", &sprayed(60), 75, N::CalciumDue, WATCH);
    holds(CALCIUM, &sprayed(61), 75, N::CalciumDue, ABSENT);
}

/// What the crop's arithmetic takes where no limits are given is what the limits say.
#[test]
fn the_limits_are_the_published_bounds() {
    let feed = Limits::default().feed;
    let by = [
        (
            TestMethod::PourThrough,
            feed.salts_low_pour_through,
            feed.salts_high_pour_through,
            feed.salts_extreme_pour_through,
        ),
        (TestMethod::Sme, feed.salts_low_sme, feed.salts_high_sme, feed.salts_extreme_sme),
        (TestMethod::OneToTwo, feed.salts_low_one_to_two, feed.salts_high_one_to_two, feed.salts_extreme_one_to_two),
    ];
    for (method, low, high, extreme) in by {
        let bounds = SaltBounds::published(method);
        assert_eq!((bounds.low, bounds.high, bounds.extreme), (low, high, extreme), "{method:?}");
    }
    let watch = SaltBounds::published(TestMethod::PourThrough);
    assert_eq!(watch.watch_low, Some(feed.salts_watch_low_pour_through));
    assert_eq!(watch.watch_high, Some(feed.salts_watch_high_pour_through));
    let ph = PhBounds::ESTABLISHED;
    let bounds = (feed.ph_low, feed.ph_watch_low, feed.ph_watch_high, feed.ph_high);
    assert_eq!((ph.low, ph.watch_low, ph.watch_high, ph.high), bounds);
    assert!((PhBounds::YOUNG.low - feed.ph_low_young).abs() < 1e-9);
    let pests = Limits::default().pests;
    assert_eq!((pests.gnat_larvae, pests.gnat_larvae_young), (15.0, 3.0), "larvae per wedge; a disc in propagation");
}
