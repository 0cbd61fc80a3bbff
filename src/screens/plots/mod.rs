//! The readings card: the plots of a trial one by one, read by single keys.
//!
//! It is blind: a plot goes by its number and place, and its treatment is nowhere on the card. A digit is saved at once and the
//! next reading comes, a number is saved with Enter; after the last reading of a plot the next plot in walking order. What is to
//! be read stands in `work`, how a reading is asked and what becomes of its answer in `reading`.

mod reading;
mod update;
mod view;
mod work;

pub use update::update;
pub use view::view;

use crate::controls::{Field, Guard};
use crate::keys::Context;
use crate::model::walk_order::{self, Shut};
use crate::model::{DraftKey, Model};
use crate::record::{Kind, TestMethod, TrialReading};
use crate::trials;
use chrono::NaiveDate;
use work::Work;

/// What is asked: a reading of a plot, by its code.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Asked {
    plot: String,
    reading: TrialReading,
}

/// How what can be read in several ways is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Ways {
    /// Greenness by a chlorophyll meter, not by class.
    meter: bool,
    /// How the EC of the root zone is tested.
    method: TestMethod,
}

/// The card.
#[derive(Debug, Clone)]
pub struct State {
    trial: String,
    /// The bench whose plots are read; `None` for those of all benches.
    bench: Option<String>,
    /// What was read from this day on counts as read.
    since: NaiveDate,
    /// `None` where every plot is read.
    asked: Option<Asked>,
    /// The line being typed.
    line: Field,
    /// Why that line was refused, or what is asked about it.
    fault: Option<String>,
    ways: Ways,
    /// Asked whether the plot is lost.
    asks_lost: bool,
    guard: Guard,
}

impl State {
    /// The card of a trial, at the first reading that is missing. `None`, with a word below the page, where no plot can be read.
    pub fn open(trial: &str, bench: Option<String>, model: &mut Model) -> Option<Self> {
        if let Some((code, why)) = bench.as_ref().and_then(|code| Some((code, walk_order::shut(model, code)?))) {
            model.trouble(why.text(model, code));
            return None;
        }
        let ways = Ways::of(model, trial);
        let mut state = Self {
            trial: trial.to_owned(),
            bench,
            since: since(model, trial),
            asked: None,
            line: Field::default(),
            fault: None,
            ways,
            asks_lost: false,
            guard: Guard::default(),
        };
        let work = Work::of(&state, model);
        if work.plots.is_empty() {
            let on = state.bench.as_ref().map_or_else(String::new, |bench| format!(" on {bench}"));
            model.say(format!("{trial} has no plots{on} to be read."));
            return None;
        }
        let first = work.next(None);
        state.turn_to(model, first);
        Some(state)
    }

    /// The title of the page.
    pub fn title(&self) -> String {
        let bench = self.bench.as_ref().map_or_else(String::new, |bench| format!("  on {bench}"));
        format!("Plots  {}{bench}", self.trial)
    }

    /// True where the card has this plot.
    pub fn takes(&self, plot: &str, model: &Model) -> bool {
        let plot = model.season.plot(plot).filter(|plot| plot.trial == self.trial);
        plot.is_some_and(|plot| self.bench.as_ref().is_none_or(|bench| *bench == plot.bench))
    }

    /// The bench of the plot that is asked.
    pub fn bench(&self, model: &Model) -> Option<String> {
        let of = |asked: &Asked| model.season.plot(&asked.plot).map(|plot| plot.bench.clone());
        self.asked.as_ref().and_then(of).or_else(|| self.bench.clone())
    }

    /// Why the plot that is asked cannot be read now.
    fn shut(&self, model: &Model) -> Option<Shut> {
        walk_order::shut(model, &self.bench(model)?)
    }

    /// Where keys are pressed. Letters are commands until a number is begun.
    pub fn context(&self, model: &Model) -> Context {
        if self.shut(model).is_some() {
            Context::PlotsShut
        } else if self.line.is_blank() {
            Context::Plots
        } else {
            Context::PlotsLine
        }
    }

    /// Asks a reading; the line typed before is kept.
    fn turn_to(&mut self, model: &mut Model, asked: Option<Asked>) {
        self.keep_line(model);
        if self.asked.as_ref().map(|now| &now.plot) != asked.as_ref().map(|next| &next.plot) {
            self.guard = self.guard.on_next(model.now.ms);
        }
        let draft = asked.as_ref().map(|asked| model.draft_field(&draft(asked)));
        (self.asked, self.line, self.fault) = (asked, draft.unwrap_or_default(), None);
    }

    /// Keeps a half-typed line for when its reading is asked again.
    fn keep_line(&self, model: &mut Model) {
        if let Some(asked) = &self.asked {
            model.keep_draft_field(draft(asked), &self.line);
        }
    }
}

impl Ways {
    /// As the plots of the trial were read last.
    fn of(model: &Model, trial: &str) -> Self {
        let plots = model.season.plots(trial);
        let entries = plots.iter().flat_map(|plot| model.season.plot_entries(&plot.plot, model.day));
        let mut ways = (Self { meter: false, method: TestMethod::PourThrough }, None, None);
        for entry in entries {
            match &*entry.kind {
                Kind::Greenness { spad, .. } if ways.1 < Some(entry.at) => {
                    (ways.0.meter, ways.1) = (spad.is_some(), Some(entry.at));
                }
                Kind::RootZone { method, .. } if ways.2 < Some(entry.at) => {
                    (ways.0.method, ways.2) = (*method, Some(entry.at));
                }
                _ => {}
            }
        }
        ways.0
    }
}

/// What the line of a reading is kept under.
fn draft(asked: &Asked) -> DraftKey {
    DraftKey::Reading(asked.plot.clone(), asked.reading)
}

/// From which day on a reading counts as made: the day of the schedule while plots are due, else today, for a reading beside it.
fn since(model: &Model, trial: &str) -> NaiveDate {
    let Some(of) = model.season.trial(trial) else { return model.day };
    let due = !trials::due(&model.season, of, model.day).is_empty();
    trials::scheduled(of, model.day).filter(|_| due).unwrap_or(model.day)
}
