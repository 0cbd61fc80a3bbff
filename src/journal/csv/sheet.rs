//! A CSV table as rows of cells: what parts the cells, and which column is which field.

use super::super::{Fault, Faults};
use super::guard::unguarded;
use crate::record::schema::{Field, FieldKind, RecordSchema};
use crate::record::{Value, clean, typed};
use crate::units::System;
use csv::{ReaderBuilder, StringRecord, Trim};

/// A row that begins with this is an explanation, not a record.
const COMMENT: char = '#';

/// A table that was read, header and rows.
pub(super) struct Sheet {
    /// The cells of the first row.
    pub(super) header: StringRecord,
    /// The rows that are records.
    pub(super) rows: Vec<StringRecord>,
}

impl Sheet {
    /// Reads a text; commas, semicolons or tabs part the cells.
    ///
    /// # Errors
    /// Every row that is none.
    pub(super) fn read(text: &str) -> Result<Self, Faults> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let mut reader =
            ReaderBuilder::new().delimiter(delimiter(text)).flexible(true).trim(Trim::All).from_reader(text.as_bytes());
        let header = reader.headers().map_err(|e| Faults::from(vec![broken(&e)]))?.clone();
        let (mut rows, mut faults) = (Vec::new(), Faults::default());
        for record in reader.records() {
            match record {
                Ok(row) if row.get(0).is_some_and(|cell| cell.starts_with(COMMENT)) => {}
                Ok(row) => rows.push(row),
                Err(e) => faults.push(broken(&e)),
            }
        }
        if faults.is_empty() { Ok(Self { header, rows }) } else { Err(faults) }
    }
}

/// The line of the file a row stands on.
pub(super) fn line_of(row: &StringRecord) -> usize {
    row.position().map_or(0, |p| usize::try_from(p.line()).unwrap_or(usize::MAX))
}

/// The mark that parts the header's cells.
pub(super) fn delimiter(text: &str) -> u8 {
    let header = text.lines().next().unwrap_or("");
    [b',', b';', b'\t']
        .into_iter()
        .max_by_key(|d| (header.bytes().filter(|b| b == d).count(), *d == b','))
        .unwrap_or(b',')
}

pub(super) fn broken(e: &csv::Error) -> Fault {
    let line = e.position().map_or(1, |p| usize::try_from(p.line()).unwrap_or(usize::MAX));
    Fault { line, field: None, text: "is not a row of a CSV table in UTF-8".to_owned() }
}

/// A head as it is written: its name in small letters, and its unit: that in parentheses.
pub(super) fn head(cell: &str) -> (String, Option<String>) {
    let text = clean(&unguarded(cell));
    match text.strip_suffix(')').and_then(|text| text.rsplit_once('(')) {
        Some((name, unit)) => {
            (name.trim().to_lowercase(), Some(unit.trim().to_owned()).filter(|unit| !unit.is_empty()))
        }
        None => (text.trim().to_lowercase(), None),
    }
}

/// The head of a field's column: its name, and its unit in parentheses.
pub(super) fn head_of(field: &Field) -> String {
    if field.unit.is_empty() { field.name.to_owned() } else { format!("{} ({})", field.name, field.unit) }
}

/// The field that a head names, by its name in the journal or its label in the forms, and the unit of its numbers without one:
/// that of the head, or the one in the field's own name; `None` for that of the site.
pub(super) fn field_of(table: &'static RecordSchema, cell: &str) -> Option<(&'static Field, Option<String>)> {
    let (name, unit) = head(cell);
    let named = |own: &str| own == name || own.replace('_', " ") == name.replace(['_', '-'], " ");
    if let Some(field) = table.fields.iter().find(|field| named(field.name)) {
        let spelled = field.name.rsplit_once('_').is_some_and(|(_, end)| {
            let unit = field.unit.trim_start_matches('°').to_lowercase();
            end == unit
        });
        return Some((field, unit.or_else(|| spelled.then(|| field.unit.to_owned()))));
    }
    let field = table.fields.iter().find(|field| field.label.to_lowercase().trim_end_matches(',') == name)?;
    Some((field, unit))
}

/// One cell by the rules of its field, as a form reads it. A plain number is in the unit of its column.
///
/// # Errors
/// What is wrong with it, and what would be right.
pub(super) fn value(
    (field, unit): (&Field, Option<&str>),
    cell: &str,
    system: System,
) -> Result<Option<Value>, String> {
    let text = unguarded(cell);
    let numbers = matches!(field.kind, FieldKind::Number { .. } | FieldKind::Numbers { .. });
    // Degrees are read with the letters of the compass; the word behind them would be taken for one.
    let unit = unit.filter(|unit| numbers && *unit != "degrees" && text.trim().ends_with(|c: char| c.is_ascii_digit()));
    let text = unit.map_or_else(|| text.clone(), |unit| format!("{text} {unit}"));
    typed::read(field, &text, system).map_err(|fault| fault.text)
}
