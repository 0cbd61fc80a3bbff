//! Messages to screens ([`Msg`]) and the effects they request ([`Effect`]).

use super::go::{Page, Popup};
use super::{Go, Rescued};
use crate::input::{Key, Palette};
use crate::keys::Command;
use crate::record::{Entry, Line, Plan};
use crate::warnings::CheckName;
use uuid::Uuid;

/// A message to a screen or popup.
#[derive(Debug, Clone, PartialEq)]
pub enum Msg {
    /// A key of the key table.
    Do(Command),
    /// Any other key, where characters are typed.
    Type(Key),
    /// A pasted text.
    Paste(String),
    /// All assessments are current: the page may do its slow work.
    Quiet,
    /// The day changed; `Model::day` is the new one.
    NewDay,
    /// Show this bench: it was found by its name.
    Found(String),
    /// Show this check on the Walk card, due or not.
    Ask(CheckName),
    /// Entries were written by a popup, or reached the file: the content may have changed.
    Changed,
}

/// The result of an effect.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// These entries and plan lines are durable.
    Saved(Vec<Uuid>),
    /// They are not.
    NotSaved {
        /// The entries and plan lines.
        ids: Vec<Uuid>,
        /// Why, in words.
        why: String,
        /// True when trying again may help (the file was busy); false when the file refuses them for good.
        again: bool,
    },
    /// These plan lines are durable.
    PlanKept(Vec<Line>),
    /// These plan lines hold, and wait to be durable: what keeps them from it may pass.
    PlanWaits(Vec<Line>),
    /// They were refused, and why.
    PlanNotKept(String),
    /// A season was opened: its plan is known, its entries follow.
    Opened {
        /// The plan.
        plan: Plan,
        /// The path of the file.
        path: String,
        /// What earlier runs could not save of it.
        rescued: Vec<Rescued>,
    },
    /// The entries of the open season.
    Loaded(Vec<Entry>),
    /// Another program wrote into the open season: its plan as it now stands, and the entries read since.
    Joined {
        /// The plan.
        plan: Plan,
        /// The entries; own ones may be among them.
        entries: Vec<Entry>,
    },
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

/// A setting that is changed on the screens and kept in `config.toml`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Setting {
    /// Who writes.
    By(String),
    /// The palette.
    Palette(Palette),
}

impl Setting {
    /// Its key in `config.toml`.
    pub const fn key(&self) -> &'static str {
        match self {
            Self::By(_) => "by",
            Self::Palette(_) => "palette",
        }
    }

    /// Its value there.
    pub fn value(&self) -> &str {
        match self {
            Self::By(by) => by,
            Self::Palette(palette) => palette.name(),
        }
    }
}

/// An effect requested by a screen.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Store these entries.
    Append(Vec<Line>),
    /// Store these plan lines, all or none; the site's first line begins the season file.
    KeepPlan(Vec<Line>),
    /// Navigate (handled by `app`).
    Go(Go),
    /// Make the demo season and open it.
    OpenDemo,
    /// Import the journal at this path into the season file, then open it.
    Import(String),
    /// Import the journal of what an earlier run could not save, then open the season again.
    TakeRescued(String),
    /// Keep a setting for the next start.
    KeepSetting(Setting),
    /// Write a new file at a path, with this text.
    WriteFile(String, String),
    /// Exchange the season with every carrier now.
    Share,
    /// Redraw everything.
    Redraw,
    /// Suspend the program.
    Suspend,
    /// Leave the program.
    Quit,
}

impl Effect {
    /// Goes to a page.
    pub const fn page(page: Page) -> Self {
        Self::Go(Go::Page(page))
    }

    /// Goes to a popup.
    pub const fn popup(popup: Popup) -> Self {
        Self::Go(Go::Popup(popup))
    }
}

/// What a screen or popup makes of a message: the effects it asks for, none of them perhaps; `None` where the message means
/// nothing to it.
pub type Response = Option<Vec<Effect>>;
