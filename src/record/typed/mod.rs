//! What a person types into a field, as a value, and a value as it is typed. The forms and the CSV lists read through
//! here, so that one field takes the same text everywhere.
//!
//! Numbers take a unit (`14in`, `36 cm`, `2 qt`, `68F`); without one they are in [`unit_name`], which is what a hint
//! beside the field says. Words may be cut short while they stay clear. Everything typed is cleaned first.

mod date;
mod example;
mod number;
mod readings;

use super::clean::clean;
use super::field::ANY;
use super::rules;
use super::schema::{Field, FieldKind};
use super::value::{Value, Values};
use super::{FieldFault, Part, parse};
use crate::dates::Tz;
use crate::units::System;
pub use date::{DayReader, Facing};
pub use number::unit_name;
pub use readings::lengths;

/// Reads what was typed; nothing typed is no value.
///
/// # Errors
/// Where the text is no value of the field, or one outside its range; the text says what would be right.
///
/// ```
/// use benchwalk::record::{KindName, Value, typed, schema};
/// use benchwalk::units::System;
/// let centers = schema::kind_table(KindName::Spaced).field("centers_cm").unwrap();
/// assert_eq!(typed::read(centers, "14", System::Us), Ok(Some(Value::Number(35.56))));
/// assert_eq!(typed::read(centers, "36 cm", System::Us), Ok(Some(Value::Number(36.0))));
/// assert!(typed::read(centers, "14 kg", System::Us).unwrap_err().text.contains("cm, in"));
/// ```
pub fn read(field: &Field, typed: &str, system: System) -> Result<Option<Value>, FieldFault> {
    let text = clean(typed);
    if text.is_empty() {
        return Ok(None);
    }
    let value = value(field, &text, system).map_err(|said| FieldFault::new(field.name, said))?;
    // Commas alone: no list that could be shown and read again.
    if matches!(&value, Value::List(list) if list.is_empty()) {
        return Err(FieldFault::new(field.name, format!("is \"{text}\"; give {}", field.wanted())));
    }
    match rules::check_value(field, &value) {
        Some(_) if matches!(field.kind, FieldKind::Number { .. }) => Err(out_of_range(field, &text, system)),
        Some(fault) => Err(refused(field, &value, system).unwrap_or(fault)),
        None => Ok(Some(value)),
    }
}

/// Parses all fields of a form, even if some are invalid. A required field left empty is not reported
/// here: building the record tells it.
///
/// # Errors
/// Every field that was not understood.
pub fn read_all<'t>(
    typed: impl IntoIterator<Item = (&'t Field, &'t str)>,
    system: System,
) -> Result<Values, Vec<FieldFault>> {
    let (mut values, mut faults) = (Values::new(), Vec::new());
    for (field, text) in typed {
        match read(field, text, system) {
            Ok(Some(value)) => values.set(field.name, value),
            Ok(None) => {}
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() { Ok(values) } else { Err(faults) }
}

/// What a field takes: the hint beside it. The range is in the units a site types; where it is only that of the possible,
/// the unit with an example of another one stands instead.
pub fn hint(field: &Field, system: System) -> String {
    match field.kind {
        FieldKind::Number { least, most } => {
            number::example(field, system).map_or_else(|| number::range(field, least, most, system), str::to_owned)
        }
        FieldKind::Numbers { least, most } => format!("readings, each {}", number::range(field, least, most, system)),
        FieldKind::Parts => "active ingredient and ppm; separate several with +".to_owned(),
        FieldKind::YesNo => "yes or no".to_owned(),
        FieldKind::Terms(known) => format!("any of {}", known.codes().join(", ")),
        FieldKind::Texts { .. } => "separate several with commas".to_owned(),
        FieldKind::Count { least, most } if most >= ANY => format!("{least} or more"),
        FieldKind::Count { least, most } | FieldKind::Level { least, most } => format!("{least} to {most}"),
        _ => example::of(field.name).map_or_else(|| field.wanted(), str::to_owned),
    }
}

/// A value as it is typed: [`read`] gives the same value again.
pub fn show(field: &Field, value: &Value, system: System) -> String {
    match value {
        Value::Text(t) => t.clone(),
        Value::Count(n) => n.to_string(),
        Value::Number(n) => number::show(field, *n, system),
        Value::Day(d) => parse::show_day(*d),
        Value::At(t) => parse::show_instant(t),
        Value::Zone(z) => z.name().to_owned(),
        Value::Term(w) => (*w).to_owned(),
        Value::YesNo(b) => if *b { "yes" } else { "no" }.to_owned(),
        Value::Id(id) => id.hyphenated().to_string(),
        Value::Part(p) => format!("{} {}", p.ai, p.ppm),
        Value::List(list) => {
            let between = match field.kind {
                FieldKind::Parts => " + ",
                _ => ", ",
            };
            list.iter().map(|v| show(field, v, system)).collect::<Vec<_>>().join(between)
        }
    }
}

/// A value as a form shows what is kept: numbers that come from another unit are rounded, so that the text alone does not give
/// the value again; all else as it is typed.
pub fn rounded(field: &Field, value: &Value, system: System) -> String {
    match value {
        Value::Number(n) => number::rounded(field, *n, system),
        Value::List(list) if matches!(field.kind, FieldKind::Numbers { .. }) => {
            list.iter().map(|v| rounded(field, v, system)).collect::<Vec<_>>().join(", ")
        }
        _ => show(field, value, system),
    }
}

/// A value as it is read: numbers rounded in the site's unit, terms in plain words; all else as it is typed.
pub fn display(field: &Field, value: &Value, system: System) -> String {
    match (value, field.kind) {
        (Value::Number(n), _) => number::display(field, *n, system),
        (Value::Term(code), FieldKind::Term(known) | FieldKind::Terms(known)) => known.text(code).to_owned(),
        (Value::List(list), _) => list.iter().map(|v| display(field, v, system)).collect::<Vec<_>>().join(", "),
        _ => show(field, value, system),
    }
}

/// What is wrong with the range of a number, or of one of a list, in the units a site types; `None` where nothing is, or the
/// field takes no numbers.
pub(in crate::record) fn refused(field: &Field, value: &Value, system: System) -> Option<FieldFault> {
    match (field.kind, value) {
        (FieldKind::Number { least, most }, Value::Number(n)) if !(least..=most).contains(n) => {
            Some(out_of_range(field, &number::show(field, *n, system), system))
        }
        (FieldKind::Numbers { least, most }, Value::List(list)) => {
            let wrong = |v: &Value| matches!(v, Value::Number(n) if !(least..=most).contains(n));
            let (at, value) = list.iter().enumerate().find(|(_, v)| wrong(v))?;
            let wanted = number::range(field, least, most, system);
            let text = format!("number {} is {}; give {wanted}", at.saturating_add(1), show(field, value, system));
            Some(FieldFault::new(field.name, text))
        }
        _ => None,
    }
}

fn out_of_range(field: &Field, typed: &str, system: System) -> FieldFault {
    let wanted = match field.kind {
        FieldKind::Number { least, most } => number::range(field, least, most, system),
        _ => hint(field, system),
    };
    FieldFault::new(field.name, format!("is {typed}; give {wanted}"))
}

fn value(field: &Field, text: &str, system: System) -> Result<Value, String> {
    let give = || format!("is \"{text}\"; give {}", field.wanted());
    match field.kind {
        FieldKind::Text { .. } | FieldKind::Code | FieldKind::Plot | FieldKind::By => Ok(Value::Text(text.to_owned())),
        FieldKind::Count { .. } | FieldKind::Level { .. } => text.parse().ok().map(Value::Count).ok_or_else(give),
        FieldKind::Number { .. } => number::read(field, text, system).map(Value::Number),
        FieldKind::Numbers { .. } => number::list(field, text, system),
        FieldKind::Day => parse::day(text).map(Value::Day).ok_or_else(give),
        FieldKind::Instant => parse::instant(text).map(Value::At).ok_or_else(give),
        FieldKind::Zone => zone(text).map(Value::Zone).ok_or_else(give),
        FieldKind::Term(known) => word(&known.codes(), text).map(Value::Term).ok_or_else(give),
        FieldKind::Terms(known) => words(&known.codes(), text).ok_or_else(give),
        FieldKind::Texts { .. } => Ok(Value::List(pieces(text, ',').map(|t| Value::Text(t.to_owned())).collect())),
        FieldKind::Parts => parts(field, text),
        FieldKind::YesNo => yes_no(text).map(Value::YesNo).ok_or_else(give),
        FieldKind::Id => parse::id(text).map(Value::Id).ok_or_else(give),
        FieldKind::Ids => {
            let ids = pieces(text, ',').map(|t| parse::id(t).map(Value::Id)).collect::<Option<Vec<_>>>();
            ids.map(Value::List).ok_or_else(give)
        }
    }
}

fn pieces(text: &str, at: char) -> impl Iterator<Item = &str> {
    text.split(at).map(str::trim).filter(|t| !t.is_empty())
}

/// The word of a list: whole, or the only one that begins so.
fn word(known: &[&'static str], text: &str) -> Option<&'static str> {
    let text = text.to_lowercase().replace([' ', '_'], "-");
    if let Some(whole) = known.iter().find(|w| **w == text) {
        return Some(whole);
    }
    let mut begun = known.iter().filter(|w| w.starts_with(&text));
    match (begun.next(), begun.next()) {
        (Some(only), None) => Some(only),
        _ => None,
    }
}

fn words(known: &[&'static str], text: &str) -> Option<Value> {
    let by = |c: char| if text.contains(',') { c == ',' } else { c == ' ' };
    let found = text.split(by).map(str::trim).filter(|t| !t.is_empty());
    found.map(|t| word(known, t).map(Value::Term)).collect::<Option<Vec<_>>>().map(Value::List)
}

fn yes_no(text: &str) -> Option<bool> {
    match text.to_lowercase().as_str() {
        "y" | "yes" | "true" => Some(true),
        "n" | "no" | "false" => Some(false),
        _ => None,
    }
}

fn zone(text: &str) -> Option<Tz> {
    let name = text.replace(' ', "_");
    Tz::in_any_case(&name)
}

/// `paclobutrazol 8 + chlormequat chloride 1000 ppm`.
fn parts(field: &Field, text: &str) -> Result<Value, String> {
    let one = |piece: &str| {
        let piece = piece.strip_suffix("ppm").unwrap_or(piece).trim_end();
        let (ai, ppm) = piece.rsplit_once(' ')?;
        let ppm: f64 = ppm.parse().ok().filter(|n: &f64| n.is_finite())?;
        Some(Value::Part(Part { ai: ai.trim().to_owned(), ppm: ppm + 0.0 }))
    };
    pieces(text, '+')
        .map(one)
        .collect::<Option<Vec<_>>>()
        .map(Value::List)
        .ok_or_else(|| format!("is \"{text}\"; give {}", hint(field, System::Metric)))
}

#[cfg(test)]
mod tests;
