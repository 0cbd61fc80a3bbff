//! A form to be opened: what it writes, where, and what it is filled in with.

use super::JobTick;
use crate::record::{Entry, KindName, Place};
use crate::warnings::{Warning, WarningName};
use uuid::Uuid;

/// A form to be opened.
#[derive(Debug, Clone, PartialEq)]
pub struct FormRequest {
    /// The kind of entry it writes.
    pub kind: KindName,
    /// Where it was opened.
    pub place: Place,
    /// Benches marked, or all with the same warning, in walking order: offered as one place.
    pub benches: Vec<String>,
    /// The warning it answers.
    pub answers: Option<WarningName>,
    /// What it is filled in with: field and text as it is typed.
    pub fill: Vec<(&'static str, String)>,
    /// Of a put-off: what is postponed, and where.
    pub put_off: Vec<(Place, WarningName)>,
    /// Of a strike: the entries to void.
    pub strikes: Vec<Uuid>,
    /// The entry that is written right: voided when the form is saved, in the same step.
    pub rights: Option<Uuid>,
    /// The plot of the entry that is written right, where it is of one plot.
    pub plot: Option<String>,
    /// The listed job that is ticked when the form is saved.
    pub ticks: Option<JobTick>,
}

impl FormRequest {
    /// An empty form of a kind for a place.
    pub const fn new(kind: KindName, place: Place) -> Self {
        Self {
            kind,
            place,
            benches: Vec::new(),
            answers: None,
            fill: Vec::new(),
            put_off: Vec::new(),
            strikes: Vec::new(),
            rights: None,
            plot: None,
            ticks: None,
        }
    }

    /// The form that writes an entry right: the same kind, place and moment, filled in with what the entry says.
    pub fn rights(entry: &Entry) -> Self {
        Self {
            rights: Some(entry.id),
            plot: entry.plot.as_deref().map(str::to_owned),
            ..Self::new(entry.name(), entry.place.clone())
        }
    }

    /// The same for these benches together.
    #[must_use]
    pub fn on(self, benches: Vec<String>) -> Self {
        Self { benches, ..self }
    }

    /// The same, ticking a listed job when it is saved.
    #[must_use]
    pub fn ticking(self, tick: JobTick) -> Self {
        Self { ticks: Some(tick), ..self }
    }

    /// Asks why a listed job is not needed. `None` where it has no place.
    pub fn not_needed(tick: JobTick, answers: Option<WarningName>) -> Option<Self> {
        let place = tick.places.first()?.clone();
        Some(Self { answers, ..Self::new(KindName::Job, place).ticking(tick) })
    }

    /// Puts warnings off, each where it stands. `None` where there are none.
    pub fn put_off(warnings: &[Warning]) -> Option<Self> {
        let first = warnings.first()?;
        let mut named: Vec<(Place, WarningName)> = Vec::new();
        for warning in warnings {
            let one = (warning.place.clone(), warning.name);
            if !named.contains(&one) {
                named.push(one);
            }
        }
        let ask =
            Self { put_off: named, answers: Some(first.name), ..Self::new(KindName::PutOff, first.place.clone()) };
        Some(ask)
    }
}
