//! The page of the first run: no season is open yet.

pub use view::view;

use crate::keys::Command;
use crate::model::{Effect, Msg, PlanAsk, Response, go};

/// Nothing to remember.
#[derive(Debug, Clone, Default)]
pub struct State {}

/// How to start your own season.
const HOW: &str = "\
A season is one file. It is made by form (press s on the first page), or from a journal: a text file with one line for each \
item in the plan.

1. Write the journal in any editor. Five kinds of line make a plan (each on one line):
   {\"type\":\"journal\",\"version\":2}
   {\"type\":\"site\",\"name\":\"...\",\"latitude\":44.1,\"longitude\":-70.2,\"time_zone\":\"America/New_York\",\"units\":\"us\"}
   {\"type\":\"lot\",\"lot\":\"L1\",\"cultivar\":\"mid red\",\"container\":\"6.5 in\",\"cuttings_per_pot\":1,\"pots\":240,\
\"planted\":\"2026-08-17\",\"pinch\":\"soft\",\"response_weeks\":9,\"nights\":\"natural\",\"ready_by\":\"2026-11-27\"}
   {\"type\":\"bench\",\"bench\":\"E1\",\"house\":\"East\",\"order\":1}
   {\"type\":\"placement\",\"bench\":\"E1\",\"lot\":\"L1\",\"pots\":80,\"from\":\"2026-08-17\"}
   One site line; a lot line for each lot; a bench line for each bench; a placement line for each lot on a bench.

2. Import it: press i here, or run `benchwalk import FILE`. Errors are listed by line and field; nothing is imported \
unless every line is good.

3. Walk: press w on the Round. Each digit is saved at once.

`benchwalk help journal` says what every field means. `benchwalk export` writes the whole season to a file at any time.";

/// Handles a message.
pub fn update(msg: &Msg) -> Response {
    Some(match msg {
        Msg::Do(Command::SetUp) => vec![Effect::page(go::Page::SetUp), Effect::popup(go::Popup::Plan(PlanAsk::Site))],
        Msg::Do(Command::Demo) => vec![Effect::OpenDemo],
        Msg::Do(Command::Import) => vec![Effect::popup(go::Popup::Path)],
        Msg::Do(Command::HowToStart) => vec![Effect::popup(go::Popup::Text("How to start", HOW.to_owned()))],
        _ => return None,
    })
}

mod view {
    use super::State;
    use crate::model::Model;
    use crate::ui::list::on_row;
    use crate::ui::{Role, put, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::{Line, Span};

    const WELCOME: &str = "There is no season file yet. Benchwalk keeps one season of a potted poinsettia crop: you walk the \
benches in the morning and score what is due, and in the evening it says which benches need you and why.";

    const CHOICES: [(&str, &str); 4] = [
        ("s", "Set up your own season by form: the site, lots, benches."),
        ("d", "Open the demo: a made-up season of 24 benches to practice on."),
        ("i", "Import a journal: your own benches, lots and entries from a text file."),
        ("h", "Read how to start, with a sample journal."),
    ];

    /// Draws it.
    pub fn view(_state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let cells = usize::from(area.width.min(76));
        let mut row = 1_usize;
        for line in wrap(WELCOME, cells) {
            put(frame, area, row, Line::raw(line));
            row = row.saturating_add(1);
        }
        row = row.saturating_add(1);
        let start = row;
        for (key, text) in CHOICES {
            for (i, line) in wrap(text, cells.saturating_sub(6)).into_iter().enumerate() {
                let lead = if i == 0 { format!("  {key}   ") } else { " ".repeat(6) };
                put(
                    frame,
                    area,
                    row,
                    Line::from(vec![Span::styled(lead, model.look.style(Role::Key)), Span::raw(line)]),
                );
                row = row.saturating_add(1);
            }
        }
        let at = row.saturating_add(1);
        put(frame, area, at, Line::raw(format!("The season file will be {}", model.path)));
        Some(Position { x: area.x.saturating_add(2), ..on_row(area, start) })
    }
}
