//! The form of a trial: a new one, with its design proposed, its blocks counted and its layout drawn; or a change of one.
//!
//! What is typed is read by `read`; `propose` says which design, how many blocks and which layout follow; `offers` fills in what is not
//! filled in by hand. The layout is shown before it is saved and can be drawn again; how often is kept. The trial and all its plots
//! are saved together.

mod offers;
mod propose;
mod read;
mod rows;
mod save;
mod update;
mod view;

pub use update::update;
pub use view::view;

use crate::controls::{Fields, List, Row};
use crate::model::{DraftKey, Model};
use crate::record::{FieldFault, Plot, Trial};
use crate::trials::{Rules, WhichWay, seed_of};
use propose::HowMany;
use rows::F;
use std::collections::{BTreeMap, BTreeSet};

/// A form of a trial being filled in.
#[derive(Debug, Clone)]
pub struct State {
    /// The trial that is changed; `None` for a new one.
    kept: Option<Trial>,
    fields: Fields<F>,
    /// Fields filled in by hand: nothing is offered over them.
    own: BTreeSet<F>,
    /// Why a field is filled in as it is, where that was not done by hand.
    offered: BTreeMap<F, String>,
    /// The number the layout is drawn with, and how often one was drawn.
    seed: String,
    drawn: u32,
    /// The layout as it is drawn now, or why there is none.
    laid: Result<Vec<Plot>, read::Fault>,
    /// What the grower's own heights say.
    heights: Option<WhichWay>,
    how_many: HowMany,
    /// What is wrong with nothing that is shown.
    stray: Vec<FieldFault>,
    /// The layout is shown over the whole form: the next Enter saves.
    shows_layout: bool,
    /// The first row seen of the words below the fields, or of the layout.
    words: List,
    touched: bool,
}

impl State {
    /// The form of a new trial, as it was left the last time.
    pub fn new(model: &Model) -> Self {
        Self::of(None, model)
    }

    /// The form that changes a trial; `None` of an unknown one.
    pub fn change(code: &str, model: &Model) -> Option<Self> {
        Some(Self::of(Some(model.season.trial(code)?.clone()), model))
    }

    fn of(kept: Option<Trial>, model: &Model) -> Self {
        let mut state = Self {
            fields: rows::all(kept.is_some(), model),
            kept,
            own: BTreeSet::new(),
            offered: BTreeMap::new(),
            seed: seed_of(model.now.id),
            drawn: 1,
            laid: Err((F::Treatments, String::new())),
            heights: None,
            how_many: HowMany::default(),
            stray: Vec::new(),
            shows_layout: false,
            words: List::default(),
            touched: false,
        };
        match state.kept.clone() {
            Some(trial) => offers::fill(&mut state, &trial, model),
            None => state.recall(model),
        }
        state.renew(model);
        state.fields.settle();
        if let Some(first) = state.fields.first_empty().filter(|_| state.kept.is_none()) {
            state.fields.mark(first);
        }
        state
    }

    fn text(&self, name: F) -> String {
        self.fields.text(name)
    }

    fn row(&self, name: F) -> Option<&Row<F>> {
        self.fields.row(name)
    }

    const fn is_new(&self) -> bool {
        self.kept.is_none()
    }

    /// Offers, counts blocks and lays once more.
    fn renew(&mut self, model: &Model) {
        if self.is_new() {
            self.heights = propose::own_heights(self, model);
            offers::offer(self, model);
            let asked = propose::asked(self, model);
            self.how_many.renew(asked, Rules::of(&model.limits));
        }
        self.changed(model);
    }

    /// Offers and lays once more; blocks are counted between fields.
    fn changed(&mut self, model: &Model) {
        if self.is_new() {
            offers::offer(self, model);
            self.laid = propose::laid(self, model);
        }
    }

    fn title(&self) -> String {
        self.kept.as_ref().map_or_else(|| "A new trial".to_owned(), |trial| format!("Change trial {}", trial.trial))
    }

    fn draft(&self, name: F) -> DraftKey {
        DraftKey::Trial(self.row(name).map_or("", |row| row.label))
    }

    fn recall(&mut self, model: &Model) {
        let kept: Vec<(F, String)> = self
            .fields
            .all()
            .filter_map(|row| Some((row.name, model.draft(&self.draft(row.name))?.to_owned())))
            .collect();
        for (name, text) in kept {
            self.own.insert(name);
            self.touched = true;
            self.fields.set(name, &text);
        }
    }

    /// Leaves it: what was filled in by hand for a new trial is kept for the next time; which fields it was is said.
    fn leave(&self, model: &mut Model) {
        let changed = self.fields.changed().join(", ");
        if !self.touched || changed.is_empty() {
            return;
        }
        if self.kept.is_some() {
            model.say(format!("No change saved; discarded: {changed}."));
            return;
        }
        for name in &self.own {
            model.keep_draft(self.draft(*name), self.text(*name));
        }
        model.say(format!("Kept for next time, not saved: {changed}."));
    }

    fn forget(&self, model: &mut Model) {
        for row in self.fields.all() {
            model.forget_draft(&self.draft(row.name));
        }
    }
}
