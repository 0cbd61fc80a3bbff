//! Which laptop wrote a line, where the season is shared and it was not this one.

use std::collections::HashMap;
use std::sync::Arc;
use uuid::Uuid;

/// Lines that came from other laptops, by their ids.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Origins {
    laptops: Vec<Arc<str>>,
    of: HashMap<Uuid, u16>,
    /// Lines of a newer program that are kept and not understood; `None` where the season is not shared.
    held: Option<usize>,
}

impl Origins {
    /// Says that the season is shared, and how many lines of a newer program are kept and not understood here.
    pub const fn set_held(&mut self, lines: usize) {
        self.held = Some(lines);
    }

    /// How many lines of a newer program are kept and not understood here.
    pub fn held(&self) -> usize {
        self.held.unwrap_or(0)
    }

    /// True where the season is shared: there may be other laptops.
    pub fn is_shared(&self) -> bool {
        self.held.is_some() || !self.is_empty()
    }

    /// True where nothing is to be added to what is known.
    pub fn says_nothing(&self) -> bool {
        self.of.is_empty() && self.held.is_none()
    }

    /// The lines that came from other laptops.
    pub fn lines(&self) -> impl Iterator<Item = Uuid> + '_ {
        self.of.keys().copied()
    }

    /// Notes that a line came from a laptop. Of a line that came twice the first counts.
    pub fn add(&mut self, line: Uuid, laptop: &str) {
        let known = self.laptops.iter().position(|name| **name == *laptop);
        let at = known.unwrap_or_else(|| {
            self.laptops.push(laptop.into());
            self.laptops.len().saturating_sub(1)
        });
        if let Ok(at) = u16::try_from(at) {
            self.of.entry(line).or_insert(at);
        }
    }

    /// The laptop that wrote a line; `None` for this one, and where nothing is shared.
    pub fn of(&self, line: Uuid) -> Option<&str> {
        self.of.get(&line).and_then(|at| self.laptops.get(usize::from(*at))).map(|name| &**name)
    }

    /// True where no line came from another laptop.
    pub fn is_empty(&self) -> bool {
        self.of.is_empty()
    }

    /// Adds what is known besides; of the lines not understood the newer number counts.
    pub fn extend(&mut self, more: &Self) {
        for (line, at) in &more.of {
            if let Some(laptop) = more.laptops.get(usize::from(*at)) {
                self.add(*line, laptop);
            }
        }
        self.held = more.held.or(self.held);
    }
}
