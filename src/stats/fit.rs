//! Least squares by Householder reflections, column by column: sums of squares in the order of the columns, estimates with their
//! standard errors, and which columns run together with those before them.

use super::sample::{centered, mean};
use super::special::t_two_sided;
use std::ops::Range;

/// A column whose rest is smaller than this beside its own length runs together with those before it.
const ALIASED: f64 = 1e-9;

/// A part of the spread: degrees of freedom and sum of squares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Squares {
    /// Degrees of freedom.
    pub df: usize,
    /// Sum of squares.
    pub ss: f64,
}

impl Squares {
    /// The mean square; `None` without a degree of freedom.
    pub fn mean(self) -> Option<f64> {
        (self.df > 0).then(|| self.ss / self.df as f64)
    }
}

/// A line through the data: what was fitted.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// For every column its place among those kept; `None` where it runs together with those before it.
    places: Vec<Option<usize>>,
    /// The triangle: for every kept column its values down to its own place.
    triangle: Vec<Vec<f64>>,
    /// The reflections, one for every kept column.
    reflections: Vec<Vec<f64>>,
    /// The readings after all reflections: first what the kept columns take, then the rest.
    turned: Vec<f64>,
    /// The readings' mean, taken off before.
    mean: f64,
}

impl Fit {
    /// Fits readings by columns, the first of which should be constant. The mean of the readings is taken off first, so that large
    /// readings with a small spread lose nothing. `None` where a column has another length than the readings, or anything is not finite.
    pub fn of(columns: &[Vec<f64>], readings: &[f64]) -> Option<Self> {
        let n = readings.len();
        let finite = columns.iter().flatten().chain(readings).all(|v| v.is_finite());
        if n == 0 || !finite || columns.iter().any(|c| c.len() != n) {
            return None;
        }
        let mean = mean(readings)?;
        let turned = centered(readings);
        let mut fit = Self { places: Vec::new(), triangle: Vec::new(), reflections: Vec::new(), turned, mean };
        for column in columns {
            fit.add(column);
        }
        Some(fit)
    }

    fn add(&mut self, column: &[f64]) {
        let mut rest = column.to_vec();
        for reflection in &self.reflections {
            reflect(reflection, &mut rest);
        }
        let place = self.reflections.len();
        let length = norm(rest.get(place..).unwrap_or_default());
        if length <= ALIASED * norm(column) {
            self.places.push(None);
            return;
        }
        let Some(first) = rest.get(place).copied() else {
            return self.places.push(None);
        };
        let diagonal = if first > 0.0 { -length } else { length };
        let reflection: Vec<f64> = rest
            .iter()
            .enumerate()
            .map(|(i, v)| match i.cmp(&place) {
                std::cmp::Ordering::Less => 0.0,
                std::cmp::Ordering::Equal => v - diagonal,
                std::cmp::Ordering::Greater => *v,
            })
            .collect();
        reflect(&reflection, &mut self.turned);
        rest.truncate(place);
        rest.push(diagonal);
        self.triangle.push(rest);
        self.reflections.push(reflection);
        self.places.push(Some(place));
    }

    /// True where a column runs together with those before it.
    pub fn is_aliased(&self, column: usize) -> bool {
        self.places.get(column).is_none_or(Option::is_none)
    }

    /// What some columns take beyond those before them.
    pub fn squares(&self, columns: Range<usize>) -> Squares {
        let kept = self.places.get(columns).unwrap_or_default().iter().flatten();
        let taken: Vec<f64> = kept.filter_map(|place| self.turned.get(*place).map(|v| v * v)).collect();
        Squares { df: taken.len(), ss: taken.iter().sum() }
    }

    /// What no column takes.
    pub fn rest(&self) -> Squares {
        let rest = self.turned.get(self.triangle.len()..).unwrap_or_default();
        Squares { df: rest.len(), ss: rest.iter().map(|v| v * v).sum() }
    }

    /// The estimate of a weighted sum of the columns' coefficients, with its variance in units of the rest's mean square; the mean that
    /// was taken off counts with the weight of the first column. `None` where it weighs a column that runs together with others.
    pub fn estimate(&self, weights: &[f64]) -> Option<(f64, f64)> {
        let solved = self.solved(weights)?;
        let value: f64 = solved.iter().zip(&self.turned).map(|(w, t)| w * t).sum();
        let offset = self.mean * weights.first().copied().unwrap_or_default();
        Some((value + offset, solved.iter().map(|w| w * w).sum()))
    }

    /// The estimate of a weighted sum, and its interval at a confidence (0.95 for 95%) by Student's t; `None` where there is no estimate,
    /// or no degree of freedom is left.
    pub fn interval(&self, weights: &[f64], confidence: f64) -> Option<(f64, (f64, f64))> {
        let (value, variance) = self.estimate(weights)?;
        let rest = self.rest();
        let half = t_two_sided(confidence, rest.df as f64)? * (rest.mean()? * variance).sqrt();
        Some((value, (value - half, value + half)))
    }

    /// The covariance of two weighted sums, in units of the rest's mean square.
    pub fn covariance(&self, one: &[f64], other: &[f64]) -> Option<f64> {
        let (one, other) = (self.solved(one)?, self.solved(other)?);
        Some(one.iter().zip(&other).map(|(a, b)| a * b).sum())
    }

    /// Solves the transposed triangle for some weights, forward.
    fn solved(&self, weights: &[f64]) -> Option<Vec<f64>> {
        let mut wanted = vec![0.0; self.triangle.len()];
        for (weight, place) in weights.iter().zip(&self.places) {
            match place.and_then(|place| wanted.get_mut(place)) {
                Some(slot) => *slot = *weight,
                None if *weight == 0.0 => {}
                None => return None,
            }
        }
        let mut solved: Vec<f64> = Vec::with_capacity(wanted.len());
        for (column, value) in self.triangle.iter().zip(&wanted) {
            let (diagonal, above) = column.split_last()?;
            let known: f64 = above.iter().zip(&solved).map(|(r, s)| r * s).sum();
            solved.push((value - known) / diagonal);
        }
        Some(solved)
    }

    /// What each reading lies above what was fitted.
    pub fn residuals(&self) -> Vec<f64> {
        let taken = self.triangle.len();
        let mut rest: Vec<f64> =
            self.turned.iter().enumerate().map(|(i, v)| if i < taken { 0.0 } else { *v }).collect();
        for reflection in self.reflections.iter().rev() {
            reflect(reflection, &mut rest);
        }
        rest
    }

    /// How strongly each reading draws the line to itself, from 0 to 1.
    pub fn leverages(&self) -> Vec<f64> {
        let n = self.turned.len();
        let mut sums = vec![0.0; n];
        for place in 0..self.triangle.len() {
            let mut unit = vec![0.0; n];
            if let Some(one) = unit.get_mut(place) {
                *one = 1.0;
            }
            for reflection in self.reflections.iter().rev() {
                reflect(reflection, &mut unit);
            }
            for (sum, v) in sums.iter_mut().zip(&unit) {
                *sum += v * v;
            }
        }
        sums
    }
}

fn norm(values: &[f64]) -> f64 {
    values.iter().map(|v| v * v).sum::<f64>().sqrt()
}

/// Mirrors a vector in the plane across a reflection's direction.
fn reflect(direction: &[f64], vector: &mut [f64]) {
    let square: f64 = direction.iter().map(|v| v * v).sum();
    let along: f64 = direction.iter().zip(vector.iter()).map(|(a, b)| a * b).sum();
    let by = 2.0 * along / square;
    for (v, d) in vector.iter_mut().zip(direction) {
        *v -= by * d;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_that_runs_together_with_others_is_named_and_takes_nothing() {
        let columns = [vec![1.0; 4], vec![0.0, 1.0, 0.0, 1.0], vec![1.0, 0.0, 1.0, 0.0], vec![0.0, 0.0, 1.0, 1.0]];
        let fit = Fit::of(&columns, &[1.0, 2.0, 3.0, 5.0]).unwrap();
        assert_eq!((0..4).map(|c| fit.is_aliased(c)).collect::<Vec<_>>(), [false, false, true, false]);
        assert_eq!(fit.squares(2..3), Squares { df: 0, ss: 0.0 });
        assert_eq!(fit.estimate(&[0.0, 0.0, 1.0, 0.0]), None);
        assert_eq!(fit.rest().df, 1);
    }

    #[test]
    fn what_is_fitted_and_what_is_left_add_up() {
        let columns = [vec![1.0; 5], vec![1.0, 2.0, 3.0, 4.0, 5.0]];
        let readings = [1e6 + 2.0, 1e6 + 4.0, 1e6 + 5.0, 1e6 + 4.0, 1e6 + 5.0];
        let fit = Fit::of(&columns, &readings).unwrap();
        let (slope, variance) = fit.estimate(&[0.0, 1.0]).unwrap();
        assert!((slope - 0.6).abs() < 1e-9 && (variance - 0.1).abs() < 1e-12);
        let leverage: f64 = fit.leverages().iter().sum();
        assert!((leverage - 2.0).abs() < 1e-9);
        let left: f64 = fit.residuals().iter().map(|r| r * r).sum();
        assert!((left - fit.rest().ss).abs() < 1e-6);
        assert_eq!(Fit::of(&columns, &[1.0, f64::NAN, 1.0, 1.0, 1.0]), None);
        assert_eq!(Fit::of(&columns, &[1.0]), None);
    }
}
