//! What screens are told ([`Msg`]) and what they ask for ([`Effect`]).

use super::Go;
use super::go::{Page, Popup};
use crate::input::Key;
use crate::keys::Command;
use crate::record::{Entry, Line, Plan};
use crate::warnings::CheckName;
use uuid::Uuid;

/// What a screen or popup is told.
#[derive(Debug, Clone, PartialEq)]
pub enum Msg {
    /// A key that stands in the table.
    Do(Command),
    /// Any other key, where characters are typed.
    Type(Key),
    /// A pasted text.
    Paste(String),
    /// Nothing else waits to be worked out: slow work of the page may be done.
    Quiet,
    /// It has become another day; `Model::day` is the new one.
    NewDay,
    /// Ask this check on the Walk card, due or not.
    Ask(CheckName),
    /// Entries were written by a popup above, or reached the file: what is shown may have changed.
    Changed,
}

/// What came of an effect.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// These lines are safe in the file.
    Saved(Vec<Uuid>),
    /// They are not.
    NotSaved {
        /// The entries.
        ids: Vec<Uuid>,
        /// Why, in words.
        why: String,
        /// True when trying again may help (the file was busy); false when the file refuses them for good.
        again: bool,
    },
    /// These lines of the plan are safe in the file.
    PlanKept(Vec<Line>),
    /// They are not, and why.
    PlanNotKept(String),
    /// A season was opened: its plan is known, its entries follow.
    Opened {
        /// The plan.
        plan: Plan,
        /// Where the file lies.
        path: String,
    },
    /// The entries of the open season.
    Loaded(Vec<Entry>),
    /// It could not be opened.
    NotOpened(NotOpened),
}

/// Why a season could not be opened.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotOpened {
    /// A reason of one line.
    Trouble(String),
    /// The faults of a journal, a line each: a page to read.
    Faults(String),
}

/// What a screen asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Keep these lines.
    Append(Vec<Line>),
    /// Keep these lines of the plan, all or none; the site's first line begins the season file.
    KeepPlan(Vec<Line>),
    /// Go somewhere (`app` does this one).
    Go(Go),
    /// Make the demo season and open it.
    OpenDemo,
    /// Import the journal at this path into the season file, then open it.
    Import(String),
    /// Remember who writes.
    KeepBy(String),
    /// Draw everything anew.
    Redraw,
    /// Give the shell back for a while.
    Suspend,
    /// Leave the program.
    Quit,
}

impl Effect {
    /// Goes to a page.
    pub const fn page(page: Page) -> Self {
        Self::Go(Go::Page(page))
    }

    /// Goes up to a popup.
    pub const fn popup(popup: Popup) -> Self {
        Self::Go(Go::Popup(popup))
    }
}
