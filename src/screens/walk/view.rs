//! How the Walk card looks.

use super::State;
use crate::model::Shared;
use crate::ui::{Role, big, put};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::Span;

/// Draws it.
pub fn view(state: &State, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
    let lines = big(state.bench(), usize::from(area.width)).unwrap_or_else(|| vec![state.bench().to_owned()]);
    for (i, line) in lines.into_iter().enumerate() {
        put(frame, area, u16::try_from(i).unwrap_or(0), Span::styled(line, shared.look.style(Role::Title)));
    }
    None
}
