//! Reshuffling: how often the draw alone would have separated the treatments as well.
//!
//! The treatments are dealt to the places again as the design dealt them, and what they take of the spread is compared with what the real
//! ones take. It is done in slices, so that a page can be shown meanwhile. A place whose plot is lost keeps the label it is dealt.

use super::model::Model;
use super::{Data, Plot, Reading};
use crate::stats::{Draw, Fit, marks, mean, ranks};
use crate::terms::Design;

/// Statistics this near to the real one count as equal to it.
const EQUAL: f64 = 1e-9;

/// What reshuffling found.
#[derive(Debug, Clone, PartialEq)]
pub struct Reshuffled {
    /// How often the treatments as a whole took as much.
    pub p: f64,
    /// For every pair of treatments, the later one first, how often any pair lay as far apart.
    pub pairs: Vec<((usize, usize), f64)>,
    /// How many times it was dealt.
    pub times: u32,
}

/// A reshuffling on its way.
#[derive(Debug, Clone)]
pub struct Reshuffle {
    design: Design,
    treatments: usize,
    /// The blocks of the places, where the design has them.
    blocks: Vec<Vec<usize>>,
    /// Row and column of every place, from 0 on.
    square: Vec<(usize, usize)>,
    /// The treatment of every place.
    labels: Vec<usize>,
    /// Which places were read.
    read: Vec<usize>,
    /// Their values: ranks of scores, else what position leaves.
    values: Vec<f64>,
    /// The columns before treatment, of the places read; none where totals are enough.
    position: Option<Vec<Vec<f64>>>,
    real: f64,
    distances: Vec<((usize, usize), f64)>,
    draw: Draw,
    done: u32,
    hits: u32,
    pair_hits: Vec<u32>,
}

impl Reshuffle {
    /// Begins; `None` of a layout that was not drawn by lot, or with nothing to judge by.
    pub(super) fn of(data: &Data, model: &Model, draw: Draw) -> Option<Self> {
        let blocks = match data.design {
            Design::AsLaid => return None,
            Design::RandomizedBlocks => grouped(&data.plots, |p| p.block.unwrap_or_default()),
            Design::CompletelyRandomized | Design::LatinSquare => {
                vec![(0..data.plots.len()).collect()]
            }
        };
        let labels: Vec<usize> = data.plots.iter().map(|p| p.treatment).collect();
        let read: Vec<usize> = (0..).zip(&data.plots).filter(|(_, p)| p.value.is_some()).map(|(i, _)| i).collect();
        let square = data
            .plots
            .iter()
            .map(|p| (place(&data.plots, p.row, |p| p.row), place(&data.plots, p.column, |p| p.column)));
        let whole = read.len() == data.plots.len();
        let values = if data.reading == Reading::Scored && whole && data.design != Design::LatinSquare {
            ranked(&blocks, &model.values)
        } else {
            model.values.clone()
        };
        // With the same number of plots a treatment everywhere, what treatments take is a sum of squared totals.
        let before = model.position.clone().any(|_| data.plots.iter().any(|p| p.before.is_some()));
        let even = whole && !before && data.counts(|_| true).windows(2).all(|n| matches!(n, [a, b] if a == b));
        let position = (!even).then(|| model.before_treatment());
        let mut begun = Self {
            design: data.design,
            treatments: data.treatments.len(),
            blocks,
            square: square.collect(),
            labels,
            read,
            values,
            position,
            real: 0.0,
            distances: Vec::new(),
            draw,
            done: 0,
            hits: 0,
            pair_hits: Vec::new(),
        };
        let (real, means) = begun.statistic(&begun.labels)?;
        begun.real = real;
        let at = |t: usize| means.get(t).copied().unwrap_or_default();
        let pairs = (0..begun.treatments).flat_map(|b| (b + 1..begun.treatments).map(move |a| (a, b)));
        begun.distances = pairs.map(|(a, b)| ((a, b), (at(a) - at(b)).abs())).collect();
        begun.pair_hits = vec![0; begun.distances.len()];
        Some(begun)
    }

    /// Deals so many times more.
    pub fn step(&mut self, times: u32) {
        for _ in 0..times {
            let labels = self.dealt();
            let Some((statistic, means)) = self.statistic(&labels) else {
                continue;
            };
            self.done = self.done.saturating_add(1);
            if statistic >= self.real * (1.0 - EQUAL) {
                self.hits = self.hits.saturating_add(1);
            }
            let (low, high) = means.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), m| (l.min(*m), h.max(*m)));
            for (hits, (_, distance)) in self.pair_hits.iter_mut().zip(&self.distances) {
                if high - low >= distance * (1.0 - EQUAL) {
                    *hits = hits.saturating_add(1);
                }
            }
        }
    }

    /// How many times it was dealt.
    pub const fn done(&self) -> u32 {
        self.done
    }

    /// What it found so far; the real deal counts as one of them.
    pub fn found(&self) -> Reshuffled {
        let share = |hits: u32| (f64::from(hits) + 1.0) / (f64::from(self.done) + 1.0);
        let pairs = self.distances.iter().zip(&self.pair_hits).map(|((pair, _), hits)| (*pair, share(*hits)));
        Reshuffled { p: share(self.hits), pairs: pairs.collect(), times: self.done }
    }

    /// The treatments dealt once more, as the design deals them.
    fn dealt(&mut self) -> Vec<usize> {
        let mut labels = self.labels.clone();
        if self.design == Design::LatinSquare {
            let square = super::latin_square(self.treatments, &mut self.draw);
            let cell = |(row, column): &(usize, usize)| square.get(*row).and_then(|r| r.get(*column)).copied();
            return self.square.iter().map(|at| cell(at).unwrap_or_default()).collect();
        }
        for block in &self.blocks {
            let mut of_block: Vec<usize> = block.iter().filter_map(|at| self.labels.get(*at).copied()).collect();
            self.draw.shuffle(&mut of_block);
            for (at, treatment) in block.iter().zip(of_block) {
                if let Some(label) = labels.get_mut(*at) {
                    *label = treatment;
                }
            }
        }
        labels
    }

    /// What the treatments take, and their means.
    fn statistic(&self, labels: &[usize]) -> Option<(f64, Vec<f64>)> {
        let mut sums = vec![(0.0, 0.0); self.treatments];
        for (at, value) in self.read.iter().zip(&self.values) {
            let (sum, count) = sums.get_mut(*labels.get(*at)?)?;
            *sum += value;
            *count += 1.0;
        }
        let means: Vec<f64> = sums.iter().map(|(sum, count)| sum / f64::max(*count, 1.0)).collect();
        let Some(position) = &self.position else {
            let mean = mean(&self.values)?;
            let taken = sums.iter().zip(&means).map(|((_, count), m)| count * (m - mean) * (m - mean)).sum();
            return Some((taken, means));
        };
        let of = |treatment: usize| marks(self.read.iter().map(|at| labels.get(*at) == Some(&treatment)));
        let columns: Vec<Vec<f64>> = position.iter().cloned().chain((1..self.treatments).map(of)).collect();
        let fit = Fit::of(&columns, &self.values)?;
        Some((fit.squares(position.len()..columns.len()).ss, means))
    }
}

/// The places of each block.
fn grouped(plots: &[Plot], by: impl Fn(&Plot) -> u32) -> Vec<Vec<usize>> {
    let mut groups: Vec<(u32, Vec<usize>)> = Vec::new();
    for (at, plot) in plots.iter().enumerate() {
        match groups.iter_mut().find(|(key, _)| *key == by(plot)) {
            Some((_, group)) => group.push(at),
            None => groups.push((by(plot), vec![at])),
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

/// Which of the different rows or columns one is, from 0 on.
fn place(plots: &[Plot], value: u32, of: impl Fn(&Plot) -> u32) -> usize {
    plots.iter().map(of).filter(|other| *other < value).collect::<std::collections::BTreeSet<_>>().len()
}

/// Values as ranks within their blocks.
fn ranked(blocks: &[Vec<usize>], values: &[f64]) -> Vec<f64> {
    let mut all = values.to_vec();
    for block in blocks {
        let own: Vec<f64> = block.iter().filter_map(|at| values.get(*at).copied()).collect();
        for (at, rank) in block.iter().zip(ranks(&own)) {
            if let Some(value) = all.get_mut(*at) {
                *value = rank;
            }
        }
    }
    all
}
