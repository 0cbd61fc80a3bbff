//! The Trial page: the layout of a trial, what its readings say of treatment and position, and the readings themselves. Where there are
//! several trials they are listed first.

pub mod list;
mod update;
mod view;
mod work;

pub use update::update;
pub use view::view;

use crate::controls::List;
use crate::keys::Context;
use crate::model::Model;
use crate::record::{Entry, TrialReading};
use crate::report::trial::{Found, last};
use crate::trials::{Over, Readings};
use chrono::NaiveDate;
use work::Kept;

/// A part of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Part {
    /// Where the plots stand, with their treatments.
    #[default]
    Layout,
    /// The means, and which treatments are told apart.
    Means,
    /// The response to rates.
    Response,
    /// What position takes, and what of it is left over.
    Position,
    /// Whether the readings meet what the analysis takes for granted.
    Checks,
    /// The entries of the plots.
    Readings,
}

impl Part {
    /// Every part, in the order they are turned to.
    pub const ALL: [Self; 6] =
        [Self::Layout, Self::Means, Self::Response, Self::Position, Self::Checks, Self::Readings];

    /// As the title names it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Layout => "layout",
            Self::Means => "means",
            Self::Response => "response",
            Self::Position => "position",
            Self::Checks => "checks",
            Self::Readings => "readings",
        }
    }

    /// The one after (or before), round and round.
    #[must_use]
    pub fn turned(self, onward: bool) -> Self {
        let at = Self::ALL.iter().position(|part| *part == self).unwrap_or(0);
        let step = if onward { 1 } else { Self::ALL.len().saturating_sub(1) };
        let to = at.saturating_add(step) % Self::ALL.len();
        Self::ALL.get(to).copied().unwrap_or_default()
    }
}

/// Which trial, which part of it, which of its readings, and what was found of those.
#[derive(Debug, Clone)]
pub struct State {
    trial: String,
    part: Part,
    /// What was read of it; `None` where the trial is not known.
    readings: Option<Readings>,
    reading: TrialReading,
    /// The day shown, where it is not the last one read in full.
    day: Option<NaiveDate>,
    /// Growth over all days is shown instead of a day.
    growth: bool,
    /// What was read before the treatment is taken into account.
    before: bool,
    /// Other comparisons than those of the trial's line are shown.
    other: bool,
    kept: Vec<Kept>,
    list: List,
}

impl State {
    /// A trial: its means, or its layout while nothing is read.
    pub fn new(trial: &str, model: &Model) -> Self {
        let readings = Readings::of(&model.season, trial, model.day);
        let main = |readings: &Readings| readings.trial.reads.first().copied();
        let reading = readings.as_ref().and_then(main).unwrap_or(TrialReading::Height);
        let read = readings.as_ref().is_some_and(|readings| !readings.days(reading).is_empty());
        Self {
            trial: trial.to_owned(),
            part: if read { Part::Means } else { Part::Layout },
            readings,
            reading,
            day: None,
            growth: false,
            before: false,
            other: false,
            kept: Vec::new(),
            list: List::default(),
        }
    }

    /// The key context.
    pub const fn context(&self) -> Context {
        Context::Trial
    }

    /// Its title.
    pub fn title(&self) -> String {
        format!("Trial {}  {}", self.trial, self.part.text())
    }

    /// The bench of the trial, where it is one.
    pub fn bench(&self) -> Option<String> {
        let plots = &self.readings.as_ref()?.plots;
        let first = plots.first()?;
        plots.iter().all(|plot| plot.bench == first.bench).then(|| first.bench.clone())
    }

    /// True while the analysis or its reshuffling is not done.
    pub fn waits(&self) -> bool {
        self.readings.is_some() && self.kept().is_none_or(Kept::waits)
    }

    /// What is analyzed.
    fn over(&self) -> Option<Over> {
        let readings = self.readings.as_ref()?;
        Some(if self.growth {
            Over::Growth
        } else {
            Over::Day(self.day.unwrap_or_else(|| last(readings, self.reading)))
        })
    }

    /// What was found of the reading shown; `None` until it is analyzed.
    fn found(&self) -> Option<&Found> {
        self.kept().map(|kept| &kept.found)
    }

    /// The entries of the plots that count, the newest first.
    fn entries<'m>(&self, model: &'m Model) -> Vec<&'m Entry> {
        let plots = self.readings.iter().flat_map(|readings| &readings.plots);
        let mut all: Vec<&Entry> =
            plots.flat_map(|plot| model.season.plot_entries(&plot.plot, model.day).collect::<Vec<_>>()).collect();
        all.sort_by_key(|entry| std::cmp::Reverse(entry.order()));
        all
    }
}
