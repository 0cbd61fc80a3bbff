//! The height of a bench against its window: in words, and as a picture of a few rows.

use crate::dates;
use crate::model::Model;
use crate::record::{Entry, Kind};
use crate::stats::mean;
use crate::ui::charts::{Dash, Ink, Plot, spark};
use crate::ui::regions;
use crate::units::{Length, Quantity};
use crate::warnings::{Heights, heights_of};
use chrono::{Datelike, Days, NaiveDate};
use ratatui::text::Line;

/// Rows of the picture.
const ROWS: u16 = 4;
/// Cells of the heading before its words.
const HEADING: usize = 8;
/// The most days the window is drawn for.
const MOST: usize = 400;

/// A height of a day, in the unit of the site.
type At = (NaiveDate, f64);

/// The heading with the last height and the window of today, then the picture. Nothing where no height was ever measured and no
/// window is known.
pub(super) fn lines(model: &Model, bench: &str, cells: usize) -> Vec<Line<'static>> {
    let of_bench = heights_of(&model.season, bench, model.day, &model.limits);
    let Some((window, entries)) = of_bench else { return Vec::new() };
    let system = model.system();
    let length = |cm: f64| Length::from_cm(cm).in_system(system);
    let readings = readings(&entries, &length);
    let heights = window.as_ref().filter(|heights| heights.sides.0 || heights.sides.1);
    if readings.is_empty() && heights.is_none() {
        return Vec::new();
    }
    let unit = Length::unit_name(system);
    let last = readings.last().map(|(day, value)| format!("{value:.1} {unit} {}", dates::short(*day)));
    let window = heights.map(|heights| {
        let today = heights.target.window(model.day);
        match heights.sides {
            (true, true) => format!("window {:.1} to {:.1}", length(today.low_cm), length(today.high_cm)),
            (true, false) => format!("at least {:.1}", length(today.low_cm)),
            _ => format!("at most {:.1}", length(today.high_cm)),
        }
    });
    let words = match (last, window) {
        (Some(last), Some(window)) => format!("{last}; {window}"),
        (Some(last), None) => format!("{last}; no window known"),
        (None, window) => format!("not measured; {} {unit}", window.unwrap_or_default()),
    };
    let words = with_pace(words, heights, model, cells);
    let mut lines = vec![regions::headed(("height", &words), cells, model.look)];
    if let Some(plot) = plot(model.day, heights, &readings, &length) {
        lines.extend(spark(&plot, (u16::try_from(cells).unwrap_or(u16::MAX), ROWS), model.look));
    }
    lines
}

/// The words with the pace of a window of two sides on this day, where both have room.
fn with_pace(words: String, heights: Option<&Heights>, model: &Model, cells: usize) -> String {
    let week = heights.filter(|h| h.sides == (true, true)).map(|h| h.target.pace_cm_day(model.day) * 7.0);
    let week = week.map(|cm| Length::from_cm(cm).in_system(model.system())).filter(|week| *week >= 0.05);
    let with = week.map(|week| format!("{words} (+{week:.1} a week)"));
    let fits = |with: &String| HEADING.saturating_add(with.chars().count()) <= cells;
    with.filter(fits).unwrap_or(words)
}

/// The mean of each measurement, oldest first.
fn readings(entries: &[&Entry], length: &impl Fn(f64) -> f64) -> Vec<At> {
    let one = |e: &&Entry| match &*e.kind {
        Kind::Height { cm } => Some((e.day(), length(mean(cm)?))),
        _ => None,
    };
    entries.iter().filter_map(one).collect()
}

/// The window from its start to the sale with what was measured; `None` where nothing would be seen.
fn plot(day: NaiveDate, window: Option<&Heights>, readings: &[At], length: &impl Fn(f64) -> f64) -> Option<Plot> {
    let curves: Vec<Vec<At>> = window.map(|heights| curves(heights, length)).unwrap_or_default();
    let all = || curves.iter().flatten().chain(readings);
    let first = all().map(|(day, _)| *day).min()?;
    let last = all().map(|(day, _)| *day).max()?.max(day);
    let low = all().map(|(_, value)| *value).fold(f64::INFINITY, f64::min);
    let high = all().map(|(_, value)| *value).fold(f64::NEG_INFINITY, f64::max);
    let mut inks: Vec<Ink> = curves
        .into_iter()
        .map(|curve| Ink::Line("window".to_owned(), curve.into_iter().map(place_at).collect(), Dash::Solid))
        .collect();
    let dots = readings.iter().map(|(day, value)| (place(*day), *value, None)).collect();
    inks.push(Ink::Dots("measured".to_owned(), dots, false));
    let weeks = (0..80_u64).step_by(2).filter_map(|n| first.checked_add_days(Days::new(n.saturating_mul(7))));
    Some(Plot {
        across: (place(first), place(last)),
        upright: (low, high),
        ticks: vec![(high, format!("{high:.1}")), (low, format!("{low:.1}"))],
        days: weeks.take_while(|d| *d <= last).map(|d| (place(d), dates::short(d))).collect(),
        here: None,
        inks,
    })
}

/// The two edges of the window, day by day; a side that the plan leaves open is none.
fn curves(heights: &Heights, length: &impl Fn(f64) -> f64) -> Vec<Vec<At>> {
    let target = &heights.target;
    let edge = |is: bool, pick: fn(crate::crop::height::Window) -> f64| -> Option<Vec<At>> {
        let days = target.start().iter_days().take_while(|d| *d <= target.finish()).take(MOST);
        is.then(|| days.map(|d| (d, length(pick(target.window(d))))).collect())
    };
    [edge(heights.sides.1, |w| w.high_cm), edge(heights.sides.0, |w| w.low_cm)].into_iter().flatten().collect()
}

fn place(day: NaiveDate) -> f64 {
    f64::from(day.num_days_from_ce())
}

fn place_at((day, value): At) -> (f64, f64) {
    (place(day), value)
}
