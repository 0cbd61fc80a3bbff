//! Water and roots.

use crate::season::{ABSENT, ACT, Crop, URGENT, WATCH, holds};
use benchwalk::crop::symptoms::Cause;
use benchwalk::limits::Limits;
use benchwalk::record::{Kind, LeafSign, Material, Method, PlantPart, Reach, RootSign, TestMethod};
use benchwalk::warnings::{Evidence, Step, WarningName as N};

const DAYS: &str = "house rule from water use by week: 8/10 days wet to day 14, 5/7 to day 35, 3/5 after";
const WILT: &str = "Michigan State Extension: wilting in wet mix points to the roots";
const BASE: &str = "interview 2019: base at 5 for several hours; 18 h is a house rule";
const ROOTS: &str = "our classes 0-5; NC State: tops hide root death";

fn wet(from: i64, days: usize) -> Crop {
    Crop::new().waters(from, &vec![4; days])
}

#[test]
fn staying_wet_by_age() {
    holds(DAYS, &wet(8, 7), 14, N::StayingWet, ABSENT);
    holds(DAYS, &wet(7, 8), 14, N::StayingWet, WATCH);
    holds(DAYS, &wet(6, 9), 14, N::StayingWet, WATCH);
    holds(DAYS, &wet(5, 10), 14, N::StayingWet, ACT);
    holds(DAYS, &wet(32, 4), 35, N::StayingWet, ABSENT);
    holds(DAYS, &wet(31, 5), 35, N::StayingWet, WATCH);
    holds(DAYS, &wet(30, 6), 35, N::StayingWet, WATCH);
    holds(DAYS, &wet(29, 7), 35, N::StayingWet, ACT);
    holds(DAYS, &wet(35, 2), 36, N::StayingWet, ABSENT);
    holds(DAYS, &wet(34, 3), 36, N::StayingWet, WATCH);
    holds(DAYS, &wet(33, 4), 36, N::StayingWet, WATCH);
    holds(DAYS, &wet(32, 5), 36, N::StayingWet, ACT);
}

#[test]
fn staying_wet_waits_longer_for_wide_pots_and_dull_houses() {
    let wide = |rim| wet(46, 5).lot(|l| l.rim_cm = Some(rim));
    holds(DAYS, &wide(18.9), 50, N::StayingWet, ACT);
    holds(DAYS, &wide(19.0), 50, N::StayingWet, WATCH);
    holds(DAYS, &wet(45, 6).lot(|l| l.rim_cm = Some(19.0)), 50, N::StayingWet, ACT);
    let dull = |days| wet(51 - i64::try_from(days).unwrap(), days).site(|s| s.low_light_houses = vec!["East".into()]);
    holds(DAYS, &dull(6), 50, N::StayingWet, WATCH);
    holds(DAYS, &dull(7), 50, N::StayingWet, ACT);
    holds(DAYS, &dull(7).lot(|l| l.rim_cm = Some(20.0)), 50, N::StayingWet, WATCH);
}

#[test]
fn staying_wet_counts_calendar_days_and_needs_three_readings() {
    let gap = Crop::new().water(46, 4).water(49, 4).water(50, 4);
    holds(DAYS, &gap, 50, N::StayingWet, ACT);
    let two = Crop::new().water(47, 4).water(50, 4);
    holds(DAYS, &two, 50, N::StayingWet, ABSENT);
    let broken = Crop::new().waters(44, &[4, 4]).waters(49, &[4, 4]);
    holds("a run is not carried over days in which no reading spoke", &broken, 50, N::StayingWet, ABSENT);
    holds("a 3 between ends the run", &Crop::new().waters(46, &[4, 4, 3, 4, 4]), 50, N::StayingWet, ABSENT);
    holds("a water reading speaks 2 days", &wet(46, 5), 52, N::StayingWet, ACT);
    holds("a water reading speaks 2 days", &wet(46, 5), 53, N::StayingWet, ABSENT);
}

#[test]
fn a_second_sign_makes_a_wet_run_act() {
    let wet = || wet(3, 3);
    for sign in [LeafSign::LowerYellow, LeafSign::Rolled] {
        holds("act at any age with a second sign", &wet().leaves(5, &[sign], None), 5, N::StayingWet, ACT);
    }
    for sign in [LeafSign::Stipple, LeafSign::EdgeYellow] {
        holds("another sign is none", &wet().leaves(5, &[sign], None), 5, N::StayingWet, ABSENT);
    }
    let yellow = |n| wet().leaves(n, &[LeafSign::LowerYellow], None);
    holds("seen on the first wet day", &yellow(3), 5, N::StayingWet, ACT);
    holds("yellow before it was wet", &yellow(2), 5, N::StayingWet, ABSENT);
    holds("act at any age with gnats", &wet().wedge(5, 1.0), 5, N::StayingWet, ACT);
    holds("no gnats found is no sign", &wet().wedge(5, 0.0), 5, N::StayingWet, ABSENT);
    holds("roots 1 are no sign", &wet().roots(5, 1), 5, N::StayingWet, ABSENT);
    holds("roots 2", &wet().roots(5, 2), 5, N::StayingWet, ACT);
    holds("roots 3", &wet().roots(5, 3), 5, N::StayingWet, URGENT);
    let late = |n| Crop::new().waters(48, &[4, 4, 4]).roots(n, 2);
    holds("within 7 days", &late(43), 50, N::StayingWet, ACT);
    holds("8 days ago is too long ago", &late(42), 50, N::StayingWet, WATCH);
    holds("two wet readings are no run", &Crop::new().waters(4, &[4, 4]).roots(5, 3), 5, N::StayingWet, ABSENT);
}

#[test]
fn watering_what_is_wet() {
    const TWICE: &str = "house rule: twice in 14 days";
    let once = Crop::new().water(40, 4).watered(40).water(41, 5).water(44, 2);
    holds("a watering on a 4 and the 5 it makes are one time", &once, 44, N::WateredWet, ABSENT);
    let twice = |n| once.clone().water(n, 4).watered(n);
    holds(TWICE, &twice(54), 54, N::WateredWet, ACT);
    holds(TWICE, &twice(55), 55, N::WateredWet, ABSENT);
    holds("a reading of 3 is not wet", &once.clone().water(50, 3).watered(50), 50, N::WateredWet, ABSENT);
    holds("the reading of the day before counts", &once.clone().water(49, 4).watered(50), 50, N::WateredWet, ACT);
    holds("the reading of two days before does not", &once.clone().water(48, 4).watered(50), 50, N::WateredWet, ABSENT);
    let jump = once.clone().waters(49, &[4, 5]);
    holds("a 5 the day after a 4, with no watering written", &jump, 50, N::WateredWet, ACT);
    let jumps = |rest: &[u8]| Crop::new().waters(40, &[3, 4, 5, 3]).waters(46, rest);
    holds("twice by readings alone", &jumps(&[4, 5]), 47, N::WateredWet, WATCH);
    holds("three times by readings alone", &jumps(&[4, 5, 4, 5]), 49, N::WateredWet, ACT);
    holds("a 5 two days after a 4", &once.clone().water(48, 4).water(50, 5), 50, N::WateredWet, ABSENT);
    let drench = |ml| {
        let kind = Kind::Nutrient {
            material: Material::MagnesiumSulfate,
            ppm: 118.0,
            how: Method::Drench,
            ml_per_pot: Some(ml),
        };
        once.clone().water(50, 4).work(50, kind)
    };
    holds("a drench of 150 mL is a watering", &drench(150.0), 50, N::WateredWet, ACT);
    holds("a drench of 149 mL is none", &drench(149.0), 50, N::WateredWet, ABSENT);
    holds("feeding is watering", &once.clone().water(50, 4).fed(50, 200.0, None, None), 50, N::WateredWet, ACT);
}

#[test]
fn wilting_in_wet_mix() {
    let wilted = |n, level| Crop::new().water(n, level).leaves(n, &[LeafSign::Wilted], None);
    holds(WILT, &wilted(40, 4), 40, N::WiltingWet, URGENT);
    holds("3 is not wet", &wilted(40, 3), 40, N::WiltingWet, ABSENT);
    holds("common practice: up to day 10 a dry plug", &wilted(10, 5), 10, N::WiltingWet, ACT);
    holds("common practice: from day 11 the roots", &wilted(11, 5), 11, N::WiltingWet, URGENT);
    let young = wilted(10, 5).warning(10, N::WiltingWet).expect("told");
    assert!(young.steps.contains(&Step::FEEL_THE_PLUG));
    holds("stands until a roots check", &wilted(40, 5), 55, N::WiltingWet, URGENT);
    holds("roots 1 lower it to watch", &wilted(40, 5).roots(41, 1), 42, N::WiltingWet, WATCH);
    holds("roots 2 speak for themselves", &wilted(40, 5).roots(41, 2), 42, N::WiltingWet, ABSENT);
    holds("a check before it says nothing", &wilted(40, 5).roots(39, 0), 42, N::WiltingWet, URGENT);
    let sound = wilted(40, 5).roots(41, 1).warning(42, N::WiltingWet).expect("told");
    let said = sound.next().join(" ");
    assert!(said.contains("Feel the branch") && said.contains("soil line") && said.contains("fumes"), "{said}");
    assert!(!said.to_lowercase().contains("knock out"), "the roots are known: {said}");
    assert!(sound.why().starts_with("The roots are sound"), "{}", sound.why());
    let recovered = wilted(40, 5).roots(41, 0).leaves(43, &[], None);
    holds("sound roots and no wilting", &recovered, 43, N::WiltingWet, ABSENT);
}

#[test]
fn base_and_top_are_two_readings() {
    holds(BASE, &Crop::new().watered(39).base(40, 2, 5), 40, N::WetBase, ACT);
    let soon = |hour| {
        let kind = Kind::Watered { ml_per_pot: None };
        Crop::new().at(39, (hour, 0), kind).base(40, 2, 5)
    };
    holds(BASE, &soon(13), 40, N::WetBase, ACT);
    holds(BASE, &soon(14), 40, N::WetBase, ABSENT);
    holds("no watering written", &Crop::new().base(40, 2, 5), 40, N::WetBase, ACT);
    holds("4 is not saturated", &Crop::new().base(40, 2, 4), 40, N::WetBase, ABSENT);
    holds("never averaged with the top", &Crop::new().base(40, 1, 5), 40, N::WetBase, ACT);
    holds("while no newer one is", &Crop::new().base(40, 2, 5), 42, N::WetBase, ACT);
    let unread = Crop::new().base(40, 2, 5).waters(41, &[2, 3, 2, 3, 2, 3]);
    for n in [43, 46, 60] {
        holds("only a newer base reading clears it", &unread, n, N::WetBase, ACT);
    }
    let felt = Crop::new().base(40, 2, 5).base(44, 2, 3);
    holds("a newer base reading clears it", &felt, 43, N::WetBase, ACT);
    holds("a newer base reading clears it", &felt, 44, N::WetBase, ABSENT);
    let dry = Crop::new().base(40, 3, 1).watered(41).waters(42, &[4, 3, 2]);
    holds("a watering is no reading of the base", &dry, 45, N::DryBase, WATCH);
    holds("felt again", &dry.base(46, 3, 3), 46, N::DryBase, ABSENT);
    holds("interview 2019: roots do not grow into a base at 1", &Crop::new().base(40, 3, 1), 40, N::DryBase, WATCH);
    holds("2 is where branched roots form", &Crop::new().base(40, 3, 2), 40, N::DryBase, ABSENT);
}

#[test]
fn left_too_dry() {
    const DRY: &str = "Purdue 2008, Iowa State: drought; two days of three";
    holds(DRY, &Crop::new().waters(40, &[1, 1]), 41, N::TooDry, ACT);
    holds(DRY, &Crop::new().waters(40, &[1, 2, 1]), 42, N::TooDry, ACT);
    holds(DRY, &Crop::new().water(40, 1).water(43, 1), 43, N::TooDry, ABSENT);
    holds(DRY, &Crop::new().waters(40, &[2, 1]), 41, N::TooDry, ABSENT);
    holds("a watering between", &Crop::new().water(40, 1).watered(40).water(41, 1), 41, N::TooDry, ABSENT);
    holds("watered since", &Crop::new().waters(40, &[1, 1]).watered(41), 41, N::TooDry, ABSENT);
    let wilted = Crop::new().water(40, 1).leaves(40, &[LeafSign::Wilted], None);
    holds("wilted with water 1", &wilted, 40, N::TooDry, URGENT);
    holds("wilted with water 1, watered since", &wilted.watered(40), 40, N::TooDry, ABSENT);
    holds(
        "wilted with water 2",
        &Crop::new().water(40, 2).leaves(40, &[LeafSign::Wilted], None),
        40,
        N::TooDry,
        ABSENT,
    );
}

#[test]
fn roots_by_score() {
    holds(ROOTS, &Crop::new().roots(40, 1), 40, N::RootsBrowning, ABSENT);
    holds(ROOTS, &Crop::new().roots(40, 2), 40, N::RootsBrowning, ACT);
    holds(ROOTS, &Crop::new().roots(40, 2), 40, N::RootsFailing, ABSENT);
    holds(ROOTS, &Crop::new().roots(40, 3), 40, N::RootsFailing, URGENT);
    holds(ROOTS, &Crop::new().roots(40, 3), 40, N::RootsBrowning, ABSENT);
    holds("speaks 21 days", &Crop::new().roots(40, 3), 61, N::RootsFailing, URGENT);
    holds("until the next check", &Crop::new().roots(40, 3), 62, N::RootsFailing, URGENT);
    holds("until the next check", &Crop::new().roots(40, 3).roots(47, 1), 47, N::RootsFailing, ABSENT);
    let steps = |n| Crop::new().roots(n, 3).warning(n, N::RootsFailing).expect("told").steps;
    assert!(!steps(81).contains(&Step::RECOVERY_UNLIKELY), "21 days to the sale");
    assert!(steps(82).contains(&Step::RECOVERY_UNLIKELY), "20 days to the sale (UMass, Nov. 13, 2015)");
}

#[test]
fn roots_getting_worse() {
    const WORSE: &str = "house rule: worse at two checks running";
    holds(WORSE, &Crop::new().roots(33, 0).roots(40, 1), 40, N::RootsBrowning, ABSENT);
    holds(WORSE, &Crop::new().roots(26, 0).roots(33, 1).roots(40, 1), 40, N::RootsBrowning, WATCH);
    holds(WORSE, &Crop::new().roots(26, 1).roots(33, 1).roots(40, 1), 40, N::RootsBrowning, ABSENT);
    let more_bad = Crop::new().bad_roots(26, 1, 1).bad_roots(33, 1, 2).bad_roots(40, 1, 4);
    holds(WORSE, &more_bad, 40, N::RootsBrowning, WATCH);
    holds(
        WORSE,
        &Crop::new().bad_roots(26, 1, 2).bad_roots(33, 1, 2).bad_roots(40, 1, 3),
        40,
        N::RootsBrowning,
        ABSENT,
    );
}

#[test]
fn a_check_written_in_two_entries_is_one_check() {
    const ONE: &str = "what a walk writes: the reach repeats the score, the base repeats the water";
    let again = |score| Kind::Roots { score, pots: None, bad: None, signs: vec![], reach: Some(Reach::Wall) };
    let twice = |crop: Crop, n, score| crop.roots(n, score).at(n, (7, 20), again(score));
    holds(ONE, &twice(Crop::new().roots(33, 0), 40, 1), 40, N::RootsBrowning, ABSENT);
    holds(ONE, &twice(twice(Crop::new().roots(26, 0), 33, 1), 40, 1), 40, N::RootsBrowning, WATCH);
    let sign = Crop::new().root_sign(40, RootSign::Canker);
    let score = sign.season().entries().iter().find_map(|e| match *e.kind {
        Kind::Roots { score, .. } => Some(score),
        _ => None,
    });
    let sign = sign.at(40, (7, 20), again(score.expect("a score")));
    holds("the sign stands though the reach came after it", &sign, 40, N::RootsDiseased, ACT);
    holds("until the next check", &sign.roots(41, 0), 41, N::RootsDiseased, ABSENT);
    let base = || Kind::Water { level: 4, base: Some(4) };
    let wet = Crop::new().waters(49, &[4, 4]).at(49, (7, 20), base()).at(50, (7, 20), base());
    holds("two days' readings are no three", &wet, 50, N::StayingWet, ABSENT);
    let young = Crop::new().waters(9, &[4, 4]).at(10, (7, 20), base()).roots(10, 2);
    holds("nor with a second sign", &young, 10, N::StayingWet, ABSENT);
    let jump = Crop::new().water(40, 4).at(40, (7, 20), base()).watered(40);
    holds("nor one watering on a wet reading two", &jump, 40, N::WateredWet, ABSENT);
    let dry = Crop::new().water(40, 1).at(40, (7, 20), Kind::Water { level: 1, base: Some(1) });
    holds("nor one dry day two", &dry, 40, N::TooDry, ABSENT);
}

#[test]
fn a_sign_brings_causes_to_check() {
    let told = |crop: &Crop, n, name| crop.warning(n, name).expect("told");
    let wet = Crop::new().waters(48, &[4, 4, 4]);
    assert!(told(&wet, 50, N::StayingWet).likely_causes.is_empty(), "wet days alone have one cause");
    let yellow = wet.leaves(50, &[LeafSign::LowerYellow], Some(PlantPart::Old)).roots(50, 2);
    let warning = told(&yellow, 50, N::StayingWet);
    let causes: Vec<_> = warning.likely_causes.iter().map(|s| s.cause).collect();
    assert!(matches!(causes.as_slice(), [Cause::Pythium, _]), "{causes:?}");
    let next = warning.next();
    assert_eq!(next.first().map(String::as_str), Some("Do not water until it reads 2."));
    assert!(next.get(1).is_some_and(|t| t.starts_with("Check for Pythium root rot: ")), "{next:?}");
    assert_eq!(next.iter().filter(|t| t.starts_with("Check for")).count(), 2, "{next:?}");
    let pale = Crop::new().root_zone(50, TestMethod::PourThrough, Some(6.7), None, 5).leaves(
        50,
        &[LeafSign::BetweenVeins],
        Some(PlantPart::Young),
    );
    assert_eq!(told(&pale, 50, N::PhHigh).likely_causes.first().map(|s| s.cause), Some(Cause::Iron));
}

#[test]
fn roots_with_a_sign() {
    const SIGN: &str = "Pacific Northwest and UMass guides";
    for sign in [RootSign::SleeveOff, RootSign::BlackFirm, RootSign::Canker] {
        holds(SIGN, &Crop::new().root_sign(40, sign), 40, N::RootsDiseased, ACT);
    }
    holds(
        "larvae point at gnats, not a disease",
        &Crop::new().root_sign(40, RootSign::Larvae),
        40,
        N::RootsDiseased,
        ABSENT,
    );
}

#[test]
fn roots_not_looked_at() {
    const LOOK: &str = "house rule: 14 days watch, 21 act; 14 and 28 from stage 4";
    holds(LOOK, &Crop::new(), 13, N::RootsUnchecked, ABSENT);
    holds(LOOK, &Crop::new(), 14, N::RootsUnchecked, WATCH);
    holds(LOOK, &Crop::new(), 20, N::RootsUnchecked, WATCH);
    holds(LOOK, &Crop::new(), 21, N::RootsUnchecked, ACT);
    holds(LOOK, &Crop::new().roots(30, 0), 43, N::RootsUnchecked, ABSENT);
    holds(LOOK, &Crop::new().roots(30, 0), 44, N::RootsUnchecked, WATCH);
    holds(LOOK, &Crop::new().roots(30, 0), 51, N::RootsUnchecked, ACT);
    holds(LOOK, &Crop::new().roots(70, 0).bracts(75, 4), 91, N::RootsUnchecked, WATCH);
    holds(LOOK, &Crop::new().roots(70, 0).bracts(75, 4), 98, N::RootsUnchecked, ACT);
}

#[test]
fn pots_dying() {
    const LOST: &str = "house rule: 2 pots in 7 days";
    holds(LOST, &Crop::new().lost(40, 1, None), 40, N::LossesRising, ABSENT);
    holds(LOST, &Crop::new().lost(40, 2, None), 40, N::LossesRising, ACT);
    holds(LOST, &Crop::new().lost(40, 1, Some("rot")).lost(47, 1, Some("wilted")), 47, N::LossesRising, ACT);
    holds(LOST, &Crop::new().lost(40, 1, Some("rot")).lost(48, 1, Some("wilted")), 48, N::LossesRising, ABSENT);
    holds("another cause", &Crop::new().lost(40, 5, Some("dropped")), 40, N::LossesRising, ABSENT);
}

#[test]
fn a_changed_limit_is_the_growers_own() {
    let limits = Limits::parse("[water]\ngrown_act = 6\n").expect("good limits");
    let crop = wet(46, 5).limits(|l| *l = limits.clone());
    holds("your limit: 6 days", &crop, 50, N::StayingWet, WATCH);
    let crop = wet(45, 6).limits(|l| *l = limits);
    let warning = crop.warning(50, N::StayingWet).expect("told");
    assert_eq!(warning.level, benchwalk::warnings::Severity::Act);
    let own = warning.evidence.iter().any(|s| matches!(s, Evidence::Figure { limit: Some(limit), .. } if limit.own));
    assert!(own, "{:?}", warning.evidence);
}

#[test]
fn leaf_signs_speak_seven_days_or_until_a_look_without_them() {
    let pale = || Crop::new().leaves(40, &[LeafSign::PaleSpots], Some(PlantPart::Old));
    holds("7 days", &pale(), 47, N::LeafSigns, WATCH);
    holds("8 days", &pale(), 48, N::LeafSigns, ABSENT);
    holds("a look without", &pale().leaves(44, &[], None), 47, N::LeafSigns, ABSENT);
    let young = pale().at(40, (7, 3), Kind::Leaves { signs: vec![], plant_part: Some(PlantPart::Young), plants: None });
    holds("the same day's look at other leaves ends nothing", &young, 47, N::LeafSigns, WATCH);
}
