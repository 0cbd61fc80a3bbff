//! Damp days: humidity read high late enough in the day to say that leaves stay wet. Gray mold on bracts and, before color, leaf
//! troubles go by the same days.

use super::BenchDay;
use super::climate_days::deciding;
use crate::dates::days_between;
use crate::record::{Entry, Kind};
use chrono::Timelike;

/// Damp readings on enough of three days running, the last of them counting; else none.
pub(super) fn damp_days<'a>(bench: &BenchDay<'a>) -> Vec<(&'a Entry, f64)> {
    let limits = &bench.limits().light;
    let late_enough = |e: &Entry| {
        let seconds = e.at.time().num_seconds_from_midnight();
        seconds > limits.damp_hour.saturating_mul(3600)
    };
    let mut damp = deciding(bench, |e| match e.kind {
        Kind::Climate { humidity_percent, .. } if late_enough(e) => humidity_percent,
        _ => None,
    });
    damp.retain(|(_, percent)| *percent > limits.damp_percent);
    damp.dedup_by_key(|(e, _)| e.day());
    let Some((last, _)) = damp.last().copied().filter(|(e, _)| bench.age(e) <= limits.climate_days) else {
        return Vec::new();
    };
    damp.retain(|(e, _)| days_between(e.day(), last.day()) <= 2);
    if damp.len() >= usize::try_from(limits.damp_days).unwrap_or(usize::MAX) { damp } else { Vec::new() }
}
