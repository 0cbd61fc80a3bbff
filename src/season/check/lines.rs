//! What a line names must be there; what is kept under its key must be the same.

use super::{SeasonFault, same};
use crate::record::{Entry, Kind, Line, LineKey, Place};
use crate::season::Season;
use std::collections::HashMap;
use uuid::Uuid;

/// One key and number of version 1 must be one content, and so must one id.
pub(super) fn revisions(kept: &Season, new: &[&Line]) -> Vec<SeasonFault> {
    let plan = |line: &Line| !matches!(line, Line::Entry(_));
    if !new.iter().any(|line| plan(line)) {
        return Vec::new();
    }
    let mut faults = Vec::new();
    let lines = kept.plan().lines();
    let mut known: HashMap<Revised, &Line> = lines.iter().map(|line| (revised(line), line)).collect();
    for (index, line) in new.iter().copied().enumerate().filter(|(_, line)| plan(line)) {
        let first = *known.entry(revised(line)).or_insert(line);
        if first == line {
            continue;
        }
        faults.push(match line.revision().map_or(1, |r| r.rev) {
            _ if line.revision().is_some_and(|r| r.at.is_some()) => {
                let text = format!("{} is known as another line of the plan; leave the id out", line.id());
                SeasonFault::new(index, "id", text)
            }
            rev => {
                let text = format!(
                    "{rev} of {} is known with other content; leave that line as it was, or give the change a higher rev",
                    line.key()
                );
                SeasonFault::new(index, "rev", text)
            }
        });
    }
    faults
}

/// What one content belongs to: the key and number of a line of version 1, the id of any other.
type Revised = (Option<(LineKey, u32)>, Option<Uuid>);

fn revised(line: &Line) -> Revised {
    match line.revision() {
        Some(revision) if revision.at.is_none() => (Some((line.key(), revision.rev)), None),
        _ => (None, Some(line.id())),
    }
}

/// A known id must be the same entry.
pub(super) fn ids(kept: &Season, new: &[&Line]) -> Vec<SeasonFault> {
    let mut seen: HashMap<Uuid, &Entry> = HashMap::new();
    let mut faults = Vec::new();
    for (index, line) in new.iter().enumerate() {
        let Line::Entry(entry) = line else { continue };
        let first = kept.entry(entry.id).unwrap_or_else(|| seen.entry(entry.id).or_insert(entry));
        if !same(first, entry) {
            let (at, place) = (first.at.format("%Y-%m-%dT%H:%M:%S%:z"), first.place.code());
            let text = format!(
                "{} is known as another entry ({} on {place} at {at}); entries are never changed: \
                 strike that one out and write a new one without an id",
                entry.id,
                crate::record::Term::code(first.name()),
            );
            faults.push(SeasonFault::new(index, "id", text));
        }
    }
    faults
}

/// Benches, houses, lots and entries that a line names must be known.
pub(super) fn names<'s>(all: &'s Season, index: usize, line: &Line) -> Vec<SeasonFault> {
    let mut faults = Vec::new();
    // The names that are known are listed only where one is missing.
    let mut missing = |field: &str, found: bool, what: &str, code: &str, known: &dyn Fn() -> Vec<&'s str>| {
        if !found {
            faults.push(SeasonFault::new(index, field, unknown(what, code, &known())));
        }
    };
    let benches = &|| all.benches().iter().map(|b| b.bench.as_str()).collect::<Vec<_>>();
    let lots = &|| all.lots().into_iter().map(|l| l.lot.as_str()).collect::<Vec<_>>();
    match line {
        Line::Site(_) | Line::Lot(_) | Line::Bench(_) => {}
        Line::Placement(p) => {
            missing("bench", all.bench(&p.bench).is_some(), "bench", &p.bench, benches);
            missing("lot", all.lot(&p.lot).is_some(), "lot", &p.lot, lots);
        }
        Line::LotHistory(h) => missing("lot", all.lot(&h.lot).is_some(), "lot", &h.lot, lots),
        Line::Order(o) => missing("lot", all.lot(&o.lot).is_some(), "lot", &o.lot, lots),
        Line::Trial(t) => missing("lot", all.lot(&t.lot).is_some(), "lot", &t.lot, lots),
        Line::Plot(p) => {
            missing("bench", all.bench(&p.bench).is_some(), "bench", &p.bench, benches);
            let trial = all.trial(&p.trial);
            let codes = &|| all.trials().into_iter().map(|t| t.trial.as_str()).collect();
            missing("trial", trial.is_some(), "trial", &p.trial, codes);
            if let Some(trial) = trial.filter(|t| t.treatment(&p.treatment).is_none()) {
                let (own, known) = (&p.treatment, trial.treatments.join(", "));
                let text = format!("\"{own}\" is not a treatment of {}; known: {known}", trial.trial);
                faults.push(SeasonFault::new(index, "treatment", text));
            }
        }
        Line::Entry(entry) => {
            match &entry.place {
                Place::Bench(b) => missing("bench", all.bench(b).is_some(), "bench", b, benches),
                Place::Lot(l) => missing("lot", all.lot(l).is_some(), "lot", l, lots),
                Place::House(h) => {
                    let found = all.benches().iter().any(|bench| *bench.house == **h);
                    missing("house", found, "house", h, &|| all.houses());
                }
            }
            if let Kind::Moved { to, .. } = &*entry.kind {
                missing("to", all.bench(to).is_some(), "bench", to, benches);
            }
            faults.extend(by_bench(index, entry));
            faults.extend(super::trials::of_plot(all, index, entry));
            faults.extend(strike(all, index, entry));
        }
    }
    faults
}

/// At most this many known names are listed.
const LISTED: usize = 12;

fn unknown(what: &str, code: &str, known: &[&str]) -> String {
    if known.is_empty() {
        return format!("\"{code}\" is not a {what} of this season; none defined yet, add a {what} line");
    }
    let list = known.iter().take(LISTED).copied().collect::<Vec<_>>().join(", ");
    let more = if known.len() > LISTED { ", …" } else { "" };
    format!("\"{code}\" is not a {what} of this season; known: {list}{more}")
}

/// Pots are sold and counted bench by bench, so that the place of every pot is known.
fn by_bench(index: usize, entry: &Entry) -> Option<SeasonFault> {
    let counts = matches!(*entry.kind, Kind::Sold { .. } | Kind::Counted { .. });
    if !counts || matches!(entry.place, Place::Bench(_)) {
        return None;
    }
    let kind = crate::record::Term::code(entry.name());
    let text = format!("cannot take {kind}, pots are tracked by bench; give bench instead, one line for each");
    Some(SeasonFault::new(index, entry.place.field(), text))
}

fn strike(all: &Season, index: usize, entry: &Entry) -> Option<SeasonFault> {
    let Kind::Strike { entry: target, .. } = *entry.kind else { return None };
    let text = match all.entry(target) {
        None => format!("{target} is not an entry of this season; give the id of an entry that is"),
        Some(t) if matches!(*t.kind, Kind::Strike { .. }) => {
            format!("{target} is itself a strike, and a strike cannot be struck; write the entry again instead")
        }
        Some(t) if t.place != entry.place => {
            let (field, code) = (t.place.field(), t.place.code());
            format!("{target} is an entry of {field} {code}; give its own {field}, \"{field}\":\"{code}\"")
        }
        Some(_) => return None,
    };
    Some(SeasonFault::new(index, "entry", text))
}
