//! A season's end for other programs: the figures of `totals`, metric as their names say, and what the trials found.

use super::SeasonEnd;
use crate::totals::{PAUSE_MIN, Totals, Week};
use serde::Serialize;

#[derive(Serialize)]
struct Out<'a> {
    #[serde(flatten)]
    totals: &'a Totals,
    benches_a_minute: Option<f64>,
    pause_over_min: i64,
    weeks: Vec<Week>,
    trials: Vec<TrialOut<'a>>,
    next_slow_release: Vec<Rate<'a>>,
}

#[derive(Serialize)]
struct TrialOut<'a> {
    trial: &'a str,
    lot: &'a str,
    question: &'a str,
    result: Vec<String>,
}

#[derive(Serialize)]
struct Rate<'a> {
    lot: &'a str,
    g_per_pot: f64,
    basis: Option<&'a str>,
}

/// One JSON object.
///
/// # Errors
/// Where a figure is no number that JSON has.
pub fn json(end: &SeasonEnd) -> Result<String, serde_json::Error> {
    let labor = &end.totals.labor;
    let out = Out {
        totals: &end.totals,
        benches_a_minute: labor.rate(),
        pause_over_min: PAUSE_MIN,
        weeks: labor.weeks(),
        trials: end
            .trials
            .iter()
            .map(|report| {
                let trial = report.found.trial();
                TrialOut {
                    trial: &trial.trial,
                    lot: &trial.lot,
                    question: &trial.question,
                    result: SeasonEnd::result(report),
                }
            })
            .collect(),
        next_slow_release: end
            .rates
            .iter()
            .map(|(lot, grams, basis)| Rate { lot, g_per_pot: *grams, basis: basis.as_deref() })
            .collect(),
    };
    Ok(serde_json::to_string_pretty(&out)? + "\n")
}
