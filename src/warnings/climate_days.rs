//! Which climate entry of a day counts. Readings by hand all do; on a day with an entry of a logger the one that the most readings
//! were taken for decides, of equal ones the later. It decides figure by figure: a logger without humidity leaves the hygrometer's
//! reading in force.

use super::BenchDay;
use crate::record::{Entry, Kind, KindName};

/// Readings a climate entry is made of; `None` for one by hand.
fn readings(entry: &Entry) -> Option<u32> {
    if let Kind::Climate { log, .. } = &*entry.kind { log.readings } else { None }
}

/// The entries of a logger, one a day: the one with the most readings, of equal ones the later. Entries come oldest first.
pub fn logger_days<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<&'a Entry> {
    let mut days: Vec<&Entry> = Vec::new();
    for entry in entries.into_iter().filter(|entry| entry.is_from_logger()) {
        match days.last_mut() {
            Some(last) if last.day() == entry.day() => {
                if readings(entry) >= readings(last) {
                    *last = entry;
                }
            }
            _ => days.push(entry),
        }
    }
    days
}

/// The climate entries with a figure, oldest first: of a day with a logger the one that decides, of any other day all of them.
pub(super) fn deciding<'a>(bench: &BenchDay<'a>, figure: impl Fn(&'a Entry) -> Option<f64>) -> Vec<(&'a Entry, f64)> {
    let with = bench.of(KindName::Climate).iter().copied().filter_map(|e| figure(e).map(|value| (e, value)));
    let mut all: Vec<(&Entry, f64)> = Vec::new();
    for (entry, value) in with {
        let same_day = all.last().filter(|(last, _)| last.day() == entry.day());
        // A logger's entry stands for all before it of that day; one of fewer readings, or by hand, adds nothing to it.
        match same_day {
            Some((last, _)) if last.is_from_logger() && readings(entry) < readings(last) => continue,
            Some(_) if entry.is_from_logger() => {
                while all.last().is_some_and(|(last, _)| last.day() == entry.day()) {
                    all.pop();
                }
            }
            _ => {}
        }
        all.push((entry, value));
    }
    all
}
