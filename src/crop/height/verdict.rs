//! Position of a day's readings relative to the window, only as certain as the readings allow.

use super::{Interval, Sample, Window};

/// When readings count as outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Firmness {
    /// How many readings it takes.
    pub plants: usize,
    /// How far the mean must lie beyond the limit, in cm.
    pub beyond_cm: f64,
    /// The confidence of the mean's interval, which must lie wholly beyond the limit (0.90 for 90%).
    pub confidence: f64,
}

impl Default for Firmness {
    /// 3 plants, 1.0 cm, 90%: house rules. (A published trial held crops within 2.5 cm of the target at the finish:
    /// University of Georgia, 2015.)
    fn default() -> Self {
        Self { plants: 3, beyond_cm: 1.0, confidence: 0.90 }
    }
}

/// Which side of the window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Place {
    /// Above the upper limit.
    Above,
    /// Below the lower limit.
    Below,
    /// Inside, or not firmly outside.
    Inside,
    /// Too few readings to say.
    TooFew,
}

/// Position of the readings of a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Verdict {
    /// The readings in numbers, in cm.
    pub sample: Sample,
    /// The interval of their mean, in cm; `None` with one reading.
    pub interval: Option<Interval>,
    /// The window of the day.
    pub window: Window,
    /// How far the mean lies outside the window: above positive, below negative, inside 0, in cm.
    pub beyond_cm: f64,
    /// The side; only when it is certain.
    pub place: Place,
}

/// Position of readings (in cm, from the bench) on a day with this window. `None` without a reading, or
/// with a window that is no number.
pub fn verdict(readings_cm: &[f64], window: Window, firm: Firmness) -> Option<Verdict> {
    let sample = Sample::of(readings_cm)?;
    if !(window.low_cm.is_finite() && window.high_cm.is_finite()) {
        return None;
    }
    let interval = sample.interval(firm.confidence);
    let beyond_cm = window.beyond_cm(sample.mean);
    let far_enough = beyond_cm != 0.0 && beyond_cm.abs() >= firm.beyond_cm;
    let place = match interval {
        _ if sample.n < firm.plants => Place::TooFew,
        None => Place::TooFew,
        Some(i) if far_enough && i.low > window.high_cm => Place::Above,
        Some(i) if far_enough && i.high < window.low_cm => Place::Below,
        Some(_) => Place::Inside,
    };
    Some(Verdict { sample, interval, window, beyond_cm, place })
}

#[cfg(test)]
mod tests {
    use super::{Firmness, Place, Window, verdict};
    use proptest::prelude::*;

    const WINDOW: Window = Window { low_cm: 30.0, high_cm: 34.0 };

    fn place(readings: &[f64]) -> Place {
        verdict(readings, WINDOW, Firmness::default()).unwrap().place
    }

    #[test]
    fn outside_is_said_only_when_it_is_firm() {
        assert_eq!(place(&[36.0, 36.5, 35.5, 36.0]), Place::Above);
        assert_eq!(place(&[28.0, 28.5, 27.5, 28.0]), Place::Below);
        assert_eq!(place(&[32.0, 32.5, 31.5, 32.0]), Place::Inside);
        assert_eq!(place(&[34.8, 34.9, 34.7, 34.8]), Place::Inside, "0.8 cm is less than 1.0 cm");
        assert_eq!(place(&[30.0, 42.0, 36.0]), Place::Inside, "three plants that differ so much say nothing firm");
        assert_eq!(place(&[40.0, 40.0]), Place::TooFew);
        assert_eq!(verdict(&[], WINDOW, Firmness::default()), None);
    }

    proptest! {
        #[test]
        fn taller_readings_never_stand_lower(readings in proptest::collection::vec(20.0f64..45.0, 3..8), up in 0.0f64..9.0) {
            let rank = |p: Place| match p { Place::Below => 0, Place::Inside | Place::TooFew => 1, Place::Above => 2 };
            let taller: Vec<f64> = readings.iter().map(|r| r + up).collect();
            prop_assert!(rank(place(&readings)) <= rank(place(&taller)));
        }

        #[test]
        fn any_reading_is_answered(readings in proptest::collection::vec(any::<f64>(), 0..6), low_cm: f64, high_cm: f64) {
            let _answered = verdict(&readings, Window { low_cm, high_cm }, Firmness::default());
        }
    }
}
