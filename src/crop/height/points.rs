//! A grower's own curve, through points of their own.

use crate::crop::{CropError, within};

/// A grower's own curve: a smooth line that never falls, through given points.
///
/// Between points it is the monotone cubic of Fritsch and Carlson (SIAM Journal on Numerical Analysis 17, 1980): it passes
/// through every point, has no bumps of its own, and its slope is continuous.
#[derive(Debug, Clone, PartialEq)]
pub struct Points {
    knots: Vec<Knot>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Knot {
    x: f64,
    f: f64,
    slope: f64,
}

impl Points {
    /// Through points (share of the time gone, share of the gain made), in order of time. The ends (0, 0) and (1, 1) are
    /// added where they are not given.
    ///
    /// # Errors
    /// [`CropError::Missing`] without a point between start and finish; [`CropError::Impossible`] for a number outside 0 to
    /// 1; [`CropError::Contradiction`] for points out of order in time, a height that falls, or an end that is not (0, 0)
    /// or (1, 1).
    pub fn new(points: &[(f64, f64)]) -> Result<Self, CropError> {
        let mut line = vec![(0.0, 0.0)];
        for &(x, f) in points {
            within("the share of the time of a curve point", x, 0.0, 1.0, "")?;
            within("the share of the gain of a curve point", f, 0.0, 1.0, "")?;
            if (x, f) != (0.0, 0.0) && (x, f) != (1.0, 1.0) {
                line.push((x, f));
            }
        }
        if line.len() == 1 {
            let why = "give one or more between the start (0, 0) and the finish (1, 1)";
            return Err(CropError::Missing { what: "a curve point", why });
        }
        line.push((1.0, 1.0));
        for pair in line.windows(2) {
            let &[before, after] = pair else { continue };
            let clash =
                |why| CropError::Contradiction { first: point(before).into(), second: point(after).into(), why };
            // Points closer together than this would make slopes without bounds.
            if after.0 - before.0 < 1e-6 {
                return Err(clash("each point must be later than the one before it"));
            }
            if after.1 < before.1 {
                return Err(clash("a crop does not shrink"));
            }
        }
        Ok(Self { knots: with_slopes(&line) })
    }

    fn around(&self, x: f64) -> Option<(Knot, Knot)> {
        self.knots.windows(2).find_map(|pair| match *pair {
            [a, b] if x <= b.x => Some((a, b)),
            _ => None,
        })
    }

    pub(super) fn fraction(&self, x: f64) -> f64 {
        let Some((a, b)) = self.around(x) else { return 1.0 };
        let width = b.x - a.x;
        let t = ((x - a.x) / width).clamp(0.0, 1.0);
        let (t2, t3) = (t * t, t * t * t);
        let start = (2.0 * t3 - 3.0 * t2 + 1.0) * a.f + (t3 - 2.0 * t2 + t) * width * a.slope;
        let end = (3.0 * t2 - 2.0 * t3) * b.f + (t3 - t2) * width * b.slope;
        // Rounding may leave the band between two knots by the last digit; the cubic itself does not.
        (start + end).clamp(a.f, b.f)
    }

    pub(super) fn slope(&self, x: f64) -> f64 {
        let Some((a, b)) = self.around(x) else { return 0.0 };
        let width = b.x - a.x;
        let t = ((x - a.x) / width).clamp(0.0, 1.0);
        let rise = (b.f - a.f) / width;
        (6.0 * (t - t * t) * rise + (3.0 * t * t - 4.0 * t + 1.0) * a.slope + (3.0 * t * t - 2.0 * t) * b.slope)
            .max(0.0)
    }
}

fn point((x, f): (f64, f64)) -> String {
    format!("the point ({x}, {f})")
}

/// Slopes at the knots: the harmonic mean of the two neighboring rises, weighted by their widths; nought where the line is
/// level on one side. (Fritsch and Butland's form of the method: no later correction is needed.)
fn with_slopes(line: &[(f64, f64)]) -> Vec<Knot> {
    let rise = |i: usize| match (line.get(i), line.get(i + 1)) {
        (Some(a), Some(b)) => Some((b.0 - a.0, (b.1 - a.1) / (b.0 - a.0))),
        _ => None,
    };
    let slope = |i: usize| match (i.checked_sub(1).and_then(rise), rise(i)) {
        (Some((wide_a, rise_a)), Some((wide_b, rise_b))) => {
            if rise_a <= 0.0 || rise_b <= 0.0 {
                return 0.0;
            }
            let (near, far) = (2.0 * wide_b + wide_a, wide_b + 2.0 * wide_a);
            (near + far) / (near / rise_a + far / rise_b)
        }
        (Some((_, only)), None) | (None, Some((_, only))) => only,
        (None, None) => 0.0,
    };
    line.iter().enumerate().map(|(i, &(x, f))| Knot { x, f, slope: slope(i) }).collect()
}

#[cfg(test)]
mod tests {
    use super::Points;
    use proptest::prelude::*;

    fn any_points() -> impl Strategy<Value = Points> {
        proptest::collection::vec((1u32..999, 0.0f64..=1.0), 1..8).prop_map(|pairs| {
            let (mut xs, mut fs): (Vec<_>, Vec<_>) = pairs.into_iter().unzip();
            xs.sort_unstable();
            xs.dedup();
            fs.sort_by(f64::total_cmp);
            let points: Vec<_> = xs.into_iter().map(|x| f64::from(x) / 1000.0).zip(fs).collect();
            Points::new(&points).unwrap()
        })
    }

    proptest! {
        #[test]
        fn own_points_join_in_height_and_slope(points in any_points(), at in 0usize..9) {
            let Some(knot) = points.knots.get(at).filter(|k| k.x > 0.0 && k.x < 1.0) else { return Ok(()) };
            prop_assert!((points.fraction(knot.x) - knot.f).abs() < 1e-9, "passes through the point");
            prop_assert!((points.slope(knot.x - 1e-10) - points.slope(knot.x + 1e-10)).abs() < 1e-2);
        }
    }

    #[test]
    fn refusals_say_what_is_wrong_with_the_points() {
        let text = |points: &[(f64, f64)]| Points::new(points).unwrap_err().to_string();
        assert_eq!(
            text(&[]),
            "a curve point is missing: give one or more between the start (0, 0) and the finish (1, 1)"
        );
        assert_eq!(
            text(&[(0.5, 0.6), (0.7, 0.5)]),
            "the point (0.5, 0.6) and the point (0.7, 0.5) do not go together: a crop does not shrink"
        );
        assert!(text(&[(0.5, 0.6), (0.4, 0.7)]).contains("later than the one before"));
        assert!(text(&[(0.5, 1.2)]).contains("it must be 0 to 1"));
    }
}
