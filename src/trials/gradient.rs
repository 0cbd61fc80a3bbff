//! A gradient over the benches, from readings of the grower's own crop: which way blocks belong.

use crate::stats::{Fit, marks, mean};

/// Benches below which nothing is said.
const LEAST: usize = 4;

/// A gradient from bench to bench.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gradient {
    /// What changes from one bench to the next in walking order.
    pub slope: f64,
    /// Its interval of 95%.
    pub interval: (f64, f64),
    /// What changes from the first bench to the last.
    pub whole: f64,
    /// Its interval.
    pub whole_interval: (f64, f64),
    /// The standard deviation of pots on one bench, pooled; `None` with one pot a bench.
    pub within: Option<f64>,
    /// Its degrees of freedom.
    pub df: usize,
}

impl Gradient {
    /// True where the benches surely differ along the walk.
    pub fn is_found(&self) -> bool {
        self.interval.0 > 0.0 || self.interval.1 < 0.0
    }
}

/// The gradient over benches in walking order, each with its pots' readings: the least-squares slope of the bench means. `None` of under
/// four benches, or with a bench without readings.
pub fn gradient(benches: &[Vec<f64>], confidence: f64) -> Option<Gradient> {
    if benches.len() < LEAST || benches.iter().any(Vec::is_empty) {
        return None;
    }
    let means: Vec<f64> = benches.iter().map(|bench| mean(bench)).collect::<Option<_>>()?;
    let places: Vec<f64> = (0..benches.len()).map(|i| i as f64).collect();
    let fit = Fit::of(&[vec![1.0; means.len()], places], &means)?;
    let (slope, (low, high)) = fit.interval(&[0.0, 1.0], confidence)?;
    let steps = (benches.len() - 1) as f64;
    let df: usize = benches.iter().map(|b| b.len() - 1).sum();
    let squares: f64 = benches.iter().zip(&means).flat_map(|(b, m)| b.iter().map(move |v| (v - m) * (v - m))).sum();
    Some(Gradient {
        slope,
        interval: (low, high),
        whole: slope * steps,
        whole_interval: (low * steps, high * steps),
        within: (df > 0).then(|| (squares / df as f64).sqrt()),
        df,
    })
}

/// A gradient on the benches themselves, where the pots are numbered from one side to the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Across {
    /// What changes from one number to the next.
    pub slope: f64,
    /// Its interval of 95%.
    pub interval: (f64, f64),
}

/// The slope of readings on the number of the pot; benches are levels of their own. Each bench gives its pots as number and reading.
pub fn across(benches: &[Vec<(f64, f64)>], confidence: f64) -> Option<Across> {
    let pots: Vec<(usize, f64, f64)> =
        benches.iter().enumerate().flat_map(|(at, pots)| pots.iter().map(move |(tag, y)| (at, *tag, *y))).collect();
    let of = |bench: usize| marks(pots.iter().map(|(at, ..)| *at == bench));
    let mut columns: Vec<Vec<f64>> = vec![vec![1.0; pots.len()]];
    columns.extend((1..benches.len()).map(of));
    columns.push(pots.iter().map(|(_, tag, _)| *tag).collect());
    let fit = Fit::of(&columns, &pots.iter().map(|(.., y)| *y).collect::<Vec<_>>())?;
    let last = columns.len().checked_sub(1)?;
    let weights = marks((0..columns.len()).map(|column| column == last));
    let (slope, interval) = fit.interval(&weights, confidence)?;
    Some(Across { slope, interval })
}
