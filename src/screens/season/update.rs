//! What the Season page does.

use super::{Part, State};
use crate::controls::List;
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response, go};

/// Lots that a page key goes on.
const FEW: usize = 5;

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let page = usize::from(model.size.1.saturating_sub(7)).max(1);
    let command = match msg {
        Msg::Do(command) => command,
        Msg::Changed | Msg::NewDay => {
            state.refresh(model);
            return Some(Vec::new());
        }
        Msg::Quiet if state.part.is_of_lots() && state.calendars.step(model) => return Some(Vec::new()),
        Msg::Quiet => {
            state.last_year.step(model);
            if let Some(comparison) = state.last_year.comparison().filter(|comparison| comparison.assessed) {
                model.keep_comparison(comparison.clone());
            }
            return Some(Vec::new());
        }
        _ => return None,
    };
    match command {
        Command::ViewAfter => turn(state, model, true),
        Command::ViewBefore => turn(state, model, false),
        Command::Back => return Some(vec![Effect::Go(Go::Back)]),
        Command::Paper => return Some(vec![Effect::popup(go::Popup::SeasonReport(state.part.report()))]),
        other if super::view::lists_lots(state, model) => {
            let count = state.calendars.all().len();
            return state.list.step(*other, count, FEW).then(Vec::new);
        }
        other if state.part == Part::LastYear && super::view::is_wide(model) => {
            let count = state.last_year.comparison().map_or(0, |comparison| comparison.lots.len());
            return state.list.step(*other, count, FEW).then(Vec::new);
        }
        other => {
            let last = last(state, model, page);
            return state.list.scroll(*other, last, page).then(Vec::new);
        }
    }
    Some(Vec::new())
}

/// To the next part, from its top; the lot under the cursor stays.
fn turn(state: &mut State, model: &Model, onward: bool) {
    state.part = state.part.turned(onward);
    state.list = List::at(state.list.cursor());
    super::end::work_out(state, model);
}

/// The furthest a part may be scrolled: its last lot stays in sight.
fn last(state: &State, model: &Model, page: usize) -> usize {
    match state.part {
        Part::Calendar => state
            .calendars
            .all()
            .iter()
            .map(|c| c.steps.len().saturating_add(2 + usize::from(c.forecast.is_some())))
            .sum::<usize>()
            .saturating_sub(4),
        Part::Nights => 0,
        Part::Pots => state.pots.len().saturating_sub(1),
        Part::Applications => state.applications.as_ref().map_or(0, |record| record.lines.len().saturating_sub(1)),
        Part::LastYear => super::view::last_year_rows(state, model).saturating_sub(page),
        Part::End => super::end::lines(state, model).saturating_sub(page),
    }
}
