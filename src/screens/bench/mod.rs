//! The Bench page: everything known of one bench.

mod charts;
mod rows;
mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::controls::List;
use crate::keys::Context;
use crate::model::Model;
use crate::report::series::{Reach, Topic};
use chrono::NaiveDate;

/// Which bench, and how far the page is scrolled.
#[derive(Debug, Clone, Default)]
pub struct State {
    bench: String,
    list: List,
    /// The charts are shown in place of the record.
    charts: bool,
    /// Which of [`Topic::ALL`] is shown (first).
    topic: usize,
    /// How much time they cover.
    reach: Reach,
    /// The day they end on and look back from; none: the working day.
    end: Option<NaiveDate>,
    /// The charts, worked out once for many frames.
    drawn: Option<charts::Drawn>,
}

impl State {
    /// The page of a bench, from its top.
    pub fn new(bench: &str, model: &mut Model) -> Self {
        model.assess_bench(bench);
        let mut state = Self { bench: bench.to_owned(), ..Self::default() };
        charts::prepare(&mut state, model);
        state
    }

    /// The same view of another bench.
    fn turn(&mut self, bench: &str, model: &mut Model) {
        *self = Self {
            charts: self.charts,
            topic: self.topic,
            reach: self.reach,
            end: self.end,
            ..Self::new(bench, model)
        };
        charts::prepare(self, model);
    }

    /// Where keys are pressed.
    pub const fn context(&self) -> Context {
        if self.charts { Context::Charts } else { Context::Bench }
    }

    /// The topic shown, so many after the first.
    fn topic(&self, after: usize) -> Topic {
        let at = self.topic.saturating_add(after) % Topic::ALL.len();
        Topic::ALL.get(at).copied().unwrap_or(Topic::Height)
    }

    /// The bench.
    pub fn bench(&self) -> &str {
        &self.bench
    }
}
