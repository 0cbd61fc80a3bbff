//! The columns of a trial's model: the constant, position, what was read before, and treatment last.

use super::{Data, Plot};
use crate::stats::{Fit, centered, marks};
use crate::terms::Design;
use std::collections::BTreeSet;
use std::ops::Range;

/// A fitted model with its parts.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Model {
    /// What was fitted.
    pub(super) fit: Fit,
    /// The columns, all of the same length.
    pub(super) columns: Vec<Vec<f64>>,
    /// The values.
    pub(super) values: Vec<f64>,
    /// The columns of position.
    pub(super) position: Range<usize>,
    /// The columns of treatment.
    pub(super) treatment: Range<usize>,
    /// What each column counts in a mean over all places: 1 for the constant, a share of the levels for position.
    mean: Vec<f64>,
    /// For each treatment its column; `None` for the first, which the constant stands for.
    of_treatment: Vec<Option<usize>>,
}

/// What position is, for a design.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Term {
    Block,
    Row,
    Column,
}

impl Term {
    fn of(self, plot: &Plot) -> u32 {
        match self {
            Self::Block => plot.block.unwrap_or_default(),
            Self::Row => plot.row,
            Self::Column => plot.column,
        }
    }
}

/// The terms of position. Of a layout that was not drawn here: the block where the plots carry one, else each of row and column that has
/// two or more levels with two or more plots at every level.
pub(super) fn terms(data: &Data) -> Vec<Term> {
    match data.design {
        Design::CompletelyRandomized => Vec::new(),
        Design::RandomizedBlocks => vec![Term::Block],
        Design::LatinSquare => vec![Term::Row, Term::Column],
        Design::AsLaid if data.plots.iter().all(|p| p.block.is_some()) => vec![Term::Block],
        Design::AsLaid => {
            let is_term = |term: &Term| {
                let levels: BTreeSet<u32> = data.read().map(|(p, _)| term.of(p)).collect();
                let plots = |level: &u32| data.read().filter(|(p, _)| term.of(p) == *level).count();
                levels.len() > 1 && levels.iter().all(|level| plots(level) > 1)
            };
            [Term::Row, Term::Column].into_iter().filter(is_term).collect()
        }
    }
}

impl Model {
    /// Fits the values of the plots read: the constant, the position of the design, further centered columns, treatment. `None` where
    /// nothing was read.
    pub(super) fn of(data: &Data, more: &[Vec<f64>]) -> Option<Self> {
        let (plots, values): (Vec<&Plot>, Vec<f64>) = data.read().unzip();
        let mut columns = vec![vec![1.0; plots.len()]];
        let mut mean = vec![1.0];
        for term in terms(data) {
            let levels: BTreeSet<u32> = plots.iter().map(|p| term.of(p)).collect();
            for level in levels.iter().skip(1) {
                columns.push(marks(plots.iter().map(|p| term.of(p) == *level)));
                mean.push(1.0 / levels.len() as f64);
            }
        }
        let before: Option<Vec<f64>> = plots.iter().map(|p| p.before).collect();
        for column in before.iter().map(|b| centered(b)).chain(more.iter().cloned()) {
            columns.push(column);
            mean.push(0.0);
        }
        let position = 1..columns.len();
        let mut of_treatment = Vec::new();
        for treatment in 0..data.treatments.len() {
            of_treatment.push((treatment > 0).then_some(columns.len()));
            if treatment > 0 {
                columns.push(marks(plots.iter().map(|p| p.treatment == treatment)));
            }
        }
        let treatment = position.end..columns.len();
        let fit = Fit::of(&columns, &values)?;
        Some(Self { fit, columns, values, position, treatment, mean, of_treatment })
    }

    /// True where treatment runs together with position.
    pub(super) fn is_aliased(&self) -> bool {
        self.treatment.clone().any(|column| self.fit.is_aliased(column))
    }

    /// The weights of a treatment's mean over all places. A place that runs together with others weighs nothing.
    pub(super) fn weights(&self, treatment: usize) -> Vec<f64> {
        let own = self.of_treatment.get(treatment).copied().flatten();
        (0..self.columns.len())
            .map(|column| {
                let position = self.mean.get(column).copied().filter(|_| !self.fit.is_aliased(column));
                if Some(column) == own { 1.0 } else { position.unwrap_or_default() }
            })
            .collect()
    }

    /// The weights of a difference of two treatments.
    pub(super) fn difference(&self, one: usize, other: usize) -> Vec<f64> {
        self.weights(one).iter().zip(self.weights(other)).map(|(a, b)| a - b).collect()
    }

    /// The columns before treatment.
    pub(super) fn before_treatment(&self) -> Vec<Vec<f64>> {
        self.columns.get(..self.treatment.start).unwrap_or_default().to_vec()
    }
}
