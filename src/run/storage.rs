//! Storage as the loop needs it; implemented by the season file and by test doubles.

use crate::model::NotOpened;
use crate::record::{Entry, Line, Plan};
use chrono::{DateTime, FixedOffset, NaiveDate};

/// Why records were not stored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused {
    /// In words.
    pub why: String,
    /// True when trying again may help.
    pub again: bool,
}

/// A season that was opened; its entries follow by [`Storage::next_entries`].
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The plan.
    pub plan: Plan,
    /// Where the file lies.
    pub path: String,
    /// The day to open it on, where it is not today.
    pub on: Option<NaiveDate>,
}

/// Storage of records.
pub trait Storage {
    /// Stores lines, all or none; when it returns they are durable. Where there is no season file yet, lines that hold a site
    /// begin one.
    ///
    /// # Errors
    /// [`Refused`]: nothing was stored.
    fn append(&mut self, lines: &[Line]) -> Result<(), Refused>;

    /// The next entries of the open season; `None` when all were given.
    ///
    /// # Errors
    /// In words.
    fn next_entries(&mut self) -> Result<Option<Vec<Entry>>, String>;

    /// What the background check of the open file found wrong; reported once.
    fn damage(&mut self) -> Option<String>;

    /// Makes the demo season and opens it.
    ///
    /// # Errors
    /// In words.
    fn demo(&mut self) -> Result<Opened, NotOpened>;

    /// Imports a journal into the season file, which may be new, and opens it.
    ///
    /// # Errors
    /// Every fault of the journal, a line each.
    fn import(&mut self, path: &str, at: DateTime<FixedOffset>, by: &str) -> Result<Opened, NotOpened>;

    /// Remembers who writes.
    ///
    /// # Errors
    /// In words.
    fn save_author(&mut self, by: &str) -> Result<(), String>;
}
