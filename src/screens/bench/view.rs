//! How the Bench page looks.

use super::{State, rows};
use crate::dates;
use crate::model::Model;
use crate::report::series::{self, Reach};
use crate::screens::chart_view;
use crate::ui::{list, put, rows as split};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};

/// Draws it.
pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    if state.charts {
        charts(state, model, frame, area);
        return Some(Position { x: area.x, y: area.y });
    }
    let lines = rows::rows(state, model, usize::from(area.width));
    list::text(frame, area, state.list.top(), lines);
    Some(Position { x: area.x, y: area.y })
}

/// From this size on two charts stand one above the other.
const TWO: (u16, u16) = (100, 28);

/// One chart, or two where there is room.
fn charts(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    let on = state.end.unwrap_or(model.day);
    let season = &model.season.on(on);
    let days = series::days(season, state.bench(), (state.reach, on));
    let reach = match state.reach {
        Reach::Season => "full season",
        Reach::ThreeWeeks => "3 weeks",
    };
    let number = state.topic.saturating_add(1);
    let head = format!(
        "chart {number} of {}: {}  {reach}, {} to {}  as known on {}",
        series::Topic::ALL.len(),
        state.topic(0).text(),
        dates::short(days.0),
        dates::short(days.1),
        dates::short(on)
    );
    put(frame, area, 0, head);
    let (_, body) = split(area, 1);
    let two = area.width >= TWO.0 && body.height >= TWO.1;
    let parts = if two { split(body, body.height / 2) } else { (body, Rect::default()) };
    for (n, part) in [parts.0, parts.1].into_iter().enumerate().filter(|(_, part)| !part.is_empty()) {
        let topic = state.topic(n);
        let chart = series::bench(season, (state.bench(), topic), on, days, &model.limits);
        chart_view::chart(frame, part, &chart, (topic.is_scale(), on), model.look);
    }
}
