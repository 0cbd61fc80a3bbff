//! What an experiment could have seen: the least difference that is found with a given power.

use super::quadrature::reached;
use super::special::normal;
use super::spread::spread;

/// The least true difference, in standard errors of a difference, that is found with `power` when a pair is compared at the critical
/// value `critical` with so many degrees of freedom; `None` for a power that is not between 0 and 1, or without a degree of freedom.
pub fn least_seen(power: f64, critical: f64, df: f64) -> Option<f64> {
    if !(df > 0.0 && power > 0.0 && power < 1.0 && critical > 0.0) {
        return None;
    }
    let points = spread(df);
    let found = |d: f64| -> f64 {
        points.iter().map(|s| s.weight * (normal(-critical * s.at + d) + normal(-critical * s.at - d))).sum()
    };
    if found(0.0) >= power {
        return Some(0.0);
    }
    reached(found, power, critical * 2.0)
}
