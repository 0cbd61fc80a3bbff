//! When the plots of a trial are read.

use super::readings::is_of;
use crate::dates::{add_days, days_between};
use crate::record::{Plot, Trial, TrialReading};
use crate::season::Season;
use chrono::NaiveDate;
use std::collections::HashMap;

/// The day of the schedule on or before a day: the first day of readings, and every so many days after it. `None` before the first,
/// and once the last has passed for as long as there is from one reading to the next.
///
/// ```
/// use benchwalk::record::{Line, codec};
/// use benchwalk::trials::scheduled;
///
/// let line = r#"{"type":"trial","trial":"T1","lot":"R6","question":"rate","treatments":["0 g","8 g"],"design":"as-laid",
///     "reads":["height"],"every_days":7,"from":"2026-09-07","until":"2026-09-21"}"#.replace('\n', " ");
/// let Line::Trial(trial) = codec::decode(&line, codec::VERSION).unwrap() else { unreachable!() };
/// let day = |text: &str| text.parse().unwrap();
/// assert_eq!(scheduled(&trial, day("2026-09-16")), Some(day("2026-09-14")));
/// assert_eq!(scheduled(&trial, day("2026-09-28")), None);
/// ```
pub fn scheduled(trial: &Trial, day: NaiveDate) -> Option<NaiveDate> {
    let every = i64::from(trial.every());
    let passed = days_between(trial.from, day);
    if passed < 0 {
        return None;
    }
    let last = trial.until.map_or(passed, |until| days_between(trial.from, until).min(passed)) / every * every;
    let scheduled = add_days(trial.from, last);
    (passed - last < every).then_some(scheduled)
}

/// A plot that is to be read, with the readings that are missing.
#[derive(Debug, Clone, PartialEq)]
pub struct DuePlot {
    /// The plot.
    pub plot: Plot,
    /// What is missing since the day of the schedule, in the trial's order.
    pub missing: Vec<TrialReading>,
}

/// The living plots of a trial that are to be read on a day, by number; none where nothing is due.
pub fn due(season: &Season, trial: &Trial, day: NaiveDate) -> Vec<DuePlot> {
    let Some(since) = scheduled(trial, day) else { return Vec::new() };
    let of = |plot: &Plot| {
        let missing = trial.reads.iter().copied().filter(|reading| {
            !season.plot_entries(&plot.plot, day).any(|e| e.day() >= since && is_of(&e.kind, *reading))
        });
        DuePlot { plot: plot.clone(), missing: missing.collect() }
    };
    let living = season.plots(&trial.trial).into_iter().filter(|plot| !super::is_lost(season, plot, day));
    living.map(of).filter(|due| !due.missing.is_empty()).collect()
}

/// The plots of a trial that are to be read, counted on each bench.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DueOn {
    /// The trial.
    pub trial: String,
    /// The benches in walking order, each with its plots that are to be read.
    pub benches: Vec<(String, usize)>,
}

impl DueOn {
    /// Plots on all benches.
    pub fn plots(&self) -> usize {
        self.benches.iter().map(|(_, plots)| plots).sum()
    }
}

/// Every trial with plots that are to be read on a day. A bench without pots is left out: nothing stands there to be read.
pub fn due_on_benches(season: &Season, day: NaiveDate) -> Vec<DueOn> {
    let of = |trial: &Trial| {
        let mut plots: HashMap<String, usize> = HashMap::new();
        for due in due(season, trial, day) {
            *plots.entry(due.plot.bench).or_default() += 1;
        }
        // In walking order; the walk is gone through only where there is something to look for.
        let walk = if plots.is_empty() { &[] } else { season.benches() };
        let benches = walk.iter().filter_map(|bench| plots.remove_entry(&bench.bench));
        let stands = |(bench, _): &(String, usize)| season.standing(bench, day).is_some();
        DueOn { trial: trial.trial.clone(), benches: benches.filter(stands).collect() }
    };
    let all = season.trials().into_iter().map(of);
    all.filter(|due| !due.benches.is_empty()).collect()
}
