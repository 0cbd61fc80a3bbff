//! The answer of the symptom key in words: causes to check, never a diagnosis.

use crate::crop::symptoms::{COOL_BELOW_C, Clue, WARM_FROM_C, causes};
use crate::limits::Limits;
use crate::season::Season;
use crate::units::{Quantity, System, Temperature};
use crate::warnings::seen;
use chrono::NaiveDate;

/// The heading of the list, which states that these are not diagnoses.
pub const HEAD: &str = "Causes to check, the most likely first (possibilities, not a diagnosis)";

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
    let system = season.site().map_or(System::Metric, |site| site.units);
    causes(&seen(season, bench, day, limits))
        .into_iter()
        .map(|s| CauseInWords {
            cause: s.cause.words(),
            seen: s.clues.iter().map(|c| clue(*c, system)).collect::<Vec<_>>().join("; "),
            confirm: s.cause.confirm().iter().map(|c| c.words()).collect::<Vec<_>>().join("; "),
            look_alikes: s.cause.look_alikes().join("; "),
            source: s.cause.source(),
        })
        .collect()
}

/// A clue in words; of the warmth also from which temperature on it is meant, as the site reads it.
fn clue(clue: Clue, system: System) -> String {
    let degrees = |c: f64| {
        let temperature = Temperature::from_c(c);
        format!("{:.0} {}", temperature.in_system(system), Temperature::unit_name(system))
    };
    match clue {
        Clue::CoolNight => format!("{} (under {})", clue.words(), degrees(COOL_BELOW_C)),
        Clue::WarmNight => format!("{} ({} or more)", clue.words(), degrees(WARM_FROM_C)),
        other => other.words().to_owned(),
    }
}
