//! The Evening review: tomorrow's work first, then each problem with what was seen, why it matters and what to do next.

mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::controls::List;
use crate::model::Model;
use crate::review::{Problem, Review, build};
use crate::warnings::{Warning, not_known};

/// The review as last put together, and where the cursor is.
#[derive(Debug, Clone, Default)]
pub struct State {
    review: Option<Review>,
    stale: bool,
    /// True when yesterday was assessed too, so that new, worse and cleared are known.
    compared: bool,
    /// The problem at the cursor, counted as they are shown, and the first row seen.
    list: List,
    basis: bool,
}

impl State {
    /// Nothing put together yet.
    pub fn new() -> Self {
        Self { stale: true, ..Self::default() }
    }

    /// True when the review is stale.
    pub const fn waits(&self) -> bool {
        self.stale
    }

    /// Rebuilds the review, once all assessments are current.
    fn renew(&mut self, model: &Model) {
        self.stale = false;
        if !model.loaded || !model.cache.is_fresh() {
            return;
        }
        self.compared = model.before.is_fresh();
        let today: Vec<Warning> = model.cache.warnings(&model.season).cloned().collect();
        let before: Vec<Warning> = model.before.warnings(&model.season).cloned().collect();
        let limits = model.limits_file.clone().unwrap_or_else(|| "defaults".to_owned());
        let review = build(&model.season, model.day, today, &before, limits);
        let slower = model.cache.slower(&model.season, model.day);
        let not_known = not_known(&model.season, model.day, &model.limits);
        self.review = review.map(|r| r.with_not_known(not_known).with_slower(slower));
    }

    /// The problems in the order they are shown: flagged, watched, postponed.
    fn problems(&self) -> Vec<&Problem> {
        let Some(review) = &self.review else { return Vec::new() };
        let first = review.flagged().map(|(t, _)| t).chain(review.watched().map(|(t, _)| t));
        first.chain(review.put_off()).collect()
    }

    /// The problem at the cursor.
    fn cursor(&self) -> Option<&Problem> {
        self.problems().get(self.list.cursor()).copied()
    }

    /// The first bench of the problem at the cursor.
    pub fn bench(&self) -> Option<String> {
        self.problems().get(self.list.cursor()).and_then(|t| t.benches.first().cloned())
    }
}
