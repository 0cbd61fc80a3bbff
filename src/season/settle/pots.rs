//! Pots that do not add up: more moved or sold than stand, or two lots on one bench.

use super::{Unsettled, Writer};
use crate::record::{Entry, Kind, Line, Place};
use crate::season::Season;
use crate::season::check::pots_words;
use crate::season::pots::{CountConflict, touches};
use chrono::NaiveDate;
use uuid::Uuid;

/// Pots that do not add up.
#[derive(Debug, Clone, PartialEq)]
pub struct PotsLeft {
    /// The bench.
    pub bench: String,
    /// The day.
    pub day: NaiveDate,
    /// The entry that says so; `None` for a placement of the plan.
    pub entry: Option<Uuid>,
    /// The entry that it does not go together with, where there is one.
    pub other: Option<Uuid>,
    /// What is wrong, and what would settle it.
    pub text: String,
    /// Who wrote the line that says so.
    pub writer: Option<Writer>,
    /// Who wrote what it does not go together with.
    pub other_writer: Option<Writer>,
}

impl Season {
    /// Pots that do not add up, by day and bench.
    pub(super) fn pots_left(&self) -> Vec<Unsettled> {
        let day = self.settled_on();
        let found = self.ledger(day).conflicts.iter().map(|conflict| self.pots_of(conflict, day));
        let mut found: Vec<PotsLeft> = found.filter(|pots| pots.day <= day).collect();
        let order = |pots: &PotsLeft| (pots.day, pots.bench.clone(), pots.entry, pots.text.clone());
        found.sort_by_cached_key(order);
        found.into_iter().map(Unsettled::Pots).collect()
    }

    fn pots_of(&self, conflict: &CountConflict, day: NaiveDate) -> PotsLeft {
        let (bench, text, _) = pots_words(self, conflict);
        let bench = bench.to_owned();
        let (written, line, other) = match conflict {
            CountConflict::TooMany { entry, .. } => {
                let entry = self.entry(*entry);
                let other = entry.and_then(|entry| self.touched_before(&bench, entry)).cloned().map(Line::Entry);
                (entry.map(Entry::day), entry.cloned().map(Line::Entry), other)
            }
            CountConflict::OtherLotMoved { entry, standing, .. } => {
                let entry = self.entry(*entry);
                let until = entry.map_or(day, Entry::day);
                let other = self.brought(&bench, standing, (until, entry));
                (entry.map(Entry::day), entry.cloned().map(Line::Entry), other)
            }
            CountConflict::OtherLotPlaced { from, lot, standing, .. } => {
                let placed = self.placed(&bench, lot, *from);
                (Some(*from), placed, self.brought(&bench, standing, (*from, None)))
            }
        };
        let id = |line: &Option<Line>| match line {
            Some(Line::Entry(entry)) => Some(entry.id),
            _ => None,
        };
        PotsLeft {
            day: written.unwrap_or(day),
            entry: id(&line),
            other: id(&other),
            writer: line.map(|line| self.writer_of_line(&line)),
            other_writer: other.map(|line| self.writer_of_line(&line)),
            bench,
            text,
        }
    }

    /// The last entry before another one that changed how many pots stand on a bench.
    fn touched_before(&self, bench: &str, entry: &Entry) -> Option<&Entry> {
        let on = |e: &&Entry| matches!(&e.place, Place::Bench(code) if **code == *bench) && touches(e);
        let counting = |e: &&Entry| e.order() < entry.order() && !self.strikes.struck(e, self.settled_on());
        let at = self.index.at(&entry.place).iter().rev().filter_map(|at| self.at(*at));
        at.filter(on).find(counting)
    }

    /// What brought a lot onto a bench up to a day: the last move to it, else its placement.
    fn brought(&self, bench: &str, lot: &str, (until, but): (NaiveDate, Option<&Entry>)) -> Option<Line> {
        let moved = |e: &&Entry| matches!(&*e.kind, Kind::Moved { to, .. } if to == bench);
        let counts = |e: &&Entry| e.day() <= until && !self.strikes.struck(e, self.settled_on());
        let of_lot = |e: &&Entry| self.lot_of(e).is_some_and(|of| of == lot);
        let pots = self.index.pots().iter().rev().filter_map(|at| self.at(*at));
        let other = |e: &&Entry| but.is_none_or(|but| e.order() < but.order());
        let moved = pots.filter(moved).filter(counts).filter(other).find(of_lot);
        moved.cloned().map(Line::Entry).or_else(|| self.placed(bench, lot, until))
    }

    /// The last placement of a lot on a bench up to a day.
    fn placed(&self, bench: &str, lot: &str, until: NaiveDate) -> Option<Line> {
        let all = self.view().placements.iter().rev();
        let mut here = all.filter(|p| p.bench == bench && p.lot == lot && p.pots > 0 && p.from <= until);
        here.next().cloned().map(Line::Placement)
    }
}
