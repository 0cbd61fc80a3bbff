//! The benches by their place in the walk.

use crate::season::Season;
use std::collections::HashMap;

/// All benches in walking order, found by their codes.
#[derive(Debug)]
pub(super) struct Walk<'s> {
    codes: Vec<&'s str>,
    places: HashMap<&'s str, usize>,
}

impl<'s> Walk<'s> {
    /// The walk of a season.
    pub(super) fn of(season: &'s Season) -> Self {
        let codes: Vec<&str> = season.benches().iter().map(|bench| bench.bench.as_str()).collect();
        let places = codes.iter().enumerate().map(|(at, code)| (*code, at)).collect();
        Self { codes, places }
    }

    /// The place of a bench.
    pub(super) fn at(&self, code: &str) -> Option<usize> {
        self.places.get(code).copied()
    }

    /// The bench at a place.
    pub(super) fn code(&self, at: usize) -> Option<&'s str> {
        self.codes.get(at).copied()
    }

    /// The benches.
    pub(super) fn codes(&self) -> &[&'s str] {
        &self.codes
    }
}
