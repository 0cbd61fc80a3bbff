//! Re-checks: what a warning says to look at again is asked on the card of that bench, before the routine checks.

use crate::desk::{COLOR, Desk};
use crate::season::{Crop, date};
use benchwalk::limits::Limits;
use benchwalk::record::{Kind, PestCount, PestName};
use benchwalk::report::sheet;
use benchwalk::warnings::{CheckName, WarningName, due};

/// A bench whose base read soaked on October 9 and was not felt again; roots, bracts and whitefly were looked at then.
fn soaked() -> Crop {
    let scouted = PestCount::Plants { inspected: 20, infested: 0 };
    Crop::new()
        .lot(|lot| (lot.height_low_cm, lot.height_high_cm) = (None, None))
        .at((9, 1), (9, 0), Kind::Pinched { how: benchwalk::record::PinchHow::Soft, nodes_left: Some(6) })
        .at((10, 9), (7, 0), Kind::Water { level: 3, base: Some(5) })
        .at((10, 9), (7, 1), Kind::Roots { score: 0, pots: None, bad: None, signs: vec![], reach: None })
        .at((10, 9), (7, 2), Kind::Bracts { stage: 1 })
        .at((10, 9), (7, 3), Kind::Pests { pest: PestName::Whitefly, count: scouted })
        .at((10, 10), (7, 0), Kind::Water { level: 3, base: None })
        .at((10, 11), (7, 0), Kind::Water { level: 2, base: None })
}

fn asked(crop: &Crop, on: u32) -> Vec<(CheckName, bool)> {
    let checks = due(&crop.season(), "E1", date(10, on), &Limits::default());
    checks.iter().map(|check| (check.what, check.again.is_some())).collect()
}

#[test]
fn a_soaked_base_is_asked_on_its_card_every_day_until_it_is_felt_again() {
    use CheckName::{Base, Roots, Water};
    let crop = soaked();
    for on in 10..=15 {
        assert_eq!(asked(&crop, on), [(Water, false), (Base, true)], "Oct {on}");
    }
    // With the weekly roots: the re-check stands before them.
    let checks = asked(&crop, 16);
    assert_eq!(checks[..3], [(Water, false), (Base, true), (Roots, false)]);
    let mut desk = Desk::of(&crop.season(), COLOR, (80, 24));
    desk.keys("w2");
    let text = desk.text();
    assert!(text.contains("[re-check: base _]"), "{text}");
    assert!(text.contains("Re-check: base (base soaked since Oct 9)"), "{text}");
    desk.keys("3{Esc}");
    assert!(desk.text().contains("walked 1 of 1"), "{}", desk.text());
    let warned =
        |desk: &Desk| desk.app.model.cache.bench("E1").unwrap().warnings.iter().any(|w| w.name == WarningName::WetBase);
    assert!(!warned(&desk), "a newer reading of the base clears it");
    // The undo of it gives the warning back.
    desk.keys("u");
    assert!(warned(&desk));
}

#[test]
fn a_postponed_warning_asks_for_nothing_until_its_day() {
    let put_off = Kind::PutOff { warning: "wet-base".into(), until: date(10, 13), why: "drain ordered".into() };
    let crop = soaked().at((10, 10), (18, 0), put_off);
    assert_eq!(asked(&crop, 12), [(CheckName::Water, false)]);
    assert_eq!(asked(&crop, 13), [(CheckName::Water, false), (CheckName::Base, true)]);
}

#[test]
fn roots_are_asked_first_where_the_mix_stays_wet_and_nobody_looked_since() {
    let wet =
        |crop: Crop| (4..12).fold(crop, |crop, day| crop.at((10, day), (7, 0), Kind::Water { level: 5, base: None }));
    let looked = |day| Kind::Roots { score: u8::from(day > 10), pots: None, bad: None, signs: vec![], reach: None };
    let crop = wet(Crop::new().at((10, 3), (7, 6), looked(3)));
    assert_eq!(asked(&crop, 12).first(), Some(&(CheckName::Roots, true)));
    let crop = wet(Crop::new().at((10, 8), (7, 6), looked(8)));
    assert_eq!(asked(&crop, 12).first(), Some(&(CheckName::Water, false)), "looked at within the wet days");
}

#[test]
fn the_sheet_on_paper_asks_for_it_too() {
    let sheet = sheet::build(&soaked().season(), date(10, 12), &Limits::default()).unwrap();
    let text = sheet::text(&sheet);
    assert!(text.contains("water 1 2 3 4 5  re-check: base 1 2 3 4 5\n"), "{text}");
}
