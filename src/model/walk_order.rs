//! Which bench of the walk comes next, and which cannot be walked now.

use super::Model;
use crate::warnings::{Severity, due};
use chrono::{DateTime, FixedOffset};

/// Why a bench cannot be walked now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shut {
    /// Restricted entry until then, in the site's time.
    Closed(DateTime<FixedOffset>),
    /// It has no pots.
    Empty,
    /// The record could not be read to its end: what is closed is not known.
    Unread,
}

impl Shut {
    /// In words.
    pub fn text(self, model: &Model, code: &str) -> String {
        match self {
            Self::Closed(until) => {
                let until = model.day_and_time(until);
                format!("{code} is closed until {until} ({}).", model.known_here())
            }
            Self::Empty => format!("{code} is empty."),
            Self::Unread => format!("{code} cannot be walked: {UNREAD}"),
        }
    }
}

/// Why nothing can be walked while the record is not read.
pub const UNREAD: &str = "the season could not be read, so it is not known which benches are closed.";

/// Why a bench cannot be walked now; `None` when it can.
pub fn shut(model: &Model, code: &str) -> Option<Shut> {
    if model.unread.is_some() {
        return Some(Shut::Unread);
    }
    if let Some(until) = model.closed_until(code) {
        return Some(Shut::Closed(until));
    }
    model.season.standing(code, model.day).is_none().then_some(Shut::Empty)
}

/// The closed benches with pots on them where a check is due and not done, in walking order.
pub fn closed_and_due(model: &Model) -> Vec<String> {
    let closed = model.season.benches().iter().filter(|b| is_closed_and_due(model, &b.bench));
    closed.map(|b| b.bench.clone()).collect()
}

fn is_closed_and_due(model: &Model, code: &str) -> bool {
    model.closed_until(code).is_some()
        && model.season.standing(code, model.day).is_some()
        && due(&model.season, code, model.day, &model.limits).iter().any(|c| !c.done)
}

/// What is said where no bench is left to walk: that every one is walked, and which are closed. `all` begins the
/// sentence.
pub fn all_walked(model: &Model, all: &str) -> String {
    if model.unread.is_some() {
        return format!("No bench can be walked: {UNREAD}");
    }
    let closed = closed_and_due(model);
    match closed.len() {
        0 => format!("{all} open benches walked."),
        1..=MOST_NAMED => format!("{all} open benches walked; closed: {}.", closed.join(" ")),
        n => format!("{all} open benches walked; {n} closed."),
    }
}

/// More closed benches than this are counted, not named.
const MOST_NAMED: usize = 4;

/// True where a check is due and not done, and the bench can be walked.
fn open(model: &Model, code: &str) -> bool {
    if model.unread.is_some() || model.cache.fresh(code).is_some_and(|s| s.due.iter().all(|c| c.done)) {
        return false;
    }
    let left = due(&model.season, code, model.day, &model.limits).iter().any(|c| !c.done);
    left && model.closed_until(code).is_none()
}

/// The first bench in walking order after this one that has a check due, going round at the end; never this one itself.
pub fn next_open(model: &Model, after: Option<&str>) -> Option<String> {
    let benches = model.season.benches();
    let start = after.and_then(|code| benches.iter().position(|b| b.bench == code)).map_or(0, |i| i.saturating_add(1));
    let (before, behind) = benches.split_at(start.min(benches.len()));
    let mut round = behind.iter().chain(before);
    round.find(|b| Some(b.bench.as_str()) != after && open(model, &b.bench)).map(|b| b.bench.clone())
}

/// A bench that the walk comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ahead {
    /// Its code.
    pub bench: String,
    /// The highest severity of what is wrong with the bench itself.
    pub level: Option<Severity>,
    /// Under restricted entry: the walk passes it over.
    pub is_closed: bool,
}

/// The benches after this one that have a check due, in walking order and going round at the end, up to so many open ones;
/// those closed between them too. By the assessments at hand: nothing is worked out here, for this is drawn with every key.
pub fn ahead(model: &Model, after: &str, most: usize) -> Vec<Ahead> {
    let benches = model.season.benches();
    let start = benches.iter().position(|b| b.bench == after).map_or(0, |i| i.saturating_add(1));
    let (before, behind) = benches.split_at(start.min(benches.len()));
    let (mut found, mut open) = (Vec::new(), 0);
    for bench in behind.iter().chain(before).filter(|b| b.bench != after) {
        let Some(summary) = model.cache.bench(&bench.bench) else { continue };
        if summary.standing.is_none() || summary.due.iter().all(|c| c.done) {
            continue;
        }
        let is_closed = model.closed_until(&bench.bench).is_some();
        found.push(Ahead { bench: bench.bench.clone(), level: model.cache.own_worst(&bench.bench), is_closed });
        open += usize::from(!is_closed);
        if open >= most {
            break;
        }
    }
    found
}

/// The closed benches skipped between two benches, those with something due.
pub fn closed_between(model: &Model, from: &str, to: &str) -> Vec<String> {
    let benches = model.season.benches();
    let place = |code: &str| benches.iter().position(|b| b.bench == code).unwrap_or(0);
    let (from, to) = (place(from), place(to));
    benches
        .iter()
        .take(to)
        .skip(from.saturating_add(1))
        .filter(|b| is_closed_and_due(model, &b.bench))
        .map(|b| b.bench.clone())
        .collect()
}

/// The nearest bench before or after in walking order that can be walked, checks due or not.
pub fn neighbor(model: &Model, code: &str, onward: bool) -> Option<String> {
    let benches = model.season.benches();
    let at = benches.iter().position(|b| b.bench == code)?;
    let can = |b: &&crate::record::Bench| shut(model, &b.bench).is_none();
    let found = if onward {
        benches.iter().skip(at.saturating_add(1)).find(can)
    } else {
        benches.iter().take(at).rev().find(can)
    };
    found.map(|b| b.bench.clone())
}
