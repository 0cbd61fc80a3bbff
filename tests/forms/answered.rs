//! Warnings and the forms that answer them.

use crate::desk::{COLOR, Desk};
use crate::season;
use benchwalk::limits::Basis;
use benchwalk::model::answers;
use benchwalk::record::{KindName, Place, Term, schema, typed};
use benchwalk::units::System;
use benchwalk::warnings::{Severity, Warning, WarningName};
use chrono::NaiveDate;

pub(crate) fn made(name: WarningName) -> Warning {
    let day = NaiveDate::from_ymd_opt(2026, 10, 12).unwrap();
    Warning {
        name,
        level: Severity::Act,
        noted: false,
        place: Place::Bench("E1".into()),
        benches: vec!["E1".into()],
        lot: Some("L1".into()),
        since: day,
        evidence: vec![],
        steps: vec![],
        signs: vec![],
        other_why: None,
        likely_causes: vec![],
        look_again: day,
        basis: Basis::HouseRule,
        put_off_until: None,
    }
}

#[test]
fn every_warning_that_asks_for_work_has_its_form_and_what_it_is_filled_in_with_can_be_typed() {
    let desk = Desk::new();
    for name in WarningName::ALL {
        let found = answers(&made(*name), &desk.app.model.season);
        let walked = [WarningName::NotWalked, WarningName::HouseTrouble, WarningName::PinchedInError];
        assert_eq!(found.is_empty(), walked.contains(name), "{}", name.code());
        for answer in found {
            assert_eq!(answer.ask.answers, Some(*name));
            for (field, text) in &answer.ask.fill {
                let field = schema::kind_table(answer.ask.kind).field(field).unwrap_or_else(|| panic!("{field}"));
                let day = matches!(field.kind, schema::FieldKind::Day);
                assert!(
                    day || typed::read(field, text, System::Us).is_ok_and(|v| v.is_some()),
                    "{}: {text}",
                    field.name
                );
                assert!(!matches!(field.name, "rei_h" | "parts" | "ai"), "only a person types {}", field.name);
            }
        }
    }
}

#[test]
fn no_strength_is_filled_in_and_what_is_published_stands_next_to_its_field() {
    let desk = Desk::new();
    for answer in WarningName::ALL.iter().flat_map(|name| answers(&made(*name), &desk.app.model.season)) {
        assert!(answer.ask.fill.iter().all(|(field, _)| !field.contains("ppm")), "{answer:?}");
    }
    let case = &cases()[0];
    let mut desk = Desk::with(&journal(case), COLOR, (120, 40));
    let digit = digit(&desk, case.name, case.kind);
    desk.keys("{Home}a").keys(&digit);
    // 1 lb of magnesium sulfate heptahydrate in 100 gal: 453.6 g x 9.861 % / 378.5 L = 118 ppm Mg.
    let row = desk.text().lines().find(|row| row.contains(" ppm*")).unwrap().to_owned();
    assert!(row.ends_with("ppm, published 118 to 177"), "{row}");
    assert!(desk.text().contains("Published: 118 to 177 ppm Mg (Purdue"), "{}", desk.text());
    desk.keys("{Enter}");
    assert!(desk.written().is_empty() && desk.text().contains("ppm is missing"), "{}", desk.text());
}

/// A season with something changed, and what answers the warning that comes of it.
pub(crate) struct Case {
    name: WarningName,
    kind: KindName,
    without: &'static str,
    with: &'static str,
    change: (&'static str, &'static str),
    keys: &'static str,
    written: &'static str,
}

const SAME: (&str, &str) = ("", "");

fn entry(at: &str, rest: &str) -> String {
    format!("{{\"type\":\"entry\",\"at\":\"2026-{at}:00-04:00\",\"by\":\"kt\",\"bench\":\"E1\",{rest}}}\n")
}

pub(crate) fn journal(case: &Case) -> String {
    let all = season::journal();
    let kept = all.lines().filter(|l| case.without.is_empty() || !l.contains(case.without));
    let mut text: String = kept.map(|l| format!("{l}\n")).collect();
    if !case.change.0.is_empty() {
        assert!(text.contains(case.change.0));
        text = text.replace(case.change.0, case.change.1);
    }
    for line in case.with.split('|').filter(|l| !l.is_empty()) {
        let (at, rest) = line.split_once(' ').unwrap();
        text.push_str(&entry(at, rest));
    }
    text
}

pub(crate) fn cases() -> Vec<Case> {
    use KindName as K;
    use WarningName as N;
    let case = |name, kind, without, keys, written| Case { name, kind, without, with: "", change: SAME, keys, written };
    vec![
        case(
            N::MagnesiumMissed,
            K::Nutrient,
            "magnesium-sulfate",
            "118{Enter}",
            "E1 magnesium sulfate drench at 118 ppm",
        ),
        case(N::MolybdenumMissed, K::Nutrient, "sodium-molybdate", "50{Enter}", "E1 sodium molybdate drench at 50 ppm"),
        Case {
            change: ("\"planted\":\"2026-08-17\"", "\"planted\":\"2026-09-18\""),
            ..case(N::PinchOverdue, K::Pinched, "\"pinched\"", "{Enter}", "E1 soft pinch")
        },
        case(N::RootsUnchecked, K::Roots, "\"roots\"", "1{Enter}", "E1 roots 1"),
        case(N::Unmeasured, K::Height, "\"height\"", "10{Space}10{Space}10{Enter}", "L1 height 10 in (10.0 10.0 10.0)"),
        case(
            N::RootZoneUntested,
            K::RootZone,
            "",
            "a{Tab}5.9{Tab}2.6{Enter}",
            "L1 root zone by pour-through, pH 5.9, EC 2.60 mS/cm",
        ),
        case(N::Unscouted, K::Pests, "\"pests\"", "{Tab}20{Tab}0{Enter}", "East whitefly on 0 of 20 plants"),
        Case { change: (",\"slow_release_g\":4", ""), ..case(N::Unfed, K::Fed, "", "150{Enter}", "E1 fed 150 ppm N") },
        Case {
            change: (",\"slow_release_g\":4", ",\"calcium\":true"),
            with: "10-11T09:00 \"kind\":\"bracts\",\"stage\":2",
            ..case(N::CalciumDue, K::Nutrient, "", "300{Enter}", "L1 calcium chloride spray at 300 ppm")
        },
        Case {
            with: "10-11T22:00 \"kind\":\"night-light\",\"lux\":40",
            ..case(N::NightLight, K::NightLight, "", "0.1{Tab}04:00{Enter}", "E1 night light 0.1 fc")
        },
        Case {
            with: "10-11T07:00 \"kind\":\"water\",\"level\":1|10-12T07:00 \"kind\":\"water\",\"level\":1",
            ..case(N::TooDry, K::Watered, "2026-10-11T08:30", "{Enter}", "E1 watered")
        },
    ]
}

/// The digit of the form of a kind that answers a warning, on the list of a bench.
fn digit(desk: &Desk, name: WarningName, kind: KindName) -> String {
    let model = &desk.app.model;
    let own = model.cache.bench("E1").unwrap().warnings.iter();
    let wide = model.cache.wide().iter().filter(|w| w.benches.iter().any(|b| b == "E1"));
    let offered = own.chain(wide).flat_map(|w| answers(w, &model.season));
    let at = offered.into_iter().position(|a| a.ask.answers == Some(name) && a.ask.kind == kind);
    (at.unwrap_or_else(|| panic!("{} is not there\n{}", name.code(), desk.text())) + 1).to_string()
}

fn told(desk: &Desk, name: WarningName) -> bool {
    let model = &desk.app.model;
    model.cache.warnings(&model.season).any(|w| w.name == name && w.benches.iter().any(|b| b == "E1"))
}

#[test]
fn a_warning_answered_by_its_form_is_gone_at_once() {
    for case in cases() {
        let mut desk = Desk::with(&journal(&case), COLOR, (80, 24));
        let names: Vec<_> = desk.app.model.cache.warnings(&desk.app.model.season).map(|w| w.name.code()).collect();
        assert!(told(&desk, case.name), "{} does not come, {names:?}", case.name.code());
        let digit = digit(&desk, case.name, case.kind);
        desk.keys("{Home}a").keys(&digit).keys(case.keys);
        assert_eq!(desk.written(), [case.written], "{}\n{}", case.name.code(), desk.text());
        assert!(!told(&desk, case.name), "{} stays\n{}", case.name.code(), desk.text());
        desk.keys("u");
        assert!(told(&desk, case.name), "{} is back when it is taken back", case.name.code());
    }
}

#[test]
fn a_trouble_of_the_review_is_answered_for_all_its_benches_by_three_keys() {
    let case = &cases()[0];
    let mut desk = Desk::with(&journal(case), COLOR, (80, 50));
    desk.keys("e");
    let marked = |desk: &Desk| {
        desk.text().lines().any(|l| l.starts_with('\u{25b8}') && l.contains("magnesium missed") && l.contains("L1"))
    };
    for _ in 0..20 {
        if !marked(&desk) {
            desk.keys("j");
        }
    }
    assert!(marked(&desk), "{}", desk.text());
    desk.keys("w");
    assert!(desk.text().contains("for E1 E2 E3"), "{}", desk.text());
    desk.keys("1");
    assert!(desk.text().contains("E1 E2 E3") && desk.text().contains("118 to 177"), "{}", desk.text());
    desk.keys("118{Enter}");
    let each = ["E1", "E2", "E3"].map(|b| format!("{b} magnesium sulfate drench at 118 ppm"));
    assert_eq!(desk.written(), each);
    assert!(!desk.text().contains("E1 E2 E3 (L1)"), "{}", desk.text());
    assert!(!told(&desk, case.name));
}

#[test]
fn what_is_to_be_mixed_is_calculated_for_the_pots_that_stand_there() {
    let case = &cases()[0];
    let mut desk = Desk::with(&journal(case), COLOR, (120, 40));
    let digit = digit(&desk, case.name, case.kind);
    desk.keys("{Home}a").keys(&digit).keys("118");
    // 118 ppm x 100 gal (378.54 L) / 0.0986 = 453 g: 1 lb.
    assert!(desk.text().contains("453 g (16 oz) of magnesium sulfate in 100 gal"), "{}", desk.text());
    desk.keys("{Tab}{Tab}8{Space}fl{Space}oz");
    // 80 pots x 236.6 mL = 18.9 L; x 118 / 98.6 = 22.65 g.
    assert!(desk.text().contains("Total 18.9 L (5 gal) for 80 pots. Weigh 22.6 g"), "{}", desk.text());
    assert!(desk.text().contains("118 to 177 ppm Mg"), "{}", desk.text());
}

#[test]
fn tomorrows_work_says_how_much_in_all_as_the_mixing_page_does() {
    let text = journal(&cases()[0]).replace(",\"ml_per_pot\":300", "").replace(",\"ml_per_pot\":200", "");
    let mut desk = Desk::with(&text, COLOR, (108, 60));
    let told = |desk: &Desk| desk.text().split_whitespace().collect::<Vec<_>>().join(" ");
    desk.keys("e");
    // 118.2 ppm x 378.5 L / 98.61 = 454 g: the published range in a round volume, while neither ppm nor volume was logged.
    let clause = "1 lb (454 g) to 1.5 lb (680 g) in 100 gal (379 L) makes 118 to 177 ppm Mg (published: Purdue";
    assert!(told(&desk).contains(clause), "{}", desk.text());
    // Once that is logged for every bench, and without E2, which must dry down: 160 pots x 236.6 mL = 37.9 L; x 118.2 / 98.61
    // = 45.4 g.
    desk.keys("raa8{Shift-Tab}c{Enter}");
    assert_eq!(desk.written().len(), 1, "{}", desk.text());
    desk.keys("e");
    let all = "in 10 gal (37.9 L) for 160 pots at 8 fl oz (237 mL), 118 to 177 ppm Mg (published:";
    assert!(told(&desk).contains("Total 1.6 oz (45.4 g) to ") && told(&desk).contains(all), "{}", desk.text());
    for _ in 0..12 {
        desk.keys("i");
        if desk.text().starts_with("Mixing") && desk.text().contains("magnesium sulfate") {
            break;
        }
        desk.keys("{Esc}j");
    }
    assert!(!told(&desk).contains("weigh "), "the ppm is not filled in\n{}", desk.text());
    // What a pot got last is filled in, and the bench on hold is left out: 118 ppm x 37.9 L / 98.61 = 45.3 g.
    desk.keys("118");
    assert!(told(&desk).contains("weigh 1.6 oz (45.3 g)"), "{}", desk.text());
}

#[test]
fn tomorrows_work_goes_by_the_ppm_last_logged_for_the_lot() {
    let season_of = |text: &str| Desk::with(text, COLOR, (108, 60));
    let what = |desk: &Desk| {
        let model = &desk.app.model;
        let raised = vec![made(WarningName::MagnesiumMissed)];
        let review = benchwalk::review::build(&model.season, model.day, raised, &[], String::new()).unwrap();
        review.jobs.iter().map(|job| job.what.clone()).collect::<String>()
    };
    let without: String =
        season::journal().lines().filter(|l| !l.contains("magnesium-sulfate")).map(|l| format!("{l}\n")).collect();
    assert!(what(&season_of(&without)).contains("118 to 177 ppm Mg (published: "), "{}", what(&season_of(&without)));
    // Of another bench of the lot, and older than one that was given another way.
    let dose = |at: &str, bench: &str, ppm: u32, how: &str| {
        let line = entry(
            at,
            &format!("\"kind\":\"nutrient\",\"material\":\"magnesium-sulfate\",\"ppm\":{ppm},\"how\":\"{how}\""),
        );
        line.replace("\"E1\"", &format!("\"{bench}\""))
    };
    let typed = without
        + &dose("09-20T09:00", "E2", 90, "drench")
        + &dose("09-21T09:00", "E2", 130, "drench")
        + &dose("09-22T09:00", "E1", 70, "spray");
    let desk = season_of(&typed);
    assert!(what(&desk).contains(" 130 ppm Mg (as last logged for the lot)."), "{}", what(&desk));
}

#[test]
fn calcium_is_told_from_the_lowest_to_the_highest_in_print_for_the_area_that_is_sprayed() {
    let case = cases().into_iter().find(|c| c.name == WarningName::CalciumDue).unwrap();
    let what = |text: &str| {
        let desk = Desk::with(text, COLOR, (120, 60));
        let model = &desk.app.model;
        let of_it = model.cache.warnings(&model.season).filter(|w| w.name == case.name);
        let raised = of_it.map(|w| Warning { level: Severity::Act, ..w.clone() }).collect();
        let review = benchwalk::review::build(&model.season, model.day, raised, &[], String::new()).unwrap();
        review.jobs.iter().map(|job| job.what.clone()).collect::<String>()
    };
    let text = journal(&case);
    // 200 ppm x 378.5 L / 272.6 = 278 g of the salt with two waters.
    let round = "9.8 oz (278 g) to 1.22 lb (555 g) in 100 gal (379 L) makes 200 to 400 ppm Ca (published: ";
    assert!(what(&text).contains(round), "{}", what(&text));
    // 30 m2 at 2 qt per 100 sq ft (203.7 mL on 1 m2) take 6.11 L: 4.48 g to 8.97 g.
    let text = text.replace("\"house\":\"East\"", "\"house\":\"East\",\"area_m2\":10");
    let all = "(4.48 g) to 0.316 oz (8.97 g) in 1.61 gal (6.11 L) for 323 sq ft (30 m2) (spray volume assumed; the label's volume \
               decides), 200 to 400 ppm Ca (published: ";
    assert!(what(&text).contains(all), "{}", what(&text));
}
