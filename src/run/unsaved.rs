//! The lines that are not in the season file, shared with whatever may have to end the program while they are being written.

use super::{Part, Rescue};
use crate::record::Line;
use std::sync::{Arc, Mutex, PoisonError};

/// The lines that are not in the season file, those being written now among them, and the journals they are kept in meanwhile.
#[derive(Clone)]
pub(super) struct Unsaved {
    lines: Arc<Mutex<[Vec<Line>; 2]>>,
    rescue: Arc<dyn Rescue>,
}

impl Unsaved {
    /// None yet.
    pub(super) fn new(rescue: Arc<dyn Rescue>) -> Self {
        Self { lines: Arc::default(), rescue }
    }

    /// What waits, and what was refused after it was shown.
    pub(super) fn set(&self, waiting: Vec<Line>, refused: Vec<Line>) {
        *self.lines.lock().unwrap_or_else(PoisonError::into_inner) = [waiting, refused];
    }

    /// All of it.
    pub(super) fn all(&self) -> Vec<Line> {
        self.lines.lock().unwrap_or_else(PoisonError::into_inner).concat()
    }

    /// Makes the journals hold it, and removes the journal of which nothing is left. Slow: it is on the disk when this returns.
    ///
    /// # Errors
    /// Why one of them could not be written, in words.
    pub(super) fn keep(&self) -> Result<(), String> {
        let [waiting, refused] = self.lines.lock().unwrap_or_else(PoisonError::into_inner).clone();
        let kept = self.rescue.keep(Part::Waiting, &waiting);
        kept.and(self.rescue.keep(Part::Refused, &refused))
    }

    /// Where it is kept, as far as it is.
    pub(super) fn paths(&self) -> Vec<String> {
        self.rescue.paths()
    }
}
