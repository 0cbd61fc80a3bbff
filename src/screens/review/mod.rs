//! The Evening review: the jobs to be done first, each ticked off by a key, then each problem with what was seen, why it matters
//! and what to do next.

mod job;
mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::controls::List;
use crate::input::Look;
use crate::model::Model;
use crate::review::{Change, Job, Problem, Review, Ticked};
use crate::warnings::Flagged;
use std::borrow::Cow;
use std::ops::Range;
use std::sync::Arc;
use view::Row;

/// The review as last put together, and where the cursor is.
#[derive(Debug, Clone, Default)]
pub struct State {
    review: Option<Arc<Review>>,
    stale: bool,
    /// True when yesterday was assessed too, so that new, worse and cleared are known.
    compared: bool,
    /// The item at the cursor, counted as they are shown, and the first row seen.
    list: List,
    /// The first line seen of what is known of the item, in a wide window.
    panel: List,
    basis: bool,
    /// What is flagged in it: counted once, for every frame says it.
    flags: Flagged,
    /// How often the review was put together.
    made: u64,
    /// The rows of the list as last put together: a key asks for them more than once, and they are many.
    shown: Option<Box<Shown>>,
}

/// The rows of the list, and what they were put together for.
#[derive(Debug, Clone)]
struct Shown {
    of: ShownFor,
    rows: Vec<Row>,
    /// The item under the cursor.
    marked: Option<Marked>,
}

/// The rows of the item under the cursor. Each move changes these only: the whole list can be a thousand rows.
#[derive(Debug, Clone)]
struct Marked {
    item: usize,
    /// Where they stand among all.
    at: Range<usize>,
    /// The same without the cursor, to be put back.
    plain: Vec<Row>,
}

impl Shown {
    /// Moves the mark to an item.
    fn mark(&mut self, state: &State, model: &Model, item: usize) {
        if self.marked.as_ref().is_some_and(|marked| marked.item == item) {
            return;
        }
        if let Some(Marked { at, plain, .. }) = self.marked.take() {
            self.rows.splice(at, plain);
        }
        let Some(first) = self.rows.iter().position(|row| row.item == Some(item)) else { return };
        let (plain, chosen) =
            (view::item_rows(state, model, (item, false)), view::item_rows(state, model, (item, true)));
        let last = first.saturating_add(plain.len()).min(self.rows.len());
        let at = first..first.saturating_add(chosen.len());
        self.rows.splice(first..last, chosen);
        self.marked = Some(Marked { item, at, plain });
    }
}

/// What the rows of the list depend on, beside the cursor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct ShownFor {
    made: u64,
    basis: bool,
    look: Look,
    columns: u16,
    /// Minutes: what is closed opens.
    minute: i64,
}

/// What the cursor can stand on.
#[derive(Debug, Clone, Copy)]
enum Item<'r> {
    /// A job to be done.
    Job(&'r Job),
    /// A job that was ticked.
    Ticked(&'r Ticked),
    /// A problem: flagged, watched or postponed; with what is new of it since the day before.
    Problem(&'r Problem, Change),
}

impl Item<'_> {
    /// The first of its benches.
    fn bench(self) -> Option<String> {
        match self {
            Self::Job(job) => job.all().next().cloned(),
            Self::Ticked(ticked) => ticked.benches.first().cloned(),
            Self::Problem(problem, _) => problem.benches.first().cloned(),
        }
    }

    /// What it is known by when the review is put together again.
    fn key(self) -> String {
        let bench = self.bench().unwrap_or_default();
        match self {
            Self::Job(job) => format!("job {} {bench}", job.step),
            Self::Ticked(ticked) => format!("ticked {} {bench}", ticked.step),
            Self::Problem(problem, _) => format!("problem {} {bench}", problem.title()),
        }
    }
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

    /// Rebuilds the review, once all assessments are current. The cursor stays with its item.
    fn renew(&mut self, model: &Model) {
        self.stale = false;
        if !model.loaded || !model.cache.is_fresh() {
            return;
        }
        let key = self.cursor().map(Item::key);
        self.made = self.made.saturating_add(1);
        self.compared = model.before.is_fresh();
        self.review.clone_from(&model.review);
        self.flags = self.review.as_ref().map(|review| review.flags()).unwrap_or_default();
        if let Some(at) = key.and_then(|key| self.items().iter().position(|item| item.key() == key)) {
            self.list.set(at);
        }
    }

    /// What the cursor can stand on, in the order shown: jobs, ticked jobs, then problems: flagged, watched, postponed.
    fn items(&self) -> Vec<Item<'_>> {
        let Some(review) = &self.review else { return Vec::new() };
        let problems = review.flagged().chain(review.watched()).chain(review.put_off());
        let jobs = review.jobs.iter().map(Item::Job).chain(review.ticked.iter().map(Item::Ticked));
        jobs.chain(problems.map(|(problem, new)| Item::Problem(problem, *new))).collect()
    }

    /// What the cursor is on.
    fn cursor(&self) -> Option<Item<'_>> {
        self.items().get(self.list.cursor()).copied()
    }

    fn shown_for(&self, model: &Model) -> ShownFor {
        let (made, basis) = (self.made, self.basis);
        let minute = model.now.at.timestamp().div_euclid(60);
        ShownFor { made, basis, look: model.look, columns: model.size.0, minute }
    }

    /// The rows of the list in the window.
    fn rows(&self, model: &Model) -> Cow<'_, [Row]> {
        let marked = |shown: &Shown| shown.marked.as_ref().map(|marked| marked.item);
        let current = |shown: &&Shown| shown.of == self.shown_for(model) && marked(shown) == Some(self.list.cursor());
        match self.shown.as_deref().filter(current) {
            Some(shown) => Cow::Borrowed(&shown.rows),
            None => Cow::Owned(self.put_together(None, model).rows),
        }
    }

    /// Puts the rows of the list together, where anything they depend on has changed.
    fn keep_rows(&mut self, model: &Model) {
        let kept = self.shown.take().map(|shown| *shown);
        self.shown = Some(Box::new(self.put_together(kept, model)));
    }

    /// The rows with the item under the cursor marked, from those kept where these are current.
    fn put_together(&self, kept: Option<Shown>, model: &Model) -> Shown {
        let of = self.shown_for(model);
        let made = || Shown { of, rows: view::rows(self, model), marked: None };
        let mut shown = kept.filter(|shown| shown.of == of).unwrap_or_else(made);
        shown.mark(self, model, self.list.cursor());
        shown
    }

    /// The first bench of the item at the cursor.
    pub fn bench(&self) -> Option<String> {
        self.cursor().and_then(Item::bench)
    }
}
