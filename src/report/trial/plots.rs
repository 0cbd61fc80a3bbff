//! The plots of a trial with what was read of them, one line a plot and day, for a spreadsheet.

use crate::record::TrialReading;
use crate::terms::Term;
use crate::trials::Readings;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// The columns that every line fills.
const COMMON: [&str; 10] = ["trial", "plot", "bench", "row", "column", "block", "treatment", "rate", "pots", "day"];

/// A head and one line a plot and day, values in the units of the journal; of one reading, or of all the trial has.
pub fn by_day(readings: &Readings, only: Option<TrialReading>) -> Vec<Vec<String>> {
    let trial = &readings.trial;
    let reads: Vec<TrialReading> = match only {
        Some(reading) => vec![reading],
        None => trial.reads.clone(),
    };
    let days: BTreeSet<NaiveDate> = reads.iter().flat_map(|reading| readings.each_day(*reading)).collect();
    let head = COMMON.iter().copied().chain(reads.iter().map(|reading| column(*reading))).chain(["lost"]);
    let mut rows: Vec<Vec<String>> = vec![head.map(str::to_owned).collect()];
    for day in days {
        for (at, plot) in readings.plots.iter().enumerate() {
            let treatment = trial.treatment(&plot.treatment);
            let rate = treatment.and_then(|treatment| trial.rates.as_ref()?.get(treatment).copied());
            let number = |value: Option<f64>| value.map(|value| value.to_string()).unwrap_or_default();
            let common = [
                trial.trial.clone(),
                plot.number().to_string(),
                plot.bench.clone(),
                plot.row.to_string(),
                plot.column.to_string(),
                plot.block.map(|block| block.to_string()).unwrap_or_default(),
                plot.treatment.clone(),
                number(rate),
                plot.pots.to_string(),
                day.to_string(),
            ];
            let values = reads.iter().map(|reading| number(readings.value_on(at, *reading, day)));
            let lost = if readings.is_lost(at, day) { "true" } else { "false" };
            rows.push(common.into_iter().chain(values).chain([lost.to_owned()]).collect());
        }
    }
    rows
}

/// The head of a reading's column, with its unit.
fn column(reading: TrialReading) -> &'static str {
    match reading {
        TrialReading::Height => "height_cm",
        TrialReading::BractWidth => "bract_width_cm",
        TrialReading::RootZone => "root_zone_ms_cm",
        TrialReading::Grade => "salable_percent",
        TrialReading::Greenness | TrialReading::Bracts | TrialReading::Roots | TrialReading::Water => reading.code(),
    }
}
