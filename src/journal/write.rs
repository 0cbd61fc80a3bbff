//! Records to text, in one order: the same season is always the same file.

use crate::record::{Entry, Line, Plan, codec};

/// Writes a season: header, then site, lots, benches, placements and orders with all their revisions, then the entries
/// by instant and id. Ends with a line break.
pub fn write(plan: &Plan, entries: &[Entry]) -> String {
    let mut lines: Vec<Line> = Vec::new();
    let mut sites = plan.sites.clone();
    sites.sort_by_key(|l| l.rev);
    lines.extend(sites.into_iter().map(Line::Site));
    let mut lots = plan.lots.clone();
    lots.sort_by(|a, b| (&a.lot, a.rev).cmp(&(&b.lot, b.rev)));
    lines.extend(lots.into_iter().map(Line::Lot));
    let mut benches = plan.benches.clone();
    benches.sort_by(|a, b| (a.order, &a.bench, a.rev).cmp(&(b.order, &b.bench, b.rev)));
    lines.extend(benches.into_iter().map(Line::Bench));
    let mut placements = plan.placements.clone();
    placements.sort_by(|a, b| (a.from, &a.bench, a.rev).cmp(&(b.from, &b.bench, b.rev)));
    lines.extend(placements.into_iter().map(Line::Placement));
    let mut orders = plan.orders.clone();
    orders.sort_by(|a, b| (a.date, &a.lot, a.rev).cmp(&(b.date, &b.lot, b.rev)));
    lines.extend(orders.into_iter().map(Line::Order));
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
