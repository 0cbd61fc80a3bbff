//! Warnings the grower set aside until a day.
//!
//! A `put-off` names a warning; it holds until its day comes, or until the warning gets worse: a higher level than it had when
//! it was put off, as the record stood at that instant (for a lot or house: at the end of that day). A warning that was not
//! there when it was put off is back as soon as it is urgent. The latest put-off of a warning counts. One written on a house
//! or lot holds for each of its benches, and for what is said of that house or lot as a whole.

use super::bench_day::BenchDay;
use super::{Group, Severity, Warning};
use crate::record::{Entry, Kind, KindName, Term};
use chrono::NaiveDate;

/// Marks the warnings of a bench that are put off. `level_then` gives the severity of a warning when an entry put it off.
pub(super) fn of_bench(
    bench: &BenchDay<'_>,
    warnings: &mut [Warning],
    level_then: impl Fn(&Warning, &Entry) -> Option<Severity>,
) {
    let entries = bench.of(KindName::PutOff);
    if entries.is_empty() {
        return;
    }
    for warning in warnings {
        let Some((entry, until)) = latest(entries.iter().copied(), warning, bench.day()) else { continue };
        let then = level_then(warning, entry);
        mark(warning, until, then);
    }
}

/// Marks the warnings of a lot or house that are put off. `level_then` gives the severity of a warning when an entry put it off.
pub(super) fn of_group(
    group: &Group<'_, '_>,
    day: NaiveDate,
    warnings: &mut [Warning],
    level_then: impl Fn(&Warning, &Entry) -> Option<Severity>,
) {
    for warning in warnings {
        let written = group.benches.iter().flat_map(|b| b.of(KindName::PutOff).iter().copied());
        let of_place = written.filter(|e| e.place == warning.place);
        let Some((entry, until)) = latest(of_place, warning, day) else { continue };
        let then = level_then(warning, entry);
        mark(warning, until, then);
    }
}

/// The latest put-off of a warning, if its day has not come.
fn latest<'a>(
    entries: impl Iterator<Item = &'a Entry>,
    warning: &Warning,
    day: NaiveDate,
) -> Option<(&'a Entry, NaiveDate)> {
    let until = |e: &Entry| match &*e.kind {
        Kind::PutOff { warning: name, until, .. } if name == warning.name.code() => Some(*until),
        _ => None,
    };
    let named = entries.filter_map(|e| Some((e, until(e)?)));
    named.max_by_key(|(e, _)| e.order()).filter(|(_, until)| *until > day)
}

fn mark(warning: &mut Warning, until: NaiveDate, then: Option<Severity>) {
    if warning.level <= then.unwrap_or(Severity::Act) {
        warning.put_off_until = Some(until);
    }
}
