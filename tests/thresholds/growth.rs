//! Pinch, height and growth regulators.

use crate::season::{ABSENT, ACT, Crop, WATCH, day, holds};
use benchwalk::limits::Limits;
use benchwalk::record::{Kind, LeafSign, Method, Part, Pinch, Reach, Region};
use benchwalk::report::words;
use benchwalk::units::System;
use benchwalk::warnings::{Evidence, Step, WarningName as N};

const UF04: &str = "Florida 2004: pinch 12 to 14 days after planting, 14 crops; once roots reach the edge from day 10";
const GEORGIA: &str = "Georgia 2015: 35.6 +/- 2.5 cm";
const LATE: &str = "Florida 1998 and about 2009, UMass 1999: last-safe days";

#[test]
fn pinch_due_and_overdue() {
    let wall = |n| Crop::new().reach(n, Reach::Wall);
    holds(UF04, &wall(9), 9, N::PinchDue, ABSENT);
    holds(UF04, &wall(9), 10, N::PinchDue, WATCH);
    holds(UF04, &Crop::new().reach(10, Reach::Base), 10, N::PinchDue, WATCH);
    holds(UF04, &Crop::new().reach(10, Reach::Center), 13, N::PinchDue, ABSENT);
    holds(UF04, &Crop::new(), 13, N::PinchDue, ABSENT);
    holds(UF04, &Crop::new(), 14, N::PinchDue, WATCH);
    let slow = Crop::new().reach(13, Reach::Center).warning(14, N::PinchDue).expect("told");
    assert!(slow.steps.contains(&Step::SLOW_ROOTS));
    assert_eq!(slow.look_again, day(17), "look again in 3 days");
    holds("common practice", &Crop::new(), 20, N::PinchOverdue, ABSENT);
    holds("common practice", &Crop::new(), 21, N::PinchOverdue, ACT);
    holds("overdue replaces due", &Crop::new(), 21, N::PinchDue, ABSENT);
    holds("7 days at its level", &Crop::new(), 28, N::PinchOverdue, ACT);
    holds("then 7 as watch", &Crop::new(), 29, N::PinchOverdue, WATCH);
    holds("then no more", &Crop::new(), 36, N::PinchOverdue, ABSENT);
    let long = || Crop::new().lot(|l| l.planted = day(-14));
    holds("watch up to short days, 47 days after planting", &long(), 32, N::PinchOverdue, WATCH);
    holds("short days begun", &long(), 33, N::PinchOverdue, ABSENT);
    holds("pinched", &Crop::new().pinched(14), 21, N::PinchOverdue, ABSENT);
    holds("not to be pinched", &Crop::new().lot(|l| l.pinch = Pinch::None), 21, N::PinchOverdue, ABSENT);
    let late = |n| Crop::new().warning(n, N::PinchOverdue).expect("told").steps.contains(&Step::LATE_PINCH);
    assert!(!late(26), "7 days to short days");
    assert!(late(27), "6 days to short days");
}

#[test]
fn pinched_in_error() {
    let never = || Crop::new().lot(|l| l.pinch = Pinch::None).pinched(20);
    holds("many-cutting pots are left unpinched", &never(), 20, N::PinchedInError, ACT);
    holds("7 days at its level", &never(), 27, N::PinchedInError, ACT);
    holds("then 7 as watch", &never(), 28, N::PinchedInError, WATCH);
    holds("then no more", &never(), 35, N::PinchedInError, ABSENT);
    holds("a pinch that was wanted", &Crop::new().pinched(14), 20, N::PinchedInError, ABSENT);
    holds("struck out", &never().struck(21), 21, N::PinchedInError, ABSENT);
}

/// Near-equal readings about a mean.
fn about(mean: f64) -> Vec<f64> {
    [-0.2, 0.2, 0.0, 0.1, -0.1].iter().map(|d| mean + d).collect()
}

/// A crop pinched on day 14 at 19 cm, finished window 33.1 to 38.1 cm at the sale.
fn grown() -> Crop {
    let window = |l: &mut benchwalk::record::Lot| (l.height_low_cm, l.height_high_cm) = (Some(33.1), Some(38.1));
    Crop::new().lot(window).pinched(14).heights(14, &about(19.0))
}

#[test]
fn heights_against_the_window() {
    holds(GEORGIA, &grown().heights(102, &about(39.8)), 102, N::TooTall, ACT);
    holds(GEORGIA, &grown().heights(102, &about(38.1)), 102, N::TooTall, ABSENT);
    holds("1.0 cm: 0.9 is less", &grown().heights(102, &about(39.0)), 102, N::TooTall, ABSENT);
    holds("1.0 cm", &grown().heights(102, &about(39.15)), 102, N::TooTall, ACT);
    holds("Georgia 2015: 41.3 is inside 39.4 +/- 2.5", &wide().heights(102, &about(41.3)), 102, N::TooTall, ABSENT);
    holds("before first color", &grown().heights(102, &about(32.0)), 102, N::TooShort, ACT);
    holds("from first color", &grown().bracts(80, 2).heights(102, &about(32.0)), 102, N::TooShort, WATCH);
    holds("32.5 is 0.6 under", &grown().heights(102, &about(32.5)), 102, N::TooShort, ABSENT);
}

fn wide() -> Crop {
    let window = |l: &mut benchwalk::record::Lot| (l.height_low_cm, l.height_high_cm) = (Some(36.9), Some(41.9));
    Crop::new().lot(window).pinched(14).heights(14, &about(19.0))
}

#[test]
fn a_regulator_after_the_reading_answers_it_until_the_next() {
    let tall = || grown().heights(60, &about(39.8));
    holds("not answered", &tall(), 61, N::TooTall, ACT);
    let answered = || tall().regulator(61, "paclobutrazol", 0.1, Method::Drench);
    holds("house rule: done is watched", &answered(), 61, N::TooTall, WATCH);
    holds("a later reading tells", &answered().heights(67, &about(40.2)), 67, N::TooTall, ACT);
    let before = tall().regulator(59, "paclobutrazol", 0.1, Method::Drench);
    holds("before the reading", &before, 61, N::TooTall, ACT);
}

#[test]
fn heights_that_say_nothing_firm() {
    holds("two plants", &grown().heights(102, &[45.0, 45.1]), 102, N::TooTall, ABSENT);
    holds("three plants", &grown().heights(102, &[45.0, 45.1, 45.2]), 102, N::TooTall, ACT);
    holds("the interval reaches in", &grown().heights(102, &[34.0, 40.0, 46.0]), 102, N::TooTall, ABSENT);
    holds("9 days old", &grown().heights(93, &about(45.0)), 102, N::TooTall, ACT);
    holds("10 days old: until the next", &grown().heights(92, &about(45.0)), 102, N::TooTall, ACT);
    holds("10 days old, after the sale", &grown().heights(93, &about(45.0)), 103, N::TooTall, ABSENT);
    holds("20 days after the start", &grown().heights(34, &about(30.0)), 34, N::TooTall, ABSENT);
    holds("21 days after the start", &grown().heights(35, &about(30.0)), 35, N::TooTall, ACT);
    let no_window = |l: &mut benchwalk::record::Lot| (l.height_low_cm, l.height_high_cm) = (None, None);
    holds("no window in the plan", &grown().lot(no_window).heights(102, &about(60.0)), 102, N::TooTall, ABSENT);
    let one_side = |l: &mut benchwalk::record::Lot| l.height_low_cm = None;
    holds("one side only", &grown().lot(one_side).heights(102, &about(39.8)), 102, N::TooTall, ACT);
    holds("one side only", &grown().lot(one_side).heights(102, &about(15.0)), 102, N::TooShort, ABSENT);
}

#[test]
fn a_start_that_was_not_measured_is_the_pot_and_three_inches() {
    let limit = |crop: Crop| {
        let told = crop.heights(60, &about(39.8)).warning(60, N::TooTall).expect("told");
        told.evidence
            .iter()
            .find_map(|s| if let Evidence::Figure { limit, .. } = s { limit.map(|l| l.value) } else { None })
    };
    let bare = || {
        let window = |l: &mut benchwalk::record::Lot| (l.height_low_cm, l.height_high_cm) = (Some(33.1), Some(38.1));
        Crop::new().lot(window).pinched(14)
    };
    // House rule: 11.4 cm of pot and 7.6 cm of plant.
    let estimated = limit(bare()).expect("a limit");
    let as_measured = |cm: f64| limit(bare().heights(14, &about(cm))).expect("a limit");
    assert!((estimated - as_measured(19.0)).abs() < 1e-9, "{estimated}");
    assert!((estimated - as_measured(19.5)).abs() > 0.1, "{estimated}");
}

#[test]
fn the_start_of_the_curve() {
    let estimated =
        |crop: Crop| crop.warning(102, N::TooTall).expect("told").steps.contains(&Step::START_HEIGHT_CALCULATED);
    let bare = |n: i64| {
        let crop = Crop::new().pinched(14).heights(102, &about(50.0));
        if n > 0 { crop.heights(n, &about(19.0)) } else { crop }
    };
    assert!(estimated(bare(0)), "pot height + 7.6 cm, said so");
    assert!(!estimated(bare(21)), "a reading 7 days after the start");
    assert!(estimated(bare(22)), "a reading 8 days after the start");
    let unpinched = Crop::new().lot(|l| l.pinch = Pinch::None).heights(35, &about(40.0));
    holds("unpinched: from day 14", &unpinched, 35, N::TooTall, ACT);
    holds("not pinched yet: no curve", &Crop::new().heights(60, &about(60.0)), 60, N::TooTall, ABSENT);
}

#[test]
fn projected_outside() {
    // Inside the window (27.2 on day 56, 29.3 on day 63), but growing so fast that the sale lies over it.
    let fast = || grown().heights(42, &about(22.5)).heights(49, &about(24.3)).heights(56, &about(26.9));
    holds("inside today", &fast(), 56, N::TooTall, ABSENT);
    holds("one reading running", &fast(), 56, N::FinishingTall, ABSENT);
    holds("two readings running", &fast().heights(63, &about(29.25)), 63, N::FinishingTall, WATCH);
    holds("the second back inside", &fast().heights(63, &about(27.6)), 63, N::FinishingTall, ABSENT);
    let sure = grown().heights(81, &about(35.7)).heights(88, &about(37.3)).heights(95, &about(38.3));
    holds("the whole interval over, twice", &sure, 95, N::FinishingTall, ACT);
    let small = grown().heights(42, &about(21.9)).heights(49, &about(23.0)).heights(56, &about(24.4));
    holds("two readings running", &small.heights(63, &about(25.7)), 63, N::FinishingShort, WATCH);
    holds("one reading is none", &grown().heights(56, &about(27.0)), 56, N::FinishingTall, ABSENT);
    let slow = grown().heights(56, &about(22.0)).heights(63, &about(23.4)).heights(70, &about(24.6));
    holds("slow, and inside", &slow, 70, N::FinishingTall, ABSENT);
}

#[test]
fn heights_not_taken() {
    const WEEKLY: &str = "Florida 2011: weekly; 9 days with two days' grace (house rule)";
    let crop = || Crop::new().pinched(14);
    holds(WEEKLY, &crop(), 22, N::Unmeasured, ABSENT);
    holds(WEEKLY, &crop(), 23, N::Unmeasured, WATCH);
    holds(WEEKLY, &crop().heights(20, &about(19.0)), 28, N::Unmeasured, ABSENT);
    holds(WEEKLY, &crop().heights(20, &about(19.0)), 29, N::Unmeasured, WATCH);
    holds("not before the start", &Crop::new(), 40, N::Unmeasured, ABSENT);
    let unpinched = || Crop::new().lot(|l| l.pinch = Pinch::None);
    holds("unpinched: day 14 is the start", &unpinched(), 22, N::Unmeasured, ABSENT);
    holds("unpinched: day 14 is the start", &unpinched(), 23, N::Unmeasured, WATCH);
}

/// Short days start on day 33 (19 September); the site is cool.
fn treated(n: i64, ai: &str, how: Method) -> Crop {
    Crop::new().pinched(14).regulator(n, ai, 5.0, how)
}

#[test]
fn last_safe_days() {
    for ai in ["daminozide", "paclobutrazol", "uniconazole"] {
        holds(LATE, &treated(32, ai, Method::Spray), 33, N::GrowthRegulatorLate, ABSENT);
        holds(LATE, &treated(33, ai, Method::Spray), 33, N::GrowthRegulatorLate, ACT);
    }
    holds("14 days into short days", &treated(46, "chlormequat", Method::Spray), 46, N::GrowthRegulatorLate, ABSENT);
    holds("14 days into short days", &treated(47, "chlormequat", Method::Spray), 47, N::GrowthRegulatorLate, ACT);
    let lit = |n| {
        treated(n, "chlormequat", Method::Spray).lot(|l| {
            l.nights = benchwalk::record::Nights::Lights;
            l.lights_until = Some(day(54));
        })
    };
    holds("15 October where the region is cool", &lit(58), 58, N::GrowthRegulatorLate, ABSENT);
    holds("15 October where the region is cool", &lit(59), 59, N::GrowthRegulatorLate, ACT);
    let warm = |n| lit(n).site(|s| s.region = Region::Warm);
    holds("warm: only short days + 14", &warm(68), 68, N::GrowthRegulatorLate, ABSENT);
    holds("warm: only short days + 14", &warm(69), 69, N::GrowthRegulatorLate, ACT);
    holds("6 weeks before the sale", &treated(60, "ethephon", Method::Spray), 60, N::GrowthRegulatorLate, ABSENT);
    holds("within 6 weeks of the sale", &treated(61, "ethephon", Method::Spray), 61, N::GrowthRegulatorLate, ACT);
    holds(
        "Florida: no cut-off for drenches",
        &treated(90, "paclobutrazol", Method::Drench),
        90,
        N::GrowthRegulatorLate,
        ABSENT,
    );
    let late = || treated(40, "daminozide", Method::Spray);
    holds("7 days at its level", &late(), 47, N::GrowthRegulatorLate, ACT);
    holds("then 7 as watch", &late(), 48, N::GrowthRegulatorLate, WATCH);
    holds("then no more", &late(), 55, N::GrowthRegulatorLate, ABSENT);
    let saw = late().warning(41, N::GrowthRegulatorLate).expect("told").evidence;
    assert!(saw.contains(&Evidence::Forecast { from: day(32), to: day(32) }), "the last safe day: {saw:?}");
}

#[test]
fn strong_treatments() {
    const STRESS: &str = "not on plants under stress (NC State trial)";
    const TOP: &str = "Purdue 2010: yellow spots usually above 1,500 ppm";
    let chlormequat = |ppm| Crop::new().pinched(14).regulator(24, "chlormequat", ppm, Method::Spray);
    holds(TOP, &chlormequat(1500.0), 24, N::GrowthRegulatorStrong, ABSENT);
    holds(TOP, &chlormequat(1600.0), 24, N::GrowthRegulatorStrong, ACT);
    let tank = Kind::GrowthRegulator {
        parts: vec![Part { ai: "daminozide".into(), ppm: 1500.0 }, Part { ai: "chlormequat".into(), ppm: 1000.0 }],
        how: Method::Spray,
        rei_h: 24.0,
        ml_per_pot: None,
        product: None,
        rate: None,
        application: Box::default(),
    };
    let mix = Crop::new().pinched(14).work(24, tank);
    holds("trade article by academics: the tank mix", &mix, 24, N::GrowthRegulatorStrong, ABSENT);
    holds(
        "an ingredient not known is not judged",
        &treated(24, "something new", Method::Spray),
        24,
        N::GrowthRegulatorStrong,
        ABSENT,
    );

    let sprayed = |crop: Crop| crop.regulator(24, "chlormequat", 1000.0, Method::Spray);
    holds(STRESS, &sprayed(Crop::new().leaves(23, &[LeafSign::Wilted], None)), 24, N::GrowthRegulatorStrong, ACT);
    holds(STRESS, &sprayed(Crop::new().water(24, 1)), 24, N::GrowthRegulatorStrong, ACT);
    holds(STRESS, &sprayed(Crop::new().water(24, 2)), 24, N::GrowthRegulatorStrong, ABSENT);
    holds(STRESS, &sprayed(Crop::new().water(23, 1).watered(23)), 24, N::GrowthRegulatorStrong, ABSENT);
    holds(STRESS, &sprayed(Crop::new().roots(20, 2)), 24, N::GrowthRegulatorStrong, ACT);
    holds(STRESS, &sprayed(Crop::new().roots(20, 1)), 24, N::GrowthRegulatorStrong, ABSENT);
    holds(
        "wilted only afterwards",
        &sprayed(Crop::new()).at(
            24,
            (12, 0),
            Kind::Leaves { signs: vec![LeafSign::Wilted], plant_part: None, plants: None },
        ),
        24,
        N::GrowthRegulatorStrong,
        ABSENT,
    );
}

#[test]
fn a_growers_own_top() {
    let limits = Limits::parse("[growth]\ntop_chlormequat_spray = 1000\n").expect("good limits");
    let sprayed = |ppm| Crop::new().pinched(14).regulator(24, "chlormequat", ppm, Method::Spray);
    holds("your limit: 1,000", &sprayed(1000.0).limits(|l| *l = limits.clone()), 24, N::GrowthRegulatorStrong, ABSENT);
    let crop = sprayed(1200.0).limits(|l| *l = limits);
    holds("your limit: 1,000", &crop, 24, N::GrowthRegulatorStrong, ACT);
    let saw = crop.warning(24, N::GrowthRegulatorStrong).expect("told").evidence;
    let words: Vec<String> = saw.iter().map(|s| words::piece(s, System::Us)).collect();
    assert!(words.iter().any(|w| w.ends_with("your limit 1000 ppm")), "{words:?}");
}

/// The tops that are in print, each from both sides: basis, ingredient, how, the top in ppm.
#[test]
fn tops_by_ingredient_and_method() {
    let tops = [
        ("Iowa State, 2017 and 2021", "ethephon", Method::Spray, 500.0),
        ("University of Massachusetts, 1999", "daminozide", Method::Spray, 2000.0),
        ("trade press, poinsettia height control strategies", "paclobutrazol", Method::Spray, 10.0),
        ("trade press, poinsettia height control strategies", "paclobutrazol", Method::Drench, 1.0),
        ("University of Connecticut, 1990", "uniconazole", Method::Drench, 0.68),
        ("Purdue, 2010", "flurprimidol", Method::Drench, 0.15),
        ("University of Florida, 2002", "ga3", Method::Spray, 10.0),
    ];
    for (basis, ai, how, top) in tops {
        let at = |ppm| Crop::new().pinched(14).regulator(24, ai, ppm, how);
        holds(basis, &at(top), 24, N::GrowthRegulatorStrong, ABSENT);
        holds(basis, &at(top * 1.1), 24, N::GrowthRegulatorStrong, ACT);
    }
}
