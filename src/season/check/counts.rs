//! No more pots may be moved or sold than stand, and one lot stands on a bench at a time. A fault lies with the new line that
//! says so itself, else with the first new line that bears on that bench (a strike of a count, a smaller placement, a sale
//! written late).

use super::SeasonFault;
use crate::record::{Entry, Kind, Line, Place};
use crate::season::Season;
use crate::season::pots::CountConflict;
use chrono::NaiveDate;
use uuid::Uuid;

/// What tells one conflict from another, whatever its amounts.
#[derive(PartialEq)]
enum Mark<'a> {
    Entry(Uuid),
    Placement(&'a str, NaiveDate),
}

fn mark(conflict: &CountConflict) -> Mark<'_> {
    match conflict {
        CountConflict::TooMany { entry, .. } | CountConflict::OtherLotMoved { entry, .. } => Mark::Entry(*entry),
        CountConflict::OtherLotPlaced { bench, from, .. } => Mark::Placement(bench, *from),
    }
}

/// The conflicts that come with the new lines.
pub(super) fn conflicts(kept: &Season, all: &Season, new: &[&Line]) -> Vec<SeasonFault> {
    let after = &all.ledger(NaiveDate::MAX).conflicts;
    if after.is_empty() {
        return Vec::new();
    }
    let before: Vec<Mark<'_>> = kept.ledger(NaiveDate::MAX).conflicts.iter().map(mark).collect();
    after.iter().filter(|t| !before.contains(&mark(t))).map(|t| fault(all, new, t)).collect()
}

/// A conflict in words: the bench, what is wrong and what would be right, and the field it lies in.
pub(in crate::season) fn words<'a>(all: &Season, conflict: &'a CountConflict) -> (&'a str, String, &'static str) {
    match conflict {
        CountConflict::TooMany { entry, bench, taken, standing } => {
            let text = match all.entry(*entry).map(|e| (e.day(), &*e.kind)) {
                Some((day, Kind::Moved { .. })) => {
                    format!("{taken} moved off bench {bench} on {day}, but {standing} are there; {}", give(*standing))
                }
                Some((day, _)) => {
                    format!("{taken} sold from bench {bench} on {day}, but {standing} are there; {}", give(*standing))
                }
                None => format!("{taken} taken off bench {bench}, but {standing} are there; {}", give(*standing)),
            };
            (bench.as_str(), text, "pots")
        }
        CountConflict::OtherLotMoved { bench, lot, standing, .. } => {
            let text = format!(
                "{bench} already holds lot {standing}, and lot {lot} cannot join it; give an empty bench or one \
                 of lot {lot}, or enter a shared bench as two benches"
            );
            (bench.as_str(), text, "to")
        }
        CountConflict::OtherLotPlaced { bench, from, lot, standing } => {
            let text = format!(
                "{bench} still holds lot {standing} on {from}, and lot {lot} cannot join it; move or sell those \
                 pots first, or enter a shared bench as two benches"
            );
            (bench.as_str(), text, "bench")
        }
    }
}

fn fault(all: &Season, new: &[&Line], conflict: &CountConflict) -> SeasonFault {
    let own = new.iter().position(|line| says(line, &mark(conflict)));
    let (bench, text, field) = words(all, conflict);
    if let Some(index) = own {
        return SeasonFault::new(index, field, text);
    }
    let index = new.iter().position(|line| bears_on(all, line, bench)).unwrap_or(0);
    SeasonFault { index, field: None, text: format!("with this line pots no longer add up: {text}") }
}

fn give(standing: u32) -> String {
    if standing == 0 {
        "first log how pots came there (a placement or a move)".to_owned()
    } else {
        format!("give {standing} at most, or log a count first")
    }
}

fn says(line: &Line, mark: &Mark<'_>) -> bool {
    match (line, mark) {
        (Line::Entry(e), Mark::Entry(id)) => e.id == *id,
        (Line::Placement(p), Mark::Placement(bench, from)) => p.bench == *bench && p.from == *from,
        _ => false,
    }
}

fn bears_on(all: &Season, line: &Line, bench: &str) -> bool {
    let on = |e: &Entry| {
        matches!(&e.place, Place::Bench(b) if **b == *bench) && crate::season::pots::touches(e)
            || matches!(&*e.kind, Kind::Moved { to, .. } if to == bench)
    };
    match line {
        Line::Placement(p) => p.bench == bench,
        Line::Entry(e) => match *e.kind {
            Kind::Strike { entry, .. } => all.entry(entry).is_some_and(on),
            _ => on(e),
        },
        _ => false,
    }
}
