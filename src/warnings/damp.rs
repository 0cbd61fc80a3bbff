//! Damp days: humidity read high late enough in the day to say that leaves stay wet, or on a logger's day enough humid hours. Gray
//! mold on bracts and, before color, leaf troubles go by the same days.

use super::climate_days::deciding;
use super::{BenchDay, Figure};
use crate::dates::days_between;
use crate::limits::{Key, Light};
use crate::record::{Entry, Kind};
use chrono::Timelike;

/// A damp day: its entry, and what makes it damp, with the limit that is held against.
#[derive(Debug, Clone, Copy)]
pub(super) struct Damp<'a> {
    pub(super) entry: &'a Entry,
    pub(super) figure: Figure,
    pub(super) value: f64,
    pub(super) limit: Key<f64>,
}

/// Damp days on enough of three days running, the last of them counting; else none.
pub(super) fn damp_days<'a>(bench: &BenchDay<'a>) -> Vec<Damp<'a>> {
    let limits = &bench.limits().light;
    let mut damp = damp_air(bench);
    for hours in damp_hours(bench) {
        if damp.iter().all(|known| known.entry.day() != hours.entry.day()) {
            damp.push(hours);
        }
    }
    damp.sort_by_key(|day| day.entry.order());
    damp.dedup_by_key(|day| day.entry.day());
    let Some(last) = damp.last().map(|day| day.entry).filter(|e| bench.age(e) <= limits.climate_days) else {
        return Vec::new();
    };
    damp.retain(|day| days_between(day.entry.day(), last.day()) <= 2);
    if damp.len() >= usize::try_from(limits.damp_days).unwrap_or(usize::MAX) { damp } else { Vec::new() }
}

/// The dampest of some days: by the humidity, where it was read high; else by the hours.
pub(super) fn dampest<'a>(days: &[Damp<'a>]) -> Option<Damp<'a>> {
    let of = |figure: Figure| {
        days.iter().copied().filter(|day| day.figure == figure).max_by(|a, b| a.value.total_cmp(&b.value))
    };
    of(Figure::Humidity).or_else(|| of(Figure::HumidHours))
}

/// Readings over the limit, taken late enough in the day.
fn damp_air<'a>(bench: &BenchDay<'a>) -> Vec<Damp<'a>> {
    let limits = &bench.limits().light;
    let late_enough = |e: &Entry| {
        let seconds = e.at.time().num_seconds_from_midnight();
        seconds > limits.damp_hour.saturating_mul(3600)
    };
    let read = deciding(bench, |e| match *e.kind {
        Kind::Climate { humidity_percent, .. } if late_enough(e) => humidity_percent,
        _ => None,
    });
    let damp = read.into_iter().filter(|(_, percent)| *percent > limits.damp_percent);
    damp.map(|(entry, value)| Damp { entry, figure: Figure::Humidity, value, limit: Light::damp_percent }).collect()
}

/// Days of a logger with enough hours over the limit; hours counted over a lower humidity say nothing of it.
fn damp_hours<'a>(bench: &BenchDay<'a>) -> impl Iterator<Item = Damp<'a>> + use<'a> {
    let limits = &bench.limits().light;
    let (most, over) = (limits.damp_hours, limits.damp_percent);
    let counted = deciding(bench, |e| match &*e.kind {
        Kind::Climate { log, .. } if e.is_from_logger() && log.humid_over.is_some_and(|percent| percent >= over) => {
            log.humid_hours
        }
        _ => None,
    });
    let damp = counted.into_iter().filter(move |(_, hours)| *hours >= most);
    damp.map(|(entry, value)| Damp { entry, figure: Figure::HumidHours, value, limit: Light::damp_hours })
}
