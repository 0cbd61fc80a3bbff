//! The distribution of an estimated spread beside the true one: what every studentized quantity is averaged over.

use super::quadrature::{Node, nodes};

/// Panels the spread is divided into.
const PANELS: usize = 4;

/// Nodes over s/σ for so many degrees of freedom, each weighted with its density
/// `2 (v/2)^(v/2) / Γ(v/2) · s^(v-1) · exp(-v s²/2)`. Nine standard deviations either side hold all that counts; with few degrees of
/// freedom the upper side is longer.
pub(super) fn spread(df: f64) -> Vec<Node> {
    let sd = 1.0 / (2.0 * df).sqrt();
    let above = if df < 5.0 { 14.0 } else { 9.0 };
    let scale = std::f64::consts::LN_2 + df / 2.0 * (df / 2.0).ln() - libm::lgamma(df / 2.0);
    let density = |s: f64| (scale + (df - 1.0) * s.ln() - df * s * s / 2.0).exp();
    let bounds = ((1.0 - 9.0 * sd).max(0.0), 1.0 + above * sd);
    nodes(bounds.0, bounds.1, PANELS)
        .into_iter()
        .map(|node| Node { weight: node.weight * density(node.at), ..node })
        .collect()
}
