//! A text to read: the keys of a screen, or a page of help.

pub use view::view;

use crate::controls::List;
use crate::keys::{Command, Context, Row, rows_of, table};
use crate::model::{Effect, Go, Model, Msg, Response};
use crate::popups::columns;

/// The title of the list of keys.
const KEYS: &str = "Keys";

/// One line of the text.
#[derive(Debug, Clone)]
enum Item {
    Head(&'static str),
    Key(&'static Row),
    Text(String),
}

/// The text, and how far it is scrolled.
#[derive(Debug, Clone)]
pub struct State {
    title: &'static str,
    items: Vec<Item>,
    list: List,
}

impl State {
    /// The keys of a context first, then all others.
    pub fn keys(context: Context) -> Self {
        let mut items = Vec::new();
        let around = context.chain();
        let others = Context::ALL.iter().filter(|c| !around.contains(c));
        for context in around.iter().chain(others) {
            items.push(Item::Head(context.text()));
            let rows = table().filter(|r| r.context == *context);
            items.extend(rows.map(Item::Key));
            items.extend(signs(*context).iter().map(|line| Item::Text((*line).to_owned())));
            items.push(Item::Text(String::new()));
        }
        debug_assert!(rows_of(context).next().is_some(), "every context has keys");
        Self { title: KEYS, items, list: List::default() }
    }

    /// A text.
    pub fn text(title: &'static str, text: &str) -> Self {
        Self { title, items: text.lines().map(|l| Item::Text(l.to_owned())).collect(), list: List::default() }
    }

    /// True for the keys.
    pub fn lists_keys(&self) -> bool {
        self.title == KEYS
    }
}

/// What the signs of a page mean, below its keys.
const fn signs(context: Context) -> &'static [&'static str] {
    match context {
        Context::Round => &[
            "  Signs: !! urgent, ! act, ? watch; of its lot or house where it says so.",
            "  Water: 5 reversed, 1 underlined; today's digit stands apart.",
            "  Map of a wide window: # walked, . not, ! flagged and not walked, x closed.",
        ],
        _ => &[],
    }
}

/// Handles a message.
pub fn update(state: &mut State, model: &mut Model, msg: &Msg) -> Response {
    let room = if state.lists_keys() { model.size.0 } else { columns(model) };
    let (across, cells) = view::columns(state, room.max(1));
    let height = usize::from(model.size.1.saturating_sub(5)).max(1).saturating_mul(across);
    let last = view::lines(state, model, cells).len().saturating_sub(height);
    let Msg::Do(command) = msg else { return None };
    if *command == Command::Back {
        return Some(vec![Effect::Go(Go::Back)]);
    }
    state.list.scroll(*command, last, height).then(Vec::new)
}

mod view {
    use super::{Item, State};
    use crate::keys::{Command, Row};
    use crate::model::Model;
    use crate::ui::regions::{Room, TEXT, text_cells};
    use crate::ui::{Role, fit, list, panel, width, wrap};
    use ratatui::Frame;
    use ratatui::layout::{Position, Rect};
    use ratatui::text::{Line, Span};

    /// Cells of the keys before what they do.
    const KEYS: usize = 19;

    /// Cells between two columns.
    const GAP: u16 = 3;

    /// How many columns of text stand side by side, and the cells of each.
    pub(super) fn columns(state: &State, room: u16) -> (usize, usize) {
        match Room::of(room) {
            Room::Wide | Room::Widest if state.lists_keys() => {
                (2, usize::from((room.saturating_sub(GAP) / 2).min(TEXT)))
            }
            _ => (1, text_cells(room)),
        }
    }

    /// The text, a row each.
    pub(super) fn lines(state: &State, model: &Model, cells: usize) -> Vec<Line<'static>> {
        let look = model.look;
        let mut lines = Vec::new();
        for item in &state.items {
            match item {
                Item::Head(text) => lines.push(Line::styled(*text, look.style(Role::Head))),
                Item::Text(text) => lines.extend(set(text, cells).into_iter().map(Line::raw)),
                Item::Key(row) => {
                    let key = row.shown();
                    for (i, part) in
                        wrap(help(row, model), cells.saturating_sub(KEYS.saturating_add(2))).into_iter().enumerate()
                    {
                        let lead = fit(if i == 0 { &key } else { "" }, KEYS);
                        let lead = Span::styled(format!("  {lead}"), look.style(Role::Key));
                        lines.push(Line::from(vec![lead, Span::raw(part)]));
                    }
                }
            }
        }
        lines
    }

    /// What a key does; that everything is saved is said only where it is.
    fn help(row: &Row, model: &Model) -> &'static str {
        match row.command {
            Command::Quit if !model.pending.is_empty() => "Quit; what is not saved yet is kept or printed.",
            _ => row.help,
        }
    }

    /// A line of the text in the room there is. A record of a journal is broken after a comma only, and the lines of a point
    /// (`1. Write ...`) stand below its first word.
    fn set(text: &str, cells: usize) -> Vec<String> {
        let words = text.trim_start();
        let lead = text.get(..text.len().saturating_sub(words.len())).unwrap_or_default();
        if words.starts_with('{') {
            return record(lead, words, cells);
        }
        let point = words.get(..3).filter(|p| p.starts_with(|c: char| c.is_ascii_digit()) && p.ends_with(". "));
        let Some(rest) = point.and_then(|_| words.get(3..)) else { return wrap(text, cells) };
        let lines = wrap(&format!("{}{rest}", " ".repeat(lead.len().saturating_add(3))), cells);
        let first = |(i, line): (usize, String)| match point.filter(|_| i == 0) {
            Some(point) => format!("{lead}{point}{}", line.trim_start()),
            None => line,
        };
        lines.into_iter().enumerate().map(first).collect()
    }

    /// A record on one line where it fits, else broken after its commas; what goes on stands further in.
    fn record(lead: &str, words: &str, cells: usize) -> Vec<String> {
        let (mut lines, mut line) = (Vec::new(), lead.to_owned());
        for piece in words.split_inclusive(',') {
            let full = width(&line).saturating_add(width(piece)) > u16::try_from(cells).unwrap_or(u16::MAX);
            if full && !line.trim_start().is_empty() {
                lines.push(std::mem::replace(&mut line, format!("{lead}  ")));
            }
            line.push_str(piece);
        }
        lines.push(line);
        // In a very narrow window a piece alone may still be too long.
        lines
            .iter()
            .flat_map(|line| if usize::from(width(line)) > cells { wrap(line, cells) } else { vec![line.clone()] })
            .collect()
    }

    /// Draws it.
    pub fn view(state: &State, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let body = panel(frame, area, usize::from(area.height), state.title, model.look);
        let (across, cells) = columns(state, body.width);
        let (lines, height) = (lines(state, model, cells), usize::from(body.height));
        for column in 0..across {
            let left = cells.saturating_add(usize::from(GAP)).saturating_mul(column);
            let x = body.x.saturating_add(u16::try_from(left).unwrap_or(u16::MAX));
            let place = Rect { x, width: u16::try_from(cells).unwrap_or(body.width), ..body }.intersection(body);
            let seen = lines.iter().skip(height.saturating_mul(column)).cloned();
            list::text(frame, place, state.list.top(), seen);
        }
        Some(Position { x: body.x, y: body.y })
    }

    #[cfg(test)]
    mod tests {
        use super::set;

        #[test]
        fn a_record_is_broken_after_a_comma_only_and_a_point_hangs() {
            let lot = r#"   {"type":"lot","lot":"L1","cultivar":"mid red"}"#;
            assert_eq!(set(lot, 60), [lot]);
            assert_eq!(set(lot, 30), [r#"   {"type":"lot","lot":"L1","#, r#"     "cultivar":"mid red"}"#]);
            assert_eq!(set("2. Import it: key i.", 14), ["2. Import it:", "   key i."]);
            assert_eq!(set("24 benches", 14), ["24 benches"]);
        }
    }
}
