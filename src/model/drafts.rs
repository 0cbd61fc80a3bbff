//! Drafts: text typed and left, kept by its purpose until it is saved or cleared.

use super::go::SeasonReport;
use super::{MixingField, PlanAsk};
use crate::controls::Field;
use crate::record::{KindName, Place, TrialReading};
use crate::warnings::WarningName;
use std::collections::BTreeMap;
use uuid::Uuid;

/// What a draft is for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum DraftKey {
    /// The line of heights of a bench, on the Walk card.
    Heights(String),
    /// The line for the temperature of a house, on the Walk card.
    HouseTemperature(String),
    /// A note.
    Note(Place),
    /// Why a trial is ended early.
    EndTrial(String),
    /// The path for the report of a trial.
    TrialReport(String),
    /// The path for a report of the season.
    SeasonReport(SeasonReport),
    /// A note of a plot.
    PlotNote(String),
    /// The line of a reading of a plot, on the readings card.
    Reading(String, TrialReading),
    /// One line for one kind of entry of a bench.
    Line(KindName, String),
    /// Who writes.
    Who,
    /// The day to put the program on.
    OtherDay,
    /// The path of a journal.
    Path,
    /// A field of a form.
    Form {
        /// The kind of entry it writes.
        kind: KindName,
        /// Where it was opened.
        place: Place,
        /// The warning it answers.
        answers: Option<WarningName>,
        /// The first entry it voids.
        strikes: Option<Uuid>,
        /// The field.
        field: &'static str,
    },
    /// A field of a form of the plan.
    Plan(PlanAsk, &'static str),
    /// A field of the form of a trial, by its label.
    Trial(&'static str),
    /// A field of the Mixing page.
    Mixing(MixingField),
    /// Which page of the Mixing page was shown.
    MixTab,
}

/// The drafts.
#[derive(Debug, Clone, Default)]
pub(super) struct Drafts {
    texts: BTreeMap<DraftKey, String>,
}

impl Drafts {
    /// The text of a draft; it may be empty.
    pub(super) fn text(&self, key: &DraftKey) -> Option<&str> {
        self.texts.get(key).map(String::as_str)
    }

    /// A text field with the draft.
    pub(super) fn field(&self, key: &DraftKey) -> Field {
        self.text(key).map_or_else(Field::default, Field::holding)
    }

    /// Stores a text, also an empty one.
    pub(super) fn keep(&mut self, key: DraftKey, text: String) {
        self.texts.insert(key, text);
    }

    /// Stores a half-typed line; a blank one removes the draft.
    pub(super) fn keep_field(&mut self, key: DraftKey, field: &Field) {
        if field.is_blank() {
            self.forget(&key);
        } else {
            self.keep(key, field.text().to_owned());
        }
    }

    /// Removes a draft.
    pub(super) fn forget(&mut self, key: &DraftKey) {
        self.texts.remove(key);
    }
}
