//! A form's fields into entries, recorded in one go.

use super::{State, place, rights, treatment};
use crate::controls::Row;
use crate::model::{Effect, Model};
use crate::popups::fields::{self, About};
use crate::popups::when;
use crate::record::schema::FieldKind;
use crate::record::{Entry, FieldFault, Kind, KindName, Place, Term, Value, Values, codec, typed};
use crate::report::doubts;
use crate::season::places;

/// Records the entries a form makes.
///
/// # Errors
/// Everything that is missing or wrong, by field.
pub(super) fn save(state: &State, model: &mut Model) -> Result<Effect, Vec<FieldFault>> {
    let mut faults = Vec::new();
    let values = values(state, model, &mut faults);
    faults.extend(treatment::zero(state, model));
    let at = match time(state, model) {
        Ok(at) => at,
        Err(fault) => {
            faults.push(fault);
            model.now.at
        }
    };
    let note = Some(crate::record::clean(&state.text("note"))).filter(|n| !n.is_empty());
    let kinds = kinds(state, model, &values, at.date_naive()).map_err(|more| merged(faults.clone(), more))?;
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut made = Vec::with_capacity(kinds.len());
    for (place, kind) in kinds {
        let mut entry = model.entry(place, kind, note.clone());
        entry.at = at;
        made.push(entry);
    }
    doubt(state, model, &made)?;
    let ticks = ticks(state, model).into_iter().map(|(place, kind)| Entry { at, ..model.entry(place, kind, None) });
    // The work stands last: it is what is said to be saved.
    let mut made: Vec<Entry> = ticks.collect::<Vec<_>>().into_iter().chain(made).collect();
    match (rights::entry(state, model).cloned(), made.pop()) {
        (Some(old), Some(new)) => rights::record(&old, new, model).map_err(once),
        (_, last) => model.record(made.into_iter().chain(last).collect()).map_err(once),
    }
}

/// Asks once about what fits no sane crop; saved again as it is, it is meant.
fn doubt(state: &State, model: &Model, made: &[Entry]) -> Result<(), Vec<FieldFault>> {
    let Some((field, text)) = made.iter().find_map(|entry| doubts::doubt(&model.season, entry, model.system())) else {
        return Ok(());
    };
    if state.doubted.as_ref() == Some(&text) {
        return Ok(());
    }
    Err(vec![FieldFault::new(field, text)])
}

/// The fields that could be read; the faults of those that could not.
fn values(state: &State, model: &Model, faults: &mut Vec<FieldFault>) -> Values {
    let mut values = rights::unasked(state, model);
    for row in state.fields.shown() {
        let About::Own(field) = row.name else { continue };
        match value(row, state, model) {
            Ok(Some(value)) => values.set(field.name, value),
            Ok(None) => {}
            Err(fault) => faults.push(fault),
        }
    }
    values
}

/// A field's value; the code of a bench as the season spells it.
fn value(row: &Row<About>, state: &State, model: &Model) -> Result<Option<Value>, FieldFault> {
    match row.name.field() {
        Some(field) if matches!(field.kind, FieldKind::Code) => {
            let text = row.text();
            let code = places::code(&model.season, &text).unwrap_or(text);
            typed::read(field, &code, model.system())
        }
        _ => fields::value(row, &state.opened, model),
    }
}

fn time(state: &State, model: &Model) -> Result<chrono::DateTime<chrono::FixedOffset>, FieldFault> {
    if let Some(at) = rights::moment(state, model) {
        return Ok(at);
    }
    let row = state.row("at");
    let ended = row.is_some_and(|row| matches!(row.name, About::Ended));
    if ended && row.is_some_and(Row::is_empty) {
        return Err(FieldFault::new("at", when::NOT_ENDED));
    }
    let typed = when::read(&state.text("at"), model, ended).map_err(|text| FieldFault::new("at", text))?;
    Ok(typed.unwrap_or(model.now.at))
}

/// What is written where.
fn kinds(
    state: &State,
    model: &Model,
    values: &Values,
    day: chrono::NaiveDate,
) -> Result<Vec<(Place, Kind)>, Vec<FieldFault>> {
    match state.ask.kind {
        KindName::PutOff => put_offs(state, model, values),
        KindName::Job => not_needed(state, values),
        KindName::Strike => strikes(state, model, values),
        kind => {
            let kind = codec::kind_from_values(kind, values);
            if let Some(old) = rights::entry(state, model) {
                return kind.map(|kind| vec![(old.place.clone(), kind)]);
            }
            let typed = (state.text("benches"), state.text("except"));
            let places = place::chosen(model, state.scope(), (&typed.0, &typed.1), day);
            match (kind, places) {
                (Ok(kind), Ok(places)) => Ok(places.into_iter().map(|place| (place, kind.clone())).collect()),
                (Err(faults), Ok(_)) => Err(faults),
                (Ok(_), Err(fault)) => Err(vec![fault]),
                (Err(faults), Err(fault)) => Err(merged(vec![fault], faults)),
            }
        }
    }
}

fn put_offs(state: &State, model: &Model, values: &Values) -> Result<Vec<(Place, Kind)>, Vec<FieldFault>> {
    if let Some(Value::Day(until)) = values.get("until").filter(|v| matches!(v, Value::Day(d) if *d <= model.day)) {
        let text = format!("is {until}; give a day after today, such as +3 for in three days");
        return Err(vec![FieldFault::new("until", text)]);
    }
    let each = state.ask.put_off.iter().map(|(place, warning)| {
        let mut values = values.clone();
        values.set("warning", Value::Text(warning.code().to_owned()));
        codec::kind_from_values(KindName::PutOff, &values).map(|kind| (place.clone(), kind))
    });
    each.collect()
}

/// The ticks of a job that is not needed, with the reason typed.
fn not_needed(state: &State, values: &Values) -> Result<Vec<(Place, Kind)>, Vec<FieldFault>> {
    let Some(Value::Text(why)) = values.get("why") else {
        return Err(vec![FieldFault::new("why", "is missing; give the reason in a few words")]);
    };
    Ok(state.ask.ticks.iter().flat_map(|tick| tick.kinds(Some(why))).collect())
}

/// The ticks of the listed job that the work of a form does, on the benches it was logged for.
fn ticks(state: &State, model: &Model) -> Vec<(Place, Kind)> {
    let Some(tick) = state.ask.ticks.clone().filter(|_| state.ask.kind != KindName::Job) else { return Vec::new() };
    tick.on(&place::benches(state, model)).kinds(None)
}

fn strikes(state: &State, model: &Model, values: &Values) -> Result<Vec<(Place, Kind)>, Vec<FieldFault>> {
    let struck: Vec<&Entry> = state.ask.strikes.iter().filter_map(|id| model.season.entry(*id)).collect();
    let reopen = reopens(state, &struck).map_err(|fault| vec![fault])?;
    let each = struck.into_iter().map(|entry| {
        let mut values = values.clone();
        values.set("entry", Value::Id(entry.id));
        if reopen && entry.kind.closes() {
            values.set("reopen", Value::YesNo(true));
        }
        codec::kind_from_values(KindName::Strike, &values).map(|kind| (entry.place.clone(), kind))
    });
    each.collect()
}

/// Reopening is confirmed by typing the codes of all places that would open; an empty field leaves them closed.
fn reopens(state: &State, struck: &[&Entry]) -> Result<bool, FieldFault> {
    let text = state.text("reopen");
    if text.trim().is_empty() {
        return Ok(false);
    }
    let codes: Vec<&str> = struck.iter().filter(|e| e.kind.closes()).map(|e| e.place.code()).collect();
    if places::names_all(&text, &codes) {
        return Ok(true);
    }
    let text =
        format!("is \"{}\"; type {} to reopen, or leave it blank to keep it closed", text.trim(), codes.join(" "));
    Err(FieldFault::new("reopen", text))
}

/// Parse errors come before validation errors: a field that cannot be parsed is not reported as missing too.
fn merged(mut first: Vec<FieldFault>, then: Vec<FieldFault>) -> Vec<FieldFault> {
    for fault in then {
        if !first.iter().any(|f| f.field == fault.field) {
            first.push(fault);
        }
    }
    first
}

fn once(faults: Vec<FieldFault>) -> Vec<FieldFault> {
    merged(Vec::new(), faults)
}
