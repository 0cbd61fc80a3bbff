//! The header of a logger's file: the first row that has every column named. What stands above it is passed over.

use super::super::{Fault, Faults};
use super::mapping::{Column, Mapping, Separator, short};
use csv::ReaderBuilder;

/// Rows looked at to say which one comes nearest to the header.
const LOOKED: usize = 200;
/// Columns listed in a message.
const LISTED: usize = 12;

/// Where the readings of a file begin, and where each column stands.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Header<'t> {
    /// Lines above the readings.
    pub(super) above: usize,
    /// The text below the header.
    pub(super) rest: &'t str,
    /// What stands between cells.
    pub(super) separator: u8,
    /// The place of each column of the mapping, from 0, in the order of [`Mapping::columns`].
    pub(super) places: Vec<usize>,
    /// True where a row named them.
    pub(super) named: bool,
    /// Cells of that row; 0 where none did.
    pub(super) width: usize,
}

/// Finds it.
///
/// # Errors
/// The column that no row has, by the line of the row that comes nearest.
pub(super) fn find<'t>(text: &'t str, mapping: &Mapping) -> Result<Header<'t>, Faults> {
    let names: Vec<&str> = mapping.columns().filter_map(named).collect();
    let separators: Vec<Separator> = mapping.separator.map_or_else(|| Separator::ALL.to_vec(), |one| vec![one]);
    let (Some(first), given) = (names.first(), separators.first().copied()) else {
        let separator = mapping.separator.map_or(b',', Separator::byte);
        let places = mapping.columns().filter_map(number).collect();
        return Ok(Header { above: 0, rest: text, separator, places, named: false, width: 0 });
    };
    let mut nearest: Option<(usize, usize, Vec<String>)> = None;
    let mut rest = text;
    for (at, line) in text.split('\n').enumerate() {
        rest = rest.get(line.len().saturating_add(1)..).unwrap_or_default();
        // Most lines of a large file are passed over without being taken apart.
        if at >= LOOKED && !line.contains(first) && !line.contains('"') {
            continue;
        }
        for separator in separators.iter().copied() {
            let cells = cells(line, separator);
            let count = names.iter().filter(|name| cells.iter().any(|cell| cell == **name)).count();
            if count == names.len() {
                let places = places(mapping, &cells, at + 1)?;
                return Ok(Header {
                    above: at + 1,
                    rest,
                    separator: separator.byte(),
                    places,
                    named: true,
                    width: cells.len(),
                });
            }
            let wide = cells.len() > 1 || Some(separator) == given;
            if wide && nearest.as_ref().is_none_or(|(_, most, _)| count > *most) {
                nearest = Some((at + 1, count, cells));
            }
        }
    }
    Err(Faults::from(vec![not_found(&names, mapping.separator, nearest)]))
}

fn named(column: &Column) -> Option<&str> {
    match column {
        Column::Named(name) => Some(name.as_str()),
        Column::Number(_) => None,
    }
}

fn number(column: &Column) -> Option<usize> {
    match column {
        Column::Named(_) => None,
        Column::Number(n) => n.checked_sub(1),
    }
}

/// The cells of one line.
fn cells(line: &str, separator: Separator) -> Vec<String> {
    let mut reader = ReaderBuilder::new()
        .delimiter(separator.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(line.trim_end_matches('\r').as_bytes());
    let row = reader.records().next().and_then(Result::ok).unwrap_or_default();
    row.iter().map(|cell| cell.trim().to_owned()).collect()
}

/// The place of each column in the header.
fn places(mapping: &Mapping, cells: &[String], line: usize) -> Result<Vec<usize>, Faults> {
    let fault =
        |column: &Column, text: String| Faults::from(vec![Fault { line, field: Some(short(&column.text())), text }]);
    let mut all: Vec<usize> = Vec::new();
    for column in mapping.columns() {
        let mut found = match column {
            Column::Named(name) => {
                cells.iter().enumerate().filter(|(_, cell)| *cell == name).map(|(at, _)| at).collect()
            }
            Column::Number(n) => vec![n.saturating_sub(1)],
        };
        if found.len() > 1 {
            let numbers: Vec<String> = found.iter().map(|at| (at + 1).to_string()).collect();
            let text = format!("stands more than once in the header; give its number: {}", numbers.join(" or "));
            return Err(fault(column, text));
        }
        let Some(at) = found.pop().filter(|at| *at < cells.len()) else {
            return Err(fault(column, format!("is not there; the header has {} columns", cells.len())));
        };
        if all.contains(&at) {
            return Err(fault(column, "is named for two things; each needs a column of its own".to_owned()));
        }
        all.push(at);
    }
    Ok(all)
}

fn not_found(names: &[&str], given: Option<Separator>, nearest: Option<(usize, usize, Vec<String>)>) -> Fault {
    let wanted = names.iter().map(|name| format!("'{}'", short(name))).collect::<Vec<_>>().join(", ");
    let Some((line, _, cells)) = nearest.filter(|(_, count, _)| *count > 0) else {
        let given = given.map(|given| format!(" with a {} between them", given.name())).unwrap_or_default();
        let text =
            format!("no row names the columns {wanted}{given}; give them as they stand in the header of the file");
        return Fault { line: 1, field: None, text };
    };
    let missing = names.iter().find(|name| !cells.iter().any(|cell| cell == **name)).copied().unwrap_or_default();
    let named: Vec<String> =
        cells.iter().filter(|cell| !cell.is_empty()).map(|cell| format!("'{}'", short(cell))).collect();
    let more = if named.len() > LISTED { ", …" } else { "" };
    let listed = named.into_iter().take(LISTED).collect::<Vec<_>>().join(", ");
    Fault { line, field: Some(short(missing)), text: format!("is not a column of this row, which has {listed}{more}") }
}
