//! What is done of what is due today, by house and kind of check.

use crate::model::{Model, Walked};
use crate::panes::Seen;
use crate::panes::overview::OfHouse;
use crate::ui::{Role, fit, regions, width};
use crate::warnings::CheckName;
use ratatui::text::{Line, Span};
use std::collections::BTreeMap;

/// Houses named at most; the others count in the last row.
const MOST: usize = 12;
/// The fewest cells of a house's name.
const NAME: usize = 9;

/// The kinds of check with their heads. Where there is no room the last go first.
const KINDS: [(CheckName, &str); 7] = [
    (CheckName::Water, "water"),
    (CheckName::Roots, "roots"),
    (CheckName::Height, "height"),
    (CheckName::Bracts, "bract"),
    (CheckName::Whitefly, "fly"),
    (CheckName::Base, "base"),
    (CheckName::Reach, "reach"),
];

/// Done, and due with it.
type Counts = (usize, usize);

/// The counts of a house, or of all.
#[derive(Debug, Clone, Default)]
struct Tally {
    walked: Counts,
    checks: BTreeMap<CheckName, Counts>,
}

impl Tally {
    fn add(&mut self, other: &Self) {
        let sum = |to: &mut Counts, more: Counts| {
            *to = (to.0.saturating_add(more.0), to.1.saturating_add(more.1));
        };
        sum(&mut self.walked, other.walked);
        for (check, counts) in &other.checks {
            sum(self.checks.entry(*check).or_default(), *counts);
        }
    }
}

/// A row a house, and all of them where there are several.
pub(super) fn lines(houses: &[OfHouse<'_>], model: &Model, cells: usize) -> Vec<Line<'static>> {
    let houses = tallies(houses);
    let mut all = Tally::default();
    for (_, tally) in &houses {
        all.add(tally);
    }
    let mut lines = vec![regions::headed(("today", "done of due"), cells, model.look)];
    let columns = columns(&all, cells);
    let heads = columns.iter().map(|(_, head, wide)| format!("{head:>wide$}")).collect::<Vec<_>>().concat();
    let taken = columns.iter().map(|column| column.2).sum();
    let name = cells.saturating_sub(taken).min(NAME.saturating_mul(2)).max(NAME.min(cells));
    let longest = houses.iter().map(|(house, _)| usize::from(width(house)).saturating_add(2)).max().unwrap_or(0);
    let name = name.min(longest.max(NAME));
    lines.push(Line::from(Span::styled(format!("{}{heads}", fit("", name)), model.look.style(Role::Dim))));
    let more = houses.len().saturating_sub(MOST);
    let shown = houses.iter().take(if more > 1 { MOST } else { houses.len() });
    let rows = shown.map(|(house, tally)| ((*house).to_owned(), tally));
    let total = (houses.len() > 1).then(|| ("all".to_owned(), &all));
    for (house, tally) in rows.chain(total) {
        lines.push(row(&house, tally, &columns, name, model));
    }
    lines
}

/// What there is a column for, its head and its cells.
type Column = (Option<CheckName>, &'static str, usize);

fn columns(all: &Tally, cells: usize) -> Vec<Column> {
    let wide = |head: &str, counts: Counts| text(counts).len().max(head.len()).saturating_add(1);
    let mut columns: Vec<Column> = vec![(None, "walked", wide("walked", all.walked))];
    for (check, head) in KINDS {
        if let Some(counts) = all.checks.get(&check) {
            columns.push((Some(check), head, wide(head, *counts)));
        }
    }
    while columns.len() > 1 && columns.iter().map(|c| c.2).sum::<usize>().saturating_add(NAME) > cells {
        columns.pop();
    }
    columns
}

fn row(house: &str, tally: &Tally, columns: &[Column], name: usize, model: &Model) -> Line<'static> {
    let mut spans = vec![Span::styled(fit(&format!(" {house}"), name), model.look.style(Role::Label))];
    for (check, _, wide) in columns {
        let counts = check.map_or(Some(tally.walked), |check| tally.checks.get(&check).copied());
        let done = counts.is_none_or(|(done, due)| done >= due);
        let shown = counts.map_or_else(|| model.look.glyphs().none.to_owned(), text);
        let style = model.look.style(if done { Role::Dim } else { Role::Plain });
        spans.push(Span::styled(format!("{shown:>wide$}"), style));
    }
    Line::from(spans)
}

fn text((done, due): Counts) -> String {
    format!("{done}/{due}")
}

/// The counts of each house with pots.
fn tallies<'o>(houses: &[OfHouse<'o>]) -> Vec<(&'o str, Tally)> {
    let known = |seen: &&Seen<'o>| seen.summary.filter(|s| s.standing.is_some());
    let tally = |(house, benches): &OfHouse<'o>| {
        let mut tally = None;
        for summary in benches.iter().filter_map(known) {
            let tally = tally.get_or_insert_with(Tally::default);
            add(&mut tally.walked, summary.walked() == Walked::Yes);
            for check in &summary.due {
                add(tally.checks.entry(check.what).or_default(), check.done);
            }
        }
        Some((*house, tally?))
    };
    houses.iter().filter_map(tally).collect()
}

/// Counts one more that is due.
fn add((done, due): &mut Counts, is_done: bool) {
    *done = done.saturating_add(usize::from(is_done));
    *due = due.saturating_add(1);
}
