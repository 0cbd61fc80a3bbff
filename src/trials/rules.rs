//! The numbers that trials are planned and analyzed by.

use crate::limits::Limits;

/// The numbers that trials are planned and analyzed by, as the limits have them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rules {
    /// How often a difference may be found where there is none.
    pub alpha: f64,
    /// How often a difference that is there is to be found.
    pub power: f64,
    /// Degrees of freedom of the rest that must be left for intervals.
    pub least_df: usize,
    /// Degrees of freedom of the rest below which only big differences can show.
    pub good_df: usize,
    /// How often the treatments are dealt again.
    pub shuffles: u32,
}

impl Rules {
    /// Those of the limits in force.
    pub fn of(limits: &Limits) -> Self {
        let trial = &limits.trial;
        let whole = |df: u32| usize::try_from(df).unwrap_or(usize::MAX);
        Self {
            alpha: trial.alpha,
            power: trial.power,
            least_df: whole(trial.least_error_df),
            good_df: whole(trial.good_error_df),
            shuffles: trial.shuffles,
        }
    }
}

impl Default for Rules {
    /// Those of the default limits.
    fn default() -> Self {
        Self::of(&Limits::default())
    }
}
