//! What an earlier run could not save: to be saved now, or left for later.

pub use view::view;

use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Rescued, Response};

/// The journals, the one that is offered first.
#[derive(Debug, Clone)]
pub struct State {
    journals: Vec<Rescued>,
}

impl State {
    /// Of these journals.
    pub const fn new(journals: Vec<Rescued>) -> Self {
        Self { journals }
    }
}

/// Handles a message. One journal is saved at a time; what is left is offered when the season is opened again.
pub fn update(state: &State, _model: &Model, msg: &Msg) -> Response {
    let take = |rescued: &Rescued| Effect::TakeRescued(rescued.path.clone());
    match msg {
        Msg::Do(Command::Accept) => {
            let effects = state.journals.first().map(take).into_iter();
            Some([Effect::Go(Go::Back)].into_iter().chain(effects).collect())
        }
        Msg::Do(Command::Back) => Some(vec![Effect::Go(Go::Back)]),
        _ => None,
    }
}

mod view {
    use super::State;
    use crate::model::{Model, Rescued};
    use crate::record::Line;
    use crate::ui::{list, panel, wrap};
    use crate::{dates, report};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Line as Row;

    /// Lines that are named one by one.
    const NAMED: usize = 5;

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let cells = usize::from(area.width.max(1));
        let rows: Vec<String> = text(state, model).iter().flat_map(|text| wrap(text, cells)).collect();
        let body = panel(frame, area, rows.len().saturating_add(1), "Not saved when the program ended", model.look);
        list::text(frame, body, 0, rows.into_iter().map(Row::raw));
        Some(Position { x: body.x, y: body.y })
    }

    /// What it says, a paragraph each.
    fn text(state: &State, model: &Model) -> Vec<String> {
        let Some(rescued) = state.journals.first() else { return Vec::new() };
        let mut text = vec![
            what(rescued, model),
            "Enter saves this now; Esc keeps it for the next start.".to_owned(),
            format!("It is in {}", rescued.path),
        ];
        let more = state.journals.len().saturating_sub(1);
        if more > 0 {
            text.push(format!("{more} more such journals after this one."));
        }
        text
    }

    fn what(rescued: &Rescued, model: &Model) -> String {
        let lines = &rescued.lines;
        let days = lines.iter().filter_map(|line| match line {
            Line::Entry(entry) => Some(entry.day()),
            _ => None,
        });
        let span = match (days.clone().min(), days.clone().max()) {
            (Some(first), Some(last)) => format!(" of {}", dates::range(first, last)),
            _ => String::new(),
        };
        let all_entries = days.count() == lines.len();
        let what = match (lines.len(), all_entries) {
            (0, _) => {
                return "A journal of unsaved entries cannot be read. Enter shows what is wrong with it.".to_owned();
            }
            (1, true) => "1 entry".to_owned(),
            (1, false) => "1 line of the plan".to_owned(),
            (n, true) => format!("{n} entries"),
            (n, false) => format!("{n} entries and lines of the plan"),
        };
        let named: Vec<String> = lines.iter().take(NAMED).map(|line| said(line, model)).collect();
        let rest = if lines.len() > NAMED { ", .." } else { "" };
        let verb = if lines.len() == 1 { "was" } else { "were" };
        let named = format!("{}{rest}", named.join(", "));
        if rescued.refused {
            return format!("{what}{span} {verb} refused by the season file: {named}. Enter shows why.");
        }
        format!("{what}{span} {verb} not saved when the program ended: {named}")
    }

    fn said(line: &Line, model: &Model) -> String {
        match line {
            Line::Entry(entry) => {
                format!("{} {}", report::entry::about(entry), report::entry::line(entry, model.system()))
            }
            line => line.key().to_string(),
        }
    }
}
