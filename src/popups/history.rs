//! Everything written of a bench, newest first, to strike something out; what was struck out stays in the list.

pub use view::view;

use crate::keys::Command;
use crate::model::{Ask, Effect, Go, Model, Msg, go};
use crate::record::KindName;
use crate::season::Written;

/// Where the mark stands.
#[derive(Debug, Clone)]
pub struct State {
    bench: String,
    at: usize,
}

impl State {
    /// The mark on the newest.
    pub const fn new(bench: String) -> Self {
        Self { bench, at: 0 }
    }
}

/// What was written, newest first.
fn all<'s>(state: &State, shared: &'s Model) -> Vec<Written<'s>> {
    let mut all = shared.season.written(&state.bench);
    all.reverse();
    all
}

/// Takes what it is told.
pub fn update(state: &mut State, shared: &mut Model, msg: &Msg) -> Vec<Effect> {
    let many = all(state, shared).len();
    let page = usize::from(shared.size.1.saturating_sub(8)).max(1);
    match msg {
        Msg::Do(Command::Down) => state.at = state.at.saturating_add(1),
        Msg::Do(Command::Up) => state.at = state.at.saturating_sub(1),
        Msg::Do(Command::PageDown) => state.at = state.at.saturating_add(page),
        Msg::Do(Command::PageUp) => state.at = state.at.saturating_sub(page),
        Msg::Do(Command::Back) => return vec![Effect::Go(Go::Back)],
        Msg::Do(Command::Accept) => return strike(state, shared),
        _ => {}
    }
    state.at = state.at.min(many.saturating_sub(1));
    Vec::new()
}

/// The form that strikes the marked one out.
fn strike(state: &State, shared: &mut Model) -> Vec<Effect> {
    let (ids, why) = {
        let all = all(state, shared);
        let Some(one) = all.get(state.at) else { return Vec::new() };
        let why = if one.struck_by.is_some() {
            "It is struck out already."
        } else if one.entry.name() == KindName::Strike {
            "A strike cannot be struck out: write the entry again instead."
        } else {
            ""
        };
        (vec![one.entry.id], why)
    };
    if !why.is_empty() {
        shared.say(why);
        return Vec::new();
    }
    Ask::strike(&ids, shared).map(|ask| Effect::popup(go::Popup::Form(Box::new(ask)))).into_iter().collect()
}

mod view {
    use super::{State, all};
    use crate::dates;
    use crate::model::Model;
    use crate::record::Place;
    use crate::report::entry;
    use crate::season::Written;
    use crate::ui::{Role, fit, panel, put};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Span;

    /// Draws it.
    pub fn view(state: &State, shared: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let look = shared.look;
        let all = all(state, shared);
        let rows = u16::try_from(all.len().max(1)).unwrap_or(u16::MAX).saturating_add(1);
        let title = format!("Written of {}: Enter strikes out what is marked", state.bench);
        let body = panel(frame, area, rows, &title, look);
        if all.is_empty() {
            put(frame, body, 0, Span::raw("Nothing yet."));
        }
        let top = state.at.saturating_sub(usize::from(body.height.saturating_sub(1)));
        for (i, one) in all.iter().enumerate().skip(top).take(usize::from(body.height)) {
            let mark = if i == state.at { look.glyphs().here } else { " " };
            let role = match (i == state.at, one.struck_by.is_some()) {
                (true, _) => Role::Chosen,
                (false, true) => Role::Struck,
                (false, false) => Role::Plain,
            };
            let line = fit(&format!("{mark} {}", text(state, shared, one)), usize::from(body.width));
            let row = u16::try_from(i.saturating_sub(top)).unwrap_or(u16::MAX);
            put(frame, body, row, Span::styled(line, look.style(role)));
        }
        let y = body.y.saturating_add(u16::try_from(state.at.saturating_sub(top)).unwrap_or(0));
        Some(Position { x: body.x, y })
    }

    /// `Mon Oct 5 07:10 ml  water 4`, with a word where it is struck out or of more than the bench.
    fn text(state: &State, shared: &Model, one: &Written<'_>) -> String {
        let struck = one.struck_by.map_or("", |_| "STRUCK OUT: ");
        let place = match &one.entry.place {
            Place::Bench(code) if *code == state.bench => String::new(),
            place => format!("{} {}: ", place.field(), place.code()),
        };
        let what = entry::line(one.entry, shared.system());
        let (on, time) = (dates::weekday(one.entry.day()), dates::time(&one.entry.at));
        format!("{on} {time} {}  {struck}{place}{what}", one.entry.by)
    }
}
