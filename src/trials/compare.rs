//! Which treatments differ: all pairs by Tukey's range, or each with the control by Dunnett.

use super::Data;
use super::model::Model;
use crate::stats::{Dunnett, Sides, least_seen, range_quantile, range_tail};
use std::f64::consts::SQRT_2;

/// What is compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Against {
    /// Every treatment with every other.
    All,
    /// Every treatment with the control.
    Control,
}

/// The difference of two treatments.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Difference {
    /// The treatment it is of, and the one it is from, by their places.
    pub pair: (usize, usize),
    /// The first less the second.
    pub difference: f64,
    /// Its standard error.
    pub error: f64,
    /// The interval that holds it together with all others at once.
    pub interval: (f64, f64),
    /// How often as much comes about by chance, among all that are compared.
    pub p: f64,
}

impl Difference {
    /// True where the two surely differ.
    pub fn is_found(&self) -> bool {
        self.interval.0 > 0.0 || self.interval.1 < 0.0
    }
}

/// All differences that are compared at once.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparisons {
    /// What is compared.
    pub against: Against,
    /// The differences.
    pub differences: Vec<Difference>,
    /// The critical value, in standard errors of a difference.
    pub critical: f64,
    /// The least difference that would have been found in `power` of such trials; `None` where it cannot be said.
    pub seen: Option<f64>,
}

/// How the line of a trial says that it is compared: with the control where there is one and no rates, else all pairs.
pub(super) fn usual(data: &Data) -> Against {
    if data.control.is_some() && data.rates.is_none() { Against::Control } else { Against::All }
}

/// Compares; `None` without a control where one is asked for, or with nothing left to judge by. Unequal numbers of plots take the
/// standard error of each pair (Tukey and Kramer; conservative after Hayter 1984, from memory).
pub(super) fn compare(model: &Model, data: &Data, against: Against, (alpha, power): (f64, f64)) -> Option<Comparisons> {
    let rest = model.fit.rest();
    let (square, df) = (rest.mean()?, rest.df as f64);
    let count = data.treatments.len();
    let pairs: Vec<(usize, usize)> = match against {
        Against::All => (0..count).flat_map(|b| (b + 1..count).map(move |a| (a, b))).collect(),
        Against::Control => {
            let control = data.control?;
            (0..count).filter(|t| *t != control).map(|t| (t, control)).collect()
        }
    };
    let weights: Vec<Vec<f64>> = pairs.iter().map(|(a, b)| model.difference(*a, *b)).collect();
    let dunnett = match against {
        Against::All => None,
        Against::Control => Some(Dunnett::of_correlations(&correlations(model, &weights)?)),
    };
    let critical = match &dunnett {
        None => range_quantile(alpha, count, df)? / SQRT_2,
        Some(dunnett) => dunnett.quantile(alpha, df, Sides::Two)?,
    };
    let tail = |t: f64| match &dunnett {
        None => range_tail(t * SQRT_2, count, df),
        Some(dunnett) => dunnett.tail(t, df, Sides::Two),
    };
    let difference = |(pair, weights): (&(usize, usize), &Vec<f64>)| {
        let (difference, variance) = model.fit.estimate(weights)?;
        let error = (square * variance).sqrt();
        let half = critical * error;
        let interval = (difference - half, difference + half);
        Some(Difference { pair: *pair, difference, error, interval, p: tail((difference / error).abs()) })
    };
    let differences: Vec<Difference> = pairs.iter().zip(&weights).filter_map(difference).collect();
    let error = differences.iter().map(|d| d.error).sum::<f64>() / differences.len().max(1) as f64;
    let seen = least_seen(power, critical, df).map(|d| d * error);
    Some(Comparisons { against, differences, critical, seen })
}

/// The correlations of some differences.
fn correlations(model: &Model, weights: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let covariance = |a: &[f64], b: &[f64]| model.fit.covariance(a, b);
    let row = |a: &Vec<f64>| -> Option<Vec<f64>> {
        let own = covariance(a, a)?;
        weights.iter().map(|b| Some(covariance(a, b)? / (own * covariance(b, b)?).sqrt())).collect()
    };
    weights.iter().map(row).collect()
}
