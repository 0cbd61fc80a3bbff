//! The Mixing page: what to measure out for the benches chosen, and how it is logged.
//!
//! `fields` says what is asked, `chosen_benches` what the benches chosen give, `read` makes quantities of what was typed, `work`
//! has `mix` calculate it: the same numbers and words as the command line's. Nothing is prefilled that a label says.

mod chosen_benches;
mod fields;
mod growth;
mod read;
mod update;
mod view;
mod work;

pub use update::update;
pub use view::view;

use crate::controls::{Fields, List};
use crate::model::{DraftKey, MixTab, MixingField as F, MixingRequest, Model};
use crate::units::System;
use work::Work;

/// The page: what was typed, and what it comes to.
#[derive(Debug, Clone)]
pub struct State {
    tab: MixTab,
    fields: Fields<F>,
    /// The first row of the answer that is shown.
    list: List,
    work: Work,
    /// True after a submit: empty required fields are reported.
    asked: bool,
    /// Logged as it stands: it takes a change before it is logged again.
    written: bool,
}

impl State {
    /// The page filled in as asked, the rest as it was left.
    pub fn open(mixing: &MixingRequest, model: &Model) -> Self {
        let mut fields = fields::all();
        for row in fields.all_mut() {
            row.set(model.draft(&DraftKey::Mixing(row.name)).unwrap_or_default());
        }
        let tab = model.draft(&DraftKey::MixTab).and_then(|t| MixTab::ALL.into_iter().find(|tab| tab.text() == t));
        for tab in [MixTab::GrowthRegulator, MixTab::Nutrient] {
            if fields.typed(F::Method(tab)).is_none() {
                fields.set(F::Method(tab), "drench");
            }
        }
        let benches = (F::Benches, mixing.benches.join(" "));
        let fill = mixing.fill.iter().cloned().chain((!mixing.benches.is_empty()).then_some(benches));
        for (name, text) in fill {
            // Pots and area typed for other benches are not those of these.
            if name == F::Benches && fields.text(name) != text {
                for of_place in [F::Pots, F::Area, F::Volume] {
                    fields.set(of_place, "");
                }
            }
            fields.set(name, &text);
        }
        fields.settle();
        let tab = mixing.tab.or(tab).unwrap_or(MixTab::GrowthRegulator);
        let work = Work::default();
        let mut state = Self { tab, fields, list: List::default(), work, asked: false, written: false };
        state.renew(model);
        state.mark_first_open();
        state
    }

    /// Recomputes everything.
    fn renew(&mut self, model: &Model) {
        self.work = work::work(self.tab, &self.fields, model);
        let (tab, two_steps) = (self.tab, self.work.two_steps);
        self.fields.show(|fields, name| fields::is_called_for(fields, (tab, two_steps), name));
        self.blame(model.system());
    }

    /// Says what is wrong next to each field; where required fields were asked for, which are empty.
    fn blame(&mut self, system: System) {
        self.fields.clear(|_| true);
        for (name, text) in &self.work.faults {
            self.fields.blame(*name, text);
        }
        let writes = self.work.writes.is_some();
        let needed = |name: F, required: bool| required || (name == F::Benches && writes);
        let shown = self.fields.shown().filter(|row| self.asked && needed(row.name, row.required) && row.is_empty());
        let empty: Vec<F> = shown.map(|row| row.name).collect();
        for name in empty {
            self.fields.blame(name, format!("is needed: {}", fields::hint(name, system)));
        }
    }

    /// Marks the first required field that is empty; else the first with something wrong; else the first.
    fn mark_first_open(&mut self) {
        let first = self.fields.first_empty().or_else(|| self.fields.first_fault());
        self.fields.mark(first.unwrap_or(F::Benches));
    }

    /// Keeps what is typed for the next time.
    fn keep(&self, model: &mut Model) {
        for row in self.fields.all() {
            if row.is_empty() {
                model.forget_draft(&DraftKey::Mixing(row.name));
            } else {
                model.keep_draft(DraftKey::Mixing(row.name), row.text());
            }
        }
        model.keep_draft(DraftKey::MixTab, self.tab.text().to_owned());
    }

    /// The first bench it is for.
    pub fn bench(&self) -> Option<String> {
        self.work.benches.first().cloned()
    }
}
