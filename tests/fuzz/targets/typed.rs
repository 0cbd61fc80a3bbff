//! Any text typed into any field, as a quantity, as a day or as a time. What is understood is shown and understood again.
#![no_main]

use benchwalk::characters::hidden;
use benchwalk::record::schema::{self, Field};
use benchwalk::record::typed::{self, DayReader, Facing};
use benchwalk::record::{KindName, Value};
use benchwalk::units::{
    Area, Concentration, Conductivity, Illuminance, Irradiance, Length, Mass, System, Temperature, Volume, parse,
};
use chrono::NaiveDate;
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static FIELDS: LazyLock<Vec<&'static Field>> = LazyLock::new(|| schema::fields().collect());

fn field(field: &Field, text: &str, system: System) {
    match typed::read(field, text, system) {
        Ok(Some(value)) => {
            let shown = typed::show(field, &value, system);
            let again = typed::read(field, &shown, system);
            let same = matches!(&again, Ok(Some(again)) if *again == value);
            assert!(same, "{}: {text:?} is {value:?}, shown as {shown:?}, which is {again:?}", field.name);
            drop((typed::rounded(field, &value, system), typed::display(field, &value, system)));
            if let Value::Number(n) = value {
                assert!(n.is_finite());
            }
        }
        Ok(None) => {}
        Err(fault) => assert!(!fault.text.chars().any(hidden), "not clean: {:?}", fault.text),
    }
}

fn day(text: &str, today: u16, system: System, facing: Facing) {
    let first = NaiveDate::from_ymd_opt(2026, 1, 1).expect("a day");
    let today = first + chrono::Days::new(u64::from(today) % 800);
    let season = NaiveDate::from_ymd_opt(2026, 8, 17).zip(NaiveDate::from_ymd_opt(2026, 11, 27));
    for season in [None, season] {
        let reader = DayReader { today, system, season };
        if let Ok(day) = reader.day(text, facing) {
            // The one spelling that needs no reading.
            assert_eq!(reader.day(&day.to_string(), facing), Ok(day));
        }
        drop(reader.moment(text, facing));
    }
}

fuzz_target!(|data: &[u8]| {
    let [which, low, high, rest @ ..] = data else { return };
    let Ok(text) = std::str::from_utf8(rest) else { return };
    let system = if which & 1 == 0 { System::Us } else { System::Metric };
    let facing = if which & 2 == 0 { Facing::Back } else { Facing::Ahead };
    let number = u16::from_le_bytes([*low, *high]);
    match which >> 2 & 3 {
        0 | 1 => field(FIELDS[usize::from(number) % FIELDS.len()], text, system),
        2 => day(text, number, system, facing),
        _ => {
            drop((parse::<Length>(text, system), parse::<Mass>(text, system), parse::<Volume>(text, system)));
            drop((parse::<Temperature>(text, system), parse::<Area>(text, system)));
            drop((parse::<Concentration>(text, system), parse::<Conductivity>(text, system)));
            drop((parse::<Illuminance>(text, system), parse::<Irradiance>(text, system)));
            for kind in KindName::offered() {
                drop(typed::lengths(kind, text, system));
            }
        }
    }
});
