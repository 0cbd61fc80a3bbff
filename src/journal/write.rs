//! Records to text, in one order: the same season is always the same file.

use crate::record::{Entry, Line, Plan, codec, schema};

/// Writes a season: header, then site, lots, benches, placements and orders with all their revisions, then the entries
/// by instant and id. Ends with a line break.
pub fn write(plan: &Plan, entries: &[Entry]) -> String {
    let types = schema::plan_tables();
    let mut lines = plan.lines();
    lines.sort_by_cached_key(|line| (types.iter().position(|t| t.name == line.type_name()), place(line), line.order()));
    let mut sorted: Vec<&Entry> = entries.iter().collect();
    sorted.sort_by_key(|e| e.order());
    lines.extend(sorted.into_iter().cloned().map(Line::Entry));
    write_lines(&lines)
}

/// Writes records in the order given, after the header.
pub fn write_lines(lines: &[Line]) -> String {
    let mut text = codec::header();
    text.push('\n');
    for line in lines {
        text.push_str(&codec::encode(line));
        text.push('\n');
    }
    text
}

/// Where a line stands among those of its type.
fn place(line: &Line) -> (u32, String) {
    match line {
        Line::Site(_) | Line::Entry(_) => (0, String::new()),
        Line::Lot(l) => (0, l.lot.clone()),
        Line::Bench(l) => (l.order, l.bench.clone()),
        Line::Placement(l) => (0, format!("{} {}", l.from, l.bench)),
        Line::Order(l) => (0, format!("{} {}", l.date, l.lot)),
    }
}
