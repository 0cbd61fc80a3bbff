//! The Mixing page: what to measure out for the benches chosen, and how it is written down.
//!
//! `fields` says what is asked, `chosen_benches` what the benches chosen give, `read` makes quantities of what was typed, `work`
//! has `mix` calculate it: the same numbers and words as the command line's. Nothing is prefilled that stands on a pack.

mod chosen_benches;
mod fields;
mod growth;
mod read;
mod update;
mod view;
mod work;

pub use update::update;
pub use view::view;

use crate::controls::Field;
use crate::model::{DraftKey, MixTab, Mixing, Model};
use fields::Spec;
use std::collections::BTreeMap;
use work::Work;

/// The page: what was typed, and what it comes to.
#[derive(Debug, Clone)]
pub struct State {
    tab: MixTab,
    fields: BTreeMap<&'static str, Field>,
    /// The field keys act on, counted as they are shown.
    at: usize,
    /// The first row of the answer that is shown.
    top: usize,
    work: Work,
    /// Required fields were asked for: those empty are told.
    asked: bool,
    /// Written down as it stands: it takes a change before it is written again.
    written: bool,
}

impl State {
    /// The page filled in as asked, the rest as it was left.
    pub fn open(mixing: &Mixing, shared: &Model) -> Self {
        let kept = |name: &'static str| (name, shared.drafts.field(&DraftKey::Mixing(name)));
        let mut fields: BTreeMap<&'static str, Field> = fields::all().map(|spec| kept(spec.name)).collect();
        let tab =
            shared.drafts.text(&DraftKey::MixTab).and_then(|t| MixTab::ALL.into_iter().find(|tab| tab.text() == t));
        for how in ["how", "nutrient how"] {
            if let Some(field) = fields.get_mut(how).filter(|f| f.is_blank()) {
                *field = Field::holding("drench");
            }
        }
        let benches = ("benches", mixing.benches.join(" "));
        let fill = mixing.fill.iter().cloned().chain((!mixing.benches.is_empty()).then_some(benches));
        for (name, text) in fill {
            // Pots and area typed for other benches are not those of these.
            if name == "benches" && fields.get(name).is_some_and(|f| f.text() != text) {
                for of_place in ["pots", "area", "volume"] {
                    fields.insert(of_place, Field::default());
                }
            }
            if let Some(field) = fields.get_mut(name) {
                *field = Field::holding(&text);
            }
        }
        let tab = mixing.tab.or(tab).unwrap_or(MixTab::GrowthRegulator);
        let mut state = Self { tab, fields, at: 0, top: 0, work: Work::default(), asked: false, written: false };
        state.renew(shared);
        state.at = state.first_open();
        state
    }

    /// Works everything out anew.
    fn renew(&mut self, shared: &Model) {
        self.work = work::work(self, shared);
        self.at = self.at.min(self.shown().len().saturating_sub(1));
    }

    fn shown(&self) -> Vec<Spec> {
        fields::shown(self)
    }

    /// The field keys act on.
    fn marked(&self) -> Option<Spec> {
        self.shown().get(self.at).copied()
    }

    /// What was typed into a field; `None` where nothing is.
    fn text(&self, name: &str) -> Option<&str> {
        self.fields.get(name).map(|f| f.text().trim()).filter(|t| !t.is_empty())
    }

    fn is_blank(&self, name: &str) -> bool {
        self.text(name).is_none()
    }

    fn is_spray(&self, name: &str) -> bool {
        self.text(name).is_some_and(|t| "spray".starts_with(&t.to_lowercase()))
    }

    /// The first required field that is empty; else the first with something wrong; else the first.
    fn first_open(&self) -> usize {
        let shown = self.shown();
        let empty = shown.iter().position(|spec| spec.required && self.is_blank(spec.name));
        empty.or_else(|| shown.iter().position(|spec| self.fault(*spec).is_some())).unwrap_or(0)
    }

    /// Keeps what is typed for the next time.
    fn keep(&self, shared: &mut Model) {
        for (name, field) in &self.fields {
            shared.drafts.keep_field(DraftKey::Mixing(name), field);
        }
        shared.drafts.keep(DraftKey::MixTab, self.tab.text().to_owned());
    }

    /// What is wrong with a field.
    fn fault(&self, spec: Spec) -> Option<String> {
        let told = self.work.faults.iter().find(|(name, _)| *name == spec.name).map(|(_, text)| text.clone());
        let needed = spec.required || (spec.name == "benches" && self.work.writes.is_some());
        let empty = self.asked && needed && self.is_blank(spec.name);
        told.or_else(|| empty.then(|| format!("is needed: {}", spec.hint)))
    }

    /// The first bench it is for.
    pub fn bench(&self) -> Option<String> {
        self.work.benches.first().cloned()
    }
}
