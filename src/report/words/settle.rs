//! What is to settle, in words: a line each.

use crate::dates;
use crate::record::{Line, Values, form, schema};
use crate::season::{Contradiction, Unsettled};
use crate::units::System;

/// One line.
pub fn settle(unsettled: &Unsettled, system: System) -> String {
    match unsettled {
        Unsettled::Plan(contradiction) => plan(contradiction, system),
        Unsettled::Pots { text, .. } => format!("{text}; or strike out what was written twice"),
    }
}

fn plan(contradiction: &Contradiction, system: System) -> String {
    let versions = contradiction.lines.iter().map(|line| {
        let fields = contradiction.fields.iter().map(|name| field(line, name, system)).collect::<Vec<_>>().join(", ");
        format!("{fields} ({})", written(line))
    });
    let versions = versions.collect::<Vec<_>>().join("; or ");
    format!("{}: {versions}. The last one holds until the line is saved again in Set-up", contradiction.key)
}

/// One field as the journal names it, its value as it is typed.
fn field(line: &Line, name: &str, system: System) -> String {
    format!("{name} {}", value(&line.content(), line, name, system).unwrap_or_else(|| "none".to_owned()))
}

fn value(content: &Values, line: &Line, name: &str, system: System) -> Option<String> {
    let field = schema::plan_table(line.type_name())?.field(name)?;
    Some(form::show(field, content.get(name)?, system)).filter(|text| !text.is_empty())
}

/// Who wrote a line, and when.
fn written(line: &Line) -> String {
    let Some(revision) = line.revision() else { return String::new() };
    match (&revision.by, revision.at) {
        (Some(by), Some(at)) => format!("{by}, {} {}", dates::weekday(at.date_naive()), dates::time(&at)),
        _ => format!("revision {}", revision.rev),
    }
}
