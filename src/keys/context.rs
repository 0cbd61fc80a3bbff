//! Where a key is pressed.

use super::Command;
use crate::input::{Code, Key};

/// Where a key is pressed; each row of the table holds in one of these.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Context {
    /// Every screen.
    Everywhere,
    /// Every page but the first-run page, and those where characters are typed.
    Pages,
    /// The Round.
    Round,
    /// The Walk card while it waits for a digit.
    Walk,
    /// The Walk card while a line is typed.
    WalkLine,
    /// The Walk card of a bench that is closed or empty.
    WalkShut,
    /// The readings card of plots while it waits for a digit.
    Plots,
    /// The readings card while a number is typed.
    PlotsLine,
    /// The readings card on a bench that is closed or empty.
    PlotsShut,
    /// The Evening review.
    Review,
    /// The Bench page.
    Bench,
    /// The Mixing page.
    Mixing,
    /// The Bench page, showing charts.
    Charts,
    /// The Season page.
    Season,
    /// The list of trials, or what a trial is.
    Trials,
    /// The page of a trial.
    Trial,
    /// The Share page.
    Share,
    /// The first-run page.
    First,
    /// The Setup page.
    SetUp,
    /// A list of things, each with a letter.
    List,
    /// A bench being found by what is typed.
    Find,
    /// The code of a label being typed or scanned.
    Code,
    /// A line being typed.
    Line,
    /// A form being filled in.
    Form,
    /// A form of the plan.
    PlanForm,
    /// The form of a trial.
    TrialForm,
    /// A page of text to read.
    Reading,
    /// The offer to save what an earlier run could not.
    Rescued,
    /// Something to settle.
    Settle,
    /// A question before something is voided.
    Question,
    /// A question before treatments are logged as given.
    Giving,
}

impl Context {
    /// Every context, in the order of the help page.
    pub const ALL: &'static [Self] = &[
        Self::Round,
        Self::Walk,
        Self::WalkLine,
        Self::WalkShut,
        Self::Plots,
        Self::PlotsLine,
        Self::PlotsShut,
        Self::Review,
        Self::Bench,
        Self::Mixing,
        Self::Charts,
        Self::Season,
        Self::Trials,
        Self::Trial,
        Self::Share,
        Self::First,
        Self::SetUp,
        Self::List,
        Self::Find,
        Self::Code,
        Self::Line,
        Self::Form,
        Self::PlanForm,
        Self::TrialForm,
        Self::Reading,
        Self::Rescued,
        Self::Settle,
        Self::Question,
        Self::Giving,
        Self::Pages,
        Self::Everywhere,
    ];

    /// As the help page's heading.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Everywhere => "Everywhere",
            Self::Pages => "On every page",
            Self::Round => "Round",
            Self::Walk => "Walk card",
            Self::WalkLine => "Walk card, entering text",
            Self::WalkShut => "Walk card, closed bench",
            Self::Plots => "Plots card",
            Self::PlotsLine => "Plots card, entering a number",
            Self::PlotsShut => "Plots card, closed bench",
            Self::Review => "Evening review",
            Self::Bench => "Bench page",
            Self::Mixing => "Mixing page",
            Self::Charts => "Bench page, charts",
            Self::Season => "Season page",
            Self::Trials => "Trials",
            Self::Trial => "Trial page",
            Self::Share => "Share page",
            Self::First => "First run",
            Self::SetUp => "Setup",
            Self::List => "Pick list",
            Self::Find => "Find a bench",
            Self::Code => "Code of a label",
            Self::Line => "Entering text",
            Self::Form => "Form",
            Self::PlanForm => "Setup form",
            Self::TrialForm => "Form of a trial",
            Self::Reading => "Text page",
            Self::Rescued => "Not saved when the program ended",
            Self::Settle => "To settle",
            Self::Question => "Question before voiding",
            Self::Giving => "Treatments to log as given",
        }
    }

    /// The context itself and the wider ones around it, inside first.
    pub const fn chain(self) -> &'static [Self] {
        match self {
            Self::Everywhere => &[Self::Everywhere],
            Self::Pages => &[Self::Pages, Self::Everywhere],
            Self::Round => &[Self::Round, Self::Pages, Self::Everywhere],
            Self::Review => &[Self::Review, Self::Pages, Self::Everywhere],
            Self::Bench => &[Self::Bench, Self::Pages, Self::Everywhere],
            Self::Charts => &[Self::Charts, Self::Pages, Self::Everywhere],
            Self::Season => &[Self::Season, Self::Pages, Self::Everywhere],
            Self::Trials => &[Self::Trials, Self::Pages, Self::Everywhere],
            Self::Trial => &[Self::Trial, Self::Pages, Self::Everywhere],
            Self::Share => &[Self::Share, Self::Pages, Self::Everywhere],
            Self::Walk => &[Self::Walk, Self::Pages, Self::Everywhere],
            Self::WalkLine => &[Self::WalkLine, Self::Everywhere],
            Self::WalkShut => &[Self::WalkShut, Self::Pages, Self::Everywhere],
            Self::Plots => &[Self::Plots, Self::Pages, Self::Everywhere],
            Self::PlotsLine => &[Self::PlotsLine, Self::Everywhere],
            Self::PlotsShut => &[Self::PlotsShut, Self::Pages, Self::Everywhere],
            Self::Mixing => &[Self::Mixing, Self::Everywhere],
            Self::First => &[Self::First, Self::Everywhere],
            Self::SetUp => &[Self::SetUp, Self::Pages, Self::Everywhere],
            Self::List => &[Self::List, Self::Everywhere],
            Self::Find => &[Self::Find, Self::Everywhere],
            Self::Code => &[Self::Code, Self::Everywhere],
            Self::Line => &[Self::Line, Self::Everywhere],
            Self::Form => &[Self::Form, Self::Everywhere],
            Self::PlanForm => &[Self::PlanForm, Self::Form, Self::Everywhere],
            Self::TrialForm => &[Self::TrialForm, Self::Form, Self::Everywhere],
            Self::Reading => &[Self::Reading, Self::Everywhere],
            Self::Rescued => &[Self::Rescued, Self::Everywhere],
            Self::Settle => &[Self::Settle, Self::Everywhere],
            Self::Question => &[Self::Question, Self::Everywhere],
            Self::Giving => &[Self::Giving, Self::Everywhere],
        }
    }

    /// True where characters are typed: they are then no commands.
    pub const fn types(self) -> bool {
        matches!(
            self,
            Self::WalkLine
                | Self::PlotsLine
                | Self::List
                | Self::Find
                | Self::Code
                | Self::Line
                | Self::Form
                | Self::PlanForm
                | Self::TrialForm
                | Self::Mixing
                | Self::Settle
        )
    }

    /// The key as the table has it: letters without their case where they are no text, so that Caps Lock changes nothing.
    pub(super) const fn folded(self, key: Key) -> Key {
        match key.code {
            Code::Char(c) if !self.types() => Key { code: Code::Char(c.to_ascii_lowercase()), ..key },
            _ => key,
        }
    }

    /// True where the sign before a code begins one though characters are typed: lists by letter and lines of numbers, in which
    /// it is never text.
    pub const fn takes_codes(self) -> bool {
        !self.types() || matches!(self, Self::List | Self::Find | Self::WalkLine | Self::PlotsLine)
    }

    /// Whether a bound key is a command here: where characters are typed, bare characters are none, but for the sign before a
    /// code.
    pub(super) fn hears(self, command: Command, key: Key) -> bool {
        let typed = self.types() && matches!(key.code, Code::Char(_)) && key.typed().is_some();
        !typed || (matches!(command, Command::Code) && self.takes_codes())
    }
}
