//! The length of the night through the season.

use crate::model::Model;
use crate::screens::chart_view;
use crate::screens::season::State;
use crate::ui::put;
use crate::ui::regions::heading;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::Line;

/// Draws the curve.
pub(super) fn narrow(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) {
    match &state.nights {
        Some(nights) => chart_view::chart(frame, area, &nights.chart, (None, model.day), model.look),
        None => put(frame, area, 0, Line::raw("Nights are shown once there is a site and a lot.")),
    }
}

/// Draws it under its heading; gives the place of the cursor.
pub(super) fn wide(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Position {
    let place = heading(frame, area, ("nights", ""), model.look);
    narrow(state, model, frame, place);
    Position { x: place.x, y: place.y }
}
