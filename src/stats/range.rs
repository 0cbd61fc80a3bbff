//! The studentized range: all pairs of so many means compared at once.

use super::quadrature::{nodes, reached};
use super::special::{normal, normal_density};
use super::spread::spread;

/// Panels between -8 and 8 standard deviations.
const PANELS: usize = 6;
/// Standard deviations either side that hold all that counts.
const ENDS: f64 = 8.0;

/// The share of the studentized range of `means` means above `q`, with so many degrees of freedom for the rest (Tukey; see Hochberg
/// and Tamhane, Multiple Comparison Procedures, 1987, from memory): the range of normal means averaged over the estimated spread.
pub fn range_tail(q: f64, means: usize, df: f64) -> f64 {
    if q <= 0.0 || means < 2 {
        return 1.0;
    }
    let count = means as f64;
    let power = i32::try_from(means - 1).unwrap_or(i32::MAX);
    let points: Vec<(f64, f64, f64)> = nodes(-ENDS, ENDS, PANELS)
        .iter()
        .map(|node| (node.at, normal(node.at), node.weight * normal_density(node.at) * count))
        .collect();
    let of_range = |width: f64| -> f64 {
        points.iter().map(|(z, below, weight)| weight * (normal(z + width) - below).powi(power)).sum()
    };
    let share: f64 = spread(df).iter().map(|s| s.weight * of_range(q * s.at)).sum();
    (1.0 - share).clamp(0.0, 1.0)
}

/// The studentized range that `alpha` of the distribution lies above; `None` with under two means or without a degree of freedom.
pub fn range_quantile(alpha: f64, means: usize, df: f64) -> Option<f64> {
    if means < 2 || !(df > 0.0 && alpha > 0.0 && alpha < 1.0) {
        return None;
    }
    reached(|q| range_tail(q, means, df), alpha, 4.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stats::t_tails;

    #[test]
    fn of_two_means_it_is_students_t() {
        for (t, df) in [(0.5, 4.0), (2.0, 9.0), (3.5, 30.0)] {
            let q = t * std::f64::consts::SQRT_2;
            assert!((range_tail(q, 2, df) - t_tails(t, df)).abs() < 1e-9, "{t} {df}");
        }
        assert_eq!(range_quantile(0.05, 1, 10.0), None);
        assert_eq!(range_quantile(0.05, 4, 0.0), None);
    }
}
