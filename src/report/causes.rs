//! The answer of the symptom key in words: causes to check, never a diagnosis.

use crate::crop::symptoms::causes;
use crate::limits::Limits;
use crate::season::Season;
use crate::warnings::seen;
use chrono::NaiveDate;

/// The heading of the list, which states that these are not diagnoses.
pub const HEAD: &str = "Causes to check, the likeliest first (possibilities, not a diagnosis)";

/// One cause to check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CauseInWords {
    /// The cause.
    pub cause: &'static str,
    /// The signs that support it.
    pub seen: String,
    /// How to confirm it or rule it out, the quickest first.
    pub confirm: String,
    /// What it is mistaken for.
    pub look_alikes: String,
    /// The source of the description.
    pub source: &'static str,
}

/// The causes to check on a bench, the likeliest first; empty without a sign.
pub fn of(season: &Season, bench: &str, day: NaiveDate, limits: &Limits) -> Vec<CauseInWords> {
    let join = |words: Vec<&str>| words.join("; ");
    causes(&seen(season, bench, day, limits))
        .into_iter()
        .map(|s| CauseInWords {
            cause: s.cause.words(),
            seen: join(s.clues.iter().map(|c| c.words()).collect()),
            confirm: join(s.cause.confirm().iter().map(|c| c.words()).collect()),
            look_alikes: join(s.cause.look_alikes().to_vec()),
            source: s.cause.source(),
        })
        .collect()
}
