//! Scales from data to grid positions, total for every input.

use super::grid::ACROSS;

/// Magnitudes beyond this are treated as invalid.
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

/// The two scales of a chart, and its size in fine dots.
pub(super) struct Cells {
    across: Scale,
    upright: Scale,
    fine: (i32, i32),
}

impl Cells {
    /// From the two ranges, and the fine dots across and down.
    pub(super) fn new(across: (f64, f64), upright: (f64, f64), fine: (i32, i32)) -> Self {
        Self { across: Scale::new(across), upright: Scale::new(upright), fine }
    }

    /// Fine dots across and down.
    pub(super) const fn fine(&self) -> (i32, i32) {
        self.fine
    }

    /// True for what is in the horizontal range.
    pub(super) fn holds_across(&self, value: f64) -> bool {
        self.across.holds(value)
    }

    /// True for what is in the vertical range.
    pub(super) fn holds_upright(&self, value: f64) -> bool {
        self.upright.holds(value)
    }

    /// The fine dot across.
    pub(super) fn x(&self, value: f64) -> Option<i32> {
        self.across.share(value).map(|s| whole(s, self.fine.0))
    }

    /// The fine dot down.
    pub(super) fn y(&self, value: f64) -> Option<i32> {
        self.upright.share(value).map(|s| whole(1.0 - s, self.fine.1))
    }

    /// The value in the middle of a column of cells, and half of what the column spans.
    pub(super) fn middle(&self, column: usize) -> (f64, f64) {
        let dot = (self.across.high - self.across.low) / f64::from(self.fine.0.saturating_sub(1).max(1));
        let cell = f64::from(ACROSS) * dot;
        (self.across.low + column as f64 * cell + (cell - dot) / 2.0, cell / 2.0)
    }

    /// The column of the cell.
    pub(super) fn column(&self, value: f64) -> Option<usize> {
        let x = self.x(value).filter(|_| self.across.holds(value))?;
        usize::try_from(x / ACROSS).ok()
    }
}

/// Position in fine dots; values outside are clamped to one chart size away, so that every line is finite.
#[expect(clippy::cast_possible_truncation, reason = "held between one picture before and one after")]
fn whole(share: f64, dots: i32) -> i32 {
    (share.clamp(-1.0, 2.0) * f64::from(dots.saturating_sub(1))).round() as i32
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
