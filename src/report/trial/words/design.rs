//! What was done and how it was drawn.

use super::{Words, plots};
use crate::dates;
use crate::terms::{Design, Term};
use crate::trials::Over;

impl Words<'_> {
    /// What is compared on what: `slow-release rate, R6 on M4`.
    pub fn subject(&self) -> String {
        let mut benches: Vec<&str> = Vec::new();
        for plot in &self.found.readings.plots {
            if !benches.contains(&plot.bench.as_str()) {
                benches.push(&plot.bench);
            }
        }
        let trial = self.found.trial();
        let on = if benches.is_empty() { String::new() } else { format!(" on {}", benches.join(", ")) };
        format!("{}, {}{on}", trial.question, trial.lot)
    }

    /// How many plots there are and how they lie: `24 plots, 6 blocks of 4`.
    pub fn laid(&self) -> String {
        let trial = self.found.trial();
        let all = &self.found.readings.plots;
        let count = plots(all.len());
        let of = trial.treatments.len().max(1);
        let blocks: Option<std::collections::BTreeSet<u32>> = all.iter().map(|plot| plot.block).collect();
        let blocks = blocks.map(|blocks| blocks.len()).filter(|blocks| *blocks > 1);
        let pots = match all.first().map(|plot| plot.pots) {
            Some(pots) if pots > 1 && all.iter().all(|plot| plot.pots == pots) => format!(" of {pots} pots"),
            _ => String::new(),
        };
        match (trial.design, blocks) {
            (Design::LatinSquare, _) => format!("{count}{pots}, {of} rows by {of} columns"),
            (Design::RandomizedBlocks | Design::AsLaid, Some(blocks)) => {
                let each = if all.len().is_multiple_of(blocks) {
                    format!(" of {}", all.len() / blocks)
                } else {
                    String::new()
                };
                format!("{count}{pots}, {blocks} blocks{each}")
            }
            _ => format!("{count}{pots}, {of} treatments"),
        }
    }

    /// What is shown and of when: `height (in), Oct 12`, or `Oct 12 to 13` where it took two days.
    pub fn shown(&self) -> String {
        let (first, last) = self.found.span();
        match self.found.over {
            Over::Day(_) => format!("{}, {}", self.scale.head(), dates::range(first, last)),
            Over::Growth => format!("{}, {} to {}", self.scale.head(), dates::short(first), dates::short(last)),
        }
    }

    /// How the plots got their places, with the seed: what every text ends with.
    pub fn drawn(&self) -> String {
        let trial = self.found.trial();
        let (design, seed) = (trial.design.text(), trial.seed.as_deref());
        match seed {
            Some(seed) => {
                let times = match trial.drawn.unwrap_or(1) {
                    1 => "drawn once".to_owned(),
                    times => format!("drawn {times} times"),
                };
                format!("Design: {design}, drawn by lot with seed {seed}, {times}.")
            }
            None => format!("Design: {design}; no seed."),
        }
    }

    /// That the trial ended before it was planned to, and why.
    pub fn ended(&self) -> Option<String> {
        let trial = self.found.trial();
        let (because, until) = (trial.ended_because.as_deref()?, trial.until?);
        Some(format!("Ended early on {}: {because}. The readings up to then stand.", dates::short(until)))
    }

    /// Which treatments are not written as given: `Not yet logged as given: 3 plots at 12 g.`; `None` where all are, or where nothing is
    /// given by rate.
    pub fn not_given(&self) -> Option<String> {
        self.found.trial().rates.as_ref()?;
        let trial = self.found.trial();
        let mut counts = vec![0_usize; trial.treatments.len()];
        for plot in self.found.readings.not_given() {
            if let Some(count) = trial.treatment(&plot.treatment).and_then(|t| counts.get_mut(t)) {
                *count += 1;
            }
        }
        let of: Vec<String> = (0..)
            .zip(&counts)
            .filter(|(_, count)| **count > 0)
            .map(|(t, count)| format!("{} {}", plots(*count), self.at(t)))
            .collect();
        (!of.is_empty()).then(|| format!("Not yet logged as given: {}.", of.join(", ")))
    }
}
