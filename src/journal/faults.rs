//! What is wrong with a file: the first faults with their texts, and how many more there are. A file of a million bad lines then
//! takes no more memory than its own.

use crate::record::FieldFault;
use std::fmt;
use std::ops::Deref;

/// How many faults of a file are kept with their texts; the rest is counted.
pub const FAULTS_SHOWN: usize = 100;

/// Something wrong with a journal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Line of the file, from 1.
    pub line: usize,
    /// Field, where one is meant.
    pub field: Option<String>,
    /// What is wrong and what would be right.
    pub text: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.field {
            Some(field) => write!(f, "line {}, {field}: {}", self.line, self.text),
            None => write!(f, "line {}: {}", self.line, self.text),
        }
    }
}

impl Fault {
    pub(super) fn at(line: usize, fault: FieldFault) -> Self {
        let field = (!fault.field.is_empty()).then_some(fault.field);
        Self { line, field, text: fault.text }
    }
}

/// The faults of a file: those kept, which it can be read as, and the number of the others.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Faults {
    kept: Vec<Fault>,
    more: usize,
}

impl Faults {
    /// One fault.
    pub(super) fn one(line: usize, text: String) -> Self {
        Self { kept: vec![Fault { line, field: None, text }], more: 0 }
    }

    pub(super) fn push(&mut self, fault: Fault) {
        if self.kept.len() < FAULTS_SHOWN {
            self.kept.push(fault);
        } else {
            self.more = self.more.saturating_add(1);
        }
    }

    pub(super) fn extend(&mut self, faults: impl IntoIterator<Item = Fault>) {
        faults.into_iter().for_each(|fault| self.push(fault));
    }

    pub(super) fn sort_by_line(&mut self) {
        self.kept.sort_by_key(|fault| fault.line);
    }

    /// How many there are beside those kept.
    pub const fn more(&self) -> usize {
        self.more
    }
}

impl Deref for Faults {
    type Target = [Fault];

    fn deref(&self) -> &[Fault] {
        &self.kept
    }
}

impl From<Vec<Fault>> for Faults {
    fn from(faults: Vec<Fault>) -> Self {
        let mut all = Self::default();
        all.extend(faults);
        all
    }
}
