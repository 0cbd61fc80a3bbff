//! How far the round got, counted over some benches: all, or those of a house.

use crate::model::{Model, Walked};
use crate::record::Bench;
use crate::warnings::Severity;
use std::collections::BTreeMap;

/// The counts.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Tally {
    walked: usize,
    part: usize,
    open: usize,
    /// Under restricted entry, with pots.
    closed: usize,
    /// Closed, but walked before.
    before: usize,
    flagged: usize,
    /// Not assessed yet.
    unknown: usize,
}

impl Tally {
    /// Counts benches. Closed ones are counted apart, but for those that were walked before they were closed.
    pub(super) fn of<'b>(
        model: &Model,
        benches: impl Iterator<Item = &'b Bench>,
        levels: &BTreeMap<&str, Severity>,
    ) -> Self {
        let mut tally = Self::default();
        for bench in benches {
            let code = bench.bench.as_str();
            let is_closed = model.closed_until(code).is_some();
            tally.flagged += usize::from(levels.get(code).is_some_and(|level| *level >= Severity::Act));
            let Some(summary) = model.cache.bench(code) else {
                tally.unknown += 1;
                continue;
            };
            if summary.standing.is_none() {
                continue;
            }
            tally.closed += usize::from(is_closed);
            match summary.walked() {
                Walked::Yes => {
                    tally.walked += 1;
                    tally.before += usize::from(is_closed);
                }
                _ if is_closed => {}
                Walked::Part(..) => tally.part += 1,
                Walked::No => tally.open += 1,
            }
        }
        tally
    }

    const fn all(&self) -> usize {
        self.walked.saturating_add(self.part).saturating_add(self.open)
    }

    /// Of the whole round.
    pub(super) fn text(&self, model: &Model) -> String {
        let (closed, before) = (self.closed, self.before);
        let mut text = format!("walked {} of {}", self.walked, self.all());
        if self.part > 0 {
            text.push_str(&format!(", {} partly done", self.part));
        }
        match (closed, before) {
            (0, _) => {}
            (_, 0) => text.push_str(&format!("; {closed} closed, not counted")),
            _ if closed == before => text.push_str(&format!("; {closed} closed, walked before")),
            _ => text.push_str(&format!("; {closed} closed, {before} of them walked before")),
        }
        if self.unknown > 0 {
            text.push_str(&format!("  {} {} benches loading", model.look.glyphs().later, self.unknown));
        }
        text
    }

    /// Of a house: `walked 3 of 8, 2 flagged, 1 closed`.
    pub(super) fn short(&self) -> String {
        let mut text = format!("walked {} of {}", self.walked, self.all());
        for (count, what) in [(self.flagged, "flagged"), (self.closed, "closed")] {
            if count > 0 {
                text.push_str(&format!(", {count} {what}"));
            }
        }
        text
    }
}
