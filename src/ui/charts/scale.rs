//! From numbers to places on the grid, whatever the numbers are.

/// Larger numbers than this are no readings of anything.
const MOST: f64 = 1e12;

/// True for a number that can be drawn.
pub(super) fn drawable(value: f64) -> bool {
    value.is_finite() && value.abs() <= MOST
}

/// A range with its two ends, in order, never flat, finite.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Scale {
    low: f64,
    high: f64,
}

impl Scale {
    /// From any two numbers.
    pub(super) fn new((a, b): (f64, f64)) -> Self {
        let (a, b) = match (drawable(a), drawable(b)) {
            (true, true) => (a.min(b), a.max(b)),
            (true, false) => (a, a),
            (false, true) => (b, b),
            (false, false) => (0.0, 1.0),
        };
        // A flat range is widened by more than rounding can swallow.
        let pad = (a.abs().max(b.abs()) * 1e-6).max(0.5);
        if b - a < pad * 1e-3 { Self { low: a - pad, high: b + pad } } else { Self { low: a, high: b } }
    }

    /// The share of the way from the low end, inside 0 to 1 for what lies in the range; `None` for what cannot be drawn.
    pub(super) fn share(self, value: f64) -> Option<f64> {
        drawable(value).then(|| (value - self.low) / (self.high - self.low))
    }

    /// True for what lies in the range.
    pub(super) fn holds(self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }
}

#[cfg(test)]
mod tests {
    use super::Scale;
    use proptest::prelude::*;

    #[test]
    fn flat_and_turned_ranges_are_mended() {
        assert_eq!(Scale::new((3.0, 3.0)).share(3.0), Some(0.5));
        assert_eq!(Scale::new((9.0, 1.0)).share(1.0), Some(0.0));
        assert_eq!(Scale::new((f64::NAN, f64::INFINITY)).share(1.0), Some(1.0));
        assert_eq!(Scale::new((0.0, 1.0)).share(f64::NAN), None);
    }

    proptest! {
        #[test]
        fn any_range_places_any_number(a: f64, b: f64, value: f64) {
            let scale = Scale::new((a, b));
            prop_assert!(scale.share(value).is_none_or(f64::is_finite));
            prop_assert!(scale.low < scale.high);
        }
    }
}
