//! What is to settle, in words: a line each.

use crate::dates;
use crate::record::{Line, Value, schema, typed};
use crate::season::{Contradiction, Unsettled};
use crate::units::System;
use std::collections::BTreeSet;

/// One line.
pub fn settle(unsettled: &Unsettled, system: System) -> String {
    match unsettled {
        Unsettled::Plan(contradiction) => plan(contradiction, system),
        Unsettled::Pots { text, .. } => format!("{text}; or void what was logged twice"),
    }
}

fn plan(contradiction: &Contradiction, system: System) -> String {
    let versions = contradiction.lines.iter().map(|line| {
        let fields = contradiction.fields.iter().map(|name| field(contradiction, line, name, system));
        format!("{} ({})", fields.collect::<Vec<_>>().join(", "), written(line))
    });
    let versions = versions.collect::<Vec<_>>().join("; or ");
    format!("{}: {versions}. The last one holds until the line is saved again in Setup", contradiction.key)
}

/// One field by its label in the form, with its value: rounded as it is read, and exact where rounding would hide that the
/// versions differ.
fn field(contradiction: &Contradiction, line: &Line, name: &str, system: System) -> String {
    let Some(field) = schema::plan_table(line.type_name()).and_then(|table| table.field(name)) else {
        return name.to_owned();
    };
    let each = |line: &Line, show: Show| line.content().get(name).map(|value| show(field, value, system));
    let read: BTreeSet<Option<String>> = contradiction.lines.iter().map(|line| each(line, display)).collect();
    let exact: BTreeSet<Option<String>> = contradiction.lines.iter().map(|line| each(line, typed::show)).collect();
    let show: Show = if read.len() < exact.len() { typed::show } else { display };
    let value = each(line, show).filter(|text| !text.is_empty());
    format!("{} {}", field.label, value.unwrap_or_else(|| "none".to_owned()))
}

/// A value as it is read, a day as everywhere on the screens.
pub(in crate::report) fn display(field: &schema::Field, value: &Value, system: System) -> String {
    if let Value::Day(day) = value { dates::weekday(*day) } else { typed::display(field, value, system) }
}

/// How a value is written.
type Show = fn(&schema::Field, &Value, System) -> String;

/// Who wrote a line, and when.
pub(in crate::report) fn written(line: &Line) -> String {
    let Some(revision) = line.revision() else { return String::new() };
    match (&revision.by, revision.at) {
        (Some(by), Some(at)) => format!("{by}, {} {}", dates::weekday(at.date_naive()), dates::time(&at)),
        _ => format!("revision {}", revision.rev),
    }
}
