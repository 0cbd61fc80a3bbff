//! What is typed is understood, what is shown can be typed.

use super::super::{KindName, Term, Value, schema};
use super::{hint, read, show};
use crate::units::System;
use proptest::prelude::*;

fn field(kind: KindName, name: &str) -> &'static schema::Field {
    schema::kind_table(kind).field(name).unwrap()
}

fn typed(kind: KindName, name: &str, text: &str) -> Value {
    read(field(kind, name), text, System::Us).unwrap().unwrap()
}

fn refused(kind: KindName, name: &str, text: &str) -> String {
    read(field(kind, name), text, System::Us).unwrap_err().text
}

#[test]
fn numbers_take_units() {
    assert_eq!(typed(KindName::Climate, "night_c", "68"), Value::Number(20.0));
    assert_eq!(typed(KindName::Climate, "night_c", "20 °C"), Value::Number(20.0));
    assert_eq!(typed(KindName::NightLight, "lux", "2 fc"), Value::Number(21.527_821));
    assert_eq!(typed(KindName::Watered, "ml_per_pot", "8"), Value::Number(236.588_237));
    assert_eq!(typed(KindName::Watered, "ml_per_pot", "250mL"), Value::Number(250.0));
    assert_eq!(typed(KindName::Topdressed, "g_per_pot", "10"), Value::Number(10.0));
    assert_eq!(typed(KindName::Sprayed, "rei_h", "12 h"), Value::Number(12.0));
    let latitude = schema::plan_table("site").unwrap().field("longitude").unwrap();
    assert_eq!(read(latitude, "70.21 w", System::Us), Ok(Some(Value::Number(-70.21))));
}

#[test]
fn readings_are_typed_as_one_line() {
    let cm = |n: &[f64]| Value::List(n.iter().map(|n| Value::Number(*n)).collect());
    assert_eq!(typed(KindName::Height, "cm", "10 11 12.5"), cm(&[25.4, 27.94, 31.75]));
    assert_eq!(typed(KindName::Height, "cm", "25.1, 26, 27 cm"), cm(&[25.1, 26.0, 27.0]));
    assert_eq!(typed(KindName::Height, "cm", "10in 26cm"), cm(&[25.4, 26.0]));
    assert!(refused(KindName::Height, "cm", "10 eleven").contains("eleven"));
}

#[test]
fn words_may_be_cut_short() {
    assert_eq!(typed(KindName::Nutrient, "material", "mag"), Value::Term("magnesium-sulfate"));
    assert_eq!(typed(KindName::Pests, "pest", "Fungus gnat"), Value::Term("fungus-gnat"));
    assert!(refused(KindName::Pests, "pest", "m").contains("one of whitefly"));
    let signs = typed(KindName::Leaves, "signs", "rolled wilt");
    assert_eq!(signs, Value::List(vec![Value::Term("rolled"), Value::Term("wilted")]));
    assert_eq!(typed(KindName::Lights, "on", "Y"), Value::YesNo(true));
}

#[test]
fn a_tank_is_typed_part_by_part() {
    let Value::List(parts) =
        typed(KindName::GrowthRegulator, "parts", "daminozide 1500 ppm + chlormequat chloride 1000")
    else {
        panic!("parts")
    };
    assert_eq!(parts.len(), 2);
    assert!(refused(KindName::GrowthRegulator, "parts", "daminozide").contains("ppm"));
}

#[test]
fn out_of_range_is_told_in_the_sites_units() {
    insta::assert_snapshot!(refused(KindName::Spaced, "centers_cm", "300"), @"is 300; give 0.4 to 190 in");
    insta::assert_snapshot!(refused(KindName::Fed, "n_ppm", "-5"), @"-5 is too low; a concentration is 0 ppm or more");
    insta::assert_snapshot!(refused(KindName::Sprayed, "rei_h", "12 days"), @r#"is "12 days"; give a number from 0 to 2000 (h)"#);
    insta::assert_snapshot!(hint(field(KindName::Climate, "night_c"), System::Us), @"-76 to 150 °F");
    insta::assert_snapshot!(refused(KindName::Watered, "ml_per_pot", "1000 gal"), @"is 1000 gal; give 0 to 3300 fl oz");
}

#[test]
fn ranges_of_the_possible_are_told_as_unit_and_example() {
    insta::assert_snapshot!(hint(field(KindName::Watered, "ml_per_pot"), System::Us), @"fl oz; or as 250 mL");
    insta::assert_snapshot!(hint(field(KindName::NightLight, "lux"), System::Metric), @"lux; or as 2 fc");
    let area = schema::plan_table("bench").unwrap().field("area_m2").unwrap();
    insta::assert_snapshot!(hint(area, System::Us), @"sq ft; or as 40 m2");
    for (field, system) in [(area, System::Us), (area, System::Metric)] {
        let (_, shown) = hint(field, system).rsplit_once("as ").map(|(a, b)| (a.to_owned(), b.to_owned())).unwrap();
        assert!(read(field, &shown, system).is_ok(), "{shown}");
    }
}

#[test]
fn every_bound_told_can_be_typed() {
    for table in KindName::ALL.iter().map(|k| schema::kind_table(*k)).chain(schema::plan_tables().iter().copied()) {
        for field in table.fields.iter().filter(|f| matches!(f.kind, schema::FieldKind::Number { .. })) {
            for system in [System::Us, System::Metric] {
                let schema::FieldKind::Number { least, most } = field.kind else { continue };
                let told = super::number::range(field, least, most, system);
                let bounds: Vec<&str> = told.split(' ').filter(|w| w.parse::<f64>().is_ok()).collect();
                assert!(!bounds.is_empty(), "{told}");
                for bound in bounds {
                    assert!(read(field, bound, system).is_ok(), "{} {told}: {bound}", field.name);
                }
            }
        }
    }
}

#[test]
fn nothing_typed_is_no_value() {
    assert_eq!(read(field(KindName::Fed, "mg_ppm"), " \t", System::Us), Ok(None));
}

#[test]
fn commas_alone_are_no_list() {
    for field in schema::fields() {
        for text in [",", " , ,"] {
            let read = read(field, text, System::Us);
            let empty = matches!(&read, Ok(Some(Value::List(list))) if list.is_empty());
            assert!(!empty, "{}: {text:?} is {read:?}", field.name);
        }
    }
}

#[test]
fn what_is_shown_can_be_typed() {
    for kind in KindName::ALL {
        for field in schema::kind_table(*kind).fields {
            for system in [System::Us, System::Metric] {
                for text in ["3", "0.1234567", "wilted", "soft", "yes", "2026-10-05", "daminozide 3.5", "35.567 cm"] {
                    let Ok(Some(value)) = read(field, text, system) else { continue };
                    let shown = show(field, &value, system);
                    assert_eq!(read(field, &shown, system), Ok(Some(value)), "{kind:?} {} {shown}", field.name);
                }
            }
        }
    }
}

proptest! {
    #[test]
    fn any_text_is_answered_and_what_is_taken_is_allowed(text in prop_oneof!["\\PC{0,24}", "[-+0-9.,; a-zA-Z°²+]{0,16}"]) {
        for table in KindName::ALL.iter().map(|k| schema::kind_table(*k)).chain(schema::plan_tables().iter().copied()) {
            for field in table.fields {
                if let Ok(Some(value)) = read(field, &text, System::Us) {
                    prop_assert_eq!(crate::record::rules::check_value(field, &value), None);
                }
            }
        }
    }
}

#[test]
fn degrees_are_typed_with_sign_letter_or_minutes() {
    let field = |name| schema::plan_table("site").unwrap().field(name).unwrap();
    let read = |name, text| read(field(name), text, System::Us).map(|v| v.unwrap());
    for (name, text, degrees) in [
        ("latitude", "44.1 N", 44.1),
        ("latitude", "44 06 N", 44.1),
        ("latitude", "33\u{b0}54'S", -33.9),
        ("longitude", "-70.2", -70.2),
        ("longitude", "-70 12", -70.2),
        ("longitude", "70:12:00 w", -70.2),
    ] {
        let Ok(Value::Number(found)) = read(name, text) else { panic!("{text}") };
        assert!((found - degrees).abs() < 1e-9, "{text}: {found}");
    }
    for (name, text) in [
        ("latitude", "44 E"),
        ("longitude", "44 N"),
        ("latitude", "44 61 N"),
        ("latitude", "-44 S"),
        ("latitude", "91"),
    ] {
        assert!(read(name, text).is_err(), "{text}");
    }
}
