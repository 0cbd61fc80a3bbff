//! Warnings of something done once: they keep their level for a while, then stand as watch, then end.

use super::{BenchDay, Severity};
use crate::dates::days_between;
use chrono::NaiveDate;

/// The level of a warning that began on a day: its own, then watch, then nothing.
pub(super) fn fading(bench: &BenchDay<'_>, level: Severity, began: NaiveDate) -> Option<Severity> {
    let limits = &bench.limits().growth;
    match days_between(began, bench.day()) {
        n if n < 0 => None,
        n if n <= limits.stands => Some(level),
        n if n <= limits.stands + limits.lingers => Some(level.min(Severity::Watch)),
        _ => None,
    }
}
