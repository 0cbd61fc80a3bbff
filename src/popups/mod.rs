//! What lies over a page: a text to read, a line to type, a list to pick from. A file each; the two forms are folders.
//!
//! To add one: its file here, its variant in [`Popup`] with an arm in each function below, its way in
//! [`crate::model::go`].

pub mod add_to_plan;
pub mod code;
mod fields;
pub mod find;
pub mod form;
pub mod form_picker;
pub mod give_treatments;
pub mod history;
pub mod leaves;
pub mod listing;
pub mod more_checks;
pub mod pager;
pub mod plan;
pub mod pots;
pub mod prompt;
pub mod rescued;
pub mod settle;
pub mod trial;
pub mod undo_more;
pub mod use_rate;
mod when;

use crate::keys::Context;
use crate::model::{Model, Msg, Response, go};
use crate::ui::regions::drawer;
use ratatui::Frame;
use ratatui::layout::{Position, Rect};

/// What lies over a page, with its state.
#[derive(Debug, Clone)]
pub enum Popup {
    /// A text to read.
    Pager(pager::State),
    /// A line to type.
    Prompt(prompt::State),
    /// What the leaves show.
    Leaves(leaves::State),
    /// Further checks and work.
    MoreChecks(more_checks::State),
    /// A form to fill in.
    Form(Box<form::State>),
    /// What can be logged by a form.
    FormPicker(form_picker::State),
    /// The log of a bench.
    History(history::State),
    /// A bench to find.
    Find(find::State),
    /// The code of a label.
    Code(code::State),
    /// Which benches are listed, or in which order.
    Listing(listing::State),
    /// What can be added to the plan.
    AddToPlan(add_to_plan::State),
    /// A form of the plan.
    Plan(Box<plan::State>),
    /// The form of a trial.
    Trial(Box<trial::State>),
    /// Pots of several benches: swapped, or sold.
    Pots(pots::State),
    /// What an earlier run could not save.
    Rescued(rescued::State),
    /// What is to settle.
    Settle(Box<settle::State>),
    /// Whether one more is to be voided.
    UndoMore(undo_more::State),
    /// Whether the treatments of a trial are to be logged as given.
    GiveTreatments(give_treatments::State),
    /// Which rate of a trial is used next season.
    UseRate(Box<use_rate::State>),
}

/// The columns of a popup in a window of the last known size.
fn columns(model: &Model) -> u16 {
    drawer(Rect::new(0, 0, model.size.0, model.size.1)).width
}

impl Popup {
    /// The popup one goes up to; `None` where there is nothing to choose. `context` is where the keys were pressed.
    pub fn open(popup: go::Popup, model: &Model, context: Context) -> Option<Self> {
        let prompt = |purpose| Self::Prompt(prompt::State::new(purpose, model));
        Some(match popup {
            go::Popup::Keys => Self::Pager(pager::State::keys(context)),
            go::Popup::Text(title, text) => Self::Pager(pager::State::text(title, &text)),
            go::Popup::Note(place) => prompt(prompt::Purpose::Note(place)),
            go::Popup::PlotNote(bench, plot) => prompt(prompt::Purpose::PlotNote(bench, plot)),
            go::Popup::Line(kind, bench) => prompt(prompt::Purpose::Entry(kind, bench)),
            go::Popup::Who => prompt(prompt::Purpose::Who),
            go::Popup::Path => prompt(prompt::Purpose::Path),
            go::Popup::Leaves(bench) => Self::Leaves(leaves::State::new(bench)),
            go::Popup::More(bench) => Self::MoreChecks(more_checks::State::new(bench)),
            go::Popup::Form(ask) => Self::Form(Box::new(form::State::new(*ask, model))),
            go::Popup::Add(place, benches) => Self::FormPicker(form_picker::State::all(&place, &benches, model)),
            go::Popup::Answer(warnings, tick) => {
                Self::chosen(form_picker::State::answers(&warnings, tick.as_ref(), model), model)?
            }
            go::Popup::PutOff(warnings) => Self::chosen(form_picker::State::put_offs(&warnings), model)?,
            go::Popup::Written(bench) => Self::History(history::State::new(bench)),
            go::Popup::WrittenOfPlot(plot) => Self::History(history::State::of_plot(plot)),
            go::Popup::UndoMore => Self::UndoMore(undo_more::State::new(model)),
            go::Popup::GiveTreatments(trial) => Self::GiveTreatments(give_treatments::State::new(trial, model)),
            go::Popup::UseRate(trial) => Self::UseRate(Box::new(use_rate::State::new(&trial, model))),
            go::Popup::EndTrial(trial) => prompt(prompt::Purpose::EndTrial(trial)),
            go::Popup::TrialReport(trial, reading) => prompt(prompt::Purpose::TrialReport(trial, reading)),
            go::Popup::SeasonReport(report) => prompt(prompt::Purpose::SeasonReport(report)),
            go::Popup::Rescued(journals) => Self::Rescued(rescued::State::new(journals)),
            go::Popup::Settle => Self::Settle(Box::new(settle::State::new(model)?)),
            go::Popup::OtherDay => prompt(prompt::Purpose::OtherDay),
            go::Popup::Writer => prompt(prompt::Purpose::Writer(model.last_writers())),
            go::Popup::Find => Self::Find(find::State::default()),
            go::Popup::Code(text) => Self::Code(code::State::new(&text)),
            go::Popup::Views => Self::Listing(listing::State::views(model)),
            go::Popup::Orders => Self::Listing(listing::State::orders(model)),
            go::Popup::AddToPlan(bench, lot) => Self::AddToPlan(add_to_plan::State::new(bench, lot)),
            go::Popup::Pots(ask) => Self::Pots(pots::State::new(ask, model)),
            go::Popup::NewTrial => Self::Trial(Box::new(trial::State::new(model))),
            go::Popup::Trial(code) => Self::Trial(Box::new(trial::State::change(&code, model)?)),
            go::Popup::Plan(ask) => Self::Plan(Box::new(plan::State::new(ask, model))),
        })
    }

    /// The one form of a list, or the list to choose from; `None` where it is empty.
    fn chosen(list: form_picker::State, model: &Model) -> Option<Self> {
        match list.only() {
            Some(ask) => Some(Self::Form(Box::new(form::State::new(ask.clone(), model)))),
            None if list.is_empty() => None,
            None => Some(Self::FormPicker(list)),
        }
    }

    /// Where keys are pressed.
    pub const fn context(&self) -> Context {
        match self {
            Self::Pager(_) => Context::Reading,
            Self::Rescued(_) => Context::Rescued,
            Self::UndoMore(_) => Context::Question,
            Self::Settle(_) => Context::Settle,
            Self::GiveTreatments(_) => Context::Giving,
            Self::Prompt(_) => Context::Line,
            Self::Form(_) | Self::Pots(_) => Context::Form,
            Self::Plan(_) => Context::PlanForm,
            Self::Trial(_) => Context::TrialForm,
            Self::Leaves(_)
            | Self::MoreChecks(_)
            | Self::FormPicker(_)
            | Self::History(_)
            | Self::Listing(_)
            | Self::UseRate(_)
            | Self::AddToPlan(_) => Context::List,
            Self::Find(_) => Context::Find,
            Self::Code(_) => Context::Code,
        }
    }

    /// True where a key logs something.
    pub const fn writes(&self) -> bool {
        match self {
            Self::Pager(_)
            | Self::FormPicker(_)
            | Self::History(_)
            | Self::Find(_)
            | Self::Code(_)
            | Self::Listing(_)
            | Self::AddToPlan(_)
            | Self::Rescued(_)
            | Self::UndoMore(_) => false,
            Self::Prompt(state) => state.writes(),
            Self::Leaves(_)
            | Self::MoreChecks(_)
            | Self::Form(_)
            | Self::Plan(_)
            | Self::Trial(_)
            | Self::GiveTreatments(_)
            | Self::UseRate(_)
            | Self::Settle(_)
            | Self::Pots(_) => true,
        }
    }

    /// The bench of which an observation is logged as it is seen, without a time of its own; `None` for every other popup.
    pub fn finding_of(&self) -> Option<&str> {
        match self {
            Self::Pager(_)
            | Self::FormPicker(_)
            | Self::History(_)
            | Self::Find(_)
            | Self::Code(_)
            | Self::Listing(_)
            | Self::AddToPlan(_)
            | Self::Pots(_)
            | Self::Form(_)
            | Self::Plan(_)
            | Self::Trial(_)
            | Self::Rescued(_)
            | Self::GiveTreatments(_)
            | Self::UseRate(_)
            | Self::Settle(_)
            | Self::UndoMore(_) => None,
            Self::Prompt(state) => state.bench(),
            Self::Leaves(state) => Some(state.bench()),
            Self::MoreChecks(state) => Some(state.bench()),
        }
    }

    /// True for the one that asks for initials.
    pub const fn asks_who(&self) -> bool {
        matches!(self, Self::Prompt(state) if state.asks_who())
    }

    /// True for the lines that ask for a day or a writer over everything else.
    pub const fn asks_anywhere(&self) -> bool {
        matches!(self, Self::Prompt(state) if state.asks_anywhere())
    }

    /// True for the keys: they are listed in columns over the whole page.
    fn takes_the_page(&self) -> bool {
        matches!(self, Self::Pager(state) if state.lists_keys())
    }

    /// Handles a message.
    pub fn update(&mut self, model: &mut Model, msg: &Msg) -> Response {
        match self {
            Self::Pager(state) => pager::update(state, model, msg),
            Self::Prompt(state) => prompt::update(state, model, msg),
            Self::Leaves(state) => leaves::update(state, model, msg),
            Self::MoreChecks(state) => more_checks::update(state, model, msg),
            Self::Form(state) => form::update(state, model, msg),
            Self::FormPicker(state) => form_picker::update(state, model, msg),
            Self::History(state) => history::update(state, model, msg),
            Self::Find(state) => find::update(state, model, msg),
            Self::Code(state) => code::update(state, model, msg),
            Self::Listing(state) => listing::update(state, model, msg),
            Self::AddToPlan(state) => add_to_plan::update(state, model, msg),
            Self::Plan(state) => plan::update(state, model, msg),
            Self::Trial(state) => trial::update(state, model, msg),
            Self::Pots(state) => pots::update(state, model, msg),
            Self::Rescued(state) => rescued::update(state, model, msg),
            Self::Settle(state) => settle::update(state, model, msg),
            Self::UndoMore(_) => undo_more::update(msg),
            Self::GiveTreatments(state) => give_treatments::update(state, model, msg),
            Self::UseRate(state) => use_rate::update(state, model, msg),
        }
    }

    /// Draws it over a page, and says where the cursor belongs.
    pub fn view(&self, model: &Model, frame: &mut Frame<'_>, area: Rect) -> Option<Position> {
        let area = if self.takes_the_page() { area } else { drawer(area) };
        match self {
            Self::Pager(state) => pager::view(state, model, frame, area),
            Self::Prompt(state) => prompt::view(state, model, frame, area),
            Self::Leaves(state) => leaves::view(state, model, frame, area),
            Self::MoreChecks(state) => more_checks::view(state, model, frame, area),
            Self::Form(state) => form::view(state, model, frame, area),
            Self::FormPicker(state) => form_picker::view(state, model, frame, area),
            Self::History(state) => history::view(state, model, frame, area),
            Self::Find(state) => find::view(state, model, frame, area),
            Self::Code(state) => code::view(state, model, frame, area),
            Self::Listing(state) => listing::view(state, model, frame, area),
            Self::AddToPlan(state) => add_to_plan::view(state, model, frame, area),
            Self::Plan(state) => plan::view(state, model, frame, area),
            Self::Trial(state) => trial::view(state, model, frame, area),
            Self::Pots(state) => pots::view(state, model, frame, area),
            Self::Rescued(state) => rescued::view(state, model, frame, area),
            Self::Settle(state) => settle::view(state, model, frame, area),
            Self::UndoMore(state) => undo_more::view(state, model, frame, area),
            Self::GiveTreatments(state) => give_treatments::view(state, model, frame, area),
            Self::UseRate(state) => use_rate::view(state, model, frame, area),
        }
    }
}
