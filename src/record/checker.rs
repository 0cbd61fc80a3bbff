//! Faults of a record, gathered field by field.

use super::field::Field;

/// What is wrong with a field, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldFault {
    /// The field's name in the journal; empty where the whole line is meant.
    pub field: String,
    /// What is wrong and what would be right.
    pub text: String,
}

impl FieldFault {
    /// Of one field.
    pub fn new(field: impl Into<String>, text: impl Into<String>) -> Self {
        Self { field: field.into(), text: text.into() }
    }

    /// Of the whole line.
    pub fn whole(text: impl Into<String>) -> Self {
        Self::new("", text)
    }
}

/// Gathers faults; keeps silent about fields already found wrong.
#[derive(Debug, Default)]
pub(super) struct Checker {
    faults: Vec<FieldFault>,
}

impl Checker {
    pub(super) fn fault(&mut self, field: &str, text: impl Into<String>) {
        self.faults.push(FieldFault::new(field, text));
    }

    pub(super) fn missing(&mut self, field: &Field) {
        self.fault(field.name, format!("is missing; give {}", field.wanted()));
    }

    pub(super) fn is_bad(&self, field: &str) -> bool {
        self.faults.iter().any(|f| f.field == field)
    }

    /// A rule between fields: said at the first of them, and only while none of them is wrong in itself.
    pub(super) fn between(&mut self, fields: &[&str], broken: bool, text: impl FnOnce() -> String) {
        if let Some(first) = fields.first()
            && broken
            && !fields.iter().any(|f| self.is_bad(f))
        {
            self.fault(first, text());
        }
    }

    pub(super) fn done(self) -> Vec<FieldFault> {
        self.faults
    }
}
