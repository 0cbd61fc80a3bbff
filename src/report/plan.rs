//! Lines of the plan in words: what was saved, what a line says field by field, and how it changed.

use super::words::{display, written};
use crate::dates;
use crate::record::{Line, schema};
use crate::units::System;

/// What a line says: the label of each field as the form has it, with its value.
pub fn details(line: &Line, system: System) -> Vec<(&'static str, String)> {
    let Some(table) = schema::plan_table(line.type_name()) else { return Vec::new() };
    let content = line.content();
    let said =
        table.fields.iter().filter_map(|field| Some((field.label, display(field, content.get(field.name)?, system))));
    said.filter(|(_, value)| !value.is_empty()).collect()
}

/// How a line came to say it: each revision with who wrote it, and what it changed. `revisions` in their order, all of one key.
pub fn history(revisions: &[Line], system: System) -> Vec<(String, String)> {
    let mut said = Vec::new();
    let mut before: Option<Vec<(&'static str, String)>> = None;
    for line in revisions {
        let now = details(line, system);
        let text = match &before {
            None => "first written".to_owned(),
            Some(before) => changes(line, before, &now),
        };
        said.push((written(line), text));
        before = Some(now);
    }
    said
}

/// `ready by Fri Nov 20 (was Fri Nov 27)`.
fn changes(line: &Line, before: &[(&'static str, String)], now: &[(&'static str, String)]) -> String {
    let of = |all: &[(&'static str, String)], label: &str| {
        all.iter().find(|(name, _)| *name == label).map_or_else(|| "none".to_owned(), |(_, value)| value.clone())
    };
    let fields = schema::plan_table(line.type_name()).map_or(&[][..], |table| table.fields);
    let values = fields.iter().map(|field| (field.label, of(before, field.label), of(now, field.label)));
    let changed = values.filter(|(_, was, is)| was != is).map(|(label, was, is)| format!("{label} {is} (was {was})"));
    let changed = changed.collect::<Vec<_>>().join("; ");
    if changed.is_empty() { "the same again".to_owned() } else { changed }
}

/// What was saved: the line, or the first and the last of several of a kind.
///
/// ```
/// assert_eq!(benchwalk::report::plan::said(&[]), "saved");
/// ```
pub fn said(lines: &[Line]) -> String {
    let (Some(first), Some(last)) = (lines.first(), lines.last()) else { return "saved".to_owned() };
    let one = lines.len() == 1;
    let from_to = |a: &str, b: &str| if one { a.to_owned() } else { format!("{a} to {b}") };
    let what = match (first, last) {
        (Line::Bench(a), Line::Bench(b)) => {
            format!("{} {}", if one { "bench" } else { "benches" }, from_to(&a.bench, &b.bench))
        }
        (Line::Placement(a), _) if a.pots == 0 => format!("placement on {} removed", a.bench),
        (Line::Placement(a), Line::Placement(b)) => {
            let each = if one { "" } else { " each" };
            format!("{} placed on {}, {} pots{each}", a.lot, from_to(&a.bench, &b.bench), a.pots)
        }
        (Line::Order(a), _) if a.pots == 0 => format!("order for {} removed", a.lot),
        (Line::Order(a), _) => format!("{} pots of {} committed for {}", a.pots, a.lot, dates::weekday(a.date)),
        (Line::Site(a), _) => format!("site {}", a.name),
        (Line::Lot(a), _) => format!("lot {}", a.lot),
        (Line::Trial(a), _) => format!("trial {}", a.trial),
        (Line::Plot(a), Line::Plot(b)) => {
            format!("{} {}", if one { "plot" } else { "plots" }, from_to(&a.plot, &b.plot))
        }
        (Line::Plot(a), _) => format!("plot {}", a.plot),
        (Line::LotHistory(a), _) => format!("history of lot {}", a.lot),
        (Line::Entry(a), _) => super::entry::about(a).to_owned(),
        (Line::Bench(a), _) => format!("bench {}", a.bench),
        (Line::Placement(a), _) => format!("{} on {}", a.lot, a.bench),
    };
    format!("saved: {what}")
}
