//! The climate of the houses over the last seven days, as far as it was logged.

use crate::model::Model;
use crate::panes::Seen;
use crate::panes::overview::OfHouse;
use crate::record::{Entry, Kind, KindName};
use crate::ui::{Role, fit, regions};
use crate::units::{Quantity, System, Temperature};
use chrono::NaiveDate;
use ratatui::text::{Line, Span};

/// Days shown where there is room.
const DAYS: usize = 7;
/// Cells of a house's name, of what is read, and of a figure.
const CELLS: (usize, usize, usize) = (8, 6, 4);
/// Houses shown at most.
const MOST: usize = 6;

/// What is read, and how an entry gives it in the unit of the site.
type Track = (&'static str, fn(&Kind, System) -> Option<f64>);

const TRACKS: [Track; 3] = [
    ("night", |kind, system| match kind {
        Kind::Climate { night_c, .. } => night_c.map(|c| Temperature::from_c(c).in_system(system)),
        _ => None,
    }),
    ("day", |kind, system| match kind {
        Kind::Climate { day_c, .. } => day_c.map(|c| Temperature::from_c(c).in_system(system)),
        _ => None,
    }),
    ("humid", |kind, _| match kind {
        Kind::Climate { humidity_percent, .. } => *humidity_percent,
        _ => None,
    }),
];

/// Rows by house, of what was read in the last days. What is written of a house counts for each of its benches, so its first bench
/// with pots is asked.
pub(super) fn lines(houses: &[OfHouse<'_>], model: &Model, cells: usize) -> Vec<Line<'static>> {
    let (name, kind, figure) = CELLS;
    let room = cells.saturating_sub(name).saturating_sub(kind) / figure;
    let back = std::iter::successors(Some(model.day), NaiveDate::pred_opt).take(room.min(DAYS));
    let mut days: Vec<NaiveDate> = back.collect();
    days.reverse();
    let Some(first) = days.first().copied() else { return Vec::new() };
    let mut rows = Vec::new();
    for (house, bench) in first_benches(houses).into_iter().take(MOST) {
        let history = model.season.history(bench, model.day);
        let entries: Vec<&Entry> = history.of(KindName::Climate).filter(|e| e.day() >= first).collect();
        let mut name = house;
        for (what, read) in TRACKS {
            let figure = |day: &NaiveDate| {
                entries.iter().rev().filter(|e| e.day() == *day).find_map(|e| read(&e.kind, model.system()))
            };
            let row: Vec<Option<f64>> = days.iter().map(figure).collect();
            if row.iter().any(Option::is_some) {
                rows.push(line((name, what), &row, model));
                name = "";
            }
        }
    }
    if rows.is_empty() {
        return rows;
    }
    let unit = Temperature::unit_name(model.system());
    let remark = format!("{unit} and %, {} days, today last", days.len());
    std::iter::once(regions::headed(("climate", &remark), cells, model.look)).chain(rows).collect()
}

/// The first bench with pots of each house.
fn first_benches<'o>(houses: &[OfHouse<'o>]) -> Vec<(&'o str, &'o str)> {
    let stands = |seen: &&&Seen<'o>| seen.summary.is_some_and(|s| s.standing.is_some());
    let first = |(house, benches): &OfHouse<'o>| Some((*house, benches.iter().find(stands)?.bench.bench.as_str()));
    houses.iter().filter_map(first).collect()
}

fn line((house, what): (&str, &str), row: &[Option<f64>], model: &Model) -> Line<'static> {
    let (name, kind, figure) = CELLS;
    let label = format!("{}{}", fit(&format!(" {house}"), name), fit(what, kind));
    let mut spans = vec![Span::styled(label, model.look.style(Role::Label))];
    for value in row {
        let (text, role) = match value {
            Some(value) => (format!("{value:>figure$.0}"), Role::Plain),
            None => (format!("{:>figure$}", model.look.glyphs().none), Role::Dim),
        };
        spans.push(Span::styled(text, model.look.style(role)));
    }
    Line::from(spans)
}
