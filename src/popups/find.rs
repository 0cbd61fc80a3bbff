//! Finding a bench: the list narrows while a part of a code, house or lot is typed; Enter goes there, Esc leaves all as it was.

pub use view::view;

use crate::controls::{Field, List, page};
use crate::keys::Command;
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::record::Bench;

/// What is typed, and where the cursor is among the benches found.
#[derive(Debug, Clone, Default)]
pub struct State {
    field: Field,
    list: List,
}

/// How well a bench fits what was typed; the best first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Fit {
    /// The code itself.
    Code,
    /// The code begins with it.
    Begins,
    /// The code has it.
    Within,
    /// Its house or lot has it.
    Place,
}

/// The benches that fit, the best first, in walking order where they fit equally well; all while nothing is typed.
fn found<'m>(state: &State, model: &'m Model) -> Vec<&'m Bench> {
    let typed = state.field.text().trim().to_lowercase();
    let mut found: Vec<(Fit, &Bench)> =
        model.season.benches().iter().filter_map(|bench| Some((fit(&typed, bench, model)?, bench))).collect();
    found.sort_by_key(|(fit, _)| *fit);
    found.into_iter().map(|(_, bench)| bench).collect()
}

fn fit(typed: &str, bench: &Bench, model: &Model) -> Option<Fit> {
    let code = bench.bench.to_lowercase();
    if code == typed {
        return Some(Fit::Code);
    }
    if code.starts_with(typed) {
        return Some(Fit::Begins);
    }
    if code.contains(typed) {
        return Some(Fit::Within);
    }
    let lot = model.season.standing(&bench.bench, model.day).map(|s| s.lot).unwrap_or_default();
    let place = format!("house {}\nlot {lot}", bench.house).to_lowercase();
    place.contains(typed).then_some(Fit::Place)
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    match msg {
        Msg::Type(key) => {
            state.field.key(key);
            state.list = List::default();
        }
        Msg::Paste(text) => {
            state.field.paste(text);
            state.list = List::default();
        }
        Msg::Do(Command::Back) => return Some(vec![Effect::Go(Go::Back)]),
        Msg::Do(Command::Accept) => {
            let code = found(state, model).get(state.list.cursor()).map(|bench| bench.bench.clone());
            if let Some(code) = code {
                return Some(vec![Effect::Go(Go::Bench(code))]);
            }
            model.say("No bench has that in its code, house or lot.");
        }
        Msg::Do(command) => {
            let count = found(state, model).len();
            return state.list.step(*command, count, page(model.size.1)).then(Vec::new);
        }
        _ => return None,
    }
    Some(Vec::new())
}

mod view {
    use super::{State, found};
    use crate::model::{Model, Walked};
    use crate::record::Bench;
    use crate::ui::list::{Follow, list};
    use crate::ui::{Role, fit, line_of, panel, put, rows, typed};
    use crate::warnings::Severity;
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::{Line, Span};

    /// Rows of benches shown at most.
    const MOST: usize = 12;

    /// Draws it; the cursor stands where one types.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let look = model.look;
        let found = found(state, model);
        let title = format!(
            "Find: part of a code, house or lot  ({} of {} benches)",
            found.len(),
            model.season.benches().len()
        );
        let body = panel(frame, area, MOST.saturating_add(2), &title, look);
        let room = usize::from(body.width.saturating_sub(3));
        let shown = (state.field.text(), state.field.cursor(), state.field.scroll(room));
        let cursor = typed(frame, line_of(body, 0), shown, look);
        let (_, below) = rows(body, 1);
        if found.is_empty() {
            put(frame, below, 0, Line::raw("No bench has that in its code, house or lot."));
        }
        let wide = found.iter().map(|b| usize::from(crate::ui::width(&b.bench))).max().unwrap_or(0).clamp(4, 16);
        let row = |at: usize, chosen: bool| {
            let Some(bench) = found.get(at) else { return Line::default() };
            let mark = if chosen { look.glyphs().here } else { " " };
            let text = format!("{mark} {}  {}", fit(&bench.bench, wide), told(bench, model));
            let role = if chosen { Role::Chosen } else { Role::Plain };
            Line::from(Span::styled(fit(&text, usize::from(below.width)), look.style(role)))
        };
        list(frame, below, (state.list.cursor(), found.len()), Follow::Edge, row);
        cursor
    }

    /// `house East  lot L1  walked  !! staying wet`, or that it is empty or closed.
    fn told(bench: &Bench, model: &Model) -> String {
        let house = format!("house {}", bench.house);
        let Some(standing) = model.season.standing(&bench.bench, model.day) else { return format!("{house}  empty") };
        let summary = model.cache.bench(&bench.bench);
        let walked = match (model.closed_until(&bench.bench), summary.map(crate::model::Summary::walked)) {
            (Some(until), _) => format!("closed until {}", model.day_and_time(until)),
            (None, Some(Walked::Yes)) => "walked".to_owned(),
            (None, Some(Walked::Part(done, all))) => format!("{done} of {all} walked"),
            (None, Some(Walked::No) | None) => "not walked".to_owned(),
        };
        let mut warnings = model.standing_warnings(&bench.bench);
        warnings.sort_by_key(|w| std::cmp::Reverse(w.level));
        let warning = warnings.first().map_or_else(String::new, |w| format!("  {}", sign(w.level) + w.name.title()));
        format!("{house}  lot {}  {walked}{warning}", standing.lot)
    }

    fn sign(level: Severity) -> String {
        match level {
            Severity::Watch => "? ",
            Severity::Act => "! ",
            Severity::Urgent => "!! ",
        }
        .to_owned()
    }
}
