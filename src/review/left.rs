//! What is left from yesterday: jobs that the evening before listed for this day, neither ticked nor shown as done by the record.

use super::jobs::{self, Job, Sheet};
use super::ticks::Ticks;
use super::walk::Walk;
use super::{ListedFor, listed_for};
use crate::record::JobOutcome;
use crate::season::Season;
use crate::warnings::Warning;
use chrono::NaiveDate;

/// Marks the jobs that stood on the list of the evening before a day for one of their benches and were not ticked as done or not
/// needed since. `yesterday` are the warnings of that evening.
pub(super) fn mark(jobs: &mut [Job], season: &Season, (on, yesterday): (NaiveDate, &[Warning])) {
    let Some(before) = on.pred_opt().filter(|_| !jobs.is_empty() && !yesterday.is_empty()) else { return };
    let season = &season.on(before);
    let Some(site) = season.site() else { return };
    let walk = Walk::of(season);
    let sheet = Sheet { season, on: before, listed_for: listed_for(before, ListedFor::Tomorrow), units: site.units };
    let listed = jobs::listed(sheet, yesterday.iter().filter(|w| w.put_off_until.is_none()));
    // What was ticked today of that list counts as well.
    let ticks = Ticks::of(season, walk.codes(), on);
    let settled = |step: &str, bench: &str| {
        let tick = walk.at(bench).and_then(|at| ticks.find(at, step, on));
        tick.is_some_and(|tick| tick.outcome != JobOutcome::Postponed)
    };
    for job in jobs {
        let was_listed = |bench: &String| listed.contains(&(job.step, bench.clone()));
        let left = job.all().any(|bench| was_listed(bench) && !settled(job.step, bench));
        job.left = left;
    }
}
