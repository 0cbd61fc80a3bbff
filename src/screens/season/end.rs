//! The season's end: what is shown of it, worked out when the part is opened.

use super::{Part, State};
use crate::model::Model;
use crate::report::totals::{SeasonEnd, rows, sections};

/// Works out what the part shows, where it is the one shown and nothing is there yet. The trials have a page of their own, where what
/// they need is worked out in pauses.
pub(super) fn work_out(state: &mut State, model: &Model) {
    if state.part == Part::End && state.end.is_none() {
        let end = SeasonEnd::without_trials(&model.season, model.day);
        state.end = Some(end.as_ref().map(sections).unwrap_or_default());
    }
}

/// Lines of it in the window.
pub(super) fn lines(state: &State, model: &Model) -> usize {
    state.end.as_ref().map_or(0, |sections| rows(sections, usize::from(model.size.0)).len())
}
