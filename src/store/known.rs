//! What was read of a file before: a season has few different codes, names and bodies. Each is read once, and shared.

use super::row;
use crate::record::codec::Bodies;
use std::collections::HashMap;
use std::sync::Arc;

/// What was read so far.
#[derive(Debug, Default)]
pub(super) struct Known {
    pub(super) bodies: Bodies,
    codes: Texts,
    names: Texts,
    authors: Texts,
}

impl Known {
    /// A code, as it may be shown.
    pub(super) fn code(&mut self, text: &str) -> Arc<str> {
        self.codes.shared(text, row::code)
    }

    /// A name, as it may be shown.
    pub(super) fn name(&mut self, text: &str) -> Arc<str> {
        self.names.shared(text, row::text)
    }

    /// Who wrote something, as it may be shown.
    pub(super) fn author(&mut self, text: &str) -> Arc<str> {
        self.authors.shared(text, row::author)
    }
}

/// Texts of one sort: as they stand in the file, with what is shown of them.
#[derive(Debug, Default)]
struct Texts(HashMap<Box<str>, Arc<str>, foldhash::fast::RandomState>);

impl Texts {
    /// How many are kept, and the longest, in bytes, whatever a file holds.
    const MOST: usize = 16_384;
    const LONG: usize = 160;

    fn shared(&mut self, text: &str, safe: fn(String) -> String) -> Arc<str> {
        if let Some(known) = self.0.get(text) {
            return Arc::clone(known);
        }
        let made: Arc<str> = safe(text.to_owned()).into();
        if text.len() <= Self::LONG && self.0.len() < Self::MOST {
            self.0.insert(text.into(), Arc::clone(&made));
        }
        made
    }
}

#[cfg(test)]
mod tests {
    use super::Known;
    use std::sync::Arc;

    #[test]
    fn texts_are_shared_within_their_sort_and_shown_by_its_rules() {
        let mut known = Known::default();
        let (code, name) = (known.code("East 2"), known.name("East 2"));
        assert_eq!((&*code, &*name), ("East-2", "East 2"));
        assert!(Arc::ptr_eq(&code, &known.code("East 2")) && Arc::ptr_eq(&name, &known.name("East 2")));
        assert_eq!(&*known.author("somebody else"), "somebody");
    }
}
