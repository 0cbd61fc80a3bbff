//! The target of a lot: the least and greatest height on a day.

use super::Curve;
use crate::crop::{CropError, Named, within};
use crate::dates;
use chrono::NaiveDate;

/// Greatest height accepted, in cm: well above any potted crop, so that a wrong unit is caught.
const TALLEST_CM: f64 = 300.0;

/// The least and greatest height of a crop on one day, in cm from the bench (pot included).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// The lower limit.
    pub low_cm: f64,
    /// The upper limit.
    pub high_cm: f64,
}

impl Window {
    /// The middle of the window.
    pub const fn middle_cm(self) -> f64 {
        f64::midpoint(self.low_cm, self.high_cm)
    }

    /// How far a height lies outside: above the upper limit (positive), below the lower (negative), or 0 inside.
    pub fn beyond_cm(self, height_cm: f64) -> f64 {
        (height_cm - self.high_cm).max(0.0) + (height_cm - self.low_cm).min(0.0)
    }
}

/// A lot's target: from its start height one curve rises to the minimum and one to the maximum finished height.
///
/// All heights are from the bench to the growing tip, so the pot is included, as in the published crop schedules
/// (University of Florida, 2002 to 2011). The window is two curves of one shape from one start to the least and the
/// greatest finished height (trade convention; the inputs are those of Fisher and Heins, 1995).
#[derive(Debug, Clone, PartialEq)]
pub struct Target {
    curve: Curve,
    start: NaiveDate,
    finish: NaiveDate,
    start_cm: f64,
    finished: Window,
}

impl Target {
    /// `start` is the day of the pinch (or the first day of the curve where none is wanted) with the height that day, `finish`
    /// the day the crop must be finished, `finished` the window it must then be in.
    ///
    /// # Errors
    /// [`CropError::Impossible`] for a height outside 0 to 300 cm, [`CropError::Contradiction`] when the finish is not after
    /// the start, or the lower limit is above the upper, or the crop starts above the upper limit.
    pub fn new(
        curve: Curve,
        (start, start_cm): (NaiveDate, f64),
        finish: NaiveDate,
        finished: Window,
    ) -> Result<Self, CropError> {
        within("the height at the start", start_cm, 0.0, TALLEST_CM, "cm")?;
        within("the minimum finished height", finished.low_cm, 0.0, TALLEST_CM, "cm")?;
        within("the maximum finished height", finished.high_cm, 0.0, TALLEST_CM, "cm")?;
        let clash = |first: Named, second: Named, why| Err(CropError::Contradiction { first, second, why });
        let (low, high) = (finished.low_cm, finished.high_cm);
        if finish <= start {
            return clash(
                format!("the start {}", dates::long(start)).into(),
                format!("the finish {}", dates::long(finish)).into(),
                "growth needs days between them",
            );
        }
        if low > high {
            let why = "the minimum must not be above the maximum";
            return clash(
                Named::quantity("the minimum finished height", low, "cm"),
                Named::quantity("the maximum", high, "cm"),
                why,
            );
        }
        if start_cm > high {
            let why = "the crop starts above what it may finish at";
            return clash(
                Named::quantity("the height at the start", start_cm, "cm"),
                Named::quantity("the maximum", high, "cm"),
                why,
            );
        }
        Ok(Self { curve, start, finish, start_cm, finished })
    }

    /// The first day of the curve.
    pub const fn start(&self) -> NaiveDate {
        self.start
    }

    /// The height on the first day, in cm.
    pub const fn start_cm(&self) -> f64 {
        self.start_cm
    }

    /// The day the crop must be finished.
    pub const fn finish(&self) -> NaiveDate {
        self.finish
    }

    /// The window on the day of the finish.
    pub const fn finished(&self) -> Window {
        self.finished
    }

    /// The shape.
    pub const fn curve(&self) -> &Curve {
        &self.curve
    }

    /// Share of the time gone on a day: 0 up to the start, 1 from the finish on.
    pub fn time_gone(&self, day: NaiveDate) -> f64 {
        let whole = (self.finish - self.start).num_days() as f64;
        ((day - self.start).num_days() as f64 / whole).clamp(0.0, 1.0)
    }

    /// Share of the gain the curve has made on a day.
    pub fn fraction(&self, day: NaiveDate) -> f64 {
        self.curve.fraction(self.time_gone(day))
    }

    /// The two limits of a day, in cm. Before the start both are the start height; after the finish they stay.
    pub fn window(&self, day: NaiveDate) -> Window {
        let share = self.fraction(day);
        // A crop that is already above the least finished height has a level lower limit, not a falling one.
        let limit = |finished: f64| share.mul_add((finished - self.start_cm).max(0.0), self.start_cm);
        Window { low_cm: limit(self.finished.low_cm), high_cm: limit(self.finished.high_cm) }
    }

    /// Whole gain from the start to the middle of the finished window, in cm.
    pub fn gain_cm(&self) -> f64 {
        (self.finished.middle_cm() - self.start_cm).max(0.0)
    }

    /// How fast a crop in the middle of its window grows on a day, in cm a day.
    pub fn pace_cm_day(&self, day: NaiveDate) -> f64 {
        if day < self.start || day > self.finish {
            return 0.0;
        }
        self.gain_cm() * self.curve.slope(self.time_gone(day)) / (self.finish - self.start).num_days() as f64
    }
}

#[cfg(test)]
mod tests {
    use super::{Curve, Target, Window};
    use chrono::NaiveDate;
    use proptest::prelude::*;

    fn day(n: i64) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 9, 7).unwrap() + chrono::TimeDelta::days(n)
    }

    #[test]
    fn a_target_that_cannot_be_is_refused() {
        let make = |start_cm, finish, low_cm, high_cm| {
            Target::new(Curve::late(), (day(0), start_cm), day(finish), Window { low_cm, high_cm })
                .unwrap_err()
                .to_string()
        };
        assert!(make(20.0, 0, 30.0, 40.0).contains("growth needs days between them"));
        assert!(make(20.0, 70, 40.0, 30.0).contains("minimum must not be above"));
        assert!(make(45.0, 70, 30.0, 40.0).contains("starts above"));
        assert!(make(f64::NAN, 70, 30.0, 40.0).contains("height at the start is not a number"));
    }

    proptest! {
        #[test]
        fn a_window_opens_from_the_start_to_the_finish(
            start in 0.0f64..60.0, low in 0.0f64..100.0, wide in 0.0f64..30.0, days in 1i64..200, at in -50i64..300,
        ) {
            let finished = Window { low_cm: low, high_cm: low + wide };
            let Ok(target) = Target::new(Curve::late(), (day(0), start), day(days), finished) else {
                prop_assert!(start > low + wide);
                return Ok(());
            };
            let (now, next) = (target.window(day(at)), target.window(day(at + 1)));
            prop_assert!(now.low_cm <= now.high_cm);
            prop_assert!(now.low_cm <= next.low_cm && now.high_cm <= next.high_cm);
            prop_assert!(now.high_cm <= finished.high_cm + 1e-9 && now.low_cm >= start - 1e-9);
            prop_assert!(target.pace_cm_day(day(at)).is_finite());
            prop_assert!((target.window(target.finish()).high_cm - finished.high_cm).abs() < 1e-9);
        }

        #[test]
        fn any_number_is_answered(start: f64, low_cm: f64, high_cm: f64) {
            if let Ok(target) = Target::new(Curve::early(), (day(0), start), day(70), Window { low_cm, high_cm }) {
                prop_assert!(target.window(NaiveDate::MAX).high_cm.is_finite());
                prop_assert!(target.window(NaiveDate::MIN).low_cm.is_finite());
            }
        }
    }
}
