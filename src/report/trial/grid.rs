//! The plots of a trial as they stand: a grid for each bench.

use crate::record::{Plot, Trial};
use crate::season::Season;
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};

/// A trial as it is laid.
#[derive(Debug, Clone)]
pub struct Laid<'a> {
    /// The trial.
    pub trial: &'a Trial,
    /// Its plots, by number.
    pub plots: Vec<&'a Plot>,
    /// The day it is printed for.
    pub on: NaiveDate,
}

impl<'a> Laid<'a> {
    /// A trial of a season with the places its plots have now; `None` of an unknown one.
    pub fn of(season: &'a Season, code: &str, on: NaiveDate) -> Option<Self> {
        let trial = season.trial(code)?;
        let mut plots = season.plots(code);
        plots.sort_by_key(|plot| plot.number());
        Some(Self { trial, plots, on })
    }

    /// How it was drawn: `randomized blocks, drawn by lot with seed 48213907, drawn 3 times`.
    pub(super) fn drawn(&self) -> String {
        let design = crate::record::Term::text(self.trial.design);
        let Some(seed) = &self.trial.seed else { return design.to_owned() };
        let times = match self.trial.drawn.unwrap_or(1) {
            1 => "drawn once".to_owned(),
            n => format!("drawn {n} times, the last one taken"),
        };
        format!("{design}, seed {seed}, {times}")
    }

    /// What lies beside the first and the last column, where that is known.
    pub(super) fn sides(&self) -> (&str, &str) {
        (self.trial.near_side.as_deref().unwrap_or_default(), self.trial.far_side.as_deref().unwrap_or_default())
    }

    /// The benches in the order they are walked.
    pub(super) fn grids(&self) -> Vec<Grid<'a>> {
        let mut grids: Vec<Grid<'a>> = Vec::new();
        for plot in &self.plots {
            if !grids.iter().any(|grid| grid.bench == plot.bench) {
                grids.push(Grid { bench: &plot.bench, ..Grid::default() });
            }
            if let Some(grid) = grids.iter_mut().find(|grid| grid.bench == plot.bench) {
                grid.rows.insert(plot.row);
                grid.columns.insert(plot.column);
                grid.plots.insert((plot.row, plot.column), plot);
            }
        }
        grids
    }

    /// True where every plot is a bench of its own.
    pub(super) fn is_of_whole_benches(&self) -> bool {
        self.plots.len() > 1 && self.grids().len() == self.plots.len()
    }

    /// Guard pots around all plots: a ring around each bench's grid; none where there are none.
    pub fn guards(&self) -> usize {
        if !self.trial.guard || self.is_of_whole_benches() {
            return 0;
        }
        let ring = |grid: &Grid<'_>| 2 * (grid.rows.len() + grid.columns.len()) + 4;
        self.grids().iter().map(ring).sum()
    }
}

/// The plots on one bench; only rows and columns that hold one.
#[derive(Debug, Clone, Default)]
pub(super) struct Grid<'a> {
    pub(super) bench: &'a str,
    pub(super) rows: BTreeSet<u32>,
    pub(super) columns: BTreeSet<u32>,
    pub(super) plots: BTreeMap<(u32, u32), &'a Plot>,
}

/// Numbers as a row in words: `1-4, 7`.
pub(super) fn runs(numbers: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for number in numbers {
        match runs.last_mut() {
            Some((_, last)) if last.checked_add(1) == Some(*number) => *last = *number,
            _ => runs.push((*number, *number)),
        }
    }
    let said = |(first, last): &(u32, u32)| match last.saturating_sub(*first) {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first}-{last}"),
    };
    runs.iter().map(said).collect::<Vec<_>>().join(", ")
}
