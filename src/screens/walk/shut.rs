//! The card of a bench that cannot be walked now, because it was closed or emptied while the card was open. It takes no
//! observation: one can only go on, go back, or void the treatment.

pub(super) use view::{view, ways};

use super::State;
use super::update::{found, keep_line, next_bench, turn};
use crate::keys::Command;
use crate::model::walk_order::Shut;
use crate::model::{Effect, MixingRequest, Model, Msg, Response, go};

/// Handles a message; `None` where the open card's way is right.
pub(super) fn update(state: &mut State, model: &mut Model, msg: &Msg, why: Shut) -> Option<Response> {
    let effects = match msg {
        Msg::NewDay | Msg::Changed | Msg::Quiet => return None,
        Msg::Do(Command::Accept | Command::ViewAfter | Command::BenchAfter) => next_bench(state, model),
        Msg::Do(Command::CheckBefore | Command::ViewBefore | Command::BenchBefore) => {
            turn(state, model, false);
            Vec::new()
        }
        Msg::Do(Command::Undo) => undo(model, why),
        Msg::Do(Command::Redo) => model.redo_and_say(),
        Msg::Do(Command::Mix) => vec![Effect::page(go::Page::Mixing(MixingRequest::of(vec![state.bench.clone()])))],
        Msg::Do(Command::Charts) => vec![Effect::page(go::Page::Bench(state.bench.clone()))],
        Msg::Do(Command::Back) => {
            keep_line(state, model);
            vec![Effect::page(go::Page::Round)]
        }
        Msg::Do(_) => return Some(None),
        Msg::Found(code) => {
            found(state, model, code);
            Vec::new()
        }
        Msg::Type(_) | Msg::Paste(_) | Msg::Ask(_) => {
            model.trouble(format!("Not logged: {}", why.text(model, &state.bench)));
            Vec::new()
        }
    };
    Some(Some(effects))
}

/// Asks for the strike of the treatment. Nothing else is voided here: what was scored before is another matter.
fn undo(model: &mut Model, why: Shut) -> Vec<Effect> {
    if !matches!(why, Shut::Empty) && !model.last_closes() {
        model.say("The last entry is not a treatment. To void one, open the bench's page (c) and press x.");
        return Vec::new();
    }
    model.undo_and_say()
}

mod view {
    use super::State;
    use crate::model::Model;
    use crate::model::walk_order::{self, Shut};
    use crate::panes::shut;
    use crate::ui::{put, rows, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Span;

    /// Draws why, across the whole width, and what can be done.
    pub(in crate::screens::walk) fn view(
        state: &State,
        model: &Model,
        frame: &mut Frame<'_>,
        area: Rect,
        why: Shut,
    ) -> Position {
        let (above, below) = rows(area, shut::BAND);
        shut::band(state.bench(), model, frame, above, why);
        ways(state, model, frame, rows(below, 1).1, why);
        Position { x: area.x.saturating_add(1), y: area.y.saturating_add(1) }
    }

    /// What that means, and what can be done.
    pub(in crate::screens::walk) fn ways(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect, why: Shut) {
        let next = walk_order::next_open(model, Some(state.bench()));
        let next = next.map_or_else(
            || walk_order::all_walked(model, "All"),
            |next| format!("Enter: {next}, the next open bench."),
        );
        let cells = usize::from(area.width);
        let lines =
            wrap(&shut::meaning(why, model), cells).into_iter().chain([String::new()]).chain(wrap(&next, cells));
        for (row, line) in lines.enumerate() {
            put(frame, area, row, Span::raw(line));
        }
    }
}
