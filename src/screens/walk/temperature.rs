//! The line for the temperature of a house: read, logged for the house, or left blank and not asked again that day.

use super::State;
use crate::controls::Field;
use crate::model::{DraftKey, Effect, Model};
use crate::record::schema::{self, Field as Form, RecordSchema};
use crate::record::{FieldFault, Kind, KindName, Place, codec, typed};
use crate::units::System;

/// The line, with examples in the unit of the site.
pub(super) const fn how(system: System) -> &'static str {
    match system {
        System::Us => {
            "Day/night average in °F, with humidity if read: 72/64 or 72/64 80% (or min 58 max 84). Blank skips."
        }
        System::Metric => {
            "Day/night average in °C, with humidity if read: 22/18 or 22/18 80% (or min 14 max 29). Blank skips."
        }
    }
}

/// The line accepted: logged for the house, or skipped for the day where it is blank. `None` where it was refused; the reason is
/// shown below it.
pub(super) fn accept(state: &mut State, model: &mut Model) -> Option<Vec<Effect>> {
    if state.temperature.is_blank() {
        model.skip_temperature(&state.bench);
        return Some(Vec::new());
    }
    let logged = read(state.temperature.text(), model.system()).and_then(|kind| {
        let house = model.season.bench(&state.bench).map(|bench| bench.house.clone()).unwrap_or_default();
        let entry = model.entry(Place::House(house.into()), kind, None);
        model.record(vec![entry])
    });
    match logged {
        Ok(effect) => {
            state.temperature = Field::default();
            model.forget_draft(&draft(&state.bench, model));
            Some(vec![effect])
        }
        Err(faults) => {
            state.fault = faults.first().map(|fault| format!("house temperature: {}", fault.text));
            None
        }
    }
}

/// What the line is kept under when left half typed: one of each house.
pub(super) fn draft(bench: &str, model: &Model) -> DraftKey {
    DraftKey::HouseTemperature(model.season.bench(bench).map(|bench| bench.house.clone()).unwrap_or_default())
}

/// Reads `72/64`, `72/64 80%`, `/64` or `min 58 max 84`.
fn read(text: &str, system: System) -> Result<Kind, Vec<FieldFault>> {
    let fields = schema::kind_table(KindName::Climate);
    let parts = parts(text).ok_or_else(|| vec![FieldFault::new("day_c", UNREAD.to_owned())])?;
    let named = parts.iter().filter_map(|(name, text)| Some((field(fields, name)?, text.as_str())));
    let values = typed::read_all(named, system)?;
    codec::kind_from_values(KindName::Climate, &values)
}

const UNREAD: &str = "type day and night with a slash between, such as 72/64, or min 58 max 84";

fn field(table: &'static RecordSchema, name: &str) -> Option<&'static Form> {
    table.fields.iter().find(|field| field.name == name)
}

/// The fields of a line and what was typed for each; `None` where it has no such form.
fn parts(text: &str) -> Option<Vec<(&'static str, String)>> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let (first, humidity) = match words.as_slice() {
        ["min", low, "max", high] => return Some(vec![("low_c", (*low).to_owned()), ("high_c", (*high).to_owned())]),
        [first] => (*first, None),
        [first, humidity] => (*first, Some(humidity.trim_end_matches('%').to_owned())),
        _ => return None,
    };
    let (day, night) = first.split_once('/')?;
    let both = [("day_c", day), ("night_c", night)].into_iter().filter(|(_, text)| !text.is_empty());
    let mut all: Vec<(&str, String)> = both.map(|(name, text)| (name, text.to_owned())).collect();
    all.extend(humidity.map(|text| ("humidity_percent", text)));
    (!all.is_empty()).then_some(all)
}
