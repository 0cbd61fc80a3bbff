//! Tables of the plan in: site, lots, benches, placements, orders and the rest, each a table of its own, read together.

use super::super::{Fault, Faults, Numbered};
use super::benches;
use super::sheet::{Sheet, field_of, head, head_of, line_of, value};
use crate::record::schema::{self, Field, RecordSchema};
use crate::record::{Line, LineKey, Plan, Values, clean, codec, typed};
use crate::terms::Term;
use crate::units::System;
use csv::StringRecord;
use std::collections::HashMap;

/// What was read of one table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ReadSheet {
    /// Its lines.
    pub lines: Vec<Numbered>,
    /// What each field is called in its header.
    heads: Vec<(&'static str, String)>,
}

impl ReadSheet {
    /// What a field is called in the header of this table.
    pub fn column<'f>(&'f self, field: &'f str) -> &'f str {
        self.heads.iter().find(|(name, _)| *name == field).map_or(field, |(_, head)| head)
    }
}

/// A table and what it is of.
enum Kind {
    /// Benches with the pots on them.
    Benches,
    /// One line type of the plan.
    Table(&'static RecordSchema),
}

/// Reads tables of the plan that belong together, each recognized by its columns. A table may name what another brings. A list of
/// benches with lots and pots ([`super::read_benches`]) may be among them.
///
/// # Errors
/// The faults of each table, by line and column, in the order of the tables; then nothing of any is given.
pub fn read_plan(texts: &[&str], plan: &Plan) -> Result<Vec<ReadSheet>, Vec<Faults>> {
    let mut faults: Vec<Faults> = texts.iter().map(|_| Faults::default()).collect();
    let mut read: Vec<ReadSheet> = texts.iter().map(|_| ReadSheet::default()).collect();
    let mut known = plan.clone();
    let mut seen: HashMap<LineKey, (usize, usize)> = HashMap::new();
    for (at, kind, sheet) in in_order(texts, &mut faults) {
        let (Some(text), Some(faults)) = (texts.get(at), faults.get_mut(at)) else { continue };
        let system = known.sites.iter().max_by_key(|site| site.revision.rev).map(|site| site.units);
        let done = match (kind, sheet) {
            (Kind::Table(table), Some(sheet)) => of_table(table, &sheet, system),
            (Kind::Benches, _) | (_, None) => {
                benches::read_benches(text, &known).map(|lines| ReadSheet { lines, heads: benches::heads() })
            }
        };
        match done {
            Err(more) => *faults = more,
            Ok(sheet) => {
                for numbered in &sheet.lines {
                    twice(&mut seen, (at, numbered), faults);
                    known.keep(numbered.line.clone());
                }
                if let Some(slot) = read.get_mut(at) {
                    *slot = sheet;
                }
            }
        }
    }
    if faults.iter().all(|faults| faults.is_empty()) { Ok(read) } else { Err(faults) }
}

/// Says of a line that its subject has one already.
fn twice(seen: &mut HashMap<LineKey, (usize, usize)>, (at, new): (usize, &Numbered), faults: &mut Faults) {
    let key = new.line.key();
    let words = key.to_string();
    if let Some((sheet, line)) = seen.insert(key, (at, new.number)) {
        let other = if sheet == at { "" } else { " of another file" };
        let text = format!("{words} is also on line {line}{other}; give it once");
        faults.push(Fault { line: new.number, field: None, text });
    }
}

/// The tables that could be read, in the order of the plan: the site first, lots before what names them.
fn in_order(texts: &[&str], faults: &mut [Faults]) -> Vec<(usize, Kind, Option<Sheet>)> {
    let mut all = Vec::new();
    for (at, (text, faults)) in texts.iter().zip(faults).enumerate() {
        match Sheet::read(text) {
            Ok(sheet) => all.push((at, recognized(&sheet.header), Some(sheet))),
            Err(found) => *faults = found,
        }
    }
    let rank = |kind: &Kind| {
        let name = match kind {
            Kind::Benches => "bench",
            Kind::Table(table) => table.name,
        };
        schema::plan_tables().iter().position(|table| table.name == name)
    };
    all.sort_by_key(|(at, kind, _)| (rank(kind), *at));
    all
}

/// How much heavier a column that a table does not know weighs than one that it lacks.
const UNKNOWN: usize = 8;

/// The line type whose columns these are: the one that they fit best, by what it lacks and what it does not know.
fn recognized(header: &StringRecord) -> Kind {
    let names: Vec<String> = header.iter().map(|cell| head(cell).0).filter(|name| !name.is_empty()).collect();
    let has = |name: &str| names.iter().any(|n| n == name);
    let misfit = |table: &&'static RecordSchema| {
        let found: Vec<&str> = header.iter().filter_map(|cell| field_of(table, cell)).map(|(f, _)| f.name).collect();
        let missing = table.fields.iter().filter(|f| f.required && !found.contains(&f.name)).count();
        let unknown = names.len().saturating_sub(found.len());
        missing.saturating_add(unknown.saturating_mul(UNKNOWN))
    };
    // A list of benches has no walking order: its rows are in it.
    let ordered = has("order") || has("walking order");
    let is_list = names.is_empty() || has("bench") && has("house") && !ordered;
    match schema::plan_tables().iter().copied().min_by_key(misfit) {
        Some(table) if !is_list && (table.name != "bench" || ordered) => Kind::Table(table),
        _ => Kind::Benches,
    }
}

/// Reads the rows of one line type.
fn of_table(table: &'static RecordSchema, sheet: &Sheet, system: Option<System>) -> Result<ReadSheet, Faults> {
    let columns = columns(table, &sheet.header)?;
    if sheet.rows.is_empty() {
        return Err(Faults::one(1, format!("there is no {} below the header", table.name)));
    }
    let system = match system.or_else(|| own_units(table, sheet, &columns)) {
        Some(system) => system,
        None if table.name == "site" => System::Metric,
        None => {
            let text = "there is no site yet; give the site's table too, or set the site up first".to_owned();
            return Err(Faults::one(1, text));
        }
    };
    let (mut lines, mut faults) = (Vec::new(), Faults::default());
    for row in &sheet.rows {
        match line(table, (row, &columns), system) {
            Ok(line) => lines.push(Numbered { number: line_of(row), line }),
            Err(found) => faults.extend(found),
        }
    }
    let heads = columns.iter().map(|column| (column.field.name, column.head.clone())).collect();
    if faults.is_empty() { Ok(ReadSheet { lines, heads }) } else { Err(faults) }
}

/// The units that the table of a site gives itself.
fn own_units(table: &RecordSchema, sheet: &Sheet, columns: &[Column]) -> Option<System> {
    let column = columns.iter().find(|column| table.name == "site" && column.field.name == "units")?;
    System::from_code(&clean(sheet.rows.first()?.get(column.at)?).to_lowercase())
}

/// A column of a table.
struct Column {
    at: usize,
    field: &'static Field,
    unit: Option<String>,
    /// As it is written.
    head: String,
}

fn columns(table: &'static RecordSchema, header: &StringRecord) -> Result<Vec<Column>, Faults> {
    let mut columns: Vec<Column> = Vec::new();
    let mut faults = Faults::default();
    let known = || table.fields.iter().map(|field| field.name).collect::<Vec<_>>().join(", ");
    let mut fault = |head: &str, text: String| faults.push(Fault { line: 1, field: Some(head.to_owned()), text });
    for (at, cell) in header.iter().enumerate().filter(|(_, cell)| !cell.is_empty()) {
        let head: String = clean(cell).chars().take(30).collect();
        match field_of(table, cell) {
            Some((field, _)) if columns.iter().any(|column| column.field.name == field.name) => {
                fault(&head, format!("is a second column of {}", field.name));
            }
            Some((field, unit)) => columns.push(Column { at, field, unit, head }),
            None => fault(&head, format!("is not a column of the {} table; its columns are {}", table.name, known())),
        }
    }
    for field in table.fields.iter().filter(|field| field.required) {
        if !columns.iter().any(|column| column.field.name == field.name) {
            fault(&head_of(field), format!("is missing; the {} table needs it", table.name));
        }
    }
    if faults.is_empty() { Ok(columns) } else { Err(faults) }
}

/// One row as a line of the plan.
fn line(table: &RecordSchema, (row, columns): (&StringRecord, &[Column]), system: System) -> Result<Line, Vec<Fault>> {
    let number = line_of(row);
    let fault = |head: Option<&str>, text: String| Fault { line: number, field: head.map(str::to_owned), text };
    let (mut values, mut faults) = (Values::new(), Vec::new());
    let widest = columns.iter().map(|column| column.at.saturating_add(1)).max().unwrap_or(0);
    if row.iter().skip(widest).any(|cell| !cell.is_empty()) {
        let text = "has more cells than the header; quote text that contains the separator".to_owned();
        faults.push(fault(None, text));
    }
    for column in columns {
        let cell = row.get(column.at).unwrap_or_default();
        match value((column.field, column.unit.as_deref()), cell, system) {
            Ok(Some(value)) => values.set(column.field.name, value),
            Ok(None) if column.field.required => {
                let text = format!("is empty; give {}", typed::hint(column.field, system));
                faults.push(fault(Some(&column.head), text));
            }
            Ok(None) => {}
            Err(text) => faults.push(fault(Some(&column.head), text)),
        }
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let head =
        |field: &str| columns.iter().find(|column| column.field.name == field).map(|column| column.head.as_str());
    codec::line_from_values(table, &values).map_err(|found| {
        let named = |f: crate::record::FieldFault| match head(&f.field) {
            Some(head) => fault(Some(head), f.text),
            None if f.field.is_empty() => fault(None, f.text),
            None => fault(Some(&f.field), f.text),
        };
        found.into_iter().map(named).collect()
    })
}
