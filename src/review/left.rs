//! What is left from yesterday: jobs that the evening before listed for this day, neither ticked nor shown as done by the record.

use super::jobs::{self, Job, Sheet};
use super::ticks::Ticks;
use super::{ListedFor, listed_for};
use crate::record::JobOutcome;
use crate::season::Season;
use crate::warnings::Warning;
use chrono::NaiveDate;
use std::collections::BTreeSet;

/// Marks the jobs that stood on the list of the evening before a day for one of their benches and were not ticked as done or not
/// needed since. `yesterday` are the warnings of that evening.
pub(super) fn mark(jobs: &mut [Job], season: &Season, (on, yesterday): (NaiveDate, &[Warning])) {
    let Some(before) = on.pred_opt().filter(|_| !jobs.is_empty() && !yesterday.is_empty()) else { return };
    let season = &season.on(before);
    let Some(site) = season.site() else { return };
    let walk: Vec<&str> = season.benches().iter().map(|b| b.bench.as_str()).collect();
    let sheet = Sheet { season, on: before, listed_for: listed_for(before, ListedFor::Tomorrow), units: site.units };
    let listed = jobs::jobs(sheet, yesterday.iter().filter(|w| w.put_off_until.is_none())).0;
    let places: BTreeSet<(&str, &String)> =
        listed.iter().flat_map(|job| job.all().map(|bench| (job.step, bench))).collect();
    // What was ticked today of that list counts as well.
    let ticks = Ticks::of(season, &walk, on);
    let settled = |step: &str, bench: &str| {
        let tick = walk.iter().position(|w| *w == bench).and_then(|at| ticks.find(at, step, on));
        tick.is_some_and(|tick| tick.outcome != JobOutcome::Postponed)
    };
    for job in jobs {
        let left = job.all().any(|bench| places.contains(&(job.step, bench)) && !settled(job.step, bench));
        job.left = left;
    }
}
