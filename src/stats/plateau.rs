//! A rising line that ends in a plateau: from which rate on more does nothing.

use super::fit::Fit;
use super::quadrature::root;
use super::special::f_tail;

/// Places the join is tried at.
const TRIED: u32 = 2000;

/// A line up to its join, level beyond it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plateau {
    /// The rate at the join.
    pub join: f64,
    /// Joins that the readings do not contradict: from here …
    pub low: f64,
    /// … to here; the highest rate where it is open to above.
    pub high: f64,
    /// What a unit of the rate adds below the join.
    pub slope: f64,
    /// What is left unexplained, sum of squares.
    pub rest: f64,
    /// Degrees of freedom of the rest: the join takes one.
    pub df: usize,
    /// The straight line's F against the plateau, as its tail: small where the line is worse.
    pub line_p: f64,
}

/// Fits `position + slope * min(rate, join)`. The join runs from a twentieth of the second-lowest rate to the highest; the best of
/// 2000 places is narrowed by golden section. The interval holds the joins whose rest lies within the least rest times
/// `1 + F(confidence; 1, df) / df`.
///
/// `None` with fewer than four different rates, or with no degree of freedom left.
pub fn plateau(
    position: &[Vec<f64>],
    rates: &[f64],
    readings: &[f64],
    critical: impl Fn(usize) -> Option<f64>,
) -> Option<Plateau> {
    let mut levels = rates.to_vec();
    levels.sort_by(f64::total_cmp);
    levels.dedup();
    let (second, highest) = (*levels.get(1)?, *levels.last()?);
    if levels.len() < 4 {
        return None;
    }
    let fit = |join: f64| -> Option<Fit> {
        let mut columns = position.to_vec();
        columns.push(rates.iter().map(|rate| rate.min(join)).collect());
        Fit::of(&columns, readings)
    };
    let rest = |join: f64| fit(join).map_or(f64::INFINITY, |fit| fit.rest().ss);
    let low = second / 20.0;
    let step = (highest - low) / f64::from(TRIED);
    let tried: Vec<(f64, f64)> =
        (0..=TRIED).map(|i| low + step * f64::from(i)).map(|join| (join, rest(join))).collect();
    let best = tried.iter().min_by(|a, b| a.1.total_cmp(&b.1))?.0;
    let join = golden(&rest, (best - step).max(low), (best + step).min(highest));
    let least = rest(join);
    let line = fit(highest)?.rest();
    let df = line.df.checked_sub(1).filter(|df| *df > 0)?;
    let most = least * (1.0 + critical(df)? / df as f64);
    let inside = |rest: f64| rest <= most;
    let edge = |outside: f64, inside: f64| root(|join| rest(join) - most, outside, inside).unwrap_or(inside);
    let first = tried.iter().find(|(_, rest)| inside(*rest));
    let low = first.map_or(join, |(at, _)| if *at > low { edge(at - step, *at) } else { low });
    let high = match tried.iter().rposition(|(_, rest)| inside(*rest)) {
        Some(at) if at + 1 < tried.len() => tried.get(at).map_or(join, |(at, _)| edge(at + step, *at)),
        _ => highest,
    };
    let weights: Vec<f64> = position.iter().map(|_| 0.0).chain([1.0]).collect();
    let (slope, _) = fit(join)?.estimate(&weights)?;
    let f = (line.ss - least) / (least / df as f64);
    Some(Plateau { join, low, high, slope, rest: least, df, line_p: f_tail(f, 1.0, df as f64) })
}

/// The lowest point of a function with one valley between two bounds.
fn golden(f: &impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let ratio = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut a, mut b) = (low, high);
    for _ in 0..80 {
        let (left, right) = (b - ratio * (b - a), a + ratio * (b - a));
        if f(left) <= f(right) {
            b = right;
        } else {
            a = left;
        }
    }
    f64::midpoint(a, b)
}
