//! How far the round got, counted over some benches: all, or those of a house.

use crate::model::{Model, Walked};
use crate::record::Bench;
use crate::report::words;
use crate::warnings::Flagged;
use std::collections::BTreeSet;

/// The counts.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Tally {
    walked: usize,
    part: usize,
    open: usize,
    /// Under restricted entry, with pots.
    closed: usize,
    /// Closed, but walked before.
    before: usize,
    /// Benches for what is their own, and the lots and houses of these benches.
    flagged: Flagged,
    /// Not assessed yet.
    unknown: usize,
}

impl Tally {
    /// Counts benches. Closed ones are counted apart, but for those that were walked before they were closed.
    pub(super) fn of<'b>(model: &Model, benches: impl Iterator<Item = &'b Bench>) -> Self {
        let (mut tally, mut codes) = (Self::default(), BTreeSet::new());
        let closed_until = model.closings();
        for bench in benches {
            let code = bench.bench.as_str();
            let is_closed = closed_until(code).is_some();
            codes.insert(code);
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
        tally.flagged = model.cache.flagged(&codes);
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

    /// Of a house: `walked 3 of 8, 2 benches and 1 lot flagged, 1 closed`.
    pub(super) fn short(&self) -> String {
        let mut text = format!("walked {} of {}", self.walked, self.all());
        if self.flagged != Flagged::default() {
            text.push_str(&format!(", {}", words::flagged(&self.flagged)));
        }
        if self.closed > 0 {
            text.push_str(&format!(", {} closed", self.closed));
        }
        text
    }
}
