//! What was recorded in this session and can still be voided, batch by batch.

use super::{Effect, FormRequest};
use crate::record::{Entry, FieldFault};
use uuid::Uuid;

/// The result of an undo.
#[derive(Debug, Clone, PartialEq)]
pub enum Undone {
    /// These entries are voided; the effect saves the strikes.
    Struck {
        /// The entries.
        entries: Vec<Entry>,
        /// The effect.
        effect: Effect,
    },
    /// They keep people out, so the strike goes through this form.
    Asks(Box<FormRequest>),
    /// Nothing of this session is left to undo.
    Nothing,
    /// They cannot be voided, and why.
    Refused(Vec<FieldFault>),
}

/// Entries that can be voided by "undo": a batch for each time something was recorded, the newest last.
#[derive(Debug, Clone, Default)]
pub(super) struct UndoStack {
    batches: Vec<Vec<Uuid>>,
}

impl UndoStack {
    /// Adds a batch; an empty one is left out.
    pub(super) fn push(&mut self, batch: Vec<Uuid>) {
        if !batch.is_empty() {
            self.batches.push(batch);
        }
    }

    /// The newest batch; empty where there is none.
    pub(super) fn last(&self) -> &[Uuid] {
        self.batches.last().map_or(&[], Vec::as_slice)
    }

    /// Removes entries from every batch.
    pub(super) fn forget(&mut self, ids: &[Uuid]) {
        for batch in &mut self.batches {
            batch.retain(|id| !ids.contains(id));
        }
        self.batches.retain(|batch| !batch.is_empty());
    }
}
