//! A text to read: the keys of a screen, or a page of help.

mod view;

pub use view::view;

use crate::keys::{Command, Context, rows_of, table};
use crate::model::{Effect, Msg, Shared, To};

/// One line of the text.
#[derive(Debug, Clone)]
enum Item {
    Head(&'static str),
    Key(String, &'static str),
    Text(String),
}

/// The text, and how far it is scrolled.
#[derive(Debug, Clone)]
pub struct State {
    title: &'static str,
    items: Vec<Item>,
    top: usize,
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
            items.extend(rows.map(|r| Item::Key(r.shown(), r.help)));
            items.push(Item::Text(String::new()));
        }
        debug_assert!(rows_of(context).next().is_some(), "every context has keys");
        Self { title: "Keys", items, top: 0 }
    }

    /// A text.
    pub fn text(title: &'static str, text: &str) -> Self {
        Self { title, items: text.lines().map(|l| Item::Text(l.to_owned())).collect(), top: 0 }
    }
}

/// Takes what it is told.
pub fn update(state: &mut State, shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
    let height = usize::from(shared.size.1.saturating_sub(5)).max(1);
    let last = view::lines(state, shared, usize::from(shared.size.0.max(1))).len().saturating_sub(height);
    let Msg::Do(command) = msg else { return Vec::new() };
    match command {
        Command::Down => state.top = state.top.saturating_add(1),
        Command::Up => state.top = state.top.saturating_sub(1),
        Command::PageDown => state.top = state.top.saturating_add(height),
        Command::PageUp => state.top = state.top.saturating_sub(height),
        Command::First => state.top = 0,
        Command::Last => state.top = last,
        Command::Back => return vec![Effect::Go(To::Back)],
        _ => {}
    }
    state.top = state.top.min(last);
    Vec::new()
}
