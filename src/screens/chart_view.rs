//! How a chart of the reports becomes one of the screen: days and numbers to places, names and strokes kept.
//!
//! No page of its own: the pages that show charts share it.

use crate::dates;
use crate::input::Look;
use crate::report::chart::{Chart, Layer, Stroke, ticks};
use crate::report::series::Topic;
use crate::ui::charts::{Dash, Ink, Plot, plot, stack};
use crate::ui::{Role, put, rows, wrap};
use crate::units::plain;
use chrono::{Datelike, Days, NaiveDate};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// The most rows of words under a title.
const WORDS: usize = 3;

/// Draws a chart with its title and what it says in words; `topic`: what it is about, where it is of a bench.
pub(super) fn chart(
    frame: &mut Frame<'_>,
    area: Rect,
    chart: &Chart,
    (topic, today): (Option<Topic>, NaiveDate),
    look: Look,
) {
    let cells = usize::from(area.width);
    let title = format!("{} ({})", chart.title, chart.axis);
    put(frame, area, 0, Line::from(Span::styled(crate::ui::fit(&title, cells), look.style(Role::Head))));
    let room = usize::from(area.height / 6).min(WORDS);
    let mut words = wrap(&chart.text, cells);
    if words.len() > room {
        words.truncate(room);
        if let Some(last) = words.last_mut() {
            *last = crate::ui::fit(&format!("{last} ..."), cells);
        }
    }
    for (row, line) in words.iter().enumerate() {
        put(frame, area, row.saturating_add(1), Line::raw(line.clone()));
    }
    let head = u16::try_from(words.len()).unwrap_or(0).saturating_add(1);
    let (_, body) = rows(area, head);
    plot(frame, body, &of(chart, topic, today), look);
}

/// Draws charts over the same days one above the other, as many as can be read; gives how many.
pub(super) fn charts(
    frame: &mut Frame<'_>,
    area: Rect,
    charts: &[(Topic, &Chart)],
    today: NaiveDate,
    look: Look,
) -> usize {
    // Where the name ends with what is measured, that is not said twice.
    let axis = |topic: Topic, chart: &Chart| {
        if topic.text().ends_with(&chart.axis) { String::new() } else { chart.axis.clone() }
    };
    let title = |topic: Topic, chart: &Chart| (topic.text().to_owned(), axis(topic, chart));
    let all: Vec<_> =
        charts.iter().map(|(topic, chart)| (title(*topic, chart), of(chart, Some(*topic), today))).collect();
    stack(frame, area, &all, look)
}

fn place(day: NaiveDate) -> f64 {
    f64::from(day.num_days_from_ce())
}

/// The chart as the screen draws it.
fn of(chart: &Chart, topic: Option<Topic>, today: NaiveDate) -> Plot {
    let upright = chart.range.unwrap_or_else(|| chart.extent());
    let weeks = (0..80_u64).filter_map(|n| chart.days.0.checked_add_days(Days::new(n * 7)));
    Plot {
        across: (place(chart.days.0), place(chart.days.1)),
        upright,
        ticks: ticks(upright.0, upright.1).into_iter().map(|t| (t, plain((t * 1e6).round() / 1e6))).collect(),
        days: weeks.take_while(|d| *d <= chart.days.1).map(|d| (place(d), dates::short(d))).collect(),
        here: Some(place(today)),
        inks: chart.layers.iter().filter(|l| !is_edged(chart, l)).map(|l| ink(l, topic)).collect(),
    }
}

/// A band whose two edges are drawn as lines of their own has no need of a filling between them.
fn is_edged(chart: &Chart, layer: &Layer) -> bool {
    let Layer::Band { points, .. } = layer else { return false };
    let Some((first, low, high)) = points.first().copied() else { return false };
    let near = |a: f64, b: f64| (a - b).abs() < 1e-9;
    let is_edge = |l: &&Layer| match l {
        Layer::Line { points, stroke: Stroke::Dashed, .. } => {
            points.first().is_some_and(|p| p.0 == first && (near(p.1, low) || near(p.1, high)))
        }
        _ => false,
    };
    chart.layers.iter().filter(is_edge).count() >= 2
}

fn ink(layer: &Layer, topic: Option<Topic>) -> Ink {
    match layer {
        Layer::Band { name, points } => {
            Ink::Band(name.clone(), points.iter().map(|p| (place(p.0), p.1, p.2)).collect())
        }
        Layer::Line { name, points, stroke } => {
            let dash = match stroke {
                Stroke::Solid => Dash::Solid,
                Stroke::Dashed => Dash::Dashed,
                Stroke::Dotted => Dash::Dotted,
                Stroke::LastYear => Dash::DashDot,
            };
            Ink::Line(name.clone(), points.iter().map(|p| (place(p.0), p.1)).collect(), dash)
        }
        Layer::Dots { name, points } => {
            let points = points.iter().map(|p| (place(p.0), p.1, p.2)).collect();
            match topic {
                Some(Topic::Water) => Ink::Water(name.clone(), points),
                _ => Ink::Dots(name.clone(), points, topic.is_some_and(Topic::is_scale)),
            }
        }
        Layer::Strip { name, points, full } => {
            Ink::Strip(name.clone(), points.iter().map(|p| (place(p.0), p.1)).collect(), *full)
        }
        Layer::Marks { name, days } => Ink::Marks(name.clone(), days.iter().map(|d| place(*d)).collect()),
    }
}
