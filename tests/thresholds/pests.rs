//! Pests and disease.

use crate::season::{ABSENT, ACT, Crop, WATCH, holds};
use benchwalk::record::{How, Kind, LeafSign, PestName};
use benchwalk::warnings::{Evidence, Figure, Step, WarningName as N};

const ONTARIO: &str = "Ontario 2018: under 20% of pots by mid-September is on track";
const START: &str = "New England 2013: a start over 5 to 7% ends over 20%";
const RUTGERS: &str = "Rutgers: thrips 40 per card per week; gnats 15 to 20 larvae per wedge, 3 to 5 in propagation";

const DONE: &str = "house rule: done is watched";

fn looked(n: i64, plants: u32, with: u32) -> Crop {
    Crop::new().plants(n, PestName::Whitefly, plants, with)
}

#[test]
fn a_spray_or_a_release_after_the_look_answers_it_until_the_next() {
    let spray = |against: &str| Kind::Sprayed {
        ai: "horticultural oil".into(),
        against: against.into(),
        how: How::Spray,
        rei_h: 4.0,
        product: None,
        rate: None,
        application: Box::default(),
    };
    holds(DONE, &looked(30, 20, 4).work(31, spray("Whitefly")), 31, N::Whitefly, WATCH);
    holds("against another", &looked(30, 20, 4).work(31, spray("thrips")), 31, N::Whitefly, ACT);
    let released = || looked(30, 20, 4).work(31, Kind::Released { species: "wasps".into(), count: 500 });
    holds(DONE, &released(), 31, N::Whitefly, WATCH);
    holds("the next look tells", &released().plants(37, PestName::Whitefly, 20, 5), 37, N::Whitefly, ACT);
    let mites = || Crop::new().plants(30, PestName::Mite, 20, 1);
    holds(DONE, &mites().work(31, spray("Lewis mites")), 31, N::Mites, WATCH);
    holds("before the look", &mites().work(29, spray("mites")), 31, N::Mites, ACT);
    let two = || looked(30, 10, 3).bench_in("E2", "East", 2).filled("E2", "L1", 100, 0);
    let both = || two().on("E2").plants(30, PestName::Whitefly, 10, 3);
    holds("one bench of two", &both().on("E1").work(31, spray("whitefly")), 31, N::Whitefly, ACT);
}

#[test]
fn whitefly_by_share() {
    holds(ONTARIO, &looked(30, 20, 4), 30, N::Whitefly, ACT);
    holds(ONTARIO, &looked(30, 100, 19), 30, N::Whitefly, WATCH);
    holds(START, &looked(30, 20, 1), 30, N::Whitefly, WATCH);
    holds(START, &looked(30, 100, 4), 30, N::Whitefly, ABSENT);
    holds(START, &looked(21, 100, 7), 21, N::Whitefly, ACT);
    holds(START, &looked(21, 100, 6), 21, N::Whitefly, WATCH);
    holds("from day 22", &looked(22, 100, 7), 22, N::Whitefly, WATCH);
    holds("under 20 plants", &looked(30, 19, 19), 30, N::Whitefly, ABSENT);
    holds("7 days", &looked(30, 20, 4), 37, N::Whitefly, ACT);
    holds("8 days: until a newer look", &looked(30, 20, 4), 38, N::Whitefly, ACT);
    holds(
        "a look at too few plants to judge the lot",
        &looked(30, 20, 4).plants(40, PestName::Whitefly, 5, 1),
        40,
        N::Whitefly,
        ABSENT,
    );
    holds(
        "a weekly look replaces the one before",
        &looked(30, 20, 4).plants(37, PestName::Whitefly, 20, 0),
        37,
        N::Whitefly,
        ABSENT,
    );
}

#[test]
fn whitefly_is_pooled_over_the_lot() {
    let two = |a: u32, b: u32| {
        Crop::new()
            .bench_in("E2", "East", 2)
            .filled("E2", "L1", 100, 0)
            .plants(30, PestName::Whitefly, 10, a)
            .on("E2")
            .plants(31, PestName::Whitefly, 10, b)
    };
    holds(ONTARIO, &two(4, 0), 31, N::Whitefly, ACT);
    holds(ONTARIO, &two(3, 0), 31, N::Whitefly, WATCH);
    let warning = two(4, 0).warning(31, N::Whitefly).expect("told");
    assert_eq!(warning.benches, ["E1"], "names the benches that have it");
}

#[test]
fn whitefly_says_how_sure_it_is() {
    let warning = looked(40, 20, 2).warning(40, N::Whitefly).expect("told");
    let range = warning.evidence.iter().find_map(|s| match s {
        Evidence::Figure { figure: Figure::Infested, range, .. } => *range,
        _ => None,
    });
    let (low, high) = range.expect("an interval");
    assert!((low - 2.8).abs() < 0.1 && (high - 30.1).abs() < 0.1, "Wilson 95% of 2 in 20: {low} to {high}");
    assert!(warning.steps.contains(&Step::LOOK_AT_MORE), "the interval reaches 20%");
    assert!(warning.steps.contains(&Step::LAST_SPRAYS), "26 September (Ontario 2020)");
    assert!(!looked(70, 20, 2).warning(70, N::Whitefly).expect("told").steps.contains(&Step::LAST_SPRAYS));
}

#[test]
fn cards_and_wedges() {
    holds(RUTGERS, &Crop::new().cards(40, PestName::Thrips, 1, 39, 7), 40, N::Thrips, ABSENT);
    holds(RUTGERS, &Crop::new().cards(40, PestName::Thrips, 1, 40, 7), 40, N::Thrips, ACT);
    holds(
        "a card left 14 days counts half",
        &Crop::new().cards(40, PestName::Thrips, 1, 79, 14),
        40,
        N::Thrips,
        ABSENT,
    );
    holds("two cards", &Crop::new().cards(40, PestName::Thrips, 2, 80, 7), 40, N::Thrips, ACT);
    holds("until the next", &Crop::new().cards(40, PestName::Thrips, 1, 40, 7), 55, N::Thrips, ACT);
    holds(RUTGERS, &Crop::new().wedge(40, 14.0), 40, N::FungusGnats, ABSENT);
    holds(RUTGERS, &Crop::new().wedge(40, 15.0), 40, N::FungusGnats, ACT);
    holds(RUTGERS, &Crop::new().wedge(21, 2.0), 21, N::FungusGnats, ABSENT);
    holds(RUTGERS, &Crop::new().wedge(21, 3.0), 21, N::FungusGnats, ACT);
    holds("from day 22", &Crop::new().wedge(22, 3.0), 22, N::FungusGnats, ABSENT);
    holds("until the next", &Crop::new().wedge(40, 15.0).wedge(42, 4.0), 42, N::FungusGnats, ABSENT);
}

#[test]
fn any_mite_or_mealybug() {
    const ANY: &str = "Cornell and others: act on any find; two clean checks 6 days apart end it (house rule)";
    for (pest, name) in [(PestName::Mite, N::Mites), (PestName::Mealybug, N::Mealybugs)] {
        let found = || Crop::new().plants(40, pest, 20, 1);
        holds(ANY, &Crop::new().plants(40, pest, 20, 0), 40, name, ABSENT);
        holds(ANY, &found(), 40, name, ACT);
        holds("however long it takes", &found(), 80, name, ACT);
        holds("one clean look", &found().plants(47, pest, 20, 0), 60, name, ACT);
        let clean = |n| found().plants(47, pest, 20, 0).plants(n, pest, 20, 0);
        holds("5 days apart", &clean(52), 52, name, ACT);
        holds("6 days apart", &clean(53), 53, name, ABSENT);
        holds("found again", &clean(53).plants(60, pest, 20, 1), 60, name, ACT);
    }
}

#[test]
fn signs_of_disease() {
    let signs = |s: &[LeafSign]| Crop::new().leaves(60, s, None);
    holds("Cornell: white powder", &signs(&[LeafSign::WhitePowder]), 60, N::PowderyMildew, ACT);
    holds("7 days", &signs(&[LeafSign::WhitePowder]), 67, N::PowderyMildew, ACT);
    holds("8 days: until a look without it", &signs(&[LeafSign::WhitePowder]), 68, N::PowderyMildew, ACT);
    let clean = signs(&[LeafSign::WhitePowder]).leaves(70, &[], None);
    holds("a look without it", &clean, 70, N::PowderyMildew, ABSENT);
    holds("pale spots alone", &signs(&[LeafSign::PaleSpots]), 60, N::PowderyMildew, ABSENT);
    holds("Georgia, Maryland: gray fuzz", &signs(&[LeafSign::GrayFuzz]), 60, N::GrayMold, ACT);
    holds("NC State, Purdue: scab", &signs(&[LeafSign::RaisedSpots, LeafSign::Stretched]), 60, N::Scab, ACT);
    holds("spots alone have look-alikes", &signs(&[LeafSign::RaisedSpots]), 60, N::Scab, ABSENT);
    holds("a stretched stem alone too", &signs(&[LeafSign::Stretched]), 60, N::Scab, ABSENT);
}
