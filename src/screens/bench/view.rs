//! How the Bench page looks: the record alone, or in a wide window with charts beside it; or charts alone.

use super::charts::{drawn, reach};
use super::{State, rows};
use crate::dates;
use crate::model::Model;
use crate::report::chart::Chart;
use crate::report::series::Topic;
use crate::screens::chart_view;
use crate::ui::regions::{Room, beside, heading};
use crate::ui::{Role, fit, list, put, rows as split};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::Span;

/// The charts beside the record, the first ones before the others where there is no room for all.
const BESIDE: [Topic; 9] = [
    Topic::Water,
    Topic::Height,
    Topic::Roots,
    Topic::Ph,
    Topic::Salts,
    Topic::Bracts,
    Topic::Temperature,
    Topic::Humidity,
    Topic::Climate,
];

/// True where the record has charts beside it in a window of so many columns.
pub(super) fn has_charts(columns: u16) -> bool {
    Room::of(columns) > Room::Narrow
}

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let at = Some(Position { x: area.x, y: area.y });
    if state.charts {
        charts(state, model, frame, area);
        return at;
    }
    let columns = rows::columns(state, model, area.width);
    if !has_charts(area.width) {
        let lines = columns.into_iter().flat_map(|(_, lines)| lines);
        list::text(frame, area, state.list.top(), lines);
        return at;
    }
    let mut rest = area;
    for (cells, lines) in columns {
        let (column, right) = beside(frame, rest, cells, model.look);
        // A short column stays whole while a longer one is scrolled.
        let last = lines.len().saturating_sub(usize::from(column.height));
        list::text(frame, column, state.list.top().min(last), lines);
        rest = right;
    }
    charts_beside(state, model, frame, rest);
    at
}

/// The charts that have readings, one above the other.
fn charts_beside(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let on = state.end.unwrap_or(model.day);
    let drawn = drawn(state, model);
    let (first, last) = drawn.days();
    let remark = format!("{}, {} to {}", reach(state), dates::short(first), dates::short(last));
    let remark = if on == model.day { remark } else { format!("{remark}, as known on {}", dates::short(on)) };
    let body = heading(frame, area, ("charts", &remark), model.look);
    let has = |topic: Topic| Some((topic, drawn.chart(topic).filter(|chart| topic.has_readings(chart))?));
    let all: Vec<(Topic, &Chart)> = BESIDE.into_iter().filter_map(has).collect();
    let said = if all.is_empty() {
        "Nothing to draw yet."
    } else if chart_view::charts(frame, body, &all, on, model.look) == 0 {
        "No room for charts here: c shows them alone."
    } else {
        return;
    };
    put(frame, body, 0, Span::styled(fit(said, usize::from(body.width)), model.look.style(Role::Dim)));
}

/// The least columns and rows of one chart where several are shown.
const LEAST: (u16, u16) = (100, 14);

/// One chart, or as many as have room: below each other, in the widest windows in two columns.
fn charts(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let on = state.end.unwrap_or(model.day);
    let drawn = drawn(state, model);
    let (first, last) = drawn.days();
    let head = format!(
        "chart {} of {}: {}  {}, {} to {}  as known on {}",
        state.topic.saturating_add(1),
        Topic::ALL.len(),
        state.topic(0).text(),
        reach(state),
        dates::short(first),
        dates::short(last),
        dates::short(on)
    );
    put(frame, area, 0, head);
    let (_, body) = split(area, 1);
    for (n, part) in places(frame, body, model).into_iter().enumerate() {
        let topic = state.topic(n);
        if let Some(chart) = drawn.chart(topic) {
            chart_view::chart(frame, part, chart, (Some(topic), on), model.look);
        }
    }
}

/// Where the charts stand, row by row.
fn places(frame: &mut Frame<'_>, area: Rect, model: &Model) -> Vec<Rect> {
    let down = if area.width < LEAST.0 { 1 } else { (area.height / LEAST.1).clamp(1, 4) };
    let columns = if Room::of(area.width) == Room::Widest {
        let (left, right) = beside(frame, area, area.width.saturating_sub(3) / 2, model.look);
        vec![left, right]
    } else {
        vec![area]
    };
    let high = area.height / down;
    let row = |n: u16| {
        columns.iter().map(move |column| Rect {
            y: column.y.saturating_add(n.saturating_mul(high)),
            height: high,
            ..*column
        })
    };
    (0..down).flat_map(row).take(Topic::ALL.len()).collect()
}
