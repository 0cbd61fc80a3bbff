//! What was written of each night: cloth drawn, lamps on. The latest entry of a night counts.

use super::BenchDay;
use crate::record::{Entry, Kind, KindName};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// The latest entry of each night, by night.
pub(super) fn nights<'a>(bench: &BenchDay<'a>, kind: KindName) -> BTreeMap<NaiveDate, (bool, &'a Entry)> {
    let each = bench.of(kind).iter().copied().filter_map(|e| match &*e.kind {
        Kind::Blackout { night, covered } => Some((*night, (*covered, e))),
        Kind::Lights { night, on } => Some((*night, (*on, e))),
        _ => None,
    });
    each.collect()
}
