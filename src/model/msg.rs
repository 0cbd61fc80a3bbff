//! What screens are told ([`Msg`]) and what they ask for ([`Effect`]).

use super::{Ask, Mixing, PlanAsk};
use crate::input::Key;
use crate::keys::Command;
use crate::record::{Entry, Line, Place, Plan};
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

/// Where to go.
#[derive(Debug, Clone, PartialEq)]
pub enum To {
    /// To the Round.
    Round,
    /// To the Walk card of a bench; `None`: the first not walked.
    Walk(Option<String>),
    /// To the Evening review.
    Review,
    /// To a bench's page.
    Bench(String),
    /// To the Mixing page.
    Mixing(Mixing),
    /// To the Season page.
    Season,
    /// To the first-run page.
    First,
    /// To the Set-up page.
    SetUp,
    /// Back to the Walk card, to ask this check.
    Check(CheckName),
    /// To the page or popup one came from.
    Back,
    /// Up: the keys.
    Keys,
    /// Up: a page of text with its title.
    Text(&'static str, String),
    /// Up: a note to write.
    Note(Place),
    /// Up: what the leaves of a bench show.
    Leaves(String),
    /// Up: further checks and work of a bench.
    More(String),
    /// Up: one line for one kind of entry of a bench (see `popups/prompt`).
    Line(crate::record::KindName, String),
    /// Up: a form to fill in.
    Form(Box<Ask>),
    /// Up: the list of all that can be written down by a form, for a place or for benches marked.
    Add(Place, Vec<String>),
    /// Up: what answers these warnings, one trouble's.
    Answer(Vec<crate::warnings::Warning>),
    /// Up: which of these warnings is to be put off.
    PutOff(Vec<crate::warnings::Warning>),
    /// Up: everything written of a bench, to strike something out.
    Written(String),
    /// Up: a form for the plan.
    Plan(PlanAsk),
    /// Up: who writes.
    Who,
    /// Up: the path of a journal.
    Path,
}

/// What a screen asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Keep these lines.
    Append(Vec<Line>),
    /// Keep these lines of the plan, all or none; the site's first line begins the season file.
    KeepPlan(Vec<Line>),
    /// Go somewhere (`app` does this one).
    Go(To),
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
