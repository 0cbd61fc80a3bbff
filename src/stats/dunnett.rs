//! Dunnett's comparison of several treatments with one control (Dunnett, Journal of the American Statistical Association 50, 1955).

use super::quadrature::{nodes, reached};
use super::special::{normal, normal_density};
use super::spread::spread;

/// Panels between -8 and 8 standard deviations.
const PANELS: usize = 6;
/// Standard deviations either side that hold all that counts.
const ENDS: f64 = 8.0;
/// Rounds in which the loads of a correlation matrix settle.
const ROUNDS: usize = 200;

/// Which differences count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sides {
    /// Only above the control.
    One,
    /// Above and below it.
    Two,
}

/// The differences from one control: how strongly they hang together through it.
#[derive(Debug, Clone, PartialEq)]
pub struct Dunnett {
    /// Loads on the control, and how many differences have each: the correlation of two differences is the product of theirs.
    loads: Vec<(f64, i32)>,
}

impl Dunnett {
    /// For treatments of so many plots each beside a control of so many: the load of each is √(n / (n + control)).
    pub fn of_counts(treatments: &[usize], control: usize) -> Self {
        Self::of_loads(treatments.iter().map(|n| (*n as f64 / (n + control) as f64).sqrt()))
    }

    /// For estimated differences with these correlations: the loads whose products come nearest to them (factor analysis with one
    /// factor; Hsu 1992, from memory). With equal plots everywhere they are exact.
    pub fn of_correlations(rows: &[Vec<f64>]) -> Self {
        let mut loads = vec![std::f64::consts::FRAC_1_SQRT_2; rows.len()];
        if rows.len() > 2 {
            for _ in 0..ROUNDS {
                let next = |(i, row): (usize, &Vec<f64>)| {
                    let others = row.iter().zip(&loads).enumerate().filter(|(j, _)| *j != i);
                    let (sum, squares) =
                        others.fold((0.0, 0.0), |(sum, squares), (_, (r, l))| (sum + r * l, squares + l * l));
                    (sum / squares).clamp(0.0, 0.9999)
                };
                loads = rows.iter().enumerate().map(next).collect();
            }
        } else if let [[_, r], _] = rows.iter().map(Vec::as_slice).collect::<Vec<_>>().as_slice() {
            loads = vec![r.clamp(0.0, 0.9999).sqrt(); 2];
        }
        Self::of_loads(loads.into_iter())
    }

    fn of_loads(loads: impl Iterator<Item = f64>) -> Self {
        let mut grouped: Vec<(f64, i32)> = Vec::new();
        for load in loads {
            match grouped.iter_mut().find(|(l, _)| (*l - load).abs() < 1e-12) {
                Some((_, count)) => *count = count.saturating_add(1),
                None => grouped.push((load, 1)),
            }
        }
        Self { loads: grouped }
    }

    /// How often the largest of the differences, in standard errors, lies beyond `t` although there is none.
    pub fn tail(&self, t: f64, df: f64, sides: Sides) -> f64 {
        let points: Vec<(f64, f64)> =
            nodes(-ENDS, ENDS, PANELS).iter().map(|node| (node.at, node.weight * normal_density(node.at))).collect();
        let within = |d: f64, z: f64| -> f64 {
            let one = |(load, count): &(f64, i32)| {
                let rest = (1.0 - load * load).sqrt();
                let above = normal((d - load * z) / rest);
                let below = if sides == Sides::Two { normal((-d - load * z) / rest) } else { 0.0 };
                (above - below).powi(*count)
            };
            self.loads.iter().map(one).product()
        };
        let at = |d: f64| -> f64 { points.iter().map(|(z, weight)| weight * within(d, *z)).sum() };
        let share: f64 = spread(df).iter().map(|s| s.weight * at(t * s.at)).sum();
        (1.0 - share).clamp(0.0, 1.0)
    }

    /// The critical value: how many standard errors a difference must have; `None` without a degree of freedom.
    pub fn quantile(&self, alpha: f64, df: f64, sides: Sides) -> Option<f64> {
        if self.loads.is_empty() || !(df > 0.0 && alpha > 0.0 && alpha < 1.0) {
            return None;
        }
        reached(|t| self.tail(t, df, sides), alpha, 3.0)
    }
}
