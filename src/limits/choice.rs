//! Limits that are chosen from a list, or drawn by the grower, rather than measured.

use crate::terms::NightConvention;

/// Which shape the target height curve has.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum CurveChoice {
    /// K 10, x1 0.25, x2 0.80, Kp 8 (house rule, bracketed by published readings).
    #[default]
    Late,
    /// K 12.74, x1 0.2293, x2 0.4515, Kp 4.79 (fit to a published teaching data set).
    Early,
    /// The grower's own points: share of the time from start to sale, share of the gain in height.
    Own(Vec<(f64, f64)>),
}

/// What is chosen rather than measured.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Choices {
    /// The shape of the target height curve.
    pub curve: CurveChoice,
    /// What counts as night for the start of short days.
    pub night: NightConvention,
}
