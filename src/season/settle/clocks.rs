//! Laptops whose clock is ahead: their lines are later than now. They count as written; the slow or fast clock is what is mended.

use super::{Unsettled, Writer};
use crate::record::Kind;
use crate::season::Season;
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::BTreeMap;
use uuid::Uuid;

/// Clocks of two laptops may differ by so much.
const MAY_DIFFER: TimeDelta = TimeDelta::minutes(10);

/// Lines of one laptop that are later than now.
#[derive(Debug, Clone, PartialEq)]
pub struct ClockAhead {
    /// Who wrote the latest of them, and when by that laptop's clock.
    pub writer: Writer,
    /// The lines, in their order.
    pub lines: Vec<Uuid>,
    /// By how much the latest is ahead, minutes.
    pub minutes: i64,
}

impl Season {
    /// The laptops whose lines are later than an instant, by their latest line.
    pub(super) fn clocks_ahead(&self, now: DateTime<Utc>) -> Vec<Unsettled> {
        let limit = now.checked_add_signed(MAY_DIFFER).unwrap_or(DateTime::<Utc>::MAX_UTC);
        let from = self.entries.partition_point(|e| e.instant() <= limit);
        let later = self.entries.iter().skip(from).filter(|e| {
            let strike = matches!(*e.kind, Kind::Strike { .. });
            strike || !self.strikes.struck(e, chrono::NaiveDate::MAX)
        });
        let mut lines: Vec<(DateTime<Utc>, Uuid, Writer)> =
            later.map(|e| (e.instant(), e.id, self.writer(e))).collect();
        for line in self.plan.lines() {
            let writer = self.writer_of_line(&line);
            if let Some(at) = writer.at.map(|at| at.to_utc()).filter(|at| *at > limit) {
                lines.push((at, line.id(), writer));
            }
        }
        lines.sort_by_key(|(at, id, _)| (*at, *id));
        let mut laptops: BTreeMap<Option<String>, ClockAhead> = BTreeMap::new();
        for (at, id, writer) in lines {
            let minutes = at.signed_duration_since(now).num_minutes();
            let of = laptops.entry(writer.laptop.clone());
            let of = of.or_insert_with(|| ClockAhead { writer: writer.clone(), lines: Vec::new(), minutes });
            of.lines.push(id);
            (of.writer, of.minutes) = (writer, minutes);
        }
        let mut all: Vec<ClockAhead> = laptops.into_values().collect();
        all.sort_by_key(|of| (of.writer.at.map(|at| at.to_utc()), of.lines.last().copied()));
        all.into_iter().map(Unsettled::Clock).collect()
    }
}
