//! The list of trials, or what a trial answers where there is none.

pub use view::view;

use crate::controls::{List, page};
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response, go};

/// Where the cursor is.
#[derive(Debug, Clone, Copy, Default)]
pub struct State {
    list: List,
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let trials: Vec<String> = model.season.trials().iter().map(|trial| trial.trial.clone()).collect();
    state.list.clamp(trials.len());
    let Msg::Do(command) = msg else { return None };
    Some(match command {
        Command::Back => vec![Effect::Go(Go::Back)],
        Command::Add => vec![Effect::popup(go::Popup::NewTrial)],
        Command::Accept => {
            let trial = trials.get(state.list.cursor());
            if trial.is_none() {
                model.say("No trial to open yet.");
            }
            trial.map(|trial| Effect::page(go::Page::Trial(trial.clone()))).into_iter().collect()
        }
        other => return state.list.step(*other, trials.len(), page(model.size.1)).then(Vec::new),
    })
}

mod view {
    use super::State;
    use crate::dates;
    use crate::model::Model;
    use crate::record::Trial;
    use crate::ui::list::{Follow, list, on_row};
    use crate::ui::{Role, fit, put, rows, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::{Line, Span};

    /// What a trial answers.
    const NONE: &str = "There is no trial in this season.\n\
\n\
A trial answers whether the treatment made the difference, or the place on the bench. Pots that got more slow-release look \
greener, but they also stood together, at the warm end or near the aisle: with each rate in a spot of its own nobody can \
tell the two apart, however many pots it has.\n\
\n\
Here every treatment stands in several places, drawn by lot, in blocks across the way growth differs. The plots are read \
by single keys on the walk, by number, without knowing the treatment. Then this page says which treatments are told apart, \
by how much, what position explains, and how small a difference would have been missed.\n\
\n\
`benchwalk trial plan` says how many plots it takes.";

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let trials = model.season.trials();
        if trials.is_empty() {
            for (row, line) in wrap(NONE, usize::from(area.width.min(76))).into_iter().enumerate() {
                put(frame, area, row, Line::raw(line));
            }
            return Some(on_row(area, 0));
        }
        let look = model.look;
        let (head, body) = rows(area, 2);
        put(
            frame,
            head,
            0,
            Line::styled(cells("trial", "lot", "plots", "last reading", "question"), look.style(Role::Head)),
        );
        let row = |at: usize, chosen: bool| {
            let text = trials.get(at).map(|trial| line(trial, model)).unwrap_or_default();
            let (sign, role) = if chosen { (look.glyphs().here, Role::Chosen) } else { (" ", Role::Plain) };
            let text = format!("{sign} {text}");
            let text = if chosen { fit(&text, usize::from(body.width)) } else { text };
            Line::from(Span::styled(text, look.style(role)))
        };
        let body = Rect { y: body.y.saturating_sub(1), height: body.height.saturating_add(1), ..body };
        Some(list(frame, body, (state.list.cursor(), trials.len()), Follow::Edge, row))
    }

    fn cells(code: &str, lot: &str, plots: &str, last: &str, question: &str) -> String {
        format!("  {} {} {plots:>5}  {} {question}", fit(code, 10), fit(lot, 8), fit(last, 13))
    }

    /// A trial in one line.
    fn line(trial: &Trial, model: &Model) -> String {
        let plots = model.season.plots(&trial.trial).len().to_string();
        let until = trial.until.map_or_else(String::new, dates::short);
        let until = if trial.ended_because.is_some() { format!("{until} (ended)") } else { until };
        cells(&trial.trial, &trial.lot, &plots, &until, &trial.question).trim_start().to_owned()
    }
}
