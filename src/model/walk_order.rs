//! Which bench of the walk comes next, and which cannot be walked now.

use super::Model;
use crate::dates;
use crate::warnings::due;

/// Why a bench cannot be walked now, in words; `None` when it can.
pub fn shut(model: &Model, code: &str) -> Option<String> {
    if let Some(until) = model.closed_until(code) {
        let on = if until.date_naive() == model.day { String::new() } else { dates::short(until.date_naive()) + " " };
        return Some(format!(
            "{code} is closed until {on}{}, as known here; the posted sign decides.",
            dates::time(&until)
        ));
    }
    match model.season.standing(code, model.day) {
        Some(_) => None,
        None => Some(format!("{code} is empty.")),
    }
}

/// True where a check is due and not done, and the bench can be walked.
fn open(model: &Model, code: &str) -> bool {
    if model.cache.fresh(code).is_some_and(|s| s.due.iter().all(|c| c.done)) {
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

/// The closed benches skipped between two benches.
pub fn closed_between(model: &Model, from: &str, to: &str) -> Vec<String> {
    let benches = model.season.benches();
    let place = |code: &str| benches.iter().position(|b| b.bench == code).unwrap_or(0);
    let (from, to) = (place(from), place(to));
    benches
        .iter()
        .take(to)
        .skip(from.saturating_add(1))
        .filter(|b| model.closed_until(&b.bench).is_some())
        .map(|b| b.bench.clone())
        .collect()
}

/// The nearest bench before or after in walking order that can be walked, checks due or not.
pub fn neighbor(model: &Model, code: &str, onward: bool) -> Option<String> {
    let benches = model.season.benches();
    let at = benches.iter().position(|b| b.bench == code)?;
    let can = |b: &&&crate::record::Bench| shut(model, &b.bench).is_none();
    let found = if onward {
        benches.iter().skip(at.saturating_add(1)).find(can)
    } else {
        benches.iter().take(at).rev().find(can)
    };
    found.map(|b| b.bench.clone())
}
