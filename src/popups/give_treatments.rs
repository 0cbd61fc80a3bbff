//! The question before the treatments of a trial are logged as given: what goes on which plots, weighed out.

pub use view::view;

use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::record::{Plot, Trial};
use crate::units::plain;

/// The trial, and what would be logged, a line for each treatment.
#[derive(Debug, Clone)]
pub struct State {
    trial: String,
    lines: Vec<String>,
}

impl State {
    /// Of the plots whose treatment is not logged yet.
    pub fn new(trial: String, model: &Model) -> Self {
        let plots = model.not_given(&trial);
        let lines = model.season.trial(&trial).map(|trial| lines(trial, &plots)).unwrap_or_default();
        Self { trial, lines }
    }
}

/// What goes on which plots: `12 g: plots 3, 7, 12; 6 pots, 72 g`; and the total.
fn lines(trial: &Trial, plots: &[Plot]) -> Vec<String> {
    let grams = trial.rates_are_grams();
    let (mut lines, mut all) = (Vec::new(), 0.0);
    for treatment in &trial.treatments {
        let own: Vec<&Plot> = plots.iter().filter(|plot| plot.treatment == *treatment).collect();
        if own.is_empty() {
            continue;
        }
        let numbers: Vec<String> = own.iter().map(|plot| plot.number().to_string()).collect();
        let pots: u32 = own.iter().map(|plot| plot.pots).sum();
        let total = trial.rate(treatment).unwrap_or_default() * f64::from(pots);
        all += total;
        let weighed = if grams { format!(", {} g", plain(total)) } else { String::new() };
        let pots = if pots == 1 { "1 pot".to_owned() } else { format!("{pots} pots") };
        lines.push(format!("{treatment}: plots {}; {pots}{weighed}", numbers.join(", ")));
    }
    if grams {
        lines.push(format!("To weigh out in all: {} g.", plain(all)));
    } else {
        lines.push("Each plot gets a note with its treatment.".to_owned());
    }
    lines
}

/// Handles a message.
pub fn update(state: &State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Do(Command::Accept) => Some(match model.give_treatments(&state.trial) {
            Ok(effect) => vec![effect, Effect::Go(Go::Back)],
            Err(faults) => {
                model.refuse(&faults);
                vec![Effect::Go(Go::Back)]
            }
        }),
        Msg::Do(Command::Back) => Some(vec![Effect::Go(Go::Back)]),
        _ => None,
    }
}

mod view {
    use super::State;
    use crate::model::Model;
    use crate::ui::{list, panel, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Line;

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let cells = usize::from(area.width.max(1));
        let head = "Enter logs these as given, now and all at once; Esc goes back.".to_owned();
        let lines = std::iter::once(&head).chain(&state.lines).flat_map(|line| wrap(line, cells));
        let lines: Vec<Line<'_>> = lines.map(Line::raw).collect();
        let title = format!("Trial {}: log the treatments as given?", state.trial);
        let body = panel(frame, area, lines.len().saturating_add(1), &title, model.look);
        list::text(frame, body, 0, lines);
        Some(Position { x: body.x, y: body.y })
    }
}
