//! The code of a label, typed or scanned after its `=`: Enter goes to the bench or plot, an unknown code says so.

pub use view::view;

use crate::controls::Field;
use crate::keys::Command;
use crate::model::go::Label;
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::report::labels::SIGN;
use crate::season::places;

/// What is typed, and why it was refused.
#[derive(Debug, Clone, Default)]
pub struct State {
    field: Field,
    fault: Option<String>,
}

impl State {
    /// The line with what is known of the code already.
    pub fn new(text: &str) -> Self {
        let mut state = Self::default();
        state.take(text);
        state
    }

    /// Takes a scanned text: one that begins with the sign is a code of its own.
    fn take(&mut self, text: &str) {
        if let Some(code) = scanned(text) {
            self.field = Field::holding(code);
        } else {
            self.field.paste(text.trim());
        }
        self.fault = None;
    }
}

/// The code in a text that a scanner delivers whole: what stands behind the sign, on one line.
pub fn scanned(text: &str) -> Option<&str> {
    text.trim().strip_prefix(SIGN).filter(|code| !code.contains('\n'))
}

/// What a code names; letters mean the same in either case, as a scanner types capitals the wrong way round under Caps Lock.
pub fn named(code: &str, model: &Model) -> Option<Label> {
    let code = code.trim();
    if let Some(bench) = places::code(&model.season, code) {
        return Some(Label::Bench(bench));
    }
    let trials = model.season.trials();
    let mut plots = trials.iter().flat_map(|trial| model.season.plots(&trial.trial));
    let plot = plots.find(|plot| plot.plot.eq_ignore_ascii_case(code))?;
    Some(Label::Plot(plot.trial.clone(), plot.plot.clone()))
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        // The next scan begins.
        Msg::Type(key) if key.typed() == Some(SIGN) => *state = State::default(),
        Msg::Type(key) => {
            state.field.key(key);
            state.fault = None;
        }
        Msg::Paste(text) => state.take(text),
        Msg::Do(Command::Back) => return Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(Command::Accept) => match named(state.field.text(), model) {
            Some(label) => return Some(vec![Effect::Go(Go::Label(label))]),
            None => state.fault = Some(unknown(state.field.text().trim())),
        },
        _ => return None,
    }
    Some(Vec::new())
}

fn unknown(code: &str) -> String {
    if code.is_empty() {
        return "type or scan the code of a bench or plot, such as E3".to_owned();
    }
    format!("{code} is no bench or plot of this season; nothing was logged")
}

mod view {
    use super::State;
    use crate::model::Model;
    use crate::ui::{Role, line_of, panel, put, typed, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::Span;

    /// What stands before the line.
    const LABEL: &str = "code: ";

    /// Draws it; the cursor stands where one types.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let look = model.look;
        let fault = state.fault.as_ref().map(|fault| format!("! {fault}")).unwrap_or_default();
        let faults = wrap(&fault, usize::from(area.width));
        let body = panel(frame, area, faults.len().saturating_add(3), "Code of a bench or plot label", look);
        let place = line_of(body, 0);
        put(frame, place, 0, Span::raw(LABEL));
        let label = u16::try_from(LABEL.len()).unwrap_or(0).min(place.width);
        let place = Rect { x: place.x.saturating_add(label), width: place.width.saturating_sub(label), ..place };
        let room = usize::from(place.width.saturating_sub(3));
        let shown = (state.field.text(), state.field.cursor(), state.field.scroll(room));
        let cursor = typed(frame, place, shown, look);
        for (row, line) in (1..).zip(faults) {
            put(frame, body, row, Span::styled(line, look.style(Role::Act)));
        }
        cursor
    }
}
