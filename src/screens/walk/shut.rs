//! The card of a bench that cannot be walked now, because it was closed or emptied while the card was open. It takes no
//! observation: one can only go on, go back, or void the treatment.

pub(super) use view::{BAND, band, view, ways};

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
    use crate::dates;
    use crate::model::Model;
    use crate::model::walk_order::{self, Shut};
    use crate::ui::{Role, fit, put, rows, wrap};
    use chrono::Datelike;
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Span;

    /// Rows of the band.
    pub(in crate::screens::walk) const BAND: u16 = 3;

    /// Draws why, across the whole width, and what can be done.
    pub(in crate::screens::walk) fn view(
        state: &State,
        model: &Model,
        frame: &mut Frame<'_>,
        area: Rect,
        why: Shut,
    ) -> Position {
        let (above, below) = rows(area, BAND);
        band(state, model, frame, above, why);
        ways(state, model, frame, rows(below, 1).1, why);
        Position { x: area.x.saturating_add(1), y: area.y.saturating_add(1) }
    }

    /// The band that says why.
    pub(in crate::screens::walk) fn band(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect, why: Shut) {
        let band = match why {
            Shut::Closed(until) => {
                let day = until.date_naive();
                let day = if day.year() == model.day.year() { dates::weekday(day) } else { dates::long(day) };
                format!("CLOSED UNTIL {day} {}", dates::time(&until))
            }
            Shut::Empty => format!("{} IS EMPTY", state.bench()),
            Shut::Unread => "CANNOT BE WALKED".to_owned(),
        };
        let urgent = model.look.style(Role::Urgent);
        for (row, text) in ["", band.as_str(), ""].into_iter().enumerate() {
            put(frame, area, row, Span::styled(fit(&format!(" {text}"), usize::from(area.width)), urgent));
        }
    }

    /// What that means, and what can be done.
    pub(in crate::screens::walk) fn ways(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect, why: Shut) {
        let what = match why {
            Shut::Closed(_) => "Stay out; no entries until then (by this log; follow the posted sign).",
            Shut::Empty => "Nothing is scored on a bench without pots.",
            Shut::Unread => "The season could not be read, so it is not known which benches are closed.",
        };
        let next = walk_order::next_open(model, Some(state.bench()));
        let next = next.map_or_else(
            || walk_order::all_walked(model, "All"),
            |next| format!("Enter: {next}, the next open bench."),
        );
        let cells = usize::from(area.width);
        let lines = wrap(what, cells).into_iter().chain([String::new()]).chain(wrap(&next, cells));
        for (row, line) in lines.enumerate() {
            put(frame, area, row, Span::raw(line));
        }
    }
}
