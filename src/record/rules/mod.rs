//! Which values a record may have: every range, code and rule between fields, in one place for files and forms.
//!
//! Rules across records (does the bench exist, are that many pots there) are the season's.

mod field;
mod trial;

use super::checker::{Checker, FieldFault};
use super::fields::{entry_values, line_values};
use super::schema::{self, ENTRY, Field, RecordSchema};
use super::typed;
use super::value::{Value, Values};
use super::{Entry, KindName, Line, LotHistory};
use crate::units::System;

/// Everything wrong with an entry.
pub fn check_entry(entry: &Entry) -> Vec<FieldFault> {
    let mut checker = Checker::default();
    self::entry(&mut checker, Some(entry.name()), &entry_values(entry));
    checker.done()
}

/// Everything wrong with a line.
pub fn check_line(line: &Line) -> Vec<FieldFault> {
    if let Line::Entry(entry) = line {
        return check_entry(entry);
    }
    let mut checker = Checker::default();
    if let Some(table) = schema::plan_table(line.type_name()) {
        plan(&mut checker, table, &line_values(line));
    }
    checker.done()
}

/// [`check_line`], with ranges in the units a site types.
pub fn check_line_in(line: &Line, system: System) -> Vec<FieldFault> {
    let faults = check_line(line);
    if faults.is_empty() {
        return faults;
    }
    let (values, table) = match line {
        Line::Entry(entry) => (entry_values(entry), Some(schema::kind_table(entry.name()))),
        _ => (line_values(line), schema::plan_table(line.type_name())),
    };
    let in_units = |fault: FieldFault| {
        let field = table.and_then(|table| table.field(&fault.field));
        let said = field.zip(values.get(&fault.field)).and_then(|(field, value)| typed::refused(field, value, system));
        said.unwrap_or(fault)
    };
    faults.into_iter().map(in_units).collect()
}

/// What is wrong with one value of a field, for a form.
pub fn check_value(field: &Field, value: &Value) -> Option<FieldFault> {
    field::wrong(field, value).map(|text| FieldFault::new(field.name, text))
}

/// Names every required field that has no value.
pub(super) fn required(checker: &mut Checker, table: &RecordSchema, values: &Values) {
    for field in table.fields.iter().filter(|f| f.required && !values.has(f.name)) {
        checker.missing(field);
    }
}

fn each_value(checker: &mut Checker, table: &RecordSchema, values: &Values) {
    for field in table.fields {
        if let Some(fault) = values.get(field.name).and_then(|v| check_value(field, v)) {
            checker.fault(&fault.field, fault.text);
        }
    }
}

/// An entry's values; `kind` is `None` where its kind is not known.
pub(super) fn entry(checker: &mut Checker, kind: Option<KindName>, values: &Values) {
    each_value(checker, &ENTRY, values);
    let places = ["bench", "house", "lot"];
    let given: Vec<&str> = places.into_iter().filter(|p| values.has(p)).collect();
    checker.between(&places, given.is_empty(), || "is missing; give one of bench, house or lot".to_owned());
    checker
        .between(&places, given.len() > 1, || format!("give one of bench, house or lot; here: {}", given.join(", ")));
    checker.between(&["plot", "bench"], values.has("plot") && !values.has("bench"), || {
        "needs bench, the bench the plot is on".to_owned()
    });
    let Some(kind) = kind else { return };
    self::kind(checker, kind, values);
    let moved = kind == KindName::Moved;
    checker.between(&["bench", "house", "lot"], moved && !given.is_empty() && !values.has("bench"), || {
        "is missing; pots are moved from a bench".to_owned()
    });
    let same = moved && values.has("to") && values.get("to") == values.get("bench");
    checker.between(&["to", "bench"], same, || "is the bench they are on; give the bench they go to".to_owned());
    let note = kind == KindName::Note && !values.has("note");
    checker.between(&["note"], note, || "is missing; give the note itself".to_owned());
    if let (KindName::PutOff, Some(Value::Day(until)), Some(Value::At(at))) =
        (kind, values.get("until"), values.get("at"))
    {
        checker.between(&["until", "at"], *until < at.date_naive(), || {
            "is before the day it was logged; give that day or a later one".to_owned()
        });
    }
}

/// A kind's own values.
pub(super) fn kind(checker: &mut Checker, kind: KindName, values: &Values) {
    each_value(checker, schema::kind_table(kind), values);
    kind.judge(checker, values);
}

/// The values of a plan line.
pub(super) fn plan(checker: &mut Checker, table: &RecordSchema, values: &Values) {
    each_value(checker, table, values);
    each_value(checker, schema::revision_table(), values);
    revision(checker, values);
    match table.name {
        "lot" => lot(checker, values),
        "history" => history(checker, values),
        "trial" => trial::trial(checker, values),
        "plot" => trial::plot(checker, values),
        "placement" | "order" => {
            let none = Value::List(Vec::new());
            let first = if values.has("at") {
                values.get("replaces") == Some(&none)
            } else {
                values.get("rev") == Some(&Value::Count(1))
            };
            checker.between(&["pots", "rev"], first && values.get("pots") == Some(&Value::Count(0)), || {
                "is 0; give 1 or more (0 is for a later revision that removes the line)".to_owned()
            });
        }
        _ => {}
    }
}

/// When and by whom a line was written: all of it, or nothing as in version 1.
fn revision(checker: &mut Checker, values: &Values) {
    let dated = values.has("at");
    checker
        .between(&["by", "at"], dated && !values.has("by"), || "is missing; a line with at needs by, too".to_owned());
    let numbered = values.get("rev").is_some_and(|rev| *rev != Value::Count(1));
    checker.between(&["rev", "at"], dated && numbered, || "goes only with lines without at; omit it".to_owned());
    let corrects = values.get("corrects") == Some(&Value::YesNo(true));
    let given = ["id", "by", "replaces"].into_iter().filter(|name| values.has(name));
    for name in given.chain(corrects.then_some("corrects")) {
        checker.between(&[name, "at"], !dated, || "goes only with at; give at too, or omit it".to_owned());
    }
}

/// A day, and which one, go only with work that was done.
fn history(checker: &mut Checker, values: &Values) {
    for (work, detail) in LotHistory::DETAILS {
        let done = values.get(work) == Some(&Value::Term("done"));
        checker.between(&[detail, work], values.has(detail) && !done, || {
            format!("goes only with {work} done; omit it or change {work}")
        });
    }
}

fn lot(checker: &mut Checker, values: &Values) {
    for (nights, field) in [("blackout", "blackout_from"), ("lights", "lights_until")] {
        let given_so = values.get("nights") == Some(&Value::Term(nights));
        checker.between(&[field, "nights"], given_so && !values.has(field), || {
            format!("is missing; nights is {nights}: give a date as YYYY-MM-DD")
        });
        checker.between(&[field, "nights"], !given_so && values.has(field), || {
            format!("goes only with nights {nights}; omit it or change nights")
        });
    }
    if let (Some(Value::Number(low)), Some(Value::Number(high))) =
        (values.get("height_low_cm"), values.get("height_high_cm"))
    {
        checker.between(&["height_low_cm", "height_high_cm"], low > high, || {
            "is more than the maximum finished height; give that or less".to_owned()
        });
    }
    let program = values.has("program_n_ppm");
    checker.between(&["program_from", "program_n_ppm"], program && !values.has("program_from"), || {
        "is missing; give the first feeding day of the feed program".to_owned()
    });
    for part in ["program_bag", "program_from", "program_days", "program_clear"] {
        checker.between(&[part, "program_n_ppm"], values.has(part) && !program, || {
            "goes only with the N of a feed program; give program_n_ppm, or omit it".to_owned()
        });
    }
    for later in ["ready_by", "blackout_from", "lights_until"] {
        if let (Some(Value::Day(planted)), Some(Value::Day(day))) = (values.get("planted"), values.get(later)) {
            checker.between(&[later, "planted"], day <= planted, || "is not after the planting day".to_owned());
        }
    }
}
