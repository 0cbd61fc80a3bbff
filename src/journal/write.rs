//! Records to text, in one order: the same season is always the same file.

use super::end::end_line;
use super::faults::{Fault, Faults};
use crate::progress::{Step, Work};
use crate::record::codec::Header;
use crate::record::{Entry, Line, Plan, codec, rules, schema};
use uuid::Uuid;

/// Writes a season: header, then site, lots, benches, placements and orders with all their revisions, then the entries
/// by instant and id, then the end. `season` is the season's id, where it is known.
pub fn write(season: Option<Uuid>, plan: &Plan, entries: &[Entry]) -> String {
    write_lines(season, &in_order(plan, entries))
}

/// The same, with what an import refuses of it. A record once kept is read and written again whatever it holds, also a value that
/// another program or a failing disk put out of its range; an import takes none such.
pub fn write_judged(season: Option<Uuid>, plan: &Plan, entries: &[Entry]) -> (String, Faults) {
    let lines = in_order(plan, entries);
    let mut faults = Faults::default();
    // The header is the first line.
    for (number, line) in (2..).zip(&lines) {
        faults.extend(rules::check_line(line).into_iter().map(|fault| Fault::at(number, fault)));
    }
    (write_lines(season, &lines), faults)
}

fn in_order(plan: &Plan, entries: &[Entry]) -> Vec<Line> {
    let types = schema::plan_tables();
    let mut lines = plan.lines();
    lines.sort_by_cached_key(|line| (types.iter().position(|t| t.name == line.type_name()), place(line), line.order()));
    let mut sorted: Vec<&Entry> = entries.iter().collect();
    sorted.sort_by_key(|e| e.order());
    lines.extend(sorted.into_iter().cloned().map(Line::Entry));
    lines
}

/// Writes records in the order given, between the header and the end.
pub fn write_lines(season: Option<Uuid>, lines: &[Line]) -> String {
    let mut text = Header { season, ends: true, ..Header::default() }.encode();
    text.push('\n');
    let mut work = Work::begin(Step::WriteJournal, lines.len());
    for line in lines {
        // It is written to its end: half a journal must not be taken for a whole one.
        work.one().ok();
        text.push_str(&codec::encode(line));
        text.push('\n');
    }
    let end = end_line(&text);
    text.push_str(&end);
    text.push('\n');
    text
}

/// Where a line stands among those of its type.
fn place(line: &Line) -> (u32, String) {
    match line {
        Line::Site(_) | Line::Entry(_) => (0, String::new()),
        Line::Lot(l) => (0, l.lot.clone()),
        Line::LotHistory(l) => (0, l.lot.clone()),
        Line::Bench(l) => (l.order, l.bench.clone()),
        Line::Placement(l) => (0, format!("{} {}", l.from, l.bench)),
        Line::Order(l) => (0, format!("{} {}", l.date, l.lot)),
        Line::Trial(l) => (0, l.trial.clone()),
        Line::Plot(l) => (0, format!("{} {:05}", l.trial, l.number())),
    }
}
