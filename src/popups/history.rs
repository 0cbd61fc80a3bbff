//! The log of a bench or a plot, newest first, to write an entry right or to void it; voided entries stay in the list. Of a plot
//! what was seen is listed: its work would name the treatment to the person who reads it.

pub use view::view;

use crate::controls::{List, page};
use crate::keys::Command;
use crate::model::{Effect, FormRequest, Go, Model, Msg, Response, go};
use crate::record::KindName;
use crate::season::Written;

/// Which bench or plot, and where the cursor is.
#[derive(Debug, Clone)]
pub struct State {
    /// The bench, or the plot by its code.
    of: String,
    is_plot: bool,
    list: List,
}

impl State {
    /// The cursor on the newest.
    pub const fn new(bench: String) -> Self {
        Self { of: bench, is_plot: false, list: List::at(0) }
    }

    /// The same of a plot.
    pub const fn of_plot(plot: String) -> Self {
        Self { of: plot, is_plot: true, list: List::at(0) }
    }
}

/// What was logged, newest first.
fn all<'s>(state: &State, model: &'s Model) -> Vec<Written<'s>> {
    let mut all = if state.is_plot { model.season.written_of_plot(&state.of) } else { model.season.written(&state.of) };
    all.retain(|one| !state.is_plot || one.entry.name().is_finding());
    all.reverse();
    all
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let many = all(state, model).len();
    match msg {
        Msg::Do(Command::Back) => return Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(Command::Accept) => return Some(strike(state, model)),
        Msg::Type(key) if key.typed().is_some_and(|c| c.eq_ignore_ascii_case(&'w')) => {
            return Some(write_right(state, model));
        }
        Msg::Do(command) => {
            return state.list.step(*command, many, page(model.size.1)).then(Vec::new);
        }
        _ => {}
    }
    state.list.clamp(many);
    Some(Vec::new())
}

/// The form that writes the one at the cursor right.
fn write_right(state: &State, model: &mut Model) -> Vec<Effect> {
    let (ask, why) = {
        let all = all(state, model);
        let Some(one) = all.get(state.list.cursor()) else { return Vec::new() };
        let why = match one.entry.name() {
            _ if one.struck_by.is_some() => "Already voided: log it again.",
            KindName::Strike => "A void cannot be written right: log the entry again.",
            KindName::PutOff => "Postpone it again on the evening page.",
            KindName::Job => "Void it, and tick the job again on the evening page.",
            _ => "",
        };
        (FormRequest::rights(one.entry), why)
    };
    if !why.is_empty() {
        model.say(why);
        return Vec::new();
    }
    vec![Effect::popup(go::Popup::Form(Box::new(ask)))]
}

/// The form that voids the one at the cursor.
fn strike(state: &State, model: &mut Model) -> Vec<Effect> {
    let (ids, why) = {
        let all = all(state, model);
        let Some(one) = all.get(state.list.cursor()) else { return Vec::new() };
        let why = if one.struck_by.is_some() {
            "Already voided."
        } else if one.entry.name() == KindName::Strike {
            "A void cannot be undone: log the entry again."
        } else {
            ""
        };
        (vec![one.entry.id], why)
    };
    if !why.is_empty() {
        model.say(why);
        return Vec::new();
    }
    model.strike_form(&ids).map(|ask| Effect::popup(go::Popup::Form(Box::new(ask)))).into_iter().collect()
}

mod view {
    use super::{State, all};
    use crate::dates;
    use crate::model::Model;
    use crate::report::entry;
    use crate::season::Written;
    use crate::ui::list::{Follow, list};
    use crate::ui::{Role, fit, panel, put};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::{Line, Span};

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let look = model.look;
        let all = all(state, model);
        let title = format!("Log of {}: w writes the selected entry right, Enter voids it", state.of);
        let body = panel(frame, area, all.len().max(1).saturating_add(1), &title, look);
        if all.is_empty() {
            put(frame, body, 0, Line::raw("Nothing logged yet."));
        }
        let row = |at: usize, chosen: bool| {
            let Some(one) = all.get(at) else { return Line::default() };
            let mark = if chosen { look.glyphs().here } else { " " };
            let role = match (chosen, one.struck_by.is_some()) {
                (true, _) => Role::Chosen,
                (false, true) => Role::Struck,
                (false, false) => Role::Plain,
            };
            let line = fit(&format!("{mark} {}", text(state, model, one)), usize::from(body.width));
            Line::from(Span::styled(line, look.style(role)))
        };
        Some(list(frame, body, (state.list.cursor(), all.len()), Follow::Edge, row))
    }

    /// `Mon Oct 5 07:10 kt  water 4`, with a word where it is voided or of more than the bench.
    fn text(state: &State, model: &Model, one: &Written<'_>) -> String {
        let struck = one.struck_by.map_or("", |_| "VOIDED: ");
        let place =
            if entry::about(one.entry) == state.of { String::new() } else { format!("{}: ", entry::named(one.entry)) };
        let what = entry::line(one.entry, model.system());
        let (on, time) = (dates::weekday(one.entry.day()), dates::time(&one.entry.at));
        let laptop = entry::laptop(model.season.origin(one.entry.id));
        format!("{on} {time} {}  {struck}{place}{what}{laptop}", one.entry.by)
    }
}
