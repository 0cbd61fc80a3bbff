//! Signs on leaves, stems and bracts: which are raised at the first look, which are only noted, and that none is silent.

use crate::season::{ABSENT, ACT, Crop, WATCH, day, holds, instant, lot};
use benchwalk::journal;
use benchwalk::record::{Entry, Kind, KindName, LeafSign, Line, PestName, Place, PlantPart, RootSign, Term};
use benchwalk::report::review::{json, text};
use benchwalk::review::{Review, build};
use benchwalk::season::Season;
use benchwalk::warnings::{LikelyCause, Severity, Warning, WarningName as N, assess_all};
use uuid::Uuid;

const H: &str = "house rule";

fn seen(n: i64, signs: &[LeafSign]) -> Crop {
    Crop::new().leaves(n, signs, None)
}

/// Whether `leaf-signs` is only noted on a day.
#[track_caller]
fn noted(basis: &str, crop: &Crop, n: i64, want: bool) {
    let warning = crop.warning(n, N::LeafSigns).unwrap_or_else(|| panic!("{basis}: nothing on day {n}"));
    assert_eq!((warning.level, warning.noted), (Severity::Watch, want), "{basis}, day {n}");
}

// ---- no sign is silent ---------------------------------------------------------------------------------------------

/// A well-kept season, with one more entry on its first bench.
fn sound(more: Option<(i64, Kind)>) -> (Season, String) {
    let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/cases/quiet-season-1.jsonl"));
    let mut lines = journal::read(&text.unwrap()).unwrap();
    let bench = lines.iter().find_map(|l| if let Line::Bench(b) = l { Some(b.bench.clone()) } else { None }).unwrap();
    if let Some((n, kind)) = more {
        let (id, place) = (Uuid::from_u128(1), Place::Bench(bench.as_str().into()));
        lines.push(Line::Entry(Entry {
            id,
            at: instant(n, (7, 3)),
            by: "kt".into(),
            place,
            plot: None,
            kind: kind.into(),
            note: None,
        }));
    }
    (Season::of(lines), bench)
}

fn evening(season: &Season, n: i64) -> Review {
    let today = assess_all(season, day(n), &benchwalk::limits::Limits::default()).all().cloned().collect();
    build(season, day(n), today, &[], "defaults".into()).unwrap()
}

fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What the table says of a sign typed alone on a day: the warning, its level, and whether it is only noted.
fn table(sign: LeafSign, n: i64, wet: bool) -> (N, Severity, bool) {
    use LeafSign as S;
    match sign {
        S::GrayFuzz => (N::GrayMold, Severity::Act, false),
        S::WhitePowder => (N::PowderyMildew, Severity::Act, false),
        S::BudBeforeColor => (N::HeatDelay, Severity::Act, false),
        S::WetBracts if n > 80 => (N::MoldWeather, Severity::Act, false),
        S::DroppedBuds => (N::BudsDropping, Severity::Watch, false),
        S::Wilted if wet => (N::WiltingWet, Severity::Urgent, false),
        S::BrownSpots | S::BentDown => (N::LeafSigns, Severity::Act, false),
        S::LowerYellow | S::Rolled | S::RedOld | S::Chewed | S::Split | S::Crinkled | S::WetBracts => {
            (N::LeafSigns, Severity::Watch, true)
        }
        _ => (N::LeafSigns, Severity::Watch, false),
    }
}

/// What stands on a bench that did not stand without the sign.
fn new_on<'r>(review: &'r Review, before: &Review, bench: &str, name: N) -> &'r Warning {
    assert!(!before.warnings.iter().any(|w| w.name == name && w.benches.iter().any(|b| b == bench)), "{name:?} stood");
    review
        .warnings
        .iter()
        .find(|w| w.name == name && w.benches.iter().any(|b| b == bench))
        .unwrap_or_else(|| panic!("no {name:?}"))
}

#[test]
fn no_sign_on_leaves_is_silent() {
    for n in [20, 54, 89] {
        let (season, bench) = sound(None);
        let before = evening(&season, n);
        let wet = season
            .history(&bench, day(n))
            .of(KindName::Water)
            .last()
            .is_some_and(|e| matches!(*e.kind, Kind::Water { level, .. } if level >= 4));
        for sign in LeafSign::ALL {
            let kind = Kind::Leaves { signs: vec![*sign], plant_part: None, plants: None };
            let review = evening(&sound(Some((n, kind))).0, n);
            let (name, level, is_noted) = table(*sign, n, wet);
            let warning = new_on(&review, &before, &bench, name);
            assert_eq!((warning.level, warning.noted), (level, is_noted), "{sign:?} on day {n}");
            let said = plain(&text(&review));
            assert!(said.contains(&plain(&warning.title())), "{sign:?} on day {n}: {said}");
            assert_eq!(
                review.flags() == before.flags(),
                level == Severity::Watch,
                "{sign:?} on day {n} flags at act alone"
            );
            let causes: Vec<String> = warning.likely_causes.iter().map(LikelyCause::to_check).collect();
            assert!(causes.len() <= 2, "{causes:?}");
            if name == N::LeafSigns {
                assert!(warning.title().contains(sign.text()), "{}", warning.title());
                assert!(!causes.is_empty(), "{sign:?} on day {n}");
            }
            for cause in &causes {
                assert!(cause.contains(": "), "each with a way to confirm it: {cause}");
                assert!(said.contains(&plain(cause)), "{sign:?} on day {n}: {cause} {said}");
            }
            let out = json(&review).unwrap();
            assert_eq!(out.contains("\"noted\": true"), is_noted, "{sign:?} on day {n}");
            assert_eq!(said.contains(", noted, recheck"), is_noted, "{sign:?} on day {n}: {said}");
        }
    }
}

#[test]
fn no_sign_at_the_roots_is_silent() {
    for n in [20, 54, 89] {
        let (season, bench) = sound(None);
        let before = evening(&season, n);
        for sign in RootSign::ALL {
            let kind = Kind::Roots { score: 0, pots: Some(3), bad: None, signs: vec![*sign], reach: None };
            let review = evening(&sound(Some((n, kind))).0, n);
            let (name, level) = match sign {
                RootSign::Larvae => (N::FungusGnats, Severity::Watch),
                _ => (N::RootsDiseased, Severity::Act),
            };
            let warning = new_on(&review, &before, &bench, name);
            assert_eq!(warning.level, level, "{sign:?} on day {n}");
            let said = plain(&text(&review));
            assert!(!warning.likely_causes.is_empty() && warning.likely_causes.len() <= 2, "{sign:?}");
            for cause in warning.likely_causes.iter().map(LikelyCause::to_check) {
                assert!(said.contains(&plain(&cause)), "{sign:?} on day {n}: {cause} {said}");
            }
        }
    }
}

#[test]
fn a_burned_edge_written_of_the_bracts_is_their_own_warning() {
    let kind = Kind::Leaves { signs: vec![LeafSign::EdgeBrown], plant_part: Some(PlantPart::Bract), plants: None };
    let (season, bench) = sound(Some((89, kind)));
    let review = evening(&season, 89);
    let warning = new_on(&review, &evening(&sound(None).0, 89), &bench, N::BractBurn);
    assert_eq!(warning.level, Severity::Act);
    assert!(!review.warnings.iter().any(|w| w.name == N::LeafSigns), "said once");
}

// ---- leaf-signs ----------------------------------------------------------------------------------------------------

#[test]
fn a_sign_of_its_own_is_watched_at_the_first_look_and_ends_with_a_look_without_it() {
    for sign in [LeafSign::Stipple, LeafSign::Sticky, LeafSign::RaisedSpots, LeafSign::PaleSpots, LeafSign::Blisters] {
        noted(H, &seen(60, &[sign]), 60, false);
    }
    let dots = seen(60, &[LeafSign::Stipple]);
    noted("7 days", &dots, 67, false);
    holds("8 days", &dots, 68, N::LeafSigns, ABSENT);
    holds("a look without it", &dots.leaves(64, &[], None), 64, N::LeafSigns, ABSENT);
}

#[test]
fn brown_spots_and_leaves_bent_down_are_acted_on() {
    let spots = seen(60, &[LeafSign::BrownSpots]);
    holds("isolate, no overhead water, laboratory", &spots, 60, N::LeafSigns, ACT);
    let said = spots.warning(60, N::LeafSigns).unwrap().next().join(" ");
    assert!(said.contains("no overhead water") && said.contains("lab"), "{said}");
    holds("ethylene: from day 7", &seen(7, &[LeafSign::BentDown]), 7, N::LeafSigns, ACT);
    holds("before, unpacking does it too", &seen(6, &[LeafSign::BentDown]), 6, N::LeafSigns, WATCH);
    let both = seen(60, &[LeafSign::BrownSpots, LeafSign::BentDown]).warning(60, N::LeafSigns).unwrap();
    let first = both.next().remove(0);
    assert!(
        first.contains("heater") && first.contains("everybody out first") && first.contains("fire department"),
        "{first}"
    );
    let few = Kind::Leaves { signs: vec![LeafSign::BentDown], plant_part: None, plants: Some(1) };
    holds("on one plant, too: people breathe the same air", &Crop::new().finding(60, few), 60, N::LeafSigns, ACT);
}

#[test]
fn what_is_noted_first_is_watched_at_a_second_look_five_to_fourteen_days_later() {
    let twice = |later: i64| {
        let once = seen(40, &[LeafSign::Chewed]);
        once.leaves(41, &[], None).leaves(40 + later, &[LeafSign::Chewed], None)
    };
    noted("first look", &seen(40, &[LeafSign::Chewed]), 40, true);
    holds("4 days: still of the first look's fortnight", &twice(4), 44, N::LeafSigns, ABSENT);
    noted("5 days", &twice(5), 45, false);
    noted("14 days", &twice(14), 54, false);
    noted("15 days: a first look again", &twice(15), 55, true);
    noted("at once with another sign", &seen(40, &[LeafSign::Chewed, LeafSign::Rolled]), 40, false);
    let two = |on: &str| {
        let crop = seen(40, &[LeafSign::Chewed]).bench_in("E2", "East", 2).with_lot(lot("L2"));
        crop.filled("E2", on, 100, 0).on("E2").leaves(40, &[LeafSign::Chewed], None)
    };
    noted("two benches of the lot", &two("L1"), 40, false);
    noted("another lot's bench says nothing", &two("L2"), 40, true);
}

#[test]
fn crinkled_young_leaves_grow_out() {
    let crinkled = |n| Crop::new().leaves(n, &[LeafSign::Crinkled], Some(PlantPart::Young));
    let said = crinkled(20).warning(20, N::LeafSigns).unwrap().next().join(" ");
    assert!(said.contains("grows out: are later leaves clean?"), "{said}");
    noted(
        "to day 35, however often",
        &crinkled(29).leaves(35, &[LeafSign::Crinkled], Some(PlantPart::Young)),
        35,
        true,
    );
    let late = |n| crinkled(n - 6).leaves(n, &[LeafSign::Crinkled], Some(PlantPart::Young));
    noted("day 36 is a second look", &late(36), 36, false);
    noted("14 days after the pinch", &late(44).pinched(30), 44, true);
    noted("15 days after it", &late(45).pinched(30), 45, false);
    let thrips = |count| late(34).cards(33, PestName::Thrips, 2, count, 7);
    noted("9.5 thrips a card", &thrips(19), 34, true);
    noted("10 thrips a card", &thrips(20), 34, false);
}

#[test]
fn yellow_lower_leaves_late_in_the_crop_are_noted_unless_the_bench_is_weak() {
    let yellow = |n: i64| {
        seen(n - 6, &[LeafSign::LowerYellow]).fed(n - 3, 200.0, None, None).leaves(n, &[LeafSign::LowerYellow], None)
    };
    noted("29 days before the sale", &yellow(73), 73, false);
    noted("28 days before it", &yellow(74), 74, true);
    let starved = seen(74, &[LeafSign::LowerYellow]).lot(|l| l.slow_release_g = None);
    noted("unfed", &starved, 74, false);
    let wet = yellow(80).waters(77, &[2, 4, 4, 4]);
    holds("a wet run has it among its own signs", &wet, 80, N::LeafSigns, ABSENT);
    let brown = yellow(80).roots(80, 2);
    holds("so do brown roots", &brown, 80, N::LeafSigns, ABSENT);
}

#[test]
fn on_one_plant_in_twenty_or_fewer_a_sign_is_noted() {
    let on = |plants| {
        let kind = Kind::Leaves { signs: vec![LeafSign::Stipple], plant_part: None, plants: Some(plants) };
        Crop::new().finding(60, kind)
    };
    noted("5 of 100", &on(5), 60, true);
    noted("6 of 100", &on(6), 60, false);
}

#[test]
fn a_sign_that_a_standing_warning_has_among_its_own_is_said_once() {
    let mites = seen(60, &[LeafSign::Stipple]).plants(60, PestName::Mite, 20, 1);
    holds("mites", &mites, 60, N::LeafSigns, ABSENT);
    let whitefly = seen(60, &[LeafSign::Sticky]).plants(60, PestName::Whitefly, 20, 5);
    holds("whitefly of the lot", &whitefly, 60, N::LeafSigns, ABSENT);
    holds("no whitefly", &seen(60, &[LeafSign::Sticky]).plants(60, PestName::Whitefly, 20, 0), 60, N::LeafSigns, WATCH);
    holds("scab", &seen(60, &[LeafSign::RaisedSpots, LeafSign::Stretched]), 60, N::LeafSigns, ABSENT);
    holds("rolled over failing roots", &seen(60, &[LeafSign::Rolled]).roots(60, 3), 60, N::LeafSigns, ABSENT);
    holds("wilted in wet mix", &seen(60, &[LeafSign::Wilted]).water(60, 5), 60, N::LeafSigns, ABSENT);
    let fair = seen(60, &[LeafSign::Wilted]).water(60, 3).warning(60, N::LeafSigns).expect("not silent");
    let said = fair.next().join(" ");
    assert!(said.contains("Look again early, out of the sun") && said.contains("Botrytis canker"), "{said}");
    holds(
        "a yellow edge is no sign of wet",
        &seen(40, &[LeafSign::EdgeYellow]).waters(38, &[4, 4, 4]),
        40,
        N::LeafSigns,
        WATCH,
    );
}

#[test]
fn what_is_acted_on_is_not_silenced_by_what_is_watched() {
    let damp = |sign| seen(40, &[sign]).humid(39, (11, 0), 90.0).humid(40, (11, 0), 90.0);
    holds("humid weather", &damp(LeafSign::BrownSpots), 40, N::HumidLeaves, WATCH);
    holds("brown spots are more", &damp(LeafSign::BrownSpots), 40, N::LeafSigns, ACT);
    holds("blisters are its own", &damp(LeafSign::Blisters), 40, N::LeafSigns, ABSENT);
}

#[test]
fn the_same_sign_is_raised_once_a_fortnight() {
    let pale = |n: i64| seen(40, &[LeafSign::PaleSpots]).leaves(42, &[], None).leaves(n, &[LeafSign::PaleSpots], None);
    holds("again after 13 days", &pale(53), 53, N::LeafSigns, ABSENT);
    holds("it still stands when the fortnight is over", &pale(53), 54, N::LeafSigns, WATCH);
    holds("again after 14 days", &pale(54), 54, N::LeafSigns, WATCH);
    let weekly = seen(40, &[LeafSign::PaleSpots]).leaves(47, &[LeafSign::PaleSpots], None);
    holds("seen at every look it goes on", &weekly, 50, N::LeafSigns, WATCH);
    let other = seen(40, &[LeafSign::PaleSpots]).leaves(42, &[], None).leaves(45, &[LeafSign::Stipple], None);
    holds("another sign is another line", &other, 45, N::LeafSigns, WATCH);
    let act = seen(40, &[LeafSign::BrownSpots]).leaves(42, &[], None).leaves(45, &[LeafSign::BrownSpots], None);
    holds("what is acted on is always said", &act, 45, N::LeafSigns, ACT);
}

// ---- bract-burn, stem-broken, buds-dropping ------------------------------------------------------------------------

#[test]
fn burned_bract_edges_and_the_calcium_of_the_whole_site() {
    let burn = |part| Crop::new().bracts(72, 3).leaves(80, &[LeafSign::EdgeBrown], part);
    holds("Maryland 2007, 2009", &burn(Some(PlantPart::Bract)), 80, N::BractBurn, ACT);
    holds("7 days", &burn(Some(PlantPart::Bract)), 87, N::BractBurn, ACT);
    holds("burned edges do not heal", &burn(Some(PlantPart::Bract)), 88, N::BractBurn, ACT);
    holds("a look without", &burn(Some(PlantPart::Bract)).leaves(89, &[], None), 89, N::BractBurn, ABSENT);
    holds("on old leaves", &burn(Some(PlantPart::Old)), 80, N::BractBurn, ABSENT);
    holds("place not said", &burn(None), 80, N::BractBurn, ABSENT);
    let two = burn(Some(PlantPart::Bract)).with_lot(lot("L2")).bench_in("W1", "West", 2).filled("W1", "L2", 100, 0);
    let other = two.clone().on("W1").bracts(81, 2).warning(81, N::CalciumDue).expect("for every lot of the site");
    assert!(other.benches.iter().any(|b| b == "W1" || b == "E1"), "{:?}", other.benches);
    let of_w1 = two.on("W1").bracts(81, 2).told(81);
    let lots: Vec<_> = of_w1.iter().filter(|w| w.name == N::CalciumDue).filter_map(|w| w.lot.clone()).collect();
    assert_eq!(lots, ["L1", "L2"], "between first color and pollen");
    holds("without burn the plan decides", &Crop::new().bracts(72, 3), 80, N::CalciumDue, ABSENT);
}

#[test]
fn branches_that_break_on_two_benches() {
    let broken = |n: i64, lot_of: &str| {
        let crop = seen(60, &[LeafSign::Broken]).bench_in("E2", "East", 2).with_lot(lot("L2"));
        crop.filled("E2", lot_of, 100, 0).on("E2").leaves(n, &[LeafSign::Broken], None)
    };
    holds("one bench", &seen(60, &[LeafSign::Broken]), 60, N::StemBroken, ABSENT);
    holds("two benches", &broken(60, "L1"), 60, N::StemBroken, WATCH);
    holds("14 days apart", &broken(74, "L1"), 74, N::StemBroken, WATCH);
    holds("15 days apart", &broken(75, "L1"), 75, N::StemBroken, ABSENT);
    holds("of two lots", &broken(60, "L2"), 60, N::StemBroken, ABSENT);
    holds("said once", &broken(60, "L1"), 60, N::LeafSigns, ABSENT);
    let said = broken(60, "L1").warning(60, N::StemBroken).unwrap().next().join(" ");
    for part in ["calcium", "nodes left", "late pinch", "low light", "hand with care"] {
        assert!(said.contains(part), "{part}: {said}");
    }
}

#[test]
fn buds_that_drop() {
    holds("NC State key 2009", &seen(90, &[LeafSign::DroppedBuds]), 90, N::BudsDropping, WATCH);
    let nights = |nights: &[f64], stage: u8, dull: bool| {
        let crop = Crop::new().site(|s| s.low_light_houses = if dull { vec!["East".into()] } else { Vec::new() });
        let crop = crop.bracts(84, stage);
        nights.iter().zip(85..).fold(crop, |crop, (c, n)| crop.climate(n, 22.0, *c))
    };
    holds("21 °C on 3 nights", &nights(&[21.0; 3], 4, true), 88, N::BudsDropping, WATCH);
    holds("of the last 7", &nights(&[21.0; 3], 4, true), 91, N::BudsDropping, WATCH);
    holds("2 of the last 7", &nights(&[21.0; 3], 4, true), 92, N::BudsDropping, ABSENT);
    holds("20.9 °C", &nights(&[21.0, 20.9, 21.0], 4, true), 88, N::BudsDropping, ABSENT);
    holds("stage 3", &nights(&[21.0; 3], 3, true), 88, N::BudsDropping, ABSENT);
    holds("a house that has light", &nights(&[21.0; 3], 4, false), 88, N::BudsDropping, ABSENT);
    let said = seen(90, &[LeafSign::DroppedBuds]).warning(90, N::BudsDropping).unwrap().next().join(" ");
    assert!(said.contains("65 °F") && said.contains("60 °F") && said.contains("67 °F"), "{said}");
}

#[test]
fn larvae_seen_at_the_roots_ask_for_a_count() {
    let larvae = Crop::new().root_sign(60, RootSign::Larvae);
    holds(H, &larvae, 60, N::FungusGnats, WATCH);
    holds("counted since", &larvae.wedge(62, 2.0), 62, N::FungusGnats, ABSENT);
}
