//! Gauss-Legendre quadrature on panels, and roots of falling or rising functions.

/// Nodes of a panel.
const NODES: usize = 16;

/// A point of a quadrature and its weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Node {
    /// Where the function is evaluated.
    pub(super) at: f64,
    /// What its value counts there.
    pub(super) weight: f64,
}

/// The nodes of Gauss-Legendre quadrature between two bounds, 16 on each of so many equal panels. They are the roots of the
/// Legendre polynomial, found by Newton's method from the cosines next to them (Abramowitz and Stegun, 25.4.29).
pub(super) fn nodes(low: f64, high: f64, panels: usize) -> Vec<Node> {
    let half = (high - low) / (2.0 * panels as f64);
    let unit = unit_nodes();
    (0..panels)
        .flat_map(|panel| {
            let middle = low + half * (2 * panel + 1) as f64;
            unit.iter().map(move |node| Node { at: middle + half * node.at, weight: half * node.weight })
        })
        .collect()
}

/// The nodes between -1 and 1.
fn unit_nodes() -> Vec<Node> {
    let order = NODES as f64;
    (1..=NODES)
        .map(|i| {
            let mut at = (std::f64::consts::PI * (i as f64 - 0.25) / (order + 0.5)).cos();
            let mut slope = 1.0;
            for _ in 0..10 {
                let (value, last) = legendre(at);
                slope = order * (at * value - last) / (at * at - 1.0);
                at -= value / slope;
            }
            Node { at, weight: 2.0 / ((1.0 - at * at) * slope * slope) }
        })
        .collect()
}

/// The Legendre polynomials of the highest order and of the one below.
fn legendre(x: f64) -> (f64, f64) {
    let (mut last, mut value) = (1.0, x);
    for n in 2..=NODES {
        let n = n as f64;
        let next = ((2.0 * n - 1.0) * x * value - (n - 1.0) * last) / n;
        (last, value) = (value, next);
    }
    (value, last)
}

/// Where a function that rises or falls from zero on reaches a value: the bound above is doubled from `guess` until it is passed.
/// `None` where it never is.
pub(super) fn reached(f: impl Fn(f64) -> f64, wanted: f64, guess: f64) -> Option<f64> {
    let off = |x: f64| f(x) - wanted;
    let start = off(0.0);
    let mut high = guess;
    while off(high) * start > 0.0 && high < 1e12 {
        high *= 2.0;
    }
    root(off, 0.0, high)
}

/// Where a monotonic function is zero between two bounds, by the Illinois variant of regula falsi. `None` where it has the same
/// sign at both.
pub(super) fn root(f: impl Fn(f64) -> f64, low: f64, high: f64) -> Option<f64> {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (f(a), f(b));
    if fa * fb > 0.0 || (fa * fb).is_nan() {
        return None;
    }
    for _ in 0..200 {
        let middle = (a * fb - b * fa) / (fb - fa);
        if !middle.is_finite() {
            break;
        }
        let value = f(middle);
        if value * fb < 0.0 {
            (a, fa) = (b, fb);
        } else {
            fa /= 2.0;
        }
        (b, fb) = (middle, value);
        if (b - a).abs() <= 1e-13 * b.abs().max(1e-300) || fb.abs() < 1e-15 {
            break;
        }
    }
    Some(b)
}
