//! What lies over a page: a text to read, a line to type, a list to pick from. A file or folder each.
//!
//! To add one: its file here, its variant in [`Popup`] with an arm in each function below, its way in
//! [`crate::model::To`].

pub mod add;
pub mod form;
pub mod leaves;
pub mod line;
pub mod more;
pub mod plan;
pub mod reading;
pub mod written;

use crate::keys::Context;
use crate::model::{Effect, Msg, Shared, To};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};

/// What lies over a page, with its state.
#[derive(Debug)]
pub enum Popup {
    /// A text to read.
    Reading(reading::State),
    /// A line to type.
    Line(line::State),
    /// What the leaves show.
    Leaves(leaves::State),
    /// Further checks and work.
    More(more::State),
    /// A form to fill in.
    Form(Box<form::State>),
    /// What can be written down by a form.
    Add(add::State),
    /// What was written of a bench.
    Written(written::State),
    /// A form of the plan.
    Plan(Box<plan::State>),
}

impl Popup {
    /// The popup one goes up to; `None` for what is no popup. `context` is where the keys were pressed.
    pub fn open(to: To, shared: &Shared, context: Context, _bench: Option<String>) -> Option<Self> {
        match to {
            To::Keys => Some(Self::Reading(reading::State::keys(context))),
            To::Text(title, text) => Some(Self::Reading(reading::State::text(title, &text))),
            To::Note(place) => Some(Self::Line(line::State::new(line::Purpose::Note(place), shared))),
            To::Line(kind, bench) => Some(Self::Line(line::State::new(line::Purpose::Entry(kind, bench), shared))),
            To::Who => Some(Self::Line(line::State::new(line::Purpose::Who, shared))),
            To::Path => Some(Self::Line(line::State::new(line::Purpose::Path, shared))),
            To::Leaves(bench) => Some(Self::Leaves(leaves::State::new(bench))),
            To::Form(ask) => Some(Self::Form(Box::new(form::State::new(*ask, shared)))),
            To::Add(place, benches) => Some(Self::Add(add::State::all(&place, &benches, shared))),
            To::Answer(warnings) => Self::chosen(add::State::answers(&warnings, shared), shared),
            To::PutOff(warnings) => Self::chosen(add::State::put_offs(&warnings), shared),
            To::Written(bench) => Some(Self::Written(written::State::new(bench))),
            To::Plan(ask) => Some(Self::Plan(Box::new(plan::State::new(ask, shared)))),
            To::More(bench) => Some(Self::More(more::State::new(bench))),
            To::Round
            | To::Walk(_)
            | To::Review
            | To::Bench(_)
            | To::Mixing(_)
            | To::First
            | To::SetUp
            | To::Check(_)
            | To::Season
            | To::Back => None,
        }
    }

    /// The one form of a list, or the list to choose from; `None` where it is empty.
    fn chosen(list: add::State, shared: &Shared) -> Option<Self> {
        match list.only() {
            Some(ask) => Some(Self::Form(Box::new(form::State::new(ask.clone(), shared)))),
            None if list.is_empty() => None,
            None => Some(Self::Add(list)),
        }
    }

    /// Where keys are pressed.
    pub const fn context(&self) -> Context {
        match self {
            Self::Reading(_) => Context::Reading,
            Self::Line(_) => Context::Line,
            Self::Form(_) | Self::Plan(_) => Context::Form,
            Self::Leaves(_) | Self::More(_) | Self::Add(_) | Self::Written(_) => Context::List,
        }
    }

    /// True where a key writes something down.
    pub const fn writes(&self) -> bool {
        match self {
            // A line of the plan names nobody.
            Self::Reading(_) | Self::Add(_) | Self::Written(_) | Self::Plan(_) => false,
            Self::Line(state) => state.writes(),
            Self::Leaves(_) | Self::More(_) | Self::Form(_) => true,
        }
    }

    /// True for the one that asks who writes.
    pub const fn asks_who(&self) -> bool {
        matches!(self, Self::Line(state) if state.asks_who())
    }

    /// Tells it something; says what is to be done.
    pub fn update(&mut self, shared: &mut Shared, msg: &Msg) -> Vec<Effect> {
        match self {
            Self::Reading(state) => reading::update(state, shared, msg),
            Self::Line(state) => line::update(state, shared, msg),
            Self::Leaves(state) => leaves::update(state, shared, msg),
            Self::More(state) => more::update(state, msg),
            Self::Form(state) => form::update(state, shared, msg),
            Self::Add(state) => add::update(state, msg),
            Self::Written(state) => written::update(state, shared, msg),
            Self::Plan(state) => plan::update(state, shared, msg),
        }
    }

    /// Draws it over a page, and says where the cursor belongs.
    pub fn view(&self, shared: &Shared, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        match self {
            Self::Reading(state) => reading::view(state, shared, frame, area),
            Self::Line(state) => line::view(state, shared, frame, area),
            Self::Leaves(state) => leaves::view(state, shared, frame, area),
            Self::More(state) => more::view(state, shared, frame, area),
            Self::Form(state) => form::view(state, shared, frame, area),
            Self::Add(state) => add::view(state, shared, frame, area),
            Self::Written(state) => written::view(state, shared, frame, area),
            Self::Plan(state) => plan::view(state, shared, frame, area),
        }
    }
}
