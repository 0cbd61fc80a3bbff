//! Whether readings meet what their analysis takes for granted: equal spread, normal residuals, no odd one, blocks that add up.

use super::fit::Fit;
use super::sample::{centered, marks, mean, median};
use super::special::{f_tail, normal, normal_quantile, t_tails};

/// What a check found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Test {
    /// Its statistic.
    pub statistic: f64,
    /// How often as much or more comes about by chance.
    pub p: f64,
}

/// Whether groups spread differently: the F of the distances from each group's median (Brown and Forsythe 1974). `None` of under two
/// groups, or where nothing spreads.
pub fn brown_forsythe(groups: &[Vec<f64>]) -> Option<Test> {
    let distances: Vec<Vec<f64>> = groups
        .iter()
        .map(|group| {
            let middle = median(group).unwrap_or_default();
            group.iter().map(|v| (v - middle).abs()).collect()
        })
        .collect();
    let all: Vec<f64> = distances.iter().flatten().copied().collect();
    let column = |of: usize| {
        let one = |(at, group): (usize, &Vec<f64>)| std::iter::repeat_n(at == of, group.len());
        marks(distances.iter().enumerate().flat_map(one))
    };
    let columns: Vec<Vec<f64>> = std::iter::once(vec![1.0; all.len()]).chain((1..groups.len()).map(column)).collect();
    let fit = Fit::of(&columns, &all)?;
    let (between, rest) = (fit.squares(1..columns.len()), fit.rest());
    let statistic = between.mean()? / rest.mean()?;
    let p = f_tail(statistic, between.df as f64, rest.df as f64);
    statistic.is_finite().then_some(Test { statistic, p })
}

/// Whether position and treatment do not add up: Tukey's one degree of freedom, the residuals on the part of the squared fit that the
/// model does not hold (Tukey 1949). `None` where the model fits everything.
pub fn nonadditivity(columns: &[Vec<f64>], readings: &[f64]) -> Option<Test> {
    let fit = Fit::of(columns, readings)?;
    let mean = mean(readings)?;
    let fitted = readings.iter().zip(fit.residuals()).map(|(y, r)| y - r - mean);
    let squared = fitted.map(|f| f * f).collect();
    let more: Vec<Vec<f64>> = columns.iter().cloned().chain([squared]).collect();
    let with = Fit::of(&more, readings)?;
    let (one, rest) = (with.squares(columns.len()..more.len()), with.rest());
    let statistic = one.mean()? / rest.mean()?;
    statistic.is_finite().then(|| Test { statistic, p: f_tail(statistic, 1.0, rest.df as f64) })
}

/// Whether residuals are normal: the squared correlation of the sorted residuals with normal quantiles (Shapiro and Francia 1972), its
/// tail after Royston 1993. `None` of under five, or where all are equal.
pub fn shapiro_francia(residuals: &[f64]) -> Option<Test> {
    let n = residuals.len();
    if n < 5 {
        return None;
    }
    let mut sorted = residuals.to_vec();
    sorted.sort_by(f64::total_cmp);
    let count = n as f64;
    let quantile = |i: usize| normal_quantile((i as f64 + 1.0 - 0.375) / (count + 0.25));
    let quantiles: Vec<f64> = (0..n).map(quantile).collect();
    let sums = centered(&sorted)
        .iter()
        .zip(centered(&quantiles))
        .fold((0.0, 0.0, 0.0), |(xy, xx, yy), (x, y)| (xy + x * y, xx + x * x, yy + y * y));
    let statistic = sums.0 * sums.0 / (sums.1 * sums.2);
    let u = count.ln();
    let v = u.ln();
    let z = ((1.0 - statistic).ln() + 1.2725 - 1.0521 * (v - u)) / (1.0308 - 0.26758 * (v + 2.0 / u));
    statistic.is_finite().then(|| Test { statistic, p: normal(-z) })
}

/// The oddest reading: its place, and the tail of its externally studentized residual times the number of readings (Bonferroni).
/// `None` with under two degrees of freedom left, or where nothing spreads.
pub fn odd_one(fit: &Fit) -> Option<(usize, Test)> {
    let (residuals, rest) = (fit.residuals(), fit.rest());
    let df = rest.df.checked_sub(1).filter(|df| *df > 0)? as f64;
    let studentized = residuals.iter().zip(fit.leverages()).map(|(r, h)| {
        let without = (rest.ss - r * r / (1.0 - h)) / df;
        r / (without * (1.0 - h)).sqrt()
    });
    let finite = studentized.enumerate().filter(|(_, t)| t.is_finite());
    let (at, t) = finite.max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))?;
    let p = (residuals.len() as f64 * t_tails(t, df)).min(1.0);
    Some((at, Test { statistic: t, p }))
}
