//! Navigation targets: a page, or a popup over it.

use super::{FormRequest, JobTick, MixingRequest, PlanAsk, PotsAsk, Rescued};
use crate::record::{KindName, Place, TrialReading};
use crate::warnings::{CheckName, Warning};

/// A navigation target.
#[derive(Debug, Clone, PartialEq)]
pub enum Go {
    /// To a page.
    Page(Page),
    /// To a popup.
    Popup(Popup),
    /// To the previous page or popup.
    Back,
    /// Back to the Walk card, at this check.
    Check(CheckName),
    /// Void what was recorded last, as the page does it.
    Undo,
    /// To a bench that was found: the page shows it in its own way, else its Bench page opens.
    Bench(String),
    /// To what a label names.
    Label(Label),
}

/// What the code of a label names, as the season spells it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Label {
    /// A bench.
    Bench(String),
    /// A plot, by the code of its trial and its own.
    Plot(String, String),
}

/// A page to open.
#[derive(Debug, Clone, PartialEq)]
pub enum Page {
    /// The Round; clears the history of pages.
    Round,
    /// The Walk card of a bench; `None`: the first not walked.
    Walk(Option<String>),
    /// The Evening review.
    Review,
    /// A bench's page.
    Bench(String),
    /// The Mixing page.
    Mixing(MixingRequest),
    /// The Season page.
    Season,
    /// The Share page.
    Share,
    /// The Setup page.
    SetUp,
    /// The readings card of a trial's plots, by the trial's code; of one bench alone where one is named.
    Plots(String, Option<String>),
    /// The only trial, the list of several, or what a trial is.
    Trials,
    /// A trial's page, by its code.
    Trial(String),
}

/// A report of the season that a part of the Season page writes as a HTML file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SeasonReport {
    /// Calendars, nights, pots, charts of every bench.
    Season,
    /// The application record.
    Applications,
    /// Last year beside this one.
    LastYear,
    /// What the season came to.
    End,
}

/// A popup to open.
#[derive(Debug, Clone, PartialEq)]
pub enum Popup {
    /// The keys.
    Keys,
    /// A page of text with its title.
    Text(&'static str, String),
    /// A note to write.
    Note(Place),
    /// A note to write of a plot: the bench, and the plot.
    PlotNote(String, String),
    /// What the leaves of a bench show.
    Leaves(String),
    /// Further checks and work of a bench.
    More(String),
    /// One line for one kind of entry of a bench (see `popups/prompt`).
    Line(KindName, String),
    /// A form to fill in.
    Form(Box<FormRequest>),
    /// The list of all that can be logged by a form, for a place or for the benches selected.
    Add(Place, Vec<String>),
    /// The forms that answer these warnings, all of one problem; with the listed job that the one chosen ticks.
    Answer(Vec<Warning>, Option<JobTick>),
    /// Which of these warnings is to be postponed.
    PutOff(Vec<Warning>),
    /// The history of a bench, to void an entry.
    Written(String),
    /// The same of a plot.
    WrittenOfPlot(String),
    /// The day to put the program on.
    OtherDay,
    /// Who scouts from now on.
    Writer,
    /// Find a bench.
    Find,
    /// The code of a label, with what of it is known already.
    Code(String),
    /// Which benches the Round shows.
    Views,
    /// In which order it shows them.
    Orders,
    /// The list of what can be added to the plan; the bench and the lot selected, for work on them.
    AddToPlan(Option<String>, Option<String>),
    /// A form for the plan.
    Plan(PlanAsk),
    /// Whether the treatments of a trial are to be logged as given.
    GiveTreatments(String),
    /// Which rate of a trial is used next season.
    UseRate(String),
    /// Why a trial is ended early.
    EndTrial(String),
    /// The file for the report of a trial, with the reading it is of.
    TrialReport(String, TrialReading),
    /// The file for a report of the season.
    SeasonReport(SeasonReport),
    /// A new trial.
    NewTrial,
    /// A change of a trial, by its code.
    Trial(String),
    /// Whether one more is to be voided, right after an undo.
    UndoMore,
    /// The first that is to settle.
    Settle,
    /// Pots of several benches.
    Pots(PotsAsk),
    /// Who writes.
    Who,
    /// The path of a journal.
    Path,
    /// What earlier runs could not save, the journal that is offered first.
    Rescued(Vec<Rescued>),
}

impl Popup {
    /// The bench of which it takes an observation as it is seen; `None` for every other popup.
    pub fn finding_of(&self) -> Option<&str> {
        match self {
            Self::Note(Place::Bench(bench)) => Some(bench),
            Self::PlotNote(bench, _) | Self::Leaves(bench) | Self::More(bench) | Self::Line(_, bench) => Some(bench),
            _ => None,
        }
    }
}
