//! A form's fields into lines of the plan: read, judged field by field, judged by the season.

use super::{State, asked, benches};
use crate::model::{Model, PlanAsk};
use crate::popups::fields;
use crate::record::schema;
use crate::record::{FieldFault, Line, Value, Values, codec};
use crate::season::places::{self, Meant};
use uuid::Uuid;

/// The lines a form writes; none where a change changes nothing.
///
/// # Errors
/// Everything that is missing or wrong, by field.
pub(super) fn lines(state: &State, model: &Model) -> Result<Vec<Line>, Vec<FieldFault>> {
    let (values, mut faults) = values(state, model);
    let made = match &state.ask {
        PlanAsk::Benches => bench_row(state, model, &values),
        PlanAsk::SetDown => set_down(state, model, &values),
        PlanAsk::Site
        | PlanAsk::NewLot
        | PlanAsk::Lot(_)
        | PlanAsk::History(_)
        | PlanAsk::Bench(_)
        | PlanAsk::Placement(..)
        | PlanAsk::NewOrder
        | PlanAsk::Order(..) => one(state, values).map(|line| vec![line]),
    };
    let lines = match made {
        Ok(lines) if faults.is_empty() => lines,
        Ok(_) => return Err(faults),
        Err(more) => {
            // A field that cannot be parsed is not reported as missing too.
            for fault in more {
                if !faults.iter().any(|f| f.field == fault.field) {
                    faults.push(fault);
                }
            }
            return Err(faults);
        }
    };
    // Nothing is known of the time before: there is nothing to write.
    let nothing =
        |line: &Line| matches!(state.ask, PlanAsk::History(_)) && line.content().iter().all(|(name, _)| name == "lot");
    if state.kept.is_none() && lines.iter().all(nothing) {
        return Ok(Vec::new());
    }
    let lines = revised(state, model, lines).map_err(|fault| vec![fault])?;
    model.admit(&lines).map(|()| lines)
}

/// The fields that could be read; the faults of those that could not.
fn values(state: &State, model: &Model) -> (Values, Vec<FieldFault>) {
    let (mut values, mut faults) = (Values::new(), Vec::new());
    for row in state.fields.shown() {
        let Some(field) = row.name.field() else { continue };
        match fields::value(row, &state.opened, model) {
            Ok(Some(value)) => values.set(field.name, value),
            Ok(None) => {}
            Err(fault) => faults.push(fault),
        }
    }
    (values, faults)
}

/// A form that writes one line: its own fields, and what it was opened on.
fn one(state: &State, mut values: Values) -> Result<Line, Vec<FieldFault>> {
    let Some(table) = asked::table(&state.ask) else { return Err(Vec::new()) };
    match &state.ask {
        PlanAsk::Lot(code) | PlanAsk::History(code) => values.set("lot", Value::Text(code.clone())),
        PlanAsk::Bench(code) => values.set("bench", Value::Text(code.clone())),
        PlanAsk::Placement(bench, day) => {
            values.set("bench", Value::Text(bench.clone()));
            values.set("from", Value::Day(*day));
        }
        PlanAsk::Order(lot, day) => {
            values.set("lot", Value::Text(lot.clone()));
            values.set("date", Value::Day(*day));
        }
        PlanAsk::Site | PlanAsk::NewLot | PlanAsk::Benches | PlanAsk::SetDown | PlanAsk::NewOrder => {}
    }
    // 0 pots remove a kept line; only a later revision may say so.
    if state.kept.is_some() {
        values.set("rev", Value::Count(2));
    }
    codec::line_from_values(table, &values)
}

fn bench_row(state: &State, model: &Model, values: &Values) -> Result<Vec<Line>, Vec<FieldFault>> {
    let Some(table) = asked::table(&state.ask) else { return Err(Vec::new()) };
    let codes = match benches::made(&state.text("codes")) {
        Ok(codes) => codes,
        Err(text) => {
            let missing = if values.has("house") { Vec::new() } else { vec![missing("house")] };
            return Err([vec![FieldFault::new("codes", text)], missing].concat());
        }
    };
    if let Some(known) = codes.iter().find(|code| model.season.bench(code).is_some()) {
        return Err(vec![FieldFault::new(
            "codes",
            format!("makes {known}, which is a bench already; give other numbers"),
        )]);
    }
    let last = model.season.benches().iter().map(|b| b.order).max().unwrap_or(0);
    let mut lines = Vec::with_capacity(codes.len());
    for (code, after) in codes.into_iter().zip(1_u32..) {
        let mut own = Values::new();
        own.set("bench", Value::Text(code));
        own.set("order", Value::Count(last.saturating_add(after)));
        for name in ["house", "area_m2"] {
            if let Some(value) = values.get(name) {
                own.set(name, value.clone());
            }
        }
        lines.push(codec::line_from_values(table, &own).map_err(|faults| by_row(&faults))?);
    }
    Ok(lines)
}

/// What is wrong with a code is wrong with what it was made of.
fn by_row(faults: &[FieldFault]) -> Vec<FieldFault> {
    let field = |name: &str| if name == "bench" { "codes".to_owned() } else { name.to_owned() };
    faults.iter().map(|f| FieldFault::new(field(&f.field), f.text.clone())).collect()
}

fn missing(field: &str) -> FieldFault {
    FieldFault::new(field, "is missing")
}

fn set_down(state: &State, model: &Model, values: &Values) -> Result<Vec<Line>, Vec<FieldFault>> {
    let Some(table) = asked::table(&state.ask) else { return Err(Vec::new()) };
    let mut faults = Vec::new();
    let codes = places::read(&model.season, &state.text("benches"), Meant::EveryBench).unwrap_or_else(|fault| {
        faults.push(FieldFault::new("benches", fault.to_string()));
        Vec::new()
    });
    if codes.is_empty() && faults.is_empty() {
        faults.push(FieldFault::new("benches", "is missing; give codes, or a row such as E1-E6"));
    }
    let mut lines = Vec::with_capacity(codes.len());
    for code in codes {
        let mut own = values.clone();
        own.set("bench", Value::Text(code));
        match codec::line_from_values(table, &own) {
            Ok(line) => lines.push(line),
            Err(more) => {
                faults.extend(more);
                break;
            }
        }
    }
    if faults.is_empty() { Ok(lines) } else { Err(faults) }
}

/// The lines as revisions of what is kept under their keys; none where nothing differs.
///
/// # Errors
/// A new line under a key that is taken.
fn revised(state: &State, model: &Model, lines: Vec<Line>) -> Result<Vec<Line>, FieldFault> {
    let mut all: Vec<Line> = Vec::new();
    for line in lines {
        let key = line.key();
        let kept = model.season.line(&key);
        if let Some(fault) = kept.as_ref().filter(|_| state.kept.is_none()).and_then(taken) {
            return Err(fault);
        }
        let heads = model.season.heads(&key);
        let content = line.content();
        if kept.is_some() && heads.iter().all(|head| head.content() == content) {
            continue;
        }
        let mut replaces: Vec<Uuid> = heads.iter().map(Line::id).collect();
        for (mut step, corrects) in steps(state, kept.as_ref(), line) {
            let number = u32::try_from(all.len()).unwrap_or(u32::MAX);
            if let Some(revision) = step.revision_mut() {
                *revision = model.revision(number, std::mem::take(&mut replaces), corrects);
            }
            replaces = vec![step.id()];
            all.push(step);
        }
    }
    Ok(all)
}

/// Why a new line may not be written where one is kept; `None` where that one was removed.
fn taken(kept: &Line) -> Option<FieldFault> {
    let (field, what) = match kept {
        Line::Lot(lot) => ("lot", format!("{} is a lot", lot.lot)),
        Line::Placement(p) if p.pots > 0 => ("benches", format!("{}: pots were placed that day", p.bench)),
        Line::Order(o) if o.pots > 0 => ("date", format!("{} pots are committed for it", o.pots)),
        Line::Trial(trial) => ("trial", format!("{} is a trial", trial.trial)),
        Line::Site(_)
        | Line::LotHistory(_)
        | Line::Plot(_)
        | Line::Bench(_)
        | Line::Placement(_)
        | Line::Order(_)
        | Line::Entry(_) => {
            return None;
        }
    };
    Some(FieldFault::new(field, format!("{what} already; change that line in Setup instead")))
}

/// The steps of a change, each with whether it corrects: facts of the past first, for every day, then the rest from now on;
/// or all of it in the one way that was picked.
fn steps(state: &State, kept: Option<&Line>, line: Line) -> Vec<(Line, bool)> {
    let Some(kept) = kept else { return vec![(line, false)] };
    match state.text("holds").as_str() {
        asked::FROM_NOW => return vec![(line, false)],
        asked::EVERY_DAY => return vec![(line, true)],
        _ => {}
    }
    each(kept, line)
}

/// The steps of a change of a kept line: facts of the past for every day, then the rest from now on.
pub(in crate::popups) fn each(kept: &Line, line: Line) -> Vec<(Line, bool)> {
    let Some(table) = schema::plan_table(line.type_name()) else { return vec![(line, false)] };
    let (before, after) = (kept.content(), line.content());
    let changed = |field: &&schema::Field| before.get(field.name) != after.get(field.name);
    let (facts, plans): (Vec<&schema::Field>, Vec<_>) = table.fields.iter().filter(changed).partition(|f| f.fact);
    if facts.is_empty() || plans.is_empty() {
        return vec![(line, !facts.is_empty())];
    }
    let mut mended = Values::new();
    for field in table.fields {
        let from = if field.fact { &after } else { &before };
        if let Some(value) = from.get(field.name) {
            mended.set(field.name, value.clone());
        }
    }
    match codec::line_from_values(table, &mended) {
        Ok(correction) => vec![(correction, true), (line, false)],
        // The facts do not stand without the rest.
        Err(_) => vec![(line, true)],
    }
}
