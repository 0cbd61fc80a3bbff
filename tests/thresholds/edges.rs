//! Edges that the cases of their families leave open: each number from the side that was not held yet.

use crate::season::{ABSENT, ACT, Crop, WATCH, day, holds};
use benchwalk::limits::Limits;
use benchwalk::record::TestMethod;
use benchwalk::warnings::{CheckName, Step, WarningName as N, due};

const DAYS: &str = "house rule from water use by week: 8/10 days wet to day 14, 5/7 to day 35, 3/5 after";
const LOOK: &str = "house rule: roots 14 and 28 days from stage 4";
const SPEAKS: &str = "house rule: a count speaks 14 days";

#[test]
fn phases_and_looks() {
    holds(DAYS, &Crop::new().waters(8, &[4; 8]), 15, N::StayingWet, ACT);
    let colored = || Crop::new().roots(70, 0).bracts(75, 4);
    holds(LOOK, &colored(), 83, N::RootsUnchecked, ABSENT);
    holds(LOOK, &colored(), 84, N::RootsUnchecked, WATCH);
    holds(LOOK, &colored(), 97, N::RootsUnchecked, WATCH);
    holds(SPEAKS, &Crop::new().wedge(40, 15.0), 54, N::FungusGnats, ACT);
    holds("and stands until the next", &Crop::new().wedge(40, 15.0), 55, N::FungusGnats, ACT);
}

#[test]
fn a_test_of_three_pots_is_enough() {
    let again = |pots| {
        let tested = Crop::new().root_zone(40, TestMethod::PourThrough, None, Some(5.0), pots);
        tested.warning(40, N::SaltsHigh).expect("told").steps.contains(&Step::TEST_AGAIN)
    };
    assert!(again(2) && !again(3), "3 to 5 pots per pour-through");
}

#[test]
fn nights_just_under_those_that_delay() {
    let nights = |c| (40..43).fold(Crop::new(), |crop, n| crop.climate(n, 24.0, c));
    holds("79 F (26 C); nights of 24 and 22 C are house rules", &nights(23.5), 42, N::HeatDelay, WATCH);
    holds("79 F (26 C); nights of 24 and 22 C are house rules", &nights(24.0), 42, N::HeatDelay, ACT);
}

#[test]
fn bracts_and_heights_are_due_weekly() {
    let crop = Crop::new().pinched(14).heights(33, &[19.0]).bracts(33, 1);
    let open =
        |n| due(&crop.season(), "E1", day(n), &Limits::default()).into_iter().map(|c| c.what).collect::<Vec<_>>();
    for check in [CheckName::Bracts, CheckName::Height] {
        assert!(!open(39).contains(&check) && open(40).contains(&check), "{check:?}");
    }
}
